// What is in a draft, judged: each item's numbers, the whole, the port log.

import { decimalText, toNumber } from "../trade/exact.js";
import { portPressure } from "../trade/checks.js";
import { fromBase, readQuantity } from "../trade/lengths.js";
import { judge } from "../trade/rules.js";
import { score } from "../trade/scoring.js";
import { signOf } from "../trade/units.js";

const WAS_TRIED = ["done", "done-when-prompted", "not-done"];

export const keyOf = (item) => `${item.module}/${item.step}`;

// {reading} or {problem: Unreadable}, or {} for an empty field.
export function readTyped(text, quantity, unit) {
  if (!(text ?? "").trim()) return {};
  try {
    return { reading: readQuantity(text, quantity, unit) };
  } catch (problem) {
    return { problem };
  }
}

// As the signed body has it: decimal text in the base unit.
export const textOf = (reading) => decimalText(reading.value);

export function givenValues(data) {
  const told = Object.entries(data.given).map(([name, text]) => {
    const number = Number(text);
    return [name, Number.isNaN(number) ? text : number];
  });
  return Object.fromEntries(told);
}

// The verdict of rules.js on what is typed for an item; null where there is nothing to judge.
export function verdictOf(data, draft, item) {
  const typed = draft.measured[keyOf(item)] ?? {};
  const values = givenValues(data);
  let isAny = false;
  for (const { id, quantity, unit } of item.measures) {
    const { reading } = readTyped(typed[id], quantity, unit);
    if (reading) values[id] = Number(textOf(reading));
    isAny ||= Boolean(reading);
  }
  return isAny ? judge(item.rule, values, data.bounds) : null;
}

export function ruleMet(data, draft, item) {
  const seen = draft.seen[keyOf(item)];
  if (seen && !WAS_TRIED.includes(seen.outcome)) return null;
  return verdictOf(data, draft, item)?.isWithin ?? null;
}

// A number of the base unit as the gauge shows it: 4 digits in the unit that was typed.
export function inUnit(value, unit) {
  const shown = Number(toNumber(fromBase(exactNumber(value), unit)).toPrecision(4));
  return `${shown} ${signOf(unit)}`.trim();
}

function exactNumber(value) {
  const [digits, power = "0"] = value.toExponential(15).split("e");
  const [whole, part = ""] = digits.split(".");
  const top = BigInt(whole + part);
  const shift = Number(power) - part.length;
  return shift < 0 ? [top, 10n ** BigInt(-shift)] : [top * 10n ** BigInt(shift), 1n];
}

// What still has to be done before signing: {key, what} with what: outcome, reason, numbers,
// unread, impossible, log; key "" for judgement.
export function openPoints(data, draft) {
  const points = data.items.flatMap((item) => {
    const what = openIn(data, draft, item);
    return what ? [{ key: keyOf(item), what, item }] : [];
  });
  return draft.judgement ? points : [...points, { key: "", what: "judgement" }];
}

function openIn(data, draft, item) {
  const seen = draft.seen[keyOf(item)];
  const typed = draft.measured[keyOf(item)] ?? {};
  const readings = item.measures.map((one) => readTyped(typed[one.id], one.quantity, one.unit));
  if (readings.some(({ problem }) => problem)) return "unread";
  if (verdictOf(data, draft, item)?.impossible) return "impossible";
  if (!seen) return "outcome";
  if (item.critical && seen.outcome === "does-not-apply" && !seen.reason?.trim()) return "reason";
  if (!["done", "done-when-prompted"].includes(seen.outcome)) return "";
  if (readings.some(({ reading }) => !reading)) return "numbers";
  return item.log && draft.ports.length === 0 && seen.outcome === "done" ? "log" : "";
}

export function scoreOf(data, draft) {
  const items = data.items.map((item) => {
    return { id: keyOf(item), critical: item.critical, hasRule: item.rule !== null };
  });
  const told = data.items
    .filter((item) => draft.seen[keyOf(item)])
    .map((item) => [keyOf(item), { ...draft.seen[keyOf(item)], ruleMet: ruleMet(data, draft, item) }]);
  return score(items, Object.fromEntries(told), draft.judgement, data.cut);
}

// A crack along a wall may be worked from either end; the first line of the log says from which.
function orderOf(data, lines) {
  const [usual, other] = data.orders;
  return lines.length && lines[0].port === other[0] ? other : usual;
}

// The port the plan has next; undefined after the last one.
export function portToOpen(data, lines) {
  const order = orderOf(data, lines);
  const at = lines.length ? order.indexOf(lines.at(-1).port) : -1;
  return lines.length && at < 0 ? undefined : order[at + 1];
}

// Each line of the log with the port the plan had there (null: as planned) and what its pressure
// is worth: "", normal, may-leak or leaks; and whether it is over the data sheet's.
export function judgeLog(data, lines) {
  const order = orderOf(data, lines);
  const given = givenValues(data);
  let [expected, last] = [order[0], null];
  return lines.map((line) => {
    const planned = [expected, last].includes(line.port) ? null : (expected ?? null);
    const { reading } = readTyped(line.typed, "pressure", "psi");
    const pressure_mpa = reading ? Number(textOf(reading)) : null;
    const at = order.indexOf(line.port);
    const next = at < 0 ? undefined : order[at + 1];
    [last, expected] = [line.port, next];
    const most = given.resin_max_pressure_mpa;
    const isNoted = pressure_mpa !== null;
    const verdict = isNoted ? portPressure({ kind: given.job_port_kind, pressure_mpa }).verdict : "";
    return { line, planned, next: next ?? null, verdict, isOver: isNoted && pressure_mpa > most };
  });
}
