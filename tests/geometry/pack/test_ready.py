"""The process that stands ready: replaced where it is gone, passed by where it hangs, and gone with the program.

What comes of a work is the same as without it: `test_child.py` holds it to that.
"""

import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from bickern.geometry.pack import ready
from bickern.geometry.pack.child import elsewhere

pytestmark = pytest.mark.skipif(not ready.CAN, reason="processes are not split here")
MODULES = ("json", "this_test_alone")


@pytest.fixture(autouse=True)
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    (tmp_path / "this_test_alone.py").write_text(
        "import os, time\n"
        f"open({str(tmp_path / 'read_in')!r}, 'a').write('x')\n"
        "def whose(asked, report):\n"
        "    return os.getpid(), os.getppid()\n"
    )
    monkeypatch.syspath_prepend(str(tmp_path))
    monkeypatch.setattr(ready, "_stands", {})
    monkeypatch.setattr(ready, "_given_up", set())
    yield
    for stand in ready._stands.values():
        stand.line.close()
        stand.process.wait(10)


def whose() -> tuple[int, int]:
    """Numbers of the process that did a work, and of the one that started it."""
    answer = elsewhere("this_test_alone:whose", None, 20, ready=MODULES)
    assert isinstance(answer, tuple)
    return answer


def standing() -> int:
    """The number of the process that stands ready."""
    return ready._stands[MODULES].process.pid


def test_one_stands_ready_and_each_order_has_its_own() -> None:
    first, second = whose(), whose()
    assert first[0] != second[0]
    assert first[1] == second[1] == standing() != os.getpid()


def test_modules_are_read_in_once(tmp_path: Path) -> None:
    for _ in range(4):
        whose()
    assert (tmp_path / "read_in").read_text() == "x"


def test_one_that_is_gone_is_replaced() -> None:
    before = whose()
    os.kill(standing(), signal.SIGKILL)
    assert whose()[1] == standing() != before[1]


def test_one_that_hangs_is_passed_by(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(ready, "WAIT", 0.2)
    monkeypatch.setattr(ready, "BOOT", "import time\ntime.sleep(2)")
    assert whose()[1] == os.getpid()


def test_one_that_was_interrupted_is_not_asked_again(monkeypatch: pytest.MonkeyPatch) -> None:
    before = whose()
    stand = ready._stands[MODULES]

    class Interrupted:
        def unpack(self, told: bytes) -> tuple[int]:
            raise KeyboardInterrupt

    told = ready._TOLD
    monkeypatch.setattr(ready, "_TOLD", Interrupted())
    Interrupted.size = told.size  # type: ignore[attr-defined]
    with pytest.raises(KeyboardInterrupt):
        stand.split()
    monkeypatch.setattr(ready, "_TOLD", told)
    assert stand.gone
    assert whose()[1] == standing() != before[1]


def test_what_never_stood_is_not_tried_again(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(ready, "BOOT", "raise SystemExit(1)")
    assert whose()[1] == os.getpid()
    monkeypatch.setattr(ready, "Stand", None)  # what would be called
    assert whose()[1] == os.getpid()


def test_one_with_a_thread_of_its_own_is_not_split(tmp_path: Path) -> None:
    with (tmp_path / "this_test_alone.py").open("a") as module:
        module.write("import threading\nthreading.Thread(target=time.sleep, args=(60,), daemon=True).start()\n")
    assert whose()[1] == os.getpid()


def test_it_is_gone_when_the_program_is_killed() -> None:
    program = (
        f"import sys, time; sys.path[:] = {sys.path!r}\n"
        "from bickern.geometry.pack.child import elsewhere\n"
        f"print(elsewhere('this_test_alone:whose', None, 60, ready={MODULES!r})[1], flush=True)\n"
        "time.sleep(600)\n"
    )
    parent = subprocess.Popen([sys.executable, "-c", program], stdout=subprocess.PIPE, text=True)
    assert parent.stdout is not None
    number = int(parent.stdout.readline())
    parent.kill()
    parent.wait()
    parent.stdout.close()
    state = Path(f"/proc/{number}/status")
    for _ in range(100):
        if not state.exists() or "State:\tZ" in state.read_text():
            return
        time.sleep(0.05)
    pytest.fail("it stood on alone")
