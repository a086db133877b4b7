/** Pieces that screens are made of: plain values in, callbacks out. */
export { Choice, KindPicker, type ChoiceProps, type KindPickerProps, type Option } from "./choose";
export { DryStrip, type DryStripProps } from "./DryStrip";
export { FacedWall, moved, type FacedWallProps } from "./FacedWall";
export { stretches, toSpot } from "./facing";
export { Confirm, Field, Passcode, Pick, Progress, type ConfirmProps, type FieldProps } from "./fields";
export {
  faceOf,
  LETTERS,
  mirror,
  unfold,
  type Face,
  type Letter,
  type Opening,
  type RoomPlan,
  type Spot,
  type Surface,
  type Thing,
  type WordSpot,
} from "./geometry";
export { HeadBand, Page, type HeadBandProps, type PageProps } from "./HeadBand";
export { feetInches, parseLength, STEP } from "./lengths";
export { countOf, placeInWords, spotInWords, surfaceInWords, wordSpotInWords, type Marked } from "./marked";
export { itemMark, pencilPath, type ItemState, type MarkKind } from "./marks";
export { PencilMark, type PencilMarkProps } from "./PencilMark";
export { ItemRow, MarkRow, SurfaceList, type ItemRowProps, type MarkRowProps, type SurfaceListProps } from "./rows";
export { SentLine, type SentLineProps } from "./SentLine";
export { chooseSetting, setting, type Setting } from "./setting";
export { Slabs, type Slab, type SlabsProps } from "./Slabs";
export { SpotArrows, WordsSpot, type SpotArrowsProps, type WordsSpotProps } from "./SpotKeys";
export { countsInWords, StateCounts, StateWord, type Counts } from "./StateWord";
export { doseTo, lane, placeTags, strip, type MarkKey, type StripAir, type StripIn, type StripShape } from "./strip";
export { degrees, degreesBoth } from "./temperatures";
export { clockTime, offsetOf, sameDay, sayTime, shortTime } from "./times";
export { UnfoldedRoom, type UnfoldedRoomProps } from "./UnfoldedRoom";
