// Marks what comes in as JSON, [[question, typed], …], and prints what the phone makes of it.

import { readFileSync } from "node:fs";

import { markComputed } from "../../app/web/static/js/trade/marking.js";
import { Unreadable } from "../../app/web/static/js/trade/lengths.js";

function made(question, typed) {
  try {
    const { diagnosis, slip, said } = markComputed(question, typed);
    return [diagnosis, slip, said];
  } catch (problem) {
    if (!(problem instanceof Unreadable)) throw problem;
    return ["unreadable", problem.template, ""];
  }
}

const cases = JSON.parse(readFileSync(0, "utf8"));
console.log(JSON.stringify(cases.map(([question, typed]) => made(question, typed))));
