"""From records to figures: what each thing told is held against, and what speaks to what."""

from collections.abc import Iterator
from dataclasses import replace
from math import exp, log
from random import Random

import pytest

from bickern.making.lessons.figures import all_figures, figures_in, priors, value_in
from bickern.making.lessons.kinds import NOISES, noise_of
from bickern.making.lessons.learn import lessons_of, own_of, seen_in, stretched
from bickern.making.lessons.record import Foreseen, Foresight, Record, Reset, Size, Told
from bickern.making.shop import Shop
from bickern.measure.learned import Belief

SHOP = Shop()
AHEAD = Foresight(
    "job", "arm", 1, 0, 12, "1/2 in sq", 1.6e-4, 7850.0, 0.15, True,
    (Size("reach", 0.3, 0.5), Size("tip", 0.1, 0.25)),
    (
        Foreseen("stock", 0.2, (("scale", 0.05), ("corners", 0.5))),
        Foreseen("kept", 0.95, (("scale", -0.05),)),
        Foreseen("heats", 10.0, (("useful", -0.6),)),
        Foreseen("minutes", 1200.0, (("hands", 0.8), ("minutes of taper", 0.3))),
        Foreseen("minutes of taper", 240.0, (("hands", 1.0), ("minutes of taper", 1.0))),
        Foreseen("fire", 600.0, (("fire", 1.0),)),
        Foreseen("blows", 300.0, (("useful", -1.0),)),
        Foreseen("collar", 0.05, (("collar", 0.1),)),
        Foreseen("size of tip", 0.1, (("scale", -0.2),)),
    ),
    tuple(figures_in(SHOP).items()),
)  # fmt: skip


def seen_of(told: Told) -> dict[str, float]:
    """How far each thing told lies from what was said, as a logarithm."""
    return {kind: one.value - one.said for kind, one in seen_in(Record(told, AHEAD, number=1))}


def test_each_thing_told_is_held_against_its_own_foresight():
    told = Told(
        stock=0.22, left=0.01, heats=11, seconds=1500, blows=330, collar=0.051, works=(("taper", 300), ("fire", 660))
    )
    found = seen_of(told)
    assert found == pytest.approx(
        {
            "stock": log(0.21 / 0.2), "heats": log(1.1), "minutes": log(1.25), "minutes of taper": log(1.25),
            "fire": log(1.1), "blows": log(1.1), "collar": log(1.02),
        }
    )  # fmt: skip


def test_what_is_not_told_or_nothing_teaches_nothing():
    assert seen_of(Told(remark="a good day")) == {}
    assert seen_of(Told(heats=0, blows=0)) == {}


def test_a_longer_tip_takes_its_own_share_of_stock():
    """0.02 more of the tip, each metre of which takes 0.25 of stock: 0.205 was to be cut (constant volume, exact)."""
    told = Told(stock=0.205, reached=(("tip", 0.12),))
    assert stretched(Record(told, AHEAD)) == pytest.approx(0.005)
    assert seen_of(told)["stock"] == pytest.approx(0.0)
    assert seen_of(told)["size of tip"] == pytest.approx(log(1.2))


def test_a_correction_is_itself_in_doubt():
    plain, corrected = (
        next(one for kind, one in seen_in(Record(told, AHEAD)) if kind == "stock")
        for told in (Told(stock=0.2), Told(stock=0.2, reached=(("reach", 0.35),)))
    )
    assert plain.noise == pytest.approx(0.015)
    assert corrected.noise == pytest.approx((0.015**2 + (0.5 * 0.025 / 0.225) ** 2) ** 0.5)


def test_weights_count_what_was_left_over():
    """0.26 kg in; 0.2 kg out and 2 cm of 160 mm2 at 7850 kg/m3 over: 25.12 g (exact)."""
    told = Told(left=0.02, weighed_before=0.26, weighed_after=0.2)
    assert seen_of(told)["kept"] == pytest.approx(log((0.2 + 0.02512) / 0.26) - log(0.95))


def test_every_noise_has_its_row():
    assert noise_of("minutes of upset", 1.0) == noise_of("minutes of taper", 1.0) == 0.25
    assert noise_of("size of tip", 1.0) == 0.03
    assert noise_of("heats", 10.0) == pytest.approx((0.15**2 + 0.05**2) ** 0.5)
    assert len({row.kind for row in NOISES}) == len(NOISES)


def test_records_are_counted_by_what_they_speak_to():
    rows = [Record(Told(stock=0.2), AHEAD, number=1), Record(Told(heats=9), AHEAD, number=2)]
    found = lessons_of(rows, (), SHOP)
    counts = {key: lesson.records for key in ("scale", "corners", "useful", "hands") if (lesson := found.of(key))}
    assert counts == {"scale": 1, "corners": 1, "useful": 1, "hands": 0}


