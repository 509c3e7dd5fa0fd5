// Practice questions, marked on the phone with and without signal. The page brings three rounds of
// numbers along; answers go to the server through the outbox, for practice only.

import { isHere, keep } from "./outbox/outbox.js";
import { questionInWords, saidInWords } from "./reading-words.js";
import { markChoice, markComputed } from "./trade/marking.js";
import { Unreadable } from "./trade/lengths.js";

const form = document.querySelector("#practice-questions");
const place = document.querySelector("#practice-round");
const rounds = JSON.parse(document.querySelector("#practice-data").textContent);
const cards = [place.innerHTML, ...[...document.querySelectorAll(".practice-round")].map((t) => t.innerHTML)];
let at = 0;

async function check(event) {
  const position = Number(event.submitter?.value);
  if (!position) return;
  event.preventDefault();
  const card = place.querySelector(`[data-position="${position}"]`);
  const question = rounds[at].questions[position - 1];
  const typed = answerIn(card, position);
  if (!typed) return card.querySelector("input").focus();
  let marked;
  try {
    marked = question.rightOption ? markChoice(question, typed) : markComputed(question, typed);
  } catch (problem) {
    if (!(problem instanceof Unreadable)) throw problem;
    return showError(card, questionInWords(problem));
  }
  showError(card, "");
  showVerdict(card, question, typed, marked);
  await keep("practice-answer", {
    module: form.dataset.module,
    day: form.dataset.day,
    round: rounds[at].round,
    item: question.item,
    version: question.version,
    typed,
    is_right: marked.isRight,
  });
}

function answerIn(card, position) {
  return new FormData(form).get(`answer-${position}`)?.trim() ?? "";
}

function showError(card, sentence) {
  const error = card.querySelector(".error");
  error.hidden = !sentence;
  error.querySelector("span").textContent = sentence;
  card.querySelector(".field").classList.toggle("is-wrong", Boolean(sentence));
  if (sentence) card.querySelector(".practice-verdict").replaceChildren();
}

function showVerdict(card, question, typed, marked) {
  const kind = marked.isRight ? "right" : "wrong";
  const verdict = document.querySelector(`#verdict-${kind}`).content.cloneNode(true);
  fill(verdict, "given", question.rightOption ? optionWords(card, typed) : saidInWords(marked.said));
  fill(verdict, "feedback", feedbackOn(question, typed, marked));
  fill(verdict, "right", question.right);
  const solutions = verdict.querySelector('[data-slot="solutions"]');
  solutions.replaceChildren(
    ...question.solutions.map((text) => Object.assign(document.createElement("p"), { textContent: text })),
  );
  card.querySelector(".practice-verdict").replaceChildren(verdict);
}

function fill(verdict, slot, text) {
  const found = verdict.querySelector(`[data-slot="${slot}"]`);
  if (found) found.textContent = text;
}

function optionWords(card, option) {
  return card.querySelector(`input[value="${option}"]`).parentElement.textContent.trim();
}

function feedbackOn(question, typed, marked) {
  if (question.rightOption) return question.feedback[typed] ?? "";
  return marked.slip ? question.slips[marked.slip][1] : "";
}

function nextRound(event) {
  event.preventDefault();
  at = (at + 1) % rounds.length;
  place.innerHTML = cards[at];
  form.elements.round.value = rounds[at].round;
  place.querySelector("input").focus({ preventScroll: true });
  form.scrollIntoView();
}

if (isHere && rounds.length > 1) {
  form.addEventListener("submit", check);
  document.querySelector("a[data-go-on]").addEventListener("click", nextRound);
}
