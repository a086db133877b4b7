import { Fragment } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import { Trouble } from "../../ask";
import { askRelease, drawn, settledAt, state, syncNow, write, type Draft, type Drawn } from "../../journal";
import { Field, MarkRow, type MarkKind, type SlabsProps } from "../../parts";
import { to } from "../../route";
import type { Hold } from "../../rules";
import { say, t, tn } from "../../words";
import { gateOf, has, holdWords, moduleView, nameOf, placeLine, Screen, told, useDrawn, useSaving, when, type ModuleView } from "../common";
import { Gone } from "../module/Module";

const MARKS: Partial<Record<Hold["key"], MarkKind>> = { items_cleared: "cleared", item_undecided: "two_values", fact_undecided: "two_values", plan_undecided: "two_values", sheet_undecided: "two_values", sheet_unsigned: "sheet", sheet_stale: "sheet", entry_set_aside: "aside", photos_missing: "only_here", phone_behind: "only_here", coat_missing: "coat", coat_wet: "coat", coat_look: "coat", coat_early: "coat" };

/** What stops a module, as sentences by who can lift them; release, pull back, answer. */
export function Gate({ id }: { id: string }) {
  drawn(id);
  const view = moduleView(id);
  if (!view) return <Gone />;
  return <Stands view={view} />;
}

type Asking = { kind: "pull_back" } | { kind: "answer" } | { kind: "phone"; device: string; seq: number } | null;

function Stands({ view }: { view: ModuleView }) {
  const [asking, setAsking] = useState<Asking>(null);
  const { problem, tell, saving } = useSaving();
  const shown = useDrawn({ module: view.id });
  const { holds, questions } = gateOf(view);
  const release = view.module.release;
  const save = (draft: Draft): Promise<boolean> =>
    saving(async () => {
      await write([draft], [], { drawn: shown });
      setAsking(null);
      told.value = say(`kinds.${draft.kind}`);
    });
  const ask = async (): Promise<void> => {
    told.value = null;
    let why: string | null = null;
    await saving(async () => {
      why = await askedFor(view.id, shown);
    });
    if (why) tell(why);
    void syncNow();
  };
  const share = async (): Promise<void> => {
    const text = shareText(view, release ? questions : holds);
    if (navigator.share) await navigator.share({ title: view.serial, text });
    else {
      await navigator.clipboard.writeText(text);
      told.value = t("gate.shared");
    }
  };
  return (
    <Screen problem={problem} title={t("gate.title", { serial: view.serial })} line={placeLine(view, false)} over={view.serial} overHref={to.module(view.id)} reading slabs={asking ? undefined : slabsOf(view, release ? questions : holds, { ask, share, onPullBack: () => setAsking({ kind: "pull_back" }) })}>
      {release && <p class="met"><b>{t("gate.released_by", { name: nameOf(release.by), time: when(release.time) })}</b></p>}
      {release && questions.length > 0 && <h2 class="late">{t("gate.questioned")}</h2>}
      {!release && <h2>{holds.length === 0 ? t("holds.none") : tn("holds.count", holds.length)}</h2>}
      <Grouped view={view} holds={release ? questions : holds} onPhone={has("shipping") ? (hold) => setAsking({ kind: "phone", device: hold.device, seq: hold.seq }) : undefined} />
      {release && questions.length > 0 && (has("shipping") || has("manager")) && <button type="button" class="key" onClick={() => setAsking({ kind: "answer" })}>{t("gate.answer")}</button>}
      <Asked view={view} asking={asking} onSave={(draft) => void save(draft)} onLeave={() => setAsking(null)} />
      <Past view={view} />
      <p class="second">{t("gate.move_caution")}</p>
    </Screen>
  );
}

/** The reason that a decision of shipping needs, and the entry that it becomes. */
function Asked({ view, asking, onSave, onLeave }: { view: ModuleView; asking: Asking; onSave: (draft: Draft) => void; onLeave: () => void }) {
  const release = view.module.release?.id;
  const about = { module: view.id, about: view.id };
  if (asking?.kind === "phone") {
    const { device, seq } = asking;
    return <Reason onLeave={onLeave} label={t("gate.phone_why")} yes={t("gate.answer_yes")} onYes={(reason) => onSave({ kind: "phone.answered", ...about, body: { device, up_to: seq, reason } })} />;
  }
  if (!asking || !release) return null;
  if (asking.kind === "pull_back") return <Reason onLeave={onLeave} key="back" label={t("gate.pull_back_why")} yes={t("gate.pull_back_yes", { serial: view.serial })} onYes={(reason) => onSave({ kind: "release.pulled_back", ...about, body: { release, reason } })} />;
  return <Reason onLeave={onLeave} key="answer" label={t("gate.answer_why")} yes={t("gate.answer_yes")} onYes={(reason) => onSave({ kind: "release.answered", ...about, body: { release, up_to: settledAt.value.cursor, reason } })} />;
}

/** Asks for the release; what stands in the way, in words, or null when it is given. */
async function askedFor(module: string, shown: Drawn): Promise<string | null> {
  try {
    const found = await askRelease(module, shown);
    if ("given" in found) {
      told.value = t("gate.given");
      return null;
    }
    // Fetched first: the words speak of what stands below them.
    await syncNow();
    return t(found.behind ? "gate.behind" : "gate.refused");
  } catch (error) {
    if (!(error instanceof Trouble)) throw error;
    return `${say(error.key)} ${t("gate.no_answer")}`;
  }
}

