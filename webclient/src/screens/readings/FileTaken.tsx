import { degreesBoth } from "../../parts";
import { t, tn } from "../../words";
import { when } from "../common";
import { Refused } from "./FileLook";
import type { TakenIn, What } from "./filePlan";

/** What came of a file: taken, known before, refused line by line. */
export function FileTaken({ what, result, place, href }: { what: What; result: TakenIn; place: string; href: string | null }) {
  const { taken = 0, known = 0, nights = [] } = result;
  return (
    <>
      {what === "readings" && <p class="told" role="status">{tn("air.file_taken", taken, { place })}</p>}
      {what === "readings" && known > 0 && <p>{tn("air.file_known", known)}</p>}
      {what === "forecast" && <p class="told" role="status">{tn("air.file_nights", nights.length)}</p>}
      <ul class="air-lines">
        {nights.map(({ from, to: until, low }) => <li key={from}><span>{t("air.low_by", { low: degreesBoth(low), time: when(until) })}</span></li>)}
      </ul>
      {href && <a class="key key-link" href={href}>{t("coats.open")}</a>}
      <Refused count={result.refused_count} refused={result.refused} notes={result.notes} />
    </>
  );
}
