// The repair as noted so far. Every change is on the disk before the page shows it as kept; other
// tabs of the same repair follow.

import { change, get } from "./store.js";

const channel = globalThis.BroadcastChannel ? new BroadcastChannel("lowport-wall") : null;

export function emptyDraft(data) {
  const { seen, measured, ports, batches, judgement, remarks } = data.noted;
  const told = Object.entries(seen).map(([key, [outcome, reason]]) => [key, { outcome, reason }]);
  return {
    repair: data.id,
    seen: Object.fromEntries(told),
    measured,
    ports,
    batches,
    judgement,
    remarks,
    signing: null, // {way, signed}: the exact text, made once
    item: null, // the outbox item that carries it
  };
}

export async function loadDraft(data) {
  return (await get("drafts", data.id)) ?? change("drafts", data.id, (kept) => kept ?? emptyDraft(data));
}

// How many changes are on their way to the disk: until they are there, what the page shows is newer
// than any draft.
let underway = 0;
export const isBehind = () => underway > 0;

// `edit(draft)` changes the draft in place; what is signed already is not changed any more.
export async function note(data, edit) {
  underway += 1;
  try {
    return await change("drafts", data.id, (kept) => {
      const open = kept ?? emptyDraft(data);
      if (!open.signing) edit(open);
      return open;
    });
  } finally {
    underway -= 1;
    channel?.postMessage(data.id);
  }
}

export async function noteSigning(data, edit) {
  const draft = await change("drafts", data.id, (kept) => {
    edit(kept);
    return kept;
  });
  channel?.postMessage(data.id);
  return draft;
}

export function onOtherTab(data, listener) {
  channel?.addEventListener("message", (event) => event.data === data.id && listener());
}
