"""In the round: the set as it hangs or stands, turned, looked along, swung and tilted; the same in words beside it."""

from collections import OrderedDict
from collections.abc import Sequence
from functools import partial
from html import escape
from threading import Lock

from nicegui import app, run, ui
from nicegui.element import Element
from nicegui.elements.html import Html
from starlette.responses import Response

from bickern.desk.job.open_job import OpenJob
from bickern.desk.live.live import reckoned
from bickern.desk.said import said
from bickern.desk.whole.in_round import Round, line_views, matrix_of, round_of, shape_named, told
from bickern.desk.whole.turned import RoundSwing, Touching, Turned
from bickern.measure.finding import warn
from bickern.web.frame import address, framed
from bickern.web.parts import Tick, button, cautions, choice, drawing, findings, heading, rows, words
from bickern.web.place import Place
from bickern.web.round.view import RoundView
from bickern.web.round.window import RoundWindow
from bickern.web.slider import Slider

STYLE = """
.round{display:grid;grid-template-columns:minmax(0,1.7fr) minmax(18rem,1fr);gap:1.2rem 1.6rem;align-items:start}
.round .set{position:sticky;top:.6rem}
.round .moves{display:grid;gap:1.3rem}
.round .moves>:empty{display:none}
.round h2:first-child{margin-top:0}
.round-view{position:relative;height:min(66vh,42rem);min-height:16rem;background:var(--field);
  border:1px solid var(--faint);border-bottom:6px solid var(--line);overflow:hidden;cursor:grab}
.round-view:active{cursor:grabbing}
.round-view canvas{display:block;width:100%;height:100%}
.round-view .lost{padding:1rem}
.round .looks{margin-top:.6rem}
.round .how{margin-top:.5rem}
.swing{border-left:6px solid var(--line);background:var(--field);padding:.7rem .9rem;display:grid;gap:.5rem}
.swing .now{min-height:4.4em}
.swing .word{font-weight:700;font-size:1.15rem}
.swing.meets{border-left-style:dashed;border-left-color:var(--ember)}
.swing.into{border-left-style:double;border-left-color:var(--bad)}
.hide{display:grid;grid-template-columns:repeat(auto-fill,minmax(9.5rem,1fr));gap:0 .8rem}
.beside{columns:2 24rem;column-gap:2rem}
.beside section{break-inside:avoid;padding-bottom:.5rem}
@media (max-width:760px){
  .round{display:block}
  .round .moves{margin-top:1.2rem}
  .round .set{display:contents}
  .round .looks{display:grid;grid-template-columns:1fr 1fr}
  .round-view{height:42vh;min-height:13rem;position:sticky;top:0;z-index:2}
}
"""
"""Of this page alone."""
KEPT = 4
"""States of jobs whose meshes are kept at hand for browsers that ask for them."""


class Meshes:
    """Meshes of the states of jobs that were shown lately; made again from the state's text where they are not kept."""

    def __init__(self, place: Place) -> None:
        self.place = place
        self._kept: OrderedDict[tuple[str, int], Round] = OrderedDict()
        self._lock = Lock()

    def keep(self, job: str, number: int, shown: Round) -> None:
        """Keeps the meshes of a state at hand."""
        with self._lock:
            self._kept[job, number] = shown
            self._kept.move_to_end((job, number))
            while len(self._kept) > KEPT:
                self._kept.popitem(last=False)

    def mesh(self, job: str, number: int, name: str) -> bytes | None:
        """A mesh of a state by its name; None where there is none."""
        shown = self._kept.get((job, number)) or self._again(job, number)
        found = shape_named(shown, name) if shown is not None else None
        return found.glb if found is not None else None

    def _again(self, job: str, number: int) -> Round | None:
        doc = self.place.jobs.open(job)
        text = doc.text_at(number) if isinstance(doc, OpenJob) else None
        if text is None or not isinstance(doc, OpenJob):
            return None
        made = round_of(reckoned(text, doc.path, shop=self.place.shop, rack=self.place.rack))
        if not isinstance(made, Round):
            return None
        self.keep(job, number, made)
        return made


def pages(place: Place) -> None:
    """Registers the view and the meshes that it is drawn from."""
    meshes = Meshes(place)

    @ui.page("/job/{job}/round")
    def in_the_round(job: str) -> None:
        with framed(place, "In the round", "round", job) as visit:
            if visit.doc is None:
                return
            ui.add_css(STYLE)
            _page(RoundWindow(visit, visit.doc, partial(meshes.keep, job)))

    @app.get("/job/{job}/round/{number}-{name}.glb", include_in_schema=False)
    async def mesh(job: str, number: int, name: str) -> Response:
        found = await run.io_bound(meshes.mesh, job, number, name)
        if found is None:
            return Response(status_code=404)
        kept = {"Cache-Control": "private, max-age=86400, immutable"}
        return Response(found, media_type="model/gltf-binary", headers=kept)


