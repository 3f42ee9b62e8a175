"""The day book in words: what can be told of a piece, what a record changed, and every figure that is learnt."""

import json
from collections.abc import Iterator

from bickern.desk.answer import Row
from bickern.desk.daybook.keep import Rest
from bickern.desk.daybook.retold import operations_in
from bickern.making.lessons.figures import Learnable, mean_of
from bickern.making.lessons.kinds import AT, BLOWS, COLLAR, HEATS, KEPT, MINUTES, STOCK
from bickern.making.lessons.learn import Lesson, Lessons
from bickern.making.lessons.record import Foresight
from bickern.making.shop import Shop
from bickern.measure.units.say import say_both, say_decimal, say_mass_both, say_percent, say_up_both
from bickern.measure.units.words import Style
from bickern.paper.sheets.heat_amounts import duration

FigureRow = tuple[str, str, str, str, str, str]
HEADS = ("figure", "records", "at first", "now", "between", "first guess")
"""Above the rows of figures; the last: how much of the first guess is left in what is held now."""
NOTICED = 0.1
"""A figure that moves by less than this share of its first spread is not worth a word (our choice)."""


def form_rows(ahead: Foresight, style: Style) -> tuple[Row, ...]:
    """What can be told of it afterwards: how it is typed, and what was foreseen."""
    return tuple(_form(ahead, style))


def _form(ahead: Foresight, style: Style) -> Iterator[Row]:
    many = f" of all {ahead.made}" if ahead.made > 1 else ""
    one = "one" if ahead.piece else "one set"
    stock, heats, seconds = ahead.of(STOCK), ahead.of(HEATS), ahead.of(MINUTES)
    if stock is not None:
        yield "--stock LENGTH", f"bar of {ahead.stock} cut for one; foreseen {say_up_both(stock, style)}"
        yield "--left LENGTH", "what was left over of that bar, if anything"
    if heats:
        yield "--heats NUMBER", f"visits to the fire with {one}; foreseen {heats:.0f}"
    if seconds:
        yield "--minutes MINUTES", f"in all, with the fire{many}; foreseen {duration(seconds)}"
    if ahead.of(COLLAR):
        yield (
            "--collar LENGTH",
            f"bar in one collar that closed well; foreseen {say_both(ahead.of(COLLAR) or 0.0, style)}",
        )
    yield from _form_of_one(ahead, style)
    yield "--made NUMBER", "how many alike these figures are of; else 1"
    yield "--remark WORDS", "anything else, kept as it is written"


def _form_of_one(ahead: Foresight, style: Style) -> Iterator[Row]:
    if ahead.of(KEPT):
        weight = (ahead.of(STOCK) or 0.0) * ahead.area * ahead.density
        yield (
            "--weight-before, --weight-after",
            f"of one, on one pair of scales; before, about {say_mass_both(weight, style)}",
        )
    if ahead.sizes:
        said = ", ".join(f"{size.name} {say_both(size.asked, style)}" for size in ahead.sizes)
        yield "--reached NAME=SIZE", f"a size that came out otherwise; asked: {said}"
    if ahead.of(BLOWS):
        yield "--blows NUMBER", f"on {'one' if ahead.piece else 'one set'}; foreseen {ahead.of(BLOWS):.0f}"
    if operations_in(ahead):
        said = ", ".join(operations_in(ahead))
        yield "--minutes-of NAME=MINUTES", f"hands alone, at one operation: {said}"


def rest_rows(rest: Rest, style: Style) -> tuple[Row, ...]:
    """What the others take, new beside old."""
    return tuple(_rest(rest, style))


