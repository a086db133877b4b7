/** Strips of the gallery: coats just laid, half dry, dry, looked at, in air that nobody has read. Numbers are invented. */
import { DryStrip, HeadBand, Page, SentLine, type StripIn } from "./index";

const HOUR = 3600;
const NOW = Date.parse("2026-12-02T14:20:00Z") / 1000;
const LAID = NOW - 14 * HOUR + 600;
const air = [
  { time: LAID - HOUR, temp: 144, rh: 68, rate: 5_800_000 },
  { time: LAID + 4 * HOUR, temp: 211, rh: 46, rate: 14_400_000 },
  { time: LAID + 9 * HOUR, temp: 211, rh: 45, rate: 14_600_000 },
];
const texture: StripIn = { laid: LAID, now: NOW, likely: NOW + 1.7 * HOUR, by_table: NOW + 4.4 * HOUR, set: null, dried: 720, wet: null, dry: null, air, offset: -6 * HOUR };
const shown: [string, StripIn][] = [
  ["Half dry", texture],
  ["Just laid, setting-type", { ...texture, laid: NOW - HOUR / 2, likely: NOW + 11 * HOUR, by_table: NOW + 13 * HOUR, set: NOW + HOUR / 3, dried: 30 }],
  ["Looked at: not dry", { ...texture, now: NOW + 5 * HOUR, wet: NOW + 4.8 * HOUR, dried: 1000 }],
  ["Looked at: dry", { ...texture, now: NOW + 2 * HOUR, dry: NOW + HOUR, dried: 800 }],
  ["Dry by the table", { ...texture, now: NOW + 6 * HOUR, dried: 1000 }],
  ["Nobody has read the air", { ...texture, air: [], likely: null, by_table: null, dried: 0 }],
];

export function Strips() {
  return (
    <Page head={<HeadBand title="Strips" line="bay 9" />} sent={<SentLine unsent={0} photosUnsent={0} sentAt="8:20 am" />}>
      {shown.map(([title, strip]) => (
        <section key={title}>
          <h2>{title}</h2>
          <DryStrip strip={strip} zone="America/Chicago" said={title} climate />
        </section>
      ))}
      <DryStrip strip={{ ...texture, now: NOW + 40 * HOUR }} zone="America/Chicago" said="An older coat" short />
    </Page>
  );
}