/** Holds under who can lift them. */
export function Grouped({ view, holds, onPhone }: { view: ModuleView; holds: Hold[]; onPhone?: ((hold: Extract<Hold, { key: "phone_behind" }>) => void) | undefined }) {
  const groups = new Map<string, Hold[]>();
  for (const hold of holds) groups.set(holdWords(view, hold).who, [...(groups.get(holdWords(view, hold).who) ?? []), hold]);
  return (
    <>
      {[...groups].map(([who, list]) => (
        <section key={who} class="hold-group">
          <h3 class="second">{who}</h3>
          {list.map((hold, index) => {
            const { title, line } = holdWords(view, hold);
            const state = hold.key === "items_open" && hold.sent_back.length > 0 ? "sent_back" : (MARKS[hold.key] ?? "open");
            return (
              <Fragment key={index}>
                <MarkRow state={state} title={title} line={line} href={addressOf(view, hold)} />
                {hold.key === "phone_behind" && onPhone && <button type="button" class="key" onClick={() => onPhone(hold)}>{t("gate.phone_answer")}</button>}
              </Fragment>
            );
          })}
        </section>
      ))}
    </>
  );
}

function addressOf(view: ModuleView, hold: Hold): string | undefined {
  if (hold.key === "items_open") return to.room(view.id, hold.room);
  if (hold.key === "items_cleared") return to.recheck(view.id, hold.room);
  if (hold.key === "item_undecided") return view.items.filter((item) => hold.numbers.includes(item.number)).map((item) => to.item(view.id, item.id))[0];
  if (hold.key === "sheet_stale" || hold.key === "sheet_unsigned" || hold.key === "sheet_undecided") return to.sheet(view.id, hold.sheet);
  if (hold.key.startsWith("coat_")) return to.coats(view.id);
  if (hold.key === "entry_set_aside") return to.manage("aside");
  if (hold.key === "plan_undecided") return to.manage("plan", hold.plan);
  return hold.key === "fact_undecided" ? to.manage("module", view.id) : undefined;
}

function slabsOf(view: ModuleView, holds: Hold[], does: { ask: () => Promise<void>; share: () => Promise<void>; onPullBack: () => void }): SlabsProps | undefined {
  const share = { label: tn("gate.share", holds.length), onPress: () => void does.share() };
  if (view.module.release) {
    if (!has("shipping")) return holds.length > 0 ? { main: share } : undefined;
    const back = { label: t("gate.pull_back"), onPress: does.onPullBack };
    return holds.length > 0 ? { main: share, beside: back } : { main: back };
  }
  const why = !has("shipping") ? t("gate.why_role") : holds.length > 0 ? tn("gate.why_held", holds.length) : state.value.unsent > 0 ? t("gate.why_unsent") : null;
  const release = { label: t("gate.release"), onPress: () => void does.ask(), why };
  return holds.length > 0 ? { main: share, beside: release } : { main: release };
}

function shareText(view: ModuleView, holds: Hold[]): string {
  const lines = holds.map((hold) => {
    const { who, title, line } = holdWords(view, hold);
    return `${who}: ${title}${line ? ` (${line})` : ""}`;
  });
  return [`${view.serial} · ${placeLine(view, false)}`, tn("holds.count", holds.length), ...lines].join("\n");
}

function Reason({ label, yes, onYes, onLeave }: { label: string; yes: string; onYes: (reason: string) => void; onLeave: () => void }) {
  const place = useRef<HTMLElement>(null);
  useEffect(() => place.current?.scrollIntoView({ block: "center" }), []);
  const [reason, setReason] = useState("");
  const [missing, setMissing] = useState(false);
  const press = (): void => (reason.trim() ? onYes(reason.trim()) : setMissing(true));
  return (
    <section class="block" ref={place}>
      <Field label={label} value={reason} onInput={setReason} lines={2} error={missing && !reason.trim() ? t("gate.reason_needed") : null} />
      <div class="key-row">
        <button type="button" class="key" onClick={onLeave}>{t("frame.never_mind")}</button>
        <button type="button" class="key key-full" onClick={press}>{yes}</button>
      </div>
    </section>
  );
}

function Past({ view }: { view: ModuleView }) {
  const { releases, answers } = view.module;
  if (releases.length + answers.length === 0) return null;
  return (
    <section class="block">
      <h2>{t("gate.past")}</h2>
      <ul class="history">
        {releases.map((one) => (
          <li key={one.id}>
            {t("gate.released_by", { name: nameOf(one.by), time: when(one.time) })}
            <p class="second">{t("gate.pulled_back_by", { name: nameOf(one.pulled_back.by), time: when(one.pulled_back.time), reason: one.pulled_back.reason })}</p>
          </li>
        ))}
        {answers.map((one, index) => (
          <li key={index}>{t("gate.answered", { reason: one.reason, name: nameOf(one.by), time: when(one.time) })}</li>
        ))}
      </ul>
    </section>
  );
}
