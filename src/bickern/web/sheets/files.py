"""The files of a packet as a browser takes them: by names of the packet's own, and never by a path on this machine."""

import asyncio
from collections.abc import Callable, Hashable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, TypeVar
from urllib.parse import quote

from fastapi import Request
from nicegui import app, run
from starlette.responses import Response

from bickern.desk.job.open_job import OpenJob
from bickern.desk.live.live import reckoned
from bickern.desk.reckon import Reckoning
from bickern.desk.seen import Seen
from bickern.desk.sheets.packets import Packets
from bickern.desk.sheets.packets_apart import pictures_apart, set_apart
from bickern.desk.sheets.preview import FOR_WHOM, PAPER_WORDS, Preview, Report, kind_of, stem_of, whole_packet
from bickern.measure.finding import Finding
from bickern.web.frame import address, looks_here
from bickern.web.place import Place

T = TypeVar("T")
ALL = "all.zip"
"""The name under which the whole packet is asked for: no file of a packet is called so."""
DIGITS = 5
"""No document has pages of so many digits."""


@dataclass(frozen=True, slots=True)
class Asked:
    """One packet: of which job in which state, for whom, on what paper, seen in which way."""

    job: str
    number: int
    audience: str
    paper: str
    seen: Seen


def address_of(asked: Asked, name: str) -> str:
    """Where a file of a packet is found."""
    return f"{address(asked.job, 'paper')}/{asked.number}/{asked.audience}/{asked.paper}/{quote(name)}"


class Packed:
    """The packets of one place. Who asks for what is being made waits for it here, and not in a thread of its own."""

    def __init__(self, place: Place) -> None:
        self._place = place
        self._packets = Packets(set_apart, pictures_apart)
        self._being: dict[Hashable, asyncio.Task[Any]] = {}

    async def packet(self, doc: OpenJob, asked: Asked, report: Report = lambda _: None) -> Preview | Finding | None:
        """The packet of the job as it was in that state, as it is reckoned now; None where there is no such state."""
        return await self._once(asked, lambda: self._set(doc, asked, report))

    def _set(self, doc: OpenJob, asked: Asked, report: Report) -> Preview | Finding | None:
        text = doc.text_at(asked.number)
        if text is None:
            return None
        place, seen = self._place, asked.seen

        def told() -> Reckoning:
            return reckoned(text, doc.path, shop=place.shop, rack=place.rack, seen=seen)

        return self._packets.set(asked, told, asked.paper, asked.audience, report)

    async def file(self, asked: Asked, name: str, query: Mapping[str, str]) -> Response | None:
        """A file of a packet, a picture of one of its pages, or all of it; None where it has no such thing."""
        if "small" in query:
            some = self._packets.small(asked, name)
            if some is not None:
                return _picture(some, query["small"])
        made = self._packets.of(asked) or await self._again(asked)
        if not isinstance(made, Preview):
            return None
        if name == ALL:
            return await run.io_bound(_whole, made)
        if name not in made.files:
            return None
        if "small" in query:
            return _picture(self._packets.small(asked, name) or (), query["small"])
        if "page" in query:
            some = await self._once((made.id, made.audience, made.paper, name), lambda: self._packets.large(made, name))
            return _picture(some or (), query["page"])
        return _file(made, name, keep="keep" in query)

    async def _again(self, asked: Asked) -> Preview | Finding | None:
        """A packet that was let go, or never set: an address that was kept is as good as a page."""
        doc = await run.io_bound(self._place.jobs.open, asked.job)
        return await self.packet(doc, asked) if isinstance(doc, OpenJob) else None

    async def _once(self, key: Hashable, does: Callable[[], T]) -> T | None:
        """Done once for all who ask while it is being done."""
        task = self._being.get(key)
        if task is None:
            task = asyncio.create_task(run.io_bound(does))
            self._being[key] = task
            task.add_done_callback(lambda _: self._being.pop(key, None))
        done: T | None = await asyncio.shield(task)  # one who leaves does not take it from the others
        return done


def offer_files(place: Place) -> Packed:
    """Registers the files of every packet, and gives where packets come from."""
    packed = Packed(place)

    @app.get("/job/{job}/paper/{number}/{audience}/{paper}/{name:path}", include_in_schema=False)
    async def file(job: str, number: int, audience: str, paper: str, name: str, request: Request) -> Response:
        if audience not in FOR_WHOM or paper not in PAPER_WORDS:
            return _not_there()
        asked = Asked(job, number, audience, paper, looks_here().seen)
        return await packed.file(asked, name, request.query_params) or _not_there()

    return packed


def _file(made: Preview, name: str, *, keep: bool) -> Response:
    """A file by its name in the packet; only a document of pages is opened in a browser, all else is kept."""
    media, _ = kind_of(name)
    opened = media == "application/pdf" and not keep
    return _sent(made.files[name], media, name.rpartition("/")[2], opened=opened)


def _whole(made: Preview) -> Response:
    return _sent(whole_packet(made), "application/zip", f"{stem_of(made)}.zip", opened=False)


def _picture(some: Sequence[bytes], number: str) -> Response | None:
    """One page as a picture, by its number."""
    page = int(number) if number.isascii() and number.isdigit() and len(number) < DIGITS else 0
    return _sent(some[page - 1], "image/png", f"page-{page}.png", opened=True) if 1 <= page <= len(some) else None


def _sent(data: bytes, media: str, name: str, *, opened: bool) -> Response:
    way = "inline" if opened else "attachment"
    named = f"{way}; filename=\"{_plain(name)}\"; filename*=UTF-8''{quote(name, safe='')}"
    told = {
        "Content-Disposition": named,
        "X-Content-Type-Options": "nosniff",
        "Cache-Control": "private, no-store",
        "Content-Security-Policy": "default-src 'none'; style-src 'unsafe-inline'; img-src data:",
    }
    return Response(data, media_type=media, headers=told)


def _plain(name: str) -> str:
    """A name for browsers that read no other letters."""
    return "".join(sign if sign.isascii() and (sign.isalnum() or sign in "-_. ") else "-" for sign in name)


def _not_there() -> Response:
    return Response("There is no such file.", status_code=404, media_type="text/plain")
