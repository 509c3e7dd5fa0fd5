// "3 not sent yet, oldest 2 h": a line under the cover while something waits on this phone.

import { isHere, lastState, onChange, person, waiting } from "./outbox/outbox.js";
import { age, say } from "./words.js";

const line = document.querySelector("#unsent");

async function show() {
  const all = await waiting(null);
  const own = all.filter((item) => item.person === person);
  const wrong = own.filter((item) => item.problem);
  const parts = [];
  if (own.length > wrong.length) parts.push(waitingWords(own.filter((item) => !item.problem)));
  if (wrong.length) parts.push(say("{count} needs your attention", { count: wrong.length }));
  if (all.length > own.length) {
    parts.push(say("{count} of somebody else not sent", { count: all.length - own.length }));
  }
  line.hidden = parts.length === 0;
  if (line.textContent === parts.join(". ")) return;
  const link = Object.assign(document.createElement("a"), { href: "/outbox" });
  link.textContent = parts.join(". ");
  line.replaceChildren(...(parts.length ? [link] : []));
}

function waitingWords(items) {
  const oldest = age(Date.now() - Math.min(...items.map((item) => item.made)));
  const places = { count: items.length, age: oldest };
  return lastState === "signed-out"
    ? say("{count} not sent yet: sign in again to send it", places)
    : say("{count} not sent yet, oldest {age}", places);
}

if (isHere && line) {
  show();
  onChange(show);
  setInterval(show, 30000);
}
