"""Which stock may serve which wants: of the same section or thickness, of steel that will do, fit for the fire."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Generic, TypeVar

from bickern.geometry.pack.shapes.check import CHORD
from bickern.geometry.polygon import to_shapely
from bickern.iron.steel import DEFAULT_STEEL, find_steel
from bickern.making.stock.alike import same_gauge, same_section
from bickern.making.stock.fire import may_be_heated
from bickern.making.stock.rack import StockBar, StockSheet
from bickern.making.stock.steel_match import Match, Matched, steel_match
from bickern.making.stock.wants import SheetWant, Want
from bickern.measure.finding import Finding, note, warn

W = TypeVar("W", Want, SheetWant)
S = TypeVar("S", StockBar, StockSheet)


@dataclass(frozen=True, slots=True)
class Group(Generic[W, S]):
    """Wants of one size and family of steel, and the stock that may serve them.

    `unknown`: ids of stock whose steel nobody knows, used last. `findings`: what was refused of this size, and why.
    `remarks`: what is to be said of a piece of stock (by id) where it is taken.
    """

    wants: tuple[W, ...]
    stock: tuple[S, ...]
    unknown: frozenset[str]
    findings: tuple[Finding, ...] = ()
    remarks: tuple[tuple[str, Finding], ...] = ()


def bar_groups(wants: Sequence[Want], bars: Sequence[StockBar], unknown: bool) -> tuple[Group[Want, StockBar], ...]:
    """Wants of bar sorted by section, steel and fire, with the bars that may serve each."""
    return _groups(wants, bars, _bar_fits, unknown)


def sheet_groups(
    wants: Sequence[SheetWant], sheets: Sequence[StockSheet], unknown: bool
) -> tuple[Group[SheetWant, StockSheet], ...]:
    """Wants of sheet sorted by thickness, steel and fire, with the sheets that may serve each."""
    groups = _groups(wants, sheets, _sheet_fits, unknown)
    return tuple(replace(one, findings=(*one.findings, *_same_number(one.wants, sheets))) for one in groups)


def _same_number(wants: Sequence[SheetWant], sheets: Sequence[StockSheet]) -> Iterator[Finding]:
    """What is refused of the sheets that go by the same gauge number, though they are thicker.

    Galvanised sheet has a gauge of its own, thicker than that of bare sheet: by its thickness alone it would be passed
    over, and nobody told that it is not for the fire.
    """
    numbers = {_number(want.gauge) for want in wants if not want.coated} - {""}
    for sheet in sheets:
        fault = may_be_heated(sheet)
        if fault is None or not fault.stops or any(_sheet_fits(want, sheet) for want in wants):
            continue
        if _number(sheet.gauge) in numbers:
            yield _refused(sheet, fault, wants)


def _number(gauge: str) -> str:
    """The number of a gauge as it was written: `18` of `18 US ga`."""
    return gauge.split()[0] if gauge.split() else ""


def _bar_fits(want: Want, other: Want | StockBar) -> bool:
    return same_section(want.section, other.section)


def _sheet_fits(want: SheetWant, other: SheetWant | StockSheet) -> bool:
    return same_gauge(other.thick, want.thick)


def _groups(
    wants: Sequence[W], stock: Sequence[S], fits: Callable[[W, W | S], bool], unknown: bool
) -> tuple[Group[W, S], ...]:
    """Lots of wants that share their stock. Steel that nobody knows, or a size between two, may serve several lots."""
    lots: list[list[W]] = []
    for want in wants:
        mine = next((lot for lot in lots if fits(lot[0], want) and _alike(lot[0], want)), None)
        if mine is None:
            lots.append([want])
        else:
            mine.append(want)
    return tuple(_group(lot, [one for one in stock if fits(lot[0], one)], unknown) for lot in lots)


def _alike(one: W, other: W) -> bool:
    return one.coated == other.coated and steel_match(_steel(one), _steel(other), unknown=False).will_do


def _steel(want: Want | SheetWant) -> str:
    """The steel that a want names; where none is named, plain mild bar was reckoned with."""
    return want.steel or DEFAULT_STEEL.name


def _group(lot: Sequence[W], near: Sequence[S], unknown: bool) -> Group[W, S]:
    """One lot with the stock of its size that may serve it, and what is to be said of it and of the rest."""
    kept: list[S] = []
    strange: set[str] = set()
    found: list[Finding] = []
    used: list[tuple[str, Finding]] = []
    for one in near:
        if isinstance(one, StockSheet) and _is_crossed(one):
            found.append(_crossed(one))
            continue
        steel, fault = steel_match(_steel(lot[0]), one.steel, unknown), may_be_heated(one)
        if (fault is not None and fault.stops) != lot[0].coated:
            found += [_refused(one, fault, lot)] if fault is not None and fault.stops else []
        elif not steel.will_do:
            found += [_not_known(one)] if find_steel(one.steel).value is None else []
        else:
            kept.append(one)
            strange |= {one.id} if steel.match is Match.UNKNOWN else set()
            used += [(one.id, said) for said in _remarks(one, steel, fault, any(want.hot for want in lot))]
    return Group(tuple(lot), tuple(kept), frozenset(strange), tuple(found), tuple(used))


def _remarks(one: StockBar | StockSheet, steel: Matched, fault: Finding | None, hot: bool) -> Iterator[Finding]:
    """What is to be said where this piece of stock is taken."""
    if steel.match is Match.ALIKE:
        yield note("stock-other-grade", f"{one.id}: {steel.says}")
    if steel.match is Match.UNKNOWN:
        yield warn("stock-steel-unsure", f"{one.id}: {steel.says}", "make a test piece first")
    elif hot and fault is not None and not fault.stops:
        yield warn("stock-doubtful", f"{one.id} is to go into the fire. {fault.says}", fault.try_this)


def _refused(stock: StockBar | StockSheet, fault: Finding, lot: Sequence[Want] | Sequence[SheetWant]) -> Finding:
    """Coated stock of the right size: never for what goes into the fire, and for cold work only where that is asked."""
    where = f"{stock.id} ({stock.place})" if stock.place else stock.id
    if any(want.hot for want in lot):
        return warn("stock-refused", f"{where} is refused. {fault.says}", fault.try_this)
    way = f"write `coating: {stock.coating}` at the piece if it may be made of that, cold"
    return note("stock-left-out", f"{where} is left out. {fault.says}", way)


def _is_crossed(sheet: StockSheet) -> bool:
    """Whether nobody can say what is metal: lines of its outline and its holes cross, or run along one another."""
    return not to_shapely(sheet.outline, CHORD, sheet.cutouts).is_valid


def _crossed(sheet: StockSheet) -> Finding:
    says = f"{sheet.id} is left out: its outline or a hole in it crosses or touches itself, or the other"
    return warn("stock-outline-crossed", says, "draw it again; a bite that runs out to the edge is part of the outline")


def _not_known(stock: StockBar | StockSheet) -> Finding:
    says = f"what steel {stock.id} is, nobody knows: it is left out"
    way = "test it and write it down in the rack, or allow unknown steel in the shop file"
    return note("stock-steel-unknown", says, way)
