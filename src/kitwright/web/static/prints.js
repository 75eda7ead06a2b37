// What part of a paper's picture lies on a blank: matrices of six numbers as SVG writes them, in millimetres, y up.
const SVG = "http://www.w3.org/2000/svg";
const sleep = (time) => new Promise((resolve) => { setTimeout(resolve, time); });
let clips = 0;

/** A matrix onto the sheet as one onto a blank of a size, which lies at a place and is turned so many quarters to the left. */
export function onBlank([a, b, c, d, e, f], { at: [x, y], turn }, [width, height]) {
  if (turn === 0) return [a, b, c, d, e - x, f - y];
  if (turn === 1) return [b, -a, d, -c, f - y, x + height - e];
  if (turn === 2) return [-a, -b, -c, -d, x + width - e, y + height - f];
  return [-b, a, -d, c, y + width - f, e - x];
}

/** Pictures and places, asked for until the layouts are found; null where there are none. */
export async function findPrints(from, isWanted = () => true) {
  for (let times = 0; isWanted(); times += 1) {
    const answer = await fetch(from, { headers: { accept: "application/json" } });
    const told = await answer.json();
    if (told.done) return told.mistake ? null : told;
    await sleep(Math.min(60 + times * 40, 300));
  }
  return null;
}

/** An element that shows a picture inside an outline only. Set its matrix with `lay`. */
export function printInside(svg, outline, before = null) {
  const name = `print-${clips += 1}`;
  const clip = document.createElementNS(SVG, "clipPath");
  clip.id = name;
  const shape = document.createElementNS(SVG, "path");
  shape.setAttribute("d", outline);
  shape.setAttribute("clip-rule", "evenodd");
  clip.append(shape);
  const inside = document.createElementNS(SVG, "g");
  inside.setAttribute("clip-path", `url(#${name})`);
  inside.setAttribute("class", "print");
  const image = document.createElementNS(SVG, "image");
  for (const key of ["width", "height"]) image.setAttribute(key, "1");
  image.setAttribute("preserveAspectRatio", "none");
  inside.append(image);
  svg.insertBefore(clip, before);
  svg.insertBefore(inside, before);
  return image;
}

/** Show a picture by its matrix (y up), in a drawing whose y goes down from `top` and whose x begins at `left`. */
export function lay(image, address, [a, b, c, d, e, f], left, top) {
  if (image.getAttribute("href") !== address) image.setAttribute("href", address);
  image.setAttribute("transform", `matrix(${a} ${-b} ${c} ${-d} ${e - left} ${-f - top})`);
}
