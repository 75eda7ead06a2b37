// Blanks on their sheets: dragged, moved by keys and turned; the folded part follows at once, the check a moment later.
import { open } from "./fold.js";
import { findPrints, lay, onBlank, printInside } from "./prints.js";

const SVG = "http://www.w3.org/2000/svg";
const NM = 1e6; // nanometres in a millimetre
const LETTERS = 13; // their size on the screen, in px
const LETTER_WIDTH = 0.6; // of a letter, against its size, at most
const frame = document.getElementById("placing");
const room = document.getElementById("laid");
const chooser = document.getElementById("sheet");
const verdict = document.getElementById("verdict-words");
const keep = document.getElementById("keep-it");
const by = (id) => document.getElementById(id);
const typing = [...frame.querySelectorAll("[data-edge]")];

let plan = null;
let sheet = null;
let pieces = [];
let chosen = 0;
let folding = null;
let shownPart = -1;
let asked = 0;
let timer = 0;
let nodes = [];
let ring = null; // round the chosen blank, above all others

function draw(name, attributes, parent) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  parent.append(made);
  return made;
}

const sizeOf = (piece) => {
  const [wide, high] = plan.blanks[piece.blank].size;
  return piece.turn % 2 ? [high, wide] : [wide, high];
};

/** A point of a blank on the sheet, in mm, y up. */
function onSheet(piece, [u, v]) {
  const [wide, high] = plan.blanks[piece.blank].size;
  const [x, y] = [piece.x / NM, piece.y / NM];
  return [[x + u, y + v], [x + high - v, y + u], [x + wide - u, y + high - v], [x + v, y + wide - u]][piece.turn];
}

const down = ([x, y]) => `${x.toFixed(4)} ${(plan.stock.size[1] - y).toFixed(4)}`;

/** A length as the maker reads it: inches in marks of 1/64 where it lies on one. */
function words(mm) {
  const parts = mm / plan.ruler.one;
  const marks = Math.round(parts * 64);
  if (plan.ruler.unit !== "in" || marks % 64 === 0 || Math.abs((marks / 64) * plan.ruler.one - mm) > 0.001) return String(Number(parts.toFixed(4)));
  let [over, under] = [Math.abs(marks) % 64, 64];
  while (over % 2 === 0) { over /= 2; under /= 2; }
  return `${marks < 0 ? "-" : ""}${Math.abs(marks) < 64 ? "" : `${Math.floor(Math.abs(marks) / 64)} `}${over}/${under}`;
}

/** How far a piece is from an edge of its sheet, mm. */
const far = (piece, edge) => ({ left: piece.x / NM, below: piece.y / NM, top: plan.stock.size[1] - sizeOf(piece)[1] - piece.y / NM })[edge];

const isWrong = (field) => field.hasAttribute("aria-invalid");

/** Show where the chosen blank lies; while a field is typed into, it and those with a wrong text stay as they are. */
function tellPlace(typed = null) {
  for (const field of typing) {
    if (field === typed || (typed && isWrong(field))) continue;
    field.value = words(far(pieces[chosen], field.dataset.edge));
    wrong(field, "");
  }
}

function wrong(field, said) {
  by(field.getAttribute("aria-describedby")).textContent = said;
  if (said) field.setAttribute("aria-invalid", "true"); else field.removeAttribute("aria-invalid");
}

function drawSheet() {
  const [wide, high] = plan.stock.size;
  const [left, low, right, top] = plan.stock.margins;
  const svg = document.createElementNS(SVG, "svg");
  svg.setAttribute("viewBox", `-2 -2 ${wide + 4} ${high + 4}`);
  svg.setAttribute("role", "group");
  svg.setAttribute("aria-label", `Sheet ${sheet.letter}`);
  draw("rect", { class: "sheet-edge", x: 0, y: 0, width: wide, height: high }, svg);
  const picture = plan.papers[frame.dataset.paper];
  if (picture) lay(printInside(svg, `M0 0H${wide}V${high}H0Z`), picture.address, picture.matrix, 0, -high);
  if (left || low || right || top) draw("rect", { class: "usable", x: left, y: top, width: wide - left - right, height: high - low - top }, svg);
  nodes = pieces.map((piece, i) => {
    const node = draw("g", { class: "piece", tabindex: 0, role: "button", "data-piece": i }, svg);
    for (const kind of ["halo", "edge", "fold"]) draw("path", { class: kind }, node);
    draw("text", { class: "name", "aria-hidden": "true" }, node);
    node.addEventListener("focus", () => choose(i));
    node.addEventListener("pointerdown", (event) => hold(event, i, svg));
    node.addEventListener("keydown", (event) => press(event, i));
    return node;
  });
  ring = draw("path", { class: "ring" }, svg);
  room.replaceChildren(svg);
  pieces.forEach((_, i) => drawPiece(i));
}

