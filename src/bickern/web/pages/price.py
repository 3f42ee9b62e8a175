"""The price of a job: what it costs and should sell for, for several counts of sets, by the shop's rates or others."""

import asyncio
from collections.abc import Callable, Sequence
from functools import partial
from html import escape

from nicegui import background_tasks, run, ui
from nicegui.element import Element

from bickern.desk.job.open_job import Edited, OpenJob
from bickern.desk.live.live import reckoned
from bickern.desk.page_ways import on_page
from bickern.desk.price.price import NO_RACK, Pricing, priced
from bickern.desk.price.rates import NAME, Tried, lines_of, new_shop_file, rate_words, tried, with_shop
from bickern.desk.price.rows import files_of, tables
from bickern.desk.rack.rack import rack_at
from bickern.measure.finding import Finding, note
from bickern.measure.units.words import System
from bickern.web.field import Field, hears
from bickern.web.frame import Visit, framed
from bickern.web.parts import Tick, button, findings, heading, say, words
from bickern.web.place import Place

PAPERS = (("letter", "Letter"), ("a4", "A4"), ("legal", "Legal"), ("a3", "A3"))
FILES = (("Price sheet for the shop (PDF)", "price-sheet.pdf"), ("Customer’s sheet (PDF)", "customer-sheet.pdf"))
PATIENCE = 0.15
"""Seconds that a price waits for the next key."""
STYLE = """
.found:empty{display:none}
.bill{border-collapse:collapse;width:100%;max-width:44rem}
.bill th,.bill td{padding:.35rem .2rem .35rem .9rem;text-align:right;border-bottom:1px solid var(--faint);
  font-variant-numeric:tabular-nums}
.bill th[scope=row],.bill thead th:first-child{text-align:left;font-weight:400;padding-left:0}
.bill thead th{border-bottom:2px solid var(--line);color:var(--soft);font-weight:400}
.bill tr.sum>*{font-weight:700;border-bottom:3px double var(--line)}
.bill tr.one>*{font-weight:700;font-size:1.4rem}
.bill.stale{opacity:.6}
.lines-of{background:var(--field);border:1px solid var(--faint);padding:.7rem;overflow:auto;font-size:.95rem;margin:0}
@media (max-width:760px){.bill th,.bill td{padding-left:.4rem}.bill tr.one>*{font-size:1.15rem}}
"""
SUMS, ONE = ("cost of all", "price of all"), "price of one"
"""Rows of the bill that stand out."""


def pages(place: Place) -> None:
    """Registers the price of a job."""

    @ui.page("/job/{job}/price")
    async def price(job: str) -> None:
        with framed(place, "Price", "price", job) as visit:
            if visit.doc is not None:
                ui.add_css(STYLE)
                window = Window(visit, visit.doc)
                await window.again()
                _laid_out(window)


class Window:
    """One window on a price: the rates that are tried, and the price by them."""

    def __init__(self, visit: Visit, doc: OpenJob) -> None:
        self.visit, self.doc = visit, doc
        self.said: dict[str, str] = {}
        self.own = False
        self.pricing: Pricing | None = None
        self.last: Pricing | None = None
        self.tried: Tried | None = None
        self.shows: list[Callable[[], None]] = []
        self._asked = 0
        self._client, self._loop = ui.context.client, asyncio.get_running_loop()
        self._client.on_delete(doc.listen(self._heard))

    def _heard(self, edited: Edited, who: str) -> None:
        """The job was changed in some window."""
        self._loop.call_soon_threadsafe(lambda: background_tasks.create(self._once_more()))

    async def _once_more(self) -> None:
        if not self._client.is_deleted:
            with self._client:
                await self.again()

    async def told(self, word: str, value: str) -> None:
        """Another rate is tried; reckoned once no further key came for a moment."""
        self.said[word] = value
        self._asked += 1
        mine = self._asked
        await asyncio.sleep(PATIENCE)
        if mine == self._asked:
            await self.again()

    async def by_own(self, yes: bool) -> None:
        """By the times that the day book has taught, or as reckoned."""
        self.own = yes
        await self.again()

    async def again(self) -> None:
        """The price of the job as it is now."""
        asked = self._asked
        found = await run.io_bound(self._priced, dict(self.said))
        if found is None or asked != self._asked or self._client.is_deleted:
            return
        self.pricing, by = found
        if self.pricing.quotes:
            self.last = self.pricing
        self.tried = by or self.tried
        for shows in self.shows:
            shows()

    def _priced(self, said: dict[str, str]) -> tuple[Pricing, Tried | None]:
        place = self.visit.place
        done = reckoned(
            self.doc.text, self.doc.path, shop=place.shop, rack=place.rack, own=self.own, seen=self.visit.seen
        )
        if done.copy is None:
            return Pricing(done, (), done.findings), None
        by = tried(done.copy.shop, said)
        rack, found = rack_at(place.rack)
        shop_file = "" if place.shop is None else place.shop.name
        pricing = priced(with_shop(done, by.shop), (), NO_RACK if found else rack, shop_file)
        if isinstance(pricing, Finding):
            return Pricing(done, (), (*done.findings, pricing)), by
        return pricing, by

    @property
    def may_begin(self) -> bool:
        """Whether the job has no shop file yet, so that one may be begun beside it."""
        done = self.pricing.done if self.pricing is not None else None
        return self.visit.place.shop is None and done is not None and done.job is not None and not done.job.shop


def _laid_out(window: Window) -> None:
    """The bill and the rates side by side, what stands behind the bill below them."""
    with ui.element("div").classes("two"):
        with ui.element("section").props('aria-label="The price"'):
            _bill(window)
        with ui.element("section").props('aria-label="Your own rates"'):
            _rates(window)
    _files(window)
    _behind(window)
    for shows in window.shows:
        shows()


