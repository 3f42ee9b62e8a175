"""What is put in: one piece, several alike, or a whole list that is looked at first; and what is taken along."""

import re
from collections.abc import Mapping
from dataclasses import replace
from functools import partial
from html import escape
from urllib.parse import quote

from nicegui import run, ui
from nicegui.element import Element

from bickern.desk.page_ways import on_page
from bickern.desk.rack.rack import Done, Keeper, add_to_rack, import_data
from bickern.desk.rack.rows import HEADS, list_rows
from bickern.measure.finding import Finding
from bickern.measure.units.words import System
from bickern.web.field import Field, hears
from bickern.web.gate.uploads import LISTS, OUTLINES, Upload
from bickern.web.parts import button, findings, heading, say, words
from bickern.web.shelf.bring import bring
from bickern.web.shelf.folded import folded
from bickern.web.shelf.forms import ABOUT, BAR, SHEET, Cells
from bickern.web.shelf.window import Window

MOST_SHOWN = 20
"""Pieces of a list that are shown before it is put in."""
MEANT = (("", "as the list or the shop says"), ("in", "inches"), ("mm", "millimetres"))
MONEY = re.compile("[A-Z]{3}")
Row = tuple[str, ...]


class Adding:
    """A form for a bar or a sheet to be put in; it stays open for the next."""

    def __init__(self, window: Window, kind: str, box: Element) -> None:
        self.window, self.kind = window, kind
        self.outline: dict[str, bytes] = {}
        with box:
            heading(f"Put a {kind} in", 3)
            self.cells = Cells((*(BAR if kind == "bar" else SHEET), "count", *ABOUT))
            if kind == "sheet":
                self._odd()
            self.found = ui.element("div").props("role=status")
            with ui.element("div").classes("row"):
                button("Put it in", self.put, main=True)
                button("Close", box.clear)
        next(iter(self.cells.fields.values())).go()

    def _odd(self) -> None:
        with ui.element("div").classes("row"):
            bring("Outline of an odd sheet (DXF or SVG)", OUTLINES, self._outline)
            self.named = words("", quiet=True)

    async def _outline(self, came: list[Upload | Finding]) -> None:
        for one in came[-1:]:
            if isinstance(one, Finding):
                self._show([one])
            else:
                self.outline = {one.name: one.data}
                self.named.set_content(escape(f"{one.name} is its outline; its size is then not asked for"))

    async def put(self) -> None:
        """Puts it in, and says what is to be painted on it."""
        cells = {"kind": self.kind, **self.cells.filled}
        if self.outline:
            cells.pop("size", None)
            cells["outline"] = next(iter(self.outline))
        came = await self.window.done(lambda by: add_to_rack(by, cells), self.outline)
        left = self.cells.wrong(came.findings)
        told = [f"In the rack now. Paint on: {', '.join(one.id for one in came.pieces)}"] if came.pieces else []
        self._show(left, told)

    def _show(self, found: "list[Finding] | tuple[Finding, ...]", told: list[str] | None = None) -> None:
        self.found.clear()
        with self.found:
            for says in told or ():
                words(says).classes("big")
            findings(found)


