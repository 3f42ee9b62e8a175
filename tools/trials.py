"""Tries a change: in a process of its own, runs the tests that can feel it and stops at the first that fails.

The process is a fork of one that has imported the general libraries but nothing of bickern; it imports bickern with one
file changed, so the outcome is that of editing the file and starting anew.
"""

import ast
import importlib
import importlib.abc
import importlib.machinery
import importlib.util
import os
import pickle
import signal
import sys
from collections.abc import Callable, Container, Iterable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from types import CodeType
from typing import Any

import pytest
from _pytest.runner import runtestprotocol
from hypothesis import Phase, settings
from literals import Literal, changed
from reach import Heard, Listener, hear

HEAVY = ("numpy", "shapely", "shapely.affinity", "shapely.ops", "scipy.optimize", "scipy.integrate", "scipy.spatial",
         "trimesh", "pint", "yaml")  # fmt: skip
"""General libraries of the source and the tests, imported once before anything is tried."""
PATIENCE = 20
"""Seconds that one test may take; longer counts as killed."""
EXAMPLES = 25
"""Made-up values that a test tries, where it does not say itself how many."""


@dataclass(frozen=True, slots=True)
class Verdict:
    """What became of a change: `survived`, or `failed` (a check), `raised` (any other fault), `late`; by which test."""

    how: str
    test: str = ""
    fault: str = ""


SURVIVED = Verdict("survived")


def forked(work: Callable[[], object]) -> Any:
    """What `work` gives back in a process of its own, which is silent; None where the process dies."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        status = 1
        with suppress(BaseException):
            os.close(reading)
            nowhere = os.open(os.devnull, os.O_RDWR)
            for stream in (0, 1, 2):
                os.dup2(nowhere, stream)
            answer = pickle.dumps(work())
            with os.fdopen(writing, "wb") as pipe:
                pipe.write(answer)
            status = 0
        os._exit(status)
    os.close(writing)
    with os.fdopen(reading, "rb") as pipe:
        answer = pipe.read()
    os.waitpid(child, 0)
    return pickle.loads(answer) if answer else None


class Session:
    """A plugin for pytest: collects some files, hands the tests over to `then`, and remembers the last fault."""

    def __init__(self, files: frozenset[Path], then: Callable[["Session", list[Any]], None]) -> None:
        self.files = files
        self.then = then
        self.fault: tuple[str, type[BaseException]] | None = None

    @pytest.hookimpl(tryfirst=True)
    def pytest_collection(self) -> None:
        """Few values are made up, failing ones are not made smaller, and nothing is kept."""
        phases = (Phase.explicit, Phase.generate)
        few = settings(max_examples=EXAMPLES, derandomize=True, deadline=None, database=None, phases=phases)
        settings.register_profile("few", few)
        settings.load_profile("few")

    def pytest_ignore_collect(self, collection_path: Path) -> bool | None:
        """Leaves out test files that are not asked for; naming each to pytest takes it the square of the time."""
        wanted = not self.files or collection_path in self.files or collection_path.suffix != ".py"
        return None if wanted else True

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """In place of pytest's own loop."""
        self.then(self, session.items)
        return True

    def pytest_exception_interact(self, node: Any, call: Any) -> None:
        """Called for every fault of a test and of collecting."""
        self.fault = (node.nodeid, call.excinfo.type)

    def verdict(self) -> Verdict:
        """What the last fault means."""
        if self.fault is None:
            return SURVIVED
        test, kind = self.fault
        check = issubclass(kind, AssertionError | pytest.fail.Exception)
        return Verdict("failed" if check else "raised", test, kind.__name__)

    def first_fault(self, items: Sequence[Any]) -> Verdict:
        """Runs tests until one fails."""
        for item, after in zip(items, (*items[1:], None), strict=True):
            if self.fault is not None:
                break
            signal.alarm(PATIENCE)
            runtestprotocol(item, log=False, nextitem=after)
            signal.alarm(0)
        return self.verdict()


