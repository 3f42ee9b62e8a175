"""Named places on pieces: which piece a joint means, and where along a bar its place lies."""

from bickern.iron.blend import section_at
from bickern.iron.section import Section
from bickern.parts.bar.result import BarResult, MetalRun
from bickern.parts.bar.tracks import EyeLeg
from bickern.parts.set.pieces import PieceResult

_SHARES = {"": 0.5, "bar": 0.5, "start": 0.0, "middle": 0.5, "end": 1.0}
"""Where along a bar a joint stands that names no part of it, and on a named part (`start of stem`)."""


def piece_named(name: str, pieces: dict[str, PieceResult]) -> PieceResult | None:
    """A piece by its name, or by the name of one of several (`links 2`)."""
    head, _, last = name.rpartition(" ")
    return pieces.get(name) or (pieces.get(head) if last.isdigit() else None)


def split_place(place: str, pieces: dict[str, PieceResult]) -> tuple[PieceResult | None, str]:
    """`arm.palm` as the piece and the name of its part ("" for the whole)."""
    name, _, spot = place.partition(".")
    return piece_named(name, pieces), spot


def run_named(bar: BarResult, spot: str) -> MetalRun | None:
    """The stretch of metal of that name."""
    return next((run for run in bar.runs if run.name == spot), None) if spot else None


def eye_named(bar: BarResult, spot: str) -> EyeLeg | None:
    """The eye of that name."""
    return next((leg for leg in bar.spec.path if isinstance(leg, EyeLeg) and leg.name == spot), None) if spot else None


def section_of_eye(bar: BarResult, eye: EyeLeg) -> Section:
    """The section that an eye is bent of."""
    return bar.runs[0].a if bar.spec.path[0] is eye else bar.runs[-1].b


def where_on(bar: BarResult, spot: str) -> float | None:
    """How far along the finished bar [m] a named part stands (its middle, unless `start of` or `end of` it is said)."""
    if spot in _SHARES:
        return _SHARES[spot] * bar.length
    said, _, name = spot.partition(" of ")
    share, name = (_SHARES[said], name) if name and said in _SHARES else (0.5, spot)
    spans = [(run.start, run.end) for run in bar.runs if run.name == name]
    spans += [(bend.start, bend.end) for bend in bar.bends if bend.name == name]
    spans += [(hole.at, hole.at) for hole in bar.holes if name in ("holes", hole.hole.name)]
    return spans[0][0] + share * (spans[0][1] - spans[0][0]) if spans else None


def section_on(bar: BarResult, spot: str) -> Section | None:
    """The bar's section at a named part; None where no part has that name."""
    at = where_on(bar, spot)
    return None if at is None else section_at_place(bar.runs, at)


def section_at_place(runs: tuple[MetalRun, ...], at: float) -> Section | None:
    """The section at a place [m] along a finished bar; None off its ends."""
    for run in runs:
        if run.start <= at <= run.end and run.end > run.start:
            return section_at(run.a, run.b, (at - run.start) / (run.end - run.start))
    return None


def one_of(spot: str, name: str) -> bool:
    """Whether a place is that of a name, or that of one of several so named (`lugs 1` of `lugs`)."""
    head, _, last = spot.rpartition(" ")
    return bool(name) and (spot == name or (head == name and last.isdigit()))


def number_of(spot: str) -> int | None:
    """Which one of several is meant (`lugs 1`), None where all are."""
    last = spot.rpartition(" ")[2]
    return int(last) if last.isdigit() and last != spot else None
