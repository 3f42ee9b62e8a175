"""The start: what is on the go, what can be begun, and what is brought in."""

import time
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from functools import partial
from html import escape
from pathlib import Path

from nicegui import run, ui
from nicegui.element import Element

from bickern.desk.job.beginnings import FIRST, Beginning, beginnings, first_text
from bickern.desk.job.folder import JobFile
from bickern.desk.live.live import Room, live
from bickern.desk.seen import Seen
from bickern.measure.finding import Finding
from bickern.web.bring_in import bring_in
from bickern.web.field import Field, hears
from bickern.web.frame import Visit, address, framed
from bickern.web.gate.uploads import JOBS, OUTLINES, Upload
from bickern.web.lost import offer_ways_back
from bickern.web.parts import button, findings, heading, say, words
from bickern.web.place import Place

SHOWN = 8
"""Jobs that are shown before more are asked for."""
LARGER = 1.3
"""How much larger than on paper the lantern is drawn: a screen stands further away."""
UNITS = (("in", "inches"), ("mm", "millimetres"))
STYLE = """
.start{display:grid;gap:1.8rem 3rem;align-items:start}
@media (min-width:900px){.start{grid-template-columns:minmax(0,5fr) minmax(0,4fr)}}
.start h2{margin-top:1.8rem}
.start section>h2:first-child{margin-top:.4rem}
.bring-in{margin-bottom:.6rem}
.tickets{list-style:none;border-top:3px solid var(--line);margin:.5rem 0 .8rem}
.tickets li{border-bottom:1px solid var(--faint)}
.ticket{display:grid;grid-template-columns:1fr auto;gap:0 1rem;padding:.7rem .4rem .7rem 2.1rem;min-height:64px;
  color:var(--ink);text-decoration:none;position:relative;overflow-wrap:anywhere}
.ticket::before{content:"";position:absolute;left:.35rem;top:1rem;width:15px;height:15px;border-radius:50%;
  border:3px solid var(--line);background:var(--paper)}
.ticket b{font-size:1.2rem;line-height:1.25}
.ticket:hover b{color:var(--ember)}
.ticket span{color:var(--soft)}
.ticket .when{text-align:right}
.begin{font:inherit;text-align:left;width:100%;min-height:52px;padding:.5rem .4rem;border:0;background:none;
  color:var(--ink);cursor:pointer;display:grid;grid-template-columns:1fr auto;gap:0 1rem}
.begin b{font-size:1.08rem;text-decoration:underline;text-decoration-color:var(--line);text-underline-offset:.2em}
.begin:hover b{color:var(--ember)}
.begin span{color:var(--soft)}
.begin .says{grid-column:1/-1}
.first{border-top:3px solid var(--line);border-bottom:3px solid var(--line);padding:1.2rem 0;margin-bottom:1.6rem;
  display:grid;gap:1rem 2rem;align-items:center}
@media (min-width:900px){.first{grid-template-columns:minmax(0,2fr) minmax(0,5fr)}}
.first h2{margin:0;font-size:1.5rem}
.first .drawing{min-height:9rem;border:0;background:none;padding:0}
.first button{font-size:1.25rem;min-height:64px;padding:.8rem 1.8rem}
@media (min-width:600px){.start .fields{grid-template-columns:minmax(0,2fr) minmax(0,1fr)}}
"""


def pages(place: Place) -> None:
    """Registers the start, and what is shown where there is no page."""
    offer_ways_back()

    @ui.page("/")
    async def start() -> None:
        jobs = await run.io_bound(place.jobs.jobs)
        with framed(place, "Jobs", "/") as visit:
            ui.add_css(STYLE)
            page = _Start(visit, jobs or ())
            page.laid_out()
        if page.picture is not None:
            await ui.context.client.connected(timeout=30)
            await page.drawn()


