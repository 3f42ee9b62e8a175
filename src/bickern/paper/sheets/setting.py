"""Pieces of a printed page: lines of words, tables, boxes and drawings, each with the files it needs.

Everything is written in the page setter's code, and every word of a person's goes in as a string: it can never be
taken for markup.
"""

import hashlib
import re
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from bickern.measure.units.words import MILLIMETRE
from bickern.paper.marks import Drawing
from bickern.paper.pens.page import MARGIN, Paper, literal, picture_file, preamble
from bickern.paper.views.scale import trimmed

BODY = 10.5
"""Type of the body [pt]."""
SMALL = 10.0
"""The smallest type of what is worked from [pt]: it must be read at arm's length."""
FINE = 9.0
"""Type of what is read once, before work [pt]: cautions, faults and cures, other rules."""
CUT_THIS = 17.0
"""Type of what to cut [pt]."""
FOOT = 0.006
"""Kept at the foot for the page's number [m]."""


@dataclass(frozen=True, slots=True)
class Part:
    """A piece of a page: `code` for the page setter, and the drawings (name, bytes) that it places."""

    code: str
    files: tuple[tuple[str, bytes], ...] = ()


NOTHING = Part("none")
"""A piece with nothing in it."""


def _files(parts: Sequence[Part]) -> tuple[tuple[str, bytes], ...]:
    return tuple(file for part in parts for file in part.files)


def _list(parts: Sequence[Part]) -> str:
    return "".join(f"{part.code}, " for part in parts)


def words(says: str, size: float = BODY, bold: bool = False, slanted: bool = False) -> Part:
    """Words as they stand, in type of `size` [pt]."""
    look = f"size: {size:g}pt" + (', weight: "bold"' if bold else "") + (', style: "italic"' if slanted else "")
    return Part(f"text({look}, {literal(_unbroken(says))})")


def _unbroken(says: str) -> str:
    """The words with no line's end inside a size: `10` on one line and `11/16 in` on the next would be cut as two."""
    return _IN_A_SIZE.sub("\u00a0", says)


_IN_A_SIZE = re.compile(r"(?<=\d) (?=\d+/\d|(?:in|mm|ga|oz)\b)")


def row(*parts: Part) -> Part:
    """Pieces one after another on a line."""
    return Part("(" + " + ".join(f"[#{{{part.code}}}]" for part in parts) + ")", _files(parts))


def stack(*parts: Part, gap: float = 4.0) -> Part:
    """Pieces under one another, `gap` [pt] apart; they may run over to the next page."""
    kept = [part for part in parts if part is not NOTHING]
    if not kept:
        return NOTHING
    blocks = [f"block(above: {0 if i == 0 else gap:g}pt, below: 0pt, {part.code})" for i, part in enumerate(kept)]
    return Part("(" + " + ".join(blocks) + ")", _files(kept))


def beside(parts: Sequence[Part], widths: Sequence[str], gap: float = 8.0) -> Part:
    """Pieces side by side in columns of the widths given (`auto`, `1fr`, `40mm`)."""
    columns = ", ".join(widths)
    code = f"grid(columns: ({columns},), column-gutter: {gap:g}pt, row-gutter: {gap / 2:g}pt, {_list(parts)})"
    return Part(code, _files(parts))


def ticked(part: Part, times: int = 1) -> Part:
    """A piece with a box to tick before it, or several, in a narrow cell of a table."""
    boxes = "box(square(size: 6.5pt, stroke: 0.8pt)) + h(4pt) + " * times
    return Part(f"({boxes}{part.code})", part.files)


def centred(part: Part) -> Part:
    """A piece in the middle of its column."""
    return Part(f"align(center + bottom, {part.code})", part.files)


def to_the_right(part: Part) -> Part:
    """A piece at the right of its column, as figures on a bill are set."""
    return Part(f"align(right, {part.code})", part.files)


def keep(part: Part) -> Part:
    """A piece that is never cut by the end of a page."""
    return Part(f"block(breakable: false, {part.code})", part.files)


def table(
    widths: Sequence[str], header: Sequence[str], rows: Sequence[Sequence[Part]], boxed: Sequence[int] = ()
) -> Part:
    """Rows under a header that comes again on each page; columns numbered in `boxed` stand in a heavy frame."""
    if not rows:
        return NOTHING
    cells = [cell for line in rows for cell in line]
    heads = [words(name, SMALL, bold=True) for name in header]
    top = f"table.header({_list(heads)}), " if any(header) else ""
    framed = ", ".join(str(i) for i in boxed)
    stroke = f"(x, y) => frame-of(x, y, ({framed}{',' if boxed else ''}), {len(rows)}, {1 if top else 0})"
    look = f"columns: ({', '.join(widths)},), stroke: {stroke}, inset: (x: 3.5pt, y: 2.6pt), align: horizon + left"
    return Part(f"table({look}, {top}{_list(cells)})", _files(cells))


