"""A price told in words: its table, how each line comes about, what of it is a guess, what is not counted."""

from collections.abc import Callable, Iterator, Sequence

from bickern.making.quote.result import CostLine, Costs, Quote
from bickern.making.shop import TERMS_SOURCES, Shop, Terms
from bickern.making.stock.worth import told
from bickern.measure.money import Money, say_money
from bickern.measure.units.say import say_mass_both, say_percent
from bickern.paper.copy import Copy
from bickern.paper.sheets.heat_amounts import duration
from bickern.paper.sheets.heat_words import tool_says

Row = tuple[str, ...]
NOT_TOLD = "not told"
"""Where a line has no figure."""


def amounts(quotes: Sequence[Quote], shop: Shop) -> tuple[Row, ...]:
    """Rows of the table: what for, and for each count of sets how much; the price of one set last."""
    comma = shop.style.comma
    rows = [(what.value, [_cost(q.line(what), comma) for q in quotes]) for what in _there(quotes)]
    at = len(rows) - any(name == Costs.MARGIN for name, _ in rows)
    rows.insert(at, ("cost of all", [_bare(q.cost if q.offer else None, comma) for q in quotes]))
    rows.append(("price of all", [_bare(q.offer.whole if q.offer else None, comma) for q in quotes]))
    rows.append(("price of one", [_bare(q.offer.each if q.offer else None, comma) for q in quotes]))
    rows.append(("one, at the fastest", [_bare(q.low, comma) for q in quotes]))
    rows.append(("one, at the slowest", [_bare(q.high, comma) for q in quotes]))
    return tuple((name, *cells) for name, cells in rows)


def heads(quotes: Sequence[Quote], shop: Shop) -> Row:
    """The heads of that table: the currency, and how many sets."""
    return (shop.currency, *(f"{q.count} set{'s' if q.count > 1 else ''}" for q in quotes))


def how_head(quotes: Sequence[Quote]) -> str:
    """What stands above how it comes about: the counts, in the order of the figures there."""
    counts = " / ".join(str(quote.count) for quote in quotes)
    return f"How it comes about, for {counts} set{'s' if len(quotes) > 1 or quotes[0].count > 1 else ''}"


def _there(quotes: Sequence[Quote]) -> tuple[Costs, ...]:
    found = {line.what for quote in quotes for line in quote.lines}
    return tuple(what for what in Costs if what in found)


def _cost(line: CostLine | None, comma: bool) -> str:
    return "" if line is None else _bare(line.cost, comma)


def _bare(money: Money | None, comma: bool) -> str:
    """An amount without its currency, which stands in the head."""
    return NOT_TOLD if money is None else say_money(money, comma=comma).rsplit(" ", 1)[0]


def how(quotes: Sequence[Quote], shop: Shop) -> tuple[tuple[str, str], ...]:
    """What each line was reckoned from, over all counts: a name, and words."""
    rounding = f"the price of one goes up to the next {_told(shop.terms.round_to, shop)}"
    told = tuple((what.value, _how(what, quotes, shop)) for what in _there(quotes))
    return (*told, ("rounding", rounding)) if any(quote.offer is not None for quote in quotes) else told


def _how(what: Costs, quotes: Sequence[Quote], shop: Shop) -> str:
    lines = [line for quote in quotes if (line := quote.line(what)) is not None]
    lacks = tuple(dict.fromkeys(says for line in lines for says in line.lacks))
    if lacks:
        return f"{_measure(lines, shop)}; {lack_says(lacks)}"
    return _WORDS[what](lines, shop)


def lack_says(lacks: Sequence[str]) -> str:
    """What the shop file does not tell."""
    listed = f"{', '.join(lacks[:-1])} and {lacks[-1]}" if len(lacks) > 1 else "".join(lacks)
    return f"{listed} {'are' if len(lacks) > 1 else 'is'} not told"


def _measure(lines: Sequence[CostLine], shop: Shop) -> str:
    """So many kilograms, so many hours, for each count in turn."""
    if any(line.mass for line in lines):
        return " / ".join(say_mass_both(line.mass, shop.style) for line in lines)
    return " / ".join(duration(line.seconds.value) for line in lines)


def _metal(lines: Sequence[CostLine], shop: Shop) -> str:
    lost = f", and {say_percent(lines[0].share, shop.style)} more of bar lost on the way" if lines[0].share else ""
    prices = ", ".join(dict.fromkeys(price for line in lines for price in line.prices))
    return f"{_measure(lines, shop)} as it is cut, at {prices}{lost}: what it costs to replace"


