"""The order of the works of one piece: every rule kept, and where rules leave a choice, as a smith goes about it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import inf

from bickern.making.heats.near import THINNER, at_datum, finest, overlap, placed, speaks_of, to_end
from bickern.making.heats.rules import BENDS, FORGING, HOLES, PRECEDENCE, Precedence
from bickern.making.work.result import Work

DELICATE = 1.25
"""How many times thinner (area over girth) an end must come out than the other to be left for last (our estimate)."""
Choice = Callable[[int, int | None], tuple[float, ...]]
"""A rank of work `i` after the one done last: the least is done next."""


@dataclass(frozen=True, slots=True)
class Overruled:
    """A rule that would have put the work `first` before `then`, and the `stronger` rules that hold in its stead."""

    rule: str
    first: str
    then: str
    stronger: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Ordered:
    """Works in the order to do them, and the rules that had to give way to stronger ones."""

    works: tuple[Work, ...]
    overruled: tuple[Overruled, ...] = ()


def ordered(works: Sequence[Work], length: float = 0.0, *, chain: bool = False, as_told: bool = False) -> Ordered:
    """The works of one piece in order. `length` [m] of its finished bar; `chain`: they make a link of a chain.

    Rules are taken the strongest first; one that would close a circle is left out and told. `as_told`: where rules
    leave a choice the works keep the order they came in (rings and sheet, which have no ends to begin from).
    """
    graph = _Graph(len(works))
    for rule in PRECEDENCE:
        firsts = [i for i, w in enumerate(works) if w.does in rule.first or rule.first == ("*",)]
        thens = [i for i, w in enumerate(works) if w.does in rule.then or rule.then == ("*",)] if firsts else []
        for a in firsts:
            for b in thens:
                if speaks_of(rule, works[a], works[b], length, chain=chain):
                    graph.add(a, b, rule)
    turn = _taken(works, graph, _as_told if as_told else _Choice(works, length))
    told = tuple(Overruled(r.key, works[a].key, works[b].key, way) for a, b, r, way in graph.overruled)
    return Ordered(tuple(works[i] for i in turn), told)


class _Graph:
    """What comes before what. `below[i]`: the set of all works that follow i, as bits."""

    def __init__(self, count: int) -> None:
        self.below = [0] * count
        self.edges: dict[tuple[int, int], Precedence] = {}
        self.overruled: list[tuple[int, int, Precedence, tuple[str, ...]]] = []

    def add(self, a: int, b: int, rule: Precedence) -> None:
        """Puts a before b, if b is not before a already."""
        if (a, b) in self.edges:
            return
        if self.below[b] >> a & 1:
            self.overruled.append((a, b, rule, self.path(b, a)))  # now, while only stronger rules stand
            return
        self.edges[a, b] = rule
        gained = self.below[b] | 1 << b
        for i in range(len(self.below)):
            if i == a or self.below[i] >> a & 1:
                self.below[i] |= gained

    def path(self, a: int, b: int) -> tuple[str, ...]:
        """Keys of the rules along a shortest way from a to b."""
        ways: list[tuple[int, tuple[str, ...]]] = [(a, ())]
        seen = {a}
        for at, keys in ways:
            if at == b:
                return keys
            steps = [(y, r.key) for (x, y), r in self.edges.items() if x == at and y not in seen]
            seen.update(y for y, _ in steps)
            ways.extend((y, (*keys, key)) for y, key in steps)
        return ()


def _as_told(i: int, last: int | None) -> tuple[float, ...]:
    return (i,)


class _Choice:
    """How a smith chooses between works that no rule parts."""

    def __init__(self, works: Sequence[Work], length: float) -> None:
        self.works = works
        self.length = length
        self.datum_first = _datum_first(works, length)
        self.limbs = sorted(dict.fromkeys(w.child for w in works), key=len)
        self.eyes = [w for w in works if w.does == "curl"]
        self.rank = self._ranks()

    def __call__(self, i: int, last: int | None) -> tuple[float, ...]:
        """The least comes next: stage by stage, end by end, what lies beside the last work, thick before thin."""
        work = self.works[i]
        before = self.works[last] if last is not None else None
        stage = self._stage(work)
        limb = self.limbs.index(work.child)
        end = 0 if not placed(work) or at_datum(work, self.length) == self.datum_first else 1
        beside = -overlap(work, before) if before is not None and placed(work) and placed(before) else 0.0
        if stage == _STAGES["bend"]:  # a scroll is turned while its bar is straight and swings free
            return (stage, limb, _FREE.index(work.does) if work.does in _FREE else 9, end, i)
        return (stage, limb, end, self.rank[i], _step(work), self._from_end(work), max(beside, 0.0), i)

    def _ranks(self) -> list[int]:
        """Works toward one end in groups, thickest first: nothing in a group is clearly thinner than its thickest."""
        ranks = [0] * len(self.works)
        for child in self.limbs:
            for datum in (True, False):
                mine = [i for i, w in enumerate(self.works) if self._stage(w) == 1 and self._lies(w) == (child, datum)]
                mine.sort(key=lambda i: -finest(self.works[i]))
                rank, thickest = 0, 0.0
                for i in mine:
                    if finest(self.works[i]) < THINNER * thickest or not thickest:
                        rank, thickest = rank + 1, finest(self.works[i])
                    ranks[i] = rank
        return ranks

    def _lies(self, work: Work) -> tuple[tuple[str, ...], bool]:
        return work.child, not placed(work) or at_datum(work, self.length)

    def _from_end(self, work: Work) -> float:
        """From the end inward: the end's shoulder is set down, and it is drawn, before what lies behind it."""
        return to_end(work, self.length) if placed(work) else 0.0

    def _stage(self, work: Work) -> int:
        if work.does == "weld" and self._of_an_eye(work):
            return _STAGES["curl"]
        if work.does == "straighten" and work.hot:
            return _STAGES["twist"]
        return _STAGES.get(work.does, _STAGES["twist"])

    def _of_an_eye(self, weld: Work) -> bool:
        return placed(weld) and any(e.child == weld.child and overlap(e, weld) > 0 for e in self.eyes)


