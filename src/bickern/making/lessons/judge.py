"""What in a record cannot be, or lies far from all that was foreseen: told, kept all the same, and never erased."""

from collections.abc import Iterator

from bickern.making.lessons.kinds import AT, BLOWS, COLLAR, HEATS, MINUTES, STOCK
from bickern.making.lessons.learn import stretched
from bickern.making.lessons.record import Foresight, Record, Told
from bickern.measure.finding import Finding, stop, warn
from bickern.measure.known import Known
from bickern.measure.source import Kind, Source
from bickern.measure.units.say import say_both, say_mass_both
from bickern.measure.units.words import Style

WEIGHING = Known(0.02, "1", Source("", "two weighings, each within one in a hundred", None, "", Kind.MEMORY))
"""Share by which more may come out than went in, weighed both times."""
ROLLED = Known(
    0.05, "1", Source("", "area of rolled bar against its name: a few in a hundred either way", None, "", Kind.MEMORY)
)
"""The same where one of the two is reckoned from the bar's size and length."""
FAR = 3.0
"""So many times more or less than was foreseen, a slip of the pen is likelier than such a piece (our choice)."""
OUT = "more-metal-out-than-in"
"""The finding by which a record is kept and not learnt from."""


def findings_of(record: Record, style: Style) -> tuple[Finding, ...]:
    """All that is strange in a record; the first that stops is why nothing is learnt from it."""
    return (*_metal(record, style), *_counts(record), *_far(record))


def _metal(record: Record, style: Style) -> Iterator[Finding]:
    """More metal out than in, in all the ways in which that can be seen."""
    told, foresight = record.told, record.foresight
    if told.left is not None and told.stock is not None and told.left >= told.stock:
        says = f"{say_both(told.left, style)} left over of {say_both(told.stock, style)}: nothing would have gone in"
        yield _out(says)
        return
    a_metre = foresight.area * foresight.density
    over = (told.left or 0.0) * a_metre
    before, after = told.weighed_before, told.weighed_after
    if before is not None and after is not None and after + over > before * (1 + WEIGHING.value):
        with_left = " with what was left over" if over else ""
        yield _out(
            f"it weighed {say_mass_both(after + over, style)} afterwards{with_left}, and {_kg(before, style)} before"
        )
    elif after is not None and told.used is not None and 0 < told.used * a_metre * (1 + ROLLED.value) < after:
        stock = f"{say_both(told.used, style)} of {foresight.stock}"
        yield _out(
            f"it weighed {say_mass_both(after, style)} afterwards; {stock} weighs {_kg(told.used * a_metre, style)}"
        )
    least = (foresight.least + stretched(record)) * (1 - ROLLED.value)
    if told.used is not None and told.used < least:
        stock = f"{say_both(told.used, style)} of {foresight.stock}"
        yield _out(
            f"{stock} holds less metal than the piece: even with round corners it takes {say_both(least, style)}"
        )


def _kg(mass: float, style: Style) -> str:
    return say_mass_both(mass, style)


def _out(says: str) -> Finding:
    way = "look at the figures again; it is kept, and nothing is learnt from it: strike it where one slipped (--strike)"
    return stop(OUT, f"more metal out than in: {says}", way)


def _counts(record: Record) -> Iterator[Finding]:
    told, foresight = record.told, record.foresight
    if told.heats == 0 and foresight.hot:
        says = f"no heats: {foresight.of(HEATS) or 0:.0f} were foreseen, for there is hot work in it"
        yield warn("no-heats-told", says, "count the visits to the fire; nothing is learnt of heats from this one")
    if told.heats and not foresight.hot:
        yield warn(
            "heats-not-foreseen", "nothing of it was to go into the fire", "what was done hot? say so in --remark"
        )
    in_all = foresight.before + told.made
    if in_all > foresight.make:
        says = f"{in_all} were made in all, and the job asks for {foresight.make}"
        yield warn("more-made-than-asked", says, "mend `make` in the job file if that is right")
    parts = sum(seconds for _, seconds in told.works)
    if told.seconds is not None and parts > told.seconds:
        says = f"the minutes told one by one come to {parts / 60:.0f}, and to {told.seconds / 60:.0f} in all"
        yield warn("minutes-do-not-add", says, "the whole takes in all of them, and the fire")


def _far(record: Record) -> Iterator[Finding]:
    """What is so far from what was foreseen that a digit may have slipped; it may be right, and is kept."""
    for kind, name, value in _told(record.told, record.foresight):
        said = record.foresight.of(kind)
        if said and value and value > 0 and not 1 / FAR <= value / said <= FAR:
            more = value / said if value > said else said / value
            way = (
                "if that is right, leave it; if a unit or a digit slipped, strike it (--strike with its number) and "
                "record it again; one record far from all others teaches next to nothing"
            )
            yield warn(
                "far-from-foreseen", f"{name}: {more:.1f} times {'more' if value > said else 'less'} than foreseen", way
            )


def _told(told: Told, foresight: Foresight) -> Iterator[tuple[str, str, float | None]]:
    yield STOCK, "stock", told.used
    yield HEATS, "heats", told.heats
    yield MINUTES, "minutes", told.seconds
    yield BLOWS, "blows", told.blows
    yield COLLAR, "collar", told.collar
    yield from ((f"{AT}{does}", f"minutes of {does}", seconds) for does, seconds in told.works)
    if told.weighed_before is not None:
        weight = (foresight.of(STOCK) or 0.0) * foresight.area * foresight.density
        if weight and not 1 / FAR <= told.weighed_before / weight <= FAR:
            yield STOCK, "weight before", told.weighed_before / weight * (foresight.of(STOCK) or 0.0)
