"""Work: one thing done to iron, and what it takes."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from bickern.iron.section import Section
from bickern.measure.spread import Spread, sharp

NO_TIME = sharp(0.0)


@dataclass(frozen=True, slots=True)
class Work:
    """One thing done to one piece (or to a joint), read off what was reckoned. SI: metres, radians, kelvin, seconds.

    `key` is unlike all others of the job ("arm: draw tip"). `piece` names the piece, or the joint's first piece.
    `does` is the operation ("taper", "draw", "punch" ... the words that cautions, faults and rules hang on; the rows
    are in `ways`). `name`: the entry of the track ("tip", "palm", "upper screw"); "" for the whole piece.
    `zone`: from where to where on the finished bar, from its datum end; of sheet, rings and joints (0, 0).
    `hot`: whether it wants the fire; `start` and `stop` [K] are then the heat to pull at and to stop at.
    `before`, `after`: the section worked and what it is to become (None where no section changes). `amount`: angle of
    a bend [rad], turns of a twist, size of a hole, a rivet or a weld [m]; `radius` [m] of a bend.
    `metal` [m3] moved; `energy` [J] of ideal work; `blows` at the shop's hammer (0: no hammering);
    `seconds` of hands at work, hot or cold. `thin` [m]: area over girth of the metal while it is worked, by which its
    heat lasts: of what is forged half-way from what it was to what it becomes, else the mean along the zone.
    `whole`: must be begun and ended in one heat (a twist, a weld). `runs`, `bends`, `twists`, `holes`: what is done
    afterwards, by number in the piece's result. `says`: what is special to this one, in words; usually "".
    `child`: names of split ends or branches from the bar down to the one that is worked; () the bar itself.
    `with_pieces`: the other pieces that a joint takes in. `sheet`: thin metal that gives seconds, not minutes.
    `case`: which of the ways of doing it, where sizes alone do not tell ("link", "tenon", "cold"); usually "".
    """

    key: str
    piece: str
    does: str
    name: str = ""
    zone: tuple[float, float] = (0.0, 0.0)
    hot: bool = False
    start: float = 0.0
    stop: float = 0.0
    before: Section | None = None
    after: Section | None = None
    amount: float = 0.0
    radius: float = 0.0
    metal: float = 0.0
    energy: float = 0.0
    blows: Spread = NO_TIME
    seconds: Spread = NO_TIME
    thin: float = 0.0
    sheet: bool = False
    whole: bool = False
    runs: tuple[int, ...] = ()
    bends: tuple[int, ...] = ()
    twists: tuple[int, ...] = ()
    holes: tuple[int, ...] = ()
    says: str = ""
    child: tuple[str, ...] = ()
    with_pieces: tuple[str, ...] = ()
    case: str = ""


def unlike(works: Iterable[Work]) -> tuple[Work, ...]:
    """The works with keys that all differ: the second of one key is told as `... 2`."""
    seen: dict[str, int] = {}
    made = []
    for work in works:
        seen[work.key] = number = seen.get(work.key, 0) + 1
        made.append(work if number == 1 else replace(work, key=f"{work.key} {number}"))
    return tuple(made)
