// Photos: shrunk on the phone (which also drops where they were taken), kept until they are signed
// with the repair, then handed to the outbox. The hash is of the bytes that are sent.

import { keep } from "../outbox/outbox.js";
import { base64, sha256Hex } from "./canonical.js";
import { photosOf, put, remove } from "./store.js";

const SIDES = [1280, 1024, 800, 640];
const MOST_BYTES = 300000;
const LARGEST_FILE = 40e6;
export const MOST_PHOTOS = 12;

export class NoPhoto extends Error {}

export async function takePhoto(repair, file, module = "", step = "") {
  if (file.size > LARGEST_FILE) throw new NoPhoto("large");
  if ((await photosOf(repair)).length >= MOST_PHOTOS) throw new NoPhoto("many");
  const blob = await shrunk(file);
  const sha256 = await sha256Hex(await blob.arrayBuffer());
  const photo = { id: crypto.randomUUID(), repair, module, step, sha256, blob, at: Date.now() };
  await put("photos", photo);
  return photo;
}

async function shrunk(file) {
  const picture = await createImageBitmap(file, { imageOrientation: "from-image" }).catch(() => null);
  if (!picture) throw new NoPhoto("unreadable");
  for (const side of SIDES) {
    const blob = await drawn(picture, Math.min(1, side / Math.max(picture.width, picture.height)));
    if (blob && blob.size <= MOST_BYTES) return blob;
  }
  throw new NoPhoto("large");
}

function drawn(picture, scale) {
  const canvas = document.createElement("canvas");
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  canvas.getContext("2d").drawImage(picture, 0, 0, canvas.width, canvas.height);
  return new Promise((resolve) => canvas.toBlob(resolve, "image/jpeg", 0.75));
}

export const dropPhoto = (id) => remove("photos", id);

// A photo's number is the same however often this is tried, so nothing is kept twice. The picture
// stays here until the repair is on record: a sign-off that is refused may be signed anew with it.
export async function giveToOutbox(repair) {
  for (const photo of await photosOf(repair)) {
    if (photo.isGiven) continue;
    const { id, module, step, sha256, blob } = photo;
    const data = base64(new Uint8Array(await blob.arrayBuffer()));
    await keep("photo", { photo: id, repair, module, step, sha256, data });
    await put("photos", { ...photo, isGiven: true });
  }
}

export async function forgetPhotos(repair) {
  for (const { id } of await photosOf(repair)) await remove("photos", id);
}
