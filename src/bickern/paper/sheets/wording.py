"""What was reckoned, in the words of the shop, always in both systems."""

from dataclasses import dataclass

from bickern.iron.section import Section, words_of
from bickern.measure.figure import Figure
from bickern.measure.finding import Finding, Weight
from bickern.measure.spread import Spread
from bickern.measure.units.say import (
    other_first,
    say_angle,
    say_area_both,
    say_both,
    say_decimal,
    say_length,
    say_section_both,
    say_up,
    say_volume_both,
)
from bickern.measure.units.words import INCH, MILLIMETRE, Shape, Style
from bickern.paper.copy import Copy, PieceResult
from bickern.parts.bar.result import BarResult, MetalRun
from bickern.parts.bar.tracks import EndShape
from bickern.parts.ring.spec import RingResult
from bickern.parts.set.pieces import parts_in
from bickern.parts.sheet.result import SheetResult

_WEIGHTS = {Weight.NOTE: "Note", Weight.WARN: "Think first", Weight.STOP: "STOP"}
_SAME = 1e-6


def section(bar: Section, style: Style) -> str:
    """`1/2 in sq (12.5 mm)`; a chisel edge and a point by name."""
    if bar.shape is Shape.POINT or max(bar.width, bar.thick) < 1e-7:
        return "a point"
    if bar.shape is Shape.FLAT and bar.thick < 1e-7:
        return f"chisel edge {say_both(bar.width, style)} wide"
    words = words_of(bar)
    return say_section_both(words.shape, words.sizes, style)


def stretch(run: MetalRun, style: Style) -> str:
    """A stretch of metal: from which section to which, and how long."""
    long = f"{say_both(run.end - run.start, style)} long"
    if run.outline is not None:
        name = "outline as drawn" if run.outline.shape is EndShape.FREE else str(run.outline.shape)
        wide, thick = say_both(run.outline.width, style), say_both(run.outline.thick, style)
        return f"{name}, {wide} wide, {thick} thick, {long}"
    if run.kept:
        return f"{section(run.a, style)} as it comes, {long}"
    if _alike(run.a, run.b):
        return f"{section(run.a, style)}, {long}"
    return f"{section(run.a, style)} to {section(run.b, style)}, {long}"


def _alike(a: Section, b: Section) -> bool:
    return a.shape is b.shape and abs(a.width - b.width) < _SAME and abs(a.thick - b.thick) < _SAME


def spread(value: Spread, style: Style) -> str:
    """A length and its range."""
    if say_both(value.low, style) == say_both(value.high, style):
        return say_both(value.value, style)
    return f"{say_both(value.low, style)} to {say_both(value.high, style)}"


def joint_names(copy: Copy) -> tuple[str, ...]:
    """What each joint is called: its ring, or its kind, numbered where there are several of that kind."""
    plain = [joint.spec.ring or str(joint.spec.kind) for joint in copy.joints]
    return tuple(
        f"{name} {plain[: i + 1].count(name)}" if plain.count(name) > 1 else name for i, name in enumerate(plain)
    )


def place(named: str) -> str:
    """A place of a piece in words: `scroll of arm` from `arm.scroll`."""
    piece, _, part = named.partition(".")
    return f"{part} of {piece}" if part else piece


def cut_pair(length: float, style: Style) -> tuple[str, str]:
    """What to cut, in the shop's system and in the other, each up to the next mark of its tape."""
    return say_up(length, style), say_up(length, other_first(style))


def from_what(piece: PieceResult, style: Style) -> str:
    """The bar or sheet that a piece is made from."""
    if isinstance(piece, BarResult):
        return section(piece.stock_section, style)
    if isinstance(piece, RingResult):
        return section(piece.spec.wire, style)
    return sheet_thickness(piece, style)


def sheet_thickness(sheet: SheetResult, style: Style) -> str:
    """`20 ga, .036 in (0.91 mm)`: the gauge never goes without its thickness."""
    return thickness(sheet.spec.thick, sheet.spec.gauge, style)


