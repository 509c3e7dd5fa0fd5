// A step's card: "Done. Next step" is kept on the phone first and sent second, so it works the same
// with and without signal and never waits for a slow network.

import { isHere, keep, sent } from "./outbox/outbox.js";
import { sayOnNextPage } from "./said.js";
import { noteStep, paintProgress, stepsHere } from "./steps-done.js";
import { say } from "./words.js";

const PATIENCE_MS = 2500;
const form = document.querySelector("form[data-step]");
const data = form?.dataset;

const steps = () => data.steps.split(" ");
const revision = () => Number(data.revision);
const url = (number) => `${data.moduleUrl}/steps/${number}`;

async function done(event) {
  event.preventDefault();
  if (form.dataset.sent) return;
  form.dataset.sent = "yes";
  const what = { module: data.module, revision: revision(), step: data.step, title: data.title };
  const item = await keep("step-done", what);
  await noteStep(what);
  const { receipt } = await sent(item.id, PATIENCE_MS);
  const number = steps().indexOf(data.step) + 1;
  if (number < steps().length) return go(url(number + 1));
  const left = receipt ? receipt.result.left : await leftHere();
  return left.length ? toMissed(left[0]) : finished(Boolean(receipt));
}

async function leftHere() {
  const here = await stepsHere(data.module, revision());
  const onPage = new Set(data.done.split(" "));
  return steps().filter((step) => !here.has(step) && !onPage.has(step));
}

function toMissed(step) {
  sayOnNextPage(say("One step before this is not done yet. It is this one."));
  go(url(steps().indexOf(step) + 1));
}

function finished(isOnServer) {
  sayOnNextPage(
    isOnServer
      ? say("You have done every step. That is on your record. The quiz is next.")
      : say("You have done every step. It goes on your record when there is signal."),
  );
  go(data.moduleUrl);
}

function go(address) {
  location.assign(address);
}

async function showProgress() {
  const here = await stepsHere(data.module, revision());
  const onPage = new Set(data.done.split(" "));
  const count = steps().filter((step) => here.has(step) || onPage.has(step)).length;
  const progress = document.querySelector(".progress");
  if (!progress) return;
  paintProgress(progress.querySelector("svg"), count);
  const places = { done: count, total: steps().length };
  progress.querySelector("p").textContent = say("{done} of {total} done", places);
}

if (isHere && form) {
  form.addEventListener("submit", done);
  showProgress().catch(() => {});
}
