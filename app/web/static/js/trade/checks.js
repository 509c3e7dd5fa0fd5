// The calculators that checklists use at the wall, in base units, as in app/trade. Each gives
// {value, low, high, isWithin} with null for no limit; a ratio sample also gives longSide and
// longBy. Bounds of inputs stand with the page's rules, so that they cannot differ.

const ROUNDING = 1e-9;

// A number that no gauge can have shown. `input`: the calculator's name for it.
export class NotPossible extends Error {
  constructor(input, low = null, high = null) {
    super(input);
    Object.assign(this, { input, low, high });
  }
}

function limits(value, low, high) {
  const isWithin = (low === null || value >= low) && (high === null || value <= high);
  return { value, low, high, isWithin };
}

function ordered(low, high) {
  if (low > high) throw new NotPossible("");
}

function ratioCheck({ measured_a_ml: a, measured_b_ml: b, parts_a, parts_b, tolerance = 0.05 }) {
  const target = (a * parts_b) / parts_a;
  const deviation = (b - target) / target;
  const longSide = Math.abs(deviation) <= ROUNDING ? "" : deviation > 0 ? "B" : "A";
  const overB = b - target;
  const longBy = longSide === "" ? 0 : longSide === "B" ? overB : (-overB * parts_a) / parts_b;
  return {
    value: b,
    low: target * (1 - tolerance),
    high: target * (1 + tolerance),
    isWithin: Math.abs(deviation) <= tolerance + ROUNDING,
    deviation,
    longSide,
    longBy,
  };
}

function within({ value, low = null, high = null }) {
  if (low === null && high === null) throw new NotPossible("");
  if (low !== null && high !== null) ordered(low, high);
  return limits(value, low, high);
}

function temperatureCheck({ temperature_c, low_c, high_c }) {
  ordered(low_c, high_c);
  return limits(temperature_c, low_c, high_c);
}

function pressureHold({ start_mpa, end_mpa, minutes, least_mpa, least_minutes }) {
  if (start_mpa < least_mpa) throw new NotPossible("start_mpa", least_mpa);
  if (minutes < least_minutes && end_mpa >= least_mpa) {
    throw new NotPossible("minutes", least_minutes);
  }
  return limits(end_mpa, least_mpa, start_mpa);
}

// EM 1110-2-2002 §6-22c(3)(a): where ports of each kind leaked in trials.
const LEAKS_FROM_TO_MPA = { surface: [0.3, 1.0], drilled: [1.4, 1.9] };

export function portPressure({ kind, pressure_mpa }) {
  const [from, to] = LEAKS_FROM_TO_MPA[kind];
  const verdict = pressure_mpa < from ? "normal" : pressure_mpa <= to ? "may-leak" : "leaks";
  return { value: pressure_mpa, low: null, high: from, isWithin: verdict === "normal", verdict };
}

export function potLife({ reference_min, temperature_c, reference_c = 21, factor = 2 }) {
  return reference_min * factor ** ((reference_c - temperature_c) / 10);
}

export function potLifeBand({ low_factor = 1.5, high_factor = 2.5, ...at }) {
  const ends = [low_factor, high_factor].map((factor) => potLife({ ...at, factor }));
  return { low_min: Math.min(...ends), high_min: Math.max(...ends) };
}

function usedAgainstComputed({ used_ml, computed_ml, low, high }) {
  const share = used_ml / computed_ml;
  const isWithin = share >= low - ROUNDING && share <= high + ROUNDING;
  return { value: used_ml, low: low * computed_ml, high: high * computed_ml, isWithin };
}

function purgeCheck({ purged_ml, inner_diameter_mm, length_mm, hoses = 2, times = 1 }) {
  const hose = ((Math.PI / 4) * inner_diameter_mm ** 2 * length_mm) / 1000;
  return limits(purged_ml, hoses * times * hose, null);
}

// Fewest equal gaps of at most the spacing, and one port more.
export function portCount({ length_mm, spacing_mm }) {
  return Math.max(1, Math.ceil(length_mm / spacing_mm - 1e-9)) + 1;
}

const INCH_MM = 25.4;
const CFM_M3_PER_H = (12 * INCH_MM) ** 3 * 60e-9;

export const CHECKS = {
  ratio_check: ratioCheck,
  within,
  temperature_check: temperatureCheck,
  pressure_hold: pressureHold,
  port_pressure_check: portPressure,
  pot_life: potLife,
  pot_life_band: potLifeBand,
  pot_life_check: ({ elapsed_min, pot_life_min }) => limits(elapsed_min, null, pot_life_min),
  used_against_computed: usedAgainstComputed,
  crack_volume: ({ length_mm, depth_mm, width_mm }) => (length_mm * depth_mm * width_mm) / 1000,
  purge_check: purgeCheck,
  port_count: portCount,
  collector_check: ({ airflow_m3_per_h, wheel_mm }) =>
    limits(airflow_m3_per_h, ((25 * CFM_M3_PER_H) / INCH_MM) * wheel_mm, null),
  // ANSI/ISEA Z358.1: ten seconds away, about 55 ft.
  eyewash_distance_check: ({ distance_mm }) => limits(distance_mm, null, 55 * 12 * INCH_MM),
};
