// The folded view. The tree of elements is the tree of hinges: a panel's element lies in that of the panel it hangs on, and each
// bears the turn of its own score, so the browser multiplies the poses. Only leaves are painted.
import { findPrints, lay, onBlank, printInside } from "./prints.js";
import { between, hingeTurn, onScreen } from "./turns.js";

const PIXELS = 2; // of a millimetre, before the whole is scaled
const SVG = "http://www.w3.org/2000/svg";
const HOME = { turn: -28, tilt: 64 };
const SECONDS_A_STEP = 1.4;

const table = document.getElementById("table");
const slider = document.getElementById("steps");
const words = document.getElementById("step-words");
const playButton = document.getElementById("play");

function element(name, attributes, parent) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  parent.append(made);
  return made;
}

const number = (value) => String(Number(value.toFixed(10)));

/** Give an element a motion, with all its digits where the browser takes numbers and not only text. */
function place(node, m) {
  if (node.attributeStyleMap) {
    node.attributeStyleMap.set("transform", new CSSTransformValue([new CSSMatrixComponent(new DOMMatrix(m))]));
  } else {
    node.style.transform = `matrix3d(${m.map(number).join(",")})`;
  }
}

/** A panel as two leaves, print side and back; the back is the mirrored shape, turned over. Gives what a print needs. */
function leaves(panel, parent, thickness, up) {
  const xs = panel.outline.map((each) => each[0]);
  const ys = panel.outline.map((each) => -each[1]);
  const [left, top] = [Math.min(...xs), Math.min(...ys)];
  const [wide, high] = [Math.max(...xs) - left, Math.max(...ys) - top];
  const lift = panel.lift * Math.max(thickness * 1.6, 0.6) * PIXELS;
  let front = null;
  for (const side of ["front", "rear"]) {
    const x = (at) => (side === "front" ? at - left : left + wide - at);
    const svg = element("svg", { class: `leaf ${side}`, viewBox: `0 0 ${number(wide)} ${number(high)}`, width: number(wide * PIXELS), height: number(high * PIXELS), "aria-hidden": "true" }, parent);
    const data = [panel.outline, ...panel.holes].map((ring) => `M${ring.map(([px, py]) => `${number(x(px))} ${number(-py - top)}`).join("L")}Z`).join("");
    element("path", { d: data, "fill-rule": "evenodd", "vector-effect": "non-scaling-stroke" }, svg);
    if (side === "front") front = { svg, data, left, top, image: null };
    if (side === "front" && up !== null && Math.min(wide, high) > 24) {
      const size = Math.min(wide, high, 60) / 5;
      const spot = `translate(${number(wide / 2)} ${number(high / 2)}) rotate(${-90 * up}) scale(${number(size / 10)})`;
      element("path", { class: "up", d: "M0 8V-8M-4 -1 0 -8 4 -1M-3 8H3", transform: spot, "vector-effect": "non-scaling-stroke" }, svg);
    }
    svg.style.left = `${left * PIXELS}px`;
    svg.style.top = `${top * PIXELS}px`;
    const half = (thickness / 2) * PIXELS;
    svg.style.transform = side === "front" ? `translateZ(${lift + half}px)` : `translateZ(${lift - half}px) rotateY(180deg)`;
  }
  return front;
}

class Folding {
  constructor(data, place) {
    this.data = data;
    this.place = place;
    this.isWhole = table.dataset.from.endsWith("whole");
    this.at = this.isWhole ? 1 : data.states.length - 1;
    this.turn = HOME.turn;
    this.tilt = HOME.tilt;
    this.zoom = 1;
    this.scene = document.createElement("div");
    this.scene.className = "scene";
    this.roots = new Map();
    this.hinges = [];
    this.fronts = data.copies.map((copy) => this.build(copy));
    this.room = 0;
    place.replaceChildren(this.scene);
    this.show();
  }

