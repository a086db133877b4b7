/** The rules: pure functions that the server has too, file for file. Nothing of ours is imported, no framework. */

export { airId, forecastId, heatId, learnedId, streamId } from "./air";
export { type BeforePaint, type Check, type Label, type Verdict, beforePaint, coatToCome, freshRows } from "./before_paint";
export { FIRST_LINK, PHONE_FIELDS, canonical, canonicalText, link, sha256 } from "./canonical";
export { celsius, celsiusDifference, dewPoint, fahrenheit, fahrenheitDifference, roomRh, whole } from "./climate";
export { type Clock, UNRELIABLE, clock } from "./clocks";
export { cellOf } from "./coat_looks";
export { type Early, type Readiness, type Top, bareWalls, beside, earlies, readiness, tops } from "./covers";
export { type AirReading, type CoatLaid, dried, ready } from "./drying";
export { STEPS, fold, step } from "./fold";
export { holds, questions } from "./gate";
export { undecided, value, values } from "./heads";
export { DAY, day, instant, seconds } from "./instants";
export { needsAfterPhoto, nextStep } from "./items";
export { type Observation, learn, observations } from "./learned_factor";
export { Workspace, partKey, sheetId } from "./parts";
export { type Place, placeOf } from "./place";
export { type ReadyRow, readyList } from "./ready_list";
export { coatsOf, family, laidIn, nextCoat } from "./schedule";
export { hasSeen } from "./seen";
export { openCells, roomsOf } from "./sheets";
export type * from "./types";
export type { CoatKey, DefectKey, Family, Kind, Material, Role, SheetRow, Thickness } from "./vocabulary";
export { CURRENT, FORM, tables } from "./vocabulary";
export { type Help, whatHelps } from "./what_helps";
export { may } from "./who";
export { type Air, type AirStep, type Whose, airFor } from "./whose_air";
