// What is measured at the wall is judged on the phone as on the server: tests/vectors/checks.json.
// The Python test hands in the rules of the checklists, so that both judge the same ones.

import assert from "node:assert/strict";
import test from "node:test";

import { potLifeBand } from "../../app/web/static/js/trade/checks.js";
import { judge } from "../../app/web/static/js/trade/rules.js";
import { vectors } from "./vectors.mjs";

const { given, cases, pot_life } = vectors("checks");
const { rules, bounds } = JSON.parse(process.env.LOWPORT_RULES ?? '{"rules":{}}');

const near = (found, wanted) =>
  wanted === null || wanted === undefined
    ? assert.equal(found ?? null, wanted ?? null)
    : assert.ok(Math.abs(found - wanted) <= 1e-9 * Math.abs(wanted), `${found} is not ${wanted}`);

for (const one of cases) {
  test(`${one.item} ${JSON.stringify(one.measured)}`, { skip: !bounds }, () => {
    const values = { ...given, ...one.measured };
    for (const name of one.without ?? []) delete values[name];
    const found = judge(rules[one.item], values, bounds);
    if (one.nothing) return assert.equal(found, null);
    if (one.missing) return assert.deepEqual(found.missing, one.missing);
    if (one.impossible) return assert.equal(found.impossible, one.impossible);
    assert.equal(found.isWithin, one.within);
    near(found.low, one.low);
    near(found.high, one.high);
    if ("long" in one) assert.equal(found.longSide, one.long);
    if ("long_by" in one) near(found.longBy, one.long_by);
  });
}

for (const [reference_min, temperature_c, reference_c, low, high] of pot_life) {
  test(`pot life ${reference_min} min at ${reference_c} °C, now at ${temperature_c} °C`, () => {
    const band = potLifeBand({ reference_min, temperature_c, reference_c });
    near(band.low_min, low);
    near(band.high_min, high);
  });
}