def _rest(rest: Rest, style: Style) -> Iterator[Row]:
    cut, now = (say_up_both(one, style) for one in rest.cut)
    if rest.cut[1]:
        yield "cut", f"{now}, as before" if cut == now else f"{now} instead of {cut}"
    heats, heats_now = (f"{one:.0f}" for one in rest.heats)
    if rest.heats[1]:
        yield "heats of each", f"{heats_now}, as before" if heats == heats_now else f"{heats_now} instead of {heats}"
    seconds, seconds_now = (duration(one) for one in rest.seconds)
    same = seconds == seconds_now
    yield "minutes for all of them", f"{seconds_now}, as before" if same else f"{seconds_now} instead of {seconds}"


def moved_rows(before: Lessons, after: Lessons, shop: Shop) -> tuple[Row, ...]:
    """The figures that a record, or one that was struck, has moved: to, from."""
    pairs = zip(before.rows, after.rows, strict=True)
    moved = [(old, new) for old, new in pairs if _moved(old, new) and _told(old, shop) != _told(new, shop)]
    return tuple((new.figure.key, _from(old, new, shop)) for old, new in moved)


def _moved(old: Lesson, new: Lesson) -> bool:
    before, now = (mean_of(row.figure, row.value) for row in (old, new))
    return abs(now - before) > NOTICED * new.figure.spread


def _from(old: Lesson, new: Lesson, shop: Shop) -> str:
    return f"{_told(new, shop)} (before: {_told(old, shop)}): {new.figure.says}"


def figure_rows(lessons: Lessons, shop: Shop) -> tuple[FigureRow, ...]:
    """Every figure that records speak to, and the common ones always."""
    shown = (row for row in lessons.rows if row.records or not row.figure.key.startswith(AT))
    return tuple(_figure(row, shop) for row in shown)


def _figure(row: Lesson, shop: Shop) -> FigureRow:
    first = say_figure(row.figure, row.prior, shop)
    low, high = (say_figure(row.figure, end, shop) for end in (row.low, row.high))
    behind = next((unit for unit in (" W/m2K", " J", " %", " t") if high.endswith(unit)), "")
    between = f"{low.removesuffix(behind)} to {high.removeprefix('x ')}"
    return row.figure.key, str(row.records or "none"), first, _told(row, shop), between, _share(row.left)


def _share(left: float) -> str:
    return "all of it" if left >= 0.995 else f"{left:.0%}".replace("%", " %")


def what_they_are(lessons: Lessons) -> tuple[Row, ...]:
    """The figures in words; those of single operations in one row."""
    common = tuple((row.figure.key, row.figure.says) for row in lessons.rows if not row.figure.key.startswith(AT))
    return (*common, (f"{AT}...", "the same for one operation alone, beside `hands`"))


def _told(row: Lesson, shop: Shop) -> str:
    return say_figure(row.figure, row.value, shop)


def say_figure(figure: Learnable, value: float, shop: Shop) -> str:
    """A figure's value as a smith can picture it: useful joules, shares in per cent, the rest as `x 1.25`."""
    if figure.key == "useful":
        return f"{say_decimal(value * shop.hand.hammer * shop.hand.speed**2 / 2, 1, shop.style)} J"
    if figure.key == "contact":
        return f"{say_decimal(value, 0, shop.style)} W/m2K"
    if figure.key in ("corners", "twist", "learning"):
        return say_percent(value, shop.style)
    if figure.key == "collar":
        return f"{say_decimal(value, 2, shop.style)} t"
    return f"x {say_decimal(value, 2, shop.style)}"


def as_json(lessons: Lessons) -> str:
    """Every figure with its prior, records, result and spread, unrounded; the source of its prior's spread."""
    rows = [
        {
            "figure": row.figure.key, "says": row.figure.says, "prior": row.prior, "records": row.records,
            "value": row.value, "low": row.low, "high": row.high, "share_of_prior": row.left,
            "source": str(row.figure.source),
        }
        for row in lessons.rows
    ]  # fmt: skip
    aside = [{"record": number, "told": kind, "noises_off": off} for number, kind, off in lessons.aside]
    return json.dumps({"figures": rows, "set_aside": aside}, ensure_ascii=False, indent=1, sort_keys=True) + "\n"
