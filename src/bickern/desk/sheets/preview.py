"""The packet of a job to look at before it is printed: its documents page by page as pictures, its files by name."""

import hashlib
import io
import pickle
import struct
import zipfile
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from bickern.desk.asker import shop_at
from bickern.desk.piece_rows import count_of, cut_of, made_of
from bickern.desk.reckon import Reckoning
from bickern.desk.said import said_finding
from bickern.desk.seen import Seen, as_seen
from bickern.desk.sheets.sheets import many_pages, not_printed
from bickern.desk.whole.assemble import for_packet
from bickern.measure.finding import Finding
from bickern.measure.units.words import System
from bickern.paper.copy import Copy
from bickern.paper.export import file_name
from bickern.paper.packet import FULL_SIZE, TIMESTAMP, beside_pages, written
from bickern.paper.pens.page import PAPERS, compile_pdf, compile_pictures

MOST_SHOWN = 40
"""Pages of one document that pictures are made of; the rest is in its file."""
SMALL, LARGE = 56.0, 170.0
"""Dots an inch of the small pictures (text can be told from drawings, no more) and of the large ones (all is read)."""
FOR_WHOM = {"shop": "the shop", "class": "a class", "customer": "a customer"}
"""Whom a packet is for, in words."""
PAPER_WORDS = {
    "letter": "Letter, 8 1/2 x 11 in",
    "legal": "Legal, 8 1/2 x 14 in",
    "a4": "A4, 210 x 297 mm",
    "a3": "A3, 297 x 420 mm",
}
"""Papers in words, in the order in which they are offered."""
DOCUMENTS = {
    "shop-sheet.pdf": ("Shop sheet", "All that is needed at the anvil."),
    "class-sheet.pdf": ("Class handout", "For those who learn it: the same work, one step after the other."),
    "customer-sheet.pdf": ("Customer sheet", "What it will be, without how it is made."),
    "patterns.pdf": ("Patterns", "To lay on the sheet: print at 100 %, and measure the check line."),
    "mark-out.pdf": ("Mark-out strips", "To lay along the bar: print at 100 %, and measure the check line."),
    "templates.pdf": ("Templates", "To hold against the hot iron: print at 100 %, and measure the check line."),
}
"""What a document is called, and what it is for."""
KINDS = {
    ".pdf": ("application/pdf", "pages to print"),
    ".dxf": ("image/vnd.dxf", "full size, for cutting tables and drawing programs"),
    ".svg": ("image/svg+xml", "full size, for a browser or a cutter"),
    ".glb": ("model/gltf-binary", "a solid to look at"),
    ".3mf": ("model/3mf", "a solid to print in plastic"),
    ".csv": ("text/csv; charset=utf-8", "a table for a spreadsheet"),
    ".json": ("application/json", "every figure, for other programs"),
}
"""What a file is by its ending: its media type, and in words."""
NO_DATE = (1980, 1, 1, 0, 0, 0)
"""Written beside each file in a packet that is put into one: the same files give the same bytes."""


@dataclass(frozen=True, slots=True)
class Document:
    """One document of pages: its file's `name`, what it is called and for, and `small` pictures (PNG) of its pages.

    `pages` may be more than are pictured. `full_size`: it must be printed at 100 %. `written`: the source of what is
    pictured, and the files that it names.
    """

    name: str
    title: str
    says: str
    pages: int
    small: tuple[bytes, ...]
    full_size: bool
    written: tuple[str, Mapping[str, bytes]]


@dataclass(frozen=True, slots=True)
class Cut:
    """What the sheet says to cut for one piece; `without`: the same without what the planned heats take, where it was
    another mark on the tape ("": it was not)."""

    name: str
    count: int
    made_of: str
    cut: str
    without: str = ""


@dataclass(frozen=True, slots=True)
class Preview:
    """A packet: its documents, all its `files` by name, and what was found; `id` is the same for the same job.

    `cuts`: what its sheet says to cut; none for a customer, who is not told.
    """

    id: str
    title: str
    audience: str
    paper: str
    documents: tuple[Document, ...]
    files: Mapping[str, bytes]
    findings: tuple[Finding, ...]
    cuts: tuple[Cut, ...] = ()

    @property
    def others(self) -> tuple[str, ...]:
        """Names of the files that are no documents of pages."""
        shown = {one.name for one in self.documents}
        return tuple(name for name in self.files if name not in shown)


@dataclass(frozen=True, slots=True)
class Step:
    """How far it is: what is being done now, the share that is done, and a document that is there already."""

    says: str
    share: float
    document: Document | None = None


Report = Callable[[Step], None]