function drawPiece(i) {
  const piece = pieces[i];
  const blank = plan.blanks[piece.blank];
  const edge = `M${blank.outline.map((each) => down(onSheet(piece, each))).join("L")}Z`;
  const [halo, line, fold, name] = nodes[i].children;
  halo.setAttribute("d", edge);
  line.setAttribute("d", edge);
  fold.setAttribute("d", blank.scores.map(([a, b]) => `M${down(onSheet(piece, a))}L${down(onSheet(piece, b))}`).join(""));
  write(name, piece, blank);
  if (i === chosen) ring.setAttribute("d", edge);
  nodes[i].setAttribute("aria-pressed", String(i === chosen));
  nodes[i].setAttribute("aria-label", `${piece.blank}: ${words(piece.x / NM)} from the left, ${words(piece.y / NM)} from below, turned ${piece.turn * 90}°`);
}

/** The name of a blank in its middle, as large on the screen as other small text; none where it would not fit. */
function write(name, piece, blank) {
  const corners = blank.outline.map((each) => onSheet(piece, each));
  const [low, high] = [Math.min, Math.max].map((end) => [0, 1].map((side) => end(...corners.map((each) => each[side]))));
  const size = LETTERS / (name.getScreenCTM()?.a || 1);
  const fits = piece.blank.length * size * LETTER_WIDTH < high[0] - low[0] && size < high[1] - low[1];
  const [x, y] = down([(low[0] + high[0]) / 2, (low[1] + high[1]) / 2]).split(" ");
  name.textContent = fits ? piece.blank : "";
  for (const [key, value] of Object.entries({ x, y, "font-size": size })) name.setAttribute(key, value);
}

/** The folded part with this sheet's blanks: the chosen one first, then the others of its kind. */
function follow() {
  const piece = pieces[chosen];
  if (!folding || shownPart !== plan.blanks[piece.blank].part) return;
  const places = { ...plan.places };
  const order = [piece, ...pieces.filter((each) => each !== piece)];
  for (const each of order) places[each.blank] = [];
  for (const each of order) places[each.blank].push({ at: [each.x / NM, each.y / NM], turn: each.turn });
  folding.print({ papers: plan.papers, places });
}

async function choose(i) {
  if (chosen !== i) { const old = chosen; chosen = i; if (nodes[old]) drawPiece(old); }
  drawPiece(i);
  tellPlace();
  const { part } = plan.blanks[pieces[i].blank];
  if (shownPart !== part) {
    shownPart = part;
    const opened = await open(`${frame.dataset.fold}${part}`);
    if (shownPart === part) folding = opened;
  }
  follow();
}

function changed() {
  drawPiece(chosen);
  tellPlace();
  follow();
  later(null);
}

/** Ask what the places mean; with a `field`, first where a blank lies by what is typed there. */
async function judge(field = null, which = chosen) {
  const mine = ++asked;
  clearTimeout(timer);
  const typed = field ? { which, edge: field.dataset.edge, typed: field.value } : {};
  const body = new URLSearchParams({ paper: frame.dataset.paper, pieces: JSON.stringify(pieces), ...typed });
  try {
    const answer = await fetch(frame.dataset.try, { method: "POST", body, headers: { accept: "application/json" } });
    const told = await answer.json();
    if (mine !== asked) return;
    if (field) wrong(field, told.wrong ?? "");
    if (told.wrong) { verdict.textContent = ""; verdict.className = ""; return; }
    if (told.at) { Object.assign(pieces[which], told.at); drawPiece(which); if (which === chosen) tellPlace(field); follow(); }
    by("pieces").value = JSON.stringify(pieces);
    verdict.textContent = told.words.join(" ");
    verdict.className = told.well ? "slip" : "slip bad";
    keep.disabled = !told.well || typing.some(isWrong) || JSON.stringify(pieces) === JSON.stringify(sheet.pieces);
  } catch {
    verdict.textContent = "The workbench does not answer. Is it still running?";
  }
}

