export { PhotoList, Photo } from "./Photo";
export { Screen, told } from "./Screen";
export { holdWords, numbers, type HoldWords } from "./holds";
export { useKept } from "./kept";
export * from "./yard";
import "./screens.css";