def _page(window: RoundWindow) -> None:
    stops = ui.element("div")
    with ui.element("div").classes("round") as whole:
        with ui.element("section").props('aria-label="The set"').classes("set"):
            view = RoundView("The set in the round", lambda: lines.lost())
            looks = ui.element("div").classes("row looks").props('role=group aria-label="Look along"')
            how = words("", quiet=True).classes("how")
        with ui.element("section").props('aria-label="Move it"').classes("moves"):
            swings = ui.element("div")
            tilt = ui.element("div")
            hide = ui.element("div")
    beside = ui.element("div")
    lines = Lines(window)
    scene = Scene(window, view)
    window.shows += [
        lambda: _stopped(window, stops, (whole, beside, lines.box)),
        scene.show,
        lambda: _how(window, how),
        lambda: _tilt(window, tilt),
    ]
    window.settles += [
        lambda: _looks(window, looks, view),
        lambda: _hide(window, hide, scene),
        lambda: _beside(window, beside),
        lines.show,
    ]
    window.swung += [scene.turned]
    window.swings += [lambda: _swings(window, swings), lambda: _beside(window, beside)]
    window.reckon()


def _how(window: RoundWindow, told_in: Html) -> None:
    told_in.set_content(_sentence(window))


def _sentence(window: RoundWindow) -> str:
    says = window.round.how if window.round is not None else ""
    return escape(says[:1].upper() + says[1:] + "." if says else "")


def _stopped(window: RoundWindow, box: Element, rest: Sequence[Element]) -> None:
    """What stands in the way of showing it, instead of all else."""
    box.clear()
    with box:
        if window.stopped:
            words("This cannot be put together yet. What stands in the way:")
            findings(window.stopped)
            ui.link("To the bench", address(window.visit.job)).classes("main")
    for one in rest:
        one.set_visibility(not window.stopped)


class Scene:
    """The picture: what is there, where it lies just now, what is hidden."""

    def __init__(self, window: RoundWindow, view: RoundView) -> None:
        self.window, self.view = window, view
        self.hidden: set[str] = set()
        self._looked = False

    def show(self) -> None:
        """A new state of the job, or of how it is held."""
        shown, window = self.window.round, self.window
        if shown is None:
            return
        base = f"{address(window.visit.job, 'round')}/{window.number}-"
        things = [
            {
                "id": str(part.number),
                "key": shown.shapes[part.shape].name,
                "url": f"{base}{shown.shapes[part.shape].name}.glb",
                "lies": _flat(shown, part.number),
                "ground": part.body < 0,
            }
            for part in shown.parts
        ]
        self.view.shows(things, {}, self._ids(), ())
        if not self._looked:
            self._looked = True
            self.view.look(shown.looks[-1].eye, shown.looks[-1].upward)

    def turned(self, now: Turned | None) -> None:
        """A joint was moved."""
        shown = self.window.round
        if shown is None:
            return
        poses = now.poses if now is not None else {}
        moved = {str(p.number): _flat(shown, p.number, now) for p in shown.parts if p.body in poses}
        self.view.moves(moved, [str(number) for number in now.parts] if now is not None else [])

    def show_or_hide(self, names: Sequence[str], yes: bool) -> None:
        """Shows parts by their names, or hides them; so it stays when the job is changed."""
        self.hidden = self.hidden - set(names) if yes else self.hidden | set(names)
        self.view.hides(self._ids())

    def _ids(self) -> list[str]:
        shown = self.window.round
        return [str(p.number) for p in shown.parts if p.name in self.hidden] if shown is not None else []


def _flat(shown: Round, number: int, now: Turned | None = None) -> list[float]:
    rows_of = matrix_of(shown, shown.parts[number], now.poses if now is not None else None)
    return [round(one, 7) for row in rows_of for one in row]


def _looks(window: RoundWindow, box: Element, view: RoundView) -> None:
    """Buttons to look along, each to where the job as it is now has that side."""
    box.clear()
    if window.round is None:
        return
    with box:
        for look in window.round.looks:
            button(look.says, partial(view.look, look.eye, look.upward))


def _hide(window: RoundWindow, box: Element, scene: Scene) -> None:
    box.clear()
    shown = window.round
    if shown is None or len(shown.groups) < 2:
        return
    with box:
        heading("Show")
        with ui.element("div").classes("hide").props('role=group aria-label="Pieces that are shown"'):
            for group in shown.groups:
                names = [shown.parts[n].name for n in group.parts]
                seen = not scene.hidden.issuperset(names)
                Tick(group.says, seen, partial(scene.show_or_hide, names))


# ---- swinging


def _swings(window: RoundWindow, box: Element) -> None:
    """One joint at a time, once it is known how far each goes: which one, and a slider."""
    box.clear()
    if window.round is None or not window.round.lots:
        return
    with box:
        heading("Swing a joint")
        if window.joints is None:
            words("Working out how far each joint swings …", quiet=True)
            return
        if not window.joints:
            words("How it swings is not known: something in it finds no rest.", quiet=True)
            return
        for says in window.stuck:
            findings([warn("in-one-another", f"nothing swings there: {says}")])
        names = [(one.name, _first(one.name)) for one in window.joints]
        card = ui.element("div").classes("swing")
        if len(names) > 1:
            with card:
                choice("Which joint, and which way", names, window.chosen.name, window.choose)
        with card:
            _swing(window, window.chosen, card)


