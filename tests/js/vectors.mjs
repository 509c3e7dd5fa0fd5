// The test vectors that Python is held to as well.

import { readFileSync } from "node:fs";

export function vectors(name) {
  return JSON.parse(readFileSync(new URL(`../vectors/${name}.json`, import.meta.url), "utf8"));
}
