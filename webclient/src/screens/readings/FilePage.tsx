import { useRef, useState } from "preact/hooks";
import { Field, Pick } from "../../parts";
import { to } from "../../route";
import { t, tn } from "../../words";
import { has, moduleView, roomName, Screen, told, when } from "../common";
import { lookAt, NoFile, takeIn } from "./fileCall";
import { FileLook } from "./FileLook";
import { corrected, unsaid, type FilePlan, type Looked, type PlanField, type TakenIn, type What } from "./filePlan";
import { FileTaken } from "./FileTaken";
import { walked, whereWords } from "./lastAir";
import type { Where } from "./measuring";

interface Chosen {
  name: string;
  bytes: ArrayBuffer;
}
const WHO: Record<What, string[]> = { readings: ["manager", "inspector", "crew_lead"], forecast: ["manager", "inspector", "crew_lead", "shipping"] };
const NOWHERE = "";

/** A logger's CSV, or an hourly forecast's: file, look, confirm, take. It needs signal, and says so. */
export function FilePage({ what }: { what: What }) {
  const [file, setFile] = useState<Chosen | null>(null);
  const [look, setLook] = useState<Looked | null>(null);
  const [chosen, setChosen] = useState<PlanField[]>([]);
  const [place, setPlace] = useState<{ at: string; room: string; name: string }>({ at: NOWHERE, room: "", name: "" });
  const [result, setResult] = useState<TakenIn | null>(null);
  const [busy, setBusy] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const running = useRef(false);
  const run = async (words: string, does: () => Promise<void>): Promise<void> => {
    if (running.current) return;
    running.current = true;
    told.value = null;
    setBusy(words);
    setProblem(null);
    try {
      await does();
    } catch (error) {
      if (!(error instanceof NoFile)) throw error;
      setProblem(error.message);
    } finally {
      running.current = false;
      setBusy(null);
    }
  };
  const open = (picked: File): Promise<void> =>
    run(t("air.file_reading", { name: picked.name }), async () => {
      setLook(null);
      setResult(null);
      setChosen([]);
      const bytes = await picked.arrayBuffer();
      setFile({ name: picked.name, bytes });
      setLook(await lookAt(what, bytes, {}));
    });
  const correct = (part: Partial<FilePlan>): Promise<void> =>
    run(t("air.file_again"), async () => {
      if (!file || !look) return;
      const plan = corrected(look.plan, part);
      const next = await lookAt(what, file.bytes, plan);
      setChosen((before) => [...new Set([...before, ...(Object.keys(part) as PlanField[])])]);
      // What was asked first is asked until somebody has chosen it, though the query told a guess meanwhile.
      setLook({ ...next, asks: [...new Set([...look.asks, ...next.asks])] });
    });
  const where: Where = { module: place.at === "yard" ? null : place.at || null, room: place.room || null };
  const take = (): Promise<void> =>
    run(t("air.file_taking", { n: look?.count ?? 0 }), async () => {
      if (file && look) setResult(await takeIn(what, file.bytes, look.plan, where, place.name));
    });
  const again = (): void => {
    setFile(null);
    setLook(null);
    setResult(null);
    setChosen([]);
    setProblem(null);
  };
  const title = t(what === "readings" ? "air.file" : "air.nights_file");
  const over = { over: t("air.title"), overHref: to.walk() };
  if (!WHO[what].some(has)) {
    return (
      <Screen title={title} {...over}>
        <p>{t("air.file_not_yours")}</p>
      </Screen>
    );
  }
  const view = where.module ? moduleView(where.module) : null;
  const words = whereWords(where, view);
  if (result) {
    return (
      <Screen title={title} {...over} slabs={{ main: { label: t("air.file_another"), onPress: again } }}>
        <FileTaken what={what} result={result} place={words} href={where.module ? to.coats(where.module) : null} />
      </Screen>
    );
  }
  const missing = look ? unsaid(look.asks, chosen) : [];
  const some = what === "readings" ? (look?.count ?? 0) : (look?.nights?.length ?? 0);
  const why = busy ?? whyNot(what, place.at, some, missing);
  const label = what === "forecast" ? tn("air.file_take_nights", some) : place.at ? tn("air.file_take", some, { place: words }) : t("air.file_take_none");
  return (
    <Screen problem={problem} title={title} line={file?.name} {...over} breadth="broad" slabs={look ? { main: { label, onPress: () => void take(), why }, beside: { label: t("air.file_other"), onPress: again } } : undefined}>
      {!look && <ChooseFile what={what} onFile={(picked) => void open(picked)} />}
      {busy && <p class="told" role="status">{busy}</p>}
      {look && (
        <>
          {what === "readings" && <WhereHung place={place} put={(part) => setPlace({ ...place, ...part })} />}
          <p><b>{look.from && look.to ? tn("air.file_count", look.count, { from: when(look.from), to: when(look.to) }) : t("air.file_none")}</b></p>
          <FileLook what={what} look={look} chosen={chosen} onCorrect={(part) => void correct(part)} />
        </>
      )}
    </Screen>
  );
}

function whyNot(what: What, at: string, some: number, missing: readonly PlanField[]): string | null {
  if (some === 0) return t(what === "readings" ? "air.file_none" : "loggers.no_nights");
  if (missing.length > 0) return t("air.file_say", { what: missing.map((field) => t(`air.plan.${field}`)).join(", ") });
  return what === "readings" && at === NOWHERE ? t("air.file_where") : null;
}

function ChooseFile({ what, onFile }: { what: What; onFile: (file: File) => void }) {
  return (
    <>
      <p>{t(what === "readings" ? "air.file_what" : "air.nights_what")}</p>
      <p class="second">{t(navigator.onLine === false ? "sync.no_signal" : "air.file_signal")}</p>
      <label class="key file-key">
        {t("air.file_choose")}
        <input class="heard" type="file" accept=".csv,.txt,.tsv,text/csv,text/plain" onChange={(event) => {
          const [picked] = event.currentTarget.files ?? [];
          if (picked) onFile(picked);
          event.currentTarget.value = "";
        }} />
      </label>
    </>
  );
}

/** Where the logger hung: outside, in a module, or in one of its rooms. */
function WhereHung({ place, put }: { place: { at: string; room: string; name: string }; put: (part: Partial<{ at: string; room: string; name: string }>) => void }) {
  const view = place.at && place.at !== "yard" ? moduleView(place.at) : null;
  const places = [{ key: "yard", label: t("air.outside") }, ...walked().map(({ id, serial }) => ({ key: id, label: serial }))];
  const rooms = view ? [{ key: "", label: t("air.inside") }, ...view.rooms.map(({ key }) => ({ key, label: roomName(view, key) }))] : [];
  return (
    <section class="air-part">
      <h2>{t("air.file_hung")}</h2>
      <Pick label={t("air.file_place")} value={place.at} options={places} onChange={(at) => put({ at, room: "" })} />
      {view && <Pick label={t("air.where")} value={place.room} options={rooms} onChange={(room) => put({ room })} />}
      <Field label={t("air.file_name")} value={place.name} onInput={(name) => put({ name })} />
    </section>
  );
}
