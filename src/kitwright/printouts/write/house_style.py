"""The house style itself, in Typst's own language: page, type sizes, tables, boxes. Sizes suit a page read at arm's length."""

from typing import Final

__all__ = ["PRELUDE"]

PRELUDE: Final = r"""
// Fractions are typed plainly (4 1/4, 5/16). One slash is a fraction; a number with two slashes is a date and stays.
#let small-fraction(figures) = {
  let (over, under) = figures.split("/")
  set text(number-type: "lining", number-width: "proportional")
  let small(body, up) = text(size: 0.74em, baseline: -up, body)
  small(over, 0.36em) + h(0.02em) + text(size: 0.92em, baseline: -0.06em, "/") + h(0.02em) + small(under, 0em)
}
#let fraction-of(found) = {
  let parts = found.split("/")
  if parts.len() != 2 { return found }
  let before = parts.at(0).split(" ")
  let top = before.last()
  let whole = before.slice(0, -1).join(" ")
  if whole == none { box(small-fraction(top + "/" + parts.at(1))) }
  else { box(whole + " " + small-fraction(top + "/" + parts.at(1))) }
}

// A block that stays on one page, unless it is higher than one.
#let kept(..looks, body) = layout(size => {
  let one = block(width: 100%, ..looks, body)
  block(width: 100%, ..looks, breakable: measure(one, width: size.width).height > size.height, body)
})

// A name and what follows it on one line; of a name that is too long as many signs as have room.
#let one-line(name, after) = layout(size => {
  let signs = name.clusters()
  let shown(count) = {
    text(weight: "semibold", if count < signs.len() { signs.slice(0, count).join() + "…" } else { name })
    after
  }
  if measure(shown(signs.len())).width <= size.width { return shown(signs.len()) }
  let (fits, fails) = (0, signs.len())
  while fails - fits > 1 {
    let middle = calc.quo(fits + fails, 2)
    if measure(shown(middle)).width <= size.width { fits = middle } else { fails = middle }
  }
  shown(fits)
})

#let kit-page(title: "", kit: "", subtitle: none, width: 0mm, height: 0mm, margin: 0mm, footer-room: 0mm,
              true-scale: false, lang: "en", body) = {
  set document(title: if kit == "" { title } else { kit + ": " + title }, date: none)
  set page(
    width: width, height: height,
    margin: (top: margin, left: margin, right: margin, bottom: margin + footer-room),
    footer-descent: 3mm,
    footer: context {
      set text(size: 9pt, fill: soft)
      line(length: 100%, stroke: 0.25mm + faint)
      v(-1.6mm)
      let pages = counter(page).final().first()
      grid(columns: (1fr, auto, 1fr), column-gutter: 4mm, align: (left, center, right),
        one-line(kit, if kit == "" { title } else { " · " + title }),
        if true-scale [Print at 100 %, not “fit to page”] else [],
        [Page #counter(page).display() of #pages])
    },
  )
  set text(font: "Source Sans Pro", size: 11pt, fill: ink, lang: lang, hyphenate: false)
  set par(leading: 0.62em, spacing: 0.95em)
  set strong(delta: 200)
  show strong: set text(weight: "semibold")
  show " × ": [\u{a0}×\u{a0}]  // a size stays on one line
  show regex("(\d+ )?\d+/\d+(/\d+)*"): it => context {
    // the words of drawings have lining figures and bring their own fractions
    if text.number-type == "lining" { it } else { fraction-of(it.text) }
  }
  show heading: it => block(above: if it.level == 1 { 7.5mm } else { 5.5mm }, below: 3mm, sticky: true, {
    set text(size: (16pt, 13pt, 11.5pt).at(it.level - 1, default: 11pt), weight: "semibold", hyphenate: false,
             fill: if it.level == 1 { lake } else { ink })
    it.body
  })
  block(below: 6mm, width: 100%, {
    set text(hyphenate: false)
    if kit != "" { text(size: 11pt, weight: "semibold", fill: lake, kit); linebreak() }
    text(size: 24pt, weight: "semibold", title)
    if subtitle != none { linebreak(); text(size: 12pt, fill: soft, subtitle) }
    v(-1.5mm)
    stack(dir: ltr, rect(width: 22mm, height: 1.1mm, fill: lake, stroke: none),
          align(horizon, box(height: 1.1mm, line(length: 100% - 22mm, stroke: 0.25mm + faint))))
  })
  body
}

#let kit-table(columns: (), align: (), head: (), ..cells) = block(above: 4mm, below: 5mm, width: 100%, {
  set text(size: 10.5pt, number-width: "tabular")
  set par(leading: 0.5em)
  set table.cell(breakable: false)
  table(
    columns: columns, align: (x, _) => align.at(x) + horizon,
    inset: (x: 2.2mm, y: 1.7mm),
    fill: (_, y) => if y > 0 and calc.even(y) { mist.lighten(45%) },
    stroke: (_, y) => (
      top: if y == 1 { 0.5mm + lake } else { none },
      bottom: 0.2mm + faint,
    ),
    table.header(..head.map(each => text(weight: "semibold", fill: ink, each))),
    ..cells,
  )
})

#let kit-steps(..items) = {
  let number = state("kit-step", 0)
  for (i, each) in items.pos().enumerate() {
    block(above: 3mm, below: 3mm, breakable: false, grid(
      columns: (8mm, 1fr), column-gutter: 3mm,
      align(center, box(width: 7mm, height: 7mm, radius: 3.5mm, stroke: 0.35mm + lake,
        align(center + horizon, text(size: 11pt, weight: "semibold", fill: lake, str(i + 1))))),
      pad(top: 2.2mm, each),
    ))
  }
}

#let kit-checklist(..items) = for each in items.pos() {
  block(above: 2.6mm, below: 2.6mm, breakable: false, grid(
    columns: (5mm, 1fr), column-gutter: 2.5mm,
    move(dy: -0.7mm, box(width: 4mm, height: 4mm, radius: 0.6mm, stroke: 0.3mm + ink)), each,
  ))
}

#let warning-sign = box(width: 6.4mm, height: 5.6mm, {
  place(top + left, polygon(fill: amber, stroke: (paint: amber, thickness: 0.7mm, join: "round"),
    (3.2mm, 0.4mm), (6mm, 5.2mm), (0.4mm, 5.2mm)))
  place(top + center, dy: 1.55mm, rect(width: 0.75mm, height: 1.9mm, radius: 0.3mm, fill: white, stroke: none))
  place(top + center, dy: 3.95mm, circle(radius: 0.42mm, fill: white, stroke: none))
})

#let kit-box(word: [], sign: false, ..lines) = {
  let tone = if sign { amber } else { lake }
  kept(above: 5mm, below: 5mm, radius: 1.2mm, inset: (x: 4mm, y: 3.2mm),
    fill: if sign { sand.lighten(55%) } else { mist.lighten(40%) },
    stroke: if sign { 0.5mm + amber } else { none },
    grid(columns: if sign { (auto, 1fr) } else { (1fr,) }, column-gutter: 3.5mm,
      ..if sign { (pad(top: 0.4mm, warning-sign),) } else { () },
      {
        text(weight: "semibold", fill: tone, size: 12pt, word)
        for each in lines.pos() { block(above: 2mm, below: 0mm, each) }
      }))
}

#let kit-picture(alt: "", caption: none, gap: 4mm, body) = block(above: gap, below: gap, breakable: false, {
  set align(center)
  set figure(gap: 2.5mm)
  show figure.caption: it => text(size: 9.5pt, fill: soft, it.body)
  figure(body, alt: alt, caption: caption, supplement: none, numbering: none)
})
"""
