"""Against J. M. Drew, Farm Blacksmithing, St. Paul, 1918.

Kind: book. Read in the source, the pages on chains and rings. Orders of work: a link is bent to a U, its ends scarfed,
lapped and welded, and not struck as for a weld once it is below that heat; a ring has its ends upset and scarfed while
the bar is straight, then it is bent and welded. The plan agrees in both (the upset of a ring's ends it says in words).
"""

import pytest
from sequences import LINK_STEPS, Told, link, ring

ORDERS = [
    Told("fig. 8, chain", "read", link("3/8 rd", "3/4", "1 1/2"), LINK_STEPS),
    Told("fig. 9, ring", "read", ring("1/2 rd", "3"), (("scarf", "bend"), ("bend", "weld"))),
]
"""Orders of work in the book."""


@pytest.mark.parametrize("told", ORDERS, ids=lambda t: t.where)
def test_the_order_of_work(told: Told) -> None:
    """Each step before the next, as the book has it; where the plan parts from it, that is told."""
    told.holds()