def _bill(window: Window) -> None:
    """The table, and what keeps it from being one."""
    box = ui.element("div").props("aria-live=polite")

    def show() -> None:
        box.clear()
        if window.pricing is None:
            return
        old = window.pricing.done.copy is None and window.last is not None
        shown = window.last if old and window.last is not None else window.pricing
        with box:
            for title, heads, rows in tables(shown)[:1]:
                heading(title)
                if old:
                    words("As it was: the job as it is now cannot be read.")
                bill = ui.html(_bill_html(title, heads, rows), tag="table", sanitize=False).classes("bill")
                bill.classes("stale" if old else "")
                words("Reckoned: no price here has been confirmed by a job that was sold.", quiet=True)
            findings(on_page(one for one in window.pricing.findings if one.stops))

    window.shows.append(show)


def _behind(window: Window) -> None:
    """How the price comes about, what of it is a guess, what is not counted; and what was found of the job."""
    box = ui.element("div")

    def show() -> None:
        box.clear()
        if window.pricing is None:
            return
        with box:
            for title, _, rows in tables(window.pricing)[1:]:
                heading(title)
                _told(rows)
            if found := [one for one in window.pricing.findings if not one.stops]:
                heading("Found in the job")
                findings(on_page(found))

    window.shows.append(show)


def _bill_html(title: str, heads: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    top = "".join(f'<th scope="col">{escape(head.strip())}</th>' for head in heads)
    lines = "".join(_line(*row) for row in rows)
    return f'<caption class="unseen">{escape(title)}</caption><thead><tr>{top}</tr></thead><tbody>{lines}</tbody>'


def _line(name: str, *cells: str) -> str:
    kind = "sum" if name in SUMS else "one" if name == ONE else ""
    told = "".join(f"<td>{escape(cell.strip())}</td>" for cell in cells)
    return f'<tr class="{kind}"><th scope="row">{escape(name)}</th>{told}</tr>'


def _told(rows: Sequence[Sequence[str]]) -> None:
    """Rows of a name with words behind it, or of words alone."""
    if all(len(row) > 1 for row in rows):
        lines = "".join(f"<dt>{escape(name)}</dt><dd>{escape(' '.join(rest))}</dd>" for name, *rest in rows)
        ui.html(lines, tag="dl", sanitize=False).classes("lines")
    else:
        lines = "".join(f"<li>{escape(row[0])}</li>" for row in rows)
        ui.html(lines, tag="ul", sanitize=False).classes("cautions")


def _rates(window: Window) -> None:
    """The rates that can be tried; each says what the shop file has, and what is wrong with what is typed."""
    copy = window.pricing.done.copy if window.pricing is not None else None
    if copy is None:
        return
    heading("Your own rates")
    words("Tried here alone: the shop file stays as it is. An empty line is as the shop file has it.", quiet=True)
    Tick("go by my own times, from the day book", window.own, window.by_own)
    fields: dict[str, Field] = {}
    with ui.element("div").classes("fields"):
        for one in rate_words(copy.shop):
            hint = f"{one.says}; as {one.hint}" if one.hint and not one.value else one.says
            does = hears(partial(window.told, one.word))
            fields[one.word] = Field(one.title, "", does, hint=hint, ghost=one.value or "not told", name=one.word)

    def show() -> None:
        wrong = dict(reversed(window.tried.wrong)) if window.tried is not None else {}
        for word, field in fields.items():
            fault = wrong.get(word)
            field.wrong(" ".join(says for says in (fault.says, fault.try_this) if says) if fault else "")

    window.shows.append(show)
    _kept(window)


def _kept(window: Window) -> None:
    """The rates as lines for the shop file; written only where there is none yet."""
    box = ui.element("div")
    made: list[Finding] = []

    def show() -> None:
        box.clear()
        lines = lines_of(window.said)
        with box:
            findings(made)
            if lines and not (window.tried and window.tried.wrong):
                _lines(window, lines, begin)

    async def begin() -> None:
        done = window.pricing.done if window.pricing is not None else None
        units = done.job.units if done is not None and done.job is not None and done.job.units else System.INCH
        came = await run.io_bound(new_shop_file, window.doc.path.parent, dict(window.said), units)
        if isinstance(came, str):
            says = f"{came} is written beside the job"
            came = note("shop-file-begun", says, f"write `shop: {came}` in the job, on the bench, and it goes by it")
        made[:] = [came] if came is not None else []
        show()

    window.shows.append(show)


def _lines(window: Window, lines: str, begin: Callable[[], object]) -> None:
    heading("Keep these in your shop file", 3)
    ui.html(escape(lines), tag="pre", sanitize=False).classes("lines-of").props("tabindex=0")
    with ui.element("div").classes("row").style("margin-top:.6rem"):
        button("Copy the lines", lambda: _copied(lines))
        if window.may_begin:
            button(f"Begin a shop file with them ({NAME})", begin)


def _copied(lines: str) -> None:
    ui.clipboard.write(lines)
    say("Copied.")


def _files(window: Window) -> None:
    """The price as sheets, by the rates that are tried just now."""
    box: Element = ui.element("div")

    async def keep(name: str, paper: Field) -> None:
        pricing = window.pricing
        files = await run.io_bound(files_of, pricing, paper.value) if pricing is not None else None
        if files and name in files:
            ui.download.content(files[name], name)
        else:
            say("There is no price yet: see what was found.")

    with box:
        heading("On paper")
        with ui.element("div").classes("fields"):
            paper = Field("Paper", "a4" if window.visit.seen.first == "mm" else "letter", options=PAPERS)
        with ui.element("div").classes("row").style("margin-top:.7rem"):
            for says, name in FILES:
                button(says, partial(keep, name, paper))
