"""The metal track laid out: sections carried along, shoulders, faces kept in line, ends with an outline."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from bickern.iron.section import Section
from bickern.measure.spread import Spread
from bickern.measure.units.words import Shape
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.result import MetalRun
from bickern.parts.bar.tracks import Amount, BarSpec, Blank, EndOutline, Face, Metal, SectionGoal
from bickern.parts.bar.volume import run_volume, scale_loss

Key = tuple[str, int]
"""What is unknown: ("metal", i), ("path", i) or ("size", i), i being the entry's place in its track."""
Values = Mapping[Key, float]
Offset = tuple[float, float]

CORNERED = (Shape.SQUARE, Shape.FLAT, Shape.HEXAGON, Shape.OCTAGON)
_SAME = 1e-9


@dataclass(frozen=True, slots=True)
class Stretch:
    """Where one named entry of a track lies on the finished bar [m]."""

    name: str
    start: float
    end: float


@dataclass(frozen=True, slots=True)
class Laid:
    """The metal track laid: runs in order, the stretch of each entry, and the length [m]."""

    runs: tuple[MetalRun, ...]
    entries: tuple[Stretch, ...]
    length: float


@dataclass(frozen=True, slots=True)
class _Carried:
    section: Section
    offset: Offset = (0.0, 0.0)
    roll: float = 0.0


@dataclass(frozen=True, slots=True)
class _End:
    section: Section
    offset: Offset


def same_section(a: Section, b: Section) -> bool:
    """Whether two sections have one shape and one size (corner fullness aside)."""
    sizes = ((a.width, b.width), (a.thick, b.thick), (a.wall, b.wall))
    return a.shape is b.shape and all(abs(p - q) < _SAME for p, q in sizes)


def amount(value: Amount, values: Values, key: Key) -> float:
    """A length given, or the trial value of one left open, [m]."""
    return values[key] if isinstance(value, Blank) or key in values else value


def filled(goal: SectionGoal, size: float) -> Section:
    """The section asked for with its open size [m] put in."""
    section = goal.section
    if goal.open_size == "width":
        return replace(section, width=size)
    if goal.open_size == "thick":
        return replace(section, thick=size)
    if goal.open_size == "both":
        return replace(section, width=size, thick=size / 2 if section.shape is Shape.HALF_ROUND else size)
    return section


def lay_metal(spec: BarSpec, stock: Section, rules: BarRules, values: Values) -> Laid:
    """Lay the metal track of `spec` from `stock`, with `values` for what is open."""
    carried, at = _Carried(stock), 0.0
    runs: list[MetalRun] = []
    entries: list[Stretch] = []
    for i, entry in enumerate(spec.metal):
        length = amount(entry.length, values, ("metal", i))
        laid, carried = _lay_entry(entry, (i, at, length), carried, stock, rules, values)
        runs.extend(laid)
        entries.append(Stretch(entry.name, at, at + length))
        at += length
    return Laid(tuple(runs), tuple(entries), at)


def with_losses(laid: Laid, losses: tuple[Spread, ...]) -> Laid:
    """The metal with the share that the fire takes of each run put in; as it is where none are given."""
    if not losses:
        return laid
    runs = zip(laid.runs, losses, strict=True)
    return replace(laid, runs=tuple(replace(run, loss=loss) for run, loss in runs))


def _lay_entry(
    entry: Metal, spot: tuple[int, float, float], before: _Carried, stock: Section, rules: BarRules, values: Values
) -> tuple[list[MetalRun], _Carried]:
    index, at, length = spot
    if entry.outline is not None:
        return [_outlined(entry, entry.outline, at, length, before, rules)], before
    a, b = _ends(entry, index, before, stock, rules, values)
    roll = before.roll if entry.start is None and entry.end is None and not entry.roll else entry.roll
    ramp = entry.shoulder if entry.start is not None and index > 0 else 0.0
    runs = [_run(entry.name, at + ramp, length - ramp, a, b, roll, stock, rules)]
    if ramp > 0.0:
        name = f"{entry.name} shoulder" if entry.name else "shoulder"
        runs.insert(0, _run(name, at, ramp, _End(before.section, before.offset), a, roll, stock, rules))
    return runs, _Carried(b.section, b.offset, roll)


def _ends(
    entry: Metal, index: int, before: _Carried, stock: Section, rules: BarRules, values: Values
) -> tuple[_End, _End]:
    size = values.get(("size", index), 0.0)
    if entry.start is None:
        a = _End(before.section, before.offset)
    else:
        section = _forged(filled(entry.start, size), stock, rules)
        a = _End(section, _offset(entry, before, section))
    if entry.end is not None:
        section = _forged(filled(entry.end, size), stock, rules)
        return a, _End(section, _offset(entry, before, section))
    kept_off_line = entry.start is None and entry.offset != (0.0, 0.0)
    return a, _End(a.section, entry.offset if kept_off_line else a.offset)


def _forged(section: Section, stock: Section, rules: BarRules) -> Section:
    if section.shape not in CORNERED or section.fullness != 1.0 or same_section(section, stock):
        return section
    return replace(section, fullness=rules.corner_fullness)


def _offset(entry: Metal, before: _Carried, section: Section) -> Offset:
    if entry.flush is None:
        return entry.offset
    left, up = before.offset
    wider = (before.section.width - section.width) / 2
    thicker = (before.section.thick - section.thick) / 2
    across, over = {
        Face.FRONT: (0.0, thicker),
        Face.BACK: (0.0, -thicker),
        Face.LEFT: (wider, 0.0),
        Face.RIGHT: (-wider, 0.0),
    }[entry.flush]
    return left + across + entry.offset[0], up + over + entry.offset[1]


def _run(
    name: str, at: float, length: float, a: _End, b: _End, roll: float, stock: Section, rules: BarRules
) -> MetalRun:
    kept = same_section(a.section, stock) and same_section(b.section, stock)
    volume = run_volume(a.section, b.section, length)
    loss = scale_loss(volume, length, (a.section, b.section), kept, rules)
    return MetalRun(name, at, at + length, a.section, b.section, volume, loss, kept, roll, a.offset, b.offset)


def _outlined(
    entry: Metal, outline: EndOutline, at: float, length: float, before: _Carried, rules: BarRules
) -> MetalRun:
    flat = Section(Shape.FLAT, outline.width, outline.thick)
    volume = run_volume(flat, flat, length, outline)
    loss = scale_loss(volume, length, (flat, flat), False, rules)
    offset = _offset(entry, before, flat)
    return MetalRun(entry.name, at, at + length, flat, flat, volume, loss, False, entry.roll, offset, offset, outline)
