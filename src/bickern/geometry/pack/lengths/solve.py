"""What the other process does: the linear programme, plans out of it, and a proof over all patterns that still count."""

from collections.abc import Callable
from dataclasses import dataclass, replace
import json

import numpy as np

from bickern.geometry.pack.lengths.bounds import met, stepped
from bickern.geometry.pack.lengths.dive import columns_of, dive, fitting
from bickern.geometry.pack.lengths.linear import Relaxed, relaxed
from bickern.geometry.pack.lengths.mend import mended
from bickern.geometry.pack.lengths.patterns import Columns, walk
from bickern.geometry.pack.lengths.solver import Aim, Chosen, Master, Unsolved, chosen
from bickern.geometry.pack.lengths.whole import Answer, Load, Sharing, Whole, faults, shared, slack

MANY = 6000
"""Patterns that a proof may look at."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A problem, the best that is known of it, and the seconds there are for it."""

    whole: Whole
    known: Answer
    seconds: float


class Search:
    """The best sharing and bound of one aim so far; what is better is told at once."""

    def __init__(self, whole: Whole, aim: Aim, plan: Sharing, bound: float, tell: Callable[[Sharing, float], None]) -> None:
        self.whole = whole
        self.aim = aim
        self.plan = plan
        self.bound = bound
        self.tell = tell

    def better(self, plan: Sharing) -> None:
        if plan.missing <= self.aim.most_short and plan.better_than(self.plan) and not faults(self.whole, plan):
            self.plan = plan
            self.tell(self.plan, self.bound)

    def raised(self, bound: float) -> None:
        bound = stepped(self.whole, bound)
        if bound > self.bound:
            self.bound = bound
            self.tell(self.plan, self.bound)

    @property
    def done(self) -> bool:
        return met(self.whole, self.plan.cost, self.bound)

    @property
    def below(self) -> float:
        """What a better plan costs at most."""
        return self.plan.cost - (0.5 * self.whole.step or slack(self.plan.cost))
