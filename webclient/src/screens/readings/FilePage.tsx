import { useRef, useState } from "preact/hooks";
import { Field, Pick } from "../../parts";
import { to } from "../../route";
import { t, tn } from "../../words";
import { has, moduleView, roomName, Screen, when, whenAfter } from "../common";
import { FileAsks, FileRows } from "./FileLook";
import { unsaid, type PlanField, type What } from "./filePlan";
import { FileTaken } from "./FileTaken";
import { walked, whereWords } from "./lastAir";
import type { Where } from "./measuring";
import { useFile, type FileWork } from "./useFile";

/** Where the logger hung, as chosen: nothing yet, the yard, or a module and maybe its room. */
interface Hung {
  at: string;
  room: string;
  name: string;
}
const WHO: Record<What, string[]> = { readings: ["manager", "inspector", "crew_lead"], forecast: ["manager", "inspector", "crew_lead", "shipping"] };
const NOT_HUNG: Hung = { at: "", room: "", name: "" };
const headOf = (what: What) => ({ title: t(what === "readings" ? "air.file" : "air.nights_file"), over: t("air.title"), overHref: to.walk() });
const placeOf = ({ at, room }: Hung): Where => ({ module: at === "yard" ? null : at || null, room: room || null });

/** A logger's CSV, or an hourly forecast's: file, look, confirm, take. It needs signal, and says so. */
export function FilePage({ what }: { what: What }) {
  const [hung, setHung] = useState(NOT_HUNG);
  const work = useFile(what);
  const where = placeOf(hung);
  const words = whereWords(where, where.module ? moduleView(where.module) : null);
  if (!WHO[what].some(has)) return <Screen {...headOf(what)}><p>{t("air.file_not_yours")}</p></Screen>;
  if (work.result) {
    return (
      <Screen {...headOf(what)} slabs={{ main: { label: t("air.file_another"), onPress: work.again } }}>
        <FileTaken what={what} result={work.result} place={words} href={where.module ? to.coats(where.module) : null} />
      </Screen>
    );
  }
  if (!work.look) return <ChooseFile what={what} work={work} />;
  return <Confirm what={what} work={work} hung={hung} words={words} put={(part) => setHung({ ...hung, ...part })} />;
}

function ChooseFile({ what, work }: { what: What; work: FileWork }) {
  const input = useRef<HTMLInputElement>(null);
  const slab = { label: t("air.file_choose"), onPress: () => input.current?.click(), why: work.busy };
  return (
    <Screen problem={work.problem} {...headOf(what)} slabs={{ main: slab }}>
      <p>{t(what === "readings" ? "air.file_what" : "air.nights_what")}</p>
      <p class="second">{t(navigator.onLine === false ? "sync.no_signal" : "air.file_signal")}</p>
      <input ref={input} class="heard" tabIndex={-1} aria-label={t("air.file_choose")} type="file" accept=".csv,.txt,.tsv,text/csv,text/plain" onChange={(event) => {
        const [picked] = event.currentTarget.files ?? [];
        if (picked) void work.open(picked);
        event.currentTarget.value = "";
      }} />
      <Busy work={work} />
    </Screen>
  );
}

const Busy = ({ work: { busy } }: { work: FileWork }) => (busy ? <p class="told" role="status">{busy}</p> : null);

interface ConfirmProps {
  what: What;
  work: FileWork;
  hung: Hung;
  /** Where it hung, in words. */
  words: string;
  put: (part: Partial<Hung>) => void;
}

function Confirm({ what, work, hung, words, put }: ConfirmProps) {
  const { look, file, chosen, busy } = work;
  if (!look) return null;
  const some = what === "readings" ? look.count : (look.nights?.length ?? 0);
  const label = what === "forecast" ? tn("air.file_take_nights", some) : hung.at ? tn("air.file_take", some, { place: words }) : t("air.file_take_none");
  const why = busy ?? whyNot(what, hung.at, some, unsaid(look.asks, chosen));
  const slabs = { main: { label, onPress: () => void work.take(placeOf(hung), hung.name), why }, beside: { label: t("air.file_other"), onPress: work.again } };
  return (
    <Screen problem={work.problem} line={file?.name} {...headOf(what)} breadth="broad" slabs={slabs}>
      <Busy work={work} />
      <div class="side-by-side">
        <div>
          {what === "readings" && <WhereHung hung={hung} put={put} />}
          <FileAsks what={what} look={look} chosen={chosen} onCorrect={(part) => void work.correct(part)} />
        </div>
        <div>
          <p><b>{look.from && look.to ? tn("air.file_count", look.count, { from: when(look.from), to: whenAfter(look.from, look.to) }) : t("air.file_none")}</b></p>
          <FileRows what={what} look={look} />
        </div>
      </div>
    </Screen>
  );
}

function whyNot(what: What, at: string, some: number, missing: readonly PlanField[]): string | null {
  if (some === 0) return t(what === "readings" ? "air.file_none" : "loggers.no_nights");
  if (missing.length > 0) return t("air.file_say", { what: missing.map((field) => t(`air.plan.${field}`)).join(", ") });
  return what === "readings" && !at ? t("air.file_where") : null;
}

/** Where the logger hung: outside, in a module, or in one of its rooms. */
function WhereHung({ hung, put }: { hung: Hung; put: ConfirmProps["put"] }) {
  const view = hung.at && hung.at !== "yard" ? moduleView(hung.at) : null;
  const places = [{ key: "yard", label: t("air.outside") }, ...walked().map(({ id, serial }) => ({ key: id, label: serial }))];
  const rooms = view ? [{ key: "", label: t("air.inside") }, ...view.rooms.map(({ key }) => ({ key, label: roomName(view, key) }))] : [];
  return (
    <section class="air-part">
      <h2>{t("air.file_hung")}</h2>
      <Pick label={t("air.file_place")} value={hung.at} options={places} onChange={(at) => put({ at, room: "" })} />
      {view && <Pick label={t("air.where")} value={hung.room} options={rooms} onChange={(room) => put({ room })} />}
      <Field label={t("air.file_name")} value={hung.name} onInput={(name) => put({ name })} />
    </section>
  );
}
