"""What metal, work and fire are worth in this shop, by its own prices: always what it costs to replace, never less.

A bar from the scrap heap that cost nothing is worth what the next one will cost. So the shop file's price of new metal
goes first; only where it tells none for a section does the price on a bar of the rack stand in, for what the last one
cost is then the best guess at the next. No price here is a default: where neither tells one, there is none.
"""

from collections.abc import Iterable
from fractions import Fraction

from bickern.iron.section import Section, area
from bickern.iron.steel import DEFAULT_STEEL, MetalClass, Steel, find_steel, taken_for
from bickern.making.shop import Shop
from bickern.making.stock.alike import same_section
from bickern.making.stock.fire import never_heated
from bickern.making.stock.rack import StockBar
from bickern.making.stock.steel_match import steel_match
from bickern.measure.money import Money, Price, exactly, read_money, read_price, say_money
from bickern.measure.units.say import say_length

HOUR = 3600
"""Seconds of an hour."""
_PLAIN = (MetalClass.MILD,)
"""Families that the price of plain bar speaks of; another is priced by its own name, or by nothing.

Wrought iron is none of them: what is sold of it is mostly old iron, at a price of its own (common practice).
"""


def hour(shop: Shop) -> Money | None:
    """What an hour of work is worth; None where the shop tells no rate."""
    return told(shop.rate, shop)


def fuel_hour(shop: Shop) -> Money | None:
    """What an hour of fire costs; None where the shop does not tell."""
    return told(shop.terms.fuel, shop)


def told(amount: str, shop: Shop) -> Money | None:
    """An amount as it is written in the shop file; None where nothing is told, or nothing that can be read.

    A shop that names no currency tells no amount, though one names its own: it may stand beside another's.
    """
    return read_money(amount, shop.currency).value if amount and shop.currency else None


def metal(mass: float, section: Section | None, shop: Shop, steel: str = "") -> Money | None:
    """What metal of this mass [kg] costs to replace: by its own name, by its section, by weight; None: not told.

    `section` None: sheet. Plain bar's price does not serve for another metal: brass is not sold as mild steel is.
    """
    known = taken_for(steel)
    price = price_of(section, shop, known)
    if price is None:
        return None
    if price.unit == "kg":
        return price.of(exactly(mass))
    return price.of(exactly(mass) / exactly(known.density.value * area(section))) if section is not None else None


def replacement(
    mass: float, length: float, section: Section, shop: Shop, steel: str, bars: Iterable[StockBar]
) -> tuple[Money | None, str]:
    """What bar of this `mass` [kg] and `length` [m] costs to replace, and by which price, in words; None: not told.

    By the shop file's price; else by the dearest bar of that section among `bars`.
    """
    by_shop = metal(mass, section, shop, steel)
    lying = dearest(section, steel, bars, shop) if by_shop is None else None
    if lying is None or lying.price is None:
        return by_shop, words_of(section, shop, taken_for(steel))
    said = f"{say_money(lying.price, comma=shop.style.comma)} for {say_length(lying.length, shop.style)} ({lying.id})"
    return part_of(lying.price, length, lying.length), said


def price_of(section: Section | None, shop: Shop, steel: Steel = DEFAULT_STEEL) -> Price | None:
    """The price that serves for a section (None: sheet) of a metal; None where the shop tells none."""
    return priced(words_of(section, shop, steel), shop)


def words_of(section: Section | None, shop: Shop, steel: Steel = DEFAULT_STEEL) -> str:
    """That price as the shop file writes it; "" where it tells none."""
    by_name = next((words for name, words in shop.terms.metals if find_steel(name).value == steel), "")
    if by_name or not is_plain(steel):
        return by_name
    by_section = next((s.price for s in shop.terms.sections if section and same_section(s.section, section)), "")
    return by_section or shop.terms.metal


def is_plain(steel: Steel) -> bool:
    """Whether it is sold as plain bar, and the price of that serves for it."""
    return steel.family in _PLAIN


def priced(words: str, shop: Shop) -> Price | None:
    """A price by weight or by length as written; a bare amount is a kilogram's."""
    if not words or not shop.currency:
        return None
    bare = read_money(words, shop.currency).value
    return Price(bare, Fraction(1), "kg") if bare is not None else read_price(words, shop.currency).value


def dearest(section: Section, steel: str, bars: Iterable[StockBar], shop: Shop) -> StockBar | None:
    """Of bars that would be bought for such a section and steel, the one that costs most by its length; None: none.

    Its price is in the shop's money, its steel the same or a like one, and nothing keeps it out of a fire. A bar that
    was had for nothing tells no price: the next one will cost something.
    """
    asked = taken_for(steel).name
    alike = [
        (bar.price.times(1 / exactly(bar.length)).amount, bar)
        for bar in bars
        if bar.price is not None
        and bar.price.amount > 0
        and bar.price.currency == shop.currency
        and same_section(bar.section, section)
        and steel_match(asked, bar.steel, unknown=False).will_do
        and not never_heated(bar)
    ]
    return max(alike, key=lambda one: one[0])[1] if alike else None


def part_of(price: Money, part: float, whole: float) -> Money:
    """What a part of a piece of stock is worth by the price of the whole: lengths [m] or areas [m2], to a millionth."""
    return price.times(exactly(round(part, 6)) / exactly(round(whole, 6)))


def hours(seconds: float) -> Fraction:
    """Hours of so many seconds, exact from the milliseconds on: no float meets money."""
    return exactly(round(seconds, 3)) / HOUR
