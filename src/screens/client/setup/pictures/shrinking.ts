/** A picture drawn again by the browser: small enough to be sent, and without what a camera wrote into it. */
import { MOST_PICTURE_BYTES, MOST_PIXELS } from "../../../../model/garment/picture.ts";

/** Tried in turn until one is small enough: fewer pixels each time, and WebP before PNG if the browser can write it. */
const SIDES = [1, 0.8, 0.6, 0.45, 0.3].map((share) => Math.round(MOST_PIXELS * share));
const QUALITIES = [0.9, 0.75];

const written = (canvas: HTMLCanvasElement, type: string, quality?: number): Promise<Blob | null> =>
  new Promise((resolve) => canvas.toBlob(resolve, type, quality));

async function smallEnough(canvas: HTMLCanvasElement): Promise<Blob | null> {
  for (const quality of QUALITIES) {
    const blob = await written(canvas, "image/webp", quality);
    // A browser that writes no WebP gives a PNG under its own name.
    if (blob !== null && blob.size <= MOST_PICTURE_BYTES) return blob;
  }
  return null;
}

/** The file as a picture that the stall takes; null if the browser cannot draw it. */
export async function shrunk(file: Blob): Promise<Blob | null> {
  const bitmap = await createImageBitmap(file).catch(() => null);
  if (bitmap === null) return null;
  for (const side of SIDES) {
    const scale = Math.min(1, side / Math.max(bitmap.width, bitmap.height));
    const canvas = document.createElement("canvas");
    canvas.width = Math.max(1, Math.round(bitmap.width * scale));
    canvas.height = Math.max(1, Math.round(bitmap.height * scale));
    canvas.getContext("2d")?.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
    const blob = await smallEnough(canvas);
    if (blob !== null) return blob;
  }
  return null;
}
