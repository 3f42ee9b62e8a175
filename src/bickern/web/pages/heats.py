"""The fire: the order of work as cards, one at a time, to be read from the anvil and ticked off with one thumb."""

from functools import cache, partial
from html import escape
from importlib.resources import files

from nicegui import background_tasks, run, ui
from nicegui.element import Element

from bickern.desk.job.open_job import OpenJob
from bickern.desk.work import ticks
from bickern.desk.work.cards import Card, Kind
from bickern.measure.finding import Weight
from bickern.web.field import Field, hears
from bickern.web.fire.card import heat_html, mind_html, overview_html, top_html, work_html
from bickern.web.fire.dock import Dock
from bickern.web.fire.happened import Happened
from bickern.web.fire.window import BEFORE, Shows, Window, cards_of
from bickern.web.frame import Visit, address, framed
from bickern.web.parts import Tick, button, cautions, drawing, findings, heading, rows, words
from bickern.web.place import Place

MOST_BOXES = 12
"""Copies that have a box each on a card; of more, their number is told."""
GOES_TO = """(e) => {
  const pressed = e.target.closest("button[data-place]");
  if (pressed) emit(Number(pressed.dataset.place));
}"""
"""Which row of the list was pressed."""
KEYS = "Right arrow or space: next. Left arrow: back. Enter: out of the fire."
NO_ORDER = "No order of work: mend what stops the job first."


def pages(place: Place) -> None:
    """Registers the fire."""

    @ui.page("/job/{job}/heats")
    async def heats(job: str) -> None:
        with framed(place, "Fire", "heats", job) as visit:
            ui.add_head_html(f"<style>{_looks()}</style>")
            if visit.doc is not None:
                await _built(visit, visit.doc)


@cache
def _looks() -> str:
    return (files("bickern.web.fire") / "fire.css").read_text(encoding="utf-8")


async def _built(visit: Visit, doc: OpenJob) -> None:
    now = await run.io_bound(cards_of, visit, doc)
    stands = await run.io_bound(ticks.ticked, doc.path)
    if now is None or stands is None:
        return
    cards, found = now
    if not cards.cards:
        words(NO_ORDER)
        findings(found)
        ui.link("To the bench", address(visit.job)).classes("main")
        return
    await _page(Window(visit, doc, cards, found, stands))


async def _page(window: Window) -> None:
    _newer(window)
    with ui.element("div").classes("fire"):
        shown = Shown(window)
        dock = Dock(window.go, window.tick, window.pulled)
    words(KEYS, quiet=True).classes("by-keys")
    made = ui.element("div").props("role=status")
    happened = Happened(window)
    overview = _overview(window)
    _earlier(window)
    _anew(window)

    def keys() -> None:
        last = len(window.cards.cards)
        dock.show(window.card, _tick_says(window), first=window.place == BEFORE, last=window.place == last)

    window.shows += [shown.soon, made.clear, keys, overview]
    window.counts += [shown.count, keys, overview]
    window.made += [lambda _: dock.stop(), lambda piece: _made(made, happened, piece)]
    keys()
    await shown.show()


def _tick_says(window: Window) -> str:
    """What the button for ticking off says; "" where there is nothing to tick."""
    card = window.card
    if card is None or not card.ticks:
        return ""
    which = f" {window.copy} of {card.make}" if card.make > 1 else ""
    return f"Take{which} back" if (card.key, window.copy) in window.stands.ticks else f"Done{which}"


def _newer(window: Window) -> None:
    """Says that the plan is another by now, and shows it when it is asked for: never under the smith's hands."""
    box = ui.element("div").classes("newer").props("role=status")

    async def renew() -> None:
        box.clear()
        await window.renew()

    def tell() -> None:
        box.clear()
        with box:
            words("The plan has changed.")
            button("Show it", renew, main=True)

    window.newer.append(tell)


