"""Which tools a job wants, in words, and which of them must be made first."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from bickern.making.heats.tools_first import FirstTool, tools_of
from bickern.measure.units.say import say_both, say_turns
from bickern.measure.units.words import Style
from bickern.paper.copy import Copy, PieceResult
from bickern.paper.sheets.wording import section
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import EyeLeg, HoleBy, ScrollLeg
from bickern.parts.joint.spec import JointKind, JointResult
from bickern.parts.ring.spec import Closing, RingResult
from bickern.parts.sheet.result import SheetResult


@dataclass(frozen=True, slots=True)
class Tool:
    """A tool by name and size, whether it is to be made (or found) before the fire is lit, and the piece it is `of`."""

    says: str
    first: bool = False
    of: str = ""


Firsts = frozenset[tuple[str, float]]
"""(what, size [m]) of every tool that must be made first; size 0 where a drawing tells it."""


def tools(copy: Copy) -> tuple[Tool, ...]:
    """The tools beyond fire, anvil, hammer and tape, each once for all its pieces, those to make first in front."""
    style = copy.shop.style
    firsts = frozenset((tool.what, tool.size) for tool in tools_of(copy.pieces, copy.joints, copy.shop))
    every = [tool for piece in copy.pieces for tool in _of_piece(piece, style, firsts)]
    every += [tool for joint in copy.joints for tool in _of_joint(joint, style, firsts)]
    wanted: dict[str, list[Tool]] = {}
    for tool in every:
        wanted.setdefault(tool.says, []).append(tool)
    once = [_for_all(alike) for alike in wanted.values()]
    return tuple(sorted(once, key=lambda tool: not tool.first))


def _for_all(alike: list[Tool]) -> Tool:
    """One tool for all the pieces that want it."""
    names = ", ".join(dict.fromkeys(tool.of for tool in alike if tool.of))
    return replace(alike[0], says=f"{alike[0].says} {names}".strip(), first=any(tool.first for tool in alike), of=names)


def _of_piece(piece: PieceResult, style: Style, firsts: Firsts) -> Iterator[Tool]:
    if isinstance(piece, BarResult):
        yield from _of_bar(piece, style, firsts)
    elif isinstance(piece, RingResult):
        yield from _of_ring(piece, style, firsts)
    else:
        yield from _of_sheet(piece, style, firsts)


def _of_bar(bar: BarResult, style: Style, firsts: Firsts) -> Iterator[Tool]:
    name, thin = bar.spec.name, min(bar.stock_section.width, bar.stock_section.thick)
    yield Tool(f"tongs that hold {section(bar.stock_section, style)}", (FirstTool.TONGS, thin) in firsts)
    for leg in bar.spec.path:
        if isinstance(leg, ScrollLeg):
            yield Tool(
                f"scroll form for {name}: its full-size line is among the templates", (FirstTool.FORM, 0.0) in firsts
            )
        if isinstance(leg, EyeLeg):
            size = say_both(leg.inside_across, style, fit=True)
            yield Tool(f"mandrel or horn of {size} for the eye of", of=name)
    for twist in bar.twists:
        zone = say_both(twist.end - twist.start, style)
        turns = say_turns(abs(twist.twist.turns), style)
        yield Tool(f"vise and twisting wrench, {turns} over {zone}: for", of=name)
    yield from _holes(bar, style, firsts)
    for child in bar.children:
        yield from _of_bar(child, style, firsts)


def _holes(bar: BarResult, style: Style, firsts: Firsts) -> Iterator[Tool]:
    for check in bar.holes:
        size = say_both(check.hole.size, style, fit=True)
        match check.hole.by:
            case HoleBy.DRILL:
                yield Tool(f"drill {size}")
            case HoleBy.PUNCH:
                yield Tool(f"punch {size}, over the pritchel hole")
            case HoleBy.SLIT:
                missing = (FirstTool.DRIFT, check.hole.size) in firsts
                wanted = ": none of this size hangs on the wall, make it first" if missing else ""
                yield Tool(f"drift {size}{wanted}", missing)
                if check.slit is not None:
                    yield Tool(f"slitting chisel, slit {say_both(check.slit, style)} long")


def _of_ring(ring: RingResult, style: Style, firsts: Firsts) -> Iterator[Tool]:
    name = ring.spec.name
    if ring.coil is not None:
        first = (FirstTool.MANDREL, ring.coil.mandrel) in firsts
        yield Tool(f"mandrel {say_both(ring.coil.mandrel, style, fit=True)} for {name}, spring-back taken off", first)
    elif ring.spec.closing is not Closing.OPEN:
        yield Tool(f"mandrel or cone for {name}: inside {say_both(ring.inside_across, style)}")


def _of_sheet(sheet: SheetResult, style: Style, firsts: Firsts) -> Iterator[Tool]:
    first = (FirstTool.PATTERN, 0.0) in firsts
    yield Tool(f"paper pattern of {sheet.spec.name}, checked with its rule, cut out and laid on", first)
    if sheet.spec.seam.rivet:
        yield Tool(f"punch or drill for {say_both(sheet.spec.seam.rivet, style)} rivets, rivet set")


def _of_joint(joint: JointResult, style: Style, firsts: Firsts) -> Iterator[Tool]:
    spec = joint.spec
    size = say_both(spec.size, style)
    if spec.kind is JointKind.RIVET:
        yield Tool(f"rivet set and holding-up block for {size} rivets")
    elif spec.kind is JointKind.TENON:
        yield Tool(f"monkey tool for a {size} tenon", (FirstTool.MONKEY, spec.size) in firsts)
    elif spec.kind is JointKind.COLLAR:
        yield Tool("collar tongs or a collar block")
