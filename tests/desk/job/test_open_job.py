"""One file, many windows and programs: nothing that anybody typed is ever lost, and every step can be undone."""

import gc
import os
import random
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from bickern.book.states import StateLog, log_for
from bickern.desk.job.merge_lines import merged
from bickern.desk.job.open_job import Edited, OpenJob, open_job
from bickern.measure.finding import Finding, stop
from bickern.measure.units.words import Read

TEXT = "job: Hook\nunits: in\npieces:\n  hook:\n    bar: 1/4 rd\n    make: 2\n"


class Clock:
    """A clock that stands still until it is told to go on."""

    def __init__(self) -> None:
        self.now = 1_000_000.0

    def __call__(self) -> float:
        return self.now


@pytest.fixture
def path(tmp_path: Path) -> Path:
    (tmp_path / "jobs").mkdir()
    (tmp_path / "jobs" / "hook.yaml").write_text(TEXT)
    return tmp_path / "jobs" / "hook.yaml"


def opened(path: Path, clock: Clock | None = None) -> OpenJob:
    job = open_job(path, path.parent.parent / "states", clock or Clock())
    assert isinstance(job, OpenJob), job
    return job


def anew(path: Path) -> OpenJob:
    """As another process opens it: its own log, its own memory."""
    place = path.resolve()
    job = OpenJob(place, StateLog(log_for(place, path.parent.parent / "states")), Clock())
    assert job._open(path.read_bytes()) is None
    return job


def names(edited: Edited | None) -> set[str]:
    return {f.name for f in edited.findings} if edited else set()


def test_what_is_typed_stands_in_the_file_at_once(path: Path):
    job = opened(path)
    edited = job.typed(TEXT.replace("1/4 rd", "3/8 sq"), job.number, who="me")
    assert edited.done
    assert "3/8 sq" in path.read_text()
    assert [s.what for s in job.states()] == ["begun", "typed"]
    assert job.states()[1].who == "me"
    assert job.states()[1].at.startswith("1970-01-12T13:46:40")
    assert job.text_at(1) == TEXT


def test_one_job_for_all_who_ask_in_this_process(path: Path):
    job = opened(path)
    (path.parent / "link.yaml").symlink_to(path)
    assert opened(path) is job
    assert opened(path.parent / "link.yaml") is job


def test_edits_of_one_step_are_undone_together_but_all_are_kept(path: Path):
    clock = Clock()
    job = opened(path, clock)
    for letters in ("J", "Jo", "Joh"):
        job.typed(TEXT + f"# {letters}\n", job.number, step="text")
        clock.now += 1.0
    clock.now += 2.0
    job.typed(TEXT + "# John\n", job.number, step="text")
    job.typed(TEXT + "# Johnny\n", job.number, step="other")
    assert len(job.states()) == 6
    texts = [job.undo().text for _ in range(3)]
    assert texts == [TEXT + "# John\n", TEXT + "# Joh\n", TEXT]
    assert not job.can_undo
    assert not job.undo().done
    assert [job.redo().text for _ in range(3)] == [TEXT + "# Joh\n", TEXT + "# John\n", TEXT + "# Johnny\n"]
    assert not job.can_redo
    assert path.read_text() == TEXT + "# Johnny\n"


def test_undo_goes_on_after_the_program_was_started_again(path: Path):
    job = anew(path)
    for n in range(5):
        job.typed(f"{TEXT}# {n}\n", job.number)
    job.undo()
    job.undo()
    again = anew(path)
    assert (again.number, again.text) == (job.number, job.text)
    assert again.redo().text == f"{TEXT}# 3\n"
    assert again.undo().text == f"{TEXT}# 2\n"
    assert again.undo().text == f"{TEXT}# 1\n"
    assert again.typed(TEXT + "# new way\n", again.number).done
    assert not again.can_redo
    assert anew(path).undo().text == f"{TEXT}# 1\n"


def test_changes_of_other_lines_are_put_together(path: Path):
    job = opened(path)
    begun = job.number
    job.typed(TEXT.replace("1/4 rd", "3/8 sq"), begun, who="one")
    edited = job.typed(TEXT.replace("make: 2", "make: 6"), begun, who="other")
    assert edited.done
    assert "3/8 sq" in edited.text
    assert "make: 6" in path.read_text()


