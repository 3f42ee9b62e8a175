"""One window on a set in the round: reckoned again when the job is changed, swung and tilted as somebody moves it."""

import asyncio
import math
from collections.abc import Callable, Coroutine
from html import escape

from nicegui import background_tasks, run, ui

from bickern.desk.answer import Row
from bickern.desk.job.open_job import Edited, OpenJob
from bickern.desk.live.live import reckoned
from bickern.desk.whole.in_round import Round, round_of, tilted, tilts
from bickern.desk.whole.turned import RoundSwing, Touching, Turned, snapped, stuck, swings_of, swung
from bickern.measure.finding import Finding
from bickern.web.frame import Visit
from bickern.web.parts import say

BEYOND = 5
"""Degrees that a slider goes past where the joint stops, to see what it would run into."""
ROUND = 180
"""Degrees either way of what goes right round."""
WORD = {Touching.FREE: "Free.", Touching.MEETS: "Touches.", Touching.INTO: "Stop."}


class RoundWindow:
    """The state of one window: the job's state that is shown, how it is held, which joint is moved how far."""

    def __init__(self, visit: Visit, doc: OpenJob, keep: Callable[[int, Round], None]) -> None:
        self.visit, self.doc, self._keep = visit, doc, keep
        self.number = 0
        self.round: Round | None = None
        self.stopped: tuple[Finding, ...] = ()
        self.joints: tuple[RoundSwing, ...] | None = None
        self.stuck: tuple[str, ...] = ()
        self.shows: list[Callable[[], None]] = []
        self.settles: list[Callable[[], None]] = []
        self.swings: list[Callable[[], None]] = []
        self.swung: list[Callable[[Turned | None], None]] = []
        self.swung_here: Callable[[Turned | None], None] | None = None
        self._chosen = ""
        self.tilt_told: Callable[[], None] | None = None
        self._as_told: tuple[int, Round | tuple[Finding, ...]] | None = None
        self._held: float | None = None
        self._wanted = (-1, 0.0)
        self._reckons = self._turns = False
        self._client = ui.context.client
        self._loop = asyncio.get_running_loop()
        self._client.on_delete(doc.listen(self._heard))

    # ---- the job

    def _heard(self, _edited: Edited, _who: str) -> None:
        self._loop.call_soon_threadsafe(self._changed)

    def _changed(self) -> None:
        if self._here:
            with self._client:
                say("The job was changed: it is put together anew.")
            self.reckon()

    @property
    def _here(self) -> bool:
        """Whether somebody still looks at this page."""
        return not self._client.is_deleted

    def reckon(self) -> None:
        """Reckons the newest state beside everything else; what changes meanwhile is reckoned next."""
        if not self._reckons:
            self._reckons = True
            background_tasks.create(self._reckoned())

    async def _reckoned(self) -> None:
        try:
            shown: tuple[object, ...] = ()
            while shown != (asked := (self.doc.number, self._held)):
                shown = asked
                edited = self.doc.now
                made = await run.io_bound(self._round, edited.number, edited.text, self._held)
                if not self._here or made is None:
                    return
                self._take(edited.number, made)
            self._tell(self.settles)
            await self._find_swings()
        finally:
            self._reckons = False
        if self._here and shown != (self.doc.number, self._held):
            self.reckon()

    def _round(self, number: int, text: str, held: float | None) -> Round | tuple[Finding, ...]:
        if self._as_told is None or self._as_told[0] != number:
            place = self.visit.place
            done = reckoned(text, self.doc.path, shop=place.shop, rack=place.rack, seen=self.visit.seen)
            self._as_told = (number, round_of(done))
        made = self._as_told[1]
        return tilted(made, held) if isinstance(made, Round) else made

    def _take(self, number: int, made: Round | tuple[Finding, ...]) -> None:
        self.number = number
        self.round = made if isinstance(made, Round) else None
        self.stopped = made if not isinstance(made, Round) else ()
        self.joints, self.stuck, self._wanted = None, (), (-1, 0.0)
        if isinstance(made, Round) and made.held is None:
            self._keep(number, made)
        self._tell(self.shows)
        self._tell_swings()

    def _tell(self, who: list[Callable[[], None]]) -> None:
        with self._client:
            for tells in who:
                tells()

    def _tell_swings(self) -> None:
        self.swung_here = None
        self._tell(self.swings)

    async def _find_swings(self) -> None:
        """How far each joint swings takes longer: it comes after the picture."""
        shown = self.round
        if shown is None or not shown.lots:
            return
        found = await run.io_bound(lambda: (swings_of(shown), stuck(shown)))
        if self._here and shown is self.round and found is not None:
            self.joints, self.stuck = found
            self._tell_swings()

    # ---- holding and swinging

    def hold(self, degrees: float | None) -> None:
        """Holds it in the hand at an angle; None: as the job says."""
        self._held = degrees
        self.reckon()

    def tilts(self) -> tuple[Row, ...]:
        """How what hangs lies now."""
        return tilts(self.round) if self.round is not None else ()

    def range_of(self, one: RoundSwing) -> tuple[int, int]:
        """From where to where a slider goes, in whole degrees: a little past where something stops it."""
        low = math.floor(math.degrees(one.low)) - BEYOND if one.low_end else -ROUND
        high = math.ceil(math.degrees(one.high)) + BEYOND if one.high_end else ROUND
        return low, high

    def turn(self, number: int, degrees: float) -> None:
        """Turns one way of one joint."""
        self._wanted = (number, degrees)
        if not self._turns:
            self._turns = True
            background_tasks.create(self._turned())

    async def _turned(self) -> None:
        try:
            done: tuple[int, float] = (-1, 0.0)
            while self.round is not None and self.joints and done != self._wanted:
                done, shown = self._wanted, self.round
                number, degrees = done
                if not 0 <= number < len(self.joints):
                    return
                angle = snapped(self.joints[number], degrees)
                found = await run.io_bound(swung, shown, number, angle)
                if not self._here or found is None:
                    return
                if shown is self.round:
                    self._show_turned(found)
        finally:
            self._turns = False

    def _show_turned(self, found: Turned) -> None:
        with self._client:
            for tells in self.swung:
                tells(found)
            if self.swung_here is not None:
                self.swung_here(found)

    @property
    def chosen(self) -> RoundSwing:
        """The joint that the slider moves: the one chosen last, while there is one of that name."""
        assert self.joints
        return next((one for one in self.joints if one.name == self._chosen), self.joints[0])

    def choose(self, name: str) -> None:
        """Another joint, by its name; the one before goes back to rest."""
        self._chosen = name
        self._wanted = (-1, 0.0)
        for tells in self.swung:
            tells(None)
        self._tell_swings()

    def says_html(self, one: RoundSwing, now: Turned | None) -> str:
        """How far it is turned, and what it does there."""
        if now is None:
            return "At rest."
        word = f'<span class="word">{WORD[now.touching]}</span>'
        return f"{self._far(one, now.angle)} {word} {escape(' '.join(now.says))}"

    def _far(self, one: RoundSwing, angle: float) -> str:
        if angle == 0.0:
            return "At rest."
        return escape(f"{abs(math.degrees(angle)):.0f}° {one.ways[angle > 0]}.")

    def later(self, does: Callable[[], Coroutine[object, object, None]]) -> None:
        """Does something slow for this page, beside everything else."""

        async def done() -> None:
            if self._here:
                with self._client:
                    await does()

        background_tasks.create(done())
