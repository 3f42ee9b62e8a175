"""Against T. F. Googerty, Hand-Forging and Wrought-Iron Ornamental Work, 1911.

Kind: book. Read in the source, pp. 69 to 74. Orders of work: links are bent, scarfed, welded, light ones lapped cold
without a scarf, as in the plan. A ring is turned first and scarfed on the horn; **scarfing the bar first, as the plan
does, is told of as possible and seldom necessary**.
"""

import pytest
from sequences import LINK_STEPS, Told, link, ring, steps_of

from bickern.desk.reckon import reckon_text
from bickern.desk.work.heats import planned

ORDERS = [
    Told("p. 74, links", "read", link("3/8 rd", "3/4", "1 1/2"), LINK_STEPS),
    Told("p. 74, light links", "read", link("1/4 rd", "3/4", "1 1/2"), LINK_STEPS),
    Told(
        "p. 70, rings", "read", ring("3/8 rd", "3"), (("scarf", "weld"), ("bend", "weld")), (("bend", "scarf"),),
        "a straight bar lies better on the edge of the anvil; the book has that way too, and another only that (Drew)",
    ),
]  # fmt: skip
"""Orders of work in the book."""


@pytest.mark.parametrize("told", ORDERS, ids=lambda t: t.where)
def test_the_order_of_work(told: Told) -> None:
    """Each step before the next, as the book has it; where the plan parts from it, that is told."""
    told.holds()


def test_light_links_are_lapped_cold() -> None:
    """P. 74 (read): ends of light stock, 1/4 and less, are lapped cold over the horn, without scarfs."""
    job = link("1/4 rd", "3/4", "1 1/2")
    assert "scarf" in steps_of(job)
    copy = planned(reckon_text(f"job: one\nunits: in\n{job}", "job.yaml")).copy
    assert copy is not None
    assert copy.plan is not None
    lapped = [w for s in copy.plan.pieces[0].spells for w in s.works if w.does == "scarf"]
    assert [(w.case, w.hot) for w in lapped] == [("light link", False)]
