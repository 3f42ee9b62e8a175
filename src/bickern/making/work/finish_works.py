"""What is done to the finished pieces: filed, brushed, oiled or blacked, read off the words of the job's finish."""

import re
from collections.abc import Callable, Iterator, Sequence

from bickern.iron.blend import section_at
from bickern.iron.section import hydraulic, perimeter
from bickern.making.shop import Shop
from bickern.making.work.fire import low_heat
from bickern.making.work.own_time import in_own_time
from bickern.making.work.paces import hands
from bickern.making.work.refusal import refusal
from bickern.making.work.result import NO_TIME, Work
from bickern.measure.spread import Spread
from bickern.measure.units.words import INCH
from bickern.parts.bar.result import BarResult, MetalRun
from bickern.parts.ring.spec import RingResult
from bickern.parts.set.pieces import PieceResult, parts_in
from bickern.parts.sheet.result import SheetResult

FINISH_WORDS: tuple[tuple[str, str], ...] = (
    (r"brush", "brush"),
    (r"scrub|scour|polish|bright", "scrub"),
    (r"\bfile[ds]?\b|\bfiling|\bgrind|\bground\b|\bsand", "file"),
    (r"galvani", "galvanise after"),
    (r"stove.?black|blacking|\bgraphite|stove polish", "black"),
    (r"\bpaint|lacquer|varnish|enamel|\bprimer", "paint"),
    (r"wax|\boil|linseed", "wax or oil"),
)
"""What in the words of a finish asks for which operation, in the order in which they are done."""
ALL_PIECES = "all pieces"
"""What a finish is given to."""
BLACK_HEAT_SAYS = "at black heat: warm enough that it smokes lightly and does not burn, no red anywhere"
FOOD_SAYS = "for food: raw linseed oil or beeswax, no driers, no boiled oil"
_FOOD = re.compile(r"\bfood|no driers|raw linseed|baked", re.IGNORECASE)


def works_of_finish(finish: str, pieces: Sequence[PieceResult], shop: Shop) -> tuple[Work, ...]:
    """Works of the finish on one whole set, minutes by its skin; () where the job names no finish.

    Brushed at red while it is still in the fire's heat; sheet, which would burn, is brushed cold. Wax and oil go on at
    black heat, which is warm and no work of the fire: `hot` is False, and the words say how warm. A piece that
    must not be heated is not brushed at red, and a set that holds one is not warmed for the wax.
    """
    if not finish.strip() or not pieces:
        return ()
    works = (w for does in operations_of(finish) for w in _DONE[does](finish, pieces))
    return in_own_time(works, shop.hand)


def operations_of(finish: str) -> tuple[str, ...]:
    """The operations that the words of a finish ask for, in the order in which they are done."""
    return tuple(does for words, does in FINISH_WORDS if re.search(words, finish, re.IGNORECASE))


def skin_of(piece: PieceResult) -> float:
    """Skin [m2] of all copies of a piece in one set: girth times length of bar, both faces of sheet."""
    if isinstance(piece, SheetResult):
        one = 2 * piece.area
    elif isinstance(piece, RingResult):
        return parts_in(piece) * piece.bare * perimeter(piece.spec.wire)
    else:
        one = _bar_skin(piece)
    return one * piece.spec.make


def filing_seconds(volume: float) -> Spread:
    """Seconds to file `volume` [m3] of steel away by hand: what a pad drawn too large costs (from memory, wide)."""
    return hands("file", volume)


TOO_WIDE = INCH / 16
"""How much too wide [m] a pad or a leaf is taken to be, to say what that costs (our choice)."""


def too_wide_seconds(work: Work) -> Spread:
    """Seconds at the vise to file off what a stretch spread `TOO_WIDE` has over along its length; 0 of other works."""
    if work.does != "spread" or work.after is None:
        return NO_TIME
    return filing_seconds(TOO_WIDE * work.after.thick * (work.zone[1] - work.zone[0]))


