"""The page as a newcomer starts it: the real command in a process of its own, and a real browser before it."""

import importlib.util
import os
import re
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from queue import Empty, Queue
from threading import Thread
from urllib.parse import quote

import bickern.book.examples

ROOT = Path(__file__).parents[2]
EXAMPLES = Path(bickern.book.examples.__path__[0])
SLOW = 60.0
"""Seconds that a start may take on a busy machine."""
LAUNCH = ("--no-sandbox", "--disable-background-networking", "--disable-dev-shm-usage", "--force-color-profile=srgb")


def browser_path() -> str | None:
    """Where the browser is that the tests drive, or None."""
    spec = importlib.util.spec_from_file_location("browser_there", ROOT / "tools" / "browser.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    found: str | None = module.found()
    return found


class Served:
    """`bickern open` on a folder of its own, with a rack and a data folder of its own."""

    def __init__(self, home: Path, *words: str, **environment: str) -> None:
        self.home, self.folder, self.rack = home, home / "jobs", home / "rack.sqlite"
        self.words, self.environment = words, environment
        self.folder.mkdir(parents=True, exist_ok=True)
        self.port = 0
        self.said = ""
        self._process: subprocess.Popen[str] | None = None

    @property
    def url(self) -> str:
        """Its address, without a stroke at the end."""
        return f"http://127.0.0.1:{self.port}"

    @property
    def pid(self) -> int:
        """The process that serves."""
        assert self._process is not None
        return self._process.pid

    def at(self, job: str, way: str = "") -> str:
        """The address of a view of a job."""
        return f"{self.url}/job/{quote(job)}" + (f"/{way}" if way else "")

    def job(self, example: str = "porch-lantern", name: str = "") -> str:
        """Puts an example into the folder; its file's name."""
        name = name or f"{example}.yaml"
        shutil.copyfile(EXAMPLES / f"{example}.yaml", self.folder / name)
        return name

    def text(self, job: str) -> str:
        """What is in the file now."""
        return (self.folder / job).read_text(encoding="utf-8")

    def start(self) -> "Served":
        """Starts it, on the port that it had before, and waits until it answers."""
        words = [sys.executable, "-u", "-m", "bickern.cli", "open", "--no-browser", "--folder", str(self.folder)]
        words += ["--rack", str(self.rack), "--port", str(self.port), *self.words]
        kept = {k: v for k, v in os.environ.items() if not k.startswith(("BICKERN_", "NICEGUI_", "DISPLAY"))}
        own = {"XDG_DATA_HOME": str(self.home / "data"), "PYTHONPATH": str(ROOT / "src"), "HOME": str(self.home)}
        self._process = subprocess.Popen(
            words,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
            cwd=self.home,
            env={**kept, **own, **self.environment},
        )
        lines: Queue[str] = Queue()
        Thread(target=_heard, args=(self._process, lines), daemon=True).start()
        self.port = self._port(lines)
        return self

    def _port(self, lines: "Queue[str]") -> int:
        until = time.monotonic() + SLOW
        said: list[str] = []
        while time.monotonic() < until:
            try:
                said.append(lines.get(timeout=0.2))
            except Empty:
                if self._process is not None and self._process.poll() is not None:
                    break
                continue
            if found := re.search(r"open at http://127\.0\.0\.1:(\d+)/", said[-1]):
                self.said = "".join(said)
                return int(found[1])
        self.stop(kill=True)
        raise RuntimeError(f"it did not start: {''.join(said)}")

    def stop(self, *, kill: bool = False) -> None:
        """Ends it, as Ctrl-C does or as a power cut does."""
        if self._process is None:
            return
        self._process.send_signal(signal.SIGKILL if kill else signal.SIGINT)
        try:
            self._process.wait(20)
        except subprocess.TimeoutExpired:
            self._process.kill()
            self._process.wait(20)
        self._process = None

    def memory(self) -> int:
        """Bytes that it holds now."""
        told = Path(f"/proc/{self.pid}/status").read_text(encoding="ascii")
        found = re.search(r"VmRSS:\s+(\d+) kB", told)
        assert found is not None
        return int(found[1]) * 1024


def _heard(process: "subprocess.Popen[str]", lines: "Queue[str]") -> None:
    """Everything that it says, so that it never waits for somebody to listen."""
    assert process.stdout is not None
    for line in process.stdout:
        lines.put(line)


@contextmanager
def serving(home: Path, *words: str, **environment: str) -> Iterator[Served]:
    """A server for as long as it is wanted."""
    served = Served(home, *words, **environment)
    try:
        yield served.start()
    finally:
        served.stop()
