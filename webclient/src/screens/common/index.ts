export { PhotoList, Photo } from "./Photo";
export { Screen, told } from "./Screen";
export { holdWords, numbers, type HoldWords } from "./holds";
export { useKept } from "./kept";
export { byWall, WallGroup, type Group } from "./WallGroup";
export * from "./yard";
import "./screens.css";
