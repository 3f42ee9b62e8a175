"""Questions about holes: slit and drifted, for screws and rivets, for rings."""

from math import inf

from bickern.desk.answer import Answer, Row, gathered, unread, with_findings
from bickern.desk.ask.amounts import BAR
from bickern.desk.ask.answered import answered, said_figure
from bickern.desk.ask.question import Asked, Question, Word, section_at
from bickern.desk.ask.rules import by_rule, said
from bickern.iron.steel import density_of
from bickern.measure.figure import Figure
from bickern.measure.finding import Finding, stop, warn
from bickern.measure.units.say import say_down_both
from bickern.measure.units.words import Read


def slit(asked: Asked) -> Answer:
    """How long to slit for a hole that is drifted to size, by every published rule."""
    from bickern.parts.bar.hole import slot_faults
    from bickern.parts.bar.rules import SLIT_RULES, slit_length

    long: Read[float] = asked.size("long") if asked.said("long") else Read(0.0)
    read = gathered(asked.size("across"), long)
    if not read.ok:
        return unread("Slit", read)
    size, opening = read.number(0), read.number(1) or None
    faults = slot_faults(size, opening)
    if faults:
        return unread("Slit", read, *faults)
    lengths = by_rule(SLIT_RULES, lambda name: slit_length(name, size, opening))
    rows = said(SLIT_RULES, lengths, asked.shop.bar.slit, asked.shop)
    ends = (("reckoned for", "a slot with square ends"),) if opening else ()
    return Answer("Slit", (*rows, *ends), read.findings, lengths)


def hole(asked: Asked) -> Answer:
    """The hole for a metric screw, `M8`, or for a rivet, `3/16`."""
    text = asked.text("size").strip()
    return _screw(asked, text) if text[:1] in ("M", "m") else _rivet(asked)


def _screw(asked: Asked, text: str) -> Answer:
    from bickern.book.job.joint import screw_size
    from bickern.parts.joint.holes import ISO_273, Clearance, hole_for_screw

    read = gathered(screw_size(text, asked.system))
    if not read.ok:
        return unread("Hole", read)
    found = {series: hole_for_screw(read.number(0), series) for series in Clearance}
    figures = tuple(Figure(str(series), size, "m") for series, size in found.items() if size is not None)
    if not figures:
        return unread("Hole", read, _no_row(text))
    return answered(f"Hole for {text}", read, figures, asked.shop.style, (("by", str(ISO_273)),))


def _no_row(text: str) -> Finding:
    from bickern.parts.joint.holes import SCREW_HOLES_IN_MM

    known = ", ".join(f"M{size:g}" for size in SCREW_HOLES_IN_MM)
    return stop("screw-hole-not-known", f"No clearance hole is known here for {text}.", f"Known are {known}.")


def _rivet(asked: Asked) -> Answer:
    from bickern.parts.joint.holes import hole_for_rivet, rivet_play

    read = gathered(asked.size("size"))
    if not read.ok:
        return unread("Hole", read)
    size = read.number(0)
    most, seam = hole_for_rivet(size), size + asked.shop.sheet.rivet_clearance
    figures = (Figure("for a rivet, at most", most, "m"), Figure("for a rivet in a seam of sheet", seam, "m"))
    rows = (
        (figures[0].name, f"{say_down_both(most, asked.shop.style)}: {rivet_play(size).source}"),
        (figures[1].name, said_figure(figures[1], asked.shop.style)),
    )
    return Answer("Hole", rows, (*read.findings, *loose_seam(most, seam)), figures)


def loose_seam(most: float, seam: float) -> tuple[Finding, ...]:
    """A word where the shop's clearance in a seam of sheet is more than a rivet fills, both holes in [m]."""
    if seam <= most + NEAR:
        return ()
    says = "The shop's clearance for rivets in sheet makes a larger hole than a rivet of that size fills."
    return (warn("loose-rivet", says, "In the shop file, look at `sheet: {rivet clearance: ...}`."),)


NEAR = 1e-9
"""Metres within which two holes are one."""


def through(asked: Asked) -> Answer:
    """The hole that a ring goes round in: `1/4 rd`, `1` inside, through `3/16`."""
    from bickern.parts.joint.holes import RingInHole, faults_in_hole, hole_for_ring, hole_to_swing
    from bickern.parts.ring.reckon import reckon_ring
    from bickern.parts.ring.spec import Closing, RingSpec

    hole: Read[float] = asked.size("hole") if asked.said("hole") else Read(inf)
    read = gathered(asked.bent_bar("bar"), asked.size("inside"), asked.size("plate"), hole)
    if not read.ok:
        return unread("Through", read)
    spec = RingSpec("ring", section_at(read, 0), "mild", read.number(1), closing=Closing.WELDED)
    done = reckon_ring(spec, asked.shop.ring, density_of("mild"))
    if done.value is None:
        return unread("Through", read, *done.findings)
    radius, plate = done.value.inside_across / 2, read.number(2)
    needed = hole_for_ring(spec.wire, radius, plate)
    faults = faults_in_hole(RingInHole(spec.wire.thick, needed, 2 * radius, plate, inf), asked.shop.style)
    if needed == inf:
        return unread("Through", read, *faults)
    figures = (Figure("hole needed", needed, "m"), Figure("hole to swing in", hole_to_swing(needed), "m"))
    there = Figure("margin", read.number(3) - needed, "m")
    more = (there,) if asked.said("hole") else ()
    words = _how_it_fits(there.value, needed, asked)
    return with_findings(answered("Through", read, figures, asked.shop.style, words, hidden=more), faults)


def _how_it_fits(margin: float, needed: float, asked: Asked) -> tuple[Row, ...]:
    """The word for the hole that there is, with its margin, and what the sizes about the needed one do."""
    from bickern.parts.fit.drifts import told, tried
    from bickern.parts.fit.words import moving, spare

    style = asked.shop.style
    sizes = ("sizes", told(tried(needed, style, asked.shop.drifts), "drift", style))
    here = (("in that hole", f"{moving(margin)}: {spare(margin, style)}"),) if asked.said("hole") else ()
    return (*here, sizes)


QUESTIONS = (
    Question(
        "slit",
        "How long to slit for a drifted hole, by every published rule.",
        (Word("across", "of the finished hole; of a slot its width"), Word("long", "length of a slot", "")),
        slit,
        "1/2",
    ),
    Question(
        "hole",
        "The hole for a screw or a rivet.",
        (Word("size", "M8 for a screw, or the size of a rivet"),),
        hole,
        "M8",
    ),
    Question(
        "through",
        "The hole that a ring goes round in.",
        (
            BAR,
            Word("inside", "inside across of the ring"),
            Word("plate", "thickness of the metal it goes through"),
            Word("hole", "the hole there is", ""),
        ),
        through,
        "'1/2 rd' '3 1/2' 5/8",
    ),
)
