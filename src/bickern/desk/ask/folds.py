"""Questions about folded sheet: pans, bends, and what an edge takes."""

import math
from dataclasses import replace

from bickern.desk.answer import Answer, Inputs, Row, gathered, unread, with_findings
from bickern.desk.ask.answered import answered
from bickern.desk.ask.bends import sharp
from bickern.desk.ask.question import Asked, Question, Word
from bickern.desk.ask.rules import by_rule, said
from bickern.desk.ask.sheet import SHEET, SIZES, piece, reckoned, sheet_of
from bickern.measure.figure import Figure
from bickern.measure.finding import Finding, stop, warn
from bickern.measure.units.say import say_both
from bickern.measure.units.words import Read

ALMOST_BACK = math.radians(179)
"""From here on the two outside faces meet nowhere that a tape could be held to."""
_NO_LINE = -1.0
EDGES = ("hem", "double hem", "wired", "grooved")


def pan(asked: Asked) -> Answer:
    """The flat of a pan with four walls: its bottom front to back and left to right, and its height."""
    from bickern.parts.sheet.spec import Pan

    radius = asked.length("radius") if asked.said("radius") else Read(0.0)
    read = gathered(*(asked.length(name) for name in ("long", "wide", "high")), radius, sheet_of(asked))
    if not read.ok:
        return unread("Pan", read)
    long, wide, high, inside = (read.number(i) for i in range(4))
    spec = piece(asked, read.number(4), Pan(long, wide, high, inside_radius=inside))
    answer = reckoned(asked, read, "Pan", spec)
    return _not_sharp(answer, spec.thick, asked) if asked.said("radius") and not inside else answer


def _not_sharp(answer: Answer, thick: float, asked: Asked) -> Answer:
    """The same answer, with a word on the radius of nothing that was told."""
    kept = say_both(asked.shop.sheet.smallest_radius * thick, asked.shop.style, fit=True)
    says = f"A fold of no radius cracks: {kept} is kept inside."
    told = warn("fold-radius-kept", says, "Say the radius of the edge that it is folded over.")
    others = (f for f in answer.findings if f.name != "fold-radius-taken")
    return replace(answer, findings=(*others, told))


def bend(asked: Asked) -> Answer:
    """Length that a cold bend in sheet takes, and what to take off the outside sizes, by every rule."""
    line = _share(asked.number("line")) if asked.said("line") else Read(_NO_LINE)
    read = gathered(asked.sheet("sheet"), asked.angle("angle"), asked.length("radius"), line)
    if not read.ok:
        return unread("Bend", read)
    if read.number(1) < math.radians(1):
        return unread("Bend", read, _small_angle(read.number(1)))
    from bickern.parts.sheet.allowances import FoldRule
    from bickern.parts.sheet.bends import fold_length
    from bickern.parts.sheet.rules import FOLD_RULES

    (t, turn, r), rule = (read.number(i) for i in range(3)), asked.shop.sheet.fold
    rules = [one for one in FOLD_RULES if one.about == "fold"]
    lengths = by_rule(rules, lambda name: fold_length(r, t, turn, FoldRule(name)))
    told = answered("Bend", read, _bend(asked, read), asked.shop.style)
    rows = (*told.rows, *said(rules, lengths, rule, asked.shop))
    answer = replace(told, rows=rows, figures=(*told.figures, *lengths))
    return with_findings(answer, sharp(r, rule is FoldRule.DIN_6935))


def _bend(asked: Asked, read: Inputs) -> list[Figure]:
    from bickern.parts.sheet.bends import fold_deduction, fold_length, line_length, over_deduction, setback

    (t, turn, r, share), rule = (read.number(i) for i in range(4)), asked.shop.sheet.fold
    outside = [Figure("setback", setback(r, t, turn), "m")] if turn < ALMOST_BACK else []
    found = [Figure("length in the bend", fold_length(r, t, turn, rule), "m")]
    if outside:
        found.append(Figure("take off the sum of both outside sizes", fold_deduction(r, t, turn, rule), "m"))
    if math.pi / 2 < turn <= math.pi:
        over = over_deduction(r, t, turn, rule)
        found.append(Figure(f"{'take off' if over >= 0.0 else 'add'}, sizes over the bend", abs(over), "m"))
    if share >= 0.0:
        by_line = line_length(r, t, turn, share)
        found.append(Figure("length by the line", by_line, "m"))
        found += [Figure("take off by the line", 2 * one.value - by_line, "m") for one in outside]
    return [*found, *outside]


