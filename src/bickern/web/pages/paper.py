"""The page of paper: what can be printed of a job, page by page, and every file of it to keep."""

import asyncio
from dataclasses import dataclass, field
from html import escape

from nicegui import background_tasks, run, ui
from nicegui.element import Element
from nicegui.elements.html import Html

from bickern.desk.job.open_job import Edited, OpenJob
from bickern.desk.sheets.preview import (
    FOR_WHOM,
    PAPER_WORDS,
    Document,
    Preview,
    Step,
    groups_of,
    kinds_of,
    said_size,
    size_of,
    usual_paper,
)
from bickern.measure.finding import Finding
from bickern.web import parts
from bickern.web.frame import Visit, address, framed
from bickern.web.pick import Pick
from bickern.web.place import Place
from bickern.web.sheets.files import ALL, Asked, Packed, address_of, offer_files
from bickern.web.sheets.turning import Turning

STYLE = """
.paper-choice{display:flex;flex-wrap:wrap;gap:1rem 2rem;align-items:flex-start}
.doc{border-top:3px solid var(--line);padding-top:.7rem;margin-top:1.2rem}
.doc h2{margin:0}
.doc .row{margin:.5rem 0 .8rem}
.leaves{display:flex;flex-wrap:wrap;gap:1rem;list-style:none}
.leaves button{font:inherit;padding:0;border:0;background:none;color:var(--soft);cursor:zoom-in;display:block}
.leaves img{display:block;width:11.5rem;height:auto;background:#fff;border:1px solid var(--line)}
.leaves button:hover img{border-color:var(--ember)}
.files ul{list-style:none;display:grid;grid-template-columns:repeat(auto-fill,minmax(21rem,1fr));gap:0 2rem}
.files li{border-bottom:1px solid var(--faint);display:flex;flex-wrap:wrap;align-items:center;gap:0 1.2rem}
.files li>span{flex:1 1 7rem;min-width:0;overflow-wrap:anywhere}
.files a{display:inline-flex;min-height:46px;min-width:44px;align-items:center;gap:.4rem}
.files small{color:var(--soft)}
details.more summary{min-height:48px;display:flex;align-items:center}
.changed{position:sticky;top:0;z-index:4}
@media (max-width:760px){
  .leaves{gap:.7rem}
  .leaves li{width:calc(50% - .35rem)}
  .leaves button,.leaves img{width:100%}
  .files ul{grid-template-columns:minmax(0,1fr)}
}
"""


def pages(place: Place) -> None:
    """Registers the page of paper, and the files it offers."""
    packed = offer_files(place)

    @ui.page("/job/{job}/paper")
    def paper(job: str) -> None:
        query = ui.context.client.request.query_params
        with framed(place, _title(place, job), "paper", job) as visit:
            if visit.doc is not None:
                _Printing(visit, visit.doc, packed, query.get("for", ""), query.get("on", "")).laid_out()


def _title(place: Place, job: str) -> str:
    """What a job is called at the head of its page."""
    return next((one.title or one.name for one in place.jobs.jobs() if one.name == job), job)


