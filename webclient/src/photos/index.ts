/** Photos: take, keep, send, show. */

export { bringPictures, clearPictures, pictureOf, type Size } from "./picture";
export { sendPhotos } from "./send";
export { clearShelf, goAgain, layOn, mayGo, onShelf, unsentPhotos, type NewPhoto } from "./shelf";
export { NoPhoto, shrunk, take, type Taken } from "./take";
