// What waits on this phone is told where its person has to sign in so that it is sent. Somebody else
// who signs in is asked first: what waits stays whatever the answer is, the person's lessons go.

import { ask } from "./ask.js";
import { ownerOf, waiting } from "./outbox/items.js";
import { say } from "./words.js";

const form = document.querySelector("#sign-in");
let isSure = false;

async function askFirst(event) {
  if (isSure) return;
  event.preventDefault();
  const typed = form.elements.sign_in_name.value.trim().toLowerCase();
  const others = (await allWithOwners()).filter((item) => item.owner.signInName !== typed);
  isSure = others.length === 0 || (await ask(question(others)));
  if (isSure) form.requestSubmit();
}

async function allWithOwners() {
  const all = await waiting(null).catch(() => []);
  return Promise.all(all.map(async (item) => ({ ...item, owner: await ownerOf(item.person) })));
}

async function tellWhatWaits() {
  const all = await allWithOwners();
  const line = document.querySelector("#kept-here");
  line.hidden = all.length === 0;
  line.textContent = say(
    "Not sent yet: {count}, by {names}. It is kept on this phone and sent once they have signed in.",
    { count: all.length, names: namesOf(all) },
  );
}

function namesOf(items) {
  return [...new Set(items.map((item) => item.owner.name))].join(", ");
}

function question(items) {
  const names = namesOf(items);
  return {
    title: say("Sign in as somebody else?"),
    text: say(
      "Not sent yet: {count}, by {names}. It stays on this phone and is sent when they sign in here again. Their lessons are taken off this phone.",
      { count: items.length, names },
    ),
    yes: say("Sign in"),
    no: say("Not now"),
  };
}

if (form && globalThis.indexedDB) {
  form.addEventListener("submit", askFirst);
  tellWhatWaits();
}
