/**
 * Photos are made smaller on the tablet before they are kept: longest side 1600 px, JPEG, at most about 400 kB. That shows the
 * thread of a screw at arm's length, and a day of photos fits a slow line. Drawing it anew also drops where and with what it was taken.
 */

import { Fault } from "./faults.js";

export const LONGEST = 1600;
export const MOST_BYTES = 400_000;
const TRIES = [
  { longest: LONGEST, quality: 0.82 },
  { longest: LONGEST, quality: 0.65 },
  { longest: 1280, quality: 0.65 },
  { longest: 1024, quality: 0.55 },
];

/**
 * @param {Blob} blob
 * @returns {Promise<{blob: Blob, width: number, height: number}>}
 */
export async function smaller(blob) {
  const image = await read(blob);
  try {
    for (const [number, { longest, quality }] of TRIES.entries()) {
      const drawn = await draw(image, longest, quality);
      if (drawn.blob.size <= MOST_BYTES || number === TRIES.length - 1) return drawn;
    }
  } finally {
    image.close();
  }
  throw new Fault("picture", "This photo could not be made smaller.");
}

/** @param {Blob} blob */
async function read(blob) {
  try {
    return await createImageBitmap(blob, { imageOrientation: "from-image" });
  } catch (cause) {
    throw new Fault("picture", "This file is not a photo that can be read here. Take it again, or choose a JPEG or PNG file.", cause);
  }
}

/**
 * @param {ImageBitmap} image
 * @param {number} longest
 * @param {number} quality
 * @returns {Promise<{blob: Blob, width: number, height: number}>}
 */
async function draw(image, longest, quality) {
  const scale = Math.min(1, longest / Math.max(image.width, image.height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.max(1, Math.round(image.width * scale));
  canvas.height = Math.max(1, Math.round(image.height * scale));
  const context = canvas.getContext("2d");
  if (!context) throw new Fault("picture", "This tablet has no room to read the photo. Close other pages and take it again.");
  context.fillStyle = "#fff";
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.drawImage(image, 0, 0, canvas.width, canvas.height);
  const blob = await new Promise((resolve) => canvas.toBlob(resolve, "image/jpeg", quality));
  if (!blob) throw new Fault("picture", "This tablet has no room to read the photo. Close other pages and take it again.");
  return { blob, width: canvas.width, height: canvas.height };
}
