import { useState } from "preact/hooks";
import { FacedWall, Field, Pick, WordsSpot, type Face, type Spot } from "../../parts";
import { value, type ItemPart } from "../../rules";
import { t } from "../../words";
import { marked, sendBackReasons, spotOf, yard } from "../common";
import { kindOptions } from "../wall/Wall";

export type ItemKind = "item.amended" | "item.placed" | "item.given" | "item.sent_back" | "item.voided";
export type Doing = "amend" | "move" | "give" | "back" | "void";
export const DOINGS: { doing: Doing; kind: ItemKind }[] = [
  { doing: "amend", kind: "item.amended" },
  { doing: "move", kind: "item.placed" },
  { doing: "give", kind: "item.given" },
  { doing: "back", kind: "item.sent_back" },
  { doing: "void", kind: "item.voided" },
];

/** What is open cannot come back, and what is void is not voided again. */
export const fits = (doing: Doing, state: ItemPart["state"]): boolean => (doing === "back" ? state !== "open" : !(doing === "void" && state === "void"));

interface ChangingProps {
  item: ItemPart;
  doing: Doing;
  face: Face | null;
  onSave: (kind: ItemKind, body: object) => Promise<boolean>;
}

/** What an inspector changes, one thing at a time. */
export function Changing({ item, doing, face, onSave }: ChangingProps) {
  const spot = spotOf(item);
  if (doing === "amend") return <Amend item={item} onSave={(body) => void onSave("item.amended", body)} />;
  if (doing === "give") return <Give item={item} onSave={(body) => void onSave("item.given", body)} />;
  if (doing === "back") return <Back item={item} onSave={(body) => void onSave("item.sent_back", body)} />;
  if (doing === "void") return <Void item={item} onSave={(reason) => void onSave("item.voided", { reason })} />;
  if (!spot) return null;
  const { room, surface } = spot;
  return (
    <section class="block">
      <h2>{t("writeup.move")}</h2>
      {face ? (
        <FacedWall face={face} marks={[marked(item)]} lit={item.id} onSpot={({ along, up }: Spot) => void onSave("item.placed", { room, surface, along, up })} />
      ) : (
        <WordsSpot marks={[marked(item)]} lit={item.id} onSpot={(words) => void onSave("item.placed", { room, surface, words })} />
      )}
    </section>
  );
}

type Words = "defect" | "wish" | "crew" | "charge";

/** Only what was touched here is said: the rest follows what others write while the form is open. */
function useTyped(item: ItemPart, fields: readonly Words[]) {
  const [touched, setTouched] = useState<Partial<Record<Words, string>>>({});
  const stands = (field: Words): string => value(item.heads, field) ?? "";
  const typed = (field: Words): string => touched[field] ?? stands(field);
  const body = Object.fromEntries(fields.filter((field) => typed(field) !== stands(field)).map((field) => [field, typed(field)]));
  const change = (part: Partial<Record<Words, string>>): void => setTouched((before) => ({ ...before, ...part }));
  return { typed, body, change };
}

function Amend({ item, onSave }: { item: ItemPart; onSave: (body: Record<string, unknown>) => void }) {
  const { typed, body, change } = useTyped(item, ["defect", "wish"]);
  return (
    <section class="block">
      <Pick label={t("writeup.defect")} value={typed("defect")} options={kindOptions()} onChange={(defect) => change({ defect })} />
      <Field label={t("writeup.wish")} value={typed("wish")} onInput={(wish) => change({ wish })} lines={2} />
      <button type="button" class="key key-full" disabled={Object.keys(body).length === 0} onClick={() => onSave(body)}>{t("writeup.amend_save")}</button>
    </section>
  );
}

function Give({ item, onSave }: { item: ItemPart; onSave: (body: Record<string, unknown>) => void }) {
  const { typed, body, change } = useTyped(item, ["crew", "charge"]);
  const options = (yard()?.crews ?? []).map(({ id, name }) => ({ key: id, label: name }));
  return (
    <section class="block">
      <Pick label={t("writeup.crew")} value={typed("crew")} options={options} onChange={(crew) => change({ crew })} />
      <Pick label={t("writeup.charge")} value={typed("charge")} options={options} onChange={(charge) => change({ charge })} />
      <button type="button" class="key key-full" disabled={Object.keys(body).length === 0} onClick={() => onSave(body)}>{t("writeup.give_save")}</button>
    </section>
  );
}

/** The way back from a close, a clear or a void that was wrong. */
function Back({ item, onSave }: { item: ItemPart; onSave: (body: Record<string, unknown>) => void }) {
  const [reason, setReason] = useState("shows_under_light");
  const [text, setText] = useState("");
  return (
    <section class="block">
      <p class="second">{t("writeup.back_what")}</p>
      <Pick label={t("recheck.why")} value={reason} options={sendBackReasons()} onChange={setReason} />
      <Field label={t("recheck.words")} value={text} onInput={setText} lines={2} />
      <button type="button" class="key key-full" onClick={() => onSave({ reason, ...(text.trim() ? { text: text.trim() } : {}) })}>{t("recheck.send_back", { numbers: item.number })}</button>
    </section>
  );
}

function Void({ item, onSave }: { item: ItemPart; onSave: (reason: string) => void }) {
  const [reason, setReason] = useState("");
  return (
    <section class="block">
      <Field label={t("writeup.void_why")} value={reason} onInput={setReason} />
      <button type="button" class="key key-full" disabled={!reason.trim()} onClick={() => onSave(reason.trim())}>{t("writeup.void_yes", { n: item.number })}</button>
    </section>
  );
}
