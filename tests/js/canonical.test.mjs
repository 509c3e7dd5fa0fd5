// The bytes that are signed on the phone: RFC 8785, its own examples where they hold no floats.

import assert from "node:assert/strict";
import { webcrypto } from "node:crypto";
import test from "node:test";

import { base64url, canonical, sha256Hex, utf8 } from "../../app/web/static/js/wall/canonical.js";

globalThis.crypto ??= webcrypto;

test("names are sorted by UTF-16 units (RFC 8785, 3.2.3)", () => {
  const given = { "\u20ac": "Euro Sign", "\r": "Carriage Return", 1: "One", "\u00f6": "Latin" };
  const sorted = '{"\\r":"Carriage Return","1":"One","ö":"Latin","€":"Euro Sign"}';
  assert.equal(canonical(given), sorted);
});

test("text is escaped as in RFC 8785, 3.2.2.2", () => {
  const given = "\u20ac$\u000f\u000aA'\u0042\u0022\u005c\\\"/";
  assert.equal(canonical(given), '"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"');
});

test("text is brought to NFC", () => assert.equal(canonical("e\u0301"), '"\u00e9"'));

for (const wrong of [0.1, NaN, Infinity, 2 ** 53]) {
  test(`${wrong} may not be signed`, () => assert.throws(() => canonical({ a: wrong }), TypeError));
}

test("half a letter may not be signed", () => assert.throws(() => canonical("\ud800"), TypeError));

test("base64url is RFC 4648, section 5, without padding", () => {
  assert.equal(base64url(new Uint8Array([0xfb, 0xff])), "-_8");
  assert.equal(base64url(utf8("foob")), "Zm9vYg"); // RFC 4648, section 10
});

test("SHA-256 of “abc” (FIPS 180-2, B.1)", async () => {
  const wanted = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
  assert.equal(await sha256Hex(utf8("abc")), wanted);
});