@dataclass(slots=True)
class _Start:
    """One person at the start."""

    visit: Visit
    jobs: tuple[JobFile, ...]
    find: str = ""
    more: bool = False
    tickets: Element = field(init=False)
    rest: Element = field(init=False)
    found: Element = field(init=False)
    picture: Element | None = None

    def laid_out(self) -> None:
        """What is on the go first; who comes the first time finds the lantern there."""
        with ui.element("div") as room:
            if not self.jobs:
                self._first()
            with ui.element("div").classes("start"):
                with ui.element("section").props('aria-label="Jobs"'):
                    self._on_the_go() if self.jobs else self._blank()
                    self._bring(room)
                with ui.element("section").props('aria-label="Begin"'):
                    if self.jobs:
                        self._blank()
                    self._examples()

    # ---- what is on the go

    def _on_the_go(self) -> None:
        heading("On the go")
        if len(self.jobs) > SHOWN:
            Field("Find a job", "", hears(self._find), hint="its title or its file", kind="search", name="find")
        self.tickets = ui.element("ol").classes("tickets")
        self.rest = ui.element("div").classes("row")
        self._show()

    def _find(self, words: str) -> None:
        self.find = words.casefold()[:80]
        self._show()

    def _all(self) -> None:
        self.more = True
        self._show()

    def _show(self) -> None:
        wanted = self.find.split()
        fit = [job for job in self.jobs if all(w in f"{job.title} {job.name}".casefold() for w in wanted)]
        shown = fit if self.more else fit[:SHOWN]
        self.tickets.clear()
        self.rest.clear()
        now = time.time()
        with self.tickets:
            for job in shown:
                ui.html(_ticket(job, now), tag="li", sanitize=False)
        with self.rest:
            if len(fit) > len(shown):
                button(f"All {len(fit)} jobs", self._all)
            elif not fit:
                words("No job has these words in its title or in the name of its file.")

    # ---- what can be begun

    def _first(self) -> None:
        """One way in, as large as a hand."""
        with ui.element("section").classes("first").props('aria-label="Begin here"'):
            with ui.element("div").classes("stack"):
                heading("A lantern to begin with")
                words("An arm, a hood, a tray, a post and its links. It is yours: change any size, see what it does.")
                with ui.element("div").classes("row"):
                    button("Open the lantern", partial(self._begin, FIRST), main=True)
            self.picture = ui.element("div").classes("drawing").props("role=img")
            self.picture.props["aria-label"] = "The arm of the lantern; it is being drawn"

    async def drawn(self) -> None:
        """Draws the arm of the lantern, once the page stands."""
        wide = await ui.run_javascript("document.querySelector('.first .drawing').clientWidth", timeout=10)
        shown = await run.io_bound(_arm, self.visit.seen, float(wide or 0) / 96 * 0.0254)
        if shown is None or self.picture is None or self.picture.is_deleted:
            return
        svg, says, broad = shown
        self.picture.props["aria-label"] = says
        self.picture.style(f"--wide:{broad * LARGER * 1000:.0f}mm")
        with self.picture:
            ui.html(svg, sanitize=False)

    def _blank(self) -> None:
        heading("Begin with a blank one")
        with ui.element("div").classes("fields"):
            name = Field("What is it?", hint="Gate hinge, leaf hook: the file is named so, too", name="name")
            units = Field("Bare numbers are", self.visit.seen.first or "in", options=UNITS, name="units")

        async def begins() -> None:
            if not name.value.strip():
                name.wrong("give it a name first")
                name.go()
                return
            made = await run.io_bound(partial(self.visit.place.jobs.new, None, name.value, units=units.value))
            if isinstance(made, Finding):
                name.wrong(f"{made.says}: {made.try_this}")
                name.go()
            elif made is not None:
                ui.navigate.to(address(made))

        name.on("keydown.enter", begins, args=[])
        with ui.element("div").classes("row").style("margin-top:.7rem"):
            button("Begin", begins, main=bool(self.jobs))

    def _examples(self) -> None:
        heading("Begin from an example" if self.jobs else "Or from another example")
        with ui.element("ul").classes("tickets"):
            for one in beginnings():
                if one.name == FIRST and not self.jobs:
                    continue
                with ui.element("li"):
                    _example(one, partial(self._begin, one.name))

    async def _begin(self, example: str) -> None:
        made = await run.io_bound(self.visit.place.jobs.new, example)
        if isinstance(made, Finding):
            self._tell([made])
        elif made is not None:
            ui.navigate.to(address(made))

    # ---- what is brought in

    def _bring(self, room: Element) -> None:
        heading("Bring a file in")
        says = "or drop it anywhere on this page: a job (.yaml, up to 1 MB), or a drawing that it names (.dxf, .svg)"
        bring_in(room, says, "Choose a file", (*JOBS, *OUTLINES), self._came)
        self.found = ui.element("div").props("role=status").classes("stack")
        words(f"Jobs lie in the folder {self.visit.place.jobs.folder.name}, as plain files.", quiet=True)

    async def _came(self, files: list[Upload | Finding]) -> None:
        """What can be kept is kept; a single job is opened at once."""
        kept = [await self._kept(one) for one in files]
        names = [one for one in kept if isinstance(one, str)]
        self._tell([one for one in kept if isinstance(one, Finding)])
        jobs = [name for name in names if name.lower().endswith(JOBS)]
        if len(kept) == len(jobs) == 1:
            ui.navigate.to(address(jobs[0]))
            return
        if names:
            say(f"Brought in: {', '.join(names)}.")
            await self._look_again()

    async def _kept(self, one: Upload | Finding) -> str | Finding | None:
        if isinstance(one, Finding):
            return one
        return await run.io_bound(self.visit.place.jobs.drop, one.name, one.data)

    async def _look_again(self) -> None:
        had = bool(self.jobs)
        self.jobs = await run.io_bound(self.visit.place.jobs.jobs) or self.jobs
        if had:
            self._show()
        elif self.jobs:
            ui.navigate.reload()

    def _tell(self, found: list[Finding]) -> None:
        self.found.clear()
        if found:
            with self.found:
                findings(found)


