// What the service worker remembers between its short lives: whose pages may be shown, and the
// last time of the server. It stands in a cache of its own, where pages can read it too.

const STATE = "lowport-state";
const WHO = "/-/who";
const SEEN = "/-/server-time";
const PERSONAL = "lowport-person-";
const NOBODY_YET = "?"; // somebody has just signed in, and no page has said who

async function remembered(key) {
  const kept = await caches.match(key, { cacheName: STATE });
  return kept ? kept.text() : "";
}

async function remember(key, value) {
  await (await caches.open(STATE)).put(key, new Response(value));
}

async function noteTime(response) {
  const date = Date.parse(response.headers.get("Date") ?? "");
  if (date) await remember(SEEN, new Date(date).toISOString());
}

// A page came from the server: it says whose it is. Pages of anybody else leave this phone.
async function noteOwner(response) {
  const owner = response.headers.get("Lowport-Person");
  if (!owner || owner === (await remembered(WHO))) return;
  await forgetPages(owner);
  await remember(WHO, owner);
}

async function forgetPages(except = "") {
  const names = await caches.keys();
  const others = names.filter((name) => name.startsWith(PERSONAL) && name !== PERSONAL + except);
  await Promise.all(others.map((name) => caches.delete(name)));
}

// A sign-in or sign-out went through when the server sends the browser on to another page.
async function signing(request) {
  const path = new URL(request.url).pathname;
  const response = await fetch(request);
  if (response.type !== "opaqueredirect") return response;
  if (path === "/sign-in") await remember(WHO, NOBODY_YET);
  if (path === "/sign-out") {
    await remember(WHO, "");
    await forgetPages();
  }
  return response;
}
