// The cards of the checklist: what is typed is read and judged at once, and kept at once.

import { say } from "../words.js";
import { note } from "./draft.js";
import { keyOf, readTyped, ruleMet, verdictOf } from "./judging.js";
import { showVerdict, unreadWords } from "./telling.js";

const cardOf = (item) => document.querySelector(`[data-item="${keyOf(item)}"]`);
const field = (id) => document.getElementById(id);

export function startCards(data, changed) {
  for (const item of data.items) startCard(data, item, changed);
}

function startCard(data, item, changed) {
  const key = keyOf(item);
  for (const measure of item.measures) {
    field(`${key}/${measure.id}`).addEventListener("input", async ({ target }) => {
      const typed = target.value;
      changed(await note(data, (draft) => ((draft.measured[key] ??= {})[measure.id] = typed)));
    });
  }
  cardOf(item).addEventListener("change", async ({ target }) => {
    if (target.type !== "radio") return;
    const outcome = target.value;
    changed(await note(data, (draft) => (draft.seen[key] = { ...draft.seen[key], outcome })));
  });
  field(`${key}#reason`).addEventListener("input", async ({ target }) => {
    const reason = target.value.slice(0, 400);
    changed(await note(data, (draft) => (draft.seen[key] = { ...draft.seen[key], reason })));
  });
}

// Fills the cards from the draft; a field somebody is typing in is left alone.
export function showCards(data, draft) {
  for (const item of data.items) showCard(data, draft, item);
  for (const { module } of data.modules) {
    const own = data.items.filter((item) => item.module === module);
    const noted = own.filter((item) => draft.seen[keyOf(item)]).length;
    document.querySelector(`[data-count="${module}"]`).textContent = say("{noted} of {total}", { noted, total: own.length });
  }
}

function showCard(data, draft, item) {
  const [key, card] = [keyOf(item), cardOf(item)];
  const [typed, seen] = [draft.measured[key] ?? {}, draft.seen[key]];
  for (const { id, quantity, unit } of item.measures) showTyped(`${key}/${id}`, typed[id], quantity, unit);
  for (const radio of card.querySelectorAll('input[type="radio"]')) {
    radio.checked = radio.value === seen?.outcome;
  }
  card.classList.toggle("is-noted", Boolean(seen?.outcome));
  card.querySelector("[data-reason]").hidden = seen?.outcome !== "does-not-apply";
  setUnlessTyping(field(`${key}#reason`), seen?.reason ?? "");
  const wasTried = ruleMet(data, draft, item) !== null || !["not-seen", "does-not-apply"].includes(seen?.outcome);
  const verdict = wasTried ? verdictOf(data, draft, item) : null;
  showVerdict(card.querySelector("[data-verdict]"), verdict, item, typed);
}

export function showTyped(id, text, quantity, unit) {
  const [input, said] = [field(id), field(`${id}-said`)];
  setUnlessTyping(input, text ?? "");
  const { reading, problem } = readTyped(text, quantity, unit);
  said.className = problem ? "error" : "echo";
  said.textContent = problem ? unreadWords(problem) : (reading?.said ?? "");
  if (problem) input.setAttribute("aria-invalid", "true");
  else input.removeAttribute("aria-invalid");
}

export function setUnlessTyping(input, value) {
  if (input !== document.activeElement && input.value !== value) input.value = value;
}
