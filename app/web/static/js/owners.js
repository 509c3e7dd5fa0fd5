// Whose things wait on this phone: ids go with the things, names stay here for the questions asked.

const KEY = "lowport-owners";

function known() {
  try {
    return JSON.parse(localStorage.getItem(KEY) ?? "{}");
  } catch {
    return {};
  }
}

export function ownerOf(person) {
  return known()[person] ?? { name: "?", signInName: "" };
}

const { person, personName, signInName } = document.documentElement.dataset;
if (person) {
  const owners = { ...known(), [person]: { name: personName, signInName } };
  localStorage.setItem(KEY, JSON.stringify(owners));
}
