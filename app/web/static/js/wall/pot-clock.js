// The pot-life clock: from the moment A met B to the short end of the pot-life band. Warns by
// words, sound and vibration with 10 and 5 minutes left and at the end.

import { potLifeBand } from "../trade/checks.js";
import { say } from "../words.js";
import { allowSound, keepScreenOn, sound } from "./alarm.js";
import { showBarClock } from "./bar.js";
import { countdown } from "./countdown.js";
import { note } from "./draft.js";
import { givenValues, readTyped, textOf } from "./judging.js";
import { unreadWords } from "./telling.js";

const WARN_AT_MIN = [10, 5, 0];
const SHOWN_AFTER_MIN = 60;
const part = (id) => document.querySelector(`#${id}`);
let running = null; // {number, at, life}
let warned = null; // the last warning given for the running batch

export function startClock(data, changed) {
  part("clock-form").addEventListener("submit", async (event) => {
    event.preventDefault();
    allowSound();
    const typed = part("resin-temperature").value.trim();
    if (!temperatureOf(typed)) return;
    const now = new Date();
    const mixed_at = now.toTimeString().slice(0, 5);
    changed(
      await note(data, (draft) => {
        const number = 1 + Math.max(0, ...draft.batches.map((one) => one.number));
        draft.batches = [...draft.batches, { number, mixed_at, typed, at: now.getTime() }];
      }),
    );
  });
  document.addEventListener("visibilitychange", () => keepScreenOn(Boolean(running)));
  setInterval(tick, 1000);
}

function temperatureOf(typed) {
  const said = part("resin-temperature-said");
  const { reading, problem } = readTyped(typed, "temperature", null);
  const value = reading && Number(textOf(reading));
  const isRight = reading && value >= -10 && value <= 60;
  said.className = isRight ? "echo" : "error";
  said.textContent = problem
    ? unreadWords(problem)
    : isRight
      ? reading.said
      : say("How warm is the resin? Type it with °F or °C.");
  return isRight;
}

// Minutes by the short end of the band; null where the data sheet does not say.
export function lifeOf(data, typed) {
  const { resin_pot_life_min: reference_min, resin_pot_life_reference_c: reference_c } = givenValues(data);
  const { reading } = readTyped(typed, "temperature", null);
  if (!reference_min || reference_c === undefined || !reading) return null;
  return potLifeBand({ reference_min, reference_c, temperature_c: Number(textOf(reading)) }).low_min;
}

export function showClock(data, draft) {
  part("batch-lines").replaceChildren(
    ...draft.batches.map((batch) => {
      const text = say("Batch {number}: A met B at {at}, resin at {warm}", {
        number: batch.number,
        at: batch.mixed_at,
        warm: batch.typed,
      });
      return Object.assign(document.createElement("li"), { textContent: text });
    }),
  );
  const last = draft.batches.at(-1);
  const life = last && lifeOf(data, last.typed);
  const at = last && (last.at ?? atToday(last.mixed_at));
  if (last?.number !== running?.number) warned = null;
  running = last && !draft.signing ? { number: last.number, at, life } : null;
  tick();
}

function atToday(clock) {
  const [hours, minutes] = clock.split(":").map(Number);
  return new Date().setHours(hours, minutes, 0, 0);
}

function tick() {
  const left = running?.life ? running.life - (Date.now() - running.at) / 60000 : null;
  const isShown = left !== null && left > -SHOWN_AFTER_MIN;
  part("pot-clock").hidden = !isShown && !(running && running.life === null);
  keepScreenOn(isShown);
  if (running && running.life === null) part("pot-words").textContent = say("The data sheet gives no pot life.");
  showBarClock(isShown ? say("Pot life {left}", { left: countdown(left) }) : "");
  if (!isShown) return;
  part("pot-left").textContent = countdown(left);
  part("pot-words").textContent = left > 0
    ? say("left of batch {number}, by the short end of the rule of thumb", { number: running.number })
    : say("over: batch {number} must be out", { number: running.number });
  warnOnce(left);
}

// The tightest threshold that is reached and was not told yet; an older page says only that one.
function warnOnce(left) {
  const reached = WARN_AT_MIN.filter((minutes) => left <= minutes).at(-1);
  if (reached === undefined || (warned !== null && warned <= reached)) return;
  warned = reached;
  part("pot-clock").classList.toggle("is-over", reached === 0);
  part("pot-warning").textContent = reached
    ? say("{count} minutes left. Use it up or stop.", { count: reached })
    : say("The pot life is over. Stop, change the mixing tube, throw out what is mixed.");
  sound(reached === 0 ? 4 : 2);
}
