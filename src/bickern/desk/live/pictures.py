"""Pictures of a piece for a page: true to scale, in the page's own ink, each with its words for who cannot see it."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from threading import Lock
from typing import Generic, TypeVar

from bickern.desk.piece_rows import cut_of, made_of
from bickern.measure.units.say import say_both, say_up_both
from bickern.measure.units.words import Style
from bickern.paper.copy import PieceResult
from bickern.paper.pens.svg import ON_SCREEN, svg
from bickern.paper.sheets.english import in_english
from bickern.paper.views.scale import say_scale, trimmed
from bickern.paper.views.to_scale import (
    Room,
    ToScale,
    bent_to_scale,
    drawn_to_scale,
    laid_out,
    pattern_to_scale,
    plain_to_scale,
    ring_to_scale,
    sheet_to_scale,
    stock_to_scale,
)
from bickern.parts.bar.result import BarResult, Mark
from bickern.parts.ring.spec import RingResult
from bickern.parts.sheet.result import SheetResult

__all__ = ["ON_THE_BENCH", "Picture", "Room", "pictures_of"]

T = TypeVar("T")
ON_THE_BENCH = Room(0.26, 0.16)
"""Room on a page where nobody said how much there is [m]."""


class Once(Generic[T]):
    """Something made when it is first asked for, and kept."""

    def __init__(self, make: Callable[[], T]) -> None:
        self._make: Callable[[], T] | None = make
        self._made: list[T] = []
        self._lock = Lock()

    def __call__(self) -> T:
        with self._lock:
            if self._make is not None:
                self._made.append(self._make())
                self._make = None
            return self._made[0]


@dataclass(frozen=True, slots=True)
class Shown:
    """A drawing put down as SVG in the page's own ink: `wide` and `high` [m] as drawn; `scale` 1.0 is full size.

    `at`: the scale in words; `says`: all that the drawing shows, told.
    """

    at: str
    says: str
    svg: str
    wide: float
    high: float
    scale: float


@dataclass(frozen=True, slots=True, eq=False)
class Picture:
    """One drawing, drawn when its SVG is first asked for.

    `name`: "bar" (straight, as cut, with its marks), "drawn" (drawn out and straight), "finished" or "pattern"; `of`:
    whose it is, the piece's own or a limb's name. `title`: a few words to stand above it.
    """

    name: str
    of: str
    title: str
    shown: Once[Shown]

    @property
    def at(self) -> str:
        """Its scale in words."""
        return self.shown().at

    @property
    def says(self) -> str:
        """All that it shows, told."""
        return self.shown().says

    @property
    def svg(self) -> str:
        """The drawing, in the page's own ink; one unit is one millimetre."""
        return self.shown().svg

    @property
    def wide(self) -> float:
        """Its width as drawn [m]."""
        return self.shown().wide

    @property
    def high(self) -> float:
        """Its height as drawn [m]."""
        return self.shown().high

    @property
    def scale(self) -> float:
        """Its scale; 1.0 is full size."""
        return self.shown().scale


def pictures_of(
    piece: PieceResult, style: Style, english: str = "US", room: Room = ON_THE_BENCH
) -> tuple[Picture, ...]:
    """All pictures of a piece: what to cut and mark first, then what comes of it."""
    if isinstance(piece, BarResult):
        return (
            *_straight(piece, style, english, room),
            *_bent(piece, style, room),
            *_limbs(piece, style, english, room),
        )
    return tuple(_ring(piece, style, room) if isinstance(piece, RingResult) else _sheet(piece, style, room))


def _picture(name: str, of: str, title: str, draws: Callable[[], ToScale], says: Callable[[], str]) -> Picture:
    return Picture(name, of, title, Once(lambda: _shown(of, title, draws(), says())))


def _shown(of: str, title: str, drawn: ToScale, says: str) -> Shown:
    picture, at = trimmed(drawn.drawing), say_scale(drawn.scale)
    told = f"{of}, {title[:1].lower()}{title[1:]}, {at}: {says}"
    box = picture.bounds
    return Shown(at, told, svg(picture, told, look=ON_SCREEN), box.width, box.height, drawn.scale)


