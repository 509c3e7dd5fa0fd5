// Everything that waits on this phone as one file, for days without signal. The file holds the
// same bytes that would be sent, so what arrives both ways still counts once.

import { waiting } from "./items.js";

export async function outboxFile() {
  const items = await waiting(null);
  const whole = {
    format: "lowport-outbox",
    version: 1,
    saved_at: new Date().toISOString(),
    items: items.map((item) => item.text),
  };
  return new Blob([JSON.stringify(whole, null, 1)], { type: "application/json" });
}

export async function saveFile() {
  const day = new Date().toISOString().slice(0, 10);
  const url = URL.createObjectURL(await outboxFile());
  Object.assign(document.createElement("a"), { href: url, download: `not-sent-${day}.json` }).click();
  setTimeout(() => URL.revokeObjectURL(url), 60000);
}
