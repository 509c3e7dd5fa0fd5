// A checklist item's rule worked out: one call of a calculator, read by the server into a tree
// (app/trainer/wall/rules.py), so that nothing is parsed here.
//
//   {call: "within", inputs: {value: {name: "wall_temperature"}, low: {number: "10"}, …}}
//   a value may also be {call, inputs, field: "low_min"} or {text: "surface"}

import { CHECKS, NotPossible } from "./checks.js";

// rule: {tree, about, places: {input: measure}}; values: {name: number or text}, in base units;
// bounds: {calculator: {input: {low, high, kind}}}. Resolves to
//   null                                        nothing to judge
//   {missing: [names]}                          a value is not there
//   {impossible: measure, low, high}            no gauge can have shown that
//   {measure, value, low, high, isWithin, …}    the verdict
export function judge(rule, values, bounds) {
  if (!rule) return null;
  const missing = namesIn(rule.tree).filter((name) => values[name] === undefined || values[name] === null);
  if (missing.length) return { missing: [...new Set(missing)].sort() };
  try {
    return { ...worth(rule.tree, values, bounds), measure: rule.about };
  } catch (refused) {
    if (!(refused instanceof NotPossible)) throw refused;
    const measure = rule.places[refused.input];
    if (!measure) return { impossible: rule.about, low: null, high: null };
    return { impossible: measure, low: refused.low, high: refused.high };
  }
}

function namesIn(node) {
  if (node.name) return [node.name];
  return node.call ? Object.values(node.inputs).flatMap(namesIn) : [];
}

function worth(node, values, bounds) {
  if (node.name) return values[node.name];
  if (node.number !== undefined) return Number(node.number);
  if (node.text !== undefined) return node.text;
  const given = Object.fromEntries(
    Object.entries(node.inputs).map(([input, part]) => [input, worth(part, values, bounds)]),
  );
  for (const [input, value] of Object.entries(given)) check(input, value, bounds[node.call]?.[input]);
  const result = CHECKS[node.call](given);
  return node.field ? result[node.field] : result;
}

function check(input, value, bound) {
  if (!bound || typeof value !== "number") return;
  const { low, high, kind } = bound;
  const isOut = (low !== null && value < low) || (high !== null && value > high);
  if (!Number.isFinite(value) || isOut || (kind === "count" && !Number.isInteger(value))) {
    throw new NotPossible(input, low, high);
  }
}
