// What is typed on the phone is read as on the server: tests/vectors/readings.json holds both.

import assert from "node:assert/strict";
import test from "node:test";

import { decimalText, exactly } from "../../app/web/static/js/trade/exact.js";
import { readQuantity, Unreadable } from "../../app/web/static/js/trade/lengths.js";
import { vectors } from "./vectors.mjs";

const { read, refused, decimals } = vectors("readings");

for (const [text, quantity, unit, value, said] of read) {
  test(`“${text}” is read`, () => {
    const reading = readQuantity(text, quantity, unit);
    assert.equal(decimalText(reading.value), value);
    assert.equal(reading.said, said);
  });
}

for (const [text, quantity, unit, template] of refused) {
  test(`“${text}” is refused with its question`, () => {
    assert.throws(
      () => readQuantity(text, quantity, unit),
      (refusal) => refusal instanceof Unreadable && refusal.template === template,
    );
  });
}

for (const [value, written] of decimals) {
  test(`${value} is written ${written}`, () => assert.equal(decimalText(exactly(value)), written));
}
