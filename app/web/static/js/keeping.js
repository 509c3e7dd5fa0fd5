// On the first page of a worker's day: every module comes onto the phone by itself, and one line
// says how far that is. A phone told to save data keeps nothing unasked.

import { canKeep, countKept, keepAll, keptList, listOfPages } from "./kept.js";
import { say } from "./words.js";

const line = document.querySelector("[data-keep]");

function words(text) {
  line.querySelector("a").textContent = text;
}

async function keep() {
  const list = await listOfPages();
  await keepAll(list, (done, total) =>
    words(say("Coming onto this phone: {done} of {total} pages", { done, total })),
  );
  await tell(list);
}

async function tell(list) {
  const modules = await countKept(list, "module");
  const repairs = await countKept(list, "repair");
  const parts = [];
  if (modules.total) parts.push(say("{there} of {total} modules on this phone", modules));
  if (repairs.total) parts.push(say("{there} of {total} repairs on this phone", repairs));
  words(parts.join(", ") || say("What is on this phone"));
}

async function tellOld() {
  const list = await keptList();
  if (list) await tell(list);
  else words(say("Nothing is on this phone yet"));
}

async function start() {
  await navigator.serviceWorker.ready;
  line.hidden = false;
  if (navigator.connection?.saveData) return words(say("Keep the modules on this phone"));
  navigator.storage?.persist?.().catch(() => {});
  return keep();
}

if (line && canKeep) {
  const begin = () => start().catch(tellOld);
  if (document.readyState === "complete") begin();
  else addEventListener("load", begin);
}
