"""One window on a job: what is edited here or elsewhere goes into the file, is reckoned again, and is shown."""

import asyncio
from collections.abc import Callable

from nicegui import background_tasks, run, ui

from bickern.desk.job.open_job import Edited, OpenJob
from bickern.desk.live.live import Live, Room, heated, live
from bickern.desk.said import said
from bickern.measure.finding import Finding
from bickern.measure.units.words import Read
from bickern.web.frame import Visit
from bickern.web.parts import say

Shows = Callable[["Window"], None]
"""Brings one part of the page up to date."""
LARGER, ON_A_PHONE = 1.5, 1.15
"""How much larger than on paper a drawing is shown: a screen stands further away than paper, a phone less so."""
PHONE = 0.2
"""Screens narrower than this [m] are held in the hand."""
PAUSE = 1.5
"""Seconds without a key after which the heats are counted."""
LOOKS_EVERY = 2.0
"""Seconds between two looks whether another program changed the file."""
JOB = ""
"""Instead of a piece's name: the words of the job itself."""


class Window:
    """The state of one window: the file it looks at, which piece, which drawing, and what was reckoned last."""

    def __init__(self, visit: Visit, doc: OpenJob, piece: str) -> None:
        self.visit, self.doc, self.piece = visit, doc, piece
        self.number = doc.number
        self.picture = ""
        self.true_size = False
        self.wide = 0.325
        self.live: Live | None = None
        self.refused: tuple[Finding, ...] = doc.opened
        self.shows: list[Shows] = []
        self.hears: list[Shows] = []
        self._mine = False
        self._reckons = False
        self._client = ui.context.client
        self._loop = asyncio.get_running_loop()
        self._stops = doc.listen(self._heard)
        self._client.on_delete(self._leave)
        self._behind = False
        self._client.on_connect(self._there_again)
        ui.timer(LOOKS_EVERY, self._look)

    # ---- what goes into the file

    def typed(self, text: str, base: int) -> None:
        """The whole text, as the editor of this window made it of the state `base`.

        What is typed may have crossed something newer on the way, and is then put together with that.
        """
        if text != self.doc.text:
            self._done(lambda: self.doc.typed(text, base, who=self._who, step="text"))

    def changed(self, does: Callable[[str], Read[str]], *, step: str = "", what: str = "form") -> bool:
        """One change made to the newest text; whether it was done."""
        return self._done(lambda: self.doc.changed(does, what=what, who=self._who, step=step))

    def undo(self) -> None:
        """The step before."""
        self._done(lambda: self.doc.undo(self._who))

    def redo(self) -> None:
        """The step that was undone."""
        self._done(lambda: self.doc.redo(self._who))

    def back_to(self, number: int) -> None:
        """An earlier state becomes the newest."""
        self._done(lambda: self.doc.back_to(number, self._who))

    @property
    def _who(self) -> str:
        return self.visit.looks.who

    def _done(self, edits: Callable[[], Edited]) -> bool:
        """Does it, and shows what came of it; what was refused is shown beside what was found."""
        self._mine = True
        try:
            edited = edits()
        finally:
            self._mine = False
        self.refused = edited.findings
        self._now(edited.number)
        return edited.done

    def _there_again(self) -> None:
        """The browser has come back: what happened meanwhile is shown now, and not while nobody looked."""
        if self._behind:
            self._behind = False
            self._now(self.doc.number)

    def _leave(self) -> None:
        """The page was closed: nothing of it stays."""
        self._stops()
        self.shows.clear()
        self.hears.clear()

    def _look(self) -> None:
        """Whether another program changed the file; its version is then the newest, and is heard of like any other."""
        self.doc.look()

    def _heard(self, edited: Edited, who: str) -> None:
        """Somebody changed the file: this window itself, which knows, or another."""
        if not self._mine:
            self._loop.call_soon_threadsafe(self._other, edited, who)

    def _other(self, edited: Edited, who: str) -> None:
        if self._client.is_deleted or edited.number == self.number:
            return
        self._behind = not self._client.has_socket_connection
        if not self._behind:
            with self._client:
                self._now(edited.number)
                say(f"Changed {'by ' + who if who else 'in another window'}: this is the newest.")

    def _now(self, number: int) -> None:
        self.number = number
        for hears in self.hears:
            hears(self)
        self.reckon()

    # ---- what is shown

    def look_at(self, piece: str) -> None:
        """Another piece is looked at."""
        self.piece, self.picture = piece, ""
        self._now(self.number)

    def reckon(self) -> None:
        """Reckons the newest text beside everything else; what is typed meanwhile is reckoned next."""
        if not self._reckons:
            self._reckons = True
            background_tasks.create(self._reckoned())

    async def _reckoned(self) -> None:
        try:
            shown: tuple[object, ...] = ()
            while shown != (asked := self._asked):
                shown = asked
                done = await run.io_bound(self._live, self.doc.text)
                if self._client.is_deleted or done is None:
                    return
                self.live = done
                self._show()
        finally:
            self._reckons = False
        await self._with_heats(shown)

    async def _with_heats(self, shown: tuple[object, ...]) -> None:
        """Once nobody types any more: what its heats take is counted, and lengths and marks are those of the sheet."""
        await asyncio.sleep(PAUSE)
        done = self.live
        if done is None or shown != self._asked or self._reckons:
            return
        counted = await run.io_bound(heated, done, self.piece, self.picture, self.room)
        if not self._client.is_deleted and done is self.live and counted and shown == self._asked:
            self.live = counted
            self._show()

    @property
    def _asked(self) -> tuple[object, ...]:
        return self.doc.number, self.piece, self.true_size, self.wide

    def _show(self) -> None:
        with self._client:
            for shows in self.shows:
                shows(self)

    def _live(self, text: str) -> Live:
        place = self.visit.place
        return live(
            text, self.doc.path, piece=self.piece, shop=place.shop, rack=place.rack, seen=self.visit.seen,
            room=self.room, picture=self.picture,
        )  # fmt: skip

    @property
    def larger(self) -> float:
        """How much larger than on paper drawings are shown here."""
        return 1.0 if self.true_size else ON_A_PHONE if self.wide < PHONE else LARGER

    @property
    def room(self) -> Room:
        """What there is to draw in: this screen, at letters that can be read from a step away; or true size."""
        wide = max(self.wide / self.larger, 0.06)
        return Room(wide, 0.6 * wide if wide > 0.12 else wide, 1.0 if self.true_size else None)

    @property
    def found(self) -> tuple[Finding, ...]:
        """What was refused just now, and what is found in the job."""
        return tuple(dict.fromkeys((*self.refused, *(self.live.done.findings if self.live else ()))))

    def said(self, words: str) -> str:
        """Our own words as this person says them, US or UK."""
        copy = self.live.done.copy if self.live is not None else None
        return words if copy is None else said(words, copy.shop)
