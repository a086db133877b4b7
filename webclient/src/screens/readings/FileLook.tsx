import { useState } from "preact/hooks";
import { Choice, degreesBoth, Pick, type Option } from "../../parts";
import { t, tn } from "../../words";
import { when, zone } from "../common";
import { toldWords } from "./fileCall";
import { DELIMITERS, FORMS, unsaid, type FilePlan, type Looked, type PlanField, type What } from "./filePlan";

interface LookProps {
  what: What;
  look: Looked;
  chosen: readonly PlanField[];
  onCorrect: (part: Partial<FilePlan>) => void;
}
const FIELDS: PlanField[] = ["form", "unit", "zone", "times", "temp", "rh", "surface", "decimal", "delimiter", "head"];

/** What the file does not settle is asked; the rest can be corrected. */
export function FileAsks({ what, look, chosen, onCorrect }: LookProps) {
  const [open, setOpen] = useState(false);
  const wanted = FIELDS.filter((field) => what === "readings" || (field !== "rh" && field !== "surface"));
  const asked = wanted.filter((field) => look.asks.includes(field));
  const rest = wanted.filter((field) => !look.asks.includes(field));
  const missing = unsaid(look.asks, chosen);
  return (
    <>
      {asked.length > 0 && (
        <section class="air-part">
          <h2>{t("air.file_asks")}</h2>
          {asked.map((field) => <OneField key={field} field={field} look={look} open={missing.includes(field)} onCorrect={onCorrect} />)}
        </section>
      )}
      <section class="air-part">
        <button type="button" class="key" aria-expanded={open ? "true" : "false"} onClick={() => setOpen(!open)}>{t("air.file_wrong")}</button>
        {open && rest.map((field) => <OneField key={field} field={field} look={look} open={false} onCorrect={onCorrect} />)}
      </section>
    </>
  );
}

/** What comes of it, read that way: the first rows, the nights, the lines that cannot be taken. */
export function FileRows({ what, look }: { what: What; look: Looked }) {
  return (
    <>
      <Rows what={what} look={look} />
      {what === "forecast" && <Nights look={look} />}
      <Refused count={look.refused_count} refused={look.refused} notes={look.notes} />
    </>
  );
}

interface OneProps {
  field: PlanField;
  look: Looked;
  /** Nobody has chosen yet: the guess is said and not marked. */
  open: boolean;
  onCorrect: (part: Partial<FilePlan>) => void;
}

function OneField({ field, look, open, onCorrect }: OneProps) {
  const { plan } = look;
  const label = t(`air.plan.${field}`);
  const now = (value: string): string => (open ? "" : value);
  switch (field) {
    case "form":
      return <Choice label={label} options={FORMS.map((key) => ({ key, label: t(`air.form.${key}`) }))} value={now(plan.form) || null} onChange={(form) => onCorrect({ form })} />;
    case "unit":
      return <Choice label={label} options={[{ key: "F", label: "°F" }, { key: "C", label: "°C" }]} value={now(plan.unit) || null} onChange={(unit) => onCorrect({ unit })} />;
    case "decimal":
      return <Choice label={label} options={[{ key: ".", label: t("air.decimal.point") }, { key: ",", label: t("air.decimal.comma") }]} value={now(plan.decimal) || null} onChange={(decimal) => onCorrect({ decimal })} />;
    case "delimiter":
      return <Choice label={label} options={DELIMITERS.map((key, at) => ({ key, label: t(`air.delimiter.${(["comma", "semicolon", "tab", "bar"] as const)[at] ?? "comma"}`) }))} value={now(plan.delimiter) || null} onChange={(delimiter) => onCorrect({ delimiter })} />;
    case "zone":
      return <Pick label={label} value={now(plan.zone ?? "")} options={zones(plan.zone)} onChange={(chosen) => chosen && onCorrect({ zone: chosen })} />;
    case "head":
      return <Pick label={label} value={now(String(plan.head))} options={heads(plan.head)} onChange={(line) => onCorrect({ head: Number(line) })} />;
    case "times":
      return <Pick label={label} value={now(plan.times.join(","))} options={timeColumns(look)} onChange={(places) => onCorrect({ times: places.split(",").map(Number) })} />;
    case "surface":
      return <Pick label={label} value={plan.surface === null ? "none" : String(plan.surface)} options={[{ key: "none", label: t("air.no_column") }, ...columns(look)]} onChange={(place) => onCorrect({ surface: place === "none" ? null : Number(place) })} />;
    default:
      return <Pick label={label} value={now(String(plan[field] ?? ""))} options={columns(look)} onChange={(place) => onCorrect({ [field]: Number(place) })} />;
  }
}

