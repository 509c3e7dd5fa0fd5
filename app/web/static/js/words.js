// Sentences in the page's language: say("{count} not sent yet", { count: 3 }).
// The English sentence is the key. words/<language>.js is made by the server from the catalogue of
// translations (app/web/scripts.py finds every say("…") in these files).

const language = globalThis.document?.documentElement.lang ?? "en";
let table = {};
if (language !== "en") {
  try {
    table = (await import(`./words/${language}.js`)).default;
  } catch {
    // Without signal and without a kept copy: English is better than nothing.
  }
}

export function say(sentence, places = {}) {
  return filled(table[sentence] ?? sentence, places);
}

export function filled(template, places) {
  return template.replace(/\{(\w+)\}/g, (whole, name) => String(places[name] ?? whole));
}

// How long ago, as one says it: 40 s is "1 min", 100 min is "1 h".
export function age(milliseconds) {
  const minutes = Math.max(1, Math.round(milliseconds / 60000));
  if (minutes < 60) return say("{count} min", { count: minutes });
  const hours = Math.floor(minutes / 60);
  if (hours < 48) return say("{count} h", { count: hours });
  return say("{count} days", { count: Math.floor(hours / 24) });
}