def _share(read: Read[float]) -> Read[float]:
    if read.value is None or read.value <= 1.0:
        return read
    says = f"a line at {read.value:g} thicknesses from the inside lies outside the sheet"
    return Read(None, (*read.findings, stop("line-outside", says, "say a share of the thickness, as 0.44")))


def _small_angle(turn: float) -> Finding:
    says = f"the angle is {math.degrees(turn):.3g} degrees"
    return stop("angle-next-to-nothing", says, "the order is: sheet, angle, inside radius")


def edge(asked: Asked) -> Answer:
    """What a hem (by its width), a wire (by its diameter) or a grooved seam (by its width) adds to a pattern."""
    read = gathered(asked.length("size"), sheet_of(asked))
    if not read.ok:
        return unread("Edge", read)
    if read.number(0) <= 0.0:
        return unread("Edge", read, stop("edge-without-size", "an edge of no size takes nothing", "say its size"))
    size, thick = read.number(0), read.number(1)
    title = f"{asked.text('kind').capitalize()}, {say_both(size, asked.shop.style, fit=True)}"
    told = answered(title, read, _edge(asked, size, thick), asked.shop.style)
    return replace(told, rows=(*told.rows, *_other_edges(asked, size, thick)))


def _other_edges(asked: Asked, size: float, thick: float) -> tuple[Row, ...]:
    """What other published rules add for a wired edge, or how they share a grooved seam."""
    from bickern.desk.beside import Beside, also_each
    from bickern.parts.sheet.also import also_shared, also_wired
    from bickern.parts.sheet.spec import Edge, EdgeKind, Seam, SeamKind

    kind, rules = asked.text("kind"), asked.shop.sheet
    if kind == EdgeKind.WIRED:
        others = also_wired(Edge("free", EdgeKind.WIRED, size), thick, rules)
    else:
        others = also_shared(Seam(SeamKind.GROOVED, size), thick, rules) if kind == SeamKind.GROOVED else ()
    return also_each(Beside((), more=others), asked.shop.style)


def _edge(asked: Asked, size: float, thick: float) -> tuple[Figure, ...]:
    from bickern.parts.sheet.rims import allowance
    from bickern.parts.sheet.spec import Edge, EdgeKind, Seam, SeamKind
    from bickern.parts.sheet.trim import shares

    kind, rules = asked.text("kind"), asked.shop.sheet
    if kind != SeamKind.GROOVED:
        return (Figure("added", allowance(Edge("edge", EdgeKind(kind), size), rules, thick), "m"),)
    both = shares(Seam(SeamKind.GROOVED, size), thick, rules)
    names = (("added", both.start + both.end), ("on the one edge", both.start), ("on the other edge", both.end))
    return tuple(Figure(name, value, "m") for name, value in names)


QUESTIONS = (
    Question(
        "pan",
        "The flat of a folded pan.",
        (
            Word("long", "length, front to back"),
            Word("wide", "width, left to right"),
            Word("high", "height of its walls"),
            SHEET,
            SIZES,
            Word("radius", "inside radius of its folds; the smallest that the sheet takes", ""),
        ),
        pan,
        "8 5 1 --sheet '18 US ga'",
    ),
    Question(
        "bend",
        "Length that a cold bend in sheet takes.",
        (
            Word("sheet", "thickness or gauge: 1/16, '16 ga', '16 SWG'"),
            Word("angle", "how far it turns, in degrees"),
            Word("radius", "inside radius"),
            Word("line", "also by a line of your own: its share of the thickness from the inside, as 0.44", ""),
        ),
        bend,
        "'16 US ga' 90 1/16",
    ),
    Question(
        "edge",
        "What a hem, a wired edge or a grooved seam adds: its seam allowance.",
        (
            Word("kind", ", ".join(EDGES), one_of=EDGES),
            Word("size", "width of the hem or the seam; diameter of the wire"),
            SHEET,
        ),
        edge,
        "wired 1/8",
    ),
)
