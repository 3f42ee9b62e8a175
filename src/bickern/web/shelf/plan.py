"""One window on a cut plan: searched for in the background, stopped with what it has, looked at, taken."""

import asyncio
import threading
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from nicegui import background_tasks, run, ui

from bickern.desk.cut.cut import CutPlan, Limits, cut_plan
from bickern.desk.cut.files import files_of, not_at_full_size
from bickern.desk.cut.pictures import CutPictures, cut_pictures
from bickern.desk.cut.seen import SeenFiles, changed_since, seen_now
from bickern.desk.cut.take import drops_told, lefts_told, take_plan, used_told, with_drops
from bickern.desk.job.open_job import Edited, OpenJob
from bickern.desk.rack.rack import me
from bickern.measure.finding import Finding
from bickern.web.frame import Visit, keep_looks

AT_ONCE = 2
"""Plans that are searched for at one time, for everybody together: more would only make each slower."""
_QUIET = ("cost ", "[")
"""How lines begin that a search tells other programs."""
_turns = asyncio.Semaphore(AT_ONCE)


@dataclass(frozen=True, slots=True)
class Taken:
    """What came of taking a plan: the ids of what is left and the plan drawn with them, or why nothing was taken."""

    ids: tuple[str, ...] = ()
    pictures: CutPictures = field(default_factory=CutPictures)
    findings: tuple[Finding, ...] = ()


class Planning:
    """What one person plans: for which jobs, with which stock; the plan, and what came of taking it."""

    def __init__(self, visit: Visit, job: str) -> None:
        self.visit, self.job = visit, job
        self.others: list[str] = []
        self.substitute = False
        self.plan: CutPlan | None = None
        self.pictures = CutPictures()
        self.taken: Taken | None = None
        self.refused: tuple[Finding, ...] = ()
        self.share, self.says = 0.0, ""
        self.shows: list[Callable[[], None]] = []
        self._who = visit.looks.who
        self._seen: SeenFiles = {}
        self._files: dict[tuple[str, bool], dict[str, bytes]] = {}
        self._stop: threading.Event | None = None
        self._client = ui.context.client
        self._client.on_disconnect(self.stop)
        self._client.on_delete(self.stop)

    def listens_to(self, doc: OpenJob) -> None:
        """Hears when the job is changed in any window: a plan made before is then said to be old."""
        loop = asyncio.get_running_loop()

        def heard(edited: Edited, who: str) -> None:
            loop.call_soon_threadsafe(lambda: background_tasks.create(self._is_old()))

        self._client.on_delete(doc.listen(heard))

    async def _is_old(self) -> None:
        if self.plan is None or self.taken is not None or self._client.is_deleted:
            return
        changed = await run.io_bound(changed_since, self._seen)
        if changed is not None and changed != self.refused and not self._client.is_deleted:
            self.refused = changed
            with self._client:
                self.show()

    # ---- found

    @property
    def searches(self) -> bool:
        """Whether a plan is being searched for."""
        return self._stop is not None

    def ticked(self, name: str, yes: bool) -> None:
        """Another job of the folder is planned with it, or not."""
        self.others = [one for one in self.others if one != name] + ([name] if yes else [])

    def stop(self) -> None:
        """Ends the search: the best so far is the plan."""
        if self._stop is not None:
            self._stop.set()

    async def search(self) -> None:
        """Searches beside everything else; one at a time in this window."""
        if self._stop is not None:
            return
        self._stop = stop = threading.Event()
        self.share, self.says, self.refused, self.taken = 0.0, "", (), None
        self.show()
        try:
            async with _turns:
                found = await run.io_bound(self._search, stop)
        finally:
            self._stop = None
        if found is None or self._client.is_deleted:
            return
        self.plan, self.pictures, self._seen = found
        self._files = {}
        self.show()

    def _search(self, stop: threading.Event) -> tuple[CutPlan, CutPictures, SeenFiles]:
        place, paths = self.visit.place, self.paths
        seen = seen_now([*paths, place.shop])
        limits = Limits(keep_going=lambda: not stop.is_set(), report=self._report, share=self._used)
        plan = cut_plan(paths, place.rack, place.shop, substitute=self.substitute, limits=limits, seen=self.visit.seen)
        return plan, cut_pictures(plan), seen

    @property
    def paths(self) -> list[Path]:
        """The files of the jobs that are planned together; what the folder will not open is left out."""
        found = [self.visit.place.jobs.path(name) for name in (self.job, *self.others)]
        return [path for path in found if isinstance(path, Path)]

    def _report(self, says: str) -> None:
        if not says.startswith(_QUIET):
            self.says = says

    def _used(self, share: float) -> None:
        self.share = share

    def show(self) -> None:
        """Everything on the page that hangs on the plan."""
        for shows in self.shows:
            shows()

    # ---- taken

    @property
    def who(self) -> str:
        """The name that is written into the history."""
        return self._who or me()

    def named(self, who: str) -> None:
        """Another name, remembered for this browser."""
        self._who = " ".join(who.split())[:60]
        keep_looks(who=self._who)

    @property
    def can_take(self) -> bool:
        """Whether there is anything to take, and nothing that stops it."""
        return self.plan is not None and self.taken is None and not self.plan.stops and bool(self.plan.taking.uses)

    def would_write(self) -> tuple[str, ...]:
        """Exactly what taking it writes into the rack."""
        return () if self.plan is None else (*used_told(self.plan), *lefts_told(self.plan))

    async def take(self) -> None:
        """Takes it, all or nothing; where a job or the rack is another by now, says so and takes nothing."""
        if self.plan is None or not self.can_take:
            return
        came = await run.io_bound(self._take, self.plan)
        if came is None:
            return
        self.refused = came.findings
        if not came.findings:
            self.taken, self.plan, self.pictures, self._files = came, with_drops(self.plan, came.ids), came.pictures, {}
        self.show()

    def _take(self, plan: CutPlan) -> "Taken":
        changed = changed_since(self._seen)
        if changed:
            return Taken(findings=changed)
        ids = take_plan(plan, self.visit.place.rack, self.who)
        if isinstance(ids, Finding):
            return Taken(findings=(ids,))
        return Taken(ids, cut_pictures(with_drops(plan, ids)))

    def painted(self) -> tuple[str, ...]:
        """What was written, and what to paint on each drop."""
        if self.plan is None or self.taken is None:
            return ()
        return (*used_told(self.plan), *drops_told(self.plan, self.taken.ids))

    # ---- files

    async def file(self, name: str, paper: str) -> tuple[Finding, ...]:
        """Hands one file of the plan over to be kept; why not, where there is none."""
        if self.plan is None:
            return ()
        key = (paper, self.taken is not None)
        if key not in self._files:
            self._files[key] = await run.io_bound(files_of, self.plan, paper) or {}
        data = self._files[key].get(name)
        if data is None:
            return not_at_full_size(self.plan, paper)
        if not self._client.is_deleted:
            with self._client:
                ui.download.content(data, name.replace("/", "-"))
        return ()
