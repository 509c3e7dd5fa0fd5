// What makes a page a good guest on a phone. Every page works without this file.

import { startSending } from "./outbox/outbox.js";
import "./unsent.js";
import "./signing-out.js";
import "./said.js";
import "./new-version.js";
import "./keeping.js";

startSending();
