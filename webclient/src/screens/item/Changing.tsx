import { useState } from "preact/hooks";
import { FacedWall, Field, Pick, WordsSpot, type Face, type Spot } from "../../parts";
import { value, type ItemPart } from "../../rules";
import { t } from "../../words";
import { marked, spotOf, yard } from "../common";
import { kindOptions } from "../wall/Wall";

export type ItemKind = "item.amended" | "item.placed" | "item.given" | "item.voided";
export type Doing = "amend" | "move" | "give" | "void";
export const DOINGS: { doing: Doing; kind: ItemKind }[] = [
  { doing: "amend", kind: "item.amended" },
  { doing: "move", kind: "item.placed" },
  { doing: "give", kind: "item.given" },
  { doing: "void", kind: "item.voided" },
];

interface ChangingProps {
  item: ItemPart;
  doing: Doing;
  face: Face | null;
  onSave: (kind: ItemKind, body: object, judged?: boolean) => Promise<boolean>;
}

/** What an inspector changes, one thing at a time. */
export function Changing({ item, doing, face, onSave }: ChangingProps) {
  const spot = spotOf(item);
  if (doing === "amend") return <Amend item={item} onSave={(body) => void onSave("item.amended", body)} />;
  if (doing === "give") return <Give item={item} onSave={(body) => void onSave("item.given", body)} />;
  if (doing === "void") return <Void item={item} onSave={(reason) => void onSave("item.voided", { reason }, true)} />;
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

function Amend({ item, onSave }: { item: ItemPart; onSave: (body: Record<string, unknown>) => void }) {
  const [defect, setDefect] = useState<string>(value(item.heads, "defect") ?? "");
  const [wish, setWish] = useState(value(item.heads, "wish") ?? "");
  const body = { ...(defect !== value(item.heads, "defect") ? { defect } : {}), ...(wish !== (value(item.heads, "wish") ?? "") ? { wish } : {}) };
  return (
    <section class="block">
      <Pick label={t("writeup.defect")} value={defect} options={kindOptions()} onChange={setDefect} />
      <Field label={t("writeup.wish")} value={wish} onInput={setWish} lines={2} />
      <button type="button" class="key key-full" disabled={Object.keys(body).length === 0} onClick={() => onSave(body)}>{t("writeup.amend_save")}</button>
    </section>
  );
}

function Give({ item, onSave }: { item: ItemPart; onSave: (body: Record<string, unknown>) => void }) {
  const [crew, setCrew] = useState(value(item.heads, "crew") ?? "");
  const [charge, setCharge] = useState(value(item.heads, "charge") ?? "");
  const options = (yard()?.crews ?? []).map(({ id, name }) => ({ key: id, label: name }));
  const body = { ...(crew ? { crew } : {}), ...(charge ? { charge } : {}) };
  return (
    <section class="block">
      <Pick label={t("writeup.crew")} value={crew} options={options} onChange={setCrew} />
      <Pick label={t("writeup.charge")} value={charge} options={options} onChange={setCharge} />
      <button type="button" class="key key-full" disabled={Object.keys(body).length === 0} onClick={() => onSave(body)}>{t("writeup.give_save")}</button>
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
