"""Faults in what was asked, found before anything is laid out."""

from collections.abc import Iterator
from dataclasses import fields
from math import radians, tan

from bickern.measure.finding import Finding, note, stop, warn
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.cutouts import outline_wrong
from bickern.parts.sheet.neutral import ball_radius, on_middle
from bickern.parts.sheet.rules import HAND_ROLLED
from bickern.parts.sheet.say import told
from bickern.parts.sheet.spec import (
    Bowl,
    Cone,
    Cylinder,
    EdgeKind,
    FlatOutline,
    Pan,
    Pyramid,
    SeamKind,
    SheetSpec,
    Transition,
)
from bickern.parts.sheet.trim import LAPS

SKINS = (Cone, Cylinder, Pyramid, Transition)
"""Surfaces with a seam, a bottom and a top."""
_STEEPEST = radians(80)
LEAST, MOST = 1e-4, 20.0
"""Sizes [m] outside of which something was mistyped; nobody works sheet so small or so large."""
MANY = 500
"""Holes, lugs or parts beyond which something was mistyped."""
_SMALLEST_RIVET = 5e-4


def asked_wrong(spec: SheetSpec, rules: SheetRules) -> tuple[Finding, ...]:
    """Everything that can be seen from the sizes alone."""
    found = [*_sizes(spec), *_unlikely(spec)]
    if not any(f.stops for f in found):
        found += [*_shape(spec, rules), *_seam(spec, rules), *_edges(spec, rules), *_counts(spec)]
    return tuple(f.at(spec.where) for f in found)


def _sizes(spec: SheetSpec) -> Iterator[Finding]:
    if spec.thick <= 0.0:
        yield stop("no-thickness", "The sheet has no thickness.", "Give a gauge or a thickness.")
    surface = spec.surface
    for field in fields(surface):
        value = getattr(surface, field.name)
        if isinstance(value, float | int) and not _may_be_nothing(field.name) and value <= 0.0:
            yield _nothing(field.name, float(value))
        if isinstance(value, float | int) and _may_be_nothing(field.name) and value < 0.0 and field.name != "cut":
            yield stop("negative-size", f"{_word(field.name)} is less than nothing: {told(value)}.", "Give 0 or more.")
    if isinstance(surface, Transition):
        yield from _rims(surface)


def _unlikely(spec: SheetSpec) -> Iterator[Finding]:
    """Sizes that no shop could mean: a slip of the unit or of the point."""
    rims = (spec.surface.low, spec.surface.high) if isinstance(spec.surface, Transition) else (spec.surface,)
    for item in rims:
        for field in fields(item):
            value = getattr(item, field.name)
            told_size = isinstance(value, float) and value != 0.0 and field.name not in ("cut", "tilt")
            if told_size and not LEAST <= abs(value) <= MOST:
                says = f"{_word(field.name)} is {told(value)}: no sheet piece is so {_how(value)}."
                yield stop("size-not-likely", says, "Look at the unit and the point.")
    allowed = [*((e.size, e.where) for e in spec.edges), *((h.up, h.where) for h in spec.holes)]
    allowed += [(size, n.where) for n in spec.lugs for size in (n.width, n.eye, n.length)]
    allowed += [(s, spec.seam.where) for s in (spec.seam.width, spec.seam.rivet, spec.seam.pitch)]
    for size, where in allowed:
        if not 0.0 <= size <= MOST:
            says = f"A size of {told(size)} cannot be meant."
            yield stop("size-not-likely", says, "Look at the unit and the point.").at(where)


def _how(value: float) -> str:
    return "small" if abs(value) < LEAST else "large"


def _may_be_nothing(name: str) -> bool:
    return name in ("top", "top_long", "cut", "inside_radius", "corner_tabs")


def _nothing(name: str, value: float) -> Finding:
    if name in ("height", "depth", "high"):
        what = "height of the walls" if name == "high" else name
        return stop("no-height", f"The {what} is {told(value)}: there is nothing to lay out.", "Give one above 0.")
    return stop("size-not-positive", f"{_word(name)} is {told(value)}.", "Give a size above 0.")


def _word(name: str) -> str:
    return f"The {name.replace('_', ' ')}"


