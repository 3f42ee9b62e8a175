"""Hard searches run in a process of their own: what crashes or hangs there does not take the program with it."""

import contextlib
import importlib
import os
import pickle
import queue
import signal
import struct
import subprocess
import sys
import threading
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, BinaryIO

from bickern.geometry.pack.ready import Split, split_off

ROOM = "bickern.geometry.pack"
"""Where works are looked for."""
LOOK = 0.02
"""Seconds between looks at `keep_going`."""
PATIENCE = 2.0
"""Seconds that a process which is through is given to go away."""
MEMORY = 4 * 2**30
"""Bytes of address space that the process may take, where a system can hold it to that."""
ALONE = {"OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1"}
"""Told to numpy in that process: threads of its own, one for each processor, cost more time than they save there."""
BOOT = f"import sys, pickle\nsys.path[:] = pickle.load(sys.stdin.buffer)\nfrom {ROOM}.child import serve\nserve()\n"
"""What the fresh process runs: it looks where this one looks, whatever way this one was started."""

_HEAD = struct.Struct(">4scQ")  # the sign of a frame, its kind, its length [bytes]
_SIGN = b"\xb1ck\n"
_SAYS, _ANSWER, _FAULT = b"s", b"a", b"f"

Report = Callable[[str], None]
"""Takes a line that says how far the work is."""
Hears = Callable[[Any], None]
"""Takes whatever the work reports."""


@dataclass(frozen=True, slots=True)
class Lost:
    """The work gave no answer; `why` in words: crashed, hung, stopped, or could not be started."""

    why: str


@dataclass(frozen=True, slots=True)
class _Order:
    """What the process is to do; `seconds` of all its processors and `memory` [bytes] it may take."""

    work: str
    asked: object
    seconds: int
    memory: int


def in_child(
    work: str,
    asked: object,
    seconds: float,
    *,
    keep_going: Callable[[], bool] = lambda: True,
    report: Report = lambda says: None,
    ready: Sequence[str] = (),
) -> object | Lost:
    """What `function(asked, report)` returns in a process of its own; `work` is "module:function" inside this room.

    The process is ended after `seconds`, or when `keep_going` says no (asked every 20 ms); no process is left
    behind. `asked` and the answer are anything that can be pickled; `report` hears the lines that the work says.
    `ready`: modules that the work needs, which a process that stands ready for the next time may have read in.
    """
    place = f"{ROOM}.{work.removeprefix(ROOM + '.')}"
    return elsewhere(place, asked, seconds, keep_going=keep_going, report=report, ready=ready)


def elsewhere(
    place: str,
    asked: object,
    seconds: float,
    *,
    keep_going: Callable[[], bool] = lambda: True,
    report: Hears = lambda says: None,
    memory: int = MEMORY,
    ready: Sequence[str] = (),
) -> object | Lost:
    """As `in_child`, for a function of any module that can be imported here ("package.module:function").

    It may report anything that can be pickled.
    """
    try:
        order = pickle.dumps(sys.path) + pickle.dumps(_Order(place, asked, _processor_seconds(seconds), memory))
        process = (split_off(ready, f"{__name__}:serve", _environment()) if ready else None) or _started()
    except OSError as fault:
        return Lost(f"its process could not be started: {fault}")
    return _Watch(process, order, seconds).answer(keep_going, report)


def _processor_seconds(seconds: float) -> int:
    """Seconds of processor time that a work can use in so many seconds, with a reserve: the last line of defence."""
    return int(min(seconds, 86400.0) * (os.cpu_count() or 1)) + 10


def _started() -> "subprocess.Popen[bytes]":
    if not sys.executable:
        raise OSError("nobody knows where Python lies")
    return subprocess.Popen(
        [sys.executable, "-P", "-c", BOOT],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        env=_environment(),
    )


def _environment() -> dict[str, str]:
    return {**os.environ, **ALONE}


# ---- the watching side


