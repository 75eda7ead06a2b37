// The flat patterns: made larger and smaller with letters that stay as large as they are, and a small scene that folds the score
// that is pointed at.
import { findPrints } from "./prints.js";
import { PIXELS, Scene } from "./scene.js";

const LETTERS = 4.1; // pixels of a millimetre of the picture, at which its letters are read well
const LEAST = 3.6;
const MOST_SIZE = 6;
const STEP = 1.5;
const SECONDS = 1.2;
const TURN = -24;
const TILT = { up: 48, down: 72 }; // low enough to see what folds away below
const FLAT = [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1];
const parts = new Map();
const isCalm = () => matchMedia("(prefers-reduced-motion: reduce)").matches;

/** One blank: its picture, its sizes, and the scene beside it. */
class Piece {
  constructor(article) {
    this.pane = article.querySelector(".pane");
    this.drawn = article.querySelector(".drawn");
    this.lies = article.querySelector(".lies");
    this.tried = article.querySelector(".tried");
    this.tiny = article.querySelector(".tiny");
    this.said = this.tried?.querySelector("p");
    this.size = 1;
    this.made = 1; // the size for which the picture was made
    this.asked = 0;
    article.querySelector(".sizes").hidden = false;
    if (this.tried) this.tried.hidden = false;
    for (const button of article.querySelectorAll("[data-size]")) {
      button.addEventListener("click", () => this.step(Number(button.dataset.size)));
    }
    this.pane.addEventListener("keydown", (event) => {
      const steps = { "+": 1, "=": 1, "-": -1, 0: 0 };
      if (event.ctrlKey || event.metaKey || !(event.key in steps)) return;
      event.preventDefault();
      this.step(steps[event.key]);
    });
    this.pane.addEventListener("wheel", (event) => {
      if (!event.ctrlKey) return;
      event.preventDefault();
      this.resize(this.size * Math.exp(-event.deltaY / 200), [event.clientX, event.clientY]);
    }, { passive: false });
    this.pinch();
    for (const name of ["pointerover", "focusin", "click"]) this.drawn.addEventListener(name, (event) => this.point(event));
    this.drawn.addEventListener("keydown", (event) => {
      if (event.key !== "Enter" && event.key !== " ") return;
      event.preventDefault();
      this.chosen = null;
      this.point(event);
    });
  }

  get picture() { return this.drawn.firstElementChild; }

  /** Two fingers: as far apart as they are now against when they came down. */
  pinch() {
    let begun = null;
    const apart = ([one, two]) => Math.hypot(one.clientX - two.clientX, one.clientY - two.clientY);
    const middle = ([one, two]) => [(one.clientX + two.clientX) / 2, (one.clientY + two.clientY) / 2];
    this.pane.addEventListener("touchstart", (event) => {
      if (event.touches.length === 2) begun = { apart: apart(event.touches), size: this.size };
    }, { passive: true });
    this.pane.addEventListener("touchmove", (event) => {
      if (!begun || event.touches.length !== 2) return;
      event.preventDefault();
      this.resize(begun.size * (apart(event.touches) / begun.apart), middle(event.touches));
    }, { passive: false });
    this.pane.addEventListener("touchend", () => { begun = null; });
  }

  step(way) { this.resize(way === 0 ? 1 : way > 0 ? this.size * STEP : this.size / STEP); }

