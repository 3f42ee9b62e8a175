"""Faults that can be seen in what was asked, before anything is reckoned."""

from math import pi, radians

from bickern.iron.section import Section
from bickern.measure.finding import Finding, Where, note, stop, warn
from bickern.measure.units.words import Shape
from bickern.parts.bar.says import both, called, leg_called
from bickern.parts.bar.tracks import (
    BarSpec,
    BendLeg,
    Blank,
    Corner,
    EndOutline,
    EndShape,
    EyeLeg,
    HoopLeg,
    Metal,
    PathLeg,
    ScrollLeg,
    SectionGoal,
    StraightLeg,
)

_SQUARE_LIMIT = radians(150)
_TURNS_LIMIT = 20 * pi


def asked_findings(spec: BarSpec, stock: Section | None) -> tuple[Finding, ...]:
    """Every fault in what is asked of this bar."""
    found: list[Finding] = []
    if stock is None:
        pass  # what is wanted can only be said once all else is sound: see `anystock`
    elif stock.width <= 0.0 or stock.thick <= 0.0:
        found.append(stop("size-not-positive", "the bar to start from has no thickness", "", spec.where))
    else:
        found += _goal(SectionGoal(stock), "the bar to start from", spec.where)
    if not spec.metal:
        found.append(
            stop("no-metal", "this bar has no metal track", "say which sections it has, and how long", spec.where)
        )
    split = any(b.at is None for b in spec.branches)
    for i, entry in enumerate(spec.metal):
        found += _metal(entry, i, i == 0 or (i == len(spec.metal) - 1 and not split))
    for i, leg in enumerate(spec.path):
        found += _leg(leg, i, spec.path) + _corners(spec, i)
    return tuple(found + _blanks(spec) + _marks(spec) + _whole(spec))


def _spread_inside(outline: EndOutline, who: str, where: Where) -> Finding:
    says = f"{who} is a {outline.shape} end, but metal goes on at both its ends"
    return stop("end-not-at-end", says, "put it first or last, or write its sections with `from` and `to`", where)


def _metal(entry: Metal, index: int, at_end: bool) -> list[Finding]:
    who = called(entry.name, f"metal entry {index + 1}")
    found = _positive(entry.length, f"the length of {who}", entry.where)
    for goal in (entry.start, entry.end):
        found += _goal(goal, who, entry.where) if goal else []
    if entry.start and entry.end and entry.start.open_size and entry.end.open_size:
        found.append(stop("too-much-open", f"both ends of {who} are left open", "give one of them", entry.where))
    if entry.outline:
        found += _outline(entry.outline, who, entry.where)
        found += [] if at_end else [_spread_inside(entry.outline, who, entry.where)]
    return found + _shoulder(entry, index, who)


def _shoulder(entry: Metal, index: int, who: str) -> list[Finding]:
    if entry.shoulder < 0.0:
        return [stop("size-not-positive", f"the shoulder of {who} is below nothing", "", entry.where)]
    if entry.shoulder and (index == 0 or entry.start is None):
        says = f"{who} has a shoulder, but no section before it to step down from"
        return [note("shoulder-without-step", says, "give the section it starts with", entry.where)]
    if not isinstance(entry.length, Blank) and entry.shoulder > entry.length > 0.0:
        says = f"the shoulder of {who} is {both(entry.shoulder)}, the whole entry only {both(entry.length)}"
        return [stop("shoulder-too-long", says, "the shoulder lies inside the length: lengthen one", entry.where)]
    return []


def _goal(goal: SectionGoal, who: str, where: Where) -> list[Finding]:
    s = goal.section
    hollow = s.shape in (Shape.TUBE, Shape.SQUARE_TUBE)
    if hollow and (s.wall <= 0.0 or (goal.open_size == "" and 2 * s.wall >= min(s.width, s.thick))):
        return [stop("wall-not-possible", f"the tube of {who} has no wall, or is all wall", "give its wall", where)]
    if s.shape is Shape.POINT or goal.open_size == "both":
        return []
    wide = s.width if goal.open_size != "width" else 1.0
    thick = s.thick if goal.open_size != "thick" else 1.0
    if min(wide, thick) < 0.0 or max(wide, thick) <= 0.0:
        return [stop("size-not-positive", f"{who} is asked to have no width or thickness", "", where)]
    return []


