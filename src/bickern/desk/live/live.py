"""A job reckoned as it is typed: quick enough for every stroke of a key, from the text as it stands.

What did not change since the last stroke is not reckoned again. Text that cannot be read gives findings and no
pieces, and whoever shows it keeps what was there.
"""

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from bickern.desk.answer import Row
from bickern.desk.by_rack import by_what_is_there
from bickern.desk.live.kept import Few, kept_piece, known_as
from bickern.desk.live.pictures import ON_THE_BENCH, Picture, Room, pictures_of
from bickern.desk.piece_rows import count_of, cut_of, made_of, rows_of
from bickern.desk.reckon import Reckoning, reckon_text
from bickern.desk.seen import AS_SHOP, Seen
from bickern.desk.summary import summary
from bickern.desk.work.heats import planned
from bickern.measure.finding import Finding
from bickern.paper.copy import Copy, PieceResult
from bickern.parts.bar.result import BarResult
from bickern.parts.ring.spec import RingResult

__all__ = ["Live", "Picture", "PieceLive", "Room", "heated", "live", "reckoned"]


@dataclass(frozen=True, slots=True)
class PieceLive:
    """One piece: `kind` "bar", "ring" or "sheet", what to cut of what, how often; of the one asked for, the rest."""

    name: str
    kind: str
    cut: str
    made_of: str
    count: int
    rows: tuple[Row, ...] = ()
    pictures: tuple[Picture, ...] = ()


@dataclass(frozen=True, slots=True)
class Live:
    """A job as it stands; `pieces` in the job's order (none where the text cannot be read), `together` of the whole.

    `heated`: what its heats take is counted in every figure, as on the sheet.
    """

    done: Reckoning
    title: str = ""
    pieces: tuple[PieceLive, ...] = ()
    together: tuple[Row, ...] = ()
    heated: bool = False

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Every finding, in the order of the lines."""
        return self.done.findings

    def piece(self, name: str) -> PieceLive | None:
        """The piece of that name, where it could be reckoned."""
        return next((piece for piece in self.pieces if piece.name == name), None)


def live(
    text: str,
    path: Path,
    *,
    piece: str = "",
    picture: str = "",
    shop: Path | None = None,
    rack: str | Path | None = None,
    own: bool = False,
    seen: Seen = AS_SHOP,
    room: Room = ON_THE_BENCH,
) -> Live:
    """The job of this text, with figures and pictures of the `piece` asked for ("": of the first).

    `path`: the file that it is the text of; what it names lies beside that. `room`: what there is to draw in. The
    `picture` of that title ("": the first) is drawn at once, the others when they are looked at.
    """
    done = reckoned(text, path, shop=shop, rack=rack, own=own, seen=seen)
    copy, told = done.copy, summary(done)
    if copy is None or told is None:
        return Live(done)
    return Live(done, told.title, _pieces(copy, piece, picture, room), told.together)


def heated(now: Live, piece: str = "", picture: str = "", room: Room = ON_THE_BENCH) -> Live | None:
    """The same with its heats counted: figures and marks are the sheet's. None where the work stands still.

    What was found is that of the text as it was typed. `piece`, `picture`, `room` as in `live`.
    """
    done = planned(now.done) if not now.done.stops else now.done
    copy, told = done.copy, summary(done)
    if copy is None or told is None or copy.plan is None:
        return None
    return Live(now.done, told.title, _pieces(copy, piece, picture, room), told.together, heated=True)


def _pieces(copy: Copy, piece: str, picture: str, room: Room) -> tuple[PieceLive, ...]:
    """All pieces, with everything of the one asked for; one of its pictures is drawn here and now."""
    asked = piece or next((p.spec.name for p in copy.pieces), "")
    pieces = tuple(_piece(p, copy, asked, room) for p in copy.pieces)
    _draw([one for p in pieces for one in p.pictures], picture)
    return pieces


def _draw(pictures: list[Picture], title: str) -> None:
    """Draws the one that is looked at, here and now."""
    wanted = next((one for one in pictures if one.title == title), pictures[0] if pictures else None)
    if wanted is not None:
        wanted.shown()


def _piece(piece: PieceResult, copy: Copy, asked: str, room: Room) -> PieceLive:
    style = copy.shop.style
    name, count = piece.spec.name, count_of(piece, copy.job.make)
    kind = "bar" if isinstance(piece, BarResult) else "ring" if isinstance(piece, RingResult) else "sheet"
    short = PieceLive(name, kind, cut_of(piece, style), made_of(piece, style), count)
    if name != asked:
        return short
    rows = rows_of(piece, style, every_rule=False)
    return PieceLive(name, kind, short.cut, short.made_of, count, rows, _pictures(piece, copy, room))


_PICTURES: Few[tuple[Picture, ...]] = Few(60)
_RECKONED: Few[Reckoning] = Few(8)


def _pictures(piece: PieceResult, copy: Copy, room: Room) -> tuple[Picture, ...]:
    """The pictures of a piece, drawn once for each room and each way to read them."""
    style, english = copy.shop.style, copy.shop.english
    spec = copy.job.piece(piece.spec.name)
    if spec is None or copy.plan is not None:  # what heats take hangs on more than the piece's own words
        return pictures_of(piece, style, english, room)
    known = (known_as(spec, copy.shop), style, english, room)
    return _PICTURES.get(known, lambda: pictures_of(piece, style, english, room))


def reckoned(
    text: str,
    path: Path,
    *,
    shop: Path | None = None,
    rack: str | Path | None = None,
    own: bool = False,
    seen: Seen = AS_SHOP,
) -> Reckoning:
    """The job of this text reckoned by what is there: bars that it leaves open come from the rack."""

    def reckon() -> Reckoning:
        done = reckon_text(text, str(path), folder=path.parent, shop_path=shop, seen=seen, each=kept_piece)
        return by_what_is_there(done, rack, own=own)

    if names_files(text) or own or "any" in text:
        return reckon()  # what it hangs on may change, and the text would not tell
    today = date.today()
    return _RECKONED.get((text, path, shop, stamp(shop), seen, today), reckon)


def names_files(text: str) -> bool:
    """Whether a job may name another file: an outline, or the shop's."""
    return "file" in text or "shop" in text


def stamp(path: Path | None) -> tuple[int, int] | None:
    """When a file was last written and how large it is; None where there is none."""
    try:
        told = path.stat() if path is not None else None
    except OSError:
        return None
    return (told.st_mtime_ns, told.st_size) if told is not None else None