def _rims(t: Transition) -> Iterator[Finding]:
    for rim, name in ((t.low, "lower"), (t.high, "upper")):
        if rim.across <= 0.0 or rim.long <= 0.0:
            yield stop("size-not-positive", f"The {name} opening has no size.", "Give both its sizes above 0.")
    if t.high.centre[2] <= t.low.centre[2]:
        yield stop("no-height", "The upper opening is not above the lower one.", "Give a height above 0.")


def _shape(spec: SheetSpec, rules: SheetRules) -> Iterator[Finding]:
    surface = spec.surface
    if isinstance(surface, Cone | Pyramid) and surface.top >= surface.base:
        says = f"The top ({told(surface.top)}) is not smaller than the base ({told(surface.base)})."
        equal = "Ask for a cylinder." if surface.top == surface.base else "Swap them: the base is the large end."
        yield stop("cone-upside-down", says, equal)
        return
    if isinstance(surface, Pyramid) and surface.sides < 3:
        yield stop("too-few-sides", f"{surface.sides} sides close nothing.", "Give 3 sides or more.")
        return
    if isinstance(surface, FlatOutline):
        yield from outline_wrong(surface)
    if isinstance(surface, Cylinder):
        yield from _mitre(surface)
    if isinstance(surface, Bowl):
        yield from _bowl(surface)
    yield from _pan(surface, spec, rules) if isinstance(surface, Pan) else _tight(spec, rules)


def _mitre(c: Cylinder) -> Iterator[Finding]:
    drop = c.across * abs(_tan(c.cut))
    if abs(c.cut) > _STEEPEST or drop / 2 >= c.height:
        says = f"Cut at that angle, the low side of a {told(c.across)} round is below its bottom."
        yield stop("cut-too-steep", says, f"Make it higher than {told(drop / 2)} at the middle, or cut it less.")


def _bowl(bowl: Bowl) -> Iterator[Finding]:
    if bowl.thinning != "equal area":
        says = f"`{bowl.thinning}` is no known way for the metal to move."
        yield stop("thinning-unknown", says, "Write `thinning: equal area`: the sheet keeps its thickness.")
    if bowl.depth > bowl.rim / 2:
        says = f"The bowl is deeper ({told(bowl.depth)}) than half a ball of its rim ({told(bowl.rim / 2)})."
        yield warn("bowl-deep", says, "It must be raised in many heats, and the disc is a guess: make one first.")


def _tan(angle: float) -> float:
    return tan(max(-_STEEPEST, min(_STEEPEST, angle)))


def _tight(spec: SheetSpec, rules: SheetRules) -> Iterator[Finding]:
    """Round ends too small for the thickness."""
    middle = on_middle(spec.surface, spec.thick, spec.sized)
    across = _smallest(middle)
    if across is None:
        return
    inside = across / 2 - spec.thick / 2
    least = rules.smallest_radius * spec.thick
    if inside < least:
        says = f"{_round_part(middle)} has an inside radius of {told(max(inside, 0.0))}; "
        says += f"{told(spec.thick)} sheet bends to {told(least)}."
        point = ", or end it in a point" if isinstance(middle, Cone) else ""
        yield stop("too-tight", says, f"Make it larger, take thinner sheet{point}.")
    elif inside < HAND_ROLLED * spec.thick:
        says = f"{_round_part(middle)} has an inside radius of {told(inside)}, under {HAND_ROLLED:g} thicknesses."
        yield warn("too-tight", says, "It will not roll by hand: close it over a mandrel, hot if need be.")


def _round_part(surface: object) -> str:
    """What a smith calls the part that is bent to the smallest radius."""
    return {Cone: "The small end", Bowl: "The hollow"}.get(type(surface), "The pipe")


def _smallest(surface: object) -> float | None:
    if isinstance(surface, Cone):
        return surface.top if surface.top != 0.0 else None
    if isinstance(surface, Bowl):
        return 2 * ball_radius(surface)
    return surface.across if isinstance(surface, Cylinder) else None


