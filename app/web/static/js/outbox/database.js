// The phone's own database. Its form has a version: each step below takes it one further, and a
// step once published is never changed, only followed by another.
//
//   items     what is not sent yet      {id, person, device, sequence, kind, text, made, problem}
//   devices   one row for each person   {person, device, last, name, signInName}
//                                       last: the highest number given out
//   receipts  what the server took in   {id, person, kind, sequence, arrived_at, result}
//   done      steps done on this phone  {key, person, module, revision, step}

export const NAME = "lowport";

export const STEPS = [
  (db) => {
    db.createObjectStore("items", { keyPath: "id" }).createIndex("person", "person");
    db.createObjectStore("devices", { keyPath: "person" });
    db.createObjectStore("receipts", { keyPath: "id" }).createIndex("person", "person");
    db.createObjectStore("done", { keyPath: "key" }).createIndex("person", "person");
  },
];

let opened = null;

// `steps` and `name` are only given by the test of an upgrade.
export function openDatabase(name = NAME, steps = STEPS) {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(name, steps.length);
    request.onupgradeneeded = (event) => {
      for (const step of steps.slice(event.oldVersion)) step(request.result, request.transaction);
    };
    request.onsuccess = () => {
      // A page of a newer version wants to take the form further: let it.
      request.result.onversionchange = () => {
        request.result.close();
        opened = null;
      };
      resolve(request.result);
    };
    request.onerror = () => reject(request.error);
  });
}

// Runs `work(store, …)` in one transaction. What it wrote is on the disk when this resolves
// ("strict"); when it throws, nothing was written. Inside, await only requests of the transaction:
// waiting for anything else (a fetch, a cache) would end it.
export async function run(names, mode, work) {
  opened ??= openDatabase();
  const db = await opened.catch((problem) => {
    opened = null;
    throw problem;
  });
  const transaction = db.transaction(names, mode, { durability: "strict" });
  const finished = new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    transaction.onabort = () => reject(transaction.error ?? new Error("not kept"));
  });
  finished.catch(() => {}); // it is awaited below, unless the work itself throws
  let result;
  try {
    result = await work(...names.map((name) => transaction.objectStore(name)));
  } catch (problem) {
    transaction.abort();
    throw problem;
  }
  await finished;
  return result;
}

// The answer of one request of a transaction.
export function answer(request) {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}
