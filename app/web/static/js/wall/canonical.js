// RFC 8785 for what we sign: text in NFC, whole numbers, true, false, null, lists, objects.

export function canonical(value) {
  if (value === null || typeof value === "boolean") return String(value);
  if (typeof value === "string") return text(value);
  if (typeof value === "number") {
    if (!Number.isSafeInteger(value)) throw new TypeError(`${value} may not be signed`);
    return String(value);
  }
  if (Array.isArray(value)) return `[${value.map(canonical).join(",")}]`;
  const members = Object.keys(value).sort().map((name) => `${text(name)}:${canonical(value[name])}`);
  return `{${members.join(",")}}`;
}

function text(value) {
  if (!value.isWellFormed?.() && /[\uD800-\uDFFF]/u.test(value)) throw new TypeError("broken text");
  return JSON.stringify(value.normalize("NFC").replaceAll("\0", ""));
}

export const utf8 = (text) => new TextEncoder().encode(text);

export function base64url(bytes) {
  return base64(bytes).replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "");
}

export function base64(bytes) {
  let binary = "";
  for (const byte of bytes) binary += String.fromCharCode(byte);
  return btoa(binary);
}

export async function sha256Hex(bytes) {
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
}
