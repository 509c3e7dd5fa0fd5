// On the first page of a worker's day: every module comes onto the phone by itself, and one line
// says how far that is. A phone told to save data keeps nothing unasked.

import { canKeep, keepAll, listOfPages, missingOf } from "./kept.js";
import { say } from "./words.js";

const line = document.querySelector("[data-keep]");

function words(text) {
  line.querySelector("a").textContent = text;
}

async function keep() {
  const list = await listOfPages();
  const titled = list.groups.filter((group) => group.title);
  await keepAll(list, (done, total) =>
    words(say("Coming onto this phone: {done} of {total} pages", { done, total })),
  );
  let there = 0;
  for (const group of titled) there += (await missingOf(group.urls)).length === 0;
  words(say("{there} of {total} modules on this phone", { there, total: titled.length }));
}

async function start() {
  await navigator.serviceWorker.ready;
  line.hidden = false;
  if (navigator.connection?.saveData) return words(say("Keep the modules on this phone"));
  navigator.storage?.persist?.().catch(() => {});
  return keep();
}

if (line && canKeep) {
  const stuck = () => words(say("The modules are not all on this phone yet"));
  const begin = () => start().catch(stuck);
  if (document.readyState === "complete") begin();
  else addEventListener("load", begin);
}