/** *2 Temp °C (21,4)*. */
const columns = ({ columns: found }: Looked): Option[] => found.map(({ name, examples }, at) => ({ key: String(at), label: examples[0] ? `${name} (${examples[0]})` : name }));

/** One column of whole times, or one of days and the one after it of hours; and what stands now. */
function timeColumns(look: Looked): Option[] {
  const one = columns(look);
  const two = one.slice(0, -1).map(({ label }, at) => ({ key: `${at},${at + 1}`, label: `${label} + ${one[at + 1]?.label ?? ""}` }));
  const now = look.plan.times.join(",");
  const all = [...one, ...two];
  return all.some(({ key }) => key === now) ? all : [{ key: now, label: look.plan.times.map((at) => one[at]?.label ?? "").join(" + ") }, ...all];
}

const heads = (now: number): Option[] =>
  [...new Set([0, 1, 2, 3, 4, 5, now])].sort((one, other) => one - other).map((line) => ({ key: String(line), label: line === 0 ? t("air.head_none") : t("air.head_line", { line }) }));

const CITIES = ["America/New_York", "America/Chicago", "America/Denver", "America/Boise", "America/Phoenix", "America/Los_Angeles", "America/Mexico_City", "America/Tijuana", "UTC"];
const OFFSETS = ["-04:00", "-05:00", "-06:00", "-07:00", "-08:00"];

/** The yard's own first; fixed offsets are for loggers that never change their clock. */
function zones(now: string | null): Option[] {
  const named = [...new Set([zone(), ...CITIES, ...(now ? [now] : [])])].filter((key) => !OFFSETS.includes(key));
  const city = (key: string): string => (key.split("/").at(-1) ?? key).replaceAll("_", " ");
  return [
    ...named.map((key) => ({ key, label: key === zone() ? t("air.zone_yard", { zone: city(key) }) : city(key) })),
    ...OFFSETS.map((key) => ({ key, label: t("air.zone_fixed", { zone: key }) })),
  ];
}

/** The first rows as understood, beside what stands in the file. */
function Rows({ what, look }: { what: What; look: Looked }) {
  if (look.rows.length === 0) return null;
  return (
    <section class="air-part">
      <h2>{t("air.file_rows")}</h2>
      <div class="table-push" role="region" aria-label={t("air.file_rows")} tabIndex={0}>
        <table>
          <thead>
            <tr>
              <th scope="col">{t("coats.air_time")}</th>
              <th scope="col">{t("coats.air_temp")}</th>
              {what === "readings" && <th scope="col">{t("coats.air_rh")}</th>}
              {look.plan.surface !== null && <th scope="col">{t("air.surface_short")}</th>}
              <th scope="col">{t("air.file_said")}</th>
            </tr>
          </thead>
          <tbody>
            {look.rows.map((row) => (
              <tr key={row.line}>
                <td>{when(row.at)}</td>
                <td>{degreesBoth(row.temp)}</td>
                {what === "readings" && <td>{row.rh === null ? "" : t("coats.percent", { rh: row.rh })}</td>}
                {look.plan.surface !== null && <td>{row.surface === null ? "" : degreesBoth(row.surface)}</td>}
                <td>{t("air.file_line", { line: row.line, said: row.said.join(" | ") })}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

function Nights({ look }: { look: Looked }) {
  return (
    <section class="air-part">
      <h2>{t("air.nights")}</h2>
      <ul class="air-lines">
        {(look.nights ?? []).map(({ from, to: until, low }) => <li key={from}><span>{t("air.low_by", { low: degreesBoth(low), time: when(until) })}</span></li>)}
      </ul>
    </section>
  );
}

const SHOWN = 40;

/** Lines that cannot be taken, each with its reason; nothing else is lost by them. */
export function Refused({ count, refused, notes }: Pick<Looked, "refused" | "notes"> & { count: number }) {
  return (
    <>
      {notes.map((note) => <p key={note.key + note.text}>{toldWords(note)}</p>)}
      {count > 0 && (
        <section class="air-part">
          <h2 class="late">{tn("air.refused", count)}</h2>
          <ul>
            {refused.slice(0, SHOWN).map((one) => <li key={`${one.line} ${one.text}`}>{one.line === undefined ? "" : `${t("air.line", { line: one.line })} `}{toldWords(one)}</li>)}
          </ul>
          {count > SHOWN && <p class="second">{t("air.refused_more", { n: count - Math.min(SHOWN, refused.length) })}</p>}
        </section>
      )}
    </>
  );
}
