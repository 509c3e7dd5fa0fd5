// A warning that can be seen, heard and felt, and a screen that stays on while the clock runs.

let audio = null;
let lock = null;

// Browsers let a page sound only after somebody touched it: call this from the button.
export function allowSound() {
  audio ??= globalThis.AudioContext ? new AudioContext() : null;
  audio?.resume?.().catch(() => {});
}

export function sound(times) {
  navigator.vibrate?.(Array.from({ length: times }, () => [400, 200]).flat());
  if (!audio) return;
  for (let i = 0; i < times; i += 1) beep(audio.currentTime + i * 0.6);
}

function beep(from) {
  const [tone, gain] = [audio.createOscillator(), audio.createGain()];
  tone.type = "square";
  tone.frequency.value = 880;
  gain.gain.setValueAtTime(0.3, from);
  tone.connect(gain).connect(audio.destination);
  tone.start(from);
  tone.stop(from + 0.35);
}

// The lock goes when the page is hidden, so it is asked for again when it is back.
export async function keepScreenOn(isWanted) {
  if (!navigator.wakeLock) return;
  if (!isWanted) {
    await lock?.release().catch(() => {});
    lock = null;
  } else if (document.visibilityState === "visible" && (!lock || lock.released)) {
    lock = await navigator.wakeLock.request("screen").catch(() => null);
  }
}