def _outline(outline: EndOutline, who: str, where: Where) -> list[Finding]:
    if outline.width <= 0.0 or outline.thick <= 0.0:
        return [stop("size-not-positive", f"the outlined end {who} has no width or no thickness", "", where)]
    if outline.shape is not EndShape.FREE:
        return []
    along = [p[0] for p in outline.profile]
    good = len(along) > 1 and along == sorted(along) and abs(along[0]) < 1e-9 and abs(along[-1] - 1.0) < 1e-9
    if good and all(0.0 <= p[1] <= 1.0 for p in outline.profile) and any(p[1] > 0.0 for p in outline.profile):
        return []
    says = f"the widths of the outlined end {who} must run from the inner end (0) to the tip (1), none above 1"
    return [stop("outline-profile", says, "give shares of length and of width, in order", where)]


def _leg(leg: PathLeg, index: int, path: tuple[PathLeg, ...]) -> list[Finding]:
    if isinstance(leg, StraightLeg):
        if not isinstance(leg.length, Blank) and leg.length == 0.0:
            return []
        return _positive(leg.length, f"the length of {leg_called(path, index)}", leg.where)
    if isinstance(leg, BendLeg):
        return _bend(leg, leg_called(path, index))
    if isinstance(leg, EyeLeg):
        return _eye(leg, leg_called(path, index), index in (0, len(path) - 1))
    if isinstance(leg, ScrollLeg):
        return _scroll(leg, leg_called(path, index))
    return _hoop(leg, len(path))


def _corners(spec: BarSpec, i: int) -> list[Finding]:
    """A straight told to corners needs corners: bends of less than a half circle."""
    leg = spec.path[i]
    if not isinstance(leg, StraightLeg) or not leg.to_corners:
        return []
    who = leg_called(spec.path, i)
    if leg.to_corners not in ("inside", "centre", "outside"):
        says = f"{who} is told to the {leg.to_corners} corners, which are none"
        return [stop("which-corners", says, "say inside, centre or outside", leg.where)]
    beside = [spec.path[k] for k in (i - 1, i + 1) if 0 <= k < len(spec.path)]
    bends = [b for b in beside if isinstance(b, BendLeg)]
    if any(b.angle >= pi - 1e-6 for b in bends):
        says = f"{who} is told to a corner, but the bend beside it goes half round and has none"
        return [stop("no-corner", says, "give the straight itself between the bends", leg.where)]
    if not bends:
        return [note("no-corner", f"{who} is told to a corner, but no bend is beside it", "", leg.where)]
    return []


def _bend(leg: BendLeg, who: str) -> list[Finding]:
    if not 0.0 < leg.angle <= _TURNS_LIMIT:
        return [
            stop("bend-angle", f"{who} has an angle that is nothing or past reason", "give 1 to 360 degrees", leg.where)
        ]
    if leg.inside_radius < 0.0:
        return [stop("size-not-positive", f"{who} has an inside radius below nothing", "", leg.where)]
    if leg.corner is Corner.SQUARE and leg.angle > _SQUARE_LIMIT:
        says = f"{who} is too sharp to be forged up to a square corner"
        return [stop("corner-too-sharp", says, "give an inside radius instead", leg.where)]
    if leg.inside_radius == 0.0 and leg.corner is Corner.NONE:
        says = f"{who} has no inside radius: a plain bend always keeps one"
        return [warn("no-inside-radius", says, "give the radius, or ask for a square corner", leg.where)]
    return []


def _eye(leg: EyeLeg, who: str, at_end: bool) -> list[Finding]:
    if leg.inside_across <= 0.0:
        return [stop("size-not-positive", f"{who} has no opening", "give what it is across inside", leg.where)]
    if not at_end:
        return [
            stop("eye-not-at-end", f"{who} stands in the middle of the path", "an eye is the first or last", leg.where)
        ]
    return []


