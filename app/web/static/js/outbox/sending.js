// Sends what waits. Only one context of this phone sends at a time (Web Locks), an item is only
// forgotten on a receipt for its own id, and no request runs inside a database transaction.

import { noteServerTime } from "./clock.js";
import { issued, refuse, settle, waiting } from "./items.js";

const LOCK = "lowport-outbox";
const MOST_ITEMS = 20;
const MOST_LETTERS = 400000;
const PATIENCE_MS = 20000;
const TRY_LATER = [401, 408, 421, 425, 429];

// Resolves to {sent, state}: "empty" all was sent or refused, "signed-out" a login is needed,
// "unreachable" no answer came, "trouble" the server answered with an error of its own.
export function flush(person) {
  return navigator.locks.request(LOCK, () => sendAll(person));
}

async function sendAll(person) {
  let sent = 0;
  let alone = false;
  for (;;) {
    const batch = nextBatch(await waiting(person), alone);
    if (batch.length === 0) return { sent, state: "empty" };
    const reply = await post(batch, await issued(person));
    if (reply.state === "too-much" && batch.length > 1) {
      alone = true; // one at a time, so that the wrong one is known
      continue;
    }
    if (reply.state === "too-much") {
      await refuse(batch[0], reply.problem);
      continue;
    }
    if (reply.state !== "answered") return { sent, state: reply.state };
    const outcomes = await settleAll(batch, reply.outcomes);
    sent += outcomes.sent;
    if (outcomes.trouble) return { sent, state: "trouble" };
  }
}

function nextBatch(items, alone) {
  const batch = [];
  let letters = 0;
  for (const item of items.filter((one) => !one.problem)) {
    letters += item.text.length;
    if (batch.length && (alone || batch.length === MOST_ITEMS || letters > MOST_LETTERS)) break;
    batch.push(item);
  }
  return batch;
}

async function post(batch, numbers) {
  let response;
  let said;
  try {
    response = await fetch("/outbox", {
      method: "POST",
      headers: { "Content-Type": "application/json", Accept: "application/json" },
      body: JSON.stringify({ items: batch.map((item) => item.text), issued: numbers }),
      redirect: "error",
      cache: "no-store",
      signal: AbortSignal.timeout(PATIENCE_MS),
    });
    said = await response.json();
  } catch {
    return { state: response && response.status < 500 && response.status >= 400 ? "trouble" : "unreachable" };
  }
  if (response.status === 401) return { state: "signed-out" };
  if (response.ok && said.outcomes?.length === batch.length) {
    await noteServerTime(said.server_time);
    return { state: "answered", outcomes: said.outcomes };
  }
  if ([400, 413, 422].includes(response.status)) return { state: "too-much", problem: told(said) };
  return { state: "trouble" };
}

async function settleAll(batch, outcomes) {
  let sent = 0;
  let trouble = false;
  for (const [index, outcome] of outcomes.entries()) {
    const item = batch[index];
    if (outcome.status < 300 && outcome.receipt?.id === item.id) {
      await settle(item, outcome.receipt);
      sent += 1;
    } else if (outcome.status >= 400 && outcome.status < 500 && !TRY_LATER.includes(outcome.status)) {
      await refuse(item, told(outcome.problem));
    } else {
      trouble = true;
    }
  }
  return { sent, trouble };
}

// The server's own sentence is what the person reads.
function told(problem) {
  const { status = 0, code = "", title = "", detail = "" } = problem ?? {};
  return { status, code, sentence: detail || title, at: Date.now() };
}