def _fuel(lines: Sequence[CostLine], shop: Shop) -> str:
    lit = f", {duration(shop.terms.light)} of it to light the fire" if shop.terms.light else ""
    return f"{_measure(lines, shop)}{lit}, at {_told(shop.terms.fuel, shop)} an hour"


def _work(lines: Sequence[CostLine], shop: Shop) -> str:
    learns = shop.terms.learns
    learned = f"; each doubling leaves {say_percent(learns, shop.style)} of the hand's time" if learns < 1 else ""
    return f"{_hours(lines, shop)}{learned}"


def _hours(lines: Sequence[CostLine], shop: Shop) -> str:
    return f"{_measure(lines, shop)}, at {_told(shop.rate, shop)} an hour"


def _margin(lines: Sequence[CostLine], shop: Shop) -> str:
    return f"{say_percent(lines[0].share, shop.style)} on the cost of all"


_WORDS: dict[Costs, Callable[[Sequence[CostLine], Shop], str]] = {
    Costs.METAL: _metal,
    Costs.FUEL: _fuel,
    Costs.WORK: _work,
    Costs.FINISHING: _hours,
    Costs.EACH: lambda _, shop: f"{_told(shop.terms.each, shop)} on every set",
    Costs.FIXED: lambda _, shop: f"{_told(shop.terms.fixed, shop)}: drawing, talking, fetching; all the sets share it",
    Costs.FAILED: lambda lines, shop: f"{say_percent(lines[0].share, shop.style)} of metal, fuel, work and finishing",
    Costs.MARGIN: _margin,
}


def _told(amount: str, shop: Shop) -> str:
    money = told(amount, shop)
    return amount if money is None else say_money(money, comma=shop.style.comma)


def guesses(copy: Copy, quotes: Sequence[Quote]) -> tuple[str, ...]:
    """What of the price is a guess, and what would make it better."""
    return tuple(_guesses(copy, quotes))


def _guesses(copy: Copy, quotes: Sequence[Quote]) -> Iterator[str]:
    terms, plain, style = copy.shop.terms, Terms(), copy.shop.style
    work = [line for quote in quotes if (line := quote.line(Costs.WORK)) is not None]
    if any(not line.seconds.is_sharp for line in work):
        spans = " / ".join(f"{duration(one.seconds.low)} to {duration(one.seconds.high)}" for one in work)
        known = "by what the day book has of your times so far" if _timed(copy.shop) else "reckoned, not timed"
        yield f"Hours: {known}. The work may take {spans}: those are the last rows. Time the first ones."
    if terms.waste == plain.waste and any(line.share for q in quotes if (line := q.line(Costs.METAL))):
        kind = TERMS_SOURCES["waste"].kind
        yield f"Metal lost on the way, {say_percent(terms.waste, style)}: a guess {kind}; write your own as “waste”."
    if terms.light == plain.light and any(q.line(Costs.FUEL) for q in quotes):
        kind = TERMS_SOURCES["light"].kind
        yield f"Lighting the fire, {duration(terms.light)}: a guess {kind}; write your own as “lighting in minutes”."
    if terms.learns == plain.learns and len(quotes) > 1:
        yield "Learning: none is counted, so the last of a lot is reckoned as slow as the first."
    if terms.learns < 1:
        yield "Learning: the shop's own figure, from the first piece of the lot on; nothing in print speaks of forging."


def _timed(shop: Shop) -> bool:
    """Whether the day book has taught any times."""
    return shop.hand.slow != 1.0 or bool(shop.hand.slow_at) or shop.fire.slow != 1.0


def not_counted(copy: Copy) -> tuple[str, ...]:
    """What the price leaves out, so that nobody forgets it."""
    return tuple(_not_counted(copy))


def _not_counted(copy: Copy) -> Iterator[str]:
    terms = copy.shop.terms
    if not terms.fixed:
        yield "Drawing, talking with the customer, fetching metal: write “fixed” in the shop file."
    first = "; ".join(tool_says(one, copy.shop.style) for one in copy.plan.tools) if copy.plan is not None else ""
    if first:
        yield f"Tools to make or find first: {first}."
    if not terms.failed:
        yield "Work that goes wrong and is made again: write “failed”."
    if not terms.margin:
        yield "A margin: write “margin”. What is left over is then only what the rate pays."
    yield "Rent, insurance, worn tools, days without orders: they must be in the rate. Sales tax."


def offers_told(copy: Copy) -> tuple[tuple[str, str, str], ...]:
    """What a customer is told of prices: so many sets, so much each, so much in all."""
    comma = copy.shop.style.comma
    offers = [quote.offer for quote in copy.quotes if quote.offer is not None]
    return tuple((str(o.count), say_money(o.each, comma=comma), say_money(o.whole, comma=comma)) for o in offers)
