"""Against a smith's count of heats, iforgeiron.com, topic 21564.

Kind: question page. Quoted by a secondary page: a chain link of 8 in of 1/4 square is made in three heats. The plan
takes as many for a link of 3/8 round; one of 1/4 it laps cold, after T. F. Googerty, Hand-Forging, 1911, and so makes
in two.
"""

from sequences import link, plan_of


def test_a_link_is_three_heats() -> None:
    """Quoted: bent, scarfed and closed, welded."""
    plan = plan_of(link("3/8 rd", "3/4", "2"))
    hot = [[w.does for w in spell.works] for spell in plan.spells if spell.hot]
    assert hot == [["bend"], ["scarf"], ["weld"]]
    assert plan.heats.value == 3
