"""One window at the fire: the cards of a job, which of them is shown, and what is ticked off, here or elsewhere."""

import asyncio
from collections.abc import Awaitable, Callable

from nicegui import background_tasks, run, ui

from bickern.desk.job.open_job import Edited, OpenJob
from bickern.desk.live.live import reckoned
from bickern.desk.work import ticks
from bickern.desk.work.cards import Card, Cards, Turn, heat_cards, picture
from bickern.desk.work.heats import planned
from bickern.desk.work.ticks import Progress, Ticked, made_so_far, progress
from bickern.measure.finding import Finding
from bickern.web.frame import Visit
from bickern.web.parts import say

Shows = Callable[[], object]
BEFORE = 0
"""The place of what is read before the fire is lit; the cards are counted from 1."""
WHOLE = ""
"""Instead of a piece's name: the whole job."""
QUIET = 0.4
"""So long after the last key a note is kept [s]."""


def cards_of(visit: Visit, doc: OpenJob) -> tuple[Cards, tuple[Finding, ...]]:
    """The cards of the job as its file is now, and what was found."""
    done = planned(reckoned(doc.text, doc.path, shop=visit.place.shop, rack=visit.place.rack, seen=visit.seen))
    return heat_cards(done), done.findings


class Window:
    """`place`, `copy`: the card that is shown (`BEFORE`: none yet), and which of the copies it is for.

    `shows`: called when another card is shown; `counts`: when something is ticked off or noted; `newer`: when the plan
    is another by now; `made`: with the name of a piece (`WHOLE`: of them all), when its last card was ticked off.
    """

    def __init__(self, visit: Visit, doc: OpenJob, cards: Cards, found: tuple[Finding, ...], stands: Ticked) -> None:
        self.visit, self.doc, self.cards, self.found, self.stands = visit, doc, cards, found, stands
        self.place, self.copy = BEFORE, 1
        self.shows: list[Shows] = []
        self.counts: list[Shows] = []
        self.newer: list[Shows] = []
        self.made: list[Callable[[str], object]] = []
        self._pictures: dict[str, str] = {}
        self._typed: dict[str, tuple[Card, str]] = {}
        self._filled: dict[str, dict[str, str]] = {}
        self._looks, self._keeps = False, False
        self._client, self._loop = ui.context.client, asyncio.get_running_loop()
        for stop in (doc.listen(self._edited), ticks.listen(doc.path, self._pressed)):
            self._client.on_delete(stop)
        self._client.on_delete(self._keep_notes)
        if stands.ticks or stands.pulls:
            self._to(self.progress.next)

    @property
    def card(self) -> Card | None:
        """The card that is shown; None before the fire is lit."""
        return self.cards.cards[self.place - 1] if 0 < self.place <= len(self.cards.cards) else None

    @property
    def progress(self) -> Progress:
        """How far the work is."""
        return progress(self.cards, self.stands, Turn(self.place, self.copy))

    @property
    def who(self) -> str:
        """Who is at the fire, where they have said so."""
        return self.visit.looks.who

    # ---- which card

    def show(self, place: int, copy: int = 0) -> None:
        """Another card; `copy` 0: the first one of it that is not ticked off."""
        self.place = min(max(place, BEFORE), len(self.cards.cards))
        self.copy = copy or self._first_open()
        for shows in self.shows:
            shows()

    def go(self, by: int) -> None:
        """On or back."""
        self.show(self.place + by)

    def _first_open(self) -> int:
        card = self.card
        many = card.make if card is not None else 1
        return next((n for n in range(1, many + 1) if card and (card.key, n) not in self.stands.ticks), many)

    def _to(self, turn: Turn | None) -> None:
        if turn is not None:
            self.place, self.copy = turn.place, turn.copy

    async def picture(self, card: Card) -> str:
        """Its picture, drawn beside everything else."""
        if card.key not in self._pictures:
            self._pictures[card.key] = await run.io_bound(picture, self.cards, card) or ""
        return self._pictures[card.key]

    # ---- what is pressed

    async def tick(self) -> None:
        """Ticks the card off for this copy, and goes on to what is next; or takes the tick back."""
        card, copy = self.card, self.copy
        if card is None:
            return
        if (card.key, copy) in self.stands.ticks:
            await self.mark(card, copy, False)
            return
        before = made_so_far(self.cards, self.stands, card.piece) if card.piece else 0
        if await self.mark(card, copy, True):
            self._to(self.progress.next)
            self.show(self.place, self.copy)
            whole = self.progress.next is None
            if whole or (card.piece and made_so_far(self.cards, self.stands, card.piece) > before):
                for made in self.made:
                    made(WHOLE if whole else card.piece)

    async def mark(self, card: Card, copy: int, yes: bool) -> bool:
        """A card of one copy is ticked off, or not after all; whether that was kept."""
        fault = await run.io_bound(ticks.tick if yes else ticks.untick, self.doc.path, card, copy, self.who)
        return await self._kept(fault)

    async def pulled(self) -> None:
        """An iron was pulled from the fire."""
        if self.card is not None:
            await self._kept(await run.io_bound(ticks.pull, self.doc.path, self.card, self.copy, self.who))

    async def anew(self) -> None:
        """The job is made once more."""
        if await self._kept(await run.io_bound(ticks.begin_anew, self.doc.path, self.who)):
            self.show(BEFORE)

    def note(self, card: Card, text: str) -> None:
        """A note as it is typed: kept when the keys are still for a moment, or when the page is left."""
        self._typed[card.key] = (card, text)
        self._keep_soon()

    def fill_in(self, piece: str, values: dict[str, str]) -> None:
        """What is filled in of a piece for the day book: kept in the same way, until it is written there."""
        self._filled[piece] = values
        self._keep_soon()

    async def filled_in(self, piece: str) -> None:
        """It stands in the day book now: no longer beside it."""
        self._filled.pop(piece, None)
        await self._kept(await run.io_bound(ticks.write_draft, self.doc.path, piece, {}, self.who))

    def _keep_soon(self) -> None:
        if not self._keeps:
            self._keeps = True
            background_tasks.create(self._note_soon())

    def noted(self, card: Card) -> str:
        """The note to a card, as it is being typed or as it is kept."""
        return self._typed[card.key][1] if card.key in self._typed else self.stands.note(card.key)

    def typing(self, card: Card) -> bool:
        """Whether a note to it is being typed here, and is not kept yet."""
        return card.key in self._typed

    async def _note_soon(self) -> None:
        while self._typed or self._filled:
            before = dict(self._typed), dict(self._filled)
            await asyncio.sleep(QUIET)
            if (self._typed, self._filled) == before:
                await run.io_bound(self._keep_notes)
        self._keeps = False

    def _keep_notes(self) -> None:
        typed, self._typed = self._typed, {}
        filled, self._filled = self._filled, {}
        for piece, values in filled.items():
            ticks.write_draft(self.doc.path, piece, values, self.who)
        for card, text in typed.values():
            ticks.write_note(self.doc.path, card, text.strip(), self.who)

    async def _kept(self, fault: Finding | None) -> bool:
        await self._stands()
        if fault is not None:
            with self._client:
                say(f"{fault.says}: {fault.try_this}")
        return fault is None

    async def _stands(self) -> None:
        now = await run.io_bound(ticks.ticked, self.doc.path)
        if now is None or self._client.is_deleted:
            return
        self.stands = now
        with self._client:
            for counts in self.counts:
                counts()

    # ---- what others do

    def _pressed(self) -> None:
        """Something was ticked off or noted, here or in another window."""
        self._soon(self._stands)

    def _edited(self, edited: Edited, who: str) -> None:
        """The job was changed: whether that changes the plan is looked at beside everything else."""
        self._soon(self._look)

    def _soon(self, does: Callable[[], Awaitable[None]]) -> None:
        if not self._client.is_deleted:
            self._loop.call_soon_threadsafe(lambda: background_tasks.create(does()))

    async def _look(self) -> None:
        if self._looks:
            return
        self._looks = True
        try:
            number = -1
            while number != self.doc.number:
                number = self.doc.number
                await asyncio.sleep(QUIET)
                now = await run.io_bound(cards_of, self.visit, self.doc)
            if now is not None and not self._client.is_deleted and now[0].cards != self.cards.cards:
                with self._client:
                    for newer in self.newer:
                        newer()
        finally:
            self._looks = False

    async def renew(self) -> None:
        """The plan as it is by now; the card that is shown stays, where it still is one."""
        shown = self.card
        now = await run.io_bound(cards_of, self.visit, self.doc)
        if now is None:
            return
        self.cards, self.found = now
        self._pictures = {}
        same = self.cards.card(shown.key) if shown is not None else None
        if same is not None:
            self.place = same.place
        elif shown is not None:
            self._to(progress(self.cards, self.stands).next)
        self.show(self.place)
        await self._stands()
