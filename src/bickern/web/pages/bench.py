"""The bench: the drawing across the top as the bar lies on a bench, what stands against it, the form, and the file."""

from collections.abc import Sequence
from functools import partial
from html import escape

from nicegui import ui
from nicegui.element import Element

from bickern.desk.form.edits import add_piece
from bickern.desk.form.fields import piece_names
from bickern.desk.job.open_job import OpenJob
from bickern.measure.finding import Finding
from bickern.web.bench.drawing import Sheet, figures_of
from bickern.web.bench.earlier import earlier_of
from bickern.web.bench.form import Form
from bickern.web.bench.found import found_in
from bickern.web.bench.text import FileText
from bickern.web.bench.window import JOB, Window
from bickern.web.field import Field
from bickern.web.frame import Visit, framed
from bickern.web.parts import able, button, cautions, heading, pressed
from bickern.web.place import Place

KINDS = (("bar", "from bar"), ("ring", "ring or chain"), ("sheet", "from sheet"))
"""What a new piece can be made from."""
UNDO_KEYS = """(e) => {
  if (!(e.ctrlKey || e.metaKey) || e.altKey) return;
  const key = e.key.toLowerCase();
  if (key !== "z" && key !== "y") return;
  e.preventDefault(); e.stopPropagation();
  emit(key === "y" || e.shiftKey ? "redo" : "undo");
}"""
"""Ctrl-Z and Ctrl-Y (Cmd on a Mac) are ours all over the bench: they undo what fields, buttons and fixes did too."""


def pages(place: Place) -> None:
    """Registers the bench."""

    @ui.page("/job/{job}")
    async def bench(job: str, piece: str = "") -> None:
        with framed(place, "Bench", "", job) as visit:
            if visit.doc is None:
                return
            window = _bench(visit, visit.doc, piece)
        await ui.context.client.connected(timeout=30)
        await _as_wide_as_it_is(window)


async def _as_wide_as_it_is(window: Window) -> None:
    """Draws for this screen: a phone gets a smaller scale, not smaller letters."""
    wide = await ui.run_javascript("document.querySelector('.drawing').parentElement.clientWidth", timeout=10)
    metres = float(wide or 0) / 96 * 0.0254
    if metres > 0 and abs(metres - window.wide) > 0.02:
        window.wide = metres
        window.reckon()


def _bench(visit: Visit, doc: OpenJob, piece: str) -> Window:
    names = [name for name, _, _ in piece_names(doc.text)]
    window = Window(visit, doc, piece if piece in names else names[0] if names else JOB)
    with ui.element("div").classes("bench").on("keydown.capture", lambda e: _key(window, e.args), js_handler=UNDO_KEYS):
        with ui.element("div").classes("top"):
            _pieces(window)
            _tools(window)
        Sheet(window)
        with ui.element("div").classes("two"):
            with ui.element("section").props('aria-label="Form"'):
                heading("The form")
                form = Form(window)
            with ui.element("section").props('aria-label="File and what was found"'):
                found = ui.element("div").classes("stack")
                heading("The file")
                editor = FileText(window)
                earlier_of(window)
                heading("Figures")
                figures_of(window)
                _mind(window)
        with found:
            found_in(window, lambda one: _go(one, window, form, editor))
    window.reckon()
    return window


def _key(window: Window, asked: object) -> None:
    window.redo() if asked == "redo" else window.undo()


def _go(found: Finding, window: Window, form: Form, editor: FileText) -> None:
    """To the field where it is, on whatever piece that is; else to the line of the file."""
    steps = found.where.path.split(".")
    if steps[0] == "pieces" and len(steps) > 1 and steps[1] != window.piece:
        window.look_at(steps[1])
        form.show()
    if not form.go(found.where.path):
        editor.go(found.where.line)


def _tools(window: Window) -> None:
    with ui.element("div").classes("row tools"):
        undo, redo = button("Undo", window.undo), button("Redo", window.redo)

    def show(now: Window) -> None:
        able(undo, now.doc.can_undo)
        able(redo, now.doc.can_redo)

    window.hears.append(show)
    show(window)


def _pieces(window: Window) -> None:
    """The pieces as tags on a rail; the one on the bench is pressed."""
    rail = ui.element("div").classes("rail").props('role=group aria-label="Pieces"')
    told: list[Sequence[str]] = []
    tags: dict[str, Element] = {}

    def show(now: Window) -> None:
        names = [JOB, *(name for name, _, _ in piece_names(now.doc.text))]
        if now.live is not None and not now.live.pieces and len(names) == 1:
            return  # a file that cannot be read for a moment keeps its tags
        if told != [names]:
            told[:] = [names]
            _tags(rail, tags, names, now)
        for name, tag in tags.items():
            pressed(tag, name == now.piece)

    window.hears.append(show)
    show(window)


def _tags(rail: Element, tags: dict[str, Element], names: Sequence[str], window: Window) -> None:
    rail.clear()
    tags.clear()
    with rail:
        for name in names:
            made = button(name or "the whole job", partial(window.look_at, name)).classes("tag")
            tags[name] = made
        with ui.element("details").classes("new"):
            ui.html("one more piece", tag="summary", sanitize=False)
            with ui.element("div").classes("row"):
                called = Field("its name")
                kind = Field("made", KINDS[0][0], options=KINDS)
                button("Put it in", lambda: _new(window, called.value, kind.value), main=True)


def _new(window: Window, name: str, kind: str) -> None:
    if window.changed(lambda text: add_piece(text, name, kind)):
        window.look_at(name.strip())


def _mind(window: Window) -> None:
    """The cautions for this very work, and what nothing printed confirms."""
    box = ui.element("div")
    told: list[tuple[object, ...]] = [()]

    def show(now: Window) -> None:
        copy = now.live.done.copy if now.live is not None else None
        if copy is None or told[0] == (copy.cautions, copy.not_validated):
            return
        told[0] = (copy.cautions, copy.not_validated)
        box.clear()
        with box, ui.element("details"):
            ui.html(f"Cautions for this work: {len(copy.cautions)}", tag="summary", sanitize=False)
            cautions(now.said(one.says) for one in copy.cautions)
        with box:
            if copy.not_validated:
                heading("Nothing printed confirms", 3)
                lines = "".join(f"<li>{escape(says)}</li>" for says in copy.not_validated)
                ui.html(lines, tag="ul", sanitize=False).classes("cautions")

    window.shows.append(show)
