"""Where the server listens, and which server serves which folder. The standard library alone: quick to ask."""

import errno
import hashlib
import os
import socket
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TextIO

from bickern.measure.finding import Finding, stop

PORT = 8417
"""Where no other is asked for."""
TRIED = 20
"""Ports tried one after another where none was asked for."""
HERE, EVERYWHERE = "127.0.0.1", "0.0.0.0"
"""Addresses to listen at: this machine's own, and all that it has."""
ELSEWHERE = "192.0.2.1"
"""An address that is nobody's (RFC 5737): to find out by which of our own we would speak to others. Nothing is sent."""
LOCK_AT = 2**30
"""The byte that is locked; far behind what is written, for Windows lets nobody read a locked one."""


def listen(port: int | None = None, *, lan: bool = False) -> socket.socket | Finding:
    """A socket that listens; `port` None: the usual one or the next that is free, 0: any, else that one alone."""
    host = EVERYWHERE if lan else HERE
    tried = range(PORT, PORT + TRIED) if port is None else (port,)
    fault: OSError | None = None
    for one in tried:
        try:
            return socket.create_server((host, one), backlog=128)
        except (OSError, OverflowError) as told:
            if not isinstance(told, OSError) or told.errno != errno.EADDRINUSE:
                return stop("no-such-port", f"port {one} cannot be listened at", "try one from 1024 to 65535, or 0")
            fault = told
    says = f"port {tried[0]} is taken" if len(tried) == 1 else f"ports {tried[0]} to {tried[-1]} are all taken"
    assert fault is not None
    return stop("port-taken", says, "try --port 0 for any that is free")


def port_of(listening: socket.socket) -> int:
    """The port that a socket listens at."""
    return int(listening.getsockname()[1])


def address_on_net() -> str:
    """The address under which others on the same net reach this machine; empty where there is no net."""
    try:
        with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asked:
            asked.connect((ELSEWHERE, 9))
            return str(asked.getsockname()[0])
    except OSError:
        return ""


@dataclass(frozen=True, slots=True)
class Held:
    """A folder that this process serves; `says` writes down where, and the end of the process lets go of it."""

    file: TextIO

    def says(self, address: str) -> None:
        """Tells the next one where the folder is served."""
        self.file.seek(0)
        self.file.truncate()
        self.file.write(address)
        self.file.flush()


def hold(folder: Path, kept: Path) -> Held | str:
    """Takes a folder to serve; or, where another process serves it, says at which address ("" : it is starting).

    `kept`: the folder of this program's own files. The lock is the system's own: it cannot outlive its process.
    """
    kept.mkdir(parents=True, exist_ok=True)
    name = hashlib.sha256(str(folder.resolve()).encode("utf-8", "surrogateescape")).hexdigest()[:24]
    file = (kept / f"{name}.at").open("a+", encoding="utf-8")
    if _locked(file):
        return Held(file)
    file.seek(0)
    with file:
        return file.read(200).strip()


def _locked(file: TextIO) -> bool:
    """Whether the lock was free, or the file system knows none: then two servers may share a folder, as they can."""
    try:
        _lock(file)
    except BlockingIOError:
        return False
    except OSError as fault:
        return fault.errno not in {errno.EACCES, errno.EAGAIN, errno.EDEADLK}
    return True


def _windows_lock(file: TextIO) -> None:
    if sys.platform == "win32":
        import msvcrt

        file.seek(LOCK_AT)
        msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)


def _posix_lock(file: TextIO) -> None:
    if sys.platform != "win32":
        import fcntl

        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)


_lock: Callable[[TextIO], None] = _windows_lock if os.name == "nt" else _posix_lock


def own_files(name: str) -> Path:
    """A folder in this user's data folder."""
    from platformdirs import user_data_path

    return user_data_path("bickern", appauthor=False) / name


def own_jobs() -> Path:
    """The folder of jobs where none is named: `bickern` among this user's documents, made when it is first needed."""
    from platformdirs import user_documents_path

    folder = user_documents_path() / "bickern"
    folder.mkdir(parents=True, exist_ok=True)
    return folder
