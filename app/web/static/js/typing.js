// While somebody has typed into a form and not sent it, this page holds a lock that every page of
// the phone can see. So a new version knows whether anybody is in the middle of something, and the
// lock goes by itself when the page goes.

const LOCK = "lowport-typing";
let letGo = null;

function hold() {
  if (letGo || !navigator.locks) return;
  letGo = () => {};
  navigator.locks.request(LOCK, { mode: "shared" }, () => new Promise((done) => (letGo = done)));
}

export function sentOrLeft() {
  letGo?.();
  letGo = null;
}

export async function isAnybodyTyping() {
  const { held } = (await navigator.locks?.query()) ?? { held: [] };
  return held.some((lock) => lock.name === LOCK);
}

addEventListener("input", (event) => {
  if (event.target.form) hold();
});
addEventListener("submit", (event) => {
  if (!event.defaultPrevented) sentOrLeft();
});
addEventListener("reset", sentOrLeft);