def test_changes_of_the_same_line_are_kept_aside_and_told(path: Path):
    job = opened(path)
    begun = job.number
    first = job.typed(TEXT.replace("1/4 rd", "3/8 sq"), begun, who="one")
    typed = TEXT.replace("1/4 rd", "1/2 hex")
    second = job.typed(typed, begun, who="other")
    assert not second.done
    assert names(second) == {"changed-meanwhile"}
    assert second.text == first.text == path.read_text()
    aside = job.states()[-1]
    assert (aside.what, aside.who) == ("set aside", "other")
    assert f"state {aside.number}" in second.findings[0].says
    assert job.text_at(aside.number) == typed
    assert job.back_to(aside.number).text == typed
    assert job.undo().text == first.text


def test_a_change_of_the_form_is_made_to_the_newest_text(path: Path):
    job = opened(path)
    job.typed(TEXT.replace("Hook", "Big hook"), job.number)
    edited = job.changed(lambda text: Read(text.replace("1/4", "3/8")))
    assert "Big hook" in edited.text
    assert "3/8" in edited.text
    fault = stop("cannot", "no")
    refused = job.changed(lambda text: Read(None, (fault,)))
    assert (refused.done, refused.findings, refused.text) == (False, (fault,), edited.text)


def test_another_programs_change_is_taken_in_and_ours_put_to_it(path: Path):
    job = opened(path)
    base = job.number
    path.write_text(TEXT.replace("Hook", "Their hook"))
    edited = job.typed(TEXT.replace("make: 2", "make: 6"), base)
    assert edited.done
    assert names(edited) == {"changed-by-another"}
    assert "Their hook" in path.read_text()
    assert "make: 6" in path.read_text()
    assert [s.what for s in job.states()] == ["begun", "from the file", "typed"]


def test_another_programs_change_of_the_same_line_is_not_written_over(path: Path):
    job = opened(path)
    base = job.number
    path.write_text(TEXT.replace("Hook", "Their hook"))
    typed = TEXT.replace("Hook", "My hook")
    edited = job.typed(typed, base)
    assert not edited.done
    assert "Their hook" in path.read_text()
    assert job.text_at(job.states()[-1].number) == typed


def test_a_look_tells_what_another_program_did_and_else_nothing(path: Path):
    job = opened(path)
    assert job.look() is None
    path.write_text(TEXT + "# theirs\n")
    edited = job.look()
    assert edited is not None
    assert edited.text == TEXT + "# theirs\n"
    assert job.look() is None
    assert job.undo().text == TEXT


def test_undo_waits_where_another_program_has_changed_the_file(path: Path):
    job = opened(path)
    job.typed(TEXT + "# mine\n", job.number)
    path.write_text(TEXT + "# mine\n# theirs\n")
    edited = job.undo()
    assert not edited.done
    assert edited.text == TEXT + "# mine\n# theirs\n"
    assert job.undo().text == TEXT + "# mine\n"


def test_a_file_that_is_no_text_any_more_is_left_as_it_is(path: Path):
    job = opened(path)
    path.write_bytes(b"\xff\xfe picture")
    edited = job.typed(TEXT + "# mine\n", job.number)
    assert "file-not-ours" in names(edited)
    assert path.read_bytes() == b"\xff\xfe picture"
    assert job.text_at(edited.number) == TEXT + "# mine\n"
    path.write_text(TEXT)
    job.look()
    assert path.read_text() == TEXT + "# mine\n"


def test_a_file_that_was_taken_away_is_written_again_at_the_next_edit_only(path: Path):
    job = opened(path)
    path.unlink()
    job.look()
    assert not path.exists()
    edited = job.typed(TEXT + "# mine\n", job.number)
    assert edited.done
    assert names(edited) == {"written-again"}
    assert path.read_text() == TEXT + "# mine\n"


def test_two_programs_on_one_file_work_as_two_windows_do(path: Path):
    one, other = anew(path), anew(path)
    heard: list[tuple[str, str]] = []
    stops = other.listen(lambda edited, who: heard.append((edited.text, who)))
    one.typed(TEXT.replace("1/4 rd", "3/8 sq"), one.number, who="one")
    edited = other.typed(TEXT.replace("make: 2", "make: 6"), other.number, who="other")
    assert edited.done
    assert names(edited) == set()
    assert "3/8 sq" in edited.text
    assert [who for _, who in heard] == ["", "other"]
    assert one.look() is not None
    assert one.text == edited.text
    stops()
    one.undo()
    other.look()
    assert len(heard) == 2
    assert other.text == one.text


