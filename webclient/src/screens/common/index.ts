export { PhotoList, Photo } from "./Photo";
export { endMessages, Screen, told } from "./Screen";
export { holdWords, numbers, type HoldWords } from "./holds";
export { useKept } from "./kept";
export { MarkUp } from "./MarkUp";
export { useDrawn, useSaving } from "./pressing";
export { byWall, WallGroup, type Group } from "./WallGroup";
export * from "./yard";
import "./screens.css";
