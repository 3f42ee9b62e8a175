"""One job file, open: all windows change it here, every state is kept, and every step can be undone."""

import logging
import threading
import time
from array import array
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path
from weakref import WeakValueDictionary

from bickern.book.files import read_file
from bickern.book.states import Kept, StateLog, bytes_of, log_for, text_of, write_whole
from bickern.book.text import LARGEST
from bickern.desk.job.findings import (
    by_another,
    look_first,
    meanwhile,
    not_ours,
    put_back,
    spoilt,
    too_large,
    written_again,
)
from bickern.desk.job.merge_lines import merged
from bickern.measure.finding import Finding, note
from bickern.measure.units.words import Read

HALF_WRITTEN = 0.03
"""Seconds after which a file that is found empty is looked at once more."""
STEP_SECONDS = 2.0
"""Edits of one step that follow one another within this time [s] are undone together (our choice)."""
PAUSE_SECONDS = 1.5
"""So long after an edit the disk itself is asked to hold it: a power cut loses no more than that; a crash nothing."""
_RECENT = 50
_log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class State:
    """An earlier state: its number, when (UTC, ISO 8601), what made it, and who.

    `what`: "begun", "typed", "form", "fix", "undo", "redo", "back to", "merged", "from the file", "put back" (found
    newer than the file after a crash), or "set aside" (it never was the job's text).
    """

    number: int
    at: str
    what: str
    who: str


@dataclass(frozen=True, slots=True)
class Edited:
    """The text now and the number of its state. `done` False: nothing was changed, and the findings say why."""

    number: int
    text: str
    findings: tuple[Finding, ...] = ()
    done: bool = True


Hears = Callable[[Edited, str], None]
"""Told of each change, with who made it."""