def test_an_edit_that_a_crash_cut_off_is_put_back(path: Path):
    job = anew(path)
    job.typed(TEXT + "# one\n", job.number)
    before = path.read_bytes()
    log = job._log.path.read_bytes()
    job.typed(TEXT + "# two\n", job.number)
    lines = job._log.path.read_bytes()[len(log) :].splitlines(keepends=True)
    path.write_bytes(before)
    job._log.path.write_bytes(log + lines[0])  # the state was written, the file not yet
    again = anew(path)
    assert again.text == path.read_text() == TEXT + "# two\n"
    assert again.states()[-1].what == "put back"
    assert [f.name for f in again.opened] == ["put-back"]
    assert again.undo().text == TEXT + "# one\n"


def test_a_file_changed_by_somebody_after_the_crash_goes_before_the_log(path: Path):
    job = anew(path)
    job.typed(TEXT + "# one\n", job.number)
    path.write_text(TEXT)  # somebody took the line out again, by intention
    os.utime(path, (2_000_000, 2_000_000))
    again = anew(path)
    assert again.text == TEXT
    assert again.states()[-1].what == "from the file"


def test_an_empty_file_as_a_power_cut_leaves_it_is_filled_again(path: Path):
    job = anew(path)
    job.typed(TEXT + "# one\n", job.number)
    path.write_bytes(b"")
    assert anew(path).text == path.read_text() == TEXT + "# one\n"


def test_an_older_file_as_a_power_cut_leaves_it_is_brought_up(path: Path):
    job = anew(path)
    job.typed(TEXT + "# one\n", job.number)
    job.typed(TEXT + "# two\n", job.number)
    path.write_text(TEXT)
    os.utime(path, (900_000, 900_000))  # older than the newest state
    assert anew(path).text == path.read_text() == TEXT + "# two\n"


def test_where_the_file_cannot_be_written_nothing_is_lost_and_it_is_tried_again(path: Path):
    job = opened(path)
    block = path.with_name(f".{path.name}.new")
    block.mkdir()  # the name that is written under first is taken by a folder
    (block / "x").write_text("")
    edited = job.typed(TEXT + "# one\n", job.number)
    assert edited.done
    assert names(edited) == {"not-written"}
    assert path.read_text() == TEXT
    assert anew(path).text == TEXT + "# one\n"
    (block / "x").unlink()
    block.rmdir()
    assert names(job.typed(TEXT + "# one\n# two\n", job.number)) == set()
    assert path.read_text() == TEXT + "# one\n# two\n"


def test_where_states_cannot_be_kept_the_file_is_written_all_the_same(path: Path):
    (path.parent.parent / "states").write_text("no folder")
    job = opened(path)
    edited = job.typed(TEXT + "# one\n", job.number)
    assert names(edited) == {"states-not-kept"}
    assert path.read_text() == TEXT + "# one\n"
    assert job.undo().text == TEXT
    (path.parent.parent / "states").unlink()
    assert names(job.redo()) == set()
    assert anew(path).text == TEXT + "# one\n"
    assert [s.what for s in anew(path).states()] == ["begun", "typed", "undo", "redo"]


def test_a_log_taken_away_while_the_job_is_open_begins_anew(path: Path):
    job = opened(path)
    job.typed(TEXT + "# one\n", job.number)
    job._log.path.unlink()
    edited = job.typed(TEXT + "# one\n# two\n", job.number)
    assert path.read_text() == edited.text == job.text
    assert "# two" in edited.text or "# two" in (job.text_at(job.states()[-1].number) or "")


def test_line_ends_of_the_file_stay_as_they_were(path: Path):
    path.write_bytes(TEXT.replace("\n", "\r\n").encode())
    job = opened(path)
    assert job.text == TEXT
    job.typed(TEXT + "# é\n", job.number)
    assert path.read_bytes() == (TEXT + "# é\n").replace("\n", "\r\n").encode()


