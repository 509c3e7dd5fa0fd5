// Signing once: the exact text is made and kept before it goes into the outbox, so that a phone
// that dies in between goes on with the same bytes, and two tabs never make two.

import { keep, receiptOf, throwAway, waiting } from "../outbox/outbox.js";
import { say } from "../words.js";
import { bodyOf } from "./body.js";
import { noteSigning } from "./draft.js";
import { compactJws } from "./keys.js";
import { giveToOutbox } from "./photos.js";
import { get, photosOf } from "./store.js";

const alone = (data, work) => navigator.locks.request(`lowport-sign-${data.id}`, work);

// `key` is null on a phone without one: then the text waits on the server for the password.
export function sign(data, key) {
  return alone(data, async () => {
    const draft = await get("drafts", data.id);
    if (draft.signing) return carryOn(data, draft);
    const text = bodyOf(data, draft, await photosOf(data.id), new Date());
    const signing = key
      ? { way: "device", signed: await compactJws(key, data.typ, text) }
      : { way: "password", signed: text };
    return carryOn(data, await noteSigning(data, (kept) => Object.assign(kept, { signing })));
  });
}

// After a restart: what was signed and did not reach the outbox yet goes there now.
export function resume(data) {
  return alone(data, async () => {
    const draft = await get("drafts", data.id);
    return draft?.signing ? carryOn(data, draft) : draft;
  });
}

async function carryOn(data, draft) {
  let item = draft.item ?? (await itemFor(data.id));
  if (!item) {
    const { way, signed } = draft.signing;
    item = (await keep("sign-off", { repair: data.id, way, signed })).id;
  }
  const signed = draft.item ? draft : await noteSigning(data, (kept) => Object.assign(kept, { item }));
  await giveToOutbox(data.id);
  return signed;
}

async function itemFor(repair) {
  const items = await waiting();
  const own = items.find(({ kind, text }) => kind === "sign-off" && JSON.parse(text).payload.repair === repair);
  return own?.id;
}

// {state: "open" | "waiting" | "wrong" | "held" | "recorded", …} of what was signed.
export async function stateOf(draft) {
  if (!draft?.signing) return { state: "open" };
  const receipt = draft.item && (await receiptOf(draft.item));
  if (receipt) return receipt.result;
  const item = (await waiting()).find(({ id }) => id === draft.item);
  if (draft.item && !item) return { state: "wrong", sentence: say("It was thrown away.") };
  return item?.problem ? { state: "wrong", sentence: item.problem.sentence } : { state: "waiting" };
}

// The server refused it: the signature goes, the notes stay, and it can be changed and signed anew.
export function changeAndSignAnew(data) {
  return alone(data, async () => {
    const draft = await get("drafts", data.id);
    if ((await waiting()).some(({ id }) => id === draft.item)) await throwAway(draft.item);
    return noteSigning(data, (kept) => Object.assign(kept, { signing: null, item: null }));
  });
}
