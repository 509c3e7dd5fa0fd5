// The exact text that is signed, from a draft. Its form is that of app/trainer/wall/body.py.

import { canonical } from "./canonical.js";
import { keyOf, readTyped, scoreOf, textOf } from "./judging.js";

export function bodyOf(data, draft, photos, now) {
  return canonical({
    format: data.format,
    version: 1,
    id: data.id,
    person: data.person,
    job: data.job,
    qualification: data.qualification,
    trainer: data.trainer,
    occurred_on: data.occurred_on,
    modules: data.modules,
    items: data.items.map((item) => {
      const { outcome, reason } = draft.seen[keyOf(item)];
      return { module: item.module, step: item.step, outcome, reason: (reason ?? "").trim() };
    }),
    measured: data.items.flatMap((item) => measuredOf(draft, item)),
    batches: draft.batches.map(({ number, mixed_at, typed }) => {
      return { number, mixed_at, typed, temperature_c: textOf(readTyped(typed, "temperature", null).reading) };
    }),
    ports: draft.ports.map(({ row, port, opened_at, next_showed_at, typed, note }) => {
      const { reading } = readTyped(typed, "pressure", "psi");
      return { row, port, opened_at, next_showed_at, typed, pressure_mpa: reading ? textOf(reading) : "", note };
    }),
    photos: photos.map(({ id, sha256, module, step }) => ({ id, sha256, module, step })),
    given: Object.entries(data.given).map(([name, value]) => ({ name, value })),
    judgement: draft.judgement,
    remarks: (draft.remarks ?? "").trim(),
    verdict: scoreOf(data, draft).passed ? "pass" : "not-yet",
    printed_name: data.printed_name,
    meaning: data.meaning,
    language: data.language,
    signed_at: now.toISOString(),
  });
}

function measuredOf(draft, item) {
  const typed = draft.measured[keyOf(item)] ?? {};
  return item.measures.flatMap(({ id, quantity, unit }) => {
    const { reading } = readTyped(typed[id], quantity, unit);
    if (!reading) return [];
    const value = textOf(reading);
    return [{ module: item.module, step: item.step, name: id, typed: typed[id].trim(), value }];
  });
}
