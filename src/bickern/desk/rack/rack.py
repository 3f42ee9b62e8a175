"""The rack as the desk uses it: looked at, added to, changed; who changes it, and what bare numbers mean there."""

import getpass
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TypeVar

from bickern.book.database.open import open_book
from bickern.book.database.work import Book
from bickern.book.files import Fetch, beside, no_files, read_file
from bickern.book.rack.change import meanwhile
from bickern.book.rack.listed import Meant, pieces_of, read_list
from bickern.book.rack.read import piece_in, rack_of
from bickern.book.rack.rows import too_long
from bickern.book.rack.written import list_text, row_of_list
from bickern.desk.asker import shop_at
from bickern.desk.rack.slips import bare_beside_metric, slips
from bickern.making.shop import Shop
from bickern.making.stock.fire import may_be_heated
from bickern.making.stock.rack import Rack, Stock, StockBar
from bickern.measure.finding import NOWHERE, Finding, note, warn
from bickern.measure.units.words import System

T = TypeVar("T")
Lying = Stock
"""What lies in the rack, as the doors know it."""
LARGEST_LIST = 5_000_000
"""Bytes: a larger file is no list of a small shop's rack."""


@dataclass(frozen=True, slots=True)
class Done:
    """What came of something done to the rack: the pieces it was done to, as they are now, and the findings."""

    pieces: tuple[Stock, ...]
    findings: tuple[Finding, ...] = ()

    @property
    def stops(self) -> bool:
        """Whether it was not done."""
        return any(f.stops for f in self.findings)


@dataclass(frozen=True, slots=True)
class Keeper:
    """Who does it, where the rack is (None: the environment's, or the user's own), and by which shop's words.

    `system`: what bare numbers mean; None where nobody said. `files`: what a name of a file may mean (None: any file
    that this user can read, as on a terminal).
    """

    where: str | Path | None = None
    shop: Shop = field(default_factory=Shop)
    system: System | None = None
    who: str = ""
    findings: tuple[Finding, ...] = ()
    files: Fetch | None = None

    @property
    def meant(self) -> Meant:
        """What words typed mean to this keeper: a bare number as the shop prints it; files as they are named."""
        system, currency = self.system or self.shop.style.first, self.shop.currency or None
        return Meant(system, self.shop.gauge, currency, self.files or _any_file)


def _any_file(name: str) -> bytes | Finding:
    return read_file(Path(name), LARGEST_LIST)


def brought(files: Mapping[str, bytes]) -> Fetch:
    """What a name of a file means to a keeper who has these alone."""
    return lambda name: files.get(name) or no_files(name)


def keeper(where: str | Path | None, shop_path: Path | None, units: str | None = None, who: str = "") -> Keeper:
    """A keeper by a shop file, if there is one; `units` (in or mm) goes before the shop's own."""
    shop, findings = shop_at(shop_path)
    own = shop.style.first if shop_path is not None else None
    system = System(units) if units else own
    shop = shop if system is None else replace(shop, style=replace(shop.style, first=system))
    return Keeper(where, shop, system, who or me(), findings)


def rack_at(where: str | Path | None = None) -> tuple[Rack, tuple[Finding, ...]]:
    """All that lies in a rack (None: the environment's, or the user's own), and what was found; none is made.

    Where it cannot be read, an empty rack and a finding that stops.
    """
    read = in_book(where, lambda book: (rack_of(book), book.found))
    if isinstance(read, Finding):
        return Rack(), (read,)
    rack, found = read
    return (Rack(), (*found, rack)) if isinstance(rack, Finding) else (rack, found)


def opened(where: str | Path | None = None, *, make: bool = True) -> Book | Finding:
    """The rack, open, to be changed; `close()` it when done."""
    return open_book(where, make=make)


def in_book(where: str | Path | None, does: Callable[[Book], T]) -> T | Finding:
    """What is done with a rack that is there; it is let go of, whatever comes of that. Why not, where none opens."""
    book = open_book(where, make=False)
    if isinstance(book, Finding):
        return book
    try:
        return does(book)
    finally:
        book.close()


