"""What in the rack is meant by a few words: a size near to one told, or words that stand beside a piece."""

from collections.abc import Callable, Iterable, Sequence
from functools import partial

from bickern.desk.rack.rack import Keeper
from bickern.iron.gauge import resolve
from bickern.iron.section import Section, section_from
from bickern.making.stock.rack import Stock, StockBar
from bickern.measure.finding import Finding, stop
from bickern.measure.units.read import read_length, read_section, read_thickness
from bickern.measure.units.text import shown
from bickern.measure.units.words import Shape

NEAR = 0.07
"""Share by which a size may differ and still be near: 10 mm for 3/8, not 1/2 (choice of ours)."""
SAME = 0.01
"""The same, for a size that is sold under both systems' names: 3/8 is 9.5 mm (choice of ours)."""
MOST_WORDS = 12
"""Words of one size at most, as `1 1/2 x 1 / 8 in sq tube`."""

Fits = Callable[[Stock], float | None]
"""How far a piece is from what is meant (0: it is that); None: it is not meant at all."""


def found_in(pieces: Iterable[Stock], words: Sequence[str], by: Keeper) -> tuple[Stock, ...]:
    """The pieces that all words fit, those that fit best first, else in their order."""
    wanted = _wanted(" ".join(words).split(), by)
    if not wanted:
        return ()
    scored = [(far, piece) for piece in pieces if (far := _far(piece, wanted)) is not None]
    return tuple(piece for _, piece in sorted(scored, key=lambda one: one[0]))


def of_section(pieces: Iterable[Stock], said: str, by: Keeper) -> tuple[Stock, ...] | Finding:
    """Bars of one section, or sheets of one thickness, by whichever system's name."""
    fits = _size(said, by, SAME)
    if fits is None:
        return stop("not-a-section", f"{shown(said)} is no section and no thickness", "write `3/8 sq` or `18 ga`")
    return tuple(p for p in pieces if fits(p) is not None)


def _far(piece: Stock, wanted: Sequence[Fits]) -> float | None:
    apart = [fits(piece) for fits in wanted]
    return None if any(one is None for one in apart) else sum(one for one in apart if one is not None)


def _wanted(words: Sequence[str], by: Keeper) -> list[Fits]:
    """The words from left to right, as many at a time as can be read as one size."""
    wanted: list[Fits] = []
    at = 0
    while at < len(words):
        size, taken = _longest(words[at : at + MOST_WORDS], by)
        text = partial(_told_beside, " ".join(words[at : at + taken]).casefold())
        wanted.append(text if size is None else partial(_either, size, text))
        at += taken
    return wanted


def _longest(words: Sequence[str], by: Keeper) -> tuple[Fits | None, int]:
    for count in range(len(words), 0, -1):
        size = _size(" ".join(words[:count]), by, NEAR) if any(c.isdigit() for c in words[0]) else None
        if size is not None:
            return size, count
    return None, 1


def _either(size: Fits, text: Fits, piece: Stock) -> float | None:
    far = size(piece)
    return text(piece) if far is None else far


def _told_beside(words: str, piece: Stock) -> float | None:
    """Words that stand beside a piece as they are; an id only whole, for B1 is not B12."""
    if words == piece.id.casefold():
        return 0.0
    kind = str(piece.section.shape) if isinstance(piece, StockBar) else f"sheet {piece.gauge}"
    texts = (kind, piece.steel, piece.coating, piece.place, piece.remark, "offcut" if piece.offcut else "")
    return 0.0 if any(words in text.casefold() for text in texts) else None


def _size(said: str, by: Keeper, near: float) -> Fits | None:
    """What a size means: a section, a thickness of sheet, or a bare size that either may have."""
    system = by.system or by.shop.style.first
    words = read_section(said, system).value
    section = section_from(words).value if words is not None else None
    if section is not None and section.shape is not Shape.POINT:
        return partial(_near_section, section, near)
    thick = read_thickness(said, system).value
    if thick is not None and not isinstance(thick, float):
        read = resolve(thick, by.shop.gauge).value
        return None if read is None else partial(_near_sheet, read, near)
    length = read_length(said, system).value
    return None if length is None else partial(_near_any, length, near)


def _near_section(section: Section, near: float, piece: Stock) -> float | None:
    if not isinstance(piece, StockBar) or piece.section.shape is not section.shape:
        return None
    pairs = ("width", "thick", "wall") if section.wall else ("width", "thick")
    return _worst([_apart(getattr(piece.section, n), getattr(section, n)) for n in pairs], near)


def _near_sheet(thick: float, near: float, piece: Stock) -> float | None:
    return None if isinstance(piece, StockBar) else _worst([_apart(piece.thick, thick)], near)


def _near_any(size: float, near: float, piece: Stock) -> float | None:
    sizes = (piece.section.width, piece.section.thick) if isinstance(piece, StockBar) else (piece.thick,)
    return _worst([min(_apart(one, size) for one in sizes)], near)


def _apart(one: float, other: float) -> float:
    return abs(one - other) / other


def _worst(apart: Sequence[float], near: float) -> float | None:
    return worst if (worst := max(apart)) <= near else None