@dataclass(slots=True)
class _Printing:
    """One person looking at what can be printed."""

    visit: Visit
    doc: OpenJob
    packed: Packed
    audience: str
    paper: str
    number: int = 0
    asked: Asked | None = None
    shown: list[str] = field(default_factory=list)
    changed: Element = field(init=False)
    state: Element = field(init=False)
    how_far: Html = field(init=False)
    found: Element = field(init=False)
    whole: Element = field(init=False)
    documents: Element = field(init=False)
    files: Element = field(init=False)
    large: Turning = field(init=False)
    loop: asyncio.AbstractEventLoop = field(default_factory=asyncio.get_running_loop)

    def laid_out(self) -> None:
        """The choices, and room for what is set."""
        ui.add_css(STYLE)
        self.audience = self.audience if self.audience in FOR_WHOM else "shop"
        self.paper = self.paper if self.paper in PAPER_WORDS else usual_paper(self.visit.seen, self.visit.place.shop)
        with ui.element("div").classes("paper-choice"):
            Pick("For whom", tuple(FOR_WHOM.items()), self.audience, self._for)
            parts.choice("On what paper", tuple(PAPER_WORDS.items()), self.paper, self._on)
        self.changed = ui.element("div").classes("changed card row").props("role=status")
        with self.changed:
            parts.words("The job has changed since these pages were set.")
            parts.button("Set again", self._set, main=True)
        self.changed.set_visibility(False)
        self.state = ui.element("div").props("role=status")
        self.found, self.whole = ui.element("div"), ui.element("div").classes("row zip")
        self.documents, self.files = ui.element("div"), ui.element("section").classes("files")
        self.large = Turning()
        self._follow()
        self._set()

    def _follow(self) -> None:
        """Hears of each change of the job for as long as the page is there."""
        client = ui.context.client

        def hears(edited: Edited, who: str) -> None:
            self.loop.call_soon_threadsafe(lambda: None if client.is_deleted else self._changed())

        client.on_delete(self.doc.listen(hears))

    def _changed(self) -> None:
        self.changed.set_visibility(self.asked is not None and self.asked.number != self.doc.number)

    def _for(self, audience: str) -> None:
        self.audience = audience
        self._moved()

    def _on(self, paper: str) -> None:
        if paper in PAPER_WORDS:
            self.paper = paper
            self._moved()

    def _moved(self) -> None:
        ui.navigate.history.replace(f"{address(self.visit.job, 'paper')}?for={self.audience}&on={self.paper}")
        self._set()

    def _set(self) -> None:
        """Has the packet set anew; a setting that comes after a newer one was asked for is let go."""
        self.number += 1
        self.asked = None
        self.changed.set_visibility(False)
        self.shown.clear()
        for room in (self.found, self.whole, self.documents, self.files, self.state):
            room.clear()
        with self.state:
            self.how_far = ui.html(_far(Step("It is reckoned", 0.02)), sanitize=False)
        background_tasks.create(self._being_set(self.number), name="setting pages")

    async def _being_set(self, mine: int) -> None:
        client = self.state.client
        await run.io_bound(self.doc.look)
        if mine != self.number:
            return
        asked = Asked(self.visit.job, self.doc.number, self.audience, self.paper, self.visit.seen)
        self.asked = asked

        def report(step: Step) -> None:
            self.loop.call_soon_threadsafe(self._heard, mine, step)

        try:
            made = await self.packed.packet(self.doc, asked, report)
        except Exception:  # whatever it is: nobody is to wait for pages that will not come; the log is told the rest
            if mine == self.number and not client.is_deleted:
                with client:
                    self._failed()
            raise
        if made is not None and mine == self.number and not client.is_deleted:
            with client:
                self._done(made)

    def _failed(self) -> None:
        self.state.clear()
        with self.found:
            parts.words("The pages could not be set. The fault is in bickern, not in the job: nothing of it is lost.")
            parts.button("Try again", self._set)

    def _heard(self, mine: int, step: Step) -> None:
        client = self.state.client
        if mine != self.number or client.is_deleted:
            return
        with client:
            self.how_far.set_content(_far(step))
            if step.document is not None:
                self._document(step.document)

    def _done(self, made: Preview | Finding) -> None:
        """All that is left to show once the whole packet is there."""
        self.state.clear()
        if isinstance(made, Finding):
            with self.found:
                parts.findings([made])
            return
        for document in made.documents:
            self._document(document)
        with self.found:
            _told(made)
            _cut(made)
        assert self.asked is not None
        with self.whole:
            names = len(made.files)
            _way("The whole packet in one ZIP", address_of(self.asked, ALL), keep=True)
            parts.words(f"{names} file{'s' * (names != 1)} for {FOR_WHOM[made.audience]}", quiet=True)
        with self.files:
            _files(made, self.asked)

    def _document(self, document: Document) -> None:
        """One document with its pages, small; each opens large. One that is shown already stays."""
        if document.name in self.shown or self.asked is None:
            return
        self.shown.append(document.name)
        asked, at = self.asked, address_of(self.asked, document.name)
        with self.documents, ui.element("section").classes("doc").props(f'aria-label="{document.title}"'):
            parts.heading(document.title)
            parts.words(f"{document.says} {_pages(document, asked.paper)}", quiet=True)
            with ui.element("div").classes("row"):
                _way(f"Print {document.title.lower()}", at, new=True, main=not document.full_size)
                _way("Keep the PDF", f"{at}?keep=1", keep=True, about=f"Keep the PDF: {document.title}")
            with ui.element("ul").classes("leaves"):
                for page in range(1, len(document.small) + 1):
                    self._leaf(document, at, page)
            if document.pages > len(document.small):
                parts.words(f"The first {len(document.small)} are shown; all {document.pages} are in the PDF.")

    def _leaf(self, document: Document, at: str, page: int) -> None:
        named = f"{document.title}, page {page} of {document.pages}"
        wide, high = size_of(document.small[page - 1])
        size = f'width="{wide}" height="{high}"'
        inside = f'<img src="{at}?small={page}" {size} alt="" loading="lazy"><span>{page}</span>'
        with ui.element("li"):
            leaf = ui.html(inside, tag="button", sanitize=False).props("type=button")
            leaf.props["aria-label"] = f"{named}: show it large"
            leaf.on("click", lambda: self.large.open(document.title, at, page, [size_of(s) for s in document.small]))