  build(copy) {
    const made = new Map();
    const fronts = [];
    const waiting = [...copy.panels];
    while (waiting.length) {
      const panel = waiting.shift();
      const parent = panel.parent === undefined ? this.scene : made.get(panel.parent);
      if (!parent) { waiting.push(panel); continue; }
      const hinge = document.createElement("div");
      hinge.className = "hinge";
      hinge.dataset.panel = `${copy.name}/${panel.name}`;
      fronts.push(leaves(panel, hinge, copy.thickness, copy.up));
      parent.append(hinge);
      made.set(panel.name, hinge);
      if (panel.parent === undefined) this.roots.set(copy.name, hinge);
      else this.hinges.push({ element: hinge, start: panel.start, end: panel.end, key: `${copy.name}/${panel.name}` });
    }
    return fronts;
  }

  /** Put the papers' pictures on: every copy of a blank has its own place on a sheet. `pick` counts made parts, from 0. */
  print({ papers, places }, pick = 0) {
    const seen = new Map();
    this.data.copies.forEach((copy, i) => {
      const many = this.data.copies.filter((each) => each.blank === copy.blank).length;
      const number = seen.get(copy.blank) ?? 0;
      seen.set(copy.blank, number + 1);
      const lying = places[copy.blank] ?? [];
      const place = lying[pick * many + number] ?? lying[number] ?? lying[0];
      const picture = papers[copy.paper];
      for (const front of this.fronts[i]) {
        front.svg.classList.toggle("printed", Boolean(picture && place));
        if (!picture || !place) { front.image?.removeAttribute("href"); continue; }
        front.image ??= printInside(front.svg, front.data, front.svg.children[1] ?? null);
        lay(front.image, picture.address, onBlank(picture.matrix, place, copy.size), front.left, front.top);
      }
    });
  }

  /** How large the picture may be, read once and not at every frame. */
  measure() {
    this.tall = this.place.clientHeight;
    this.room = Math.min(this.place.clientWidth * 0.9, this.tall * 1.1);
  }

  show() {
    const { states } = this.data;
    const low = Math.min(Math.floor(this.at), states.length - 2 < 0 ? 0 : states.length - 2);
    const share = states.length > 1 ? this.at - low : 0;
    const one = states[low];
    const two = states[Math.min(low + 1, states.length - 1)];
    for (const hinge of this.hinges) {
      const from = one.angles[hinge.key];
      const angle = share === 1 ? two.angles[hinge.key] : from + (two.angles[hinge.key] - from) * share;
      place(hinge.element, onScreen(hingeTurn(hinge.start, hinge.end, angle), PIXELS));
    }
    for (const [copy, root] of this.roots) {
      place(root, onScreen(between(one.roots[copy], two.roots[copy], share), PIXELS));
    }
    const mix = (key, i) => one[key][i] + (two[key][i] - one[key][i]) * share;
    const middle = [0, 1, 2].map((i) => (mix("low", i) + mix("high", i)) / 2);
    const spans = [0, 1, 2].map((i) => (mix("high", i) - mix("low", i)) * PIXELS);
    const size = Math.hypot(...spans);
    const upright = 0.9 * spans[2] + 0.44 * Math.hypot(spans[0], spans[1]); // what is seen of the height, tilted as at home
    if (!this.room) this.measure();
    const onTheWay = 1 + 0.7 * share * (1 - share); // panels swing out between two steps
    const scale = Math.min(this.room / (size * onTheWay || 1), (this.tall * 0.88) / (upright || 1)) * this.zoom;
    const centre = onScreen([1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, -middle[0], -middle[1], -middle[2], 1], PIXELS);
    this.scene.style.transform = `scale3d(${scale},${scale},${scale}) rotateX(${this.tilt}deg) rotateZ(${this.turn}deg) translate3d(${centre[12]}px,${centre[13]}px,${centre[14]}px)`;
    slider.value = String(this.at);
    if (Math.round(this.at) === this.step) return;
    this.step = Math.round(this.at);
    const step = Math.round(this.at);
    const said = this.data.words[step] ?? "";
    const text = step === 0 || this.isWhole ? said : `${step}. ${said}`;
    if (words.textContent !== text) words.textContent = text;
    slider.setAttribute("aria-valuetext", `step ${step} of ${states.length - 1}`);
  }