class OpenJob:
    """One job file and process; safe to use from many threads. Get it by `open_job`."""

    def __init__(self, path: Path, log: StateLog, clock: Callable[[], float] = time.time) -> None:
        self.path = path
        self.opened: tuple[Finding, ...] = ()
        self._log, self._clock = log, clock
        self._lock = threading.RLock()
        self._text, self._number = "", 0
        self._steps: array[int] = array("Q")
        self._at = -1
        self._last: tuple[str, str, float, int] | None = None
        self._bytes: bytes | None = None
        self._filed = ""
        self._came = False
        self._said: tuple[Finding, ...] = ()
        self._moved: dict[int, int] = {}
        self._faults: list[Finding] = []
        self._hears: list[Hears] = []
        self._pause: threading.Timer | None = None

    @property
    def text(self) -> str:
        """The job's text now, with plain line ends."""
        return self._text

    @property
    def number(self) -> int:
        """The number of the present state."""
        return self._number

    @property
    def now(self) -> Edited:
        """Text and number together, from one moment."""
        with self._lock:
            return Edited(self._number, self._text)

    @property
    def can_undo(self) -> bool:
        """Whether there is a step to undo."""
        return self._at > 0

    @property
    def can_redo(self) -> bool:
        """Whether there is a step to do again."""
        return self._at + 1 < len(self._steps)

    def typed(self, text: str, base: int, *, who: str = "", step: str = "", what: str = "typed") -> Edited:
        """The whole text as an editor has it that began from state `base`.

        Where others changed other lines meanwhile, both changes stand; where they touched the same lines, the typed
        text is kept as a state set aside, and the finding `changed-meanwhile` names its number.
        """
        text = _plain(text)
        if len(text.encode()) > LARGEST:
            return self._refused(too_large(text))
        return self._edit(lambda: self._typed(text, self._moved.get(base, base), what, who, step), who)

    def changed(self, does: Callable[[str], Read[str]], *, what: str = "form", who: str = "", step: str = "") -> Edited:
        """A change made to the newest text, whatever it is by now."""
        return self._edit(lambda: self._does(does, what, who, step), who)

    def undo(self, who: str = "") -> Edited:
        """The text before the last step, as a new state."""
        return self._edit(lambda: self._step(-1, "undo", who), who)

    def redo(self, who: str = "") -> Edited:
        """The step that was undone, done again, as a new state."""
        return self._edit(lambda: self._step(1, "redo", who), who)

    def back_to(self, number: int, who: str = "") -> Edited:
        """An earlier state becomes the newest one; what stood between stays kept."""
        return self._edit(lambda: self._back_to(number, who), who)

    def look(self) -> Edited | None:
        """Takes in what other programs did to the file or to its states; None where there is nothing new to say."""
        before = self._number
        edited = self._edit(self._now, "")
        said, self._said = self._said, edited.findings
        return edited if edited.number != before or set(edited.findings) - set(said) else None

    def states(self, most: int = 0) -> tuple[State, ...]:
        """Every state ever kept, or the newest `most` of them, oldest first."""
        with self._lock:
            return tuple(State(n, _utc(at), what, who) for n, at, what, who in self._log.about(most))

    def text_at(self, number: int) -> str | None:
        """The text of a state; None where there is none of that number."""
        with self._lock:
            return self._text if number == self._number else self._log.text_at(number)

    def listen(self, hears: Hears) -> Callable[[], None]:
        """Calls `hears` after each change; gives what stops that."""
        with self._lock:
            self._hears.append(hears)

        def stops() -> None:
            with self._lock:
                if hears in self._hears:
                    self._hears.remove(hears)

        return stops

    def settle(self) -> None:
        """Asks the disk itself to hold all states: from then on even a power cut loses none of them."""
        with self._lock:
            self._pause = None
        self._log.settle(self.path)

    # Inside: everything below runs with the thread's lock and the log's lock held.

    def _edit(self, work: Callable[[], Edited], who: str) -> Edited:
        """One change, after what others did has been taken in; both are told to whoever listens."""
        with self._lock:
            before, last, self._faults = self._number, self._log.last, []
            with self._log.held():
                self._take_in()
                came = self._now()
                self._came = came.number != before
                edited = work()
                self._save()
            edited = replace(edited, findings=self._found(edited))
            if self._log.last != last:
                self._pause_soon()
            hears = tuple(self._hears)
        if came.number not in (before, edited.number):
            _tell(hears, came, "")
        if edited.number != before:
            _tell(hears, replace(edited, done=True), who if edited.number != came.number else "")
        return edited

    def _found(self, edited: Edited) -> tuple[Finding, ...]:
        fault = (self._log.fault,) if self._log.fault else ()
        return tuple(dict.fromkeys((*edited.findings, *self._faults, *fault)))

    def _now(self, *findings: Finding, done: bool = True) -> Edited:
        return Edited(self._number, self._text, findings, done)

    def _refused(self, finding: Finding) -> Edited:
        with self._lock:
            return self._now(finding, done=False)

    def _typed(self, text: str, base: int, what: str, who: str, step: str) -> Edited:
        if text == self._text:
            return self._now()
        if base != self._number:
            return self._typed_on_old(text, base, what, who, step)
        self._put(text, what, who, step)
        return self._now()

    def _typed_on_old(self, text: str, base: int, what: str, who: str, step: str) -> Edited:
        before = self._log.text_at(base)
        both = merged(before, self._text, text) if before is not None else None
        if both is None:
            return self._set_aside(text, who)
        if both != self._text:
            self._put(both, what, who, step)
        return self._now()

    def _set_aside(self, text: str, who: str) -> Edited:
        kept = Kept(self._log.last + 1, self._clock(), "set aside", who, aside=True)
        self._log.add(kept, text, self._number, self._text)
        return self._now(meanwhile(kept.number), done=False)

    def _does(self, does: Callable[[str], Read[str]], what: str, who: str, step: str) -> Edited:
        read = does(self._text)
        if read.value is None:
            return self._now(*read.findings, done=False)
        text = _plain(read.value)
        if len(text.encode()) > LARGEST:
            return self._now(too_large(text), done=False)
        if text != self._text:
            self._put(text, what, who, step)
        return self._now(*read.findings)

    def _step(self, by: int, what: str, who: str) -> Edited:
        at = self._at + by
        if not 0 <= at < len(self._steps):
            return self._now(note(f"nothing-to-{what}", f"there is nothing to {what}"), done=False)
        if self._came:
            return self._now(look_first(what), done=False)
        text = self._log.text_at(self._steps[at])
        if text is None:
            return self._now(spoilt(self._steps[at]), done=False)
        self._put(text, what, who, to=self._steps[at])
        return self._now()

    def _back_to(self, number: int, who: str) -> Edited:
        text = self._log.text_at(number)
        if text is None:
            return self._now(spoilt(number), done=False)
        if text != self._text:
            self._put(text, "back to", who)
        return self._now()

    def _put(self, text: str, what: str, who: str = "", step: str = "", to: int = 0) -> None:
        """A new state of the job's own text."""
        at = self._clock()
        last = self._last
        joins = bool(step) and last is not None and last[:2] == (step, who) and last[3] == self._number
        joins = joins and last is not None and 0 <= at - last[2] <= STEP_SECONDS
        kept = Kept(self._log.last + 1, at, what, who, step, joins, False, to)
        self._log.add(kept, text, self._number, self._text)
        self._follow(kept)
        self._text = text
        self._last = (step, who, at, kept.number)

    def _follow(self, kept: Kept) -> None:
        """What a state does to the row of steps that can be undone."""
        if kept.aside:
            return
        self._number = kept.number
        if kept.what in ("undo", "redo") and self._steps:
            self._at = min(max(self._at + (1 if kept.what == "redo" else -1), 0), len(self._steps) - 1)
        elif kept.what == "put back" and self._steps:
            self._steps[self._at] = kept.number
        else:
            self._at -= 1 if kept.joins and self._at >= 0 else 0
            del self._steps[self._at + 1 :]
            self._steps.append(kept.number)
            self._at += 1

    # What other programs did

    def _take_in(self) -> None:
        self._take_in_states()
        self._log.tried_again()
        self._take_in_file()

    def _take_in_states(self) -> None:
        """States that another program on this job has added to the log."""
        before, ours = self._number, self._text
        news = self._log.news()
        if news.anew:
            self._steps, self._at, self._number, self._moved = array("Q"), -1, 0, {}
        for kept in news.kept:
            self._follow(kept)
        if news.kept:
            self._newest_readable()
        if self._number != before or news.anew:
            self._filed = (self._log.text_at(self._log.filed) if self._log.filed else None) or ""
        if news.anew and self._number == 0:
            self._text = ours
            self._begin(ours)
        elif news.anew and ours != self._text:
            self._set_aside(ours, "")
        for kept, text in news.displaced:
            self._again(kept, text)

    def _newest_readable(self) -> None:
        """The text of the newest state; lines spoilt on the disk are left out."""
        text = self._log.text_at(self._number)
        numbers = [n for n, _, what, _ in self._log.about() if what != "set aside"] if text is None else []
        while text is None and numbers:
            self._number = numbers.pop()
            text = self._log.text_at(self._number)
        self._text = text if text is not None else self._text

    def _again(self, kept: Kept, text: str) -> None:
        """A state that had to wait while others took its number: kept aside under a new one."""
        self._set_aside(text, kept.who)
        self._moved[kept.number] = self._log.last
        self._faults.append(meanwhile(self._log.last))

    def _take_in_file(self) -> None:
        """The file as it lies there, where somebody else changed it."""
        data = read_file(self.path, LARGEST)
        if data == b"" and self._bytes:
            time.sleep(HALF_WRITTEN)  # some programs empty a file before they write it
            data = read_file(self.path, LARGEST)
        if isinstance(data, Finding):
            if self.path.exists():
                self._faults.append(not_ours(data))
            return
        if data == self._bytes:
            return
        text = text_of(data, self.path.name)
        if isinstance(text, Finding):
            self._faults.append(not_ours(text))
            return
        known = text in (self._filed, self._text) or _nothing_in(data)
        self._bytes = data
        if not known:
            self._from_file(text)
        self._filed = text

    def _from_file(self, text: str) -> None:
        """Another program's version becomes the newest state; what we had not written yet is put to it or kept."""
        ours, unsaved, number = self._text, self._text != self._filed, self._number
        before = self._filed
        self._put(text, "from the file")
        self._log.file_holds(self._number)
        self._faults.append(by_another(self.path.name))
        both = merged(before, text, ours) if unsaved else text
        if both is None:
            self._faults.append(meanwhile(number))
        elif both != text:
            self._put(both, "merged")

    def _save(self) -> None:
        """Writes the file, where it does not hold the newest text; never over what is not text."""
        if any(f.name == "file-not-ours" for f in self._faults):
            return
        if self._filed == self._text and self._bytes is not None:
            if self._log.filed != self._number:
                self._log.file_holds(self._number)
            return
        if not self.path.exists():
            self._faults.append(written_again(self.path.name))
        data = bytes_of(self._text, self._bytes or b"")
        fault = write_whole(self.path, data)
        if fault is not None:
            self._faults.append(fault)
            return
        self._bytes, self._filed = data, self._text
        self._log.file_holds(self._number)

    # Opening

    def _begin(self, text: str) -> None:
        self._text = text
        kept = Kept(self._log.last + 1, self._clock(), "begun")
        self._log.add(kept, text, 0, "")
        self._follow(kept)

    def _open(self, data: bytes) -> Finding | None:
        """From the log and the file: which of them is newer."""
        text = text_of(data, self.path.name)
        if isinstance(text, Finding):
            return text
        with self._lock, self._log.held():
            self._take_in_states()
            if not self._number:
                self._bytes, self._filed = data, text
                self._begin(text)
                self._log.file_holds(self._number)
            elif text != self._text:
                self._newer(text, data)
            else:
                self._bytes, self._filed = data, text
            self._save()
            self.opened = tuple(self._faults) + ((self._log.fault,) if self._log.fault else ())
        return None

    def _newer(self, text: str, data: bytes) -> None:
        """The file is not as the newest state: an edit that a crash cut off is put back; else the file goes first."""
        if text == self._filed or _nothing_in(data) or self._older(text):
            kept = Kept(self._log.last + 1, self._clock(), "put back")
            self._log.add(kept, self._text, self._number, self._text)
            self._follow(kept)
            self._bytes, self._filed = data, text
            self._faults.append(put_back())
        else:
            self._bytes = data
            self._from_file(text)
            self._filed = text

    def _older(self, text: str) -> bool:
        """Whether a power cut gave the file an earlier state again: nobody wrote it after the newest one was made."""
        try:
            touched = self.path.stat().st_mtime
        except OSError:
            return False
        recent = self._log.newest(_RECENT)
        return touched <= self._log.when() and any(self._log.text_at(n) == text for n in recent)

    def _pause_soon(self) -> None:
        if self._pause is None:
            self._pause = threading.Timer(PAUSE_SECONDS, self.settle)
            self._pause.daemon = True
            self._pause.start()


