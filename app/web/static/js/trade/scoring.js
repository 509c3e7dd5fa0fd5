// Pass or not yet, by the rules of app/curriculum/scoring.py: every critical step done alone and
// in tolerance, enough of the others, and a judgement of "works safely alone" or better.

export const OUTCOMES = ["done", "done-when-prompted", "not-done", "not-seen", "does-not-apply"];
export const JUDGEMENTS = [
  "trainer-did-it",
  "needs-guiding",
  "needs-reminding",
  "works-safely-alone",
  "could-show-others",
];

// items: [{id, critical, hasRule}]; seen: {id: {outcome, reason, ruleMet}}; cut: [top, bottom].
// Gives {passed, reasons: [{kind, item, outcome}], …}, or {open: […]} while something is missing.
export function score(items, seen, judgement, cut) {
  const open = items.filter(({ id, critical }) => isOpen(seen[id], critical)).map(({ id }) => id);
  if (open.length || !JUDGEMENTS.includes(judgement)) return { open };
  const applicable = items.filter(({ id }) => seen[id].outcome !== "does-not-apply");
  const critical = applicable.filter((item) => item.critical);
  if (!critical.length) return { open: ["critical"] };
  const others = applicable.filter((item) => !item.critical);
  const reasons = critical.flatMap((item) => criticalReasons(item, seen[item.id]));
  const othersDone = others.filter(({ id }) => isDone(seen[id])).length;
  if (others.length && othersDone * cut[1] < cut[0] * others.length) {
    reasons.push({ kind: "share-below-cut" });
  }
  if (JUDGEMENTS.indexOf(judgement) < JUDGEMENTS.indexOf("works-safely-alone")) {
    reasons.push({ kind: "judgement-too-low", outcome: judgement });
  }
  return {
    passed: reasons.length === 0,
    reasons,
    criticalDone: critical.filter(({ id }) => isDone(seen[id])).length,
    criticalApplicable: critical.length,
    othersDone,
    othersApplicable: others.length,
  };
}

function isOpen(one, critical) {
  if (!one || !OUTCOMES.includes(one.outcome)) return true;
  return critical && one.outcome === "does-not-apply" && !(one.reason ?? "").trim();
}

function criticalReasons({ id, hasRule }, { outcome, ruleMet = null }) {
  if (outcome !== "done") return [{ kind: "critical-not-done", item: id, outcome }];
  if (ruleMet === false) return [{ kind: "critical-out-of-tolerance", item: id, outcome }];
  if (hasRule && ruleMet === null) return [{ kind: "critical-not-judged", item: id, outcome }];
  return [];
}

const isDone = ({ outcome, ruleMet = null }) => outcome === "done" && ruleMet !== false;