def _step(work: Work) -> int:
    """Within one end: forged, then holes, then its eye, then the eye's weld."""
    steps = (FORGING, HOLES, ("scarf",), ("curl",), ("weld",))
    return next((i for i, does in enumerate(steps) if work.does in does), 0)


_FREE = ("scroll", "bend", "hoop")
_STAGES = {
    **dict.fromkeys(("mark", "cut bar", "cut sheet", "deburr", "wind"), 0),
    **dict.fromkeys(("split",), 1),
    **dict.fromkeys((*FORGING, *HOLES, "curl", "scarf"), 1),
    "twist": 2,
    **dict.fromkeys(BENDS, 3),
    "weld": 4,
    "cut off": 5,
    "straighten": 6,
    "brush": 7,
    **dict.fromkeys(("file", "drill"), 8),
    **dict.fromkeys(("thread", "close ring"), 9),
    **dict.fromkeys(("wax or oil", "galvanise after"), 10),
}


def _datum_first(works: Sequence[Work], length: float) -> bool:
    """Whether the datum end is forged first: unless the other comes out stouter, so that it can be held afterwards."""
    thin = {True: inf, False: inf}
    for work in works:
        if work.does in FORGING and placed(work) and not work.child:
            end = at_datum(work, length)
            thin[end] = min(thin[end], finest(work))
    return not thin[False] > DELICATE * thin[True] or thin[False] == inf


def _taken(works: Sequence[Work], graph: _Graph, choice: Choice) -> list[int]:
    """Works one by one: always the best of those that nothing left must come before."""
    waits = [0] * len(works)
    for _, b in graph.edges:
        waits[b] += 1
    turn: list[int] = []
    left = set(range(len(works)))
    while left:
        ready = [i for i in left if not waits[i]]
        early = {i for i in ready if works[i].does == "shoulder" and _too_early(i, works, graph, left)}
        chosen = min([i for i in ready if i not in early] or ready, key=lambda i: choice(i, turn[-1] if turn else None))
        turn.append(chosen)
        left.remove(chosen)
        for a, b in graph.edges:
            if a == chosen:
                waits[b] -= 1
    return turn


def _too_early(shoulder: int, works: Sequence[Work], graph: _Graph, left: set[int]) -> bool:
    """Whether what it is set down for waits for an eye at the other end, or a long middle: a heat by itself."""
    own = {b for a, b in graph.edges if a == shoulder and works[b].name == works[shoulder].name}
    waits = ((b, a, rule.key == "middle-before-ends") for (a, b), rule in graph.edges.items())
    return any(b in own and a in left and (long or works[a].does == "curl") for b, a, long in waits)
