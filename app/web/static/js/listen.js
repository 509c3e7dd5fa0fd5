// "Listen" reads a step aloud with the phone's own voice, in the page's language. Where the phone
// has no voice for it there is no button.

import { say } from "./words.js";

const card = document.querySelector("article.step");
const button = card?.querySelector("[data-listen]");
const speech = globalThis.speechSynthesis;
const language = document.documentElement.lang;

// A voice on the phone itself speaks without signal, so it comes first.
function voice() {
  const fitting = speech.getVoices().filter((one) => one.lang.replace("_", "-").startsWith(language));
  return fitting.find((one) => one.localService) ?? fitting[0];
}

// What is on the card, in pieces: one long piece stops by itself in some browsers.
function pieces() {
  const parts = card.querySelectorAll("h2, .signal, figcaption, .part h3, .part p, .part li");
  return [...parts].map((part) => part.innerText.trim()).filter(Boolean);
}

function speak() {
  const chosen = voice();
  const texts = pieces();
  texts.forEach((text, index) => {
    const piece = new SpeechSynthesisUtterance(text);
    Object.assign(piece, { voice: chosen, lang: chosen.lang, rate: 0.95 });
    if (index === texts.length - 1) piece.onend = () => label(false);
    speech.speak(piece);
  });
  label(true);
}

function stop() {
  speech.cancel();
  label(false);
}

function label(isSpeaking) {
  button.setAttribute("aria-pressed", String(isSpeaking));
  button.textContent = isSpeaking ? say("Stop reading") : say("Listen");
}

function show() {
  button.hidden = !voice();
}

if (button && speech) {
  show();
  speech.addEventListener?.("voiceschanged", show);
  button.addEventListener("click", () => (speech.speaking ? stop() : speak()));
  addEventListener("pagehide", () => speech.cancel());
}
