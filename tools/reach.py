"""Which tests can feel that a number is changed: those that run its function, or that run what reads its constant."""

import ast
import functools
import gc
import inspect
import sys
import time
from dataclasses import dataclass, field
from pathlib import Path
from types import FrameType
from typing import Any

from _pytest.runner import runtestprotocol
from literals import Literal, functions, last_name, mentioned

Place = tuple[str, str]
"""A file and the outermost function or method in it."""


@dataclass
class Heard:
    """One run of all tests, unchanged: what ran while importing; for each test what it ran, and its seconds."""

    importing: set[Place] = field(default_factory=set)
    ran: dict[str, set[Place]] = field(default_factory=dict)
    seconds: dict[str, float] = field(default_factory=dict)
    failed: list[str] = field(default_factory=list)


class Listener:
    """Notes which functions of a folder are called."""

    def __init__(self, root: Path) -> None:
        self.root = f"{root}/"
        self.now: set[Place] = set()

    def __call__(self, frame: FrameType, event: str, arg: object) -> None:
        """For `sys.settrace`: told of every call, and of nothing inside it."""
        code = frame.f_code
        if code.co_filename.startswith(self.root):
            self.now.add((code.co_filename, code.co_qualname))

    def minds(self, cache: Any) -> bool:
        """Whether what is remembered comes from a function of the folder."""
        code = getattr(inspect.unwrap(cache), "__code__", None)
        return code is not None and code.co_filename.startswith(self.root)

    def taken(self) -> set[Place]:
        """What was called since the last time, inner functions counted as the outermost."""
        taken = {(f.removeprefix(self.root), name.partition(".<locals>")[0]) for f, name in self.now}
        self.now.clear()
        return taken


def hear(items: list[Any], listener: Listener) -> Heard:
    """Runs every collected test by itself and notes what it calls; what is remembered between tests is forgotten."""
    heard = Heard(importing=listener.taken())
    sys.settrace(None)
    remembered = [o for o in gc.get_objects() if isinstance(o, functools._lru_cache_wrapper) and listener.minds(o)]
    for item in items:
        for cache in remembered:
            cache.cache_clear()
        start = time.perf_counter()
        sys.settrace(listener)
        reports = runtestprotocol(item, log=False, nextitem=None)
        sys.settrace(None)
        heard.seconds[item.nodeid] = time.perf_counter() - start
        heard.ran[item.nodeid] = listener.taken()
        if any(report.failed for report in reports):
            heard.failed.append(item.nodeid)
    return heard


@dataclass
class Statement:
    """A statement reckoned while importing: the names it sets, and the names it reads."""

    sets: set[str]
    reads: set[str]


class Reach:
    """Finds, by bare names, what a number can change. It errs on the side of too many tests."""

    def __init__(self, root: Path, heard: Heard, whole: bool = False) -> None:
        self.heard = heard
        self.whole = whole
        self.statements: list[Statement] = []
        self.reads: dict[Place, set[str]] = {}
        for path in sorted((*(root / "src").rglob("*.py"), *(root / "tests").rglob("*.py"))):
            tree = ast.parse(path.read_text())
            where = str(path.relative_to(root))
            self.reads |= {(where, name): mentioned(node) for name, node in functions(tree)}
            for node in tree.body:
                self.statements += _statements(node)
        self.known: dict[str, frozenset[str]] = {}

    def tests(self, one: Literal) -> list[str]:
        """The tests that can feel a change of this number, those that take least time first."""
        place = (f"src/bickern/{one.file}", one.name)
        met = {place}
        if not one.inside or place in self.heard.importing:
            names = self._names(one.name)
            met |= {p for p, reads in self.reads.items() if reads & names or p[1].split(".")[-1] in names}
        felt = [test for test, ran in self.heard.ran.items() if self.whole or not ran.isdisjoint(met)]
        return sorted((t for t in felt if t not in self.heard.failed), key=self.heard.seconds.__getitem__)

    def _names(self, name: str) -> frozenset[str]:
        """All names whose value hangs on a constant, a field of a class or a function that runs while importing."""
        if name not in self.known:
            names = _bare(name)
            before = 0
            while len(names) > before:
                before = len(names)
                for statement in self.statements:
                    if statement.reads & names:
                        names |= statement.sets
                for place in self.heard.importing:
                    if self.reads.get(place, set()) & names:
                        names |= _bare(place[1])
            self.known[name] = frozenset(names)
        return self.known[name]


def _bare(name: str) -> set[str]:
    """The names under which something is read: a field or a special method by its class, a method by its own too."""
    owner, _, last = name.rpartition(".")
    special = last.startswith("__") or not last.isidentifier()
    return ({owner.split(".")[0]} if owner else set()) | (set() if special else {last})


def _statements(node: ast.stmt) -> list[Statement]:
    """What a statement of a module sets and reads; of a function only its defaults and decorators, of a class all."""
    match node:
        case ast.ImportFrom() | ast.Import():
            return [Statement({a.asname}, {a.name.split(".")[-1]}) for a in node.names if a.asname]
        case ast.FunctionDef():
            a = node.args
            outside = (*node.decorator_list, *a.defaults, *(d for d in a.kw_defaults if d))
            return [Statement({node.name}, {name for part in outside for name in mentioned(part)})]
        case ast.ClassDef():
            inner = [s for part in node.body for s in _statements(part)]
            reads = {name for part in (*node.bases, *node.decorator_list) for name in mentioned(part)}
            return [Statement({node.name}, reads | {name for s in inner for name in s.reads})]
        case ast.Assign(targets=targets, value=value):
            return [Statement({last_name(n) for t in targets for n in ast.walk(t)} - {""}, mentioned(value))]
        case ast.AnnAssign(target=target, value=value) if value is not None:
            return [Statement({last_name(target)} - {""}, mentioned(value))]
    names = mentioned(node)
    return [Statement(names, names)]
