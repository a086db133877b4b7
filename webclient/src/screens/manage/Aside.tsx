import { useState } from "preact/hooks";
import { to } from "../../route";
import type { SetAsidePart } from "../../rules";
import { known, say, t, tn } from "../../words";
import { moduleView, nameOf, Screen, setAsides, told, when } from "../common";
import { About } from "./AsideAbout";
import { AskReason } from "./AskReason";
import { askOffice } from "./saving";

/** What can never be read cannot be let in either; it stays, whole, as a record. */
const NEVER = ["malformed", "unknown_kind", "same_id_other_bytes"];
const WORDS = { 404: "manager.aside_decided_since", 409: "manager.aside_never" };

/** Entries that the office did not take by itself: what, who, when and why, and a decision on each. */
export function Aside() {
  const all = [...setAsides()].sort((a, b) => (a.time < b.time ? 1 : -1));
  const waiting = all.filter((one) => one.state === "waiting");
  const decided = all.filter((one) => one.state !== "waiting");
  return (
    <Screen title={t("manager.aside")} line={waiting.length > 0 ? tn("manager.aside_waiting", waiting.length) : t("manager.aside_none")} over={t("yard.manage")} overHref={to.manage()}>
      <p>{t("manager.aside_what")}</p>
      {waiting.length > 0 && <h2>{t("manager.aside_undecided")}</h2>}
      {waiting.map((one) => (
        <Waiting key={one.id} entry={one} />
      ))}
      {decided.length > 0 && (
        <section class="block">
          <h2>{t("manager.aside_decided")}</h2>
          <ul class="rows">
            {decided.map((one) => (
              <li key={one.id} class="decided">
                <What entry={one} />
                <p>{t(one.state === "let_in" ? "manager.was_let_in" : "manager.was_kept_out")}</p>
              </li>
            ))}
          </ul>
        </section>
      )}
    </Screen>
  );
}

function What({ entry }: { entry: SetAsidePart }) {
  const view = entry.module ? moduleView(entry.module) : null;
  const kind = say(known(`kinds.${entry.kind}`) ? `kinds.${entry.kind}` : "kinds.unknown");
  return (
    <>
      <h3>
        {kind}
        {view && (
          <>
            {", "}
            <a href={to.module(view.id)}>{view.serial}</a>
          </>
        )}
      </h3>
      <About entry={entry} />
      <p class="second">{t("writeup.by_at", { name: nameOf(entry.by), time: when(entry.time) })}</p>
      <p>{t("manager.aside_why", { reason: say(`reasons.${entry.reason}`) })}</p>
    </>
  );
}

function Waiting({ entry }: { entry: SetAsidePart }) {
  const [problem, setProblem] = useState<string | null>(null);
  const [asking, setAsking] = useState(false);
  const [busy, setBusy] = useState(false);
  const decide = async (way: "let-in" | "keep-out", body: object): Promise<void> => {
    setBusy(true);
    const why = await askOffice(`/api/set-aside/${entry.sha256}/${way}`, body, WORDS);
    setBusy(false);
    setProblem(why);
    if (!why) told.value = t(way === "let-in" ? "manager.let_in_done" : "manager.keep_out_done");
  };
  return (
    <section class="frame">
      <What entry={entry} />
      {NEVER.includes(entry.reason) && <p class="second">{t("manager.aside_cannot")}</p>}
      {problem && <p class="late" role="alert">{problem}</p>}
      {asking ? (
        <AskReason question={t("manager.keep_out_ask")} label={t("manager.keep_out_why")} yes={t("manager.keep_out")} onYes={(reason) => void decide("keep-out", { reason })} onNo={() => setAsking(false)} />
      ) : (
        <div class="key-row">
          {!NEVER.includes(entry.reason) && (
            <button type="button" class="key key-full" disabled={busy} onClick={() => void decide("let-in", {})}>
              {t(busy ? "manager.asking" : "manager.let_in")}
            </button>
          )}
          <button type="button" class="key" disabled={busy} onClick={() => setAsking(true)}>
            {t("manager.keep_out")}
          </button>
        </div>
      )}
      <p class="second">{t("manager.needs_signal")}</p>
    </section>
  );
}
