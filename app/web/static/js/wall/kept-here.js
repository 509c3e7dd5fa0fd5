// This page comes onto the phone when it is opened, and says whether it is really there. With it
// come the pages that tell what waits on the phone: whoever signs below ground looks there next.

import { canKeep, missingOf, person } from "../kept.js";
import { say } from "../words.js";

const BESIDE = ["/outbox", "/on-this-phone"];

export async function keepThisPage(place) {
  if (!canKeep) return;
  const url = location.pathname;
  for (const one of [url, ...BESIDE]) await keep(one);
  const isThere = (await missingOf([url])).length === 0;
  place.textContent = isThere
    ? say("This repair is on this phone. What you note stays here until you sign.")
    : say("This repair is not on this phone yet. Open it once with signal.");
}

async function keep(url) {
  try {
    const response = await fetch(url, { headers: { Accept: "text/html" } });
    const isOurs = response.ok && !response.redirected && response.headers.get("Lowport-Person") === person;
    if (isOurs) await (await caches.open(`lowport-person-${person}`)).put(url, response);
  } catch {
    // Without signal: what was kept before stays.
  }
}
