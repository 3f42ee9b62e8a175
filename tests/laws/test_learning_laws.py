"""What must always hold of learning, whatever is recorded: see each test's name."""

from dataclasses import replace
from math import exp, log

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bickern.making.lessons.figures import figures_in, priors
from bickern.making.lessons.learn import ALL, lessons_of, own_of
from bickern.making.lessons.record import Foreseen, Foresight, Record, Reset, Told
from bickern.making.shop import Shop

SHOP = Shop()
KEYS = ("scale", "corners", "twist", "useful", "hands", "minutes of taper")
LEANS = st.fixed_dictionaries({key: st.sampled_from([0.0, 0.05, 0.4, 1.0, -0.6]) for key in KEYS})
NEAR = st.floats(-0.2, 0.2)


@st.composite
def records(draw: st.DrawFn) -> Record:
    """A record of stock, heats and minutes, not far off, foreseen by figures that were somewhat otherwise then."""
    moved = {key: draw(st.floats(-0.1, 0.1)) for key in KEYS}
    at = tuple((key, mean + moved.get(key, 0.0)) for key, mean in figures_in(SHOP).items())
    rows = tuple(
        Foreseen(kind, said, tuple(draw(LEANS).items()))
        for kind, said in (("stock", 0.2), ("heats", 9.0), ("minutes", 1200.0))
    )
    told = Told(
        stock=0.2 * exp(draw(NEAR) / 10), heats=float(draw(st.integers(7, 12))), seconds=1200.0 * exp(draw(NEAR))
    )
    ahead = Foresight("job", "arm", 1, 0, 9, "1/2 sq", 1.6e-4, 7850.0, 0.1, True, (), rows, at)
    return Record(told, ahead)


BOOKS = st.lists(records(), min_size=1, max_size=5)


def numbered(rows: list[Record]) -> list[Record]:
    return [replace(record, number=number) for number, record in enumerate(rows, 1)]


@settings(max_examples=60, deadline=None)
@given(BOOKS, records())
def test_one_more_record_that_is_believed_never_widens_a_spread(book: list[Record], more: Record):
    before, after = lessons_of(numbered(book), (), SHOP), lessons_of(numbered([*book, more]), (), SHOP)
    assume(not before.aside and not after.aside)
    for old, new in zip(before.rows, after.rows, strict=True):
        assert new.left <= old.left * (1 + 1e-9), old.figure.key
        assert new.records >= old.records


@settings(max_examples=40, deadline=None)
@given(BOOKS, st.randoms())
def test_the_order_of_the_records_does_not_matter(book: list[Record], chance):
    rows = numbered(book)
    shuffled = list(rows)
    chance.shuffle(shuffled)
    assert lessons_of(shuffled, (), SHOP) == lessons_of(rows, (), SHOP)


@settings(max_examples=40, deadline=None)
@given(BOOKS, st.sampled_from(KEYS))
def test_a_reset_gives_the_prior_back_and_leaves_the_others_alone(book: list[Record], key: str):
    rows = numbered(book)
    before = lessons_of(rows, (), SHOP)
    after = lessons_of(rows, (Reset(key, number=len(rows) + 1),), SHOP)
    lesson = after.of(key)
    assert lesson is not None
    assert (lesson.value, lesson.left, lesson.records) == (lesson.prior, 1.0, 0)
    for old, new in zip(before.rows, after.rows, strict=True):
        if old.figure.key != key:
            assert abs(new.value - old.value) <= 1e-6 * max(1.0, abs(old.value)), old.figure.key
            assert new.records == old.records


@settings(max_examples=20, deadline=None)
@given(BOOKS)
def test_a_reset_of_all_gives_the_shop_back_to_the_last_digit(book: list[Record]):
    rows = numbered(book)
    assert own_of(SHOP, lessons_of(rows, (Reset(ALL, number=len(rows) + 1),), SHOP)) == SHOP


@settings(max_examples=20, deadline=None)
@given(BOOKS)
def test_a_figure_that_no_record_leans_on_stays_at_its_prior(book: list[Record]):
    found = lessons_of(numbered(book), (), SHOP)
    for lesson in found.rows:
        if lesson.figure.key not in KEYS:
            assert (lesson.value, lesson.left, lesson.records) == (lesson.prior, 1.0, 0)


@settings(max_examples=20, deadline=None)
@given(BOOKS)
def test_a_refused_record_teaches_nothing(book: list[Record]):
    rows = [replace(record, refused="more-metal-out-than-in") for record in numbered(book)]
    assert own_of(SHOP, lessons_of(rows, (), SHOP)) == SHOP


@settings(max_examples=40, deadline=None)
@given(BOOKS, st.sampled_from(["stock", "seconds"]), st.sampled_from([0.1, 10.0, 100.0]))
def test_a_slip_of_a_digit_moves_nothing_by_more_than_half_its_first_spread(
    book: list[Record], field: str, slip: float
):
    """After some records one figure is written ten times too large, or a tenth: it is set aside."""
    rows = numbered([*book, book[0], book[0]])
    wild = replace(rows[0], number=99, told=replace(rows[0].told, **{field: getattr(rows[0].told, field) * slip}))
    clean, slipped = lessons_of(rows, (), SHOP), lessons_of([*rows, wild], (), SHOP)
    assume(not clean.aside)
    assert (99, {"stock": "stock", "seconds": "minutes"}[field]) in {
        (number, kind) for number, kind, _ in slipped.aside
    }
    first = priors(SHOP)
    for old, new in zip(clean.rows, slipped.rows, strict=True):
        scale = first[old.figure.key].spread
        moved = log(new.value / old.value) if old.figure.positive else new.value - old.value
        assert abs(moved) < 0.5 * scale, old.figure.key
