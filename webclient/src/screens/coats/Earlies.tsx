import { useState } from "preact/hooks";
import { Confirm, Field } from "../../parts";
import { earlies, type CoatPart, type Early, type Place } from "../../rules";
import { t } from "../../words";
import { coatInside, coatName, mayWrite, nameOf, roomsInWords, type ModuleView } from "../common";
import { looksWords } from "./More";

interface EarliesProps {
  view: ModuleView;
  place: Place;
  onAnswer: (coat: CoatPart, reason: string) => Promise<boolean>;
}

/** Coats that went on before what they cover was ready: the module is held until an inspector answers each. */
export function Earlies({ view, place, onAnswer }: EarliesProps) {
  return (
    <>
      {earlies(place).map((early) => (
        <OneEarly key={early.coat.id} view={view} place={place} early={early} onAnswer={onAnswer} />
      ))}
    </>
  );
}

function OneEarly({ view, place, early: { coat, rooms, under }, onAnswer }: { early: Early } & EarliesProps) {
  const [asking, setAsking] = useState(false);
  const [reason, setReason] = useState("");
  const below = [...place.coats, ...place.taken_back].filter(({ id }) => under.includes(id));
  // Whoever answers is to know what people found there.
  const looks = [...new Set(below.flatMap((one) => rooms.flatMap((room) => looksWords(one, room))))];
  const yes = async (): Promise<void> => {
    if (await onAnswer(coat, reason.trim())) setAsking(false);
  };
  return (
    <section class="coat-stop">
      <h2 class="late">{t("coats.early", { coat: coatInside(coat.coat), rooms: roomsInWords(view, rooms) })}</h2>
      <p>{t("coats.early_over", { coat: below.map((one) => coatName(one.coat)).join(", ") })} {t("coats.early_why", { name: nameOf(coat.by), reason: coat.early ?? t("coats.early_no_reason") })}</p>
      {looks.map((words) => <p key={words} class="second">{words}</p>)}
      {!mayWrite("coat.answered") && <p class="second">{t("coats.early_inspector")}</p>}
      {mayWrite("coat.answered") && <p class="second">{t("coats.early_not")}</p>}
      {mayWrite("coat.answered") && !asking && <button type="button" class="key" onClick={() => setAsking(true)}>{t("coats.early_answer")}</button>}
      {asking && (
        <Confirm question={t("coats.early_answer_why")} yes={t("coats.early_answer_yes")} onYes={() => void yes()} onNo={() => setAsking(false)} why={reason.trim() ? null : t("coats.why.reason")}>
          <Field label={t("coats.reason")} value={reason} onInput={setReason} lines={2} />
        </Confirm>
      )}
    </section>
  );
}