def _straight(bar: BarResult, style: Style, english: str, room: Room, limb: str = "") -> Iterator[Picture]:
    """The bar as cut and, where the hammer or the drill changes it, as drawn out."""
    of = bar.spec.name
    cut = f"cut {say_up_both(bar.cut_this, style)} of {made_of(bar, style)}"
    title = "The bar, cut and marked" if bar.marks_on_stock else "The bar, cut"
    yield _picture(
        "bar", of, f"{limb}{title}", lambda: stock_to_scale(bar, room, style),
        lambda: in_english(_told(cut, bar.marks_on_stock, style), english),
    )  # fmt: skip
    if bar.marks_on_drawn or len(bar.runs) > 1 or bar.holes or bar.twists:
        title = in_english("Drawn out, still straight" if bar.bends else "Drawn out", english)
        yield _picture(
            "drawn", of, f"{limb}{title}", lambda: drawn_to_scale(bar, room, style),
            lambda: in_english(_told(f"{say_both(bar.length, style)} long", bar.marks_on_drawn, style), english),
        )  # fmt: skip


def _told(first: str, marks: tuple[Mark, ...], style: Style) -> str:
    return "; ".join([first, *(f"{mark.says} at {say_both(mark.at, style)}" for mark in marks)])


def _bent(bar: BarResult, style: Style, room: Room) -> Iterator[Picture]:
    overall = (("reach", bar.sizes.reach), ("across", bar.sizes.across), ("rise", bar.sizes.rise))
    sizes = ", ".join(f"{name} {say_both(size, style)}" for name, size in overall if size > 0)
    laid = laid_out(bar)
    scale = Once(lambda: laid.scale(room))
    for number in range(len(laid.sides)):
        title = "Finished" if number == 0 else "Finished, from aside"
        yield _picture("finished", bar.spec.name, title, _side(bar, number, scale, style), lambda: sizes)


def _side(bar: BarResult, number: int, scale: Once[float], style: Style) -> Callable[[], ToScale]:
    return lambda: bent_to_scale(bar, scale(), style, number)


def _limbs(bar: BarResult, style: Style, english: str, room: Room) -> Iterator[Picture]:
    """Split ends and branches, each by its own name."""
    for child in bar.children:
        yield from _straight(child, style, english, room, f"{child.spec.name}: ")
        yield from _limbs(child, style, english, room)


def _ring(ring: RingResult, style: Style, room: Room) -> Iterator[Picture]:
    of, cut = ring.spec.name, say_up_both(ring.cut_this, style)
    yield _picture(
        "bar", of, "The bar, cut", lambda: plain_to_scale(ring.spec.wire, ring.cut_this, room, style),
        lambda: f"cut {cut} of {made_of(ring, style)}",
    )  # fmt: skip
    inside = f"inside {say_both(ring.inside_across, style)}"
    yield _picture("finished", of, "Closed", lambda: ring_to_scale(ring, room, style), lambda: inside)


def _sheet(sheet: SheetResult, style: Style, room: Room) -> Iterator[Picture]:
    of, says = sheet.spec.name, f"in its blank, {cut_of(sheet, style)} of {made_of(sheet, style)}"
    for number, pattern in enumerate(sheet.patterns):
        made = f", cut {pattern.make}" if pattern.make > 1 else ""
        title = f"Pattern {pattern.name}{made}".strip()
        yield _picture("pattern", of, title, _laid(sheet, number, room, style), lambda: says)
    yield _picture(
        "finished", of, "Finished, from the side", lambda: sheet_to_scale(sheet, room), lambda: made_of(sheet, style)
    )


def _laid(sheet: SheetResult, number: int, room: Room, style: Style) -> Callable[[], ToScale]:
    return lambda: pattern_to_scale(sheet.patterns[number], room, style)
