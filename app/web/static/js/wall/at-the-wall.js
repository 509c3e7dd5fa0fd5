// A supervised repair on the phone, with or without signal: everything noted is kept at once, judged
// at once, and signed at the end. The server is asked for nothing until the outbox sends.

import { isHere, onChange, person } from "../outbox/outbox.js";
import { say } from "../words.js";
import { showBar, startBar } from "./bar.js";
import { setUnlessTyping, showCards, startCards } from "./cards.js";
import { isBehind, loadDraft, note, onOtherTab } from "./draft.js";
import { isRightPin, keyOf } from "./keys.js";
import { keepThisPage } from "./kept-here.js";
import "./now.js";
import { forgetPhotos } from "./photos.js";
import { showClock, startClock } from "./pot-clock.js";
import { showPorts, startPorts } from "./ports.js";
import { showReview } from "./review.js";
import { showShots, startShots } from "./shots.js";
import { changeAndSignAnew, resume, sign, stateOf } from "./signing.js";
import { get } from "./store.js";

const part = (id) => document.getElementById(id);
const data = JSON.parse(part("wall").dataset.wall);
let key = null;

// Somebody types fast, and other tabs follow: what is shown is the newest draft, soon.
const SOON_MS = 60;
let newest = null;
let timer = 0;

function show(draft) {
  newest = draft;
  timer ||= setTimeout(() => {
    timer = 0;
    if (isBehind()) show(newest);
    else showNow(newest);
  }, SOON_MS);
}

function showNow(draft) {
  showCards(data, draft);
  showPorts(data, draft, show);
  showClock(data, draft);
  const chosen = part("judgement").querySelector(`[value="${draft.judgement}"]`);
  if (chosen) chosen.checked = true;
  setUnlessTyping(part("remarks"), draft.remarks ?? "");
  showReview(data, draft);
  showBar(data, draft);
  showSigned(draft);
}

let isReloading = false;

async function reload() {
  if (isReloading) return;
  isReloading = true;
  await new Promise((resolve) => setTimeout(resolve, SOON_MS));
  isReloading = false;
  show(await get("drafts", data.id));
}

function startWhole() {
  part("judgement").addEventListener("change", async ({ target }) => {
    const judgement = target.value;
    show(await note(data, (draft) => (draft.judgement = judgement)));
  });
  part("remarks").addEventListener("input", async ({ target }) => {
    const remarks = target.value;
    show(await note(data, (draft) => (draft.remarks = remarks)));
  });
  part("wall-sign").addEventListener("submit", signNow);
  setInterval(() => (part("sign-time").textContent = new Date().toLocaleString(data.language)), 1000);
}

async function signNow(event) {
  event.preventDefault();
  const button = event.target.querySelector("button");
  if (button.disabled) return;
  button.disabled = true;
  const wrong = part("sign-wrong");
  wrong.hidden = true;
  try {
    if (key && !(await isRightPin(key, part("pin").value))) {
      wrong.textContent = say("That is not your signing number. Nothing was signed.");
      wrong.hidden = false;
      return;
    }
    show(await sign(data, key));
  } catch (problem) {
    wrong.textContent = say("It could not be kept on this phone, so nothing was signed. Is the phone full?");
    wrong.hidden = false;
    throw problem;
  } finally {
    part("pin").value = "";
    button.disabled = false;
  }
}

async function showSigned(draft) {
  const result = await stateOf(draft);
  const isOpen = result.state === "open";
  part("wall-work").hidden = !isOpen;
  const place = part("wall-signed");
  place.hidden = isOpen;
  part("wall-kept").hidden = !isOpen;
  if (isOpen) return;
  place.classList.toggle("is-not", result.state === "wrong");
  place.classList.toggle("is-waiting", ["waiting", "held"].includes(result.state));
  place.replaceChildren(...signedParts(result));
  if (result.state === "recorded") await forgetPhotos(data.id);
}

function signedParts(result) {
  const words = document.createElement("p");
  words.textContent = {
    waiting: () => say("Signed on this phone. It is sent by itself when there is signal."),
    held: () => say("Sent. It becomes a record once you confirm it with your password."),
    recorded: () => say("Signed and kept. Receipt {number}.", { number: result.number }),
    wrong: () => say("Not taken in: {sentence}", { sentence: result.sentence }),
  }[result.state]();
  if (result.state === "wrong") return [words, anew()];
  const url = `/repairs/${data.id}${result.state === "held" ? "/confirm" : ""}`;
  const label = result.state === "held" ? say("Confirm it now") : say("To the record");
  const link = Object.assign(document.createElement("a"), { className: "go", href: url, textContent: label });
  return result.state === "waiting" ? [words] : [words, link];
}

function anew() {
  const button = document.createElement("button");
  Object.assign(button, { type: "button", className: "button plain", textContent: say("Change it and sign anew") });
  button.addEventListener("click", async () => show(await changeAndSignAnew(data)));
  return button;
}

async function start() {
  key = (await keyOf(person)) ?? null;
  if (!key?.isRegistered) key = null;
  part("pin-field").hidden = !key;
  part("without-key").hidden = Boolean(key);
  const draft = await loadDraft(data);
  startCards(data, show);
  startPorts(data, show);
  startClock(data, show);
  startShots(data, reload);
  startWhole();
  startBar();
  onOtherTab(data, () => reload().then(() => showShots(data, reload)));
  onChange(reload);
  part("wall-needs-script").hidden = true;
  part("wall-work").hidden = false;
  showNow(draft.signing ? await resume(data) : draft);
  document.documentElement.dataset.wallReady = "yes";
  keepThisPage(part("wall-kept"));
}

if (isHere) start();