def heading(says: str, beside_it: str = "") -> Part:
    """A heading on a heavy line, with a lighter remark at its other end; it stays with what follows."""
    return Part(f"head({literal(says)}, {literal(beside_it)})")


def caption(says: str) -> Part:
    """A line of words above a drawing."""
    return words(says, SMALL, bold=True)


def picture(drawing: Drawing) -> Part:
    """A drawing at its own size, without the room that its marks kept but did not use."""
    if not drawing.marks:
        return NOTHING
    drawing = trimmed(drawing)
    data = picture_file(drawing)
    name = f"d{hashlib.sha256(data).hexdigest()[:16]}.svg"
    wide, high = (f"{size / MILLIMETRE:.4f}mm" for size in (drawing.bounds.width, drawing.bounds.height))
    return Part(f"image({literal(name)}, width: {wide}, height: {high})", ((name, data),))


class Sign(StrEnum):
    """What stands before a line: nothing before a fact, a box to tick before what is to be done or seen to, a dash."""

    NONE = "none"
    BOX = "box"
    DASH = "dash"


def bullets(lines: Sequence[Part], columns: int = 1, sign: Sign = Sign.NONE) -> Part:
    """Lines under one another, in one column, or in several of even height read one after another."""
    if not lines:
        return NOTHING
    items = [Part(f"{_ITEMS[sign]}({line.code})", line.files) for line in lines]
    if columns == 1:
        return stack(*items, gap=1.5)
    return Part(f"even({columns}, 1.5pt, {_list(items)})", _files(items))


_ITEMS = {Sign.NONE: "fact", Sign.BOX: "task", Sign.DASH: "dashed"}


def fill(
    first: Sequence[Part],
    between: Sequence[Sequence[Part]],
    last: Sequence[Part],
    paper: Paper,
    cut: Sequence[Part] = (),
) -> Part:
    """Pieces each kept whole: `first` in their order, then `last`, one of which may go before another that is too high.

    What is `between` stands after `first`, or before that where it fills the rest of a page that the next is too high
    for. It comes in several ways, the best first; `cut` is `first` in smaller pieces. The best that takes the fewest
    pages is set. A piece higher than a page runs over to the next.
    """
    wide, high = paper.width - 2 * MARGIN, paper.height - 2 * MARGIN - FOOT
    sizes = f"{wide / MILLIMETRE:.3f}mm, {high / MILLIMETRE:.3f}mm, {MARGIN / MILLIMETRE:.3f}mm"
    firsts = [_there(one) for one in (first, cut) if one] or [[]]
    ways = list(dict.fromkeys(tuple(_there(way)) for way in between)) or [()]
    groups: list[list[list[Part]]] = [firsts, [_there(last)], [list(way) for way in ways]]
    code = f"pages({sizes}, {', '.join(_lists(group) for group in groups)})"
    return Part(code, tuple(dict.fromkeys(_files([part for group in groups for way in group for part in way]))))


def _lists(groups: Sequence[Sequence[Part]]) -> str:
    """Lists of pieces as one list."""
    return "(" + "".join(f"({_list(group)}), " for group in groups) + ")"


def _there(parts: Sequence[Part]) -> list[Part]:
    return [part for part in parts if part is not NOTHING]


def boxed(part: Part, heavy: bool = False) -> Part:
    """A piece in a frame."""
    return Part(f"rect(width: 100%, inset: 5pt, stroke: {1.6 if heavy else 0.8}pt + black, {part.code})", part.files)


def ruled(part: Part) -> Part:
    """A piece under a thin line over the whole width."""
    look = "width: 100%, stroke: (top: 0.8pt + black), inset: (top: 3pt, bottom: 3pt)"
    return Part(f"block({look}, {part.code})", part.files)


def lines_to_fill(names: Sequence[str], columns: int = 1) -> Part:
    """Names with a line behind each to write on."""
    cells = [Part(f"fill-in({literal(name)})") for name in names]
    return beside(cells, ["1fr"] * columns, gap=12)


