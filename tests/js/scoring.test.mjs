// Pass or not yet, on the phone as on the server: tests/vectors/scores.json.

import assert from "node:assert/strict";
import test from "node:test";

import { score } from "../../app/web/static/js/trade/scoring.js";
import { vectors } from "./vectors.mjs";

const { items, cut, all_done, cases } = vectors("scores");

for (const { says, but, judgement, ...wanted } of cases) {
  test(says, () => {
    const seen = {};
    for (const [id, one] of Object.entries({ ...all_done, ...but })) {
      if (one) seen[id] = { outcome: one[0], reason: one[1] ?? "", ruleMet: one[2] ?? null };
    }
    const list = items.map(({ id, critical, rule }) => ({ id, critical, hasRule: rule }));
    const found = score(list, seen, judgement, cut);
    if (wanted.open) return assert.ok(found.open);
    assert.equal(found.passed, wanted.passed);
    assert.deepEqual(found.reasons.map((reason) => reason.kind), wanted.reasons);
  });
}