def dressing_seconds(area: float) -> Spread:
    """Seconds to file a face of `area` [m2] smooth with nothing much to take off (from memory, half to twice)."""
    return hands("file a face smooth", area)


def _bar_skin(bar: BarResult) -> float:
    return sum(_run_skin(run) for run in bar.runs) + sum(_bar_skin(child) for child in bar.children)


def _run_skin(run: MetalRun) -> float:
    """Girth along a run by Simpson's rule."""
    a, m, b = (perimeter(section_at(run.a, run.b, u)) for u in (0.0, 0.5, 1.0))
    return (run.end - run.start) * (a + 4 * m + b) / 6


def _skin(pieces: Sequence[PieceResult]) -> float:
    return sum(skin_of(p) for p in pieces)


def _single(does: str, seconds: Spread, says: str = "", case: str = "") -> Work:
    return Work(f"finish: {does}", ALL_PIECES, does, seconds=seconds, says=says, case=case)


def _brush(finish: str, pieces: Sequence[PieceResult]) -> Iterator[Work]:
    """At red where that is said, and for forged pieces only; else at the bench."""
    red = re.search(r"\bred\b|\bhot\b", finish, re.IGNORECASE)
    forged = [p for p in pieces if not isinstance(p, SheetResult) and not refusal(p)]
    if red and forged:
        for piece in forged:
            name = piece.spec.name
            work = Work(f"{name}: brush", name, "brush", seconds=hands("brush", skin_of(piece)), thin=_thin_of(piece))
            yield low_heat(work, piece.spec.steel)
    elif not red:
        yield _single("brush", hands("brush", _skin(pieces)), case="cold")


def _thin_of(piece: BarResult | RingResult) -> float:
    if isinstance(piece, RingResult):
        return hydraulic(piece.spec.wire)
    return min((hydraulic(end) for run in piece.runs for end in (run.a, run.b)), default=0.0)


def _file(finish: str, pieces: Sequence[PieceResult]) -> Iterator[Work]:
    yield _single("file", dressing_seconds(_skin(pieces)))


def _oil(finish: str, pieces: Sequence[PieceResult]) -> Iterator[Work]:
    """Warm; a set with a piece in it that must not be warmed, cold."""
    food = FOOD_SAYS if _FOOD.search(finish) else ""
    wiped = hands("wax or oil", _skin(pieces))
    coated = [p.spec.name for p in pieces if refusal(p)]
    if coated:
        says = f"cold, for {', '.join(coated)} must not be warmed"
        yield _single("wax or oil", wiped, f"{says}; {food}" if food else says, "coated")
        return
    number = sum(p.spec.make for p in pieces)  # a chain is dipped whole
    seconds = hands("warm and wipe one piece", min(number, _AT_ONCE)) + wiped
    yield _single("wax or oil", seconds, food or BLACK_HEAT_SAYS, "food" if food else "")


_AT_ONCE = 10
"""Of many small pieces no more than so many are warmed and wiped one by one (our estimate)."""


def _spread_on(does: str, what: str) -> Callable[[str, Sequence[PieceResult]], Iterator[Work]]:
    """An operation at the bench that goes by the skin alone."""

    def works(finish: str, pieces: Sequence[PieceResult]) -> Iterator[Work]:
        yield _single(does, hands(what, _skin(pieces)))

    return works


def _galvanise(finish: str, pieces: Sequence[PieceResult]) -> Iterator[Work]:
    yield _single("galvanise after", hands("pack for the galvaniser"))


_DONE: dict[str, Callable[[str, Sequence[PieceResult]], Iterator[Work]]] = {
    "brush": _brush,
    "scrub": _spread_on("scrub", "scrub bright"),
    "file": _file,
    "galvanise after": _galvanise,
    "black": _spread_on("black", "black or paint"),
    "paint": _spread_on("paint", "black or paint"),
    "wax or oil": _oil,
}
