// A module's page: steps done on this phone and not known to the page yet are shown as done.

import { isHere, waiting } from "./outbox/outbox.js";
import { paintProgress, stepsHere } from "./steps-done.js";
import { say } from "./words.js";

const list = document.querySelector("[data-module-steps]");

async function show() {
  const { module, revision } = list.dataset;
  const here = await stepsHere(module, Number(revision));
  const unsent = new Set((await waiting()).map((item) => JSON.parse(item.text).payload.step));
  const ports = [...list.querySelectorAll(".port")];
  for (const port of ports) if (here.has(port.dataset.step)) fill(port, unsent.has(port.dataset.step));
  const open = ports.find((port) => !port.classList.contains("is-done"));
  const done = ports.filter((port) => port.classList.contains("is-done")).length;
  const progress = document.querySelector(".progress");
  if (!progress) return;
  paintProgress(progress.querySelector("svg"), done);
  progress.querySelector("p").textContent = say("{done} of {total} done", {
    done,
    total: ports.length,
  });
  goOn(open, ports.indexOf(open) + 1);
}

function fill(port, isUnsent) {
  port.classList.remove("is-here", "is-later");
  port.classList.add("is-done");
  port.querySelector("strong").textContent = isUnsent
    ? say("Done, not sent yet")
    : say("Done");
}

// The big button leads to the first step that is open.
function goOn(port, number) {
  const link = document.querySelector("a[data-go-on]");
  if (!link || !port) return;
  port.classList.replace("is-later", "is-here");
  link.href = port.querySelector("a").href;
  if (number > 1) link.firstChild.textContent = say("Go on with step {number}", { number });
}

if (isHere && list) show().catch(() => {});
