"""Sheet pieces in words: the finished size, and what stands on the metal (holes, rivets, lugs)."""

from bickern.measure.units.say import say_angle, say_both
from bickern.measure.units.words import Style
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.spec import (
    Bowl,
    Cone,
    Cylinder,
    Lug,
    Pan,
    Pyramid,
    Rim,
    RimShape,
    SeamKind,
    SheetHole,
    Surface,
    Transition,
)


def sheet_size(sheet: SheetResult, style: Style) -> str:
    """The finished size of a sheet piece, in words."""
    surface = sheet.spec.surface
    match surface:
        case Cone():
            return _cone(surface, style)
        case Cylinder():
            cut = f", cut at {say_angle(abs(surface.cut), style)}" if surface.cut else ""
            return f"round, {say_both(surface.across, style)} across, {say_both(surface.height, style)} high{cut}"
        case Pyramid():
            return _pyramid(surface, style)
        case Pan():
            sides = f"{say_both(surface.long, style)} long x {say_both(surface.wide, style)} wide"
            return f"a pan, {sides} x {say_both(surface.high, style)} high"
        case Bowl():
            return f"a bowl, {say_both(surface.rim, style)} across the rim, {say_both(surface.depth, style)} deep"
        case Transition():
            high = say_both(surface.high.centre[2] - surface.low.centre[2], style)
            return f"{_rim(surface.low, style)} to {_rim(surface.high, style)}, {high} high"
    return "flat, as its outline"


def _cone(cone: Cone, style: Style) -> str:
    top = f"{say_both(cone.top, style)} across the top" if cone.top > 0 else "to a point"
    aside = ", its top out of the middle" if cone.offset != (0.0, 0.0) else ""
    return f"a cone, {say_both(cone.base, style)} across the base, {top}, {say_both(cone.height, style)} high{aside}"


def _pyramid(pyramid: Pyramid, style: Style) -> str:
    base = _sides(pyramid.base, pyramid.base_long, style)
    top = f"{_sides(pyramid.top, pyramid.top_long, style)} at the top" if pyramid.top > 0 else "to a point"
    return f"{pyramid.sides} sides, {base} across the base, {top}, {say_both(pyramid.height, style)} high"


def _sides(across: float, long: float | None, style: Style) -> str:
    return say_both(across, style) if long is None else f"{say_both(across, style)} x {say_both(long, style)}"


def _rim(rim: Rim, style: Style) -> str:
    if rim.shape is RimShape.CIRCLE:
        return f"round {say_both(rim.across, style)}"
    return f"{rim.shape} {say_both(rim.across, style)} x {say_both(rim.long, style)}"


def told_of(surface: Surface) -> bool:
    """Whether its sizes are told inside, outside or mean; a free outline has no such thing."""
    return isinstance(surface, Cone | Cylinder | Pyramid | Transition | Pan | Bowl)


def on_the_metal(sheet: SheetResult, style: Style) -> list[tuple[str, str]]:
    """Rivets of the seam, holes and lugs: what each is called and its sizes."""
    found = [("Rivets in the lap", _rivets(sheet, style))] if sheet.spec.seam.kind is SeamKind.RIVETED else []
    found += [(hole.name or "Hole", _hole(hole, style)) for hole in sheet.spec.holes]
    return [*found, *((lug.name or "Lug", _lug(lug, style)) for lug in sheet.spec.lugs)]


def _rivets(sheet: SheetResult, style: Style) -> str:
    """Every rivet has a hole in the lap and a fellow under it."""
    holes = [hole for pattern in sheet.patterns for hole in pattern.holes * pattern.make if hole.says == "rivet"]
    seam = sheet.spec.seam
    pitch = f", at most {say_both(seam.pitch, style)} apart" if seam.pitch > 0 else ""
    size = f", hole {say_both(holes[0].size, style, fit=True)}" if holes else ""
    return f"{len(holes)} of {say_both(seam.rivet, style)}{size}{pitch}, evenly"


def _hole(hole: SheetHole, style: Style) -> str:
    many = f"{hole.number} of " if hole.number > 1 else ""
    return f"{many}{say_both(hole.size, style, fit=True)}, {say_both(hole.up, style)} up from the bottom edge"


def _lug(lug: Lug, style: Style) -> str:
    many = f"{lug.number} of " if lug.number > 1 else ""
    end = f", rolled into an eye of {say_both(lug.eye, style)}" if lug.eye > 0 else ""
    return f"{many}{say_both(lug.width, style)} wide, on the {lug.on}{end}"