def thickness(thick: float, gauge: str, style: Style) -> str:
    """A thickness [m] in both systems, behind its gauge as it was written ("": in none)."""
    inches = say_decimal(thick / INCH, 3, style).removeprefix("0")
    both = f"{inches} in ({say_decimal(thick / MILLIMETRE, 2, style)} mm)"
    return f"{gauge}, {both}" if gauge else both


def figure(one: Figure, style: Style) -> str:
    """A pattern's figure in words by its unit; lengths as fits, for dividers are set finer than a bar is cut."""
    match one.unit:
        case "m":
            return say_both(one.value, style, fit=True)
        case "rad":
            return say_angle(one.value, style)
        case "m2":
            return say_area_both(one.value, style)
        case "m3":
            return say_volume_both(one.value, style)
    return say_decimal(one.value, 3, style)


@dataclass(frozen=True, slots=True)
class Cut:
    """Something cut from stock of its own: a piece, or a branch that is welded on; `count` for the whole job."""

    piece: PieceResult
    name: str
    count: int


def to_cut(copy: Copy) -> tuple[Cut, ...]:
    """All that is cut: every piece in the job's order, and after a bar the branches welded on to it."""
    found: list[Cut] = []
    for piece in copy.pieces:
        found.append(Cut(piece, piece.spec.name, count(piece, copy)))
        if isinstance(piece, BarResult):
            found += _welded_on(piece, count(piece, copy))
    return tuple(found)


def _welded_on(bar: BarResult, many: int) -> list[Cut]:
    """Branches with stock of their own; a split end is part of its parent's stock, but may carry branches."""
    found: list[Cut] = []
    for branch, child in zip(bar.spec.branches, bar.children, strict=False):
        made = many * child.spec.make
        if branch.at is not None:
            found.append(Cut(child, f"{bar.spec.name}: {child.spec.name}", made))
        found += _welded_on(child, made)
    return found


def count(piece: PieceResult, copy: Copy) -> int:
    """How many of a piece the whole job wants; of a chain, its links."""
    return parts_in(piece) * copy.job.make


def finding(one: Finding, owner: str = "") -> tuple[str, str]:
    """How much a finding matters, and what it says of its `owner` with what to try."""
    head = "" if not owner or one.says.startswith(owner) else f"{owner}: "
    return _WEIGHTS[one.weight], f"{head}{sentence(one.says)} {sentence(one.try_this)}".strip()


def owners(copy: Copy) -> dict[tuple[str, str], str]:
    """The names of the pieces and joints that each finding (by name and words) is of."""
    named = [(piece.spec.name, piece.findings) for piece in copy.pieces]
    named += [(name, joint.findings) for name, joint in zip(joint_names(copy), copy.joints, strict=True)]
    found: dict[tuple[str, str], list[str]] = {}
    for name, findings in named:
        for one in findings:
            found.setdefault((one.name, one.says), []).append(name)
    return {key: ", ".join(dict.fromkeys(names)) for key, names in found.items()}


def sentence(says: str) -> str:
    """A capital at its head and a stop at its end; the marks round words of the job file are left out."""
    text = says.strip().replace("`", "")
    text = text[:1].upper() + text[1:]
    return text if not text or text[-1] in ".!?:" else f"{text}."


def told(copy: Copy) -> tuple[Finding, ...]:
    """Every finding of the job, its pieces and its joints, each once, the gravest first."""
    parts = (copy, *copy.pieces, *copy.joints)
    every = {(one.name, one.says): one for part in parts for one in part.findings}
    return tuple(sorted(every.values(), key=lambda one: -one.weight))


def overall(bar: BarResult, style: Style) -> str:
    """Overall sizes of the bent bar; a straight one has a length only."""
    sizes = [bar.sizes.reach, bar.sizes.across, bar.sizes.rise]
    return " x ".join(say_both(size, style) for size in sizes if size > 1e-6)


def short(length: float, style: Style) -> str:
    """A length in the shop's first system alone, where the other stands beside it."""
    return say_length(length, style)
