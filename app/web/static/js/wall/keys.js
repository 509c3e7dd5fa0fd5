// A person's signing key on this phone: ES256, made here, never to be taken out again. The signing
// number is a lock on this page only (whoever finds the phone unlocked can't just sign); what the
// server trusts is the key, until a safety officer reports the phone lost.

import { base64url, canonical, utf8 } from "./canonical.js";
import { get, put, remove } from "./store.js";

const CURVE = { name: "ECDSA", namedCurve: "P-256" };
const SIGNING = { name: "ECDSA", hash: "SHA-256" };
const ROUNDS = 300000;

export async function makeKey(person, pin) {
  const pair = await crypto.subtle.generateKey(CURVE, false, ["sign", "verify"]);
  const { crv, kty, x, y } = await crypto.subtle.exportKey("jwk", pair.publicKey);
  const publicKey = { crv, kty, x, y };
  const kid = base64url(await crypto.subtle.digest("SHA-256", utf8(canonical(publicKey))).then(bytes));
  const salt = crypto.getRandomValues(new Uint8Array(16));
  await put("keys", {
    person,
    kid,
    publicKey,
    privateKey: pair.privateKey,
    pin: { salt, digest: await stretched(pin, salt) },
    isRegistered: false,
  });
  // Read it back and sign with what was read: some phones say they keep keys and do not.
  const kept = await get("keys", person);
  const probe = utf8("lowport");
  const signature = await crypto.subtle.sign(SIGNING, kept.privateKey, probe);
  if (!(await crypto.subtle.verify(SIGNING, pair.publicKey, signature, probe))) {
    throw new Error("this phone does not keep keys");
  }
  return kept;
}

const bytes = (buffer) => new Uint8Array(buffer);

async function stretched(pin, salt) {
  const secret = await crypto.subtle.importKey("raw", utf8(pin), "PBKDF2", false, ["deriveBits"]);
  const how = { name: "PBKDF2", hash: "SHA-256", salt, iterations: ROUNDS };
  return base64url(bytes(await crypto.subtle.deriveBits(how, secret, 256)));
}

export const keyOf = (person) => get("keys", person);
export const forgetKey = (person) => remove("keys", person);
export const markRegistered = async (person) =>
  put("keys", { ...(await get("keys", person)), isRegistered: true });

export async function isRightPin(key, pin) {
  return (await stretched(pin, key.pin.salt)) === key.pin.digest;
}

// A compact JWS over exactly these bytes. The header names algorithm, key and kind, nothing more.
export async function compactJws(key, typ, text) {
  const header = canonical({ alg: "ES256", kid: key.kid, typ });
  const signed = `${base64url(utf8(header))}.${base64url(utf8(text))}`;
  const signature = await crypto.subtle.sign(SIGNING, key.privateKey, utf8(signed));
  return `${signed}.${base64url(bytes(signature))}`;
}
