// Beside every field for a time of day, the time it is now: a glove can't set a clock.

import { say } from "../words.js";

const pad = (number) => String(number).padStart(2, "0");

function button(field) {
  const made = document.createElement("button");
  Object.assign(made, { type: "button", className: "button plain", textContent: say("Now") });
  const label = document.querySelector(`label[for="${field.id}"]`);
  made.setAttribute("aria-label", `${label?.textContent.trim()}: ${say("Now")}`);
  made.addEventListener("click", () => {
    const now = new Date();
    field.value = `${pad(now.getHours())}:${pad(now.getMinutes())}`;
    field.dispatchEvent(new Event("input", { bubbles: true }));
  });
  return made;
}

for (const field of document.querySelectorAll('main input[type="time"]')) {
  const both = Object.assign(document.createElement("div"), { className: "with-now" });
  field.replaceWith(both);
  both.append(field, button(field));
}