def test_a_text_that_is_too_large_or_has_half_characters(path: Path):
    job = opened(path)
    assert names(job.typed("x" * 1_000_001, job.number)) == {"too-large"}
    assert job.typed(TEXT + "# \ud800\n", job.number).text == TEXT + "# ?\n"


def test_what_cannot_be_opened_is_a_finding(tmp_path: Path):
    (tmp_path / "a.yaml").write_bytes(b"\xff\xfe")
    for name in ("a.yaml", "none.yaml", "."):
        assert isinstance(open_job(tmp_path / name, tmp_path / "s"), Finding)


def test_a_window_that_fails_does_not_keep_others_from_hearing(path: Path):
    job = opened(path)
    heard: list[int] = []

    def fails(edited: Edited, who: str) -> None:
        raise ValueError("gone")

    job.listen(fails)
    stops = job.listen(lambda edited, who: heard.append(edited.number))
    assert job.typed(TEXT + "# a\n", job.number).done
    stops()
    stops()
    job.typed(TEXT + "# b\n", job.number)
    assert heard == [2]


def test_many_threads_and_none_of_their_lines_is_lost(path: Path):
    job = opened(path)

    def work(name: int) -> None:
        for n in range(20):
            job.changed(lambda text, n=n: Read(text + f"# thread {name} line {n}\n"), who=str(name))

    threads = [threading.Thread(target=work, args=(name,)) for name in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    lines = path.read_text().splitlines()
    assert all(f"# thread {name} line {n}" in lines for name in range(4) for n in range(20))
    assert len(job.states()) == 81


def test_a_job_that_nobody_holds_is_let_go(path: Path):
    job = opened(path)
    first = id(job)
    del job
    gc.collect()
    again = opened(path)
    assert again.text == TEXT
    assert [s.what for s in again.states()] == ["begun"]
    assert first  # only its number is left


def test_an_edit_of_a_long_job_is_quick(path: Path):
    text = "".join(f"line {n}: a value that stands here\n" for n in range(200))
    path.write_text(text)
    job = opened(path)
    took = []
    for n in range(300):
        lines = job.text.split("\n")
        lines[n % 200] = f"line {n % 200}: {n}"
        begun = time.thread_time()
        job.typed("\n".join(lines), job.number, step="text")
        took.append(time.thread_time() - begun)
    # the time of this thread, the system's work for it included: what else the machine does is not ours
    assert sorted(took)[int(0.95 * len(took))] < 0.002


class Crash(BaseException):
    """Ends the program on the spot."""


def crashes_at(call: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """The n-th time that something is asked of the disk, the half of it is done and then nothing more."""
    left = [call]
    write, replace, opens = os.write, Path.replace, os.open

    def dies() -> bool:
        left[0] -= 1
        if left[0] < 0:
            raise Crash
        return left[0] == 0

    def half_written(fd: int, data: bytes) -> int:
        if dies():
            write(fd, data[: len(data) // 2])
            raise Crash
        return write(fd, data)

    def opened_only(path: Path, flags: int, mode: int = 0o777) -> int:
        if dies():
            raise Crash
        return opens(path, flags, mode)

    def put_in_place(path: Path, target: Path) -> Path:
        if dies():
            raise Crash
        return replace(path, target)

    monkeypatch.setattr(os, "write", half_written)
    monkeypatch.setattr(os, "open", opened_only)
    monkeypatch.setattr(Path, "replace", put_in_place)


@pytest.mark.parametrize("call", range(1, 8))
def test_a_crash_at_each_thing_asked_of_the_disk(path: Path, call: int):
    """What was asked for is there wholly or not at all, and what stood before is there in any case."""
    job = anew(path)
    job.typed(TEXT + "# one\n", job.number)
    with pytest.MonkeyPatch.context() as patch:
        crashes_at(call, patch)
        try:
            job.typed(TEXT + "# one\n# two\n", job.number)
            died = False
        except Crash:
            died = True
    again = anew(path)
    assert died == (call < 7)
    assert again.text == path.read_text()
    assert again.text in (TEXT + "# one\n", TEXT + "# one\n# two\n")
    # from the moment that its line stands in the log, the edit is never lost again
    assert ("# two" in again.text) == (call > 2)
    assert again.typed(again.text + "# three\n", again.number).findings == ()
    texts = [again.text_at(s.number) for s in anew(path).states()]
    assert texts[:2] == [TEXT, TEXT + "# one\n"]
    assert texts[-1] == again.text


CHILD = """
import sys
from pathlib import Path
from bickern.desk.job.open_job import open_job
job = open_job(Path(sys.argv[1]), Path(sys.argv[2]))
print("ready", flush=True)
number = int(sys.argv[3])
while True:
    number += 1
    edited = job.typed(job.text + f"# typed {number}\\n", job.number)
    print(number, flush=True)
    if number % 5 == 0:
        job.undo(); job.redo()
"""


@pytest.mark.slow
def test_thirty_times_killed_in_mid_edit_and_nothing_lost(path: Path):
    states = path.parent.parent / "states"
    chance = random.Random(7)
    number = 0
    for _ in range(30):
        child = subprocess.Popen(
            [sys.executable, "-c", CHILD, str(path), str(states), str(number)], stdout=subprocess.PIPE, text=True
        )
        assert child.stdout is not None
        assert child.stdout.readline() == "ready\n"
        time.sleep(chance.uniform(0.005, 0.06))
        child.send_signal(signal.SIGKILL)
        said = [int(line) for line in child.stdout.read().split("\n")[:-1]]
        child.wait()
        child.stdout.close()
        number = max([number, *said])
        job = anew(path)
        states_now = job.states()
        texts = [job.text_at(s.number) for s in states_now]
        assert None not in texts
        assert path.read_text() == job.text == texts[-1]
        kept = {int(line[8:]) for text in texts if text for line in text.splitlines() if line.startswith("# typed")}
        assert kept >= set(range(1, number + 1))  # each one that was said to be done, and perhaps one more
        number = max(kept, default=0)
        assert [s.number for s in states_now] == list(range(1, len(texts) + 1))
    assert number > 60


TOGETHER = """
import sys
from pathlib import Path
from bickern.desk.job.open_job import open_job
from bickern.measure.units.words import Read
path, states, name = Path(sys.argv[1]), Path(sys.argv[2]), sys.argv[3]
job = open_job(path, states)
print("ready", flush=True)
sys.stdin.readline()
for n in range(60):
    assert job.changed(lambda text: Read(text + f"# {name} {n}\\n"), who=name).done
"""


def test_three_programs_write_at_once_and_none_of_their_lines_is_lost(path: Path):
    states = path.parent.parent / "states"
    words = [sys.executable, "-c", TOGETHER, str(path), str(states)]
    children = [
        subprocess.Popen([*words, name], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) for name in "abc"
    ]
    for child in children:
        assert child.stdout is not None
        assert child.stdout.readline() == "ready\n"
    for child in children:
        child.communicate("go\n")
    assert [child.returncode for child in children] == [0, 0, 0]
    lines = path.read_text().splitlines()
    assert all(f"# {name} {n}" in lines for name in "abc" for n in range(60))
    job = anew(path)
    assert job.text == path.read_text()
    assert [s.number for s in job.states()] == list(range(1, 182))
    assert {s.who for s in job.states(180)} == set("abc")


# ---- what must always hold, whatever happens in whatever order ----

LINES = st.sampled_from(["bar: 1/4 rd", "bar: 3/8 sq", "make: 2", "# é", "", "keep: 4"])


class Changes(RuleBasedStateMachine):
    """Two programs, each with a window that may lag behind, and a third program that knows nothing of states."""

    @initialize(folder=st.uuids())
    def begin(self, folder) -> None:
        import tempfile

        self.held = tempfile.TemporaryDirectory()
        self.path = Path(self.held.name) / "jobs" / "hook.yaml"
        self.path.parent.mkdir()
        self.path.write_text(TEXT)
        self.jobs = [anew(self.path), anew(self.path)]
        self.windows = [job.now for job in self.jobs]
        self.typed: set[str] = set()
        self.serial = 0

    def _edit(self, text: str, at: int, line: str) -> str:
        """A line of its own kind, so that it can be found again."""
        self.serial += 1
        lines = text.split("\n")
        mark = f"{line} # {self.serial}"
        lines[at % len(lines) : at % len(lines) + self.serial % 2] = [mark]
        self.typed.add(mark)
        return "\n".join(lines)

    @rule(
        who=st.integers(0, 1), at=st.integers(0, 30), line=LINES, fresh=st.booleans(), step=st.sampled_from(["", "s"])
    )
    def types(self, who: int, at: int, line: str, fresh: bool, step: str) -> None:
        job = self.jobs[who]
        if fresh:
            job.look()
            self.windows[who] = job.now
        job.look()
        seen, before = self.windows[who], set(job.text.split("\n"))
        edited = job.typed(self._edit(seen.text, at, line), seen.number, step=step)
        self.windows[who] = edited
        if fresh:
            assert edited.done
        # what others put in or took out, and this window had not seen yet, stays put in or taken out
        mine, now = set(seen.text.split("\n")), set(edited.text.split("\n"))
        assert before - mine <= now
        assert not (mine - before) & now

    @rule(who=st.integers(0, 1), at=st.integers(0, 30), line=LINES)
    def fills_in_a_form(self, who: int, at: int, line: str) -> None:
        assert self.jobs[who].changed(lambda text: Read(self._edit(text, at, line))).done

    @rule(at=st.integers(0, 30), line=LINES)
    def another_program_writes(self, at: int, line: str) -> None:
        self.path.write_text(self._edit(self.path.read_text(), at, line))
        self.jobs[at % 2].look()

    @rule(who=st.integers(0, 1))
    def undoes_and_does_again(self, who: int) -> None:
        job = self.jobs[who]
        job.look()
        before, number = job.text, job.number
        if job.can_undo:
            undone = job.undo()
            assert undone.done
            assert undone.number > number
            assert job.redo().text == before

    @rule(who=st.integers(0, 1))
    def undoes(self, who: int) -> None:
        self.jobs[who].undo()

    @rule(who=st.integers(0, 1), back=st.integers(0, 5))
    def goes_back(self, who: int, back: int) -> None:
        job = self.jobs[who]
        states = job.states()
        number = states[-1 - back % len(states)].number
        text = job.text_at(number)
        assert job.back_to(number).text == text

    @rule(who=st.integers(0, 1))
    def starts_again(self, who: int) -> None:
        before = self.path.read_text()
        self.jobs[who] = anew(self.path)
        self.windows[who] = self.jobs[who].now
        assert self.jobs[who].text == before

    @precondition(lambda self: hasattr(self, "jobs"))
    @invariant()
    def nothing_that_anybody_typed_is_missing(self) -> None:
        for job in self.jobs:
            job.look()
        one, other = self.jobs
        assert one.text == other.text == self.path.read_text()
        kept = "\n".join(one.text_at(s.number) or "" for s in one.states()).split("\n")
        assert self.typed <= set(kept)

    def teardown(self) -> None:
        if hasattr(self, "held"):
            self.held.cleanup()


often = 500 if os.environ.get("BICKERN_SOAK") else 25
Changes.TestCase.settings = settings(settings.default, max_examples=often, stateful_step_count=20)
TestChanges = Changes.TestCase


def test_lines_are_put_together_only_where_they_do_not_meet():
    old = "a\nb\nc\nd"
    assert merged(old, "A\nb\nc\nd", "a\nb\nc\nD") == "A\nb\nc\nD"
    assert merged(old, "A\nb\nc\nd", "a\nB\nc\nd") == "A\nB\nc\nd"
    assert merged(old, "A\nb\nc\nd", "1\nb\nc\nd") is None
    assert merged(old, "a\nx\nb\nc\nd", "a\ny\nb\nc\nd") is None
    assert merged(old, "a\nx\nb\nc\nd", "a\nB\nc\nd") is None
    assert merged(old, "a\nc\nd", "a\nb\nc\nD") == "a\nc\nD"
    assert merged(old, "A\nb\nc\nd", "A\nb\nc\nD") == "A\nb\nc\nD"


def test_who_has_written_further_in_the_same_place_is_followed():
    assert merged("a\nb", "a\nb\n", "a\nb\n# me") == "a\nb\n# me"
    assert merged("a\nb", "a\nb\n# me", "a\nb\n#") == "a\nb\n# me"
    assert merged("a\nb", "a\nb\n# me", "a\nb\n# you") is None
