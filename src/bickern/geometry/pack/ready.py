"""A process that stands ready with modules read in, and splits off another for each order: they are read in once.

Only where a process may be split safely (Linux, and no thread beside the first). It ends with the one that started it.
"""

import contextlib
import importlib
import os
import pickle
import signal
import socket
import struct
import subprocess
import sys
import threading
from collections.abc import Sequence
from itertools import count
from typing import BinaryIO, TextIO, cast

CAN = sys.platform == "linux"
"""Whether processes are split here."""
WAIT = 5.0
"""Seconds that it is given to read in its modules, and to answer."""
POLL = 0.002
"""Seconds between looks whether a process has ended."""
BOOT = """import sys, pickle
sys.path[:], modules, place, serve = pickle.load(sys.stdin.buffer)
from bickern.geometry.pack.ready import stand
stand(modules, place, serve)
"""
"""What it runs: it looks where the program looks."""

_ASK = struct.Struct(">cQ")  # what is asked (split, or fetch), and of which process
_TOLD = struct.Struct(">q")  # the number of a process; how it ended, or _RUNS
_SPLIT, _FETCH = b"s", b"f"
_RUNS = 1 << 32

_stands: dict[tuple[str, ...], "Stand"] = {}
_given_up: set[tuple[str, ...]] = set()
_lock = threading.Lock()


def split_off(modules: Sequence[str], serve: str, environment: dict[str, str]) -> "Split | None":
    """A process of its own with these modules read in, which serves one order; None where that cannot be had.

    `serve`: "module:function" that does so, and never returns; it finds the order on standard input.
    """
    key = tuple(modules)
    if not CAN or not sys.executable or key in _given_up:
        return None
    for _ in range(2):  # the one that stood ready may be gone
        stand = None
        try:
            with _lock:
                stand = _stands.get(key)
                if stand is None or not stand.ours:
                    stand = _stands[key] = Stand(key, serve, environment)
            return stand.split()
        except OSError:
            with _lock:
                if stand is not None and _stands.get(key) is stand and stand.gone:
                    del _stands[key]
            if stand is None or not stand.answered:  # it never stood: that is not tried again
                _given_up.add(key)
                return None
    return None


class Stand:
    """The process that stands ready, as the program sees it."""

    def __init__(self, modules: tuple[str, ...], serve: str, environment: dict[str, str]) -> None:
        self.program = os.getpid()
        self.answered = False
        self.lock = threading.Lock()
        self.line, theirs = socket.socketpair(socket.AF_UNIX, socket.SOCK_SEQPACKET)
        self.line.settimeout(WAIT)
        with theirs:
            self.process = subprocess.Popen(
                [sys.executable, "-P", "-c", BOOT],
                stdin=subprocess.PIPE,
                stdout=subprocess.DEVNULL,
                stderr=subprocess.DEVNULL,
                pass_fds=[theirs.fileno()],
                env=environment,
            )
            assert self.process.stdin is not None
            try:
                with self.process.stdin as pipe:
                    pipe.write(pickle.dumps((sys.path, modules, theirs.fileno(), serve)))
            except BaseException:
                self.end()
                raise

    @property
    def ours(self) -> bool:
        """Whether it was started by this very process, not by one that this one was split off."""
        return self.program == os.getpid()

    @property
    def gone(self) -> bool:
        """Whether nothing is asked of it any more."""
        return self.line.fileno() < 0

    def end(self) -> None:
        """Ends it; those that were split off go on."""
        self.line.close()
        self.process.kill()
        self.process.wait()

    def split(self) -> "Split":
        """A new process, with a pipe each way."""
        order_out, order_in = os.pipe()
        try:
            said_out, said_in = os.pipe()
        except OSError:
            os.close(order_out)
            os.close(order_in)
            raise
        try:
            number = self.ask(_SPLIT, 0, order_out, said_in)
        except BaseException:
            os.close(order_in)
            os.close(said_out)
            raise
        finally:
            os.close(order_out)
            os.close(said_in)
        return Split(self, number, os.fdopen(order_in, "wb"), os.fdopen(said_out, "rb"))

    def ask(self, what: bytes, number: int, *pipes: int) -> int:
        """What it answers; OSError where it does not. An answer that was not waited for would be taken for the next."""
        with self.lock:
            try:
                socket.send_fds(self.line, [_ASK.pack(what, number)], pipes)
                told = int(_TOLD.unpack(self.line.recv(_TOLD.size))[0])
            except BaseException as fault:
                self.end()
                if isinstance(fault, (OSError, struct.error)):
                    raise OSError("the process that stood ready does not answer") from fault
                raise
            self.answered = True
            return told


class Split:
    """A process that was split off, used like `subprocess.Popen`."""

    def __init__(self, stand: Stand, number: int, stdin: BinaryIO, stdout: BinaryIO) -> None:
        self.stand = stand
        self.number = number
        self.stdin = stdin
        self.stdout = stdout
        self.code: int | None = None

    def kill(self) -> None:
        """Ends it; its number is its own until it was fetched."""
        if self.code is None:
            with contextlib.suppress(ProcessLookupError, PermissionError):
                os.kill(self.number, signal.SIGKILL)

    def wait(self, timeout: float | None = None) -> int:
        """How it ended, less than nothing for a signal; `subprocess.TimeoutExpired` where it still runs."""
        pause = threading.Event()
        for _ in count() if timeout is None else range(int(timeout / POLL) + 1):
            if self.code is None:
                self.code = self.ended()
            if self.code is not None:
                return self.code
            pause.wait(POLL)
        raise subprocess.TimeoutExpired("", timeout or 0.0)

    def ended(self) -> int | None:
        """How it ended, if it has; where the one that it was split off is gone it is ended: nobody knows any more."""
        try:
            told = self.stand.ask(_FETCH, self.number)
        except OSError:
            self.kill()
            return -signal.SIGKILL
        return None if told == _RUNS else told


# ---- the process that stands ready


def stand(modules: Sequence[str], place: int, serve: str) -> None:
    """Reads in the modules and splits whenever it is asked to, until the program is gone; never returns."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    for module in modules:
        importlib.import_module(module)
    if len(os.listdir("/proc/self/task")) > 1:
        os._exit(1)  # a thread beside this one would not be split off with it
    line = socket.socket(fileno=place)
    while True:
        asked, pipes, _, _ = socket.recv_fds(line, _ASK.size, 2)
        if len(asked) < _ASK.size:
            os._exit(0)
        what, number = _ASK.unpack(asked)
        line.sendall(_TOLD.pack(_split(serve, line, *pipes) if what == _SPLIT else _fetched(number)))


def _split(serve: str, line: socket.socket, order: int, said: int) -> int:
    number = os.fork()
    if not number:
        line.close()
        _obey(serve, order, said)
    os.close(order)
    os.close(said)
    return number


def _obey(serve: str, order: int, said: int) -> None:
    """Serves one order, as a fresh process does; never returns."""
    try:
        module, _, name = serve.partition(":")
        os.dup2(order, 0)
        os.dup2(said, 1)
        os.close(order)
        os.close(said)
        sys.stdin = cast(TextIO, os.fdopen(0, closefd=False))
        sys.path[:] = pickle.load(sys.stdin.buffer)
        getattr(importlib.import_module(module), name)()
    finally:
        os._exit(1)


def _fetched(number: int) -> int:
    """How a process ended, or that it still runs."""
    try:
        ended, state = os.waitpid(number, os.WNOHANG)
    except ChildProcessError:
        return -signal.SIGKILL
    return os.waitstatus_to_exitcode(state) if ended else _RUNS
