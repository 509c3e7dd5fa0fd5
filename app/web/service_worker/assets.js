// Files with a digest in their name never change, so the phone's copy is as good as the server's.

async function asset(request) {
  const kept = await caches.match(request.url, { cacheName: SHELL, ignoreVary: true });
  if (kept) return kept;
  try {
    const response = await fetch(request);
    // A script of this version that only some phones need is kept once a page has asked for it.
    if (response.ok && new URL(request.url).pathname.startsWith(SCRIPTS)) {
      await (await caches.open(SHELL)).put(request.url, response.clone());
    }
    return response;
  } catch (problem) {
    const newer = await sameOfThisVersion(new URL(request.url).pathname);
    if (newer) return newer;
    throw problem;
  }
}

// A kept page made with the version before names its files; without signal it gets this one's.
function sameOfThisVersion(path) {
  const script = path.match(/^\/assets\/js-[0-9a-f]+\/(.+)$/);
  const wanted = script ? SCRIPTS + script[1] : path.startsWith("/assets/css/book-") ? SHEET : "";
  return wanted && caches.match(wanted, { cacheName: SHELL, ignoreVary: true });
}