def _pan(pan: Pan, spec: SheetSpec, rules: SheetRules) -> Iterator[Finding]:
    radius = pan.inside_radius or rules.smallest_radius * spec.thick
    if pan.inside_radius <= 0.0:
        says = f"No inside radius is told for the folds: {told(radius)} is taken."
        yield note("fold-radius-taken", says, "Give `inside radius`.")
    if radius < rules.smallest_radius * spec.thick - 1e-9:
        says = f"An inside radius of {told(radius)} is less than {rules.smallest_radius:g} thickness."
        yield warn("too-tight", says, "The outside may crack: fold across the grain, or hot.")
    unknown = [w for w in pan.walls if w not in ("front", "back", "left", "right")]
    if unknown:
        yield stop("no-such-wall", f"There is no wall `{unknown[0]}`.", "Walls are front, back, left and right.")
    outside = on_middle(pan, spec.thick, spec.sized)
    assert isinstance(outside, Pan)
    setback = radius + spec.thick
    if outside.high <= setback:
        says = f"Walls of {told(outside.high)} end inside the fold, which takes {told(setback)}."
        yield stop("wall-too-low", says, f"Make them higher than {told(setback)}, or fold to a smaller radius.")
    if min(outside.long, outside.wide) <= 2 * setback:
        yield stop(
            "pan-too-small", f"The bottom leaves nothing flat between folds of {told(setback)}.", "Make it wider."
        )
    if outside.high > min(outside.long, outside.wide) and len(pan.walls) > 2:
        says = f"Walls of {told(outside.high)} are higher than the bottom is wide."
        yield warn("walls-high", says, "See that the last wall can still be folded past the others.")
    if pan.corner_tabs > min(outside.long, outside.wide) / 2:
        yield stop("tabs-too-long", "The corner tabs meet in the middle of the wall.", "Make them shorter.")


def _seam(spec: SheetSpec, rules: SheetRules) -> Iterator[Finding]:
    seam = spec.seam
    if seam.kind in (*LAPS, SeamKind.GROOVED) and seam.width <= 0.0:
        yield stop("seam-without-width", f"The {seam.kind} seam has no width.", "Give its width.").at(seam.where)
        return
    if not isinstance(spec.surface, SKINS):
        return
    if seam.kind in (*LAPS, SeamKind.GROOVED) and (small := small_end(spec)) > 0.0 and seam.width >= small:
        says = f"The {seam.kind} of {told(seam.width)} is as wide as the small end, {told(small)}."
        yield stop("lap-too-wide", says, "Make the lap narrower or the small end wider.").at(seam.where)
    if seam.kind is SeamKind.RIVETED:
        yield from (f.at(seam.where) for f in _rivets(spec, rules))


def small_end(spec: SheetSpec) -> float:
    """Diameter [m] of the small end as told; 0 for a point or where there is none."""
    surface = spec.surface
    if isinstance(surface, Cone | Pyramid):
        return min(surface.top, surface.base)
    if isinstance(surface, Transition):
        return min(surface.low.across, surface.low.long, surface.high.across, surface.high.long)
    return surface.across if isinstance(surface, Cylinder) else 0.0


def _rivets(spec: SheetSpec, rules: SheetRules) -> Iterator[Finding]:
    seam = spec.seam
    if seam.rivet <= 0.0:
        yield stop("rivet-without-size", "The riveted lap names no rivet.", "Give `rivets`: their diameter.")
        return
    if seam.rivet < _SMALLEST_RIVET or 0.0 < seam.pitch < seam.rivet:
        says = f"Rivets of {told(seam.rivet)}, {told(seam.pitch)} apart, cannot be meant."
        yield stop("rivets-not-likely", says, "Look at the unit and the point.")
        return
    if seam.pitch <= 0.0:
        yield warn("rivet-without-pitch", "No pitch is told: a rivet is put at each end only.", "Give `pitch`.")
    elif seam.pitch < rules.rivet_pitch * seam.rivet:
        says = f"Rivets {told(seam.pitch)} apart are closer than {rules.rivet_pitch:g} diameters."
        yield warn("rivets-too-close", says, f"Space them {told(rules.rivet_pitch * seam.rivet)} or more.")
    if seam.width / 2 < rules.rivet_edge * seam.rivet - 1e-9:
        says = f"In a lap of {told(seam.width)} the rivets stand {told(seam.width / 2)} from the edge."
        need = told(2 * rules.rivet_edge * seam.rivet)
        yield warn("rivet-near-edge", says, f"Keep {rules.rivet_edge:g} diameters: lap {need} or more.")


