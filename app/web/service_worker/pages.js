// Pages: from the server first; from the phone when there is no answer, or none within three
// seconds. Only pages that the server allows to be kept are kept, in a cache of their person's own.

const PATIENCE_MS = 3000;

async function page(request, event) {
  const kept = await keptPage(request);
  const fresh = fromServer(request, event);
  event.waitUntil(fresh.catch(() => {}));
  if (!kept) return fresh.catch(() => withoutSignal(request));
  const late = new Promise((resolve) => setTimeout(resolve, PATIENCE_MS, null));
  const response = await Promise.race([fresh.catch(() => null), late]);
  // A gateway without a server behind it (502 to 504) is no answer either.
  return response && response.status < 502 ? response : marked(kept);
}

// The page goes on to the screen while its copy is still being written.
async function fromServer(request, event) {
  const response = await fetch(request);
  if (response.type === "opaqueredirect") return response;
  event.waitUntil(noteTime(response));
  await noteOwner(response);
  const owner = response.headers.get("Lowport-Person");
  const mayKeep = owner && response.ok && response.headers.get("Lowport-Keep");
  if (mayKeep && !new URL(request.url).search) {
    const copy = response.clone();
    event.waitUntil(caches.open(PERSONAL + owner).then((cache) => cache.put(request.url, copy)));
  }
  return response;
}

async function keptPage(request) {
  const who = await remembered(WHO);
  if (!who || who === NOBODY_YET) return null;
  const cacheName = PERSONAL + who;
  if (!(await caches.has(cacheName))) return null;
  return caches.match(request.url, { cacheName, ignoreVary: true });
}

// The page says itself that it is a kept copy, and from when.
async function marked(kept) {
  const text = await kept.text();
  const from = Date.parse(kept.headers.get("Date") ?? "") || "";
  const headers = new Headers(kept.headers);
  headers.delete("Content-Encoding");
  headers.delete("Content-Length");
  return new Response(text.replace("<html ", `<html data-kept-from="${from}" `), { headers });
}

async function withoutSignal(request) {
  if (new URL(request.url).pathname === "/") {
    const start = await keptPage(new Request("/-/start"));
    if (start) return Response.redirect(await start.text());
  }
  return offlinePage();
}

async function offlinePage() {
  const kept = await caches.match("/offline", { cacheName: SHELL });
  return kept ?? Response.error();
}

// A form sent by the browser itself. Without signal nothing was sent, and the page says so; what
// was typed is still there one page back.
async function form(request) {
  try {
    return await fetch(request);
  } catch {
    return offlinePage();
  }
}