def _far(step: Step) -> str:
    """How far the setting is, in words and as a bar that fills."""
    share = round(100 * step.share)
    return (
        f'<p>{escape(step.says)} …</p><div class="progress" role="progressbar" aria-label="Setting the pages" '
        f'aria-valuemin="0" aria-valuemax="100" aria-valuenow="{share}"><i style="width:{share}%"></i></div>'
    )


def _pages(document: Document, paper: str) -> str:
    many = "1 page" if document.pages == 1 else f"{document.pages} pages"
    return f"{many}, {PAPER_WORDS[paper]}."


def _told(made: Preview) -> None:
    """What was found: what stops the work is told first, and that the paper can be printed all the same."""
    stops = [one for one in made.findings if one.stops]
    if stops:
        parts.words(
            "Something stops this job. What could be reckoned is printed all the same, and the sheet says it too."
        )
        parts.findings(stops)
    rest = [one for one in made.findings if not one.stops]
    if rest:
        with ui.element("details").classes("more"):
            ui.html(f"Found on the way: {len(rest)}", tag="summary", sanitize=False)
            parts.findings(rest)


def _cut(made: Preview) -> None:
    """What the sheet says to cut, and where that is another mark than before the heats were planned."""
    if not made.cuts:
        return
    parts.heading("To cut, as the sheet says it")
    heads = ("piece", "cut this", "from", "times")
    parts.table(heads, [(c.name, c.cut, c.made_of, str(c.count)) for c in made.cuts], "what to cut")
    other = [f"{c.name} {c.without}" for c in made.cuts if c.without]
    if other:
        says = "The heats that are planned burn some of it away, and that is counted here. Without them: "
        parts.words(f"{says}{'; '.join(other)}.", quiet=True)


def _files(made: Preview, asked: Asked) -> None:
    """Every file that is no document of pages, under what it is of; the same thing in several kinds on one line."""
    if not made.others:
        return
    parts.heading("For other tools")
    parts.words(" ".join(f"{ending[1:].upper()}: {words}." for ending, words in kinds_of(made.others)), quiet=True)
    for head, names in groups_of(made.others):
        parts.heading(head, 3)
        stems = dict.fromkeys(name.rpartition(".")[0] for name in names)
        lines = "".join(_line(stem, [n for n in names if n.rpartition(".")[0] == stem], made, asked) for stem in stems)
        ui.html(lines, tag="ul", sanitize=False)


def _line(stem: str, names: list[str], made: Preview, asked: Asked) -> str:
    said = stem.rpartition("/")[2]
    return f"<li><span>{escape(said)}</span>{''.join(_file(name, made, asked) for name in names)}</li>"


def _file(name: str, made: Preview, asked: Asked) -> str:
    where = escape(f"{address_of(asked, name)}?keep=1", quote=True)
    plain, kind = escape(name.rpartition("/")[2], quote=True), name.rpartition(".")[2].upper()
    size = said_size(len(made.files[name]))
    return f'<a href="{where}" download aria-label="{plain}, {size}"><b>{kind}</b> <small>{size}</small></a>'


def _way(says: str, where: str, *, new: bool = False, main: bool = False, keep: bool = False, about: str = "") -> None:
    """A way to a file: opened beside this page, or kept."""
    link = ui.element("a").classes("main" if main else "plain")
    link.props["href"] = where
    if new:
        link.props["target"] = "_blank"
        link.props["rel"] = "noopener"
    if keep:
        link.props["download"] = True
    if about or new:
        link.props["aria-label"] = about or f"{says}: opens beside this page"
    with link:
        ui.html(escape(says), tag="span", sanitize=False)
