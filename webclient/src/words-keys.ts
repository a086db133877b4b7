/**
 * The keys of the sentences as types. A topic is listed once: its keys are then those of its file, and a slip is a compile error.
 * To add a topic: write server/words/<topic>.json, import its type here and add it to `Table`.
 */
import type air from "../../server/words/air.json";
import type coats from "../../server/words/coats.json";
import type defects from "../../server/words/defects.json";
import type drying from "../../server/words/drying.json";
import type frame from "../../server/words/frame.json";
import type gate from "../../server/words/gate.json";
import type holds from "../../server/words/holds.json";
import type kinds from "../../server/words/kinds.json";
import type loggers from "../../server/words/loggers.json";
import type manager from "../../server/words/manager.json";
import type packet from "../../server/words/packet.json";
import type photos from "../../server/words/photos.json";
import type plant from "../../server/words/plant.json";
import type reasons from "../../server/words/reasons.json";
import type recheck from "../../server/words/recheck.json";
import type sheets from "../../server/words/sheets.json";
import type signin from "../../server/words/signin.json";
import type steps from "../../server/words/steps.json";
import type sync from "../../server/words/sync.json";
import type work from "../../server/words/work.json";
import type writeup from "../../server/words/writeup.json";
import type yard from "../../server/words/yard.json";

type Table = typeof air & typeof coats & typeof defects & typeof drying & typeof frame & typeof gate & typeof holds & typeof kinds
  & typeof loggers & typeof manager & typeof packet & typeof photos & typeof plant & typeof reasons & typeof recheck & typeof sheets
  & typeof signin & typeof steps & typeof sync & typeof work & typeof writeup
  & typeof yard;

export type Key = Extract<keyof Table, string>;
type StemOf<K> = K extends `${infer Stem}_other` ? Stem : never;
export type PluralKey = StemOf<Key>;
