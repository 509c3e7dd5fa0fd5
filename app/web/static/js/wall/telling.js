// Words on the page at the wall: a verdict, what is open, why it is no pass yet.

import { filled, say } from "../words.js";
import { inUnit, readTyped } from "./judging.js";

export const unreadWords = ({ template, places }) => filled(say(template), places);

// Puts a verdict under an item's numbers: the value, its limits, and what to do when it is out.
export function showVerdict(place, verdict, item, typed) {
  place.replaceChildren();
  place.className = "";
  if (!verdict) return;
  if (verdict.missing) {
    const labels = verdict.missing.map((name) => labelOf(item, name));
    if (item.measures.every(({ id }) => !verdict.missing.includes(id))) {
      place.append(line(say("Not judged: the data sheet gives no {names}.", { names: labels.join(", ") })));
    }
    return;
  }
  if (verdict.impossible) {
    const label = labelOf(item, verdict.impossible);
    place.append(line(say("{label} can't be right. Look at the gauge again.", { label }), "error"));
    return;
  }
  const measure = item.measures.find(({ id }) => id === verdict.measure);
  const unit = readTyped(typed[measure.id], measure.quantity, measure.unit).reading.typedUnit ?? measure.unit;
  place.className = `limits ${verdict.isWithin ? "is-in" : "is-out"}`;
  const mark = document.querySelector(verdict.isWithin ? "#mark-in" : "#mark-out").content.cloneNode(true);
  const value = `${measure.label}: ${inUnit(verdict.value, unit)}`;
  mark.querySelector("span").textContent = verdict.isWithin
    ? say("{value} is within limits", { value })
    : say("{value} is OUT of limits", { value });
  place.append(mark, line(boundsWords(verdict, unit)));
  if (!verdict.isWithin) place.append(line(nextWords(verdict, unit)));
}

function labelOf(item, name) {
  const measure = item.measures.find(({ id }) => id === name);
  if (measure) return measure.label;
  const bare = name.replace(/^(resin|job)_/, "");
  const told = say(bare);
  return told === bare ? bare.replaceAll("_", " ") : told;
}

function line(text, kind = "") {
  return Object.assign(document.createElement("p"), { textContent: text, className: kind });
}

function boundsWords({ low, high }, unit) {
  if (low !== null && high !== null) {
    return say("Allowed: {low} to {high}", { low: inUnit(low, unit), high: inUnit(high, unit) });
  }
  return low !== null
    ? say("Allowed: {low} or more", { low: inUnit(low, unit) })
    : say("Allowed: {high} or less", { high: inUnit(high, unit) });
}

function nextWords({ longSide, longBy }, unit) {
  if (!longSide) return say("Stop, find the cause and put it right before going on.");
  return say(
    "Side {side} is long by {much}. Stop, find the cause, put it right, then catch the sample again.",
    { side: longSide, much: inUnit(longBy, unit) },
  );
}

export function openWords({ what, item }) {
  const text = item?.text;
  switch (what) {
    case "outcome":
      return say("How did it go? {text}", { text });
    case "numbers":
      return say("Numbers are missing: {text}", { text });
    case "unread":
    case "impossible":
      return say("A number needs another look: {text}", { text });
    case "reason":
      return say("Write why this does not apply: {text}", { text });
    case "log":
      return say("The port log is empty: {text}", { text });
    default:
      return say("The overall judgement is missing.");
  }
}

export function reasonWords({ kind, item }, texts) {
  const text = texts[item];
  switch (kind) {
    case "critical-not-done":
      return say("Critical step not done alone: {text}", { text });
    case "critical-out-of-tolerance":
      return say("Critical step out of limits: {text}", { text });
    case "critical-not-judged":
      return say("Critical step without a limit to judge it by: {text}", { text });
    case "share-below-cut":
      return say("Too few of the other steps were done alone.");
    default:
      return say("The overall judgement is too low for a pass.");
  }
}