def preview(reckoning: Reckoning, paper: str, audience: str, report: Report = lambda _: None) -> Preview | Finding:
    """Sets the whole packet of a job that was reckoned; each document is reported as soon as it can be looked at."""
    refused = not_printed(reckoning, paper, audience)
    if refused is not None:
        return refused
    assert reckoning.copy is not None
    report(Step("The pieces are put together", 0.05))
    done = for_packet(reckoning, audience)
    assert done.copy is not None
    files: dict[str, bytes] = {}
    documents: list[Document] = []
    expected = 2.0 if audience == "customer" else 3.0 + len(FULL_SIZE)
    report(Step("The sheet is written", 1 / expected))
    for name, source, used in written(done.copy, PAPERS[paper], audience):
        files[name] = compile_pdf(source, used, TIMESTAMP)
        documents.append(_pictured(name, source, used))
        report(Step(f"{documents[-1].title}: set", (1 + len(documents)) / expected, documents[-1]))
    files |= beside_pages(done.copy, audience)
    found = dict.fromkeys((*done.findings, *(many_pages(done, paper) if audience != "customer" else ())))
    told = tuple(said_finding(one, done.copy.shop) for one in found)
    cuts = () if audience == "customer" else _cuts(done.copy, reckoning.copy)
    return Preview(mark_of(reckoning), done.copy.job.title, audience, paper, tuple(documents), files, told, cuts)


def _cuts(printed: Copy, reckoned: Copy) -> tuple[Cut, ...]:
    """What is printed to cut, beside what is reckoned before the heats are planned."""
    style, sets = printed.shop.style, printed.job.make
    before = {piece.spec.name: cut_of(piece, style) for piece in reckoned.pieces}
    return tuple(
        Cut(name, count_of(piece, sets), made_of(piece, style), cut, "" if before[name] == cut else before[name])
        for piece in printed.pieces
        for name, cut in [(piece.spec.name, cut_of(piece, style))]
    )


def _pictured(name: str, source: str, used: Mapping[str, bytes]) -> Document:
    """A document with pictures of its pages, of no more of them than anybody looks at."""
    full_size = name in FULL_SIZE
    lines = source.splitlines()
    # pages at full size are one line of source each, so that only those that are shown need to be drawn
    shown = "\n".join(lines[:MOST_SHOWN]) if full_size else source
    small = compile_pictures(shown, used, SMALL)
    title, says = DOCUMENTS[name]
    pages = len(lines) if full_size else len(small)
    return Document(name, title, says, pages, small[:MOST_SHOWN], full_size, (shown, used))


def large_pictures(document: Document) -> tuple[bytes, ...]:
    """Pictures (PNG) of its pages to be read: they take longer than the small ones, so are made when asked for."""
    return compile_pictures(*document.written, LARGE)[: len(document.small)]


def size_of(png: bytes) -> tuple[int, int]:
    """How wide and how high a picture is [dots]: the two numbers that its head holds (ISO/IEC 15948, 11.2.2)."""
    wide, high = struct.unpack(">II", png[16:24])
    return wide, high


def mark_of(reckoning: Reckoning) -> str:
    """A mark that is the same for the same job reckoned in the same way: what was set for it can be shown again."""
    return hashlib.sha256(pickle.dumps(reckoning.copy, 5)).hexdigest()[:20]


def kind_of(name: str) -> tuple[str, str]:
    """The media type of a file of a packet, and what it is in words."""
    return KINDS.get(PurePosixPath(name).suffix, ("application/octet-stream", "file"))


def kinds_of(names: Iterable[str]) -> tuple[tuple[str, str], ...]:
    """The endings among these files, each with what such a file is."""
    ends = dict.fromkeys(PurePosixPath(name).suffix for name in names)
    return tuple((end, KINDS[end][1]) for end in ends if end in KINDS)


def groups_of(names: Iterable[str]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """The files that are no pages, under what a smith would look for them by."""
    heads = {"patterns": "Patterns", "outlines": "Bars and rings as bent", "solids": "Solids of the pieces"}
    found: dict[str, list[str]] = {}
    for name in names:
        folder = name.partition("/")[0] if "/" in name else ""
        head = heads.get(folder, "The set as a solid" if name.startswith("set.") else "Lists and figures")
        found.setdefault(head, []).append(name)
    return tuple((head, tuple(kept)) for head, kept in found.items())


def usual_paper(seen: Seen, shop_path: Path | None) -> str:
    """The paper that is tried first: what goes with the tape that comes first."""
    shop = as_seen(shop_at(shop_path)[0], seen)
    return "a4" if shop.style.first is System.MM else "letter"


def said_size(count: int) -> str:
    """How large a file is, in words."""
    return f"{count / 1e6:.1f} MB" if count >= 1e6 else f"{max(1, round(count / 1000))} kB"


def whole_packet(packet: Preview) -> bytes:
    """All files of a packet in one ZIP; the same packet gives the same bytes."""
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as folder:
        for name, data in packet.files.items():
            one = zipfile.ZipInfo(name, NO_DATE)
            one.compress_type = zipfile.ZIP_DEFLATED
            one.external_attr = 0o644 << 16
            folder.writestr(one, data)
    return buffer.getvalue()


def stem_of(packet: Preview) -> str:
    """How the one file of a whole packet is named, without its ending."""
    return f"{file_name(packet.title).lower()}-{packet.audience}-{packet.paper}"
