"""Questions about bars that are bent: curves, scrolls, twists."""

from dataclasses import replace

from bickern.desk.answer import Answer, gathered, unread, with_findings
from bickern.desk.ask.amounts import BAR
from bickern.desk.ask.answered import SHARE, answered
from bickern.desk.ask.question import Asked, Question, Word, section_at
from bickern.desk.ask.rules import MARK
from bickern.iron.steel import density_of
from bickern.measure.figure import Figure
from bickern.measure.finding import Finding, stop, warn


def curve(asked: Asked) -> Answer:
    """Length of bar in a bend: `1/2 sq`, inside radius `2`, `90` degrees."""
    from bickern.parts.bar.allowances import BendRule
    from bickern.parts.bar.curve import To, inside_radius, reckon_curve

    read = gathered(asked.bent_bar("bar"), asked.length("radius"), asked.angle("angle"))
    if not read.ok:
        return unread("Curve", read)
    bar = section_at(read, 0)
    inside = inside_radius(bar, read.number(1), To(asked.text("to")))
    done = reckon_curve(bar, inside, read.number(2), asked.shop.bar, density_of("mild"))
    if done.value is None:
        return unread("Curve", read, *done.findings)
    bent = done.value
    figures = (
        Figure("along the middle", bent.middle, "m"),
        Figure("by DIN 6935", bent.by_din, "m"),
        Figure("inside line", bent.inside, "m"),
        Figure("outside line", bent.outside, "m"),
        Figure("skin stretches", bent.strain, SHARE),
    )
    told = answered("Curve", read, figures, asked.shop.style)
    chosen = figures[asked.shop.bar.bend is BendRule.DIN_6935].name
    rows = tuple((f"{name}{MARK}" if name == chosen else name, value) for name, value in told.rows)
    return with_findings(replace(told, rows=rows), (*done.findings, *sharp(inside, chosen == DIN)))


DIN = "by DIN 6935"


def sharp(inside: float, by_din: bool) -> tuple[Finding, ...]:
    """What the standard makes of a bend without an inside radius [m], where the shop goes by it."""
    if inside > 0.0 or not by_din:
        return ()
    says = "With no inside radius DIN 6935 counts nothing for the bend: its figures are for metal bent to a radius."
    return (warn("sharp-bend", says, "Say the radius that the bend really keeps; in soft sheet about a thickness."),)


def scroll(asked: Asked) -> Answer:
    """Length of a scroll along its middle, and how far its coils lie apart: radius `1/2` to `3` in `2` turns."""
    from bickern.geometry.curve import opening_evenly, pitch, scroll_length

    read = gathered(asked.length("first"), asked.length("last"), asked.turns("turns"))
    if not read.ok:
        return unread("Scroll", read)
    spiral = opening_evenly(read.number(0), read.number(1), read.number(2))
    if spiral.r0 + spiral.r1 <= 0:
        return unread("Scroll", read, stop("scroll-of-nothing", "Both radii are nothing.", "Write one above 0."))
    figures = (Figure("length", scroll_length(spiral), "m"), Figure("pitch", pitch(spiral), "m"))
    return answered("Scroll", read, figures, asked.shop.style)


def twist(asked: Asked) -> Answer:
    """What a twist does to the corners of a bar: `1/2 sq`, `1 1/2` turns over `6`."""
    from bickern.iron.section import radius_of_circle_round
    from bickern.parts.bar.reckon import reckon_bar
    from bickern.parts.bar.tracks import BarSpec, Metal, Place, Twist
    from bickern.parts.bar.twist import corner_line, lead

    read = gathered(asked.bar("bar"), asked.turns("turns"), asked.size("length"))
    if not read.ok:
        return unread("Twist", read)
    bar, turns, length = section_at(read, 0), read.number(1), read.number(2)
    spec = BarSpec("bar", bar, "mild", (Metal(length),), twists=(Twist(turns, length, Place()),))
    done = reckon_bar(spec, asked.shop.bar, density_of("mild"))
    if done.value is None or not done.value.twists:
        return unread("Twist", read, *done.findings)
    across = 2 * radius_of_circle_round(bar)
    figures = (
        Figure("corner line", corner_line(turns, length, across), "m"),
        Figure("skin stretches", done.value.twists[0].corner_strain, SHARE),
        Figure("one turn in", lead(turns, length), "m"),
    )
    return with_findings(answered("Twist", read, figures, asked.shop.style), done.findings)


QUESTIONS = (
    Question(
        "curve",
        "Length of bar in a bend.",
        (
            BAR,
            Word("radius", "inside radius, unless `--to` says otherwise"),
            Word("angle", "how far it turns, in degrees"),
            Word("to", "the line that the radius is told to", "inside", ("inside", "middle", "outside")),
        ),
        curve,
        "'1/2 sq' 2 90",
    ),
    Question(
        "scroll",
        "Length of a scroll that opens evenly.",
        (
            Word("first", "radius of its middle line where it starts"),
            Word("last", "radius of its middle line where it ends"),
            Word("turns", "how many turns: '2 1/2'"),
        ),
        scroll,
        "1/4 2 1.5",
    ),
    Question(
        "twist",
        "How far a twist stretches the corners of a bar.",
        (BAR, Word("turns", "how many turns"), Word("length", "length that is twisted")),
        twist,
        "'1/2 sq' 1.5 3",
    ),
)
