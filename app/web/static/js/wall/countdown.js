// Minutes as a countdown: "5:30", and "−1:15" when it is over.

export function countdown(left) {
  const seconds = Math.abs(left > 0 ? Math.ceil(left * 60) : Math.floor(left * 60));
  const two = (number) => String(number).padStart(2, "0");
  return `${left > 0 ? "" : "−"}${Math.floor(seconds / 60)}:${two(seconds % 60)}`;
}