def test_three_records_of_a_kind_speak_louder_than_the_first_guess():
    rows = [Record(Told(blows=450, works=(("fire", 900),)), AHEAD, number=n) for n in (1, 2, 3)]
    found = lessons_of(rows, (), SHOP)
    for key in ("useful", "fire"):
        lesson = found.of(key)
        assert lesson is not None
        assert lesson.records == 3
        assert lesson.left < 0.5
    assert found.rows[5].value == pytest.approx(SHOP.hand.useful / 1.5, rel=0.1)


def test_the_shop_learns_where_it_was_told_and_nowhere_else():
    rows = [Record(Told(stock=0.208, works=(("taper", 480),)), AHEAD, number=n) for n in (1, 2, 3)]
    own = own_of(SHOP, lessons_of(rows, (), SHOP))
    assert own.bar.scale_times > 1.0
    assert 0.0 < own.bar.scale_doubt < 1.0
    assert own.hand.slow > 1.0
    assert dict(own.hand.slow_at).keys() == {"taper"}
    assert own.ring == SHOP.ring
    assert own.fire == SHOP.fire
    assert replace(own.hand, slow=1.0, slow_at=(), doubt=1.0) == SHOP.hand
    assert 0.5**0.5 < own.hand.doubt < 1.0


def test_full_corners_are_the_most_there_can_be():
    rows = [Record(Told(stock=0.26), AHEAD, number=n) for n in (1, 2, 3, 4)]
    own = own_of(SHOP, lessons_of(rows, (), SHOP))
    assert own.bar.corner_fullness == 1.0


def test_one_record_far_off_all_others_is_named_and_set_aside():
    rows = [Record(Told(stock=0.2), AHEAD, number=n) for n in (1, 2, 3)]
    found = lessons_of([*rows, Record(Told(stock=2.0), AHEAD, number=4)], (), SHOP)
    assert [(number, kind) for number, kind, _ in found.aside] == [(4, "stock")]
    clean = lessons_of(rows, (), SHOP)
    assert [row.value for row in found.rows] == pytest.approx([row.value for row in clean.rows], rel=1e-6)


def test_a_wild_first_record_does_not_bear_itself_out():
    """Heats, minutes and stock all ten times too many, as of a lot of ten told as one: nothing moves until a second."""
    wild = Told(stock=2.0, heats=100, seconds=12000)
    found = lessons_of([Record(wild, AHEAD, number=1)], (), SHOP)
    assert [kind for _, kind, _ in found.aside] == ["heats", "minutes", "stock"]
    assert own_of(SHOP, found) == SHOP
    tenth = lessons_of([Record(Told(heats=1, seconds=120), AHEAD, number=1)], (), SHOP)
    assert own_of(SHOP, tenth) == SHOP
    assert [kind for _, kind, _ in tenth.aside] == ["heats", "minutes"]
    plain = lessons_of([Record(Told(heats=10, seconds=1200), AHEAD, number=n) for n in (1, 2)], (), SHOP)
    both = lessons_of([Record(Told(heats=10, seconds=1200), AHEAD, number=1), Record(wild, AHEAD, number=3)], (), SHOP)
    for key in ("useful", "hands"):
        now, then = both.of(key), plain.of(key)
        assert now is not None
        assert then is not None
        assert abs(log(now.value / then.value)) < 0.05


def test_a_second_that_says_the_same_bears_it_out():
    """Six times the minutes, twice: these hands are slow, however unlikely it was."""
    rows = [Record(Told(seconds=7200 * k), AHEAD, number=n) for n, k in ((1, 1.0), (2, 1.05))]
    assert lessons_of(rows[:1], (), SHOP).aside
    found = lessons_of(rows, (), SHOP)
    assert not found.aside
    slow = found.of("hands")
    assert slow is not None
    assert slow.value > 2.0
    other_way = Record(Told(seconds=100), AHEAD, number=3)
    assert len(lessons_of([rows[0], other_way], (), SHOP).aside) == 2


def test_corners_that_are_full_leave_a_longer_bar_to_the_fire():
    """Stock 6 % over what was foreseen, of figures that together explain it: corners lean ten times as much as scale,
    but are full already; what is foreseen then is what was told, within its doubt."""
    rows = [Record(Told(stock=0.2 * 1.06), AHEAD, number=n) for n in (1, 2, 3)]
    found = lessons_of(rows, (), SHOP)
    corners, scale = found.of("corners"), found.of("scale")
    assert corners is not None
    assert scale is not None
    assert corners.value == 1.0
    assert 0.05 * log(scale.value) == pytest.approx(log(1.06), abs=0.02)


def test_nine_in_ten_of_what_is_held_within_nine_tenths_is_there():
    """Shops drawn from the first guesses, three records each with the noise that is reckoned with: a simulation.

    The 90 % interval of each figure that records speak to holds its true value in 90 % of them, a little more rather
    than less, since the noise may be heavier than this.
    """
    chance, first = Random(7), priors(SHOP)
    ahead = replace(AHEAD, foreseen=tuple(row for row in AHEAD.foreseen if row.kind in TOLD_OF))
    held = [one for _ in range(120) for one in _held(ahead, first, chance)]
    assert 0.87 <= sum(held) / len(held) <= 0.95


