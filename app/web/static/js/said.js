// A sentence for the next page, when a script and not the server sends the person there.

const KEY = "lowport-said";

export function sayOnNextPage(sentence) {
  sessionStorage.setItem(KEY, sentence);
}

const place = document.querySelector("main [role=status]");
const sentence = sessionStorage.getItem(KEY);
if (sentence && place) {
  sessionStorage.removeItem(KEY);
  const flash = Object.assign(document.createElement("p"), { className: "flash" });
  flash.textContent = sentence;
  place.append(flash);
}