def _arm(seen: Seen, wide: float) -> tuple[str, str, float] | None:
    """The arm of the lantern when it is done, drawn for a screen so wide [m]: drawing, words, and its width [m]."""
    room = Room(max(wide / LARGER, 0.06), 0.16)
    piece = live(first_text(), Path("porch-lantern.yaml"), piece="arm", seen=seen, room=room).piece("arm")
    if piece is None or not piece.pictures:
        return None
    last = piece.pictures[-1]
    return last.svg, last.says, last.wide


def _example(one: Beginning, does: Callable[[], object]) -> None:
    count = _pieces(one.pieces)
    inside = f'<b>{escape(one.title)}</b><span>{count}</span><span class="says">{escape(one.says)}</span>'
    made = ui.html(inside, tag="button", sanitize=False).props("type=button").classes("begin")
    made.props["aria-label"] = f"Begin from {one.title}: {one.says}, {count}"
    made.on("click", lambda: does())


def _ticket(job: JobFile, now: float) -> str:
    """A job in a line: its title leads to its bench."""
    where = escape(address(job.name), quote=True)
    return (
        f'<a class="ticket" href="{where}"><b>{escape(job.title)}</b><span class="when">{_when(job.when, now)}</span>'
        f"<span>{escape(job.name)}</span><span class='when'>{_pieces(job.pieces)}</span></a>"
    )


def _pieces(count: int) -> str:
    return "1 piece" if count == 1 else f"{count} pieces" if count else "cannot be read yet"


def _when(at: float, now: float) -> str:
    """When, as people say it, by the clock of this machine."""
    then, today = datetime.fromtimestamp(at), datetime.fromtimestamp(now).date()
    days = (today - then.date()) // timedelta(days=1)
    clock = f"{then:%H:%M}"
    if days == 0:
        return f"today, {clock}"
    if days == 1:
        return f"yesterday, {clock}"
    return f"{then.day} {then:%b} {then.year}" if days > 6 or days < 0 else f"{then:%A}, {clock}"
