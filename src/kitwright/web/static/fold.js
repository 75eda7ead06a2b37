// The folded view: fold by fold, turned by hand, by keys and by a slider.
import { findPrints, lay, onBlank, printInside } from "./prints.js";
import { PIXELS, Scene } from "./scene.js";
import { between } from "./turns.js";

const HOME = { turn: -28, tilt: 64 };
const SECONDS_A_STEP = 1.4;

const table = document.getElementById("table");
const slider = document.getElementById("steps");
const words = document.getElementById("step-words");
const playButton = document.getElementById("play");
const contents = document.getElementById("with-contents");
const seeThrough = document.getElementById("see-through");
const names = document.querySelectorAll("button[data-body]"); // the list beside the picture

class Folding {
  constructor(data, place) {
    this.data = data;
    this.place = place;
    this.at = data.start;
    this.turn = HOME.turn;
    this.tilt = HOME.tilt;
    this.zoom = 1;
    this.scene = new Scene(data.copies, data.bodies);
    this.room = 0;
    this.pointed = document.createElement("p");
    this.pointed.className = "pointed";
    this.pointed.hidden = true;
    this.pointed.ariaHidden = "true"; // the list beside the picture tells the same
    place.replaceChildren(this.scene.element, this.pointed);
    this.show();
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
      for (const front of this.scene.fronts[i]) {
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
    const angle = (key) => (share === 1 ? two.angles[key] : one.angles[key] + (two.angles[key] - one.angles[key]) * share);
    this.scene.pose(angle, (copy) => between(one.roots[copy], two.roots[copy], share));
    if (this.scene.bodies.length) {
      const [from, to] = [one.bodies.length ? one.bodies : two.bodies, two.bodies.length ? two.bodies : one.bodies];
      if (from.length) this.scene.fill((i) => between(from[i], to[i], share));
    }
    const mix = (key, i) => one[key][i] + (two[key][i] - one[key][i]) * share;
    const middle = [0, 1, 2].map((i) => (mix("low", i) + mix("high", i)) / 2);
    const spans = [0, 1, 2].map((i) => (mix("high", i) - mix("low", i)) * PIXELS);
    const size = Math.hypot(...spans);
    const upright = 0.9 * spans[2] + 0.44 * Math.hypot(spans[0], spans[1]); // what is seen of the height, tilted as at home
    if (!this.room) this.measure();
    const onTheWay = 1 + 0.7 * share * (1 - share); // panels swing out between two steps
    const scale = Math.min(this.room / (size * onTheWay || 1), (this.tall * 0.88) / (upright || 1)) * this.zoom;
    this.scene.look(middle, this.turn, this.tilt, scale);
    slider.value = String(this.at);
    if (Math.round(this.at) === this.step) return;
    this.step = Math.round(this.at);
    const step = this.step;
    this.leaveOut();
    const said = this.data.words[step] ?? "";
    const text = step > 0 && this.data.counts ? `${step}. ${said}` : said;
    if (words.textContent !== text) words.textContent = text;
    slider.setAttribute("aria-valuetext", `step ${step} of ${states.length - 1}`);
  }

  /** Take away what is not seen in this step, and the contents if they are not wanted. */
  leaveOut() {
    const { hidden, bodies } = this.data.states[this.step];
    this.scene.hide(hidden, !bodies.length || contents?.checked === false);
  }

  /** Mark the bodies of a name, and say it in the picture; null marks none. */
  point(name) {
    for (const body of this.scene.bodies) body.classList.toggle("marked", body.dataset.body === name);
    for (const each of names) each.classList.toggle("marked", each.dataset.body === name);
    const told = [...names].find((each) => each.dataset.body === name);
    this.pointed.hidden = !told;
    this.pointed.textContent = told?.textContent.trim() ?? "";
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

/** Names of bodies: those under the pointer or a finger, those of the list that is pointed at or has the focus; pressed they stay. */
function pointing() {
  let kept = null;
  const on = (name) => folding.point(name ?? kept);
  for (const kind of ["pointerover", "pointerdown"]) {
    table.addEventListener(kind, (event) => { on(event.target.closest(".body")?.dataset.body); });
  }
  table.addEventListener("pointerleave", () => on(null));
  for (const each of names) {
    for (const kind of ["pointerenter", "focus"]) each.addEventListener(kind, () => on(each.dataset.body));
    for (const kind of ["pointerleave", "blur"]) each.addEventListener(kind, () => on(null));
    each.addEventListener("click", () => {
      kept = kept === each.dataset.body ? null : each.dataset.body;
      for (const other of names) other.ariaPressed = String(other.dataset.body === kept);
      on(each.dataset.body);
    });
  }
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
  contents?.addEventListener("change", () => folding.leaveOut());
  seeThrough?.addEventListener("change", () => table.classList.toggle("through", seeThrough.checked));
  pointing();
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
