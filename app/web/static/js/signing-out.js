// Signing out while something waits on this phone asks first. Nothing waiting is ever deleted by
// it: it stays, and is sent when the same person signs in on this phone again.

import { ask } from "./ask.js";
import { isHere, send, waiting } from "./outbox/outbox.js";
import { say } from "./words.js";

const form = document.querySelector("form.who");
let isSure = false;

async function askFirst(event) {
  if (isSure) return;
  event.preventDefault();
  await Promise.race([send(), new Promise((resolve) => setTimeout(resolve, 3000))]).catch(() => {});
  const left = await waiting();
  isSure = left.length === 0 || (await ask(question(left.length)));
  if (isSure) form.requestSubmit();
}

function question(count) {
  return {
    title: say("Sign out now?"),
    text: say(
      "Not sent yet: {count}. It stays on this phone and is sent when you sign in here again. The lessons are taken off this phone.",
      { count },
    ),
    yes: say("Sign out"),
    no: say("Stay signed in"),
  };
}

if (isHere && form) form.addEventListener("submit", askFirst, { capture: true });
