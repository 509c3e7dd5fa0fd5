// The opened wall, replayed: each picture gets a canvas on top, drawn from the map of arrival times.
// The map: zlib, base64; strip after strip, column after column, the face first; 0 to 254 stand for
// the start to the end, 255 for never. Without this script a row of still pictures says the same.

const NEVER = 255;
const LEVELS = 254;
const PLAY_MS = 9000;
const FRESH = 0.03; // resin that came within this share of the whole time is drawn lighter

const replay = document.querySelector("#replay");
const bar = document.querySelector("#replay-bar");
const slider = document.querySelector("#replay-at");
const button = document.querySelector("#replay-play");
const end = Number(replay.dataset.end);
let playing = 0;

async function unpacked(text) {
  const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate"));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

async function sideOf(figure) {
  const { sizes, boxes, way, levels } = figure.dataset;
  const svg = figure.querySelector("svg");
  const canvas = document.createElement("canvas");
  canvas.setAttribute("aria-hidden", "true");
  const view = document.createElement("div");
  view.className = "opened-view";
  svg.replaceWith(view);
  view.append(svg, canvas);
  const [, , width, height] = svg.getAttribute("viewBox").split(" ").map(Number);
  return {
    canvas, width, height, way,
    end: Number(figure.dataset.end),
    levels: await unpacked(levels),
    sizes: sizes.split(" ").map((size) => size.split("x").map(Number)),
    boxes: boxes.split(" ").map((box) => box.split(",").map(Number)),
  };
}

function draw(side, time) {
  const { canvas, width, height } = side;
  const scale = 2;
  canvas.width = width * scale;
  canvas.height = height * scale;
  const pen = canvas.getContext("2d");
  pen.scale(scale, scale);
  const [dry, wet, fresh] = colours();
  const last = side.end ? (time / side.end) * LEVELS : LEVELS;
  const young = last - (FRESH * LEVELS * end) / (side.end || end);
  let start = 0;
  side.sizes.forEach(([columns, rows], strip) => {
    const [x, y, w, h] = side.boxes[strip];
    pen.fillStyle = dry;
    pen.fillRect(x, y, w, h);
    for (let column = 0; column < columns; column += 1) {
      for (let row = 0; row < rows; row += 1) {
        const level = side.levels[start + column * rows + row];
        if (level === NEVER || level > last) continue;
        pen.fillStyle = level > young && time < end ? fresh : wet;
        pen.fillRect(...block(side.way, [x, y, w, h], [columns, rows], [column, row]));
      }
    }
    start += columns * rows;
  });
}

function block(way, [x, y, w, h], [columns, rows], [column, row]) {
  const grow = 0.25; // neighbours overlap a hair, or their edges would show
  if (way === "up") {
    const [bw, bh] = [w / rows, h / columns];
    return [x + row * bw, y + h - (column + 1) * bh, bw + grow, bh + grow];
  }
  const [bw, bh] = [w / columns, h / rows];
  const deep = way === "under" ? rows - 1 - row : row;
  return [x + column * bw, y + deep * bh, bw + grow, bh + grow];
}

function colours() {
  const style = getComputedStyle(document.documentElement);
  const named = (name) => style.getPropertyValue(name).trim();
  return [named("--concrete"), named("--resin-fill"), named("--resin")];
}

function clock(seconds) {
  const whole = Math.round(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}

function show(sides) {
  const share = Number(slider.value) / 1000;
  const time = share * end;
  document.querySelector("#replay-time").textContent = clock(time);
  for (const side of sides) {
    // At the end the picture below speaks: tones, pockets and all.
    side.canvas.hidden = share === 1;
    if (share < 1) draw(side, time);
  }
}

function play(sides) {
  if (playing) return stop();
  if (slider.value === slider.max) slider.value = 0;
  const from = Number(slider.value);
  const began = performance.now();
  button.textContent = button.dataset.stop;
  const tick = (now) => {
    slider.value = Math.min(1000, from + ((now - began) / PLAY_MS) * 1000);
    show(sides);
    if (slider.value === slider.max) stop();
    else playing = requestAnimationFrame(tick);
  };
  playing = requestAnimationFrame(tick);
}

function stop() {
  cancelAnimationFrame(playing);
  playing = 0;
  button.textContent = button.dataset.play;
}

if ("DecompressionStream" in window) {
  const sides = await Promise.all([...replay.querySelectorAll("figure")].map(sideOf));
  document.querySelector("#stills").hidden = true;
  bar.hidden = false;
  slider.addEventListener("input", () => {
    stop();
    show(sides);
  });
  button.addEventListener("click", () => play(sides));
  show(sides);
}