function later(field) {
  keep.disabled = true;
  clearTimeout(timer);
  timer = setTimeout(judge, 60, field, chosen);
}

function move(i, right, up) {
  const piece = pieces[i];
  const step = plan.ruler.step * NM;
  const [wide, high] = sizeOf(piece);
  const within = (at, most) => Math.min(Math.max(at, 0), Math.max(0, Math.floor((most * NM) / step) * step));
  piece.x = Math.round(within(piece.x + right, plan.stock.size[0] - wide));
  piece.y = Math.round(within(piece.y + up, plan.stock.size[1] - high));
  changed();
}

function turn(i) {
  const piece = pieces[i];
  piece.turn = (piece.turn + 1) % 4;
  move(i, 0, 0);
}

function press(event, i) {
  const step = plan.ruler.step * NM * (event.shiftKey ? 10 : 1);
  const moves = { ArrowLeft: [-step, 0], ArrowRight: [step, 0], ArrowUp: [0, step], ArrowDown: [0, -step] };
  if (moves[event.key]) { event.preventDefault(); move(i, ...moves[event.key]); }
  if (event.key.toLowerCase() === "r" && !event.ctrlKey && !event.metaKey) { event.preventDefault(); turn(i); }
  if (event.key === "Enter" || event.key === " ") { event.preventDefault(); choose(i); }
}

/** Drag by whole marks of the ruler from where the blank lay. */
function hold(event, i, svg) {
  event.preventDefault();
  nodes[i].focus({ preventScroll: true });
  nodes[i].setPointerCapture(event.pointerId);
  const start = { x: pieces[i].x, y: pieces[i].y, clientX: event.clientX, clientY: event.clientY };
  const scale = 1 / svg.getScreenCTM().a;
  const step = plan.ruler.step * NM;
  const marks = (pixels) => Math.round((pixels * scale * NM) / step) * step;
  const drag = (now) => {
    pieces[i].x = start.x;
    pieces[i].y = start.y;
    move(i, marks(now.clientX - start.clientX), marks(start.clientY - now.clientY));
  };
  const drop = () => {
    nodes[i].removeEventListener("pointermove", drag);
    for (const name of ["pointerup", "pointercancel"]) nodes[i].removeEventListener(name, drop);
  };
  nodes[i].addEventListener("pointermove", drag);
  for (const name of ["pointerup", "pointercancel"]) nodes[i].addEventListener(name, drop);
}

function show(number) {
  sheet = plan.sheets[number];
  pieces = sheet.pieces.map((each) => ({ ...each }));
  chosen = 0;
  by("hand").value = by("back-hand").value = sheet.hand === null ? "" : String(sheet.hand);
  by("back").hidden = sheet.hand === null;
  drawSheet();
  choose(0);
  keep.disabled = true;
  judge();
}

plan = await findPrints(frame.dataset.places);
if (plan?.sheets?.length) {
  by("said").textContent = plan.said.join(" ");
  plan.sheets.forEach((each, i) => {
    const many = each.times === 1 ? "one sheet" : `${each.times} sheets alike`;
    chooser.append(new Option(`Layout ${each.letter}, ${many}${each.hand === null ? "" : ", laid by hand"}`, String(i)));
  });
  chooser.addEventListener("change", () => show(Number(chooser.value)));
  for (const field of typing) field.addEventListener("input", () => later(field));
  by("turn").addEventListener("click", () => turn(chosen));
  by("reset").addEventListener("click", () => show(Number(chooser.value)));
  show(0);
  frame.dataset.ready = "yes";
}
