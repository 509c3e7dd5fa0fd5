// Marking a practice answer, by the rules of app/curriculum/questions/marking.py and in exact arithmetic:
// right if |answer − key| ≤ max(absolute, relative · |key|), the limit included; a wrong one within
// tolerance of exactly one slip is that slip.

import { exactly, minus, times } from "./exact.js";
import { readQuantity } from "./lengths.js";

const isAtMost = (a, b) => a[0] * b[1] <= b[0] * a[1];
const size = ([top, bottom]) => [top < 0n ? -top : top, bottom];

// question: {quantity, unit, absolute, relative, key, slips: {id: [value, feedback]}}, numbers as
// "numerator/denominator" in the base unit. Gives {isRight, diagnosis, slip, said}; throws
// Unreadable when nothing was answered yet.
export function markComputed(question, typed) {
  const { value, said } = readQuantity(typed, question.quantity, question.unit);
  return { ...diagnose(question, value), said };
}

export function diagnose(question, value) {
  if (isClose(question, value, exactly(question.key))) {
    return { isRight: true, diagnosis: "right", slip: null };
  }
  const matching = Object.entries(question.slips)
    .filter(([, [slip]]) => isClose(question, value, exactly(slip)))
    .map(([id]) => id);
  if (matching.length === 1) return { isRight: false, diagnosis: "slip", slip: matching[0] };
  return { isRight: false, diagnosis: matching.length ? "ambiguous" : "unknown", slip: null };
}

function isClose(question, value, target) {
  const off = size(minus(value, target));
  const relative = times(exactly(question.relative), size(target));
  return isAtMost(off, exactly(question.absolute)) || isAtMost(off, relative);
}

// question: {rightOption, feedback: {option: words}}
export function markChoice(question, option) {
  const isRight = option === question.rightOption;
  return { isRight, diagnosis: isRight ? "right" : "unknown", slip: null, said: "" };
}
