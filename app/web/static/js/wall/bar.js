// The bar under the thumb: how much is noted, the minutes left, the way to the next open step.

import { say } from "../words.js";
import { keyOf, openPoints } from "./judging.js";

const part = (id) => document.getElementById(id);
const HEAD_PX = 80; // what stands this far down is being looked at already
let open = [];

export function startBar() {
  part("bar-next").addEventListener("click", (event) => {
    event.preventDefault();
    const place = nextPlace();
    place.scrollIntoView({ block: "start" });
    place.focus({ preventScroll: true });
  });
  // Where the signature is, nothing else stands out.
  const aside = ([{ isIntersecting }]) => part("wall-bar").classList.toggle("is-aside", isIntersecting);
  new IntersectionObserver(aside).observe(part("wall-sign"));
}

// The first open place further down; from the last one it begins again at the top.
function nextPlace() {
  const places = open.map(({ key }) => part(key ? `text-${key}` : "judgement"));
  const below = places.find((place) => place.getBoundingClientRect().top > HEAD_PX);
  return below ?? places[0] ?? part("review-title");
}

export function showBar(data, draft) {
  open = openPoints(data, draft);
  const noted = data.items.filter((item) => draft.seen[keyOf(item)]).length;
  part("bar-noted").textContent = say("{noted} of {total}", { noted, total: data.items.length });
  part("bar-next").textContent = open.length ? say("Next open step") : say("Review and sign");
}

export function showBarClock(words) {
  part("bar-clock").textContent = words;
}
