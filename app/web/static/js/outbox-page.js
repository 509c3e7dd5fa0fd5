// The page "Not sent yet": what waits, what needs attention, and what can be done about it.

import { ask } from "./ask.js";
import { saveFile } from "./outbox/file.js";
import { kindWords } from "./outbox/kinds.js";
import { isHere, onChange, person, send, throwAway, tryAgain, waiting } from "./outbox/outbox.js";
import { age, say } from "./words.js";

const part = (id) => document.querySelector(`#outbox${id}`);
const STATES = {
  empty: () => say("Everything is sent."),
  "signed-out": () => say("You are signed out. Sign in, and it is sent."),
  unreachable: () => say("No answer from the server. It stays here and is tried again."),
  trouble: () => say("The server has a problem of its own. It stays here and is tried again."),
};

async function show() {
  const all = await waiting(null);
  const own = all.filter((item) => item.person === person);
  fill(part("-wrong"), own.filter((item) => item.problem), wrongEntry);
  fill(part("-waiting"), own.filter((item) => !item.problem), entry);
  const others = all.length - own.length;
  part("-others").hidden = others === 0;
  part("-others").textContent = say(
    "{count} of somebody else also waits on this phone. It is sent when they sign in here.",
    { count: others },
  );
  part("-save").hidden = all.length === 0;
  part("-send").hidden = own.every((item) => item.problem);
  const nothing = say("Nothing waits here.");
  part("-state").classList.toggle("nothing", own.length === 0);
  if (own.length === 0) part("-state").textContent = nothing;
  else if (part("-state").textContent === nothing) part("-state").textContent = "";
}

function fill(section, items, made) {
  section.hidden = items.length === 0;
  section.querySelector("ul").replaceChildren(...items.map(made));
}

function entry(item) {
  const li = document.createElement("li");
  const what = Object.assign(document.createElement("strong"), { textContent: kindWords(item) });
  const when = document.createElement("span");
  when.className = "quiet";
  when.textContent = say("No. {number}, {age} ago", {
    number: item.sequence,
    age: age(Date.now() - item.made),
  });
  li.append(what, when);
  return li;
}

function wrongEntry(item) {
  const li = entry(item);
  const why = document.createElement("p");
  why.textContent = item.problem.sentence;
  const row = document.createElement("div");
  row.className = "actions";
  row.append(
    action(say("Try again"), () => tryAgain(item.id)),
    action(say("Throw it away"), () => throwAwayIfSure(item)),
  );
  li.append(why, row);
  return li;
}

function action(label, act) {
  const button = document.createElement("button");
  Object.assign(button, { type: "button", className: "button plain", textContent: label });
  button.addEventListener("click", act);
  return button;
}

async function throwAwayIfSure(item) {
  const isSure = await ask({
    title: say("Throw it away?"),
    text: say("It can't be brought back. The office is told that something was thrown away."),
    yes: say("Throw it away"),
    no: say("Keep it"),
  });
  if (isSure) await throwAway(item.id);
}

async function sendNow() {
  part("-state").textContent = say("Sending …");
  const { state } = await send();
  part("-state").textContent = STATES[state]();
}

if (isHere) {
  part("").hidden = false;
  part("-send").addEventListener("click", sendNow);
  part("-save").addEventListener("click", saveFile);
  onChange(show);
  show();
}
