// Reading what people type: 6'-4 1/2", 3/4 in, 20 mil, 0.25 gal. What is unclear is refused with a
// question. The grammar of app/trade/lengths.py; both are held to tests/vectors/readings.json.

import { decimalText, exactly, fraction, isSame, mixed, over, plus, minus, times } from "./exact.js";
import { readNumber, tidy, Unreadable } from "./typed-number.js";
import { BASE_UNITS, folded, signOf, UNITS, wordsFor, wordsOf } from "./units.js";

export { Unreadable };

const PLAIN = ["ratio", "count", "share"];
const FEET = /^(?:'|ft\.?|feet|foot|pies?)\s*-?\s*(?=[0-9.])/i;

export function toBase(number, unit) {
  const [, factor, , offset] = UNITS[unit];
  return plus(times(number, exactly(factor)), exactly(offset));
}

export function fromBase(value, unit) {
  const [, factor, , offset] = UNITS[unit];
  return over(minus(value, exactly(offset)), exactly(factor));
}

// {value, quantity, unit, typedUnit, said}: the exact value in the base unit (see exact.js), the
// unit it was typed in, and the words that say it back. Throws Unreadable.
export function readQuantity(text, quantity, fieldUnit = null) {
  const plain = tidy(text);
  const isNegative = plain.startsWith("-");
  if (isNegative && quantity !== "temperature") {
    throw new Unreadable(text, "“{text}” is below zero. Is the minus meant? Type it without.");
  }
  if (quantity === "ratio" && plain.includes(":")) return readRatio(plain, text);
  const bare = isNegative ? plain.replace(/^-+/, "").trim() : plain;
  const [number, written, rest] = readNumber(bare, text);
  if (quantity === "length" && FEET.test(rest)) return feetAndInches(number, written, rest, text);
  const unit = unitTyped(rest, quantity, fieldUnit, written, text);
  refuseMisfit(number, quantity, unit, text);
  const signed = isNegative ? [-number[0], number[1]] : number;
  const value = unit ? toBase(signed, unit) : signed;
  const said = saidBack((isNegative ? "-" : "") + written, value, unit, quantity);
  return { value, quantity, unit: BASE_UNITS[quantity], typedUnit: unit, said };
}

function readRatio(plain, text) {
  const [left, right] = [plain.slice(0, plain.indexOf(":")), plain.slice(plain.indexOf(":") + 1)];
  const [a, writtenA, restA] = readNumber(left.trim(), text);
  const [b, writtenB, restB] = readNumber(right.trim(), text);
  if (restA || restB || b[0] === 0n) {
    throw new Unreadable(text, "“{text}” is no ratio we can read. Type it like 2:1.");
  }
  const said = `${writtenA} to ${writtenB}`;
  return { value: over(a, b), quantity: "ratio", unit: "", typedUnit: null, said };
}

function feetAndInches(feet, written, rest, text) {
  const [inches, writtenInches, unit] = readNumber(rest.slice(rest.match(FEET)[0].length), text);
  if (!unit) {
    throw new Unreadable(text, "What is the {inches} after the feet? Type the unit, as in 6 ft 4 in.", {
      inches: writtenInches,
    });
  }
  if (!wordsOf("in").includes(folded(unit))) {
    throw new Unreadable(text, "What is “{unit}”? After feet only inches can follow.", { unit });
  }
  if (!/^[0-9]+$/.test(written)) {
    throw new Unreadable(
      text,
      "Feet must be whole when inches follow. Is {feet} ft meant, or other inches?",
      { feet: written },
    );
  }
  const total = plus(times(fraction(12n), feet), inches);
  if (inches[0] >= 12n * inches[1]) {
    const meant = total[0] / (12n * total[1]);
    const left = mixed(minus(total, fraction(12n * meant)));
    throw new Unreadable(
      text,
      "{inches} in is a foot or more. Do you mean {feet} ft {left} in?",
      { inches: writtenInches, feet: String(meant), left },
    );
  }
  const said = `${written} ft ${writtenInches} in = ${mixed(total)} in`;
  return { value: toBase(total, "in"), quantity: "length", unit: "mm", typedUnit: "in", said };
}

function unitTyped(rest, quantity, fieldUnit, written, text) {
  const known = wordsFor(quantity);
  const signs = [...new Set([...known.values()].map(signOf).filter(Boolean))].join(", ");
  if (!rest) {
    if (fieldUnit) return fieldUnit;
    if (PLAIN.includes(quantity)) return null;
    throw new Unreadable(text, "{number} what? Add the unit: {units}.", { number: written, units: signs });
  }
  if (known.has(folded(rest))) return known.get(folded(rest));
  for (const [name, [other]] of Object.entries(UNITS)) {
    if (wordsOf(name).includes(folded(rest))) {
      const places = { unit: rest, other, quantity, units: signs };
      throw new Unreadable(text, "{unit} is for {other}. Here {quantity} is asked: {units}.", places);
    }
  }
  throw new Unreadable(text, "What unit is “{unit}”? Use one of these: {units}.", {
    unit: rest,
    units: signs || "none, a plain number",
  });
}

function refuseMisfit(number, quantity, unit, text) {
  if (quantity === "count" && number[1] !== 1n) {
    throw new Unreadable(text, "“{text}” is not a whole number. How many are there?");
  }
  if (quantity === "share" && !unit && number[0] > number[1]) {
    throw new Unreadable(text, "Is {text} % meant? Add the sign, or type a share from 0 to 1.");
  }
}

function saidBack(written, value, unit, quantity) {
  const base = BASE_UNITS[quantity];
  if (!unit || !UNITS[base] || unit === base) return unit ? `${written} ${signOf(unit)}`.trim() : written;
  const rounded = sixDigits(value);
  const equals = isSame(exactly(rounded), value) ? "=" : "is about";
  return `${written} ${signOf(unit)} ${equals} ${rounded} ${signOf(base)}`;
}

// As Python writes a number with six digits: 0.0001 plainly, smaller and very large with an e.
function sixDigits(value) {
  const number = Number(decimalText(value, 20));
  const size = Math.abs(number);
  if (size !== 0 && (size < 1e-4 || size >= 999999.5)) {
    const [digits, power] = number.toExponential(5).split("e");
    const two = power.slice(1).padStart(2, "0");
    return `${digits.replace(/\.?0+$/, "")}e${power[0]}${two}`;
  }
  const written = number.toPrecision(6);
  return written.includes(".") ? written.replace(/\.?0+$/, "") : written;
}
