// What is kept on this phone for days without signal: fetched all at once, checked one by one.

const PERSONAL = "lowport-person-";
const MADE_FROM = "/-/made-from";
const START = "/-/start";
const LIST = "/-/list";
const STATE = "lowport-state"; // the service worker's own memory, see service_worker/state.js
const WHO = "/-/who";
const AT_ONCE = 4;

export const person = document.documentElement.dataset.person ?? "";
export const canKeep = Boolean(person && globalThis.caches && navigator.serviceWorker);

const open = () => caches.open(PERSONAL + person);
const options = { ignoreVary: true };

export async function listOfPages() {
  const response = await fetch("/on-this-phone/list", { headers: { Accept: "application/json" } });
  if (!response.ok || response.redirected) throw new Error("no list");
  return response.json();
}

// The list as it was when it was last fetched whole; null before.
export async function keptList() {
  const kept = await (await open()).match(LIST);
  return kept ? kept.json() : null;
}

// How many of how many groups of one kind ("module", "repair") are whole.
export async function countKept(list, kind) {
  const groups = list.groups.filter((group) => group.kind === kind);
  let there = 0;
  for (const group of groups) there += (await missingOf(group.urls)).length === 0;
  return { there, total: groups.length };
}

// Fetches what is missing, or everything where it was made from something older. `progress` is
// called with how many of how many are there.
export async function keepAll(list, progress = () => {}, everything = false) {
  const cache = await open();
  await tellWhose();
  for (const url of await missingFiles(list.assets)) await fetch(url); // the service worker keeps it
  const urls = list.groups.flatMap((group) => group.urls);
  const madeFrom = await (await cache.match(MADE_FROM))?.text();
  const isOld = everything || madeFrom !== list.digest;
  const left = [];
  for (const url of urls) if (isOld || !(await cache.match(url, options))) left.push(url);
  let done = urls.length - left.length;
  progress(done, urls.length);
  const fetchNext = async () => {
    for (let url = left.shift(); url; url = left.shift()) {
      await keepOne(cache, url);
      progress((done += 1), urls.length);
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, fetchNext));
  await cache.put(LIST, new Response(JSON.stringify(list)));
  await cache.put(START, new Response(startOf(list)));
  await cache.put(MADE_FROM, new Response(list.digest));
}

// On a phone's very first visit every page may have come before the service worker was at work, and
// then nobody has told it yet whose pages it may show. The list just came, so the person is signed in.
async function tellWhose() {
  const state = await caches.open(STATE);
  const known = await (await state.match(WHO))?.text();
  if (!known) await state.put(WHO, new Response(person));
}

// Where the phone starts without signal: the first page of the person's own work.
function startOf(list) {
  return (list.groups.find((group) => group.id !== "phone") ?? list.groups[0]).urls[0];
}

async function keepOne(cache, url) {
  const response = await fetch(url, { headers: { Accept: "text/html" } });
  const owner = response.headers.get("Lowport-Person");
  // Signed out, or somebody else by now: then nothing may be kept.
  if (!response.ok || response.redirected || owner !== person) throw new Error(`not kept: ${url}`);
  await cache.put(url, response);
}

// Really there: in the cache, with its last letter.
async function isThere(cache, url) {
  const kept = await cache.match(url, options);
  return Boolean(kept?.ok && (await kept.text()).trimEnd().endsWith("</html>"));
}

export async function missingOf(urls) {
  const cache = await open();
  const missing = [];
  for (const url of urls) if (!(await isThere(cache, url))) missing.push(url);
  return missing;
}

export async function missingFiles(urls) {
  const missing = [];
  for (const url of urls) if (!(await caches.match(url, options))) missing.push(url);
  return missing;
}
