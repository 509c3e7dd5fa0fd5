// The practice wall with a script: an act is sent without leaving the page, the time it took runs on
// the clock and the needle turns, then the wall shows what is new. Without it the forms do the same.

const LONGEST_MS = 2600;
const still = matchMedia("(prefers-reduced-motion: reduce)");
let isBusy = false;

function part(id, page = document) {
  return page.querySelector(`#${id}`);
}

async function act(event) {
  const form = event.target;
  if (form.id !== "wall-form") return;
  event.preventDefault();
  if (isBusy) return;
  isBusy = true;
  form.setAttribute("aria-busy", "true");
  try {
    await show(await sent(form, event.submitter), form);
  } finally {
    isBusy = false;
    part("wall-form")?.removeAttribute("aria-busy");
  }
}

async function sent(form, button) {
  const body = new URLSearchParams(new FormData(form, button));
  try {
    const answer = await fetch(form.action, { method: "POST", body });
    return { url: answer.url, text: await answer.text() };
  } catch {
    return null; // no network: let the browser say so in its own words
  }
}

async function show(answer, form) {
  if (answer === null) {
    form.submit();
    return;
  }
  const page = new DOMParser().parseFromString(answer.text, "text/html");
  if (!part("at-wall", page)) {
    location.assign(answer.url); // signed out, or the wall was opened elsewhere
    return;
  }
  await passTime(part("at-wall"), part("at-wall", page));
  part("at-wall").replaceWith(part("at-wall", page));
  part("said").replaceChildren(...part("said", page).childNodes);
  const next = part("wall-form", page);
  if (!next) {
    location.assign(answer.url); // gelled: the page has another form now
    return;
  }
  const place = document.activeElement?.value;
  part("wall-form").replaceWith(next);
  next.querySelector(`button[value="${CSS.escape(place ?? "")}"]`)?.focus({ preventScroll: true });
  choose();
}

// The clock runs from the old time to the new one; long waits run faster.
function passTime(before, after) {
  const [from, to] = [Number(after.dataset.from), Number(after.dataset.to)];
  const isSame = Number(before.dataset.to) >= to;
  if (still.matches || isSame) return Promise.resolve();
  const length = Math.min(LONGEST_MS, 500 + 350 * Math.log2(1 + (to - from)));
  const [turn, turned] = [Number(before.dataset.turn), Number(after.dataset.turn)];
  const needle = part("needle");
  const middle = needle.getAttribute("transform").split(" ").slice(1).join(" ");
  before.classList.add("is-running");
  return new Promise((resolve) => {
    const began = performance.now();
    const tick = (now) => {
      const share = Math.min(1, (now - began) / length);
      part("clock").textContent = clock(from + (to - from) * share);
      const swing = 1 - (1 - Math.min(1, share * 2.5)) ** 3;
      needle.setAttribute("transform", `rotate(${turn + (turned - turn) * swing} ${middle}`);
      if (share < 1) requestAnimationFrame(tick);
      else resolve();
    };
    requestAnimationFrame(tick);
  });
}

function clock(seconds) {
  const whole = Math.round(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}

// A tap on a ring chooses its port, and the chosen ring stands out.
function tapRing(event) {
  const ring = event.target.closest("[data-port]");
  const radio = ring && document.querySelector(`input[name="port"][value="${ring.dataset.port}"]`);
  if (!radio) return;
  radio.checked = true;
  choose();
}

function choose() {
  const chosen = document.querySelector('input[name="port"]:checked')?.value;
  for (const ring of document.querySelectorAll("[data-port]")) {
    ring.classList.toggle("is-chosen", ring.dataset.port === chosen);
  }
}

document.addEventListener("submit", act);
document.addEventListener("click", tapRing);
document.addEventListener("change", choose);
choose();
