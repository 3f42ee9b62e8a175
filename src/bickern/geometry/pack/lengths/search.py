"""The best plan and bound of one aim so far."""

from collections.abc import Callable

from bickern.geometry.pack.lengths.bounds import met, stepped
from bickern.geometry.pack.lengths.linear import Relaxed
from bickern.geometry.pack.lengths.solver import Aim
from bickern.geometry.pack.lengths.whole import Sharing, Whole, faults, slack

NEAR, NEARER = 5.9e-4, 5e-6
"""A plan that costs so little over the bound, as a share of it, is not worth a longer look; nor where time is ample."""
AMPLE = 4.0
"""Seconds that are ample."""
SMALL = 40
"""Cuts of a problem that is worth a long look in any case."""


class Search:
    """The best sharing and bound of one aim so far; what is better is told at once."""

    def __init__(
        self, whole: Whole, aim: Aim, plan: Sharing, bound: float, seconds: float, tell: Callable[["Search"], None]
    ) -> None:
        self.whole = whole
        self.aim = aim
        self.plan = plan
        self.bound = bound
        self.near = NEARER if seconds >= AMPLE else NEAR
        self.tell = tell

    @property
    def value(self) -> float:
        """What is to be least."""
        return float(self.plan.missing) if self.aim.short_cost else self.plan.cost

    @property
    def below(self) -> float:
        """What a better plan comes to at most."""
        return self.value - (0.5 * self.whole.step or slack(self.value))

    def gap(self, lower: Relaxed) -> float:
        """What a pattern of a better plan may cost more than it is worth."""
        return self.value - self.whole.step + slack(self.value) - lower.bound

    @property
    def done(self) -> bool:
        """Whether nothing better is left."""
        return met(self.whole, self.value, self.bound)

    @property
    def few(self) -> bool:
        """Whether cuts are so few that a proof is worth a long look in any case."""
        return sum(self.whole.wants) <= SMALL

    @property
    def near_enough(self) -> bool:
        """Whether plan and bound are so near each other that a longer look does not pay where cuts are many."""
        return self.value <= self.bound + self.near * abs(self.bound)

    @property
    def far(self) -> bool:
        """Whether plan and bound are so far apart, or cuts so few, that a long look pays."""
        return self.few or not self.near_enough

    @property
    def enough(self) -> bool:
        """Whether it is proven, or near enough for so many cuts."""
        return self.done or not self.far

    def better(self, plan: Sharing) -> None:
        """Keeps a plan if it is better and nothing is wrong with it."""
        if plan.missing <= self.aim.most_short and plan.better_than(self.plan) and not faults(self.whole, plan):
            self.plan = plan
            self.tell(self)

    def raised(self, bound: float) -> None:
        """Keeps a bound if it is better."""
        bound = min(stepped(self.whole, bound), self.value)
        if bound > self.bound:
            self.bound = bound
            self.tell(self)
