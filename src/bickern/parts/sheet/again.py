"""The flat skin of a piece that has been reckoned, laid out again: what its result does not carry along."""

from dataclasses import dataclass

from bickern.geometry.develop.pattern import Development
from bickern.parts.sheet.cut import Range
from bickern.parts.sheet.lay import laid, parted
from bickern.parts.sheet.net import Net, base_length, net_of
from bickern.parts.sheet.neutral import on_middle
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.spec import Surface


@dataclass(frozen=True, slots=True)
class Skin:
    """One part of a skin: how it rolls up, its net, and what part of the round it covers."""

    development: Development
    net: Net
    covers: Range


def middle_of(result: SheetResult) -> Surface:
    """The surface with its sizes on the middle of the sheet (a pan: over the outside)."""
    return on_middle(result.spec.surface, result.spec.thick, result.spec.sized)


def skins_of(result: SheetResult) -> tuple[Skin, ...]:
    """The parts of a rolled or folded skin in order round, each for itself where patterns are alike."""
    spec = result.spec
    whole = laid(middle_of(result)).value
    parts = parted(whole, spec.parts).value if whole is not None else None
    if parts is None:
        raise ValueError("a piece that was reckoned can be laid out again")
    return tuple(
        Skin(part, net_of(part, spec.parts), covers) for part, covers in zip(parts, covered(parts), strict=True)
    )


def covered(parts: tuple[Development, ...]) -> tuple[Range, ...]:
    """What part of the way round (0..1) each part covers, by the length of its bottom."""
    lengths = [base_length(p) for p in parts]
    whole, done = sum(lengths), 0.0
    ranges = []
    for length in lengths:
        ranges.append((done / whole, (done + length) / whole))
        done += length
    return tuple(ranges)
