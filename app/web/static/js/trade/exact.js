// Exact fractions, so that what is typed on the phone is the same number as on the server.
// A fraction is [numerator, denominator], two BigInts in lowest terms, the denominator positive.

function divisor(a, b) {
  let [x, y] = [a < 0n ? -a : a, b];
  while (y) [x, y] = [y, x % y];
  return x || 1n;
}

export function fraction(top, bottom = 1n) {
  if (bottom === 0n) throw new RangeError("a fraction over zero");
  const sign = bottom < 0n ? -1n : 1n;
  const common = divisor(top, sign * bottom);
  return [(sign * top) / common, (sign * bottom) / common];
}

// "12", "0.25", ".5", "-3", "127/5", "1e-6"
export function exactly(text) {
  const [top, bottom] = text.split("/");
  if (bottom !== undefined) return fraction(BigInt(top), BigInt(bottom));
  const [, sign, whole, part = "", power = "0"] = text.match(
    /^(-?)(\d*)(?:\.(\d+))?(?:e([+-]?\d+))?$/,
  );
  const digits = BigInt(`${whole}${part}` || "0") * (sign ? -1n : 1n);
  const shift = Number(power) - part.length;
  return shift < 0 ? fraction(digits, 10n ** BigInt(-shift)) : fraction(digits * 10n ** BigInt(shift));
}

export const plus = (a, b) => fraction(a[0] * b[1] + b[0] * a[1], a[1] * b[1]);
export const minus = (a, b) => fraction(a[0] * b[1] - b[0] * a[1], a[1] * b[1]);
export const times = (a, b) => fraction(a[0] * b[0], a[1] * b[1]);
export const over = (a, b) => fraction(a[0] * b[1], a[1] * b[0]);
export const isSame = (a, b) => a[0] === b[0] && a[1] === b[1];

// Plain decimal text of at most `digits` significant digits, halves to even: "0.27579029168".
export function decimalText([top, bottom], digits = 12) {
  if (top === 0n) return "0";
  const size = top < 0n ? -top : top;
  let power = String(size).length - String(bottom).length;
  if (size < bottom * 10n ** BigInt(Math.max(power, 0)) && power >= 0) power -= 1;
  if (power < 0 && size * 10n ** BigInt(-power) < bottom) power -= 1;
  let exponent = power - digits + 1; // of the last digit kept
  const scaled = exponent < 0 ? size * 10n ** BigInt(-exponent) : size;
  const unit = exponent < 0 ? bottom : bottom * 10n ** BigInt(exponent);
  let kept = scaled / unit;
  const twice = 2n * (scaled % unit);
  if (twice > unit || (twice === unit && kept % 2n)) kept += 1n;
  let written = String(kept).replace(/0+$/, "");
  exponent += String(kept).length - written.length;
  if (exponent >= 0) written += "0".repeat(exponent);
  else if (written.length > -exponent) written = `${written.slice(0, exponent)}.${written.slice(exponent)}`;
  else written = `0.${"0".repeat(-exponent - written.length)}${written}`;
  return top < 0n ? `-${written}` : written;
}

// The nearest number of the machine.
export const toNumber = (value) => Number(decimalText(value, 20));

// A whole and a part: 3/2 is "1 1/2".
export function mixed([top, bottom]) {
  const [whole, left] = [top / bottom, top % bottom];
  if (left === 0n) return String(whole);
  return whole ? `${whole} ${left}/${bottom}` : `${left}/${bottom}`;
}