def edges_of(spec: SheetSpec) -> tuple[str, ...]:
    """Names of the free edges that a hem, a wire or a lug can be on."""
    surface = spec.surface
    if isinstance(surface, Pan):
        return (*surface.walls, "walls", "top")
    if isinstance(surface, Bowl):
        return ("rim", "top")
    if isinstance(surface, FlatOutline):
        return ()
    pointed = isinstance(surface, Cone | Pyramid) and surface.top <= 0.0
    return ("bottom",) if pointed else ("bottom", "top")


def _edges(spec: SheetSpec, rules: SheetRules) -> Iterator[Finding]:
    there = edges_of(spec)
    names = f"Edges here: {', '.join(there)}." if there else "This piece takes none."
    for on, where in ((item.on, item.where) for items in (spec.edges, spec.lugs) for item in items):
        if on not in there:
            yield stop("no-such-edge", f"There is no edge `{on}` on this piece.", names).at(where)
    for edge in spec.edges:
        if edge.kind is not EdgeKind.RAW and edge.size <= 0.0:
            yield stop("edge-without-size", f"The {edge.kind} edge has no size.", "Give it.").at(edge.where)
        if edge.kind is EdgeKind.WIRED and 0.0 < edge.size < 2 * rules.smallest_radius * spec.thick:
            says = f"{told(spec.thick)} sheet does not close round a wire of {told(edge.size)}."
            yield warn("too-tight", says, f"Take wire of {told(2 * rules.smallest_radius * spec.thick)} or more.").at(
                edge.where
            )
    finished = [e.on for e in spec.edges if e.kind is not EdgeKind.RAW]
    for on in {n for n in finished if finished.count(n) > 1}:
        yield stop("edge-twice", f"The edge `{on}` is finished twice.", "Keep one.")
    yield from _lugs(spec, finished, rules)


def _lugs(spec: SheetSpec, finished: list[str], rules: SheetRules) -> Iterator[Finding]:
    for lug in spec.lugs:
        if on := _finished_too(lug.on, finished, isinstance(spec.surface, Pan)):
            says = f"The edge `{lug.on}` has lugs and a {next(e.kind for e in spec.edges if e.on == on)} too."
            yield stop("lug-on-hem", says, "Keep one of them on that edge.").at(lug.where)
        if lug.width <= 0.0 or (lug.eye <= 0.0 and lug.length <= 0.0):
            yield stop("lug-without-size", "The lug has no width, or neither eye nor length.", "Give them.").at(
                lug.where
            )
        if 0.0 < lug.eye < 2 * rules.smallest_radius * spec.thick:
            says = f"An eye of {told(lug.eye)} is tight for {told(spec.thick)} sheet."
            yield warn("too-tight", says, "Roll it larger, or hot over a wire.").at(lug.where)


def _finished_too(on: str, finished: list[str], walled: bool) -> str:
    """The finished edge that a lug stands on, or nothing; `walls` and `top` are all the walls of a pan."""
    every = ("walls", "top") if walled else ()
    met = (f for f in finished if f == on or on in every or f in every)
    return next(met, "")


def _counts(spec: SheetSpec) -> Iterator[Finding]:
    if spec.parts < 1 or spec.make < 1:
        yield stop("count-not-positive", "Fewer than one is asked for.", "Give 1 or more.")
    if spec.parts > MANY:
        yield stop("too-many", f"{spec.parts} parts are asked for.", f"Give {MANY} or fewer.")
    if spec.parts > 1 and not isinstance(spec.surface, SKINS):
        yield stop("cannot-split", "This piece is not split into parts.", "Leave `parts` out.")
    for number, where in ((item.number, item.where) for items in (spec.lugs, spec.holes) for item in items):
        if number < 1:
            yield stop("count-not-positive", "Fewer than one is asked for.", "Give 1 or more.").at(where)
        elif number > MANY:
            yield stop("too-many", f"{number} are asked for on one piece.", f"Give {MANY} or fewer.").at(where)
    for hole in spec.holes:
        if hole.size <= 0.0:
            yield stop("hole-without-size", "The hole has no size.", "Give its diameter.").at(hole.where)
        if isinstance(spec.surface, FlatOutline):
            says = "A hole `up` from the bottom has no place on a free outline."
            yield stop("hole-not-placed", says, "Give it as a `cut out` of the outline.").at(hole.where)