  go(at) {
    this.at = Math.min(Math.max(at, 0), this.data.states.length - 1);
    this.show();
  }

  /** Fold on to a step, a little at a time; where motion is not wanted, at once. */
  glide(to, then) {
    cancelAnimationFrame(this.frame);
    const end = Math.min(Math.max(to, 0), this.data.states.length - 1);
    if (matchMedia("(prefers-reduced-motion: reduce)").matches) { this.go(end); then?.(); return; }
    let last = performance.now();
    const tick = (now) => {
      const stride = (now - last) / 1000 / SECONDS_A_STEP;
      last = now;
      const left = end - this.at;
      if (Math.abs(left) <= stride) { this.go(end); then?.(); return; }
      this.go(this.at + Math.sign(left) * stride);
      this.frame = requestAnimationFrame(tick);
    };
    this.frame = requestAnimationFrame(tick);
  }

  stop() { cancelAnimationFrame(this.frame); }
}

let folding = null;
let isPlaying = false;

function pause() {
  isPlaying = false;
  folding?.stop();
  playButton.textContent = "Play";
}

/** Show another part; what was shown before is folded no further. Gives its folding, or null if there is none. */
export async function open(from) {
  const answer = await fetch(from, { headers: { accept: "application/json" } });
  if (!answer.ok) return null;
  const data = await answer.json();
  pause();
  table.dataset.from = from;
  const seen = folding && { turn: folding.turn, tilt: folding.tilt, zoom: folding.zoom };
  slider.max = String(data.states.length - 1);
  folding = new Folding(data, table);
  if (seen) { Object.assign(folding, seen); folding.show(); }
  table.dataset.ready = "yes";
  return folding;
}

function handles() {
  slider.addEventListener("input", () => { pause(); folding.go(Number(slider.value)); });
  document.getElementById("before").addEventListener("click", () => { pause(); folding.glide(Math.ceil(folding.at - 1e-9) - 1); });
  document.getElementById("next").addEventListener("click", () => { pause(); folding.glide(Math.floor(folding.at + 1e-9) + 1); });
  playButton.addEventListener("click", () => {
    if (isPlaying) { pause(); return; }
    isPlaying = true;
    playButton.textContent = "Pause";
    const end = folding.data.states.length - 1;
    if (folding.at >= end) folding.go(0);
    folding.glide(end, pause);
  });
  document.getElementById("home").addEventListener("click", () => { Object.assign(folding, HOME, { zoom: 1 }); folding.show(); });
  let held = null;
  table.addEventListener("pointerdown", (event) => { held = [event.clientX, event.clientY]; table.setPointerCapture(event.pointerId); });
  table.addEventListener("pointermove", (event) => {
    if (!held) return;
    folding.turn += (event.clientX - held[0]) * 0.5;
    folding.tilt = Math.min(Math.max(folding.tilt - (event.clientY - held[1]) * 0.5, 0), 180);
    held = [event.clientX, event.clientY];
    folding.show();
  });
  for (const name of ["pointerup", "pointercancel"]) table.addEventListener(name, () => { held = null; });
  table.addEventListener("keydown", (event) => {
    const moves = { ArrowLeft: ["turn", -10], ArrowRight: ["turn", 10], ArrowUp: ["tilt", 8], ArrowDown: ["tilt", -8], "+": ["zoom", 0.1], "=": ["zoom", 0.1], "-": ["zoom", -0.1] };
    const move = moves[event.key];
    if (!move) return;
    event.preventDefault();
    folding[move[0]] += move[1];
    folding.tilt = Math.min(Math.max(folding.tilt, 0), 180);
    folding.zoom = Math.min(Math.max(folding.zoom, 0.4), 3);
    folding.show();
  });
  new ResizeObserver(() => { folding.measure(); folding.show(); }).observe(table);
}

if (await open(table.dataset.from)) {
  handles();
  if (table.dataset.places) {
    const prints = await findPrints(table.dataset.places);
    if (prints) { folding.print(prints); table.dataset.printed = "yes"; }
  }
}
