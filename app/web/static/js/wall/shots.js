// The photos of a repair on the page: taken, shown small, taken away again before signing.

import { say } from "../words.js";
import { dropPhoto, MOST_PHOTOS, NoPhoto, takePhoto } from "./photos.js";
import { photosOf } from "./store.js";

const part = (id) => document.getElementById(id);
const SENTENCES = {
  large: () => say("That photo is too large."),
  many: () => say("No more than {count} photos for one repair.", { count: MOST_PHOTOS }),
  unreadable: () => say("That is no photo this phone can open."),
};

// `changed` is called after a photo was taken or taken away.
export function startShots(data, changed) {
  part("take-photo").addEventListener("change", (event) => take(data, event.target, {}, changed));
  for (const { module, step } of data.items) {
    const input = part(`${module}/${step}#photo`);
    input.addEventListener("change", () => take(data, input, { module, step }, changed));
  }
  showShots(data, changed);
}

async function take(data, input, { module, step }, changed) {
  const [file] = input.files;
  if (!file) return;
  const wrong = part("photo-wrong");
  wrong.hidden = true;
  try {
    await takePhoto(data.id, file, module, step);
  } catch (problem) {
    wrong.textContent = problem instanceof NoPhoto ? SENTENCES[problem.message]() : say("The photo was not kept. Is the phone full?");
    wrong.hidden = false;
  }
  input.value = "";
  await showShots(data, changed);
  changed();
}

export async function showShots(data, changed) {
  const photos = await photosOf(data.id);
  for (const image of part("shots").querySelectorAll("img")) URL.revokeObjectURL(image.src);
  part("shots").replaceChildren(...photos.sort((a, b) => a.at - b.at).map((photo) => shot(data, photo, changed)));
}

function shot(data, photo, changed) {
  const li = document.createElement("li");
  const item = data.items.find(({ module, step }) => module === photo.module && step === photo.step);
  const alt = item ? say("Photo of: {text}", { text: item.text }) : say("Photo of the repair");
  const image = Object.assign(document.createElement("img"), { src: URL.createObjectURL(photo.blob), alt });
  const away = Object.assign(document.createElement("button"), {
    type: "button",
    className: "button plain",
    textContent: say("Take it away"),
  });
  away.addEventListener("click", async () => {
    await dropPhoto(photo.id);
    await showShots(data, changed);
    changed();
  });
  li.append(image, away);
  return li;
}
