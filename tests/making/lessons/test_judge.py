"""What cannot be, or is far from all that was foreseen."""

from dataclasses import replace

import pytest

from bickern.making.lessons.judge import OUT, findings_of
from bickern.making.lessons.record import Foreseen, Foresight, Record, Size, Told
from bickern.measure.finding import Weight
from bickern.measure.units.words import Style

AHEAD = Foresight(
    "job", "arm", 1, 3, 12, "1/2 in sq", 1.6e-4, 7850.0, 0.15, True, (Size("tip", 0.1, 0.25),),
    (Foreseen("stock", 0.2), Foreseen("heats", 10.0), Foreseen("minutes", 1200.0), Foreseen("minutes of taper", 240.0)),
    (),
)  # fmt: skip
STOCK_MASS = 0.2 * 1.6e-4 * 7850.0  # kg of 20 cm of this bar: 251 g


def names(told: Told, ahead: Foresight = AHEAD) -> list[str]:
    return [f.name for f in findings_of(Record(told, ahead), Style())]


@pytest.mark.parametrize(
    "told",
    [
        Told(weighed_before=0.25, weighed_after=0.26),
        Told(weighed_before=0.25, weighed_after=0.24, left=0.03),  # 37.7 g left over
        Told(stock=0.2, weighed_after=STOCK_MASS * 1.06),
        Told(stock=0.2, left=0.2),
        Told(stock=0.14),
        Told(stock=0.2, left=0.06),
        Told(stock=0.15, reached=(("tip", 0.2),)),  # 2.5 cm of stock more than asked
    ],
)
def test_more_metal_out_than_in_stops(told: Told):
    found = findings_of(Record(told, AHEAD), Style())
    assert OUT in [f.name for f in found if f.stops]


@pytest.mark.parametrize(
    "told",
    [
        Told(weighed_before=0.25, weighed_after=0.2525),  # within two weighings
        Told(weighed_before=0.25, weighed_after=0.2, left=0.03),
        Told(stock=0.2, weighed_after=STOCK_MASS * 1.04),  # bar may be rolled so much over its name
        Told(stock=0.2, left=0.02),
        Told(stock=0.146),
        Told(stock=0.13, reached=(("tip", 0.02),)),
    ],
)
def test_what_measuring_may_be_off_is_no_fault(told: Told):
    assert OUT not in names(told)


@pytest.mark.parametrize(
    ("told", "name"),
    [
        (Told(heats=0), "no-heats-told"),
        (Told(made=10, seconds=1800), "more-made-than-asked"),
        (Told(seconds=500, works=(("taper", 600),)), "minutes-do-not-add"),
        (Told(seconds=12000), "far-from-foreseen"),
        (Told(stock=2.0), "far-from-foreseen"),
        (Told(works=(("taper", 24.0),)), "far-from-foreseen"),
        (Told(weighed_before=STOCK_MASS * 10), "far-from-foreseen"),
    ],
)
def test_what_is_strange_is_told_and_does_not_stop(told: Told, name: str):
    found = findings_of(Record(told, AHEAD), Style())
    assert [f.name for f in found] == [name]
    assert found[0].weight is Weight.WARN


def test_heats_where_nothing_was_to_be_heated_are_told():
    assert names(Told(heats=2), replace(AHEAD, hot=False)) == ["heats-not-foreseen", "far-from-foreseen"]


def test_more_left_over_than_was_cut_is_told_once():
    """What went in is then less than nothing; no share of that is told beside it."""
    assert names(Told(stock=0.10, left=0.12)) == [OUT]


def test_an_ordinary_record_has_no_findings():
    told = Told(
        stock=0.21,
        left=0.005,
        heats=9,
        seconds=1500,
        weighed_before=0.26,
        weighed_after=0.24,
        works=(("taper", 300.0),),
    )
    assert names(told) == []


@pytest.mark.parametrize(("seconds", "strange"), [(3650.0, True), (3550.0, False), (410.0, False), (390.0, True)])
def test_three_times_more_or_less_is_asked_about(seconds: float, strange: bool):
    """1200 s were foreseen: 3600 and 400 are the ends."""
    assert names(Told(seconds=seconds)) == ["far-from-foreseen"] * strange
