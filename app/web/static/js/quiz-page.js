// A quiz that counts is marked by the server. Where signal drops in the middle, the answer is read
// back on the phone, waits in the outbox, and the page goes on by itself once it is marked.

import { isHere, keep, onChange, receiptOf, waiting } from "./outbox/outbox.js";
import { questionInWords, saidInWords } from "./reading-words.js";
import { isServerThere } from "./reachable.js";
import { readQuantity, Unreadable } from "./trade/lengths.js";

const form = document.querySelector("form[data-attempt]");
const part = document.querySelector("#quiz-part");
let isSure = false;

async function send(event) {
  if (isSure) return;
  event.preventDefault();
  const button = event.submitter;
  if (await isServerThere()) {
    isSure = true;
    form.requestSubmit(button);
    return;
  }
  const act = button?.value || (form.dataset.unit ? "read" : "mark");
  if (act === "change") return showField();
  if (act === "read") return readBack();
  return keepAnswer();
}

function given() {
  return (new FormData(form).get(form.dataset.unit ? "answer" : "option") ?? "").trim();
}

function showField() {
  const typed = given();
  part.replaceChildren(template("quiz-field"));
  part.querySelector("[name=answer]").value = typed;
  part.querySelector("[name=answer]").focus();
}

function readBack() {
  const typed = given();
  try {
    const { said } = readQuantity(typed, form.dataset.quantity, form.dataset.unit);
    part.replaceChildren(template("quiz-read-back"));
    part.querySelector("[name=answer]").value = typed;
    part.querySelector(".read-back-said").textContent = saidInWords(said);
  } catch (problem) {
    if (!(problem instanceof Unreadable)) throw problem;
    const error = part.querySelector(".error") ?? part.appendChild(template("quiz-error"));
    part.querySelector(".error span").textContent = questionInWords(problem);
    error.hidden = false;
    part.querySelector("[name=answer]").focus();
  }
}

async function keepAnswer() {
  const typed = given();
  if (!typed) return form.querySelector("input:not([type=hidden])").focus();
  const option = form.querySelector("input:checked")?.parentElement.textContent.trim();
  const { attempt, position } = form.dataset;
  const shown = option ?? typed;
  await keep("quiz-answer", { attempt, position: Number(position), typed, shown });
  return showWaiting();
}

// The answer of this very question that is on the phone, if there is one.
async function ownItem() {
  const { attempt, position } = form.dataset;
  return (await waiting()).find((item) => {
    if (item.kind !== "quiz-answer") return false;
    const { payload } = JSON.parse(item.text);
    return payload.attempt === attempt && payload.position === Number(position);
  });
}

async function showWaiting() {
  const item = await ownItem();
  if (!item) return;
  part.replaceChildren(template("quiz-waiting"));
  part.querySelector("strong").textContent = JSON.parse(item.text).payload.shown;
  onChange(async () => {
    const now = await ownItem();
    if (now?.problem) part.querySelector("[role=status]").textContent = now.problem.sentence;
    else if (!now && (await receiptOf(item.id))) location.assign(form.action);
  });
}

function template(id) {
  return document.querySelector(`#${id}`).content.cloneNode(true);
}

if (isHere && form) {
  form.addEventListener("submit", send);
  showWaiting();
}