  /** Another size; what is at a point of the screen (or in the middle) stays there. */
  resize(size, at = null) {
    const next = Math.min(Math.max(size, 1), MOST_SIZE);
    if (next === this.size) return;
    const frame = this.pane.getBoundingClientRect();
    const [x, y] = at ? [at[0] - frame.left, at[1] - frame.top] : [frame.width / 2, frame.height / 2];
    const before = this.picture.getBoundingClientRect();
    const share = [(frame.left + x - before.left) / before.width, (frame.top + y - before.top) / before.height];
    this.size = next;
    if (next === 1 && this.made === 1) this.picture.style.width = "";
    else this.picture.style.width = `${(before.width * next) / this.shownAt()}px`;
    this.shown = next;
    const after = this.picture.getBoundingClientRect();
    this.pane.scrollLeft += after.left + share[0] * after.width - frame.left - x;
    this.pane.scrollTop += after.top + share[1] * after.height - frame.top - y;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.draw(), 140);
  }

  shownAt() { return this.shown ?? 1; }

  /** Have the picture drawn for this size, so that its letters are neither small nor large. */
  async draw() {
    const mine = ++this.asked;
    const size = this.size;
    const wide = this.pane.clientWidth - 2;
    const room = (pixels) => String(Math.round((pixels * size) / LETTERS));
    const query = new URLSearchParams({ width: room(wide), height: room(Math.min(wide * 0.85, 540)) });
    const answer = await fetch(`${this.drawn.dataset.from}?${query}`).catch(() => null);
    if (!answer?.ok || mine !== this.asked) return;
    const html = await answer.text();
    if (mine !== this.asked) return;
    const focused = document.activeElement?.closest?.("[data-score]")?.dataset.score;
    const isMine = focused && this.drawn.contains(document.activeElement);
    const [left, top] = [this.pane.scrollLeft / this.pane.scrollWidth, this.pane.scrollTop / this.pane.scrollHeight];
    this.drawn.innerHTML = html;
    this.made = this.shown = size;
    this.picture.style.width = `${this.picture.viewBox.baseVal.width * LETTERS}px`;
    this.pane.scrollLeft = left * this.pane.scrollWidth;
    this.pane.scrollTop = top * this.pane.scrollHeight;
    this.mark();
    this.lies.textContent = this.drawn.querySelector(".scores").dataset.lies;
    if (isMine) this.drawn.querySelector(`[data-score="${focused}"]`)?.focus({ preventScroll: true });
    this.drawn.dataset.size = String(Math.round(size * 100) / 100);
  }

  /** Draw anew where letters would be small. */
  fit() {
    const { width } = this.picture.viewBox.baseVal;
    if (this.picture.getBoundingClientRect().width / width < LEAST) this.draw();
  }

  mark() {
    for (const each of this.drawn.querySelectorAll("[data-score]")) each.classList.toggle("chosen", each.dataset.score === this.chosen);
  }

  async point(event) {
    const score = event.target.closest?.("[data-score]");
    if (!score || (score.dataset.score === this.chosen && event.type !== "click")) return;
    this.chosen = score.dataset.score;
    this.mark();
    this.said.textContent = `${score.getAttribute("aria-label")}.`;
    const mine = this.chosen;
    const { fold, blank } = this.drawn.dataset;
    if (!parts.has(fold)) parts.set(fold, fetch(fold, { headers: { accept: "application/json" } }).then((answer) => answer.json()));
    const data = await parts.get(fold);
    if (this.chosen !== mine) return;
    const copy = data.copies.find((each) => each.blank === blank);
    this.show(data, copy, new Set(JSON.parse(score.dataset.hinges).map((each) => `${copy.name}/${each}`)));
  }

  /** Fold these scores, and no other, from flat to as far as they are folded in the end. */
  show(data, copy, hinges) {
    if (!this.scene) {
      this.scene = new Scene([copy]);
      this.tiny.hidden = false;
      this.tiny.replaceChildren(this.scene.element);
    }
    for (const each of this.scene.hinges) each.element.classList.toggle("moving", hinges.has(each.key));
    const last = data.states.at(-1).angles;
    const [wide, high] = copy.size;
    const tilt = [...hinges].some((key) => last[key] > 0) ? TILT.up : TILT.down;
    const room = Math.min(this.tiny.clientWidth / Math.hypot(wide, high), this.tiny.clientHeight / (high * 0.75 + wide * 0.4)) / PIXELS;
    this.scene.look([wide / 2, high / 2, 0], TURN, tilt, room * 1.1);
    const pose = (share) => this.scene.pose((key) => (hinges.has(key) ? last[key] * share : 0), () => FLAT);
    cancelAnimationFrame(this.frame);
    delete this.tiny.dataset.folded;
    const done = () => { pose(1); this.tiny.dataset.folded = this.chosen; };
    if (isCalm()) { done(); return; }
    const start = performance.now();
    const tick = (now) => {
      const share = (now - start) / 1000 / SECONDS;
      if (share >= 1) { done(); return; }
      pose(Math.max(0, (1 - Math.cos(Math.PI * share)) / 2));
      this.frame = requestAnimationFrame(tick);
    };
    pose(0);
    this.frame = requestAnimationFrame(tick);
  }
}

const seen = new IntersectionObserver((entries) => {
  for (const each of entries) {
    if (!each.isIntersecting) continue;
    seen.unobserve(each.target);
    pieces.get(each.target).fit();
  }
}, { rootMargin: "300px" });
const pieces = new Map();
for (const article of document.querySelectorAll(".flat-piece")) {
  pieces.set(article, new Piece(article));
  seen.observe(article);
}
const numbers = document.getElementById("numbers");
numbers.addEventListener("change", () => document.body.classList.toggle("no-measures", !numbers.checked));
for (const box of document.querySelectorAll("[data-prints]")) {
  box.addEventListener("change", () => document.body.classList.toggle("no-prints", !box.checked));
}
document.documentElement.dataset.ready = "flat";
const { places } = document.getElementById("flats").dataset; // what is printed on the blanks is known when the layouts are
if (places && (await findPrints(places))) for (const piece of pieces.values()) piece.draw();
