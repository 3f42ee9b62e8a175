"""What is done to make one sheet piece, read off what was reckoned: all that can be done flat is done flat."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from math import dist, pi

from bickern.geometry.polygon import perimeter
from bickern.iron.coating import coating_finding
from bickern.making.shop import Shop
from bickern.making.work.fire import heated
from bickern.making.work.own_time import in_own_time
from bickern.making.work.paces import hands
from bickern.making.work.result import Work, unlike
from bickern.measure.known import Known
from bickern.measure.source import COMMON_PRACTICE
from bickern.measure.spread import Spread
from bickern.measure.units.words import MILLIMETRE
from bickern.parts.sheet.result import Pattern, SheetResult
from bickern.parts.sheet.spec import (
    Bowl,
    Cone,
    Cylinder,
    EdgeKind,
    FlatOutline,
    Lug,
    Pan,
    Pyramid,
    SeamKind,
    SheetSpec,
    Surface,
    Transition,
)

COLD_SHEET = Known(2 * MILLIMETRE, "m", COMMON_PRACTICE)
"""Mild sheet no thicker than this is dished and curled cold."""
COLD_DEPTH = Known(1 / 3, "1", COMMON_PRACTICE)
"""A bowl no deeper than this share of its rim is dished cold, if its sheet is thin."""


def works_of_sheet(result: SheetResult, shop: Shop) -> tuple[Work, ...]:
    """Works of ONE piece, in the order they are done.

    Marked, cut and taken the edge off; holes, hems and lugs in the flat; seam edges bent before the rest is pressed
    round; the seam last, but for a wired edge that is not straight. A pan's opposite walls are folded in pairs, those
    that stand between first. What wants the fire is told as hot whatever is on the sheet: that a coated one must not be
    heated, and so is not made, is said where the order of work is found.
    """
    return in_own_time(unlike(_works(_Sheet(result, shop))), shop.hand)


@dataclass(frozen=True, slots=True)
class _Sheet:
    """A sheet piece and how it is looked on here."""

    result: SheetResult
    shop: Shop

    @property
    def spec(self) -> SheetSpec:
        return self.result.spec

    def work(
        self,
        does: str,
        seconds: Spread,
        name: str = "",
        *,
        amount: float = 0.0,
        radius: float = 0.0,
        case: str = "",
        says: str = "",
    ) -> Work:
        piece = self.spec.name
        made = Work(f"{piece}: {does} {name}".rstrip(), piece, does, name, seconds=seconds, says=says, sheet=True)
        return replace(made, thin=self.spec.thick / 2, amount=amount, radius=radius, case=case)


def _works(sheet: _Sheet) -> Iterator[Work]:
    spec, round_ = sheet.spec, perimeters(sheet.result)
    patterns = sum(p.make for p in sheet.result.patterns)
    yield sheet.work("mark", hands("lay a pattern on and prick it", patterns) + hands("scribe a line", round_))
    yield sheet.work("cut sheet", hands("snip sheet 1 mm thick", round_ * spec.thick / MILLIMETRE))
    yield sheet.work("deburr", hands("file a sheet edge", round_))
    after = isinstance(spec.surface, Bowl)
    if not after:
        yield from _holes(sheet)
    yield from _edges(sheet, wired=False)
    yield from _lugs(sheet)
    yield from _SHAPED[type(spec.surface)](sheet)
    yield from _seam(sheet)
    yield from _edges(sheet, wired=True)
    if after:
        yield from _holes(sheet)


def perimeters(result: SheetResult) -> float:
    """Length [m] of all that is cut, cutouts too."""
    return sum(p.make * sum(perimeter(loop) for loop in (p.outline, *p.cutouts)) for p in result.patterns)


def _holes(sheet: _Sheet) -> Iterator[Work]:
    """Holes of one name and size drilled together, those of a seam among them: they must meet when it is rolled."""
    sizes: dict[tuple[str, float], int] = {}
    for pattern in sheet.result.patterns:
        for hole in pattern.holes:
            called = "rivet holes" if hole.says.startswith("rivet") else hole.says or "holes"
            sizes[called, hole.size] = sizes.get((called, hole.size), 0) + pattern.make
    if not sizes:  # of a bowl the pattern shows none
        sizes = {(told.name or "holes", told.size): told.number for told in sheet.spec.holes}
    for (name, size), number in sizes.items():
        yield sheet.work("drill", hands("drill a hole in sheet", number), name, amount=size, says=_so_many(number))


def _so_many(number: int) -> str:
    return f"{number} of them" if number > 1 else ""


def _edges(sheet: _Sheet, *, wired: bool) -> Iterator[Work]:
    """Hems before the sheet is shaped; a wire is laid in afterwards."""
    for edge in sheet.spec.edges:
        if edge.kind is EdgeKind.RAW or (edge.kind is EdgeKind.WIRED) is not wired:
            continue
        passes = 1 if edge.kind is EdgeKind.HEM else 2
        seconds = hands("turn a narrow edge", passes * perimeters(sheet.result) / 4)
        yield sheet.work("hem", seconds, edge.on, case="" if edge.kind is EdgeKind.HEM else edge.kind)


def _lugs(sheet: _Sheet) -> Iterator[Work]:
    for i, lug in enumerate((lug for lug in sheet.spec.lugs if lug.eye > 0), 1):
        work = sheet.work(
            "curl", hands("roll up a lug", lug.number), lug.name or f"lugs {i}", radius=lug.eye / 2, amount=2 * pi
        )
        yield heated(work, sheet.spec.steel) if curled_hot(sheet.spec, lug, sheet.shop) else work


def curled_hot(spec: SheetSpec, lug: Lug, shop: Shop) -> bool:
    """Whether a lug is rolled up hot: thick sheet, to an eye tighter than may be bent cold."""
    tight = spec.thick / (lug.eye + spec.thick) > shop.ring.cold_limit
    return tight and spec.thick > COLD_SHEET.value


def dished_hot(spec: SheetSpec) -> bool:
    """Whether a bowl is dished hot: of thick sheet, or deep."""
    bowl = spec.surface
    if not isinstance(bowl, Bowl):
        return False
    return spec.thick > COLD_SHEET.value or bowl.depth > COLD_DEPTH.value * bowl.rim


def _bare(spec: SheetSpec) -> bool:
    return not spec.coating or coating_finding(spec.coating) is None


def _flat(sheet: _Sheet) -> Iterator[Work]:
    return iter(())


def _bowl(sheet: _Sheet) -> Iterator[Work]:
    hot = dished_hot(sheet.spec)
    seconds = hands("dish a blank hot" if hot else "dish a blank cold", sheet.result.area)
    work = sheet.work("dish", seconds, case="" if _bare(sheet.spec) else "coated")
    yield heated(work, sheet.spec.steel) if hot else work
    yield sheet.work("file", hands("file a sheet edge", perimeters(sheet.result)), "rim", case="rim")


def _pan(sheet: _Sheet) -> Iterator[Work]:
    pan = sheet.spec.surface
    assert isinstance(pan, Pan)  # by the table of surfaces
    for pair, length in ((("left", "right"), pan.long), (("front", "back"), pan.wide)):
        walls = [wall for wall in pair if wall in pan.walls]
        if walls:
            name = f"{' and '.join(walls)} wall{'s' if len(walls) > 1 else ''}"
            seconds = hands("set up a fold", len(walls)) + hands("dress a fold", length * len(walls))
            yield sheet.work("fold", seconds, name, amount=pi / 2, radius=pan.inside_radius)


def _folded(sheet: _Sheet) -> Iterator[Work]:
    lines = [line.line for p in sheet.result.net for line in p.lines if line.kind == "bend" for _ in range(p.make)]
    if lines:
        length = sum(dist(line.start, line.end) for line in lines)
        yield sheet.work("fold", hands("set up a fold", len(lines)) + hands("dress a fold", length))


def _rolled(sheet: _Sheet) -> Iterator[Work]:
    if sheet.spec.seam.kind is not SeamKind.NONE:
        yield sheet.work("fold", hands("bend a seam edge", 2 * _seam_length(sheet)), "seam edges", case="edges")
    yield sheet.work("roll sheet", hands("press sheet round", _count(sheet) * max(sheet.result.blank)))
    yield from _folded(sheet)


def _count(sheet: _Sheet) -> int:
    return sum(p.make for p in sheet.result.patterns)


def _seam_length(sheet: _Sheet) -> float:
    """Length [m] of all seams: of a pattern about its shorter side (a mean will do for a time)."""
    return _count(sheet) * _height(sheet.result.net[0] if sheet.result.net else None, sheet.spec.surface)


def _height(net: Pattern | None, surface: Surface) -> float:
    if isinstance(surface, Cone):
        return float((surface.height**2 + (surface.base - surface.top) ** 2 / 4) ** 0.5)
    if isinstance(surface, Cylinder | Pyramid):
        return surface.height
    return perimeter(net.outline) / 6 if net is not None else 0.0


def _seam(sheet: _Sheet) -> Iterator[Work]:
    seam = sheet.spec.seam
    if seam.kind is SeamKind.GROOVED:
        yield sheet.work("groove", hands("close a grooved seam", _seam_length(sheet)), "seam")
    elif seam.kind is SeamKind.BRAZED:
        yield sheet.work("braze", hands("braze a seam", _seam_length(sheet)), "seam")
    elif seam.kind is SeamKind.RIVETED:
        number = sum(p.make for p in sheet.result.patterns for h in p.holes if h.says == "rivet")
        says = f"{number} of them; the middle one first, then from it to both ends by turns"
        yield sheet.work("rivet", hands("rivet cold", number), "seam", amount=seam.rivet, says=says)


def _hooks(sheet: _Sheet) -> Iterator[Work]:
    if sheet.spec.seam.kind is SeamKind.GROOVED:
        yield sheet.work("hem", hands("turn a narrow edge", 2 * _seam_length(sheet)), "seam edges", case="seam")


def _round(sheet: _Sheet) -> Iterator[Work]:
    yield from _hooks(sheet)
    yield from _rolled(sheet)


def _cornered(sheet: _Sheet) -> Iterator[Work]:
    yield from _hooks(sheet)
    yield from _folded(sheet)


_SHAPED: dict[type, Callable[[_Sheet], Iterator[Work]]] = {
    Cone: _round,
    Cylinder: _round,
    Transition: _round,
    Pyramid: _cornered,
    Pan: _pan,
    Bowl: _bowl,
    FlatOutline: _flat,
}
