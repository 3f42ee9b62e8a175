"""Printing: the whole packet of a job, as files."""

import json
import math
from collections.abc import Sequence
from pathlib import Path

from bickern import __version__
from bickern.book.job.asked import Job
from bickern.desk.reckon import Reckoning
from bickern.making.shop import Shop
from bickern.measure.finding import Finding, Where, stop, warn
from bickern.paper.copy import Copy
from bickern.paper.packet import AUDIENCES, packet
from bickern.paper.pens.page import PAPERS, Paper
from bickern.parts.sheet.result import SheetResult

MOST_PAGES = 40
"""Pages of patterns at full size that a person will still tape together."""
LIMIT_PAGES = 1000
"""Area of patterns, in pages, above which nothing is printed."""


def packet_of(reckoning: Reckoning, paper: str, audience: str) -> dict[str, bytes] | Finding:
    """File name -> bytes of everything printed for an audience (shop, class, customer) on a paper (letter, a4, ...)."""
    refused = not_printed(reckoning, paper, audience)
    if refused is not None:
        return refused
    assert reckoning.copy is not None
    return packet(reckoning.copy, PAPERS[paper], audience)


def not_printed(reckoning: Reckoning, paper: str, audience: str) -> Finding | None:
    """Why nothing is printed of a job; None where it can be."""
    wrong = wrong_words(paper, audience)
    if wrong is not None:
        return wrong
    if reckoning.copy is None:
        return stop("nothing-to-print", "the job cannot be read, so nothing can be printed", "mend the findings first")
    as_large_as = _pages_by_area(reckoning.copy, PAPERS[paper])
    if as_large_as > LIMIT_PAGES:
        says = f"the patterns at full size are as large as {as_large_as} pages of {paper}"
        return stop("too-many-pages", says, "is a size told in the wrong unit? else split the sheet pieces into parts")
    return None


def _pages_by_area(copy: Copy, paper: Paper) -> int:
    """Pages that the patterns would cover, not laid out: a slip of a unit must not keep the shop waiting for hours."""
    page = paper.printable.width * paper.printable.height
    return sum(math.floor(p.area / page) for p in copy.pieces if isinstance(p, SheetResult))


def wrong_words(paper: str, audience: str) -> Finding | None:
    """What is wrong with a paper or an audience that was asked for; None where both are known."""
    if paper not in PAPERS:
        return stop("unknown-paper", f"there is no paper “{paper}”", f"say {', '.join(sorted(PAPERS))}")
    if audience not in AUDIENCES:
        return stop("unknown-audience", f"sheets are not made for “{audience}”", f"say {', '.join(AUDIENCES)}")
    return None


def many_pages(reckoning: Reckoning, paper: str) -> tuple[Finding, ...]:
    """A warning where the patterns at full size take more pages than a person will tape together."""
    pages = pattern_page_count(reckoning, PAPERS[paper])
    if pages <= MOST_PAGES:
        return ()
    says = f"the patterns at full size take {pages} pages of {paper}"
    way = "cut from the DXF or SVG files, draw them on the sheet from the figures, or take larger paper"
    assert reckoning.job is not None
    return (warn("many-pages", says, way, Where(reckoning.job.file)),)


def pattern_page_count(reckoning: Reckoning, paper: Paper) -> int:
    """Pages that all patterns of a job take at full size on that paper."""
    from bickern.paper.sheets.patterns import pattern_pages

    return len(pattern_pages(reckoning.copy, paper)) if reckoning.copy else 0


ALWAYS = ("schema", "schema_version", "version", "made_by", "findings")
"""What every JSON tells, whatever was asked."""
FIT_KEYS = (*ALWAYS, "fit", "swings")
HANG_KEYS = (*ALWAYS, "set", "hang")
HEAT_KEYS = (*ALWAYS, "plan", "not_validated")
"""What is told of everything reckoned where only that was asked."""


def as_json(reckoning: Reckoning, keys: Sequence[str] = ()) -> str:
    """Everything reckoned as JSON, or these keys alone; of a job that cannot be read, its findings alone."""
    from bickern.paper import export, telling

    if reckoning.copy is not None and not keys:
        return export.reckoning(reckoning.copy).decode()
    # told as the findings of a job without pieces, so that a program that reads one file can read the other
    empty = Copy(Job("", None, ()), Shop(), (), (), (), reckoning.findings, 0.0, version=__version__)
    told = telling.told(reckoning.copy or empty)
    wanted = keys if reckoning.copy is not None else ALWAYS
    kept = {key: value for key, value in told.items() if key in wanted}
    return json.dumps(kept, ensure_ascii=False, indent=1, sort_keys=True) + "\n"


def write_packet(files: dict[str, bytes], folder: Path) -> tuple[Path, ...]:
    """Writes a packet into a folder, each file whole or not at all."""
    return tuple(_write_whole(folder / name, data) for name, data in files.items())


def _write_whole(path: Path, data: bytes) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    beside = path.with_name(path.name + ".part")
    beside.write_bytes(data)
    return beside.replace(path)