def me() -> str:
    """The name that stands in the history: that of who is at the machine."""
    try:
        return getpass.getuser()
    except (OSError, KeyError, ImportError):
        return ""


def add_to_rack(by: Keeper, cells: Mapping[str, str]) -> Done:
    """Puts in what is typed for one piece, or several alike, by the columns of a list."""
    bare = bare_beside_metric(cells, cells) if by.system is None else None
    if bare is not None:
        return Done((), (*by.findings, bare))
    read = pieces_of(cells, by.meant, NOWHERE)
    if read.value is None:
        return Done((), (*by.findings, *read.findings))
    return _put_in(by, read.value, read.findings)


def import_list(by: Keeper, path: Path, *, dry: bool = False) -> Done:
    """Puts in all of a list, or nothing of it where anything in it stops; `dry`: only shows what it would be."""
    data = read_file(path, LARGEST_LIST)
    if isinstance(data, Finding):
        return Done((), (*by.findings, data))
    return import_data(replace(by, files=beside(path.parent)), data, str(path), dry=dry)


def import_data(by: Keeper, data: bytes, file: str, *, dry: bool = False) -> Done:
    """The same for a list that was brought in; the files that it names are those of the keeper."""
    # who made the list may have meant other units than this shop's plain ones: they must be told
    listed = read_list(data, file, replace(by.meant, system=by.system))
    found = (*listed.findings, *_for_cold(listed.pieces))
    if any(f.stops for f in listed.findings):
        stays = f"nothing of it is put in: {len(listed.pieces)} pieces could be read, and something stops the rest"
        return Done((), (*by.findings, *found, note("nothing-put-in", stays, "mend the list, and import it again")))
    return Done(listed.pieces, (*by.findings, *found)) if dry else _put_in(by, listed.pieces, found)


def _for_cold(pieces: Sequence[Stock]) -> tuple[Finding, ...]:
    """What many pieces have in common, said once."""
    found = [may_be_heated(piece) for piece in pieces]
    never = sum(f is not None and f.stops for f in found)
    doubt = sum(f is not None and not f.stops for f in found)
    says = f"{never} of {len(pieces)} pieces must never go in a fire: they lie in the rack for cold work"
    told = (warn("stock-for-cold-work", says, "`bickern rack list` says why beside each"),) if never else ()
    says = f"of {doubt} of {len(pieces)} pieces it is not known what is on them, or what metal they are"
    way = "write `coating: none` and the steel where they are known"
    return told + ((warn("stock-not-known", says, way),) if doubt else ())


def _put_in(by: Keeper, pieces: Sequence[Stock], found: Sequence[Finding]) -> Done:
    from bickern.book.rack.change import add

    book = open_book(by.where)
    if isinstance(book, Finding):
        return Done((), (*by.findings, *found, book))
    ids = add(book, pieces, by.who)
    book.close()
    if isinstance(ids, Finding):
        return Done((), (*by.findings, *book.found, *found, ids))
    named = tuple(replace(piece, id=one, version=1) for one, piece in zip(ids, pieces, strict=True))
    alone = may_be_heated(named[0]) if len(set(pieces)) == 1 else None
    told = () if alone is None else (_only_told(named[0].id, alone),)
    found = [f for f in found if alone is None or f.says != alone.says]  # that is told with its id
    return Done(named, (*by.findings, *book.found, *found, *slips(named, by.shop.style), *told))


def _only_told(piece_id: str, fault: Finding) -> Finding:
    """What keeps a piece out of the fire does not keep it out of the rack."""
    says = f"{piece_id}: {fault.says}"
    if not fault.stops:
        return replace(fault, says=says)
    return warn("stock-for-cold-work", says, "It lies in the rack for cold work; no plan heats it.")


def cells_of(piece: Stock, by: Keeper) -> dict[str, str]:
    """What is told of a piece, by the columns of a list, as this keeper would write it."""
    return row_of_list(piece, by.shop.style)


def change_in_rack(by: Keeper, piece_id: str, cells: Mapping[str, str], seen: int | None = None) -> Done:
    """Changes what is told of one piece, by the columns of a list; what is not among them stays.

    `seen`: the version that whoever changes it has seen; where it is another by now, nothing is changed.
    """
    return _with_piece(by, piece_id, lambda book, piece: _rewritten(by, book, piece, cells), seen)


