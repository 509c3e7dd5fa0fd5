// What was read of a typed answer, and the question of one that can't be read, in the page's
// language (the same words as app/web/telling.py has).

import { say } from "./words.js";

const OUR_WORDS = ["other", "quantity", "units"];

export function saidInWords(said) {
  const about = said.match(/^(-?\d.*) is about (-?\d.*)$/);
  if (about) return say("{typed} is about {read}", { typed: about[1], read: about[2] });
  const ratio = said.match(/^([\d./ ]+) to ([\d./ ]+)$/);
  if (ratio) return say("{first} to {second}", { first: ratio[1], second: ratio[2] });
  return said;
}

export function questionInWords(unreadable) {
  const places = { ...unreadable.places };
  for (const name of OUR_WORDS) {
    if (typeof places[name] === "string") places[name] = say(places[name]);
  }
  return say(unreadable.template, places);
}
