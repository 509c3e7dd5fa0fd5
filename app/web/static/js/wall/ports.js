// The port log beside the planned order: each line judged as it is written.

import { say } from "../words.js";
import { note } from "./draft.js";
import { inUnit, judgeLog, portToOpen, readTyped, textOf } from "./judging.js";
import { unreadWords } from "./telling.js";

const field = (name) => document.querySelector(`#port-${name}`);
let editing = null;
let planned = ""; // the port the plan has next, as it stands in the empty form

export function startPorts(data, changed) {
  document.querySelector("#port-plan").textContent = planWords(data.orders[0]);
  document.querySelector("#port-form").addEventListener("submit", async (event) => {
    event.preventDefault();
    const line = lineTyped();
    if (!line) return;
    const row = editing;
    editing = null;
    event.target.reset();
    planned = "";
    changed(await note(data, (draft) => keepLine(draft, row, line)));
  });
}

function planWords(order) {
  const shown = order.length > 12 ? [...order.slice(0, 6), "…", ...order.slice(-2)] : order;
  return say("Planned order, {count} ports: {order}", { count: order.length, order: shown.join(" → ") });
}

function keepLine(draft, row, line) {
  const next = 1 + Math.max(0, ...draft.ports.map((one) => one.row));
  const kept = { row: row ?? next, ...line };
  draft.ports = [...draft.ports.filter((one) => one.row !== kept.row), kept].sort((a, b) => a.row - b.row);
}

// The line in the form, or null with what is wrong beside its field.
function lineTyped() {
  for (const name of ["number", "opened", "pressure"]) wrong(name, "");
  const port = Number(field("number").value.trim());
  if (!Number.isInteger(port) || port < 1 || port > 10000) return wrong("number", say("Which port?"));
  const opened_at = field("opened").value.slice(0, 5);
  if (!opened_at) return wrong("opened", say("When was it opened?"));
  const typed = field("pressure").value.trim();
  const { reading, problem } = readTyped(typed, "pressure", "psi");
  if (problem) return wrong("pressure", unreadWords(problem));
  if (reading && Number(textOf(reading)) > 30) {
    return wrong("pressure", say("{label} can't be right. Look at the gauge again.", { label: typed }));
  }
  const note = field("note").value.trim().slice(0, 150);
  return { port, opened_at, next_showed_at: field("showed").value.slice(0, 5), typed, note };
}

function wrong(name, sentence) {
  const said = document.querySelector(`#port-${name}-said`);
  said.className = sentence ? "error" : "echo";
  said.textContent = sentence;
  if (sentence) field(name).focus();
  return null;
}

export function showPorts(data, draft, changed) {
  const lines = judgeLog(data, draft.ports).map((judged) => lineShown(data, judged, changed));
  document.querySelector("#port-lines").replaceChildren(...lines);
  offerNext(data, draft);
}

// Whoever follows the plan need not type the number; what somebody typed is left alone.
function offerNext(data, draft) {
  if (editing !== null || field("number").value !== planned) return;
  planned = String(portToOpen(data, draft.ports) ?? "");
  field("number").value = planned;
}

function lineShown(data, judged, changed) {
  const { line } = judged;
  const li = document.createElement("li");
  const title = document.createElement("strong");
  title.textContent = say("Port {port}, opened {at}", { port: line.port, at: line.opened_at });
  const more = document.createElement("p");
  more.textContent = [showedWords(judged), line.typed || say("no pressure noted"), line.note]
    .filter(Boolean)
    .join(" · ");
  const remarks = remarksOf(data, judged).map((text) => {
    return Object.assign(document.createElement("p"), { className: "error", textContent: text });
  });
  const row = Object.assign(document.createElement("div"), { className: "actions" });
  row.append(
    button(say("Change it"), () => edit(line)),
    button(say("Strike out"), async () => {
      changed(await note(data, (draft) => (draft.ports = draft.ports.filter((one) => one.row !== line.row))));
    }),
  );
  li.append(title, more, ...remarks, row);
  return li;
}

function button(label, act) {
  const made = document.createElement("button");
  Object.assign(made, { type: "button", className: "button plain", textContent: label });
  made.addEventListener("click", act);
  return made;
}

function edit(line) {
  editing = line.row;
  field("number").value = line.port;
  field("opened").value = line.opened_at;
  field("showed").value = line.next_showed_at;
  field("pressure").value = line.typed;
  field("note").value = line.note;
  field("showed").focus();
}

function showedWords({ line, next }) {
  if (!line.next_showed_at) return say("Not shown at the next port yet");
  return say("Resin showed at port {port} at {at}", { port: next ?? "–", at: line.next_showed_at });
}

function remarksOf(data, { planned, verdict, isOver }) {
  const most = data.given.resin_max_pressure_mpa;
  return [
    planned !== null && say("The plan had port {port} here.", { port: planned }),
    verdict === "may-leak" && say("Ports of this kind have leaked at such a pressure."),
    verdict === "leaks" && say("Ports of this kind leak at such a pressure."),
    isOver && say("Over the data sheet's {most}.", { most: inUnit(Number(most), "psi") }),
  ].filter(Boolean);
}
