/** From the camera's file to what is kept: upright, shrunk, without metadata, hashed. */

import { sha256 } from "../rules";
import type { NewPhoto } from "./shelf";

export type Taken = NewPhoto & { px: [number, number] };

const LONG_SIDE = 2048;
const QUALITY = 0.85;
const FULL = 0.8;

/** The photo could not be kept; `key` is a sentence of words/sync.json. */
export class NoPhoto extends Error {
  constructor(readonly key: "sync.no_room" | "sync.no_picture") {
    super(key);
  }
}

/** Width and height with the long side at most 2048 px, whole, never enlarged. */
export function shrunk(width: number, height: number): [number, number] {
  const scale = Math.min(1, LONG_SIDE / Math.max(width, height));
  return [Math.max(1, Math.round(width * scale)), Math.max(1, Math.round(height * scale))];
}

/** Drawing the picture anew leaves place, time and camera data behind; that is why even a small one is drawn anew. */
export async function take(file: Blob): Promise<Taken> {
  await needRoom(file.size);
  const picture = await decode(file);
  const px = shrunk(picture.width, picture.height);
  const bytes = await redraw(picture, px);
  return { bytes, media: "image/jpeg", sha256: await sha256(new Uint8Array(bytes)), px };
}

async function decode(file: Blob): Promise<ImageBitmap> {
  try {
    return await createImageBitmap(file, { imageOrientation: "from-image" });
  } catch (error) {
    throw new NoPhoto("sync.no_picture");
  }
}

async function redraw(picture: ImageBitmap, [width, height]: [number, number]): Promise<ArrayBuffer> {
  const canvas = document.createElement("canvas");
  canvas.width = width;
  canvas.height = height;
  const pen = canvas.getContext("2d");
  if (!pen) throw new NoPhoto("sync.no_picture");
  pen.imageSmoothingQuality = "high";
  pen.drawImage(picture, 0, 0, width, height);
  picture.close();
  const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, "image/jpeg", QUALITY));
  if (!blob) throw new NoPhoto("sync.no_picture");
  return blob.arrayBuffer();
}

/** Photos stop before the phone is full, so that there is always room for words. */
async function needRoom(bytes: number): Promise<void> {
  const room = await navigator.storage?.estimate?.();
  if (room?.quota && ((room.usage ?? 0) + bytes) / room.quota > FULL) throw new NoPhoto("sync.no_room");
}
