// A question with two answers, in a dialog that takes the whole attention. Resolves to true for
// `yes`; `no`, Escape and the phone's back gesture are all no.

export function ask({ title, text, yes, no }) {
  const dialog = document.createElement("dialog");
  dialog.className = "ask";
  dialog.setAttribute("aria-labelledby", "ask-title");
  const heading = Object.assign(document.createElement("h2"), { id: "ask-title", textContent: title });
  const words = Object.assign(document.createElement("p"), { textContent: text });
  const form = Object.assign(document.createElement("form"), { method: "dialog" });
  form.className = "actions";
  form.append(answerButton(no, "no", "primary"), answerButton(yes, "yes", "plain"));
  dialog.append(heading, words, form);
  document.body.append(dialog);
  dialog.showModal();
  return new Promise((resolve) => {
    dialog.addEventListener("close", () => {
      dialog.remove();
      resolve(dialog.returnValue === "yes");
    });
  });
}

function answerButton(label, value, kind) {
  const button = document.createElement("button");
  button.className = `button ${kind}`;
  button.value = value;
  button.textContent = label;
  return button;
}
