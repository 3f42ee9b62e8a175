"""Faults of rings and links: what cannot be made, and what wants care."""

from math import pi, sin

from bickern.measure.finding import Finding, note, stop, warn
from bickern.measure.units.say import say_both, say_percent
from bickern.measure.units.words import Style
from bickern.parts.eye import falls_short
from bickern.parts.ring.lengths import Loop
from bickern.parts.ring.rules import BY_MIDDLE, TOO_STIFF
from bickern.parts.ring.spec import Closing, Coil, RingResult, RingRules, RingSpec
from bickern.parts.ring.strain import sprung


def size_faults(spec: RingSpec, loop: Loop | None) -> tuple[Finding, ...]:
    """What stops the reckoning: no size, nothing left inside, an oval the wrong way round, no wire, no rings."""
    if spec.wire.thick <= 0 or spec.wire.width <= 0:
        return (stop("no-wire", f"{spec.name} has no thickness of wire.", "Say the bar, such as `ring: 3/16 rd`."),)
    if spec.make < 1:
        return (stop("no-rings", f"{spec.make} of {spec.name} is nothing to make.", "Write `make: 1` or more."),)
    if loop is None:
        says = f"Nothing says how big {spec.name} is."
        return (stop("no-ring-size", says, "Write `inside across:`, `mean across:` or `outside across:`."),)
    return (*_inside_faults(spec, loop), *_oval_faults(spec, loop), *_link_faults(spec, loop))


def _inside_faults(spec: RingSpec, loop: Loop) -> tuple[Finding, ...]:
    if loop.across <= 0:
        says = f"{spec.name} leaves no hole: its size less the bar is {both(loop.across)}."
        return (stop("inside-too-small", says, "Make it bigger, or say which diameter is meant."),)
    if loop.across < loop.thick * (1 - 1e-9):
        says = f"{spec.name} is {both(loop.across)} inside, less than its own bar of {both(loop.thick)}."
        return (
            stop(
                "inside-too-small",
                says,
                "It cannot be bent: take thinner bar or a bigger ring, or punch and drift a washer.",
            ),
        )
    return ()


def _oval_faults(spec: RingSpec, loop: Loop) -> tuple[Finding, ...]:
    if loop.across > 0.0 and loop.long < loop.across * (1 - 1e-9):
        says = f"{spec.name} is {both(loop.long)} long inside and {both(loop.across)} across: longer across than along."
        return (stop("oval-wrong-way", says, "Change the two sizes round."),)
    return ()


def _link_faults(spec: RingSpec, loop: Loop) -> tuple[Finding, ...]:
    """In a chain the next link must enter, and a link holds both its neighbours."""
    if spec.chain is None or loop.across <= 0:
        return ()
    wire = max(spec.wire.width, spec.wire.thick)
    if wire >= loop.across:
        says = f"The next link's bar of {both(wire)} does not enter a link {both(loop.across)} inside."
        return (stop("link-will-not-enter", says, "Make the links wider, or the bar thinner."),)
    if loop.long < 2 * wire:
        says = f"A link {both(loop.long)} long inside does not hold the bars of two neighbours, {both(2 * wire)}."
        return (stop("link-too-short", says, "Make the links longer, or the bar thinner."),)
    return ()


def rule_findings(ring: RingResult, loop: Loop) -> tuple[Finding, ...]:
    """What the shop's rule for the length makes of a ring: smaller than asked, or none at all.

    The straights of a link stay as they are, so it comes out as much shorter as it comes out narrower.
    """
    short = falls_short(ring.bare, ring.taken)
    if short < NOTICED:
        return ()
    name, inside = ring.spec.name, loop.across - short
    cure = f"Write `rings: {{length: {BY_MIDDLE}}}` to make it as asked."
    if inside < loop.thick * (1 - 1e-9):
        says = f"By the shop's rule, {ring.rule}, {name} closes up: less is left inside than its own bar."
        return (stop("rule-closes-ring", says, cure),)
    long = f" and {both(loop.long - short)} long inside" if ring.spec.inside_long is not None else ""
    links = ring.chain.links if ring.chain is not None else 0
    hung = f"; {links} links of it hang {both(links * short)} short" if links else ""
    says = (
        f"By the shop's rule, {ring.rule}, {name} comes out {both(inside)} inside, {both(short)} too small{long}{hung}."
    )
    return (warn("ring-comes-small", says, cure),)


NOTICED = 1e-5
"""Across a ring [m], below which it counts as made to size."""


def bending_findings(spec: RingSpec, rules: RingRules, loop: Loop, opening: float) -> tuple[Finding, ...]:
    """Cold or hot: a weld is closed hot anyway, so only rings that are butted or left open are asked about."""
    if spec.closing is Closing.WELDED:
        return ()
    return (*_stretch(spec, rules, loop), *_spring(spec, rules, loop), *_opening(spec, rules, opening))


def _stretch(spec: RingSpec, rules: RingRules, loop: Loop) -> tuple[Finding, ...]:
    skin = say_percent(loop.strain)
    if loop.strain > TOO_STIFF.value:
        says = f"Closing {spec.name} cold stretches its skin by {skin}: mild steel may crack."
        return (warn("too-stiff-cold", says, "Bend it hot, or take thinner bar."),)
    if loop.strain > rules.cold_limit:
        says = f"Closing {spec.name} cold stretches its skin by {skin}."
        tries = "Close it hot, or wind it cold of soft wire and anneal it before opening it again."
        return (note("close-hot", says, tries),)
    return ()


def _spring(spec: RingSpec, rules: RingRules, loop: Loop) -> tuple[Finding, ...]:
    """A thin wide ring springs: bent cold to its size, its ends part; told where they part by more than the bar."""
    if spec.wound or spec.closing is Closing.OPEN:
        return ()
    after = sprung(spec.wire, loop.radius, rules.yield_strength, rules.stiffness)
    if after == float("inf"):
        says = f"{spec.name} bent cold to its size springs straight again: the bar is too springy for so wide a ring."
        return (warn("too-springy", says, "Bend it well past its size, or close it hot."),)
    gap = 2 * after * sin(pi * (1 - loop.radius / after))
    if gap > loop.thick:
        says = f"{spec.name} bent cold to its size springs open by about {both(gap)}."
        return (note("springs-open", says, "Bend it past round and let it come back, or close it hot."),)
    return ()


def _opening(spec: RingSpec, rules: RingRules, opening: float) -> tuple[Finding, ...]:
    if spec.closing is Closing.OPEN or opening <= rules.cold_limit:
        return ()
    says = f"Opening {spec.name} sideways by its own bar strains it by {say_percent(opening)}, and closing it again."
    return (note("open-hot", says, "Open and close it hot, and once only."),)


def coil_findings(spec: RingSpec, rules: RingRules, loop: Loop, coil: Coil) -> tuple[Finding, ...]:
    """What a coil may do otherwise than asked."""
    found = []
    if abs(coil.inside_after_cut - loop.across) > rules.tape / 2:
        says = (
            f"Wound on {both(spec.mandrel)}, {spec.name} closes to {both(coil.inside_after_cut)} inside; "
            f"{both(loop.across)} is asked for."
        )
        found.append(warn("mandrel-size", says, "Write `wound: yes` and let the mandrel be found."))
    if loop.long > loop.across:
        says = f"{spec.name} is wound on an oval mandrel; its spring back is reckoned for the round ends only."
        found.append(note("oval-coil", says, "Wind one turn, cut it, measure it."))
    return tuple(found)


def both(length: float) -> str:
    """A length [m] in inches and millimetres."""
    return say_both(length, Style())
