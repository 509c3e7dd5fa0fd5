// Before signing: what is open, or the verdict with its reasons and everything that is signed.

import { say } from "../words.js";
import { keyOf, openPoints, scoreOf } from "./judging.js";
import { openWords, reasonWords } from "./telling.js";
import { photosOf } from "./store.js";

// More open steps than this of one checklist are one line, that leads to the first of them.
const EACH_UP_TO = 3;

export async function showReview(data, draft) {
  const place = document.querySelector("#wall-review");
  const photos = (await photosOf(data.id)).length;
  const points = openPoints(data, draft);
  const result = points.length ? null : scoreOf(data, draft);
  const isReady = Boolean(result && !result.open);
  document.querySelector("#wall-sign").hidden = !isReady;
  if (!isReady) return place.replaceChildren(...openList(data, points));
  return place.replaceChildren(...everything(data, draft, result, photos));
}

function openList(data, points) {
  const first = paragraph(say("Not ready to sign. Still open: {count}", { count: points.length }));
  const list = document.createElement("ul");
  for (const [point, words] of openLines(data, points)) {
    const link = Object.assign(document.createElement("a"), { className: "go", textContent: words });
    link.href = point.key ? `#text-${point.key}` : "#judgement";
    const li = document.createElement("li");
    li.append(link);
    list.append(li);
  }
  return [first, list];
}

function openLines(data, points) {
  const groups = data.modules.map(({ module }) => points.filter(({ item }) => item?.module === module));
  return [...groups, points.filter(({ key }) => !key)].flatMap(linesOf);
}

function linesOf(points) {
  if (points.length <= EACH_UP_TO) return points.map((point) => [point, openWords(point)]);
  const title = document.getElementById(`module-${points[0].item.module}`).textContent;
  return [[points[0], say("{title}: {count} steps", { title, count: points.length })]];
}

function everything(data, draft, result, photos) {
  const texts = Object.fromEntries(data.items.map((item) => [keyOf(item), item.text]));
  const verdict = document.createElement("p");
  const word = document.createElement("strong");
  word.textContent = result.passed ? say("Pass") : say("Not yet");
  verdict.append(word);
  const reasons = document.createElement("ul");
  for (const reason of result.reasons) {
    reasons.append(Object.assign(document.createElement("li"), { textContent: reasonWords(reason, texts) }));
  }
  const critical = paragraph(
    say("Critical steps done alone: {done} of {total}.", {
      done: result.criticalDone,
      total: result.criticalApplicable,
    }),
  );
  return [verdict, reasons, critical, facts(data, draft, photos)];
}

function facts(data, draft, photos) {
  const list = Object.assign(document.createElement("dl"), { className: "definitions" });
  const chosen = document.querySelector(`label[for="judge-${draft.judgement}"]`);
  const [person, qualification, job] = data.about;
  const pairs = [
    [say("Person"), person],
    [say("Qualification"), qualification],
    [say("Job"), job],
    [say("Day of the work"), dayWords(data.occurred_on, data.language)],
    [say("Steps noted"), String(data.items.length)],
    [say("Lines in the port log"), String(draft.ports.length)],
    [say("Photos"), String(photos)],
    [say("All in all"), chosen?.textContent.trim() ?? ""],
    [say("Remarks"), draft.remarks || "–"],
  ];
  for (const [label, value] of pairs) {
    const row = document.createElement("div");
    row.append(
      Object.assign(document.createElement("dt"), { textContent: label }),
      Object.assign(document.createElement("dd"), { textContent: value }),
    );
    list.append(row);
  }
  return list;
}

// As the other pages write a day: 28 Nov 2026.
function dayWords(day, language) {
  const [year, month, date] = day.split("-").map(Number);
  const shown = { day: "numeric", month: "short", year: "numeric" };
  return new Date(year, month - 1, date).toLocaleDateString(language === "en" ? "en-GB" : language, shown);
}

function paragraph(text) {
  return Object.assign(document.createElement("p"), { textContent: text });
}
