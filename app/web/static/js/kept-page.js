// The page "On this phone": looks into the phone's own storage, group by group.

import { canKeep, keepAll, listOfPages, missingFiles, missingOf } from "./kept.js";
import { say } from "./words.js";

const box = document.querySelector("#kept");
const count = document.querySelector("#kept-count");
const entries = [...document.querySelectorAll("#kept-groups li")];

const COUNTS = {
  module: (places) => say("{there} of {total} modules on this phone", places),
  repair: (places) => say("{there} of {total} repairs on this phone", places),
};

async function look() {
  const found = { module: [], repair: [] };
  for (const entry of entries) found[entry.dataset.kind].push(await lookAt(entry));
  const parts = [];
  for (const [kind, whole] of Object.entries(found)) {
    const places = { there: whole.filter(Boolean).length, total: whole.length };
    if (whole.length) parts.push(COUNTS[kind](places));
  }
  count.textContent = parts.join(", ") || say("There is nothing to keep for you.");
}

async function lookAt(entry) {
  const urls = entry.dataset.urls.split(" ");
  const missing = await missingOf(urls);
  const isThere = missing.length === 0;
  entry.querySelector(".kept-yes").hidden = !isThere;
  entry.querySelector(".kept-no").hidden = isThere;
  entry.querySelector(".quiet").textContent = say("{there} of {total} pages", {
    there: urls.length - missing.length,
    total: urls.length,
  });
  return isThere;
}

async function fetchAgain() {
  try {
    const list = await listOfPages();
    await keepAll(
      list,
      (done, total) => {
        count.textContent = say("Coming onto this phone: {done} of {total} pages", { done, total });
      },
      true,
    );
    await lookAtFiles(list);
  } catch {
    count.textContent = say("No answer from the server. What was here before is still here.");
    return;
  }
  await look();
}

async function lookAtFiles(list) {
  const missing = await missingFiles(list.assets);
  const words = missing.length
    ? say("{count} files of the program are missing. Close this page and open it again.", {
        count: missing.length,
      })
    : say("The program itself is complete.");
  document.querySelector("#kept-files").textContent = words;
}

if (canKeep) {
  box.hidden = false;
  document.querySelector("#kept-fetch").addEventListener("click", fetchAgain);
  look();
  listOfPages().then(lookAtFiles, () => {});
} else {
  document.querySelector("#kept-none").hidden = false;
}
