/** Pieces that screens are made of: plain values in, callbacks out. */
export { Choice, KindPicker, type Option } from "./choose";
export { DryStrip } from "./DryStrip";
export { FacedWall, moved } from "./FacedWall";
export { stretches, toSpot } from "./facing";
export { Confirm, Field, Passcode, Pick, type ConfirmProps } from "./fields";
export {
  faceOf,
  LETTERS,
  mirror,
  SURFACES,
  unfold,
  WALK,
  type Face,
  type Letter,
  type Opening,
  type RoomPlan,
  type Spot,
  type Surface,
  type Thing,
  type WordSpot,
} from "./geometry";
export { HeadBand, Page, type HeadBandProps } from "./HeadBand";
export { feetInches, parseLength, STEP } from "./lengths";
export { countOf, placeInWords, surfaceInWords, type Marked } from "./marked";
export { itemMark, pencilPath, type ItemState, type MarkKind } from "./marks";
export { ItemRow, MarkRow, SurfaceList } from "./rows";
export { SentLine } from "./SentLine";
export { chooseSetting, setting, type Setting } from "./setting";
export { Slabs, type SlabsProps } from "./Slabs";
export { SpotArrows, WordsSpot } from "./SpotKeys";
export { StateCounts, StateWord, type Counts } from "./StateWord";
export { doseTo, lane, placeTags, strip, type StripIn } from "./strip";
export { degrees, degreesBoth } from "./temperatures";
export { clockTime, offsetOf, sameDay, sayTime, shortTime } from "./times";
export { UnfoldedRoom } from "./UnfoldedRoom";
