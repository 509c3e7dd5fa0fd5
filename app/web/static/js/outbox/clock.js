// The phone's clock is not trusted and not corrected: what it says goes along with the last time
// of the server that the phone has seen. The service worker notes that from every page's Date.

const STATE = "lowport-state";
const SEEN = "/-/server-time";

export async function lastServerTime() {
  const kept = await globalThis.caches?.match(SEEN, { cacheName: STATE }).catch(() => null);
  return kept ? kept.text() : null;
}

export async function noteServerTime(moment) {
  const cache = await globalThis.caches?.open(STATE).catch(() => null);
  await cache?.put(SEEN, new Response(new Date(moment).toISOString()));
}

// 2026-03-02T09:14:05.120-05:00: the wall clock the person saw, with its offset.
export function withOffset(moment) {
  const minutes = -moment.getTimezoneOffset();
  const wall = new Date(moment.getTime() + minutes * 60000).toISOString().slice(0, -1);
  const two = (number) => String(Math.floor(Math.abs(number))).padStart(2, "0");
  return `${wall}${minutes < 0 ? "-" : "+"}${two(minutes / 60)}:${two(minutes % 60)}`;
}
