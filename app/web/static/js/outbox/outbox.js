// The outbox: what a person does without signal is kept on the phone first, sent second, and
// forgotten only on the server's receipt. This file is its door; other scripts import only this.
//
//   isHere                     false where the browser lacks what it takes (plain http, very old):
//                              then use the page's ordinary form.
//   person                     the id of the person whose page this is, "" when nobody is signed in.
//   await keep(kind, payload)  puts a thing into the outbox and starts sending. It is on the disk
//                              when this resolves. Returns the item {id, sequence, device, text, …};
//                              a signature goes into the payload, so sign before you keep.
//   await sent(id, ms)         waits up to ms for the item's fate: {receipt}, {problem}, or {} while
//                              it still waits; at once where the sending that keep started failed,
//                              so nobody without signal stands waiting. receipt = {id, kind, digest,
//                              sequence, arrived_at, result}; problem = {status, code, sentence}.
//   await send()               sends what waits now; {sent, state}, see sending.js.
//   await waiting()            this person's items, the oldest first; item.problem is set on those
//                              that need attention. waiting(null) gives everybody's.
//   await tryAgain(id), throwAway(id), deviceOf(person), ownDevice(person), receiptOf(id)
//   onChange(listener)         called after anything in the outbox changed, in any tab.
//
// To add a kind of thing: keep("my-kind", {…}) here, and on the server a handler in the audience's
// outbox_kinds.py (app/web/outbox/kinds.py says how). The item's id is the thing's id for ever: a
// handler may use it as the id of the record it makes, and the same item sent twice is one record.

import * as items from "./items.js";
import { flush } from "./sending.js";

export { deviceOf, ownDevice, receiptOf } from "./items.js";

const page = globalThis.document?.documentElement.dataset ?? {};
export const person = page.person ?? "";
export const isHere = Boolean(
  person && globalThis.indexedDB && navigator.locks && crypto.randomUUID && window.isSecureContext,
);

const channel = globalThis.BroadcastChannel && isHere ? new BroadcastChannel("lowport-outbox") : null;
const listeners = new Set();

export function onChange(listener) {
  listeners.add(listener);
}

function changed() {
  for (const listener of listeners) listener();
  channel?.postMessage("changed");
}
channel?.addEventListener("message", () => {
  for (const listener of listeners) listener();
});

export function waiting(whose = person) {
  return items.waiting(whose);
}

let newest = Promise.resolve({ state: "empty" }); // the sending that keep started last

export async function keep(kind, payload) {
  const item = await items.add(kind, payload, person);
  navigator.storage?.persist?.().catch(() => {});
  changed();
  newest = send().catch(() => ({ state: "unreachable" })); // it is kept; the next trigger sends it
  return item;
}

// What the last sending of this page ended with: "", or a state of sending.js.
export let lastState = "";

export async function send() {
  try {
    const result = await flush(person);
    lastState = result.state;
    return result;
  } finally {
    changed();
  }
}

export async function sent(id, ms) {
  const end = Date.now() + ms;
  let hasFailed = false;
  newest.then(({ state }) => (hasFailed = state !== "empty"));
  for (;;) {
    const receipt = await items.receiptOf(id);
    if (receipt) return { receipt };
    const item = (await items.waiting(person)).find((one) => one.id === id);
    if (item?.problem) return { problem: item.problem };
    if (!item || hasFailed || Date.now() >= end) return {};
    await new Promise((resolve) => setTimeout(resolve, 60));
  }
}

export async function tryAgain(id) {
  await items.tryAgain(id);
  changed();
  return send();
}

export async function throwAway(id) {
  await items.throwAway(id);
  changed();
  return send();
}

// Sending starts by itself at four moments: when a page opens, when the phone says it is back on
// a network, when the page is looked at again, and by the button (which calls send). A network may
// be there without the phone saying so, so a page that stays open with something waiting tries
// again as well: after two seconds, then twice as long each time, then once a minute.
const SOON_MS = 2000;
const SELDOM_MS = 60000;
let pause = 0;
let timer = null;

const isWaiting = async () => (await waiting()).some((item) => !item.problem);

async function tryNow() {
  pause = 0;
  if (await isWaiting()) await send();
}

async function tryLater() {
  if (timer) return;
  const isLeft = await isWaiting();
  if (!isLeft) pause = 0;
  if (timer || !isLeft) return;
  pause = Math.min(Math.max(2 * pause, SOON_MS), SELDOM_MS);
  timer = setTimeout(() => {
    timer = null;
    if (document.visibilityState === "visible") send().catch(() => {});
    else tryLater();
  }, pause);
}

export function startSending() {
  if (!isHere) return;
  const trying = () => tryNow().catch(() => {});
  onChange(tryLater);
  trying();
  addEventListener("online", trying);
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") trying();
  });
}
