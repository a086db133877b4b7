/** The rules: pure functions that the server has too, file for file. Nothing of ours is imported, no framework. */

export { FIRST_LINK, PHONE_FIELDS, canonical, canonicalText, link, sha256 } from "./canonical";
export { celsius, celsiusDifference, dewPoint, fahrenheit, fahrenheitDifference, roomRh, saturation, whole } from "./climate";
export { type AirReading, type CoatLaid, type Dryness, dried, dryingMinutes, ready } from "./drying";
export { STEPS, fold, step } from "./fold";
export { LIFTS, holds, questions } from "./gate";
export { latestSeq, undecided, value, values } from "./heads";
export { needsAfterPhoto, nextStep } from "./items";
export { type Get, Workspace, partKey, sheetId } from "./parts";
export { hasSeen, refOf } from "./seen";
export { openCells, roomsOf } from "./sheets";
export type * from "./types";
export type {
  DefectKey, DefectRow, Kind, KindRow, Material, Role, SendBackReason, SheetKey, SheetRow, Tables, Thickness,
} from "./vocabulary";
export { CURRENT, kindOf, knownVersion, tables } from "./vocabulary";
export { may } from "./who";
