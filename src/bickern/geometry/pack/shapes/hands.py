"""Two searches at once, each in a process of its own: the better one counts, and what is lost in one is not missed."""

import json
import math
import queue
import threading
from collections.abc import Callable
from dataclasses import dataclass, field, replace

from bickern.geometry.pack.child import Lost, in_child
from bickern.geometry.pack.shapes.alone import Asked, alone, checked, nest_of
from bickern.geometry.pack.shapes.board import metal_of
from bickern.geometry.pack.shapes.result import Laid, Nest

HANDS = 2
"""Searches at once."""
LOOSE = 0.25
"""How freely the second search draws the order of its first laying."""
LOOK = 0.02
"""Seconds between looks at `keep_going`."""
DAY = 86_400.0
"""Seconds that a search may take at most; whoever asks says earlier when to stop."""

KeepGoing = Callable[[], bool]
Report = Callable[[str], None]


@dataclass(slots=True)
class _Hand:
    """One search: what it said, after how many moves, and how it ended (None: it has not)."""

    said: list[tuple[int, Nest]] = field(default_factory=list)
    moves: int = 0
    ended: "tuple[Nest, int] | Lost | None" = None


def by_hands(asked: Asked, keep_going: KeepGoing, report: Report) -> Nest | Lost:
    """The better of two searches; Lost where both were before either had laid anything.

    Once one has laid everything, the other may make as many moves as that one did: so which one is better does not
    hang on which was quicker.
    """
    hands = [_Hand() for _ in range(HANDS)]
    stop = threading.Event()
    said: queue.Queue[str] = queue.Queue()
    threads = [
        threading.Thread(target=_work, args=(asked, n, hands, stop, said.put), daemon=True) for n in range(HANDS)
    ]
    going = True
    try:
        for thread in threads:
            thread.start()
        while going and (alive := [thread for thread in threads if thread.is_alive()]):
            alive[0].join(LOOK)
            _tell(said, report)
            going = keep_going()
    finally:
        stop.set()
        for thread in threads:
            thread.join()
    _tell(said, report)
    return _best(asked, hands, going)


def _tell(said: "queue.Queue[str]", report: Report) -> None:
    """Passes on what was said, in the thread of whoever asked."""
    while not said.empty():
        report(said.get())


def _work(asked: Asked, number: int, hands: list[_Hand], stop: threading.Event, say: Report) -> None:
    """One search from its start to its end, in a thread that listens to its process."""
    hand = hands[number]
    mine = replace(asked, seed=asked.seed + number * 1_000_003, loose=LOOSE * number, raster=number == 0)

    def hear(line: str) -> None:
        hand.moves, laid = json.loads(line)
        if laid:
            made = nest_of([Laid(*one) for one in laid], asked)
            best = max((worth(asked, nest) for one in hands for _, nest in one.said), default=(-math.inf, 0.0))
            hand.said.append((hand.moves, made))
            if worth(asked, made) > best:
                say(words(asked, made))

    def go_on() -> bool:
        return not stop.is_set() and hand.moves <= _limit(hands)

    ended = in_child("shapes.hands:searched", mine, DAY, keep_going=go_on, report=hear)
    hand.ended = ended if isinstance(ended, Lost) else _answer(ended)


def searched(asked: object, report: Report) -> tuple[Nest, int]:
    """The working side: one search, every better nest told in a line."""
    assert isinstance(asked, Asked)

    def heard(made: Nest | None, moves: int) -> None:
        laid = [] if made is None else [[one.part, one.remnant, one.turn, one.x, one.y] for one in made.laid]
        report(json.dumps([moves, laid]))

    return alone(asked, lambda: True, heard)


def words(asked: Asked, made: Nest) -> str:
    """How far a search is."""
    used = len({one.remnant for one in made.laid})
    every = sum(part.count for part in asked.parts)
    return f"{len(made.laid)} of {every} laid on {used} sheet{'s' if used != 1 else ''}"


# ---- which is better


def _limit(hands: list[_Hand]) -> float:
    """Moves after which a search need not go on: those of the quickest that laid everything."""
    through = [hand.ended[1] for hand in hands if isinstance(hand.ended, tuple) and not hand.ended[0].short]
    return min(through, default=math.inf)


def _best(asked: Asked, hands: list[_Hand], to_the_end: bool) -> Nest | Lost:
    limit = _limit(hands)
    found = [nest for hand in hands for moves, nest in _of(hand) if moves <= limit]
    lost = [hand.ended for hand in hands if isinstance(hand.ended, Lost)]
    if not found and len(lost) == len(hands) and to_the_end:
        return lost[0]
    best = max(found, key=lambda nest: worth(asked, nest), default=nest_of([], asked))
    if not best.short:
        return checked(best, asked)
    cut_short = not to_the_end or len(lost) == len(hands)
    why = f"a search was lost ({lost[0].why})" if to_the_end and lost else ""
    return replace(checked(best, asked), cut_short=cut_short, why=why)


def _of(hand: _Hand) -> list[tuple[int, Nest]]:
    last = [(hand.ended[1], hand.ended[0])] if isinstance(hand.ended, tuple) else []
    return [*last, *hand.said]


def worth(asked: Asked, made: Nest) -> tuple[float, float]:
    """What makes one nest better than another: more metal laid, then less cost."""
    short = dict(made.short)
    missing = math.fsum(metal_of(part) * short.get(part.key, 0) for part in asked.parts)
    return -round(missing, 12), -made.cost


def _answer(ended: object) -> tuple[Nest, int] | Lost:
    if isinstance(ended, tuple) and len(ended) == 2 and isinstance(ended[0], Nest):
        return ended[0], int(ended[1])
    return Lost("what it said cannot be read")
