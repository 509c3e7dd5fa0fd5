// Which request goes where. Nothing but GET is ever answered from a cache.

addEventListener("install", (event) => {
  event.waitUntil(caches.open(SHELL).then((cache) => cache.addAll(ASSETS.map(asked))));
});

// What the page has just fetched under a digest needs no second trip; everything else is asked for.
function asked(url) {
  if (url.startsWith(SCRIPTS) || url === SHEET) return new Request(url);
  return new Request(url, { cache: "no-cache", credentials: "omit" });
}

// A newer version waits until a page says that nobody is in the middle of something.
addEventListener("message", (event) => {
  if (event.data === "take-over") skipWaiting();
});

addEventListener("activate", (event) => {
  event.waitUntil(
    caches.keys().then(async (names) => {
      const old = names.filter((name) => name.startsWith("lowport-shell-") && name !== SHELL);
      await Promise.all(old.map((name) => caches.delete(name)));
      await clients.claim();
    }),
  );
});

addEventListener("fetch", (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (origin !== location.origin) return;
  if (request.method === "GET" && pathname.startsWith("/assets/")) {
    event.respondWith(asset(request));
  } else if (request.mode === "navigate" && request.method === "GET") {
    event.respondWith(page(request, event));
  } else if (request.mode === "navigate" && ["/sign-in", "/sign-out"].includes(pathname)) {
    event.respondWith(signing(request).catch(offlinePage));
  } else if (request.mode === "navigate") {
    event.respondWith(form(request));
  }
});
