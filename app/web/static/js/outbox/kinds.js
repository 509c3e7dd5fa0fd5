// What the kinds of things in the outbox are called on the page. A new kind gets its line here.

import { say } from "../words.js";

export function kindWords(item) {
  const { payload } = JSON.parse(item.text);
  switch (item.kind) {
    case "step-done":
      return say("Step done: {step}", { step: payload.title ?? payload.step });
    case "practice-answer":
      return say("Practice answer: {typed}", { typed: payload.typed });
    case "quiz-answer":
      return say("Quiz answer: {typed}", { typed: payload.shown ?? payload.typed });
    case "sign-off":
      return say("Signed supervised repair");
    case "photo":
      return say("Photo of a repair");
    case "thrown-away":
      return say("A note that something was thrown away");
    default:
      return item.kind;
  }
}
