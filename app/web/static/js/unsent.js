// "3 not sent yet, oldest 2 h": a line under the cover while something waits on this phone. It also
// says when the page itself is a copy kept on the phone.

import { isHere, lastState, onChange, person, waiting } from "./outbox/outbox.js";
import { age, say } from "./words.js";

const line = document.querySelector("#unsent");
const keptFrom = Number(document.documentElement.dataset.keptFrom ?? 0);

async function show() {
  const all = await waiting(null);
  const own = all.filter((item) => item.person === person);
  const wrong = own.filter((item) => item.problem);
  const parts = keptFrom
    ? [say("No signal: a copy from {age} ago", { age: age(Date.now() - keptFrom) })]
    : [];
  if (own.length > wrong.length) parts.push(waitingWords(own.filter((item) => !item.problem)));
  if (wrong.length) parts.push(say("{count} needs your attention", { count: wrong.length }));
  if (all.length > own.length) {
    parts.push(say("{count} of somebody else not sent", { count: all.length - own.length }));
  }
  line.hidden = parts.length === 0;
  if (line.textContent === parts.join(". ")) return;
  const href = all.length ? "/outbox" : "/on-this-phone";
  const link = Object.assign(document.createElement("a"), { href });
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
