"""The rack: what lies there as a table that is looked through as it is typed; put in, changed, moved, taken out."""

from collections.abc import Callable
from html import escape

from nicegui import app, ui
from starlette.responses import HTMLResponse, Response

from bickern.desk.page_ways import on_page
from bickern.desk.rack.labels import labels_pdf
from bickern.desk.rack.look import looked
from bickern.desk.rack.rack import as_list, backed_up, keeper, me
from bickern.measure.finding import Finding
from bickern.web.field import Field, hears
from bickern.web.frame import framed
from bickern.web.parts import button, heading, words
from bickern.web.place import Place
from bickern.web.shelf import folded
from bickern.web.shelf.lists import Adding, Bringing, taking_along
from bickern.web.shelf.lying import STYLE, Table
from bickern.web.shelf.window import Window

PAPERS = (("letter", "Letter"), ("a4", "A4"))


def pages(place: Place) -> None:
    """Registers the rack, and what can be taken along from it."""

    @ui.page("/rack")
    async def rack(find: str = "") -> None:
        with framed(place, "Rack", "/rack") as visit:
            ui.add_css(STYLE + folded.STYLE)
            window = Window(visit, find[:200])
            _find(window)
            _put_in(window)
            Table(window)
            _rest(window)
            await window.again()

    @app.get("/rack/rack.csv", include_in_schema=False)
    def rack_csv(find: str = "") -> Response:
        by = keeper(place.rack, place.shop)
        text = as_list(looked(by, find).pieces, by)
        return _file(text.encode(), "rack.csv", "text/csv; charset=utf-8")

    @app.get("/rack/labels.pdf", include_in_schema=False)
    def labels(find: str = "", paper: str = "letter") -> Response:
        by = keeper(place.rack, place.shop)
        return _file(labels_pdf(looked(by, find).pieces, by, paper), "labels.pdf", "application/pdf")

    @app.get("/rack/backup.sqlite", include_in_schema=False)
    def backup() -> Response:
        return _file(backed_up(keeper(place.rack, place.shop)), "rack.sqlite", "application/vnd.sqlite3")


def _file(data: bytes | Finding, name: str, kind: str) -> Response:
    """A file to be kept; where there is none, a page that says why."""
    if isinstance(data, Finding):
        (fault,) = on_page([data])
        says = f"{fault.says}. {fault.try_this}".strip()
        told = f"<!doctype html><title>bickern</title><p>{escape(says)}</p><p><a href='/rack'>Back to the rack</a></p>"
        return HTMLResponse(told, status_code=409)
    return Response(data, media_type=kind, headers={"Content-Disposition": f'attachment; filename="{name}"'})


def _find(window: Window) -> None:
    with ui.element("div").props('role=search aria-label="The rack"'):
        hint = "a size, a metal, a place, an id, a remark: 3/8 sq left wall"
        Field("Find", window.words, hears(window.find), hint=hint, kind="search", name="find")


def _put_in(window: Window) -> None:
    """Ways to put something in; each opens its form below."""
    with ui.element("div").classes("row").style("margin:.8rem 0"):
        button("Put a bar in", lambda: _open(lambda: Adding(window, "bar", box)))
        button("Put a sheet in", lambda: _open(lambda: Adding(window, "sheet", box)))
        button("Bring a list in", lambda: _open(lambda: Bringing(window, box)))
    box = ui.element("section").classes("card").props('aria-label="What is put in"')

    def _open(lays: Callable[[], object]) -> None:
        box.clear()
        lays()


def _rest(window: Window) -> None:
    """What can be taken along, and whose name is written into the history."""
    heading("Take it along")
    words("What is found above as a list that can be brought in again, and as labels to cut out; the whole rack.")
    taking_along(window)
    heading("Who does it")
    hint = "written into the history of each piece that is changed here"
    with ui.element("div").classes("fields"):
        Field("Your name", window.visit.looks.who, hears(window.named), hint=hint, ghost=me())