def _first(says: str) -> str:
    return says[:1].upper() + says[1:]


def _swing(window: RoundWindow, one: RoundSwing, card: Element) -> None:
    """A slider with what it does just there, and how far it goes in all."""
    low, high = window.range_of(one)
    label = f"Turn it {one.ways[0]}, or {one.ways[1]}"
    slide = Slider(label, low, high, 0, partial(window.turn, one.number), unit="°")
    now = words("").classes("now").props("role=status aria-live=polite")
    words(f"{_first(one.says)}.", quiet=True)
    with ui.element("div").classes("row"):
        button("Back to rest", lambda: _back(slide, window, one), small=True, about=f"Back to rest: {one.name}")

    def show(turned: Turned | None) -> None:
        now.set_content(window.says_html(one, turned))
        card.classes(remove="meets into")
        if turned is not None and turned.touching is not Touching.FREE:
            card.classes("meets" if turned.touching is Touching.MEETS else "into")

    window.swung_here = show
    show(None)


def _back(slide: Slider, window: RoundWindow, one: RoundSwing) -> None:
    slide.put(0)
    window.turn(one.number, 0.0)


def _tilt(window: RoundWindow, box: Element) -> None:
    """Held in the hand at an angle: how what hangs in it comes to lie."""
    shown = window.round
    if shown is None or not shown.can_tilt:
        box.clear()
        window.tilt_told = None
        return
    if window.tilt_told is not None:
        window.tilt_told()
        return
    box.clear()
    with box:
        heading("Hold it in the hand")
        with ui.element("div").classes("swing"):
            slide = Slider("Tilt of the handle, degrees above level", -90, 90, 0, window.hold, unit="°")
            now = words("").props("role=status aria-live=polite")
            told_rows = ui.element("div")
            with ui.element("div").classes("row"):
                button("As the job says", lambda: window.hold(None), small=True)

    def show() -> None:
        if window.round is None:
            return
        now.set_content(_sentence(window))
        told_rows.clear()
        with told_rows:
            rows(window.tilts())
        if window.round.held is None:
            slide.put(0)

    window.tilt_told = show
    show()


# ---- in words and in lines


def _beside(window: RoundWindow, box: Element) -> None:
    """All that the picture shows, and more, in words."""
    box.clear()
    shown = window.round
    if shown is None:
        return
    with box:
        with ui.element("div").classes("beside"):
            swings = tuple((one.name, one.says) for one in window.joints or ())
            for title, lines in (*told(shown), *((("How far it swings", swings),) if swings else ())):
                with ui.element("section"):
                    heading(title)
                    _told(lines)
        if shown.findings:
            heading("What was found")
            findings(shown.findings)
        with ui.element("details"):
            ui.html("Mind this, before it is made and put together", tag="summary", sanitize=False)
            cautions(said(one.says, shown.copy.shop) for one in shown.copy.cautions)


def _told(lines: Sequence[tuple[str, str]]) -> None:
    """Rows with names in two columns; numbered ones as a numbered list, those without names as a plain one."""
    numbered = all(name.rstrip(".").isdigit() for name, _ in lines)
    if not numbered and any(name for name, _ in lines):
        rows(lines)
    else:
        items = "".join(f"<li>{escape(_first(says))}</li>" for _, says in lines)
        ui.html(items, tag="ol" if numbered else "ul", sanitize=False).classes("cautions")


class Lines:
    """The same from four sides in lines: for whoever does not see the picture, and to measure by."""

    def __init__(self, window: RoundWindow) -> None:
        self.window = window
        self._shown: Round | None = None
        self._open = False
        self.box = ui.element("details")
        with self.box:
            ui.html("The same in lines, from four sides", tag="summary", sanitize=False)
            self._drawn = ui.element("div")
        self.box.on("toggle", lambda e: self._toggled(bool(e.args)), js_handler="(e) => emit(e.target.open)")

    def lost(self) -> None:
        """The browser cannot draw in the round: the lines are opened."""
        self.box.props("open")
        self._open = True
        self.show()

    def _toggled(self, is_open: bool) -> None:
        self._open = is_open
        self.show()

    def show(self) -> None:
        """Draws them where they are looked at."""
        if self._open and self.window.round is not None and self.window.round is not self._shown:
            self._shown = self.window.round
            self.window.later(self._draw)

    async def _draw(self) -> None:
        shown = self._shown
        if shown is None:
            return
        made = await run.io_bound(line_views, shown)
        if made is None or shown is not self.window.round:
            return
        with self._drawn:
            self._drawn.clear()
            drawing(made, f"{shown.title}, {shown.how}: from the front, the right, above and aside")