class Bringing:
    """A list in CSV brought in: what it would put in, what was found in it, and then put in, all of it or nothing."""

    def __init__(self, window: Window, box: Element) -> None:
        self.window, self.box = window, box
        self.name, self.files = "", dict[str, bytes]()
        self.means = {"units": "", "money": ""}
        with box:
            heading("Bring a list in", 3)
            words(
                "A list in CSV; its first line names the columns: section and length of bars, thickness and size of "
                "sheets, count, steel, coating, place, price, remark. Outlines that it names are brought with it."
            )
            with ui.element("div").classes("fields"):
                Field("Bare numbers mean", "", hears(partial(self._means, "units")), options=MEANT)
                if not window.by().shop.currency:
                    Field("Prices are in", "", hears(partial(self._means, "money")), hint="USD, GBP, EUR")
            with ui.element("div").classes("row").style("margin-top:.7rem"):
                bring("Choose the list", (*LISTS, *OUTLINES), self._came, many=True)
                button("Close", box.clear)
            self.told = ui.element("div").props("role=status")

    async def _means(self, what: str, says: str) -> None:
        self.means[what] = says
        if self.name:
            await self._look()

    async def _came(self, came: list[Upload | Finding]) -> None:
        taken = [one for one in came if not isinstance(one, Finding)]
        self.files = {one.name: one.data for one in taken}
        self.name = next((name for name in self.files if name.casefold().endswith(LISTS)), "")
        found = [one for one in came if isinstance(one, Finding)]
        if found or not self.name:
            self._show("", (), found)
            return
        await self._look()

    async def _look(self) -> None:
        would = await self._put(dry=True)
        self._show(f"{self.name} would put in: {_counted(len(would.pieces))}", self._rows(would), would.findings)
        if would.pieces and not would.stops:
            with self.told:
                button(f"Put all {len(would.pieces)} in", self._all, main=True)

    async def _put(self, *, dry: bool) -> Done:
        name, data = self.name, self.files[self.name]
        if not dry:
            return await self.window.done(lambda by: import_data(_meaning(by, self.means), data, name), self.files)
        by = _meaning(self.window.by(self.files), self.means)
        would = await run.io_bound(lambda: import_data(by, data, name, dry=True)) or Done(())
        return replace(would, findings=on_page(would.findings))

    async def _all(self) -> None:
        came = await self._put(dry=False)
        ids = [one.id for one in came.pieces]
        says = f"In the rack now: {_counted(len(ids))}, {ids[0]} to {ids[-1]}. Paint the ids on." if ids else ""
        self._show(says, self._rows(came), came.findings)
        if ids:
            with self.box:  # the button that was pressed is gone
                say(says)

    def _rows(self, came: Done) -> tuple[Row, ...]:
        return list_rows(came.pieces[:MOST_SHOWN], self.window.by().shop.style)

    def _show(self, says: str, rows: tuple[Row, ...], found: "list[Finding] | tuple[Finding, ...]") -> None:
        self.told.clear()
        with self.told:
            if says:
                heading(says, 3)
            findings(found)
            if rows:
                folded(HEADS, rows, "Pieces of the list")
                words(f"The first {len(rows)} are shown.", quiet=True)


def _meaning(by: Keeper, means: Mapping[str, str]) -> Keeper:
    """A keeper to whom bare numbers and bare prices mean these ("": as the list and the shop say)."""
    units, money = means["units"], means["money"].strip().upper()
    by = replace(by, system=System(units)) if units else by
    return replace(by, shop=replace(by.shop, currency=money)) if MONEY.fullmatch(money) else by


def _counted(count: int) -> str:
    return f"{count} piece{'s' * (count != 1)}"


PAPERS = (("letter", "Letter"), ("a4", "A4"))


def taking_along(window: Window) -> None:
    """Links to what is found as a list and as labels, and to the whole rack as a file."""
    links: list[tuple[ui.link, str]] = []
    first = "a4" if window.visit.seen.first == "mm" else "letter"

    def show() -> None:
        asked = f"?find={quote(window.words)}&paper={paper.value}"
        for link, to in links:
            link.props["href"] = f"/rack/{to}{asked}"
            link.update()

    with ui.element("div").classes("fields"):
        paper = Field("Paper of the labels", first, lambda _: show(), options=PAPERS)
    with ui.element("div").classes("row").style("margin-top:.7rem"):
        for says, to in (("List (CSV)", "rack.csv"), ("Labels (PDF)", "labels.pdf"), ("Backup", "backup.sqlite")):
            links.append((ui.link(says, f"/rack/{to}").classes("plain").props("download"), to))
    window.shows.append(show)
    show()
