"""Which cuts come off which bar: bounds and simple plans first, then the solver in a process of its own."""

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import replace

from bickern.geometry.pack.child import Lost, in_child
from bickern.geometry.pack.lengths.asked import Bar, Cut, Saw
from bickern.geometry.pack.lengths.asking import Asked, answer_in
from bickern.geometry.pack.lengths.bounds import least_cost, least_short, met, shortest
from bickern.geometry.pack.lengths.greedy import greedy
from bickern.geometry.pack.lengths.result import Filled, LengthPlan
from bickern.geometry.pack.lengths.whole import NANO, Answer, Load, Named, Sharing, Whole, faults, named, shared, used

READY = ("highspy", "bickern.geometry.pack.lengths.solve")
"""What the other process reads in before it can start."""
SHARE = 0.8
"""Of the time there is, what the solver is told of: the other process must start, and say what it has found."""


def plan_lengths(
    cuts: Sequence[Cut],
    bars: Sequence[Bar],
    saw: Saw,
    *,
    keep_going: Callable[[], bool] = lambda: True,
    report: Callable[[str], None] = lambda says: None,
    seconds: float = 10.0,
) -> LengthPlan:
    """Cuts shared out over bars: fewest short, then least cost; proven, or with the bound and why not."""
    problem = named(cuts, bars, saw)
    whole = problem.whole
    best = simple(whole, keep_going)
    answer = Answer(best, least_cost(whole, best.missing), least_short(whole))
    if not settled(whole, answer):
        answer = searched(problem, answer, seconds, keep_going, report)
    return written(problem, answer)


def settled(whole: Whole, answer: Answer) -> bool:
    """Whether nothing better is left to look for."""
    return answer.sharing.missing <= answer.fewest and met(whole, answer.sharing.cost, answer.bound)


def searched(
    problem: Named, known: Answer, seconds: float, keep_going: Callable[[], bool], report: Callable[[str], None]
) -> Answer:
    """The solver's answer; the best it has told of where it was lost, or what was known before."""
    whole, heard = problem.whole, [known]

    def told(line: str) -> None:
        answer = answer_in(whole, line)
        if answer is not None:
            heard.append(answer)
            report(f"cost {answer.sharing.cost * problem.price:g}, at least {answer.bound * problem.price:g}")

    asked = Asked(whole, known, seconds * SHARE)
    answer = in_child("lengths.solve:solve", asked, seconds, keep_going=keep_going, report=told, ready=READY)
    if isinstance(answer, Answer) and not faults(whole, answer.sharing):
        return replace(answer, why=answer.why or "the search ended before cost and bound met")
    why = answer.why if isinstance(answer, Lost) else "its answer was wrong"
    return replace(heard[-1], why=f"the solver was lost: {why}")


def simple(whole: Whole, keep_going: Callable[[], bool]) -> Sharing:
    """The best plan without a solver; where metal is short, the longest cuts are left out first."""
    best = greedy(whole, keep_going)
    for short in range(least_short(whole), best.missing):
        wants = shortest(whole, sum(whole.wants) - short)
        found = shared(whole, greedy(replace(whole, wants=wants), keep_going).loads)
        best = found if found.better_than(best) else best
        if found.missing == short or not keep_going():
            break
    return best


# ---- in words


def written(problem: Named, answer: Answer) -> LengthPlan:
    """The plan with the keys of its cuts and bars."""
    best = answer.sharing
    cuts = [list(keys) for keys in problem.cut_keys]
    stock = [_bars(keys, most) for keys, most in zip(problem.bar_keys, problem.whole.counts, strict=True)]
    filled = []
    for load in best.loads:
        for _ in range(load.times):
            taken = tuple(cuts[i].pop(0) for i, n in load.pattern for _ in range(n))
            filled.append(Filled(stock[load.bar].pop(0), taken, drop_of(problem, load)))
    short = Counter(key for keys in cuts for key in keys)
    proven = settled(problem.whole, answer)
    bound = best.cost if proven else min(answer.bound, best.cost)
    return LengthPlan(
        tuple(filled),
        problem.hopeless + tuple(short.items()),
        best.cost * problem.price,
        bound * problem.price,
        proven,
        "" if proven else answer.why,
    )


def _bars(keys: Sequence[tuple[str, int | None]], most: int) -> list[str]:
    """The bars of one kind one by one: those there are before those that are bought."""
    there = [key for key, count in keys if count is not None for _ in range(count)]
    return there + [key for key, count in keys if count is None for _ in range(most)]


def drop_of(problem: Named, load: Load) -> float:
    """What is left of a bar with such a load [m]."""
    rest = problem.exact.rooms[load.bar] - used(problem.exact, load.pattern)
    return max(0, rest * problem.unit + problem.spare) / NANO