class _Watch:
    """One process, and the threads that write to it, read from it and count its time."""

    def __init__(self, process: "subprocess.Popen[bytes] | Split", order: bytes, seconds: float) -> None:
        self.process = process
        self.seconds = seconds
        self.heard: queue.Queue[tuple[bytes, bytes] | None] = queue.Queue(maxsize=64)
        self.over = threading.Event()
        self.timer = threading.Timer(min(max(0.0, seconds), threading.TIMEOUT_MAX), self.over.set)
        self.threads = [
            threading.Thread(target=_send, args=(process.stdin, order), daemon=True),
            threading.Thread(target=_hear, args=(process.stdout, self.heard), daemon=True),
        ]

    def answer(self, keep_going: Callable[[], bool], report: Hears) -> object | Lost:
        """Waits for the answer, and leaves no process behind whatever happens, an interrupt included."""
        try:
            self.timer.daemon = True
            for thread in (self.timer, *self.threads):
                thread.start()
            return self.wait(keep_going, report)
        finally:
            self.end()

    def wait(self, keep_going: Callable[[], bool], report: Hears) -> object | Lost:
        """Hears the process until it answers, ends, is out of time or is told to stop."""
        while True:
            try:
                heard = self.heard.get(timeout=LOOK)
            except queue.Empty:
                heard = (b"", b"")
            if heard is None:
                return self.ended()
            kind, load = heard
            if kind not in (b"", _SAYS):
                return _read(kind, load)
            if kind == _SAYS:
                says = _read(kind, load)
                if isinstance(says, Lost):
                    return says
                report(says)
            if not keep_going():
                return Lost("it was told to stop")
            if self.over.is_set():
                return Lost(f"it was not through after {self.seconds:g} s")

    def ended(self) -> Lost:
        """Why a process said no more."""
        try:
            code = self.process.wait(PATIENCE)
        except subprocess.TimeoutExpired:
            return Lost("what it said cannot be read")
        if code < 0:
            return Lost(f"it crashed ({_signal_name(-code)})")
        return Lost("what it said cannot be read" if code == 0 else f"it ended without an answer (code {code})")

    def end(self) -> None:
        """Kills the process if it still runs, reaps it, and lets go of threads and pipes."""
        self.timer.cancel()
        self.process.kill()
        self.process.wait()
        for thread in self.threads:
            while thread.is_alive():  # a reader may stand before a full queue, with thousands of lines behind it
                with contextlib.suppress(queue.Empty):
                    while self.heard.get(timeout=LOOK) is not None:
                        pass
                thread.join(LOOK)
        for pipe in (self.process.stdin, self.process.stdout):
            if pipe is not None:
                with contextlib.suppress(OSError):
                    pipe.close()


def _signal_name(number: int) -> str:
    try:
        return signal.Signals(number).name
    except ValueError:
        return f"signal {number}"


def _read(kind: bytes, load: bytes) -> object | Lost:
    if kind == _FAULT:
        return Lost(load.decode("utf-8", "replace"))
    try:
        answer: object = pickle.loads(load)
    except Exception:  # unpickling rubbish raises anything
        return Lost("what it said cannot be read")
    return answer


def _send(pipe: BinaryIO, order: bytes) -> None:
    """Writes the order and leaves the pipe open: the process ends by itself when it is closed."""
    with contextlib.suppress(OSError, ValueError):
        pipe.write(order)
        pipe.flush()


def _hear(pipe: BinaryIO, heard: "queue.Queue[tuple[bytes, bytes] | None]") -> None:
    """Puts every frame into the queue, and None where there are no more or what comes is no frame."""
    with contextlib.suppress(OSError, ValueError, MemoryError):
        while len(head := pipe.read(_HEAD.size)) == _HEAD.size:
            sign, kind, length = _HEAD.unpack(head)
            load = pipe.read(length) if sign == _SIGN else b""
            if sign != _SIGN or len(load) < length:
                break
            heard.put((kind, load))
    heard.put(None)


# ---- the working side


def serve() -> None:
    """Reads one order from standard input, does it, and writes reports and the answer; never returns."""
    voice = _voice()
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # an interrupt is for the other side to act on
    order = pickle.load(sys.stdin.buffer)
    threading.Thread(target=_end_when_alone, daemon=True).start()
    _limit(order)
    try:
        _say(voice, _ANSWER, pickle.dumps(_done(order, voice), pickle.HIGHEST_PROTOCOL))
    except MemoryError:
        _say(voice, _FAULT, b"it ran out of memory")
    except BaseException as fault:  # whatever it was, the other side must hear of it
        _say(voice, _FAULT, f"it stopped at a fault: {type(fault).__name__}: {_first_line(fault)}".encode())
    os._exit(0)


def _voice() -> BinaryIO:
    """Standard output for frames alone: whatever else prints there is sent to where faults go."""
    voice = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)
    sys.stdout = sys.stderr
    return voice


def _end_when_alone() -> None:
    """Ends this process when the one that asked is gone."""
    sys.stdin.buffer.read()
    os._exit(1)


def _limit(order: _Order) -> None:
    """Holds this process to its memory and time, on systems that can."""
    try:
        import resource
    except ImportError:
        return
    for what, most in ((resource.RLIMIT_AS, order.memory), (resource.RLIMIT_CPU, order.seconds)):
        soft, hard = resource.getrlimit(what)
        least = min([most, *(one for one in (soft, hard) if one != resource.RLIM_INFINITY)])
        with contextlib.suppress(OSError, ValueError):
            resource.setrlimit(what, (least, hard))


def _done(order: _Order, voice: BinaryIO) -> object:
    module, _, name = order.work.partition(":")
    function: Callable[[object, Hears], object] = getattr(importlib.import_module(module), name)
    return function(order.asked, lambda says: _say(voice, _SAYS, pickle.dumps(says, pickle.HIGHEST_PROTOCOL)))


def _first_line(fault: BaseException) -> str:
    """What a fault says, without the trace that some libraries put after it."""
    return next(iter(str(fault).splitlines()), "")[:200]


def _say(voice: BinaryIO, kind: bytes, load: bytes) -> None:
    voice.write(_HEAD.pack(_SIGN, kind, len(load)))
    voice.write(load)
    voice.flush()
