"""The stock that a piece can be made from, told in words: the same for a terminal and a page."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from bickern.desk.rack.rack import rack_at
from bickern.desk.rack.rows import size_says, stock_says
from bickern.desk.reckon import reckon_file
from bickern.desk.seen import AS_SHOP, Seen, as_seen
from bickern.desk.stock.stock import ways, ways_of
from bickern.desk.thickness import said_section, said_thickness
from bickern.desk.work.heats import no_such_piece
from bickern.making.shop import Shop
from bickern.making.stock.become import How, NoWay, PieceWays, Way
from bickern.making.stock.rack import Stock, StockBar
from bickern.measure.finding import Finding
from bickern.measure.money import say_money
from bickern.measure.spread import Spread
from bickern.measure.units.say import say_up_both
from bickern.measure.units.words import Style
from bickern.paper.sheets.heat_amounts import duration
from bickern.paper.sheets.heat_amounts import heats as said_heats

Row = tuple[str, ...]
Table = tuple[str, tuple[Row, ...], Row]
HEADS: Row = ("stock", "there", "makes", "how")
MOST_SHOWN = 12
"""Pieces of stock that are shown for one piece where not all are asked for."""
SAME = "the same"
ASK = "--all"
"""How the terminal is asked for everything."""
_NO_TIME = 15.0
"""Seconds of difference that no smith would notice."""


@dataclass(frozen=True, slots=True)
class StockTold:
    """What the rack has for the pieces of a job, for this shop, and what was found; `worth`: how a command ends."""

    pieces: tuple[PieceWays, ...]
    shop: Shop
    findings: tuple[Finding, ...]
    worth: int

    def tables(self, *, every: bool, ask: str = ASK) -> Iterator[Table]:
        """A table for each piece (title, rows, heads); with `every` the stock that does not do after it.

        `ask`: how this door is asked for everything.
        """
        for found in self.pieces:
            yield title_of(found, self.shop), way_rows(found, self.shop, every=every, ask=ask), HEADS
            if every and found.none:
                yield f"Not for {found.piece}", no_rows(found.none, self.shop), ()
        if any(way.eats is None and way.seconds.value > _NO_TIME for p in self.pieces for way in p.ways):
            yield NO_PRICES, (), ()


NO_PRICES = "What more fire and time cost is not told: the shop file has no `rate`, or no `fuel` under `prices`."


def stock_for(
    job: Path,
    piece: str | None,
    rack: str | Path | None,
    shop: Path | None,
    *,
    most: int,
    seen: Seen = AS_SHOP,
) -> StockTold:
    """What the rack has for a job, or for one piece; `seen`: how it is to be shown.

    `worth` is 1 where a piece has nothing or something stops, 2 for wrong use.
    """
    done = reckon_file(job, shop)
    if done.job is None or done.copy is None:
        return StockTold((), Shop(), done.findings, 1)
    lies, found = rack_at(rack)
    if any(f.stops for f in found):
        return StockTold((), done.copy.shop, found, 1)
    one = done.job.piece(piece) if piece is not None else None
    if piece is not None and one is None:
        return StockTold((), done.copy.shop, (no_such_piece(piece, [p.name for p in done.job.pieces]),), 2)
    told = (ways_of(done, one, lies, most=most),) if one is not None else ways(done, lies, most=most)
    stops = tuple(f for f in done.findings if f.stops)
    shop_seen, worth = as_seen(done.copy.shop, seen), 1 if stops or any(not p.ways for p in told) else 0
    return StockTold(told, shop_seen, (*found, *stops), worth)


def title_of(found: PieceWays, shop: Shop) -> str:
    """The piece, how many, and what each is cut from as asked."""
    many = f"{found.copies} of " if found.copies > 1 else ""
    if found.asked is None:
        return f"{found.piece}: {many}sheet" if found.copies else found.piece
    each = f", {say_up_both(found.cut, shop.style)} each" if found.cut > 0 else ""
    return f"{found.piece}: {many}{said_section(found.asked, shop.style)}{each}"


def way_rows(found: PieceWays, shop: Shop, *, every: bool = False, ask: str = ASK) -> tuple[Row, ...]:
    """One row for each piece of stock, the best first; what is said of one of its kind is not said again."""
    shown = found.ways if every else found.ways[:MOST_SHOWN]
    rows = list(_rows(shown, shop))
    if len(shown) < len(found.ways):
        rows.append(("", "", "", f"and {len(found.ways) - len(shown)} more ({ask} shows them)"))
    if found.heavier:
        rows.append(("", "", "", _heavier([one.id for one in found.heavier], ask)))
    if not rows:
        rows.append(("", "", "", found.says or f"nothing in the rack becomes it ({ask} says why of each)"))
    return tuple(rows)


def _rows(shown: Sequence[Way], shop: Shop) -> Iterator[Row]:
    before = ""
    for way in shown:
        says = _said(way, shop)
        makes = str(way.copies) if way.cuts else ""
        yield _ids(way.stock), _there(way, shop.style), makes, SAME if says == before else says
        before = says


def _ids(stock: Sequence[Stock]) -> str:
    return " + ".join(one.id for one in stock)


def _there(way: Way, style: Style) -> str:
    return " + ".join(_there_of(one, style) for one in way.stock)


def _there_of(one: Stock, style: Style) -> str:
    size = size_says(one, style)
    if not isinstance(one, StockBar):
        size = f"{size} of {stock_says(one, style)}"
    return ", ".join(part for part in (size, "offcut" if one.offcut else "", one.place) if part)


def _said(way: Way, shop: Shop) -> str:
    """`1/2 in rd (12.7 mm), drawn down: cut 5 3/16 in (132 mm); 3 heats and 2 min more; ...`."""
    first = way.stock[0]
    what = said_section(first.section, shop.style) if isinstance(first, StockBar) else "sheet"
    cuts = " and ".join(say_up_both(cut, shop.style) for cut in way.cuts)
    told = (f"{what}, {way.how}{f': cut {cuts}' if cuts else ''}", more_says(way), *_costs(way), *way.says, way.doubt)
    return "; ".join(part.rstrip(".") for part in told if part)


def more_says(way: Way) -> str:
    """Heats and time more than from the asked bar; "" where it is that bar."""
    if way.how is How.AS_IS and way.seconds.is_sharp and way.seconds.value == 0.0:
        return ""
    heats = said_heats(_above(way.heats)) if way.heats.value > 0.5 else ""
    if abs(way.seconds.value) < _NO_TIME:
        return f"{heats} more" if heats else "no more time"
    if way.seconds.value < 0.0:
        return f"{duration(-way.seconds.value)} less"
    return f"{' and '.join(part for part in (heats, duration(way.seconds.value)) if part)} more each"


def _above(heats: Spread) -> Spread:
    """Heats more, never below nothing."""
    return Spread(max(0.0, heats.value), max(0.0, heats.low), max(0.0, heats.high))


def _costs(way: Way) -> Iterator[str]:
    """What it eats beside what the asked bar costs to buy, where the shop file tells prices."""
    if way.eats is None or way.seconds.value < _NO_TIME:
        return
    eats = f"eats {say_money(way.eats)} of fire and time"
    if way.buy is None:
        yield eats
    elif way.buying_is_cheaper:
        yield f"{eats}: BUYING IS CHEAPER, the asked bar costs {say_money(way.buy)}"
    else:
        yield f"{eats}; the asked bar costs {say_money(way.buy)} to buy"


def no_rows(none: Sequence[NoWay], shop: Shop) -> tuple[Row, ...]:
    """What does not become the piece, by the reason."""
    return tuple((_few([one.id for one in no.stock]), _size(no, shop.style), no.why) for no in none)


def _heavier(ids: Sequence[str], ask: str) -> str:
    be, them = ("is", "it") if len(ids) == 1 else ("are", "them")
    return f"{_few(ids)} {be} heavier still ({ask} counts {them})"


def _few(ids: Sequence[str]) -> str:
    return ", ".join(ids[:4]) + (f" and {len(ids) - 4} more" if len(ids) > 4 else "")


def _size(no: NoWay, style: Style) -> str:
    first = no.stock[0]
    return said_section(first.section, style) if isinstance(first, StockBar) else said_thickness(first.thick, style)
