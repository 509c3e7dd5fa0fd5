// The service worker, and the change to a new version of it. A page opened afresh changes over in
// silence, because it came from the server anyway. A page that stays open gets a quiet notice with
// a button. While anybody is typing, on this page or another, nothing changes; and no page is ever
// reloaded but the one whose button was pressed.

import { isAnybodyTyping } from "./typing.js";
import { say } from "./words.js";

const AFRESH_MS = 4000;
const LOOK_AGAIN_MS = 150;
const MOST_LOOKS = 20;
const SMALLEST_FILE = "/assets/img/mark.svg";
const workers = window.isSecureContext ? navigator.serviceWorker : undefined;

// If the old worker is at work just then, Chromium may put the change off until the next time a
// page is opened, and that page hangs for minutes. So the next page opened is one nobody waits for:
// a frame out of sight, as often as it takes.
async function takeOver(waitingWorker) {
  waitingWorker.postMessage("take-over");
  for (let look = 0; look < MOST_LOOKS; look += 1) {
    await pause();
    if (waitingWorker.state !== "installed") return;
    const frame = document.createElement("iframe");
    Object.assign(frame, { hidden: true, src: SMALLEST_FILE });
    document.body.append(frame);
    await pause();
    frame.remove();
  }
}

function pause() {
  return new Promise((resolve) => setTimeout(resolve, LOOK_AGAIN_MS));
}

async function changeOrSay(registration, isFresh) {
  if (!registration.waiting || !workers.controller) return;
  if (isFresh && !(await isAnybodyTyping())) return takeOver(registration.waiting);
  return showNotice(registration);
}

function showNotice(registration) {
  if (document.querySelector("#new-version")) return;
  const notice = Object.assign(document.createElement("div"), { id: "new-version" });
  notice.setAttribute("role", "status");
  const words = Object.assign(document.createElement("p"), {
    textContent: say("A new version is ready."),
  });
  const button = Object.assign(document.createElement("button"), {
    type: "button",
    className: "button plain",
    textContent: say("Use it"),
  });
  button.addEventListener("click", () => useIt(registration, words));
  notice.append(words, button);
  document.querySelector("main").after(notice);
}

async function useIt(registration, words) {
  if (await isAnybodyTyping()) {
    words.textContent = say("It waits: something is typed and not sent, here or in another tab.");
    return;
  }
  workers.addEventListener("controllerchange", () => location.reload(), { once: true });
  takeOver(registration.waiting);
}

async function start() {
  const registration = await workers.register("/sw.js", { updateViaCache: "none" });
  registration.addEventListener("updatefound", () => {
    const found = registration.installing;
    found?.addEventListener("statechange", () => {
      if (found.state === "installed") changeOrSay(registration, performance.now() < AFRESH_MS);
    });
  });
  await changeOrSay(registration, true);
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") registration.update().catch(() => {});
  });
}

if (workers) start().catch(() => {});
