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
//                              it still waits. receipt = {id, kind, digest, sequence, arrived_at,
//                              result}; problem = {status, code, sentence}.
//   await send()               sends what waits now; {sent, state}, see sending.js.
//   await waiting()            this person's items, the oldest first; item.problem is set on those
//                              that need attention. waiting(null) gives everybody's.
//   await tryAgain(id), throwAway(id), deviceOf(person), ownDevice(person), receiptOf(id)
//   onChange(listener)         called after anything in the outbox changed, in any tab.
//
// To add a kind of thing: keep("my-kind", {…}) here, and on the server a handler in the audience's
// outbox_kinds.py (app/web/outbox_kinds.py says how). The item's id is the thing's id for ever: a
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

export async function keep(kind, payload) {
  const item = await items.add(kind, payload, person);
  navigator.storage?.persist?.().catch(() => {});
  changed();
  send().catch(() => {}); // it is kept; the next trigger sends it
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
  for (;;) {
    const receipt = await items.receiptOf(id);
    if (receipt) return { receipt };
    const item = (await items.waiting(person)).find((one) => one.id === id);
    if (item?.problem) return { problem: item.problem };
    if (!item || Date.now() >= end) return {};
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
// be there without anything changing, so a page that stays open with something waiting also tries
// once a minute.
const EVERY_MS = 60000;

export function startSending() {
  if (!isHere) return;
  const trySending = async () => {
    if ((await waiting()).some((item) => !item.problem)) await send();
  };
  trySending();
  addEventListener("online", trySending);
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") trySending();
  });
  setInterval(() => document.visibilityState === "visible" && trySending(), EVERY_MS);
}
