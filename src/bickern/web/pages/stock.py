"""The stock of a job: what each piece can be made of, the cut plan drawn, and taken out of the rack."""

from collections.abc import Sequence
from functools import partial
from html import escape

from nicegui import run, ui

from bickern.desk.job.open_job import OpenJob
from bickern.desk.page_ways import on_page
from bickern.desk.stock.rows import stock_for
from bickern.desk.stock.stock import MOST_COUNTED
from bickern.web.field import Field, hears
from bickern.web.frame import Visit, framed
from bickern.web.parts import Tick, able, button, findings, heading, say, words
from bickern.web.place import Place
from bickern.web.shelf.drawn import STYLE, plan_drawn
from bickern.web.shelf.folded import STYLE as FOLDS
from bickern.web.shelf.folded import folded
from bickern.web.shelf.plan import Planning

PAPERS = (("letter", "Letter"), ("a4", "A4"), ("legal", "Legal"), ("a3", "A3"))
EVERY = 1000
"""Kinds of bar that are counted where everything is asked for."""
LOOKS = 0.25
"""Seconds from one look at how far a search is to the next."""


def pages(place: Place) -> None:
    """Registers the stock of a job."""

    @ui.page("/job/{job}/stock")
    async def stock(job: str) -> None:
        with framed(place, "Stock", "stock", job) as visit:
            if visit.doc is not None:
                ui.add_css(FOLDS + STYLE)
                await _stock(visit, visit.doc)


async def _stock(visit: Visit, doc: OpenJob) -> None:
    planning = Planning(visit, visit.job)
    planning.listens_to(doc)
    heading("What is cut from which bar")
    _asked(planning)
    _progress(planning)
    _found(planning)
    _taking(planning)
    _drawn(planning)
    _files(planning)
    heading("What else each piece can be made of")
    await _ways(visit, doc)


def _asked(planning: Planning) -> None:
    """Which jobs are planned together, and whether other stock may stand in."""
    jobs = [one for one in planning.visit.place.jobs.jobs() if one.name != planning.job]
    if jobs:
        with ui.element("details"):
            ui.html("Other jobs, cut from the same bars", tag="summary", sanitize=False)
            with ui.element("div").classes("row"):
                for one in jobs:
                    Tick(one.title or one.name, False, partial(planning.ticked, one.name))
    Tick("make what is short of other bars that would do", False, lambda yes: setattr(planning, "substitute", yes))
    with ui.element("div").classes("row"):
        plan = button("Plan the cuts", planning.search, main=True)
        stop = button("Stop: the best so far will do", planning.stop)

    def show() -> None:
        able(plan, not planning.searches)
        plan.classes(replace="main" if planning.plan is None else "plain")
        stop.set_visibility(planning.searches)

    planning.shows.append(show)
    show()


def _progress(planning: Planning) -> None:
    """How much of the time that a search may take is used; it looks only while there is a search."""
    box = ui.element("div").props("role=status")
    with box:
        bar = ui.element("div").classes("progress").props('role=progressbar aria-label="time used of the search"')
        with bar:
            used = ui.element("i")
        told = words("", quiet=True)
    looks = ui.timer(LOOKS, lambda: look(), active=False)

    def look() -> None:
        share = round(100 * planning.share)
        used.style(f"width:{share}%")
        bar.props(f"aria-valuenow={share} aria-valuemin=0 aria-valuemax=100")
        told.set_content(escape(f"Searching; the bar is the time it may take at most. {planning.says}"))

    def show() -> None:
        box.set_visibility(planning.searches)
        looks.active = planning.searches
        look()

    planning.shows.append(show)
    show()


def _found(planning: Planning) -> None:
    """What was found, and what keeps it from being taken."""
    box = ui.element("div")

    def show() -> None:
        box.clear()
        with box:
            if planning.refused:
                findings(on_page(planning.refused))
                button("Plan again", planning.search, main=True)
            elif planning.plan is not None:
                findings(on_page(planning.plan.findings))

    planning.shows.append(show)


