"""From the records to the shop's own figures: what each was without them, how many speak to it, what it is now."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import compress
from math import log

from bickern.making.lessons.figures import Learnable, all_figures, priors, value_of, with_value
from bickern.making.lessons.kinds import AT, BLOWS, COLLAR, FIRE, HEATS, KEPT, MINUTES, SIZE, STOCK, STRETCHED, noise_of
from bickern.making.lessons.record import Foreseen, Record, Reset
from bickern.making.shop import Shop
from bickern.measure.learned import Belief, Learned, Seen, is_aside, learned, off, together, unlikely

SPEAKS = 0.1
"""A record speaks to a figure that moves what it tells by so many noises when the figure moves by its prior spread."""
ALL = ""
"""A reset of every figure."""
ALONE = 3.0
"""A record that lies so many times its own doubt and that of the first guess together from that guess is a slip, until
another of its kind lies as far off the same way: its heats and its minutes do not bear each other out (our choice)."""


_Told = tuple[int, str, Seen]
"""An observation: by which record, in the order given, of what kind, and it."""


@dataclass(frozen=True, slots=True)
class Lesson:
    """One figure: its `prior` value and what it is now, `low` to `high` one standard deviation about it.

    `records`: how many speak to it since it was last set back. `left`: the share of the prior in what is held now, its
    variance over the prior's: 1 without any record.
    """

    figure: Learnable
    prior: float
    value: float
    low: float
    high: float
    records: int
    left: float


@dataclass(frozen=True, slots=True)
class Lessons:
    """Every figure, and what was set aside: numbers of records, each with the kind of what it told and how far off."""

    rows: tuple[Lesson, ...]
    aside: tuple[tuple[int, str, float], ...] = ()

    def of(self, key: str) -> Lesson | None:
        """The lesson of one figure."""
        return next((row for row in self.rows if row.figure.key == key), None)


def lessons_of(records: Sequence[Record], resets: Sequence[Reset], shop: Shop) -> Lessons:
    """What the records teach this shop; its own file's figures are the priors. Their order does not matter.

    A figure that was set back is a new one: older records lean on what it was then, and on the others as before.
    """
    own = priors(shop)
    told = [
        (n, kind, _as_of(one, record, resets))
        for n, record in enumerate(records)
        if not record.refused
        for kind, one in seen_in(record)
    ]
    beliefs = dict(own)
    for _, _, one in told:
        beliefs |= {name: own[_now(name)] for name in one.leans if name not in beliefs and _now(name) in own}
    alone = _alone(told, beliefs)
    found = learned(beliefs, [one for (_, _, one), slip in zip(told, alone, strict=True) if not slip])
    apart = [off(one, found.beliefs) for _, _, one in told]
    slips = [slip or is_aside(far) for slip, far in zip(alone, apart, strict=True)]
    rows = [(records[n].number, kind, far) for (n, kind, _), far in zip(told, apart, strict=True)]
    speaking = [(records[n].number, one) for (n, _, one), slip in zip(told, slips, strict=True) if not slip]
    lessons = (_lesson(all_figures()[key], belief, found, speaking) for key, belief in own.items())
    return Lessons(tuple(lessons), tuple(sorted(set(compress(rows, slips)))))


def _alone(told: Sequence[_Told], guess: Mapping[str, Belief]) -> list[bool]:
    """Which observations are far from the first guess while no other record's of their kind is as far the same way."""
    far = [unlikely(one, guess) for _, _, one in told]
    witnesses: dict[tuple[str, bool], set[int]] = defaultdict(set)
    for (n, kind, _), way in zip(told, far, strict=True):
        if abs(way) > ALONE:
            witnesses[kind, way > 0.0].add(n)
    return [abs(way) > ALONE and witnesses[kind, way > 0.0] == {n} for (n, kind, _), way in zip(told, far, strict=True)]


def _lesson(figure: Learnable, prior: Belief, found: Learned, speaking: Sequence[tuple[int, Seen]]) -> Lesson:
    key, now = figure.key, found.beliefs[figure.key]
    records = {number for number, one in speaking if abs(one.leans.get(key, 0.0)) * prior.spread > SPEAKS * one.noise}
    low, value, high = (
        value_of(figure, min(now.most, max(now.least, mean)))
        for mean in (now.mean - now.spread, now.mean, now.mean + now.spread)
    )
    before = value_of(figure, prior.mean)
    if now == prior:
        value = before
    return Lesson(figure, before, value, low, high, len(records), (now.spread / prior.spread) ** 2)


