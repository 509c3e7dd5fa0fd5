// Numbers as people on site type them: 4, .5, 3/4, 1 1/2, 1-1/2, 1½. The grammar of
// app/trade/typed_number.py, with the same sentences.

import { exactly, fraction, mixed, plus } from "./exact.js";

const LONGEST = 40;
const NUMBER =
  /^(?:(?<whole>[0-9]+)[ -](?<top>[0-9]+)\/(?<bottom>[0-9]+)|(?<numerator>[0-9]+)\/(?<denominator>[0-9]+)|(?<decimal>[0-9]*\.[0-9]+|[0-9]+))/;
const EXPONENT = /[0-9.]\s*[eE]\s*[+-]?[0-9]/;
const MARKS = { "'": "‘’ʼ′´`", '"': "“”″", "-": "‐‑‒–—―−", "/": "⁄∕" };

// `template` with `places` is what the page says, in its own language.
export class Unreadable extends Error {
  constructor(text, template, places = {}) {
    super(template);
    this.template = template;
    this.places = { text, ...places };
  }
}

export function tidy(text) {
  if ([...text].length > LONGEST) {
    throw new Unreadable(text, "That is more than 40 characters. Type one quantity, no more.");
  }
  let plain = fractionsWrittenOut(text.normalize("NFC"));
  for (const [mark, others] of Object.entries(MARKS)) {
    plain = plain.replace(new RegExp(`[${others}]`, "g"), mark);
  }
  plain = plain.split(/\s+/).filter(Boolean).join(" ").replaceAll("''", '"');
  if (!plain) throw new Unreadable(text, "Nothing is typed here. Type a number and its unit.");
  if (plain.includes(",")) {
    throw new Unreadable(
      text,
      "What does the comma in “{text}” mean? Type a point for decimals, and nothing between thousands.",
    );
  }
  if (EXPONENT.test(plain)) {
    throw new Unreadable(text, "Can you write “{text}” out in full, without the e?");
  }
  return plain;
}

function fractionsWrittenOut(text) {
  let out = "";
  for (const mark of text) {
    const plain = mark.normalize("NFKC");
    const isFraction = plain !== mark && plain.includes("⁄");
    out += isFraction && /[0-9]$/.test(out) ? ` ${plain}` : isFraction ? plain : mark;
  }
  return out;
}

// [the number that `plain` starts with, how it was written, the rest]
export function readNumber(plain, text) {
  const found = plain.match(NUMBER);
  if (!found) {
    throw new Unreadable(text, "“{text}” does not start with a number. What is the number?");
  }
  const rest = plain.slice(found[0].length).trim();
  if (/^[0-9./]/.test(rest)) {
    throw new Unreadable(text, "Is “{text}” one number or two? Type one number and one unit.");
  }
  const { whole, top, bottom, numerator, denominator, decimal } = found.groups;
  if (decimal) return [exactly(decimal), decimal, rest];
  if (numerator) return [part(numerator, denominator, text), found[0], rest];
  const small = part(top, bottom, text);
  const value = plus(fraction(BigInt(whole)), small);
  if (small[0] >= small[1]) {
    throw new Unreadable(text, "The fraction {part} is not less than one. Do you mean {value}?", {
      part: `${top}/${bottom}`,
      value: mixed(value),
    });
  }
  return [value, found[0].replaceAll("-", " "), rest];
}

function part(top, bottom, text) {
  if (BigInt(bottom) === 0n) {
    throw new Unreadable(text, "A fraction cannot have 0 below its line. What is “{text}”?");
  }
  return fraction(BigInt(top), BigInt(bottom));
}
