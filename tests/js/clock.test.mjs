// The pot-life clock counts down to the second and goes on past zero with a sign.

import assert from "node:assert/strict";
import test from "node:test";

const { countdown } = await import("../../app/web/static/js/wall/countdown.js");

for (const [left, shown] of [
  [30, "30:00"],
  [9.999, "10:00"],
  [5.5, "5:30"],
  [1 / 60, "0:01"],
  [0, "−0:00"],
  [-1.25, "−1:15"],
  [61, "61:00"],
]) {
  test(`${left} min is ${shown}`, () => assert.equal(countdown(left), shown));
}
