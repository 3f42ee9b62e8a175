"""Words typed after the work: read in shop notation, and whatever is typed, nothing is ever raised."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bickern.desk.daybook.retold import LENGTHS, MASSES, NUMBERS, Words, told_of
from bickern.making.lessons.record import Foreseen, Foresight, Size, Told
from bickern.measure.units.words import INCH, System

AHEAD = Foresight(
    "job", "arm", 3, 0, 12, "1/2 in sq", 1.6e-4, 7850.0, 0.15, True, (Size("Reach", 0.3, 0.5), Size("tip", 0.1, 0.2)),
    (Foreseen("stock", 0.2), Foreseen("minutes of taper", 240.0), Foreseen("fire", 600.0)), (),
)  # fmt: skip


def test_what_is_told_is_read_in_the_units_of_the_job():
    words = Words(
        {
            "stock": "6 7/8",
            "left": "12 mm",
            "heats": "9",
            "seconds": "25",
            "weighed_before": "4 1/2 oz",
            "blows": "120",
        },
        ["reach=12 1/2", "tip = 4"],
        ["taper=6 1/2", "fire=10"],
        remark="  a   windy day ",
    )
    read = told_of(words, AHEAD, System.INCH)
    assert read.findings == ()
    told = read.value
    assert told is not None
    assert told.made == 3
    assert told.stock == pytest.approx(6.875 * INCH)
    assert told.left == pytest.approx(0.012)
    assert told.used == pytest.approx(6.875 * INCH - 0.012)
    assert (told.heats, told.blows, told.seconds) == (9.0, 120.0, 1500.0)
    assert told.weighed_before == pytest.approx(4.5 * 0.028349523125)  # an avoirdupois ounce, exact since 1959
    assert told.reached == (("Reach", pytest.approx(12.5 * INCH)), ("tip", pytest.approx(4 * INCH)))
    assert told.works == (("taper", 390.0), ("fire", 600.0))
    assert told.remark == "a windy day"


@pytest.mark.parametrize(
    ("typed", "minutes"),
    [("27", 27), ("27 min", 27), ("1 h 20 min", 80), ("1.5 h", 90), ("2 h", 120), ("1h20", 80), ("6 1/2 minutes", 6.5)],
)
def test_minutes_may_be_told_with_their_unit(typed: str, minutes: float):
    read = told_of(Words({"seconds": typed}, works=[f"taper={typed}"]), AHEAD, System.INCH)
    assert read.value is not None, read.findings
    assert read.value.seconds == pytest.approx(minutes * 60)
    assert read.value.works == (("taper", pytest.approx(minutes * 60)),)


@pytest.mark.parametrize("typed", ["a while", "h", "min", "20 s", "1 h 20 x", "--"])
def test_what_is_no_minutes_says_how_they_are_written(typed: str):
    read = told_of(Words({"seconds": typed}), AHEAD, System.INCH)
    assert read.value is None
    assert [f.stops for f in read.findings] == [True]


def test_a_bare_millimetre_job_reads_millimetres():
    read = told_of(Words({"stock": "175"}), AHEAD, System.MM)
    assert read.value is not None
    assert read.value.stock == pytest.approx(0.175)


@pytest.mark.parametrize(
    ("words", "name"),
    [
        (Words({"stock": "seven"}), "not-a-size"),
        (Words({"stock": "-3"}), None),
        (Words({"weighed_after": "4"}), "no-units"),
        (Words({"seconds": "0"}), "no-minutes"),
        (Words(reached=["tip"]), "no-figure-told"),
        (Words(reached=["=3"]), "not-foreseen"),
        (Words(works=["bend=3"]), "not-foreseen"),
        (Words(remark="x" * 2001), "remark-too-long"),
    ],
)
def test_what_cannot_be_read_is_a_finding(words: Words, name: str | None):
    read = told_of(words, AHEAD, System.INCH)
    assert read.value is None
    assert any(f.stops for f in read.findings)
    if name:
        assert name in [f.name for f in read.findings]


ANY = st.text(max_size=30) | st.sampled_from(
    ["6 7/8", "0", "-1", "1e999", "nan", "=", "tip=", "tip=nan", "1/0", "9 kg"]
)


@settings(max_examples=200, deadline=None)
@given(
    st.dictionaries(st.sampled_from([*LENGTHS, *NUMBERS, *MASSES, "seconds"]), ANY),
    st.lists(ANY, max_size=3),
    st.lists(ANY, max_size=3),
    ANY,
    ANY,
)
def test_whatever_is_typed_is_told_or_found_fault_with(single, reached, works, made, remark):
    words = Words(single, reached, works, made, remark)
    assert words.many.ok or words.many.findings
    read = told_of(words, AHEAD, System.INCH)
    assert (read.value is None) == any(f.stops for f in read.findings)
    if read.value is not None:
        amounts = (getattr(read.value, name) for name in Told.__dataclass_fields__)
        assert all(one is None or one >= 0.0 for one in amounts if not isinstance(one, str | tuple))
