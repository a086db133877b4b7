/** Photos: take, keep, send, show. */

export type { Mark, Point } from "./marks";
export { pictureOf, type Size } from "./picture";
export { sendPhotos } from "./send";
export { clearShelf, goAgain, layOn, mayGo, onShelf, unsentPhotos, type NewPhoto } from "./shelf";
export { NoPhoto, sha256, shrunk, take, type Taken } from "./take";
