"""One window on the rack: what is looked for, who does what, and what came of it."""

import asyncio
from collections.abc import Callable
from dataclasses import replace
from functools import partial

from nicegui import run

from bickern.desk.page_ways import on_page
from bickern.desk.rack.look import RackLook, looked
from bickern.desk.rack.rack import Done, Keeper, Lying, brought, keeper, me
from bickern.web.frame import Visit, keep_looks

PAGE = 50
"""Pieces that are shown at once: a page of the rack."""
PATIENCE = 0.12
"""Seconds that a search waits for the next key."""


class Window:
    """What one person looks at; `shows` are told when that is another."""

    def __init__(self, visit: Visit, words: str = "") -> None:
        self.visit = visit
        self.words, self.start, self.open = words, 0, ""
        self.look = RackLook()
        self.shows: list[Callable[[], None]] = []
        self._asked = 0
        self._by: Keeper | None = None
        self._who = visit.looks.who

    @property
    def who(self) -> str:
        """The name that is written into the history."""
        return self._who or me()

    def named(self, who: str) -> None:
        """Another name, remembered for this browser."""
        self._who = " ".join(who.split())[:60]
        keep_looks(who=self._who)

    def by(self, files: dict[str, bytes] | None = None) -> Keeper:
        """Who does it, with the files that were brought in; no name typed here opens any other file."""
        if self._by is None:
            place, seen = self.visit.place, self.visit.seen
            self._by = keeper(place.rack, place.shop, seen.first or None)
        return replace(self._by, who=self.who, files=brought(files or {}))

    async def find(self, words: str) -> None:
        """Looks for these words, once no further key came for a moment."""
        self.words, self.start, self.open = words, 0, ""
        self._asked += 1
        mine = self._asked
        await asyncio.sleep(PATIENCE)
        if mine == self._asked:
            await self.again()

    async def again(self) -> None:
        """Looks at the rack as it is now."""
        asked, words = self._asked, self.words
        found = await run.io_bound(lambda: looked(self.by(), words))
        if found is None or asked != self._asked:
            return
        self.look = found
        self.start = min(self.start, max(0, len(found.pieces) - 1) // PAGE * PAGE)
        self.show()

    def show(self) -> None:
        """Everything on the page that hangs on what was found."""
        for shows in self.shows:
            shows()

    def turn(self, by: int) -> None:
        """A page on or back."""
        self.start, self.open = max(0, self.start + by * PAGE), ""
        self.show()

    @property
    def page(self) -> tuple[Lying, ...]:
        """The pieces that are shown."""
        return self.look.pieces[self.start : self.start + PAGE]

    async def done(self, does: Callable[[Keeper], Done], files: dict[str, bytes] | None = None) -> Done:
        """Does something to the rack beside everything else, and looks at it again."""
        came = await run.io_bound(partial(does, self.by(files)))
        if came is None:
            return Done(())
        if not came.stops:
            await self.again()
        return replace(came, findings=on_page(one for one in came.findings if one.name != "rack-made"))
