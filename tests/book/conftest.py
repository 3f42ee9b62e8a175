"""A real PostgreSQL for the tests: a throw-away cluster, started once, on a socket in a folder of its own."""

import itertools
import os
import pwd
import shutil
import subprocess
import tempfile
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


@pytest.fixture(scope="session")
def cluster() -> Iterator[str]:
    """The address of a server without its database; skipped where there is none, which must not be in CI."""
    initdb, pg_ctl = binary("initdb"), binary("pg_ctl")
    if initdb is None or pg_ctl is None:
        if os.environ.get("CI"):
            pytest.fail("PostgreSQL is not installed: its tests may not be left out here")
        pytest.skip("PostgreSQL (initdb, pg_ctl) is not installed")
    who = unprivileged()
    home = Path(tempfile.mkdtemp(prefix="pg"))
    if who:
        shutil.chown(home, who)

    def does(*words: str) -> None:
        subprocess.run(words, check=True, user=who, cwd=home, capture_output=True, timeout=120)

    does(initdb, "-D", f"{home}/data", "-U", "smith", "-A", "trust", "-E", "UTF8", "--no-locale")
    # only its own socket, no network; commits are written through to the disk, as by default
    settings = f"-c listen_addresses='' -c unix_socket_directories='{home}' -c fsync=on"
    does(pg_ctl, "-D", f"{home}/data", "-w", "-l", f"{home}/log", "-o", settings, "start")
    try:
        yield f"postgresql://smith@/{{}}?host={home}"
    finally:
        does(pg_ctl, "-D", f"{home}/data", "-m", "immediate", "stop")
        shutil.rmtree(home, ignore_errors=True)


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
