"""Which tools a job wants, and which of them must be made first."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from bickern.measure.units.say import say_both, say_turns
from bickern.measure.units.words import Style
from bickern.paper.copy import Copy, PieceResult
from bickern.paper.sheets.wording import section
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import EyeLeg, HoleBy, ScrollLeg
from bickern.parts.joint.spec import JointKind, JointResult
from bickern.parts.ring.spec import Closing, RingResult
from bickern.parts.sheet.result import SheetResult

NEAR = 0.0002
"""A drift within this of the size wanted is that size [m]."""


@dataclass(frozen=True, slots=True)
class Tool:
    """A tool by name and size, whether it is to be made (or found) before the fire is lit, and the piece it is `of`."""

    says: str
    first: bool = False
    of: str = ""


def tools(copy: Copy) -> tuple[Tool, ...]:
    """The tools beyond fire, anvil, hammer and tape, each once for all its pieces, those to make first in front."""
    style = copy.shop.style
    every = [tool for piece in copy.pieces for tool in _of_piece(piece, copy)]
    every += [tool for joint in copy.joints for tool in _of_joint(joint, style)]
    wanted: dict[str, list[Tool]] = {}
    for tool in every:
        wanted.setdefault(tool.says, []).append(tool)
    once = [_for_all(alike) for alike in wanted.values()]
    return tuple(sorted(once, key=lambda tool: not tool.first))


def _for_all(alike: list[Tool]) -> Tool:
    """One tool for all the pieces that want it."""
    names = ", ".join(dict.fromkeys(tool.of for tool in alike if tool.of))
    return replace(alike[0], says=f"{alike[0].says} {names}".strip(), first=any(tool.first for tool in alike), of=names)


def _of_piece(piece: PieceResult, copy: Copy) -> Iterator[Tool]:
    style = copy.shop.style
    if isinstance(piece, BarResult):
        yield from _of_bar(piece, copy)
    elif isinstance(piece, RingResult):
        yield from _of_ring(piece, style)
    else:
        yield from _of_sheet(piece, style)


def _of_bar(bar: BarResult, copy: Copy) -> Iterator[Tool]:
    style, name = copy.shop.style, bar.spec.name
    yield Tool(f"tongs that hold {section(bar.stock_section, style)}", _missing(_thin(bar), copy.shop.tongs))
    for leg in bar.spec.path:
        if isinstance(leg, ScrollLeg):
            yield Tool(f"scroll form for {name}: its full-size line is among the templates", True)
        if isinstance(leg, EyeLeg):
            size = say_both(leg.inside_across, style, fit=True)
            yield Tool(f"mandrel or horn of {size} for the eye of", of=name)
    for twist in bar.twists:
        zone = say_both(twist.end - twist.start, style)
        turns = say_turns(abs(twist.twist.turns), style)
        yield Tool(f"vise and twisting wrench, {turns} over {zone}: for", of=name)
    yield from _holes(bar, copy)
    for child in bar.children:
        yield from _of_bar(child, copy)


def _thin(bar: BarResult) -> float:
    return min(bar.stock_section.width, bar.stock_section.thick)


def _missing(size: float, there: Iterable[float]) -> bool:
    """Whether a shop that told what it has, has none of this size."""
    known = tuple(there)
    return bool(known) and all(abs(size - one) > NEAR for one in known)


def _holes(bar: BarResult, copy: Copy) -> Iterator[Tool]:
    style = copy.shop.style
    for check in bar.holes:
        size = say_both(check.hole.size, style, fit=True)
        match check.hole.by:
            case HoleBy.DRILL:
                yield Tool(f"drill {size}")
            case HoleBy.PUNCH:
                yield Tool(f"punch {size}, over the pritchel hole")
            case HoleBy.SLIT:
                missing = _missing(check.hole.size, copy.shop.drifts)
                wanted = ": none of this size hangs on the wall, make it first" if missing else ""
                yield Tool(f"drift {size}{wanted}", missing)
                if check.slit is not None:
                    yield Tool(f"slitting chisel, slit {say_both(check.slit, style)} long")


def _of_ring(ring: RingResult, style: Style) -> Iterator[Tool]:
    name = ring.spec.name
    if ring.coil is not None:
        yield Tool(f"mandrel {say_both(ring.coil.mandrel, style, fit=True)} for {name}, spring-back taken off", True)
    elif ring.spec.closing is not Closing.OPEN:
        yield Tool(f"mandrel or cone for {name}: inside {say_both(ring.inside_across, style)}")


def _of_sheet(sheet: SheetResult, style: Style) -> Iterator[Tool]:
    yield Tool(f"paper pattern of {sheet.spec.name}, checked with its rule, cut out and laid on", True)
    if sheet.spec.seam.rivet:
        yield Tool(f"punch or drill for {say_both(sheet.spec.seam.rivet, style)} rivets, rivet set")


def _of_joint(joint: JointResult, style: Style) -> Iterator[Tool]:
    spec = joint.spec
    size = say_both(spec.size, style)
    if spec.kind is JointKind.RIVET:
        yield Tool(f"rivet set and holding-up block for {size} rivets")
    elif spec.kind is JointKind.TENON:
        yield Tool(f"monkey tool for a {size} tenon", True)
    elif spec.kind is JointKind.COLLAR:
        yield Tool("collar tongs or a collar block")
