// Steps done on this phone, so that a kept page shows how far one is although the server's count
// in it is older. What counts is what the server has; this is only shown.

import { answer, run } from "./outbox/database.js";
import { person } from "./outbox/outbox.js";

export function noteStep({ module, revision, step }) {
  const key = [person, module, revision, step].join(" ");
  return run(["done"], "readwrite", (done) =>
    answer(done.put({ key, person, module, revision, step })),
  );
}

// The ids of the steps of one module done on this phone, at one revision.
export async function stepsHere(module, revision) {
  const own = await run(["done"], "readonly", (done) =>
    answer(done.index("person").getAll(IDBKeyRange.only(person))),
  );
  const found = own.filter((row) => row.module === module && row.revision === revision);
  return new Set(found.map((row) => row.step));
}

// Ports on the progress drawing, filled as many as are done (the same rules as progress() in
// templates/_components/lesson.html).
export function paintProgress(drawing, done) {
  const ports = [...drawing.querySelectorAll("circle")];
  ports.forEach((port, index) => {
    const state = index < done ? "full" : index === done ? "here" : "empty";
    port.setAttribute("class", `port-${state}`);
    port.setAttribute("r", state === "here" ? "12" : "9");
  });
  [...drawing.querySelectorAll("path")].forEach((crack, index) => {
    const isFull = index + 1 < done || (index < done && done < ports.length);
    crack.setAttribute("class", isFull ? "crack-full" : "crack-empty");
  });
}
