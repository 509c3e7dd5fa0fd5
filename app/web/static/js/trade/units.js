// The units the trade uses, with exact factors to one base unit per quantity. The same table as
// app/trade/units.py; tests/js/test_phone_scripts.py holds the two together.
//
//   name: [quantity, factor, sign, offset, words…]   value in the base unit = number × factor + offset

export const UNITS = {
  mm: ["length", "1", "mm", "0", "millimeter|millimeters|millimetre|millimetres|milímetro|milímetros"],
  cm: ["length", "10", "cm", "0", "centimeter|centimeters|centimetre|centimetres|centímetro|centímetros"],
  m: ["length", "1000", "m", "0", "meter|meters|metre|metres|metro|metros"],
  "in": ["length", "127/5", "in", "0", "\"|inch|inches|ins|pulg|pulgs|pulgada|pulgadas"],
  ft: ["length", "1524/5", "ft", "0", "'|foot|feet|pie|pies"],
  mil: ["length", "127/5000", "mil", "0", "mils|thou|milésima|milésimas"],
  ml: ["volume", "1", "mL", "0", "cc|cm3|cm³|milliliter|milliliters|millilitre|millilitres|mililitro|mililitros"],
  l: ["volume", "1000", "L", "0", "liter|liters|litre|litres|litro|litros"],
  floz: ["volume", "473176473/16000000", "fl oz", "0", "fl oz|oz|ounce|ounces|onza|onzas"],
  pt: ["volume", "473176473/1000000", "pt", "0", "pint|pints|pinta|pintas"],
  qt: ["volume", "473176473/500000", "qt", "0", "quart|quarts|cuarto|cuartos"],
  gal: ["volume", "473176473/125000", "gal", "0", "gals|gallon|gallons|galón|galon|galones"],
  in3: ["volume", "2048383/125000", "in³", "0", "in³|cu in|cubic inch|cubic inches"],
  m3: ["volume", "1000000", "m³", "0", "m³|cubic meter|cubic meters|cubic metres"],
  ft3: ["volume", "442450728/15625", "ft³", "0", "ft³|cu ft|cubic foot|cubic feet"],
  mg: ["mass", "1/1000", "mg", "0", "milligram|milligrams|miligramo|miligramos"],
  g: ["mass", "1", "g", "0", "gram|grams|gramo|gramos"],
  kg: ["mass", "1000", "kg", "0", "kilo|kilos|kilogram|kilograms|kilogramo|kilogramos"],
  oz: ["mass", "45359237/1600000", "oz", "0", "ounce|ounces|onza|onzas"],
  lb: ["mass", "45359237/100000", "lb", "0", "lbs|pound|pounds|libra|libras"],
  s: ["time", "1/60", "s", "0", "sec|secs|second|seconds|segundo|segundos"],
  min: ["time", "1", "min", "0", "mins|minute|minutes|minuto|minutos"],
  h: ["time", "60", "h", "0", "hr|hrs|hour|hours|hora|horas"],
  c: ["temperature", "1", "°C", "0", "°c|deg c|degc|celsius|ºc"],
  f: ["temperature", "5/9", "°F", "-160/9", "°f|deg f|degf|fahrenheit|ºf"],
  pa: ["pressure", "1/1000000", "Pa", "0", "pascal|pascals"],
  kpa: ["pressure", "1/1000", "kPa", "0", "kilopascal|kilopascals"],
  mpa: ["pressure", "1", "MPa", "0", "megapascal|megapascals|n/mm2|n/mm²"],
  bar: ["pressure", "1/10", "bar", "0", "bars|bares"],
  psi: ["pressure", "8896443230521/1290320000000000", "psi", "0", "lb/in2|lb/in²"],
  g_per_ml: ["density", "1", "g/mL", "0", "g/ml|g/cm3|g/cm³|kg/l"],
  kg_per_m3: ["density", "1/1000", "kg/m³", "0", "kg/m3|kg/m³"],
  lb_per_gal: ["density", "2945405/24580596", "lb/gal", "0", "lb/gal|lbs/gal"],
  pa_s: ["viscosity", "1", "Pa·s", "0", "pa s|pa·s|pas"],
  mpa_s: ["viscosity", "1/1000", "mPa·s", "0", "mpa s|mpa·s|mpas"],
  cp: ["viscosity", "1/1000", "cP", "0", "cps|centipoise"],
  n_per_m: ["surface tension", "1", "N/m", "0", "n/m"],
  g_per_mol: ["molar mass", "1", "g/mol", "0", "g/mol"],
  deg: ["angle", "1", "°", "0", "°|degrees|grados"],
  m3_per_h: ["airflow", "1", "m³/h", "0", "m3/h|m³/h"],
  cfm: ["airflow", "165919023/97656250", "cfm", "0", "ft3/min|ft³/min"],
  ppm: ["concentration", "1", "ppm", "0", ""],
  mg_per_m3: ["mass concentration", "1", "mg/m³", "0", "mg/m3|mg/m³"],
  ml_per_min: ["flow", "1", "mL/min", "0", "ml/min|cc/min"],
  floz_per_min: ["flow", "473176473/16000000", "fl oz/min", "0", "fl oz/min|oz/min|floz/min"],
  ml_per_h: ["flow", "1/60", "mL/h", "0", "ml/h|cc/h"],
  pt_per_h: ["flow", "157725491/20000000", "pt/h", "0", "pt/h|pint/h|pints/h"],
  per_min: ["rate", "1", "/min", "0", "/min"],
  "%": ["share", "1/100", "%", "0", "percent|por ciento"],
  parts: ["ratio", "1", "parts", "0", "part|parte|partes"],
  count: ["count", "1", "", "0", ""],
};

export const BASE_UNITS = Object.fromEntries(
  Object.entries(UNITS)
    .filter(([, [, factor, , offset]]) => factor === "1" && offset === "0")
    .map(([name, [quantity]]) => [quantity, name]),
);
Object.assign(BASE_UNITS, { ratio: "", count: "", share: "", viscosity: "pa_s", density: "g_per_ml" });

// A unit word as it is compared: small letters, no full stops, no accents, single spaces.
export function folded(word) {
  const bare = word.normalize("NFD").replace(/\p{Mn}/gu, "").toLowerCase().replaceAll(".", " ");
  return bare.split(/\s+/).filter(Boolean).join(" ");
}

export const signOf = (name) => UNITS[name]?.[2] ?? "";

export function wordsOf(name) {
  const [, , , , more] = UNITS[name];
  return [name, ...more.split("|").filter(Boolean)].map(folded);
}

// Every way to type a unit of a quantity: folded word -> name of the unit; the last one wins.
export function wordsFor(quantity) {
  const found = new Map();
  for (const [name, [own]] of Object.entries(UNITS)) {
    if (own === quantity) for (const word of wordsOf(name)) found.set(word, name);
  }
  return found;
}