_OPEN: "WeakValueDictionary[tuple[Path, Path], OpenJob]" = WeakValueDictionary()
_OPENING = threading.Lock()


def open_job(path: Path, states: Path | None = None, clock: Callable[[], float] = time.time) -> OpenJob | Finding:
    """The job file, open; the same one for all who ask in this process. `states`: the folder for earlier states."""
    data = read_file(path, LARGEST)
    if isinstance(data, Finding):
        return data
    place = path.resolve()
    log = log_for(place, states)
    with _OPENING:
        there = _OPEN.get((place, log))
        if there is not None:
            return there
        job = OpenJob(place, StateLog(log), clock)
        fault = job._open(data)
        if fault is not None:
            return fault
        _OPEN[place, log] = job
        return job


def _tell(hears: tuple[Hears, ...], edited: Edited, who: str) -> None:
    for hear in hears:
        try:
            hear(edited, who)
        except Exception:
            # one window's fault must not keep the others from hearing, nor undo what is written already
            _log.exception("a window did not take in a change")


def _nothing_in(data: bytes) -> bool:
    """An empty file is what a crash leaves, not what a smith writes."""
    return not data.strip(b"\x00 \r\n\t")


def _plain(text: str) -> str:
    """Plain line ends, and no half characters that no file can hold."""
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    return text.encode("utf-8", "replace").decode("utf-8") if not text.isascii() else text


def _utc(at: float) -> str:
    return datetime.fromtimestamp(at, UTC).isoformat(timespec="milliseconds")
