"""Packets set lately, kept for as long as somebody may look at them or take their files."""

import threading
from collections import OrderedDict
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from typing import TypeVar

from bickern.desk.reckon import Reckoning
from bickern.desk.sheets.preview import Document, Preview, Report, Step, large_pictures, mark_of, preview
from bickern.measure.finding import Finding

Kept = TypeVar("Kept")

MOST_KEPT = 3
"""Packets kept: some megabytes each; one that was let go is set again."""
MOST_LARGE = 3
"""Documents whose large pictures are kept."""
MOST_NAMED = 200
"""Askings that are remembered: each only names the packet that it was given."""


@dataclass(slots=True)
class Packets:
    """Packets by what was asked for; two who ask for the same one wait for one setting of it. Safe among threads.

    `sets` a packet, and `pictures` makes the large pictures of a document, as the two functions of `preview` do.
    """

    sets: Callable[[Reckoning, str, str, Report], Preview | Finding] = preview
    pictures: Callable[[Document], tuple[bytes, ...]] = large_pictures
    _kept: OrderedDict[Hashable, Preview] = field(default_factory=OrderedDict)
    _named: OrderedDict[Hashable, Hashable] = field(default_factory=OrderedDict)
    _early: dict[Hashable, dict[str, Document]] = field(default_factory=dict)
    _large: OrderedDict[Hashable, tuple[bytes, ...]] = field(default_factory=OrderedDict)
    _busy: dict[Hashable, threading.Lock] = field(default_factory=dict)
    _own: threading.Lock = field(default_factory=threading.Lock)
    _press: threading.Lock = field(default_factory=threading.Lock)

    def of(self, asked: Hashable) -> Preview | None:
        """The packet that was given to this asking, if it is still kept."""
        with self._own:
            mark = self._named.get(asked)
            return self._kept.get(mark) if mark is not None else None

    def small(self, asked: Hashable, name: str) -> tuple[bytes, ...] | None:
        """Small pictures of the pages of one document, also while the rest is still being set; None: not there."""
        with self._own:
            early = self._early.get(asked, {}).get(name)
        if early is not None:
            return early.small
        made = self.of(asked)
        return None if made is None else next((one.small for one in made.documents if one.name == name), None)

    def set(
        self,
        asked: Hashable,
        reckoned: Callable[[], Reckoning],
        paper: str,
        audience: str,
        report: Report = lambda _: None,
    ) -> Preview | Finding:
        """The packet of a job as it is reckoned now: one already set where nothing has changed that it shows."""
        done = reckoned()
        mark = (mark_of(done), paper, audience)

        def heard(step: Step) -> None:
            if step.document is not None:
                with self._own:
                    self._early.setdefault(asked, {})[step.document.name] = step.document
            report(step)

        try:
            with self._busy_with(mark):
                made = self._again(mark) or self._set(done, paper, audience, heard)
                self._put(asked, mark, made)
        finally:
            with self._own:
                self._early.pop(asked, None)
        return made

    def _set(self, done: Reckoning, paper: str, audience: str, report: Report) -> Preview | Finding:
        """One at a time: each takes some hundred megabytes while it is set, and no core is left for two."""
        with self._press:
            return self.sets(done, paper, audience, report)

    def _put(self, asked: Hashable, mark: Hashable, made: Preview | Finding) -> None:
        with self._own:
            self._busy.pop(mark, None)
            if isinstance(made, Preview):
                _keep(self._kept, mark, made, MOST_KEPT)
                _keep(self._named, asked, mark, MOST_NAMED)

    def large(self, packet: Preview, name: str) -> tuple[bytes, ...]:
        """Large pictures of the pages of one document of a packet; made once for as long as they are looked at."""
        mark = (packet.id, packet.paper, packet.audience, name)
        with self._busy_with(mark):
            with self._own:
                made = self._large.get(mark)
            if made is None:
                with self._press:
                    made = next((self.pictures(one) for one in packet.documents if one.name == name), ())
            with self._own:
                self._busy.pop(mark, None)
                if made:
                    _keep(self._large, mark, made, MOST_LARGE)
        return made

    def _busy_with(self, mark: Hashable) -> threading.Lock:
        with self._own:
            return self._busy.setdefault(mark, threading.Lock())

    def _again(self, mark: Hashable) -> Preview | None:
        with self._own:
            return self._kept.get(mark)


def _keep(kept: "OrderedDict[Hashable, Kept]", key: Hashable, what: Kept, most: int) -> None:
    """Puts it last, and lets go of the first where there are too many."""
    kept[key] = what
    kept.move_to_end(key)
    while len(kept) > most:
        kept.popitem(last=False)