def collect(root: Path, files: Sequence[str], then: Callable[[Session, list[Any]], None]) -> Session:
    """Collects the tests of some files (or of one folder) below `root` and calls `then` with them."""
    os.chdir(root)
    folder = root / os.path.commonpath(files)
    session = Session(frozenset(root / file for file in files if file.endswith(".py")), then)
    off = [word for name in ("cacheprovider", "xdist", "benchmark", "faulthandler") for word in ("-p", f"no:{name}")]
    pytest.main(["-q", "-s", *off, "--continue-on-collection-errors", str(folder)], plugins=[session])
    return session


def prepare(root: Path, heavy: Iterable[str] = HEAVY) -> None:
    """Imports the heavy libraries, and puts the source of `root` before any other."""
    for name in heavy:
        with suppress(ImportError):
            importlib.import_module(name)
    sys.path.insert(0, str(root / "src"))
    importlib.invalidate_caches()


def listened(root: Path, tests: str) -> Heard | None:
    """One run of all tests, unchanged; None where they cannot be collected."""

    def work() -> Heard:
        found: list[Heard] = []
        listener = Listener(root)
        sys.settrace(listener)
        session = collect(root, [tests], lambda _, items: found.append(hear(items, listener)))
        if not found:
            raise RuntimeError(session.fault)
        return found[0]

    heard: Heard | None = forked(work)
    return heard


@dataclass(frozen=True, slots=True)
class Change:
    """One number made another."""

    root: Path
    literal: Literal
    value: float

    @property
    def path(self) -> Path:
        """The file on the copy."""
        return self.root / "src" / "bickern" / self.literal.file

    @property
    def module(self) -> str:
        """The name by which the file is imported."""
        parts = ("bickern", *Path(self.literal.file).with_suffix("").parts)
        return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)

    def code(self) -> CodeType:
        """The changed file, compiled."""
        tree: ast.Module = changed(self.path.read_text(), self.literal.line, self.literal.column, self.value)
        return compile(tree, str(self.path), "exec")


class Loader(importlib.machinery.SourceFileLoader):
    """Loads the changed code."""

    def __init__(self, change: Change) -> None:
        super().__init__(change.module, str(change.path))
        self.code = change.code()

    def get_code(self, fullname: str) -> CodeType:
        """In place of what is in the file."""
        return self.code


class Finder(importlib.abc.MetaPathFinder):
    """Finds the changed module before all others."""

    def __init__(self, change: Change) -> None:
        self.loader = Loader(change)

    def find_spec(self, fullname: str, path: object, target: object = None) -> Any:
        """The changed module, and no other."""
        if fullname != self.loader.name:
            return None
        return importlib.util.spec_from_file_location(fullname, self.loader.path, loader=self.loader)


def outcome(change: Change, tests: Sequence[str], known: Container[str]) -> Verdict:
    """Imports everything with the changed file and runs tests in this order, then any whose name is not yet known."""
    reached: list[Verdict] = []
    files = sorted({test.partition("::")[0] for test in tests})

    def work() -> Verdict:
        sys.meta_path.insert(0, Finder(change))
        session = collect(change.root, files, run)
        return session.verdict() if session.fault or reached else Verdict("raised", "", "nothing collected")

    def run(session: Session, items: list[Any]) -> None:
        named = {item.nodeid: item for item in items}
        fresh = [item for item in items if item.nodeid not in known]
        reached.append(session.first_fault([*(named[t] for t in tests if t in named), *fresh]))

    return forked(work) or Verdict("late")


def values(one: Literal, step: float) -> tuple[float, float]:
    """A figure made larger and smaller by a step in per cent."""
    return one.value * (1 + step / 100), one.value * (1 - step / 100)


Attempt = Callable[[float], Verdict]


def tried(one: Literal, step: float, attempt: Attempt) -> tuple[Verdict, float]:
    """The verdict on a figure, and the value that it is about.

    A whole number is changed by one where a decimal breaks the program.
    """
    for more, whole in zip(values(one, step), (1, -1), strict=True):
        value, verdict = more, attempt(more)
        if isinstance(one.value, int) and verdict.fault == "TypeError":
            value = one.value + whole
            verdict = attempt(value)
        if verdict.how != "survived":
            return verdict, value
    return verdict, value
