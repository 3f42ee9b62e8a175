"""A real PostgreSQL for the tests: a throw-away cluster, started once, on a socket in a folder of its own."""

import itertools
import os
import pwd
import shutil
import signal
import subprocess
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

BINARIES = sorted(Path("/usr/lib/postgresql").glob("*/bin"), key=lambda folder: int(folder.parent.name))


def binary(name: str) -> str | None:
    """A program of PostgreSQL, on the path or where Debian keeps the newest."""
    kept = [str(folder / name) for folder in reversed(BINARIES) if (folder / name).is_file()]
    return shutil.which(name) or next(iter(kept), None)


def unprivileged() -> str | None:
    """Who may run it: PostgreSQL does not start as root."""
    if os.geteuid() != 0:
        return None
    known = {one.pw_name for one in pwd.getpwall()}
    return next(name for name in ("postgres", "nobody") if name in known)


class Server:
    """One cluster in a folder of its own, heard on a socket there and nowhere else."""

    def __init__(self, initdb: str, pg_ctl: str) -> None:
        self.pg_ctl, self.who = pg_ctl, unprivileged()
        self.home = Path(tempfile.mkdtemp(prefix="pg"))
        if self.who:
            shutil.chown(self.home, self.who)
        self.address = f"postgresql://smith@/{{}}?host={self.home}"
        self._does(initdb, "-D", f"{self.home}/data", "-U", "smith", "-A", "trust", "-E", "UTF8", "--no-locale")

    def _does(self, *words: str) -> None:
        subprocess.run(words, check=True, user=self.who, cwd=self.home, capture_output=True, timeout=120)

    def start(self) -> None:
        """Commits are written through to the disk, as by default."""
        settings = f"-c listen_addresses='' -c unix_socket_directories='{self.home}' -c fsync=on"
        self._does(self.pg_ctl, "-D", f"{self.home}/data", "-w", "-l", f"{self.home}/log", "-o", settings, "start")

    def kill(self) -> None:
        """Kills it as the power would, and waits until nothing of it is left."""
        first, *_ = (self.home / "data" / "postmaster.pid").read_text().splitlines()
        os.kill(int(first), signal.SIGKILL)
        while any(self._is_of(folder) for folder in Path("/proc").glob("[0-9]*")):
            time.sleep(0.1)
        # a first process that nobody has waited for looks alive to the next one; after a power cut it is truly gone
        for left in (self.home / "data" / "postmaster.pid", *self.home.glob(".s.PGSQL.*")):
            left.unlink(missing_ok=True)

    def _is_of(self, process: Path) -> bool:
        try:
            return (process / "cwd").readlink() == self.home / "data"
        except OSError:
            return False

    def end(self) -> None:
        """Stops it and takes its folder away."""
        if (self.home / "data" / "postmaster.pid").exists():
            self._does(self.pg_ctl, "-D", f"{self.home}/data", "-m", "immediate", "stop")
        shutil.rmtree(self.home, ignore_errors=True)


def new_server() -> Iterator[Server]:
    """A server that runs; skipped where PostgreSQL is not installed, which must not be in CI."""
    initdb, pg_ctl = binary("initdb"), binary("pg_ctl")
    if initdb is None or pg_ctl is None:
        if os.environ.get("CI"):
            pytest.fail("PostgreSQL is not installed: its tests may not be left out here")
        pytest.skip("PostgreSQL (initdb, pg_ctl) is not installed")
    server = Server(initdb, pg_ctl)
    server.start()
    try:
        yield server
    finally:
        server.end()


@pytest.fixture(scope="session")
def cluster() -> Iterator[str]:
    """The address of a server without its database."""
    for server in new_server():
        yield server.address


@pytest.fixture
def mortal() -> Iterator[Server]:
    """A server of one test alone, which may be killed."""
    yield from new_server()


@pytest.fixture(scope="session")
def new_database(cluster: str) -> Callable[[], str]:
    """Makes an empty place for a rack and gives its address: a schema of its own, which is made much faster."""
    import psycopg

    numbers = itertools.count(1)

    def made() -> str:
        name = f"rack{next(numbers)}"
        with psycopg.connect(cluster.format("postgres"), autocommit=True) as connection:
            connection.execute(f"CREATE SCHEMA {name}")
        return f"{cluster.format('postgres')}&options=-csearch_path%3D{name}"

    return made


@pytest.fixture(params=["sqlite", "postgresql"])
def place(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """Where a rack may be made: once a file, once a server."""
    if request.param == "sqlite":
        return str(tmp_path / "rack.sqlite")
    made: Callable[[], str] = request.getfixturevalue("new_database")
    return made()