def _taking(planning: Planning) -> None:
    """Take it: what will be written is said first; then what to paint on what is left."""
    box = ui.element("section").props('aria-label="Taking it"')

    def show(asks: bool = False) -> None:
        box.clear()
        box.classes(remove="card")
        with box:
            if planning.taken is not None:
                box.classes("card")
                heading("Taken out of the rack", 3)
                _items(planning.painted())
            elif planning.can_take and not planning.searches and not planning.refused:
                _ask() if asks else button("Take it", lambda: show(asks=True), main=True)

    def _ask() -> None:
        box.classes("card")
        heading("This will be written into the rack", 3)
        _items(planning.would_write())
        hint = "it is written into the history of each bar"
        with ui.element("div").classes("fields"):
            Field("Your name", planning.visit.looks.who, hears(planning.named), hint=hint, ghost=planning.who)
        with ui.element("div").classes("row").style("margin-top:.7rem"):
            button("Yes, take it", taken, main=True)
            button("No", lambda: show())

    async def taken() -> None:
        await planning.take()
        with box:  # the button that was pressed is gone
            say("Nothing was taken." if planning.refused else "Taken out of the rack.")

    planning.shows.append(lambda: show())


def _items(says: tuple[str, ...]) -> None:
    lines = "".join(f"<li>{escape(one)}</li>" for one in says)
    ui.html(lines, tag="ul", sanitize=False).classes("cautions")


def _drawn(planning: Planning) -> None:
    box = ui.element("div").props("aria-live=off")
    shown: list[object] = [None]

    def show() -> None:
        if planning.pictures is shown[0]:
            return
        shown[0] = planning.pictures
        box.clear()
        with box:
            plan_drawn(planning.pictures)

    planning.shows.append(show)


def _files(planning: Planning) -> None:
    """The cut list and the nests as files."""
    box = ui.element("div")
    inches = planning.visit.seen.first != "mm"

    def show() -> None:
        box.clear()
        copy = planning.plan.copy if planning.plan is not None else None
        if copy is None:
            return
        with box:
            heading("Files")
            with ui.element("div").classes("fields"):
                paper = Field("Paper", "letter" if inches else "a4", options=PAPERS)
            ids = [one.id for group in planning.pictures.groups if group.kind == "sheet" for one in group.stock]
            nests = [(f"{one} ({end.upper()})", f"nests/{one}.{end}") for one in ids for end in ("dxf", "svg")]
            whole = [("Nests at full size (PDF)", "nests.pdf")] if ids else []
            every = [("Cut list (PDF)", "cut-list.pdf"), ("Lengths (CSV)", "cut-plan.csv"), *whole, *nests]
            with ui.element("div").classes("row").style("margin-top:.7rem"):
                for says, name in [*every, ("Plan (JSON)", "cut-plan.json")]:
                    button(says, partial(keep, name, paper))

    async def keep(name: str, paper: Field) -> None:
        for fault in on_page(await planning.file(name, paper.value)):
            say(fault.says)

    planning.shows.append(show)


async def _ways(visit: Visit, doc: OpenJob) -> None:
    """For each piece what the rack has for it, the best first; everything where it is asked for."""
    client = ui.context.client

    async def show(every: bool) -> None:
        place, most = visit.place, EVERY if every else MOST_COUNTED
        told = await run.io_bound(lambda: stock_for(doc.path, None, place.rack, place.shop, most=most, seen=visit.seen))
        if told is None or client.is_deleted:
            return
        box.clear()
        with box:
            findings(on_page(told.findings))
            for title, rows, heads in told.tables(every=every, ask="“everything”"):
                _ways_of(title, rows, heads)

    with ui.element("div"):
        Tick("everything, and why not for the rest", False, show)
    box = ui.element("div")
    await show(False)


def _ways_of(title: str, rows: Sequence[Sequence[str]], heads: Sequence[str]) -> None:
    """What one piece can be made of: the best way first, the others when they are asked for; or why some is not."""
    if not rows:
        words(title, quiet=True)
        return
    if heads:
        heading(title, 3)
        folded(heads, rows[:1], f"{title}: the best")
    rest = rows[1:] if heads else rows
    if rest:
        with ui.element("details"):
            ui.html(f"{len(rest)} more" if heads else escape(title), tag="summary", sanitize=False)
            folded(heads or ("stock", "of", "why not"), rest, title)
