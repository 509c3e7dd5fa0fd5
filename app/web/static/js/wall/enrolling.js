// Registering this phone: a key is made, kept, read back and signs once. Where that fails, the page
// says so, and repairs are confirmed with the password instead.

import { isHere, ownDevice, person } from "../outbox/outbox.js";
import { canonical } from "./canonical.js";
import { compactJws, forgetKey, keyOf, makeKey, markRegistered } from "./keys.js";

const part = (id) => document.getElementById(id);
const LEAST = 6;

async function start() {
  const device = await ownDevice(person);
  const key = await keyOf(person).catch(() => null);
  const row = document.querySelector(`[data-device="${device}"]`);
  // The page that comes after the form was taken lists this phone: now the key may be used.
  if (key && !key.isRegistered && sessionStorage.getItem("lowport-enrolled") === key.kid) {
    if (row && !part("wrong")) await markRegistered(person);
    sessionStorage.removeItem("lowport-enrolled");
  }
  const isDone = Boolean((await keyOf(person).catch(() => null))?.isRegistered);
  part("enrol-done").hidden = !isDone;
  part("enrol").hidden = isDone;
  part("enrol-form").addEventListener("submit", enrol);
}

async function enrol(event) {
  const form = event.target;
  if (form.elements.proof.value) return; // filled in below: now the browser sends it
  event.preventDefault();
  event.stopImmediatePropagation();
  const pin = part("new-pin").value;
  part("new-pin-wrong").hidden = /^[0-9]{6,}$/.test(pin) && pin.length >= LEAST;
  if (!part("new-pin-wrong").hidden) return part("new-pin").focus();
  try {
    await fill(form, pin);
  } catch {
    await forgetKey(person).catch(() => {});
    part("enrol").hidden = true;
    part("enrol-cannot").hidden = false;
    return;
  }
  form.requestSubmit();
}

async function fill(form, pin) {
  const device = await ownDevice(person);
  const key = await makeKey(person, pin);
  const { challenge, typ } = part("enrol").dataset;
  form.elements.device.value = device;
  form.elements.public_key.value = canonical(key.publicKey);
  form.elements.proof.value = await compactJws(key, typ, canonical({ challenge, device, person }));
  sessionStorage.setItem("lowport-enrolled", key.kid);
}

if (isHere && globalThis.crypto?.subtle) start().catch(() => (part("enrol-cannot").hidden = false));
else part("enrol-cannot").hidden = false;
