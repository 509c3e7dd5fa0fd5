// Every page works without this file; each part below makes one thing easier.

// A fact's source stands inside a closed "Says who?": open it when a fact points there.
function openTarget() {
  const target = location.hash && document.getElementById(location.hash.slice(1));
  const list = target && target.closest("details");
  if (!list) return;
  list.open = true;
  target.scrollIntoView({ block: "center" });
  target.focus({ preventScroll: true });
}

addEventListener("hashchange", openTarget);
openTarget();

// After a refused form, start at what is wrong.
const wrong = document.querySelector("#wrong") ?? document.querySelector('[aria-invalid="true"]');
wrong?.focus();

// A second tap of a wet glove must not send twice. The name of the button pressed goes with the
// first sending, so it is marked only after the browser has read the form.
addEventListener("submit", (event) => {
  const form = event.target;
  if (event.defaultPrevented) return;
  if (form.dataset.sent) {
    event.preventDefault();
    return;
  }
  form.dataset.sent = "yes";
  event.submitter?.setAttribute("aria-disabled", "true");
});

// Coming back by the browser's "back" shows the page as it was left; let it be sent again.
addEventListener("pageshow", (event) => {
  if (!event.persisted) return;
  for (const form of document.querySelectorAll("form[data-sent]")) delete form.dataset.sent;
  for (const button of document.querySelectorAll('button[aria-disabled="true"]')) {
    button.removeAttribute("aria-disabled");
  }
});

// Paper needs the sources open.
addEventListener("beforeprint", () => {
  for (const list of document.querySelectorAll("details.says-who")) list.open = true;
});