def _scroll(leg: ScrollLeg, who: str) -> list[Finding]:
    told = [leg.turns, leg.inside_radius, leg.outside_radius]
    sizes = [x for x in told if x is not None]
    if any(x < 0.0 for x in sizes) or (leg.turns or 1.0) <= 0.0:
        return [stop("size-not-positive", f"{who} has a size that is nothing or below", "", leg.where)]
    open_length = isinstance(leg.length, Blank)
    number = len(sizes) + (leg.length is not None)
    if len(sizes) == 3 and leg.length is not None and not open_length:
        says = f"{who} is told by four sizes, any three of which fix it"
        return [stop("scroll-overtold", says, "leave out turns, one radius, or the length", leg.where)]
    if number < 3:
        says = f"{who} needs three of turns, inside radius, outside radius and length"
        return [stop("scroll-needs-three", says, "give one more", leg.where)]
    inner, outer = leg.inside_radius, leg.outside_radius
    if inner is not None and outer is not None and outer < inner:
        return [stop("scroll-inside-out", f"{who} is smaller outside than inside", "swap the two radii", leg.where)]
    return []


def _hoop(leg: HoopLeg, count: int) -> list[Finding]:
    told = [x for x in (leg.inside_across, leg.mean_across, leg.outside_across) if x is not None]
    if len(told) != 1:
        says = "a hoop is told by one size across: inside, mean or outside"
        return [stop("which-across", says, "say which one you mean", leg.where)]
    if told[0] <= 0.0:
        return [stop("size-not-positive", "the hoop has no size", "", leg.where)]
    if count > 1:
        return [stop("hoop-alone", "a hoop is the whole path; nothing goes before or after it", "", leg.where)]
    return []


def _positive(length: object, what: str, where: Where) -> list[Finding]:
    if isinstance(length, Blank) or (isinstance(length, float | int) and length > 0.0):
        return []
    return [stop("length-not-positive", f"{what} is nothing or below", "give a length, `?` or `rest`", where)]


def _blanks(spec: BarSpec) -> list[Finding]:
    found = []
    for track, lengths in (
        ("metal", [(m.length, m.where) for m in spec.metal]),
        ("path", [(g.length, g.where) for g in spec.path if isinstance(g, StraightLeg)]),
    ):
        rests = [where for length, where in lengths if length is Blank.REST]
        if len(rests) > 1:
            says = f"{len(rests)} entries of the {track} are `rest`: only one can take what is left"
            found.append(stop("two-rests", says, "give the others a length", rests[1]))
    return found


def _marks(spec: BarSpec) -> list[Finding]:
    found = []
    for twist in spec.twists:
        if twist.turns == 0.0:
            found.append(warn("twist-without-turns", "a twist of no turns does nothing", "", twist.where))
    for hole in spec.holes:
        long = hole.long if hole.long is not None else hole.size
        if hole.size <= 0.0 or long <= 0.0:
            found.append(stop("size-not-positive", "a hole has no size", "", hole.where))
        if hole.number < 1 or (hole.spacing is not None and hole.spacing <= 0.0):
            found.append(stop("hole-count", "a row of holes needs at least one hole and a spacing", "", hole.where))
    return found


def _whole(spec: BarSpec) -> list[Finding]:
    found = []
    if not isinstance(spec.stock_length, Blank):
        found += _positive(spec.stock_length, "the length of the stock", spec.where)
    if spec.grip < 0.0:
        found.append(stop("size-not-positive", "the grip is below nothing", "", spec.where))
    if spec.make < 1:
        found.append(stop("count-not-positive", "fewer than one is to be made", "give 1 or more", spec.where))
    for goal in spec.overall:
        found += _positive(goal.size, f"the overall {goal.axis}", goal.where)
    if any(isinstance(leg, HoopLeg) for leg in spec.path) and not spec.closed:
        found.append(
            note("hoop-left-open", "the ends of the hoop are not joined", "say `closed` if they meet", spec.where)
        )
    if spec.closed and spec.branches:
        says = "a closed bar has no end to split"
        found += [
            stop("closed-and-split", says, "weld the branch on instead", spec.where) for b in spec.branches if not b.at
        ]
    return found