STYLE = """
#let frame-of(x, y, framed, rows, top) = {
  let heavy = 1.6pt + black
  let light = 0.5pt + black
  let bottom = if y + 1 == rows + top { 0.8pt + black } else { light }
  if x in framed and y >= top { (left: heavy, right: heavy, top: heavy, bottom: heavy) } else {
    (top: if y == 0 { 0.8pt + black } else if y == top { 0.8pt + black } else { light }, bottom: bottom)
  }
}
#let head(says, aside) = block(sticky: true, width: 100%, stack(spacing: 2.5pt, v(3pt),
  line(length: 100%, stroke: 2.2pt + black),
  grid(columns: (auto, 1fr), column-gutter: 8pt, align: (left + bottom, right + bottom),
    text(size: 13pt, weight: "bold", says), text(size: 10pt, aside)),
  v(1pt)))
#let fact(body) = block(par(hanging-indent: 8pt, body))
#let task(body) = grid(columns: (11pt, 1fr), { v(1.6pt); square(size: 6.5pt, stroke: 0.8pt) }, body)
#let dashed(body) = grid(columns: (7pt, 1fr), text(size: 10pt)[–], body)
#let plan(first, between, last, room, high, highest) = {
  let (pages, stood) = (0, ())
  while first.len() + between.len() + last.len() > 0 {
    let ready = if first.len() > 0 { first.slice(0, 1) + between } else { between + last }
    let lead = calc.min(first.len(), 1)
    let next = ready.position(each => each.at(1) <= room)
    if highest and next != none and next >= lead and next < lead + between.len() {
      let tallest = calc.max(..between.map(each => each.at(1)).filter(tall => tall <= room))
      next = lead + between.position(each => each.at(1) == tallest)
    }
    if next == none { (room, pages) = (high, pages + 1) }
    let taken = if next == none { 0 } else { next }
    stood.push(ready.at(taken))
    room -= ready.at(taken).at(1)
    while room < 0pt { (room, pages) = (room + high, pages + 1) }
    if taken < lead { let _ = first.remove(0) } else if taken < lead + between.len() {
      let _ = between.remove(taken - lead)
    } else { let _ = last.remove(taken - between.len()) }
  }
  (pages, stood)
}
#let pages(wide, high, top, ..groups) = block(above: 0pt, below: 0pt, [#metadata(none) <fill-from>]) + context {
  let tall(each) = (each, measure(width: wide, block(width: wide, each)).height)
  let (firsts, lasts, ways) = groups.pos().map(group => group.map(way => way.map(tall)))
  let room = high - (query(<fill-from>).last().location().position().y - top)
  let plans = ()
  for first in firsts { for highest in (false, true) { for way in ways {
    plans.push(plan(first, way, lasts.at(0), room, high, highest))
  } } }
  let fewest = calc.min(..plans.map(each => each.at(0)))
  for (each, tall) in plans.find(each => each.at(0) == fewest).at(1) {
    block(breakable: tall > high, above: 0pt, below: 0pt, width: 100%, each)
  }
}
#let even(n, gap, ..lines) = layout(size => {
  let wide = (size.width - 10pt * (n - 1)) / n
  let highs = lines.pos().map(each => measure(block(width: wide, each)).height + gap)
  let goal = highs.sum() / n
  let parts = ((),)
  let high = 0pt
  for (i, each) in lines.pos().enumerate() {
    if parts.len() < n and high > 0pt and high + highs.at(i) / 2 > goal {
      parts.push(())
      high = 0pt
    }
    parts.last().push(each)
    high += highs.at(i)
  }
  grid(columns: (1fr,) * n, column-gutter: 10pt,
    ..parts.map(part => part.map(each => block(above: gap, below: 0pt, each)).join()))
})
#let fill-in(says) = grid(columns: (auto, 1fr), column-gutter: 4pt, align: bottom,
  text(size: 10.5pt, says), { v(15pt); line(length: 100%, stroke: 0.6pt) })
"""
"""The few shapes that all pages share."""


def document(body: Part, paper: Paper, title: str, foot: str) -> tuple[str, dict[str, bytes]]:
    """The whole source and its files: margins, type, the page's number and title at the foot."""
    margin, low = MARGIN / MILLIMETRE, (MARGIN + FOOT) / MILLIMETRE
    code = (
        f"{preamble(paper)}"
        f"#set page(margin: (x: {margin}mm, top: {margin}mm, bottom: {low}mm), footer-descent: 10%, footer: context {{"
        f"set text(size: 9pt); grid(columns: (1fr, auto), {literal(f'{title}  {foot}'.strip())}, "
        '"page " + str(counter(page).get().first()) + " of " + str(counter(page).final().first())) })\n'
        f"#set document(title: {literal(title)})\n"
        f"#set text(size: {BODY}pt, top-edge: 0.78em, bottom-edge: -0.22em)\n"
        f"#set par(leading: 0.12em, spacing: 0.3em)\n{STYLE}\n#{{{body.code}}}\n"
    )
    return code, dict(body.files)
