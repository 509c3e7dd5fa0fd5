// A practice answer is marked on the phone as on the server: tests/vectors/marks.json holds both.

import assert from "node:assert/strict";
import test from "node:test";

import { markChoice, markComputed } from "../../app/web/static/js/trade/marking.js";
import { vectors } from "./vectors.mjs";

const { questions, marks } = vectors("marks");

for (const [name, typed, diagnosis, slip] of marks) {
  test(`“${typed}” for ${name} is ${diagnosis}`, () => {
    const marked = markComputed(questions[name], typed);
    assert.deepEqual([marked.diagnosis, marked.slip], [diagnosis, slip]);
    assert.equal(marked.isRight, diagnosis === "right");
  });
}

test("an option is right or not", () => {
  const question = { rightOption: "b", feedback: { a: "no" } };
  assert.equal(markChoice(question, "b").isRight, true);
  assert.equal(markChoice(question, "a").isRight, false);
});