class Shown:
    """The card that is shown."""

    def __init__(self, window: Window) -> None:
        self.window = window
        self.client = ui.context.client
        self.far = ui.html("", tag="p", sanitize=False).classes("far").props("role=status")
        self.box = ui.element("section").classes("heat").props("aria-labelledby=now")
        self.boxes: Element | None = None
        self.note: Field | None = None
        self._boxed: list[bool] = []
        self._noted, self._putting = "", False
        self._card_there: Card | None = None

    def soon(self) -> None:
        """Shows it as soon as its picture is drawn, from its top."""
        background_tasks.create(self._soon())

    async def _soon(self) -> None:
        with self.client:
            await self.show()
            ui.run_javascript("document.querySelector('.fire')?.scrollIntoView({block:'start'})")

    async def show(self) -> None:
        """Builds the card anew."""
        card = self.window.card
        drawn = await self.window.picture(card) if card is not None else ""
        if card is not self.window.card:
            return  # another was asked for meanwhile
        self.box.clear()
        self.boxes, self.note, self._boxed, self._card_there = None, None, [], card
        with self.box:
            if card is None:
                _before(self.window)
            else:
                self._card(card, drawn)
        self.count()

    def _card(self, card: Card, drawn: str) -> None:
        with ui.element("div").classes("head-of"):
            ui.html(top_html(card, self.window.copy), sanitize=False)
            ui.html(heat_html(card), sanitize=False).classes("colours")
        if card.kind is Kind.REFUSED:
            rows(card.facts)
            return
        with ui.element("div").classes("below" if drawn else "below alone"):
            if drawn:
                drawing(drawn, f"{card.number}: the bar before and after, where it is hot and where it is held")
            if card.cautions:
                ui.html(mind_html(card), sanitize=False).classes("mind")
            ui.html(work_html(card), sanitize=False).classes("doing")
        self.boxes = ui.element("div").classes("boxes").props('role=group aria-label="Ticked off"')
        self._noted = self.window.noted(card)
        typed = hears(lambda text: None if self._putting else self.window.note(card, text))
        self.note = Field("What happened", self._noted, typed, name=f"note {card.key}", lines=2, keeps=True)

    def count(self) -> None:
        """How far it is: in all, and of this card."""
        far, card = self.window.progress, self.window.card
        shown = f"; {escape(card.number or card.title)}" if card is not None else ""
        self.far.set_content(f"<b>{far.done} of {far.of}</b> ticked off{shown}")
        if card is None or card is not self._card_there or self.boxes is None or self.note is None:
            return
        self._from_others(card, self.note)
        now = [(card.key, copy) in self.window.stands.ticks for copy in range(1, card.make + 1)]
        if card.make > 1 and now != self._boxed:
            self._boxed = now
            self.boxes.clear()
            with self.boxes:
                self._boxes(card)

    def _from_others(self, card: Card, field: Field) -> None:
        """What is noted in another window is put in here too, but never over what is being typed."""
        now = self.window.stands.note(card.key)
        if now == self._noted:
            return
        self._noted = now
        if not self.window.typing(card) and now != (field.value or "").strip():
            self._putting = True
            field.show(now)
            self._putting = False

    def _boxes(self, card: Card) -> None:
        """A box for each copy; of many, how many are done."""
        if card.make > MOST_BOXES:
            words(f"{sum(self._boxed)} of {card.make} done")
            return
        for copy, done in enumerate(self._boxed, start=1):
            Tick(f"number {copy}", done, partial(self._mark, card, copy))

    def _mark(self, card: Card, copy: int, yes: bool) -> object:
        """Pressed here: the box shows it already, and stays under the finger."""
        self._boxed[copy - 1] = yes
        return self.window.mark(card, copy, yes)


def _before(window: Window) -> None:
    """What is read before the fire is lit: how much it is, the cautions, what nothing printed confirms."""
    cards = window.cards
    ui.html("Before the fire is lit", tag="h2", sanitize=False).props("id=now tabindex=-1").classes("now")
    words(cards.total).classes("total")
    rows(cards.head)
    cautions(cards.cautions)
    told = [one for one in window.found if one.weight is not Weight.NOTE]
    findings(dict.fromkeys((*told, *cards.left_out, *window.stands.findings)))
    heading("Nothing printed confirms", 3)
    for line in cards.not_validated:
        words(line)


def _made(box: Element, happened: Happened, piece: str) -> None:
    """A piece is made: now it is known what really happened."""
    box.clear()
    with box, ui.element("div").classes("card made"):
        words(f"“{piece}” is made." if piece else "All of it is ticked off.")
        button("Tell what really happened", lambda: happened.open(piece), main=True)


def _overview(window: Window) -> Shows:
    """All cards in order, each a button to it; gives what brings the list up to date."""
    with ui.element("section").props("aria-labelledby=all-heats"):
        ui.html("All of it, in order", tag="h2", sanitize=False).props("id=all-heats")
        made = ui.html("", tag="ul", sanitize=False).classes("overview")

    def show() -> None:
        made.set_content(overview_html(window.cards, window.stands, window.place))

    def go(place: object) -> None:
        if isinstance(place, int):
            window.show(place)
            ui.run_javascript("setTimeout(()=>document.getElementById('now')?.focus({preventScroll:true}),120)")

    made.on("click", lambda event: go(event.args), js_handler=GOES_TO)
    show()
    return show


def _earlier(window: Window) -> None:
    """What was ticked off or noted of an earlier plan: it is not lost, and counts for nothing here."""
    box = ui.element("div")
    told: list[object] = [()]

    def show() -> None:
        now = ticks.earlier(window.cards, window.stands)
        if told[0] == now:
            return
        told[0] = now
        box.clear()
        if now:
            with box, ui.element("details").classes("folded"):
                ui.html(f"of an earlier plan: {len(now)}", tag="summary", sanitize=False)
                rows(now)

    window.shows.append(show)
    window.counts.append(show)
    show()


def _anew(window: Window) -> None:
    with ui.element("details").classes("folded"):
        ui.html("make this job once more", tag="summary", sanitize=False)
        words("Nothing is ticked off then. What was ticked off so far is kept, and not shown any more.")
        button("Begin anew", window.anew)
