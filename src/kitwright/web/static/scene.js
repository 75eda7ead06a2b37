// A scene of folded card. The tree of elements is the tree of hinges: a panel's element lies in that of the panel it hangs on, and each
// bears the turn of its own score, so the browser multiplies the poses. Only leaves are painted.
import { hingeTurn, onScreen } from "./turns.js";

export const PIXELS = 2; // of a millimetre, before the whole is scaled
const SVG = "http://www.w3.org/2000/svg";

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

/** A block of things: six plain faces, its low corner (left, front, below) at the origin of its element. */
function block(body, parent) {
  const made = document.createElement("div");
  made.className = `body hue-${body.hue}`;
  made.dataset.body = body.name;
  const [w, d, h] = body.size.map((each) => each * PIXELS);
  const faces = [ // above and below, before and behind, right and left
    [w, d, `translate3d(0,${-d}px,${h}px)`], [w, d, "rotateX(180deg)"],
    [w, h, `translate3d(0,0,${h}px) rotateX(-90deg)`], [w, h, `translate3d(0,${-d}px,0) rotateX(90deg)`],
    [h, d, `translate3d(${w}px,${-d}px,${h}px) rotateY(90deg)`], [h, d, `translate3d(0,${-d}px,0) rotateY(-90deg)`],
  ];
  for (const [wide, high, motion] of faces) {
    const face = document.createElement("div");
    face.className = "facet";
    Object.assign(face.style, { width: `${number(wide)}px`, height: `${number(high)}px`, transform: motion });
    made.append(face);
  }
  parent.append(made);
  return made;
}

export class Scene {
  constructor(copies, bodies = []) {
    this.element = document.createElement("div");
    this.element.className = "scene";
    this.roots = new Map();
    this.hinges = [];
    this.bodies = bodies.map((each) => block(each, this.element));
    this.fronts = copies.map((copy) => this.build(copy));
  }

  /** Put every body where it lies. */
  fill(poseOf) { this.bodies.forEach((body, i) => place(body, onScreen(poseOf(i), PIXELS))); }

  /** Leave out copies by their names, and all bodies. */
  hide(names, areBodiesHidden) {
    for (const [copy, root] of this.roots) root.classList.toggle("away", names.includes(copy));
    for (const body of this.bodies) body.classList.toggle("away", areBodiesHidden);
  }

  build(copy) {
    const made = new Map();
    const fronts = [];
    const waiting = [...copy.panels];
    while (waiting.length) {
      const panel = waiting.shift();
      const parent = panel.parent === undefined ? this.element : made.get(panel.parent);
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

  /** Fold every score by its angle, put every root where it lies: both as functions of their names. */
  pose(angleOf, poseOf) {
    for (const hinge of this.hinges) place(hinge.element, onScreen(hingeTurn(hinge.start, hinge.end, angleOf(hinge.key)), PIXELS));
    for (const [copy, root] of this.roots) place(root, onScreen(poseOf(copy), PIXELS));
  }

  /** Look at a point, turned and tilted so many degrees, so many times enlarged. */
  look(middle, turn, tilt, scale) {
    const [x, y, z] = [-middle[0] * PIXELS, middle[1] * PIXELS, -middle[2] * PIXELS];
    this.element.style.transform = `scale3d(${scale},${scale},${scale}) rotateX(${tilt}deg) rotateZ(${turn}deg) translate3d(${x}px,${y}px,${z}px)`;
  }
}
