// What a repair needs on the phone beside the outbox, in a database of its own:
//
//   drafts  one repair as noted so far   {repair, seen, measured, ports, batches, …}
//   photos  pictures not handed to the outbox yet   {id, repair, module, step, sha256, blob}
//   keys    a person's signing key on this phone    {person, kid, privateKey, publicKey, pin}

import { answer, openDatabase } from "../outbox/database.js";

const NAME = "lowport-wall";
const STEPS = [
  (db) => {
    db.createObjectStore("drafts", { keyPath: "repair" });
    db.createObjectStore("photos", { keyPath: "id" }).createIndex("repair", "repair");
    db.createObjectStore("keys", { keyPath: "person" });
  },
];

let opened = null;

// One request-only piece of work on one store; on the disk when this resolves. A connection that
// the browser has closed meanwhile is opened anew, once.
async function run(name, mode, work, isAgain = false) {
  opened ??= openDatabase(NAME, STEPS);
  const db = await opened;
  let transaction;
  try {
    transaction = db.transaction(name, mode, { durability: "strict" });
  } catch (problem) {
    opened = null;
    if (isAgain) throw problem;
    return run(name, mode, work, true);
  }
  const finished = new Promise((resolve, reject) => {
    transaction.oncomplete = resolve;
    transaction.onabort = () => reject(transaction.error ?? new Error("not kept"));
  });
  finished.catch(() => {});
  const result = await work(transaction.objectStore(name));
  await finished;
  return result;
}

export const get = (name, key) => run(name, "readonly", (store) => answer(store.get(key)));
export const put = (name, value) => run(name, "readwrite", (store) => answer(store.put(value)));
export const remove = (name, key) => run(name, "readwrite", (store) => answer(store.delete(key)));

export const photosOf = (repair) =>
  run("photos", "readonly", (store) => answer(store.index("repair").getAll(repair)));

// Reads, changes and writes in one transaction, so that two tabs never undo each other's notes.
export function change(name, key, changed) {
  return run(name, "readwrite", async (store) => {
    const value = changed(await answer(store.get(key)));
    if (value) await answer(store.put(value));
    return value;
  });
}
