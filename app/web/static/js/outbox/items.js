// What waits on this phone. An item's text is made once and never changes, so that the server
// knows it again; only what the server said about it (`problem`) is noted beside it.

import { answer, run } from "./database.js";
import { lastServerTime, withOffset } from "./clock.js";

export async function add(kind, payload, person) {
  const seen = await lastServerTime();
  return run(["items", "devices"], "readwrite", async (items, devices) => {
    const known = await answer(devices.get(person));
    const device = known?.device ?? crypto.randomUUID();
    const sequence = (known?.last ?? 0) + 1;
    const item = madeItem({ kind, payload, person, device, sequence, seen });
    await answer(devices.put({ ...known, person, device, last: sequence, ...namesHere(person) }));
    await answer(items.add(item));
    return item;
  });
}

function madeItem({ kind, payload, person, device, sequence, seen }) {
  const now = new Date();
  const id = crypto.randomUUID();
  const text = JSON.stringify({
    version: 1,
    id,
    kind,
    person,
    device,
    sequence,
    claimed_at: withOffset(now),
    server_seen_at: seen,
    payload,
  });
  return { id, person, device, sequence, kind, text, made: now.getTime(), problem: null };
}

// Everybody's, or one person's; the oldest first.
export async function waiting(person = null) {
  const found = await run(["items"], "readonly", (items) => answer(items.getAll()));
  const theirs = person === null ? found : found.filter((item) => item.person === person);
  return theirs.sort((a, b) => a.sequence - b.sequence);
}

// The item goes and its receipt comes in one transaction.
export function settle(item, receipt) {
  if (receipt.id !== item.id) throw new Error(`the receipt is for ${receipt.id}`);
  return run(["items", "receipts"], "readwrite", async (items, receipts) => {
    await answer(receipts.put({ ...receipt, person: item.person }));
    await answer(items.delete(item.id));
  });
}

export function refuse(item, problem) {
  return change(item.id, (kept) => ({ ...kept, problem }));
}

// The button "Try again": nothing is refused for ever.
export function tryAgain(id) {
  return change(id, (kept) => ({ ...kept, problem: null }));
}

function change(id, changed) {
  return run(["items"], "readwrite", async (items) => {
    const kept = await answer(items.get(id));
    if (kept) await answer(items.put(changed(kept)));
  });
}

// The number stays, with a note that its thing was thrown away: no gap without a reason.
export async function throwAway(id) {
  const seen = await lastServerTime();
  return run(["items"], "readwrite", async (items) => {
    const kept = await answer(items.get(id));
    if (!kept) return;
    const payload = { kind: kept.kind, id: kept.id };
    await answer(items.delete(id));
    await answer(items.add(madeItem({ ...kept, kind: "thrown-away", payload, seen })));
  });
}

// The highest number given out by each of the person's devices on this phone.
export async function issued(person) {
  const row = await run(["devices"], "readonly", (devices) => answer(devices.get(person)));
  return row ? { [row.device]: row.last } : {};
}

// Names never travel with a thing: they stand beside the phone's number for the person, so that
// what waits can be told by its person's name when somebody else has the phone.
function namesHere(person) {
  const page = document.documentElement.dataset;
  return page.person === person ? { name: page.personName, signInName: page.signInName } : {};
}

export async function ownerOf(person) {
  const row = await run(["devices"], "readonly", (devices) => answer(devices.get(person)));
  return { name: row?.name ?? "?", signInName: row?.signInName ?? "" };
}

// This phone's id for a person, made now if nothing was made yet: a key is registered under it.
export function ownDevice(person) {
  return run(["devices"], "readwrite", async (devices) => {
    const known = await answer(devices.get(person));
    if (known) return known.device;
    const device = crypto.randomUUID();
    await answer(devices.put({ person, device, last: 0, ...namesHere(person) }));
    return device;
  });
}

// This phone's id for a person, once something was made; null before.
export async function deviceOf(person) {
  const row = await run(["devices"], "readonly", (devices) => answer(devices.get(person)));
  return row?.device ?? null;
}

export async function receiptOf(id) {
  return run(["receipts"], "readonly", (receipts) => answer(receipts.get(id)));
}