def move_in_rack(by: Keeper, piece_id: str, place: str, seen: int | None = None) -> Done:
    """Says where a piece lies now; `seen` as for a change."""
    done = _with_piece(by, piece_id, lambda book, piece: _written(by, book, replace(piece, place=place), "moved"), seen)
    return _all_kept(done, place, "place")


def _all_kept(done: Done, text: str, what: str) -> Done:
    """What was done, and whether all of a text of it is kept."""
    fault = too_long(text, what)
    return done if fault is None or done.stops else replace(done, findings=(*done.findings, fault))


def _with_piece(by: Keeper, piece_id: str, does: Callable[[Book, Stock], Done], seen: int | None = None) -> Done:
    def done_in(book: Book) -> Done:
        piece = piece_in(book, piece_id)
        if not isinstance(piece, Finding) and seen not in (None, piece.version):
            piece = meanwhile(piece.id)
        done = Done((), (piece,)) if isinstance(piece, Finding) else does(book, piece)
        return replace(done, findings=(*book.found, *done.findings))

    done = in_book(by.where, done_in)
    done = Done((), (done,)) if isinstance(done, Finding) else done
    return replace(done, findings=(*by.findings, *done.findings))


def _rewritten(by: Keeper, book: Book, piece: Stock, cells: Mapping[str, str]) -> Done:
    """The piece written as a row of a list, with other cells, and read again: the same rules as for a list."""
    row = {name: cell for name, cell in row_of_list(piece, by.shop.style).items() if cell} | dict(cells)
    bare = bare_beside_metric(row, cells) if by.system is None else None
    if bare is not None:
        return Done((), (bare,))
    read = pieces_of({name: cell for name, cell in row.items() if cell}, by.meant, NOWHERE)
    if read.value is None:
        return Done((), read.findings)
    new = replace(read.value[0], id=piece.id, of=piece.of, version=piece.version)
    if isinstance(new, StockBar) and isinstance(piece, StockBar) and "section" not in cells:
        new = replace(new, section=piece.section)
    done = _written(by, book, new, "changed")
    return replace(done, findings=(*read.findings, *slips(done.pieces, by.shop.style), *done.findings))


def _written(by: Keeper, book: Book, piece: Stock, what: str) -> Done:
    from bickern.book.rack.change import change

    done = change(book, piece, by.who, what=what)
    return Done((), (done,)) if isinstance(done, Finding) else Done((done,))


def remove_from_rack(by: Keeper, ids: Sequence[str], because: str) -> Done:
    """Takes pieces out, and says why."""
    from bickern.book.rack.change import remove

    done = in_book(by.where, lambda book: remove(book, ids, because, by.who))
    if isinstance(done, Finding):
        return Done((), (*by.findings, done))
    return _all_kept(Done(done, by.findings), because, "reason")


def as_list(pieces: Sequence[Stock], by: Keeper) -> str:
    """The pieces as a list in CSV."""
    return list_text(pieces, by.shop.style)


def back_up(by: Keeper, path: Path) -> Path | Finding:
    """Writes the whole rack into a file of its own."""
    from bickern.book.rack.backup import backup

    return in_book(by.where, lambda book: backup(book, path))


def backed_up(by: Keeper) -> bytes | Finding:
    """The whole rack as a file, to be kept somewhere else."""
    from tempfile import TemporaryDirectory

    with TemporaryDirectory() as folder:
        done = back_up(by, Path(folder) / "rack.sqlite")
        return done if isinstance(done, Finding) else done.read_bytes()


def checked(by: Keeper) -> tuple[int, tuple[Finding, ...]]:
    """How many pieces lie in the rack, and everything in it that does not hang together."""
    from bickern.book.rack.check import check

    read = in_book(by.where, lambda book: (check(book), rack_of(book)))
    if isinstance(read, Finding):
        return 0, (read,)
    found, rack = read
    return (0, (*found, rack)) if isinstance(rack, Finding) else (len(rack.bars) + len(rack.sheets), found)