TOLD_OF = {"stock": "stock", "heats": "heats", "minutes": "seconds", "blows": "blows"}


def _held(ahead: Foresight, first: dict[str, Belief], chance: Random) -> Iterator[bool]:
    """Of one shop: of each figure that its records speak to, whether it lies within 1.645 spreads of what is held."""
    true = {key: _drawn(one, chance) for key, one in first.items()}
    rows = []
    for number in (1, 2, 3):
        told = {}
        for row in ahead.foreseen:
            really = log(row.said) + sum(lean * (true[key] - first[key].mean) for key, lean in row.leans)
            told[TOLD_OF[row.kind]] = exp(really + chance.gauss(0, noise_of(row.kind, exp(really))))
        rows.append(Record(Told(**told), ahead, number=number))
    for lesson in lessons_of(rows, (), SHOP).rows:
        if lesson.records:
            key = lesson.figure.key
            now = log(lesson.value) if lesson.figure.positive else lesson.value
            yield abs(now - true[key]) <= 1.645 * first[key].spread * lesson.left**0.5


def _drawn(guess: Belief, chance: Random) -> float:
    """A true figure by the first guess, no further than it can go."""
    value = chance.gauss(guess.mean, guess.spread)
    return value if guess.least <= value <= guess.most else _drawn(guess, chance)


@pytest.mark.parametrize("times", [0.001, 0.1, 0.5, 2.0, 10.0, 1000.0])
def test_no_figure_leaves_its_range_whatever_is_told_again_and_again(times: float):
    told = Told(
        stock=0.2 * times, heats=10 * times, seconds=1200 * times, blows=300 * times, collar=0.05 * times,
        weighed_before=1.0, weighed_after=min(1.0, 0.95 * times), works=(("taper", 240 * times), ("fire", 600 * times)),
    )  # fmt: skip
    own = own_of(SHOP, lessons_of([Record(told, AHEAD, number=n) for n in range(1, 9)], (), SHOP))
    assert 0.0 < own.bar.corner_fullness <= 1.0
    assert own.bar.scale_times > 0.0
    assert 0.0 < own.hand.useful < 1.0
    assert own.hand.blow < own.hand.hammer * own.hand.speed**2 / 2
    assert own.hand.contact >= 1.0
    for figure in all_figures().values():
        assert figure.least <= value_in(own, figure) <= figure.most


def test_one_record_that_the_first_guess_holds_possible_is_believed_though_it_is_many_noises_off():
    """Twice the minutes are 4.6 noises, and less than two spreads of the first guess and that noise together."""
    found = lessons_of([Record(Told(seconds=2400), AHEAD, number=1)], (), SHOP)
    hands = found.of("hands")
    assert not found.aside
    assert hands is not None
    assert hands.value > 1.3


@pytest.mark.parametrize("times", [10.0, 0.1])
def test_two_faults_of_one_record_that_one_figure_would_explain_are_not_two_witnesses(times: float):
    """Heats and minutes lean on the same hands here, and both are out by ten: one slip, a lot told as one piece."""
    shared = (("hands", 0.8), ("useful", -0.4))
    ahead = replace(AHEAD, foreseen=(Foreseen("heats", 10.0, shared), Foreseen("minutes", 1200.0, shared)))
    wild = Told(heats=10 * times, seconds=1200 * times)
    found = lessons_of([Record(wild, ahead, number=1)], (), SHOP)
    assert [kind for _, kind, _ in found.aside] == ["heats", "minutes"]
    assert own_of(SHOP, found) == SHOP
    two = lessons_of([Record(wild, ahead, number=n) for n in (1, 2)], (), SHOP)
    assert own_of(SHOP, two) != SHOP


def test_what_is_recorded_after_a_reset_speaks_to_the_figure_again_and_only_that():
    rows = [Record(Told(blows=450), AHEAD, number=n) for n in (1, 2, 3)]
    later = Record(Told(blows=330), AHEAD, number=5)
    found = lessons_of([*rows, later], (Reset("useful", number=4),), SHOP).of("useful")
    alone = lessons_of([later], (), SHOP).of("useful")
    assert found is not None
    assert alone is not None
    assert (found.records, found.value, found.left) == (1, pytest.approx(alone.value), pytest.approx(alone.left))


def test_half_of_the_doubt_in_the_hands_stays_with_each_operation():
    lessons = lessons_of([Record(Told(works=(("taper", 300.0),)), AHEAD, number=n) for n in (1, 2, 3)], (), SHOP)
    hands = lessons.of("hands")
    assert hands is not None
    assert hands.left < 0.9
    assert own_of(SHOP, lessons).hand.doubt == pytest.approx((0.5 + 0.5 * hands.left) ** 0.5)