def own_of(shop: Shop, lessons: Lessons) -> Shop:
    """The shop with what it has learnt; figures that nothing was learnt of stay as they are, to the last digit."""
    for lesson in lessons.rows:
        if lesson.value != lesson.prior or lesson.left < 1.0:
            shop = with_value(shop, lesson.figure, lesson.value)
    return _surer(shop, lessons)


def _surer(shop: Shop, lessons: Lessons) -> Shop:
    """The shop with what is left of its doubts, where there were records: of scale, the fire, and these hands in all.

    Half of the doubt in the hands (its variance) is that of each operation, and stays: it is the same size at first.
    """
    left = {row.figure.key: row.left for row in lessons.rows if row.left < 1.0}
    if "scale" in left:
        shop = replace(shop, bar=replace(shop.bar, scale_doubt=left["scale"] ** 0.5))
    if "fire" in left:
        shop = replace(shop, fire=replace(shop.fire, doubt=left["fire"] ** 0.5))
    if "hands" in left:
        shop = replace(shop, hand=replace(shop.hand, doubt=((1.0 + left["hands"]) / 2) ** 0.5))
    return shop


def _as_of(seen: Seen, record: Record, resets: Sequence[Reset]) -> Seen:
    """The observation with the names that its figures had then."""
    names = {name: _named(name, record.number, resets) for name in {*seen.leans, *seen.at}}
    leans = {names[name]: lean for name, lean in seen.leans.items()}
    return Seen(seen.value, seen.said, leans, {names[name]: at for name, at in seen.at.items()}, seen.noise)


def _named(name: str, number: int, resets: Sequence[Reset]) -> str:
    """A figure's name at the time of a record: its own, or that with the next reset after it."""
    after = [one.number for one in resets if one.figure in (ALL, name) and one.number > number > 0]
    return f"{name}{_UNTIL}{min(after)}" if after else name


_UNTIL = " until "


def _now(name: str) -> str:
    """What a figure is called now."""
    return name.partition(_UNTIL)[0]


def seen_in(record: Record) -> Iterator[tuple[str, Seen]]:
    """What a record tells, each by its kind, on natural logarithms; what cannot be (no heats at all) is left out."""
    at = dict(record.foresight.figures)
    for one in record.foresight.foreseen:
        value, said, noise = _told(record, one)
        if value > 0.0 and said > 0.0:
            spread = together(noise_of(one.kind, value), noise)
            yield one.kind, Seen(log(value), log(said), dict(one.leans), at, spread)


def _told(record: Record, one: Foreseen) -> tuple[float, float, float]:
    """What was told of one kind (0: nothing), what was said for the sizes reached, and the noise that those add."""
    told, kind = record.told, one.kind
    if kind == STOCK:
        more = stretched(record)
        said = one.said + more
        return told.used or 0.0, said, STRETCHED * abs(more) / said if said > 0.0 else 0.0
    if kind == KEPT:
        return _kept(record), one.said, 0.0
    plain = {HEATS: told.heats, MINUTES: told.seconds, BLOWS: told.blows, COLLAR: told.collar}
    if kind in plain:
        return plain[kind] or 0.0, one.said, 0.0
    if kind.startswith(SIZE):
        return dict(told.reached).get(kind.removeprefix(SIZE), 0.0), one.said, 0.0
    name = "fire" if kind == FIRE else kind.removeprefix(AT)
    return dict(told.works).get(name, 0.0), one.said, 0.0


def stretched(record: Record) -> float:
    """Stock [m] that the piece took more than one as asked, for the sizes that were reached."""
    sizes = {size.name: size for size in record.foresight.sizes}
    return sum((told - sizes[name].asked) * sizes[name].takes for name, told in record.told.reached if name in sizes)


def _kept(record: Record) -> float:
    """Share of its weight that came out of the fire, what was left over counted; 0 where it was not weighed."""
    told, foresight = record.told, record.foresight
    if not told.weighed_before or not told.weighed_after:
        return 0.0
    out = told.weighed_after + (told.left or 0.0) * foresight.area * foresight.density
    return out / told.weighed_before
