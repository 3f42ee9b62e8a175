"""Changes every figure of the rooms `measure`, `iron` and `parts` by 1 %, and shows which changes no check notices.

    python tools/mutate.py                 all figures, against `tests/published`
    python tools/mutate.py --room iron     one room; also --file gauge.py, --line 40, --name thickness
    python tools/mutate.py --list          only lists the numbers and what they are taken for
    python tools/mutate.py --again         only those that survived, or were not tried, the last time
    python tools/mutate.py --kept          tries nothing: reports what the last runs left
    python tools/mutate.py --whole         tries every test on every figure, not only those that can feel it
    python tools/mutate.py --write         writes `docs/mutation.md` too

A figure is killed when a test fails with 1.01 times it, or else with 0.99 times it; a survivor stands both. Where the
source rounds more coarsely, `tools/survivors.csv` gives the step and the reason. A whole number that a decimal breaks
is made one more, then one less. Each change runs in a process of its own, on a copy of the source and the tests.
"""

import argparse
import csv
import json
import os
import shutil
import tempfile
import time
import traceback
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from literals import STRUCTURE, Literal, literals, numbered
from reach import Reach
from trials import Change, Verdict, listened, outcome, prepare, tried

ROOT = Path(__file__).parents[1]
ROOMS = ("measure", "iron", "parts")
TESTS = "tests/published"
REASONS = Path(__file__).with_name("survivors.csv")
PAGE = ROOT / "docs" / "mutation.md"
RESULTS = ROOT / "out" / "mutants.csv"
STEP = 1.0
"""Per cent."""
MANY_TESTS = 200
"""From so many tests on, the file of the likeliest is tried alone before the others are collected."""
KINDS = {
    "prior": "estimated or chosen, from memory or common practice: nothing printed can hold it",
    "bound": "where a finding begins or one rule gives way to another: a choice of this project",
    "print limit": "how finely something is shown",
    "numeric": "tolerances, steps and densities of the reckoning",
    "rounding": "held, but less closely than to 1 %: the source rounds more coarsely",
    "unreached": "no published test runs it: a gap",
    "gap": "published tests run it and do not notice: a gap",
}
TOLD = {
    "prior": "a default, or its source says memory, common practice or shop rule",
    "bound": "one side of a comparison, or in a function that gives findings only",
    "numeric": "smaller than 0.00001",
}
"""Why a survivor without a row in the table is of its kind: what its place in the code tells."""


@dataclass(frozen=True, slots=True)
class Reason:
    """Why numbers may survive: of which function or constant, which as written (`*`: all), kind, step in per cent."""

    file: str
    name: str
    text: str
    kind: str
    step: str
    reason: str

    def meets(self, one: Literal) -> bool:
        """Whether this is said of a number."""
        return (one.file, one.name) == (self.file, self.name) and self.text in ("*", one.text)


@dataclass(frozen=True, slots=True)
class Tried:
    """A figure and what became of it, at which value."""

    literal: Literal
    verdict: Verdict
    value: float

    @property
    def survived(self) -> bool:
        """Whether no test noticed."""
        return self.verdict.how in ("survived", "unreached")


def every_literal(root: Path) -> list[Literal]:
    """All numbers of the three rooms."""
    package = root / "src" / "bickern"
    files = [f for room in ROOMS for f in sorted((package / room).rglob("*.py"))]
    return [one for f in files for one in literals(f.read_text(), f.relative_to(package).as_posix())]


def read_reasons(path: Path = REASONS) -> list[Reason]:
    """The table of reasons, written by hand."""
    with path.open(newline="") as file:
        return [Reason(**row) for row in csv.DictReader(file)]


def reason_for(one: Literal, reasons: Iterable[Reason]) -> Reason | None:
    """What the table says of a number; a row that names it by its text goes before one for all."""
    met = sorted((r for r in reasons if r.meets(one)), key=lambda r: r.text == "*")
    return met[0] if met else None


def nowhere(reasons: Iterable[Reason], there: list[Literal]) -> list[Reason]:
    """Reasons for numbers that are no longer in the source."""
    return [r for r in reasons if not any(r.meets(one) for one in there)]


def kind_of(result: Tried, reasons: Iterable[Reason]) -> tuple[str, str]:
    """The kind of a survivor and the reason: from the table; else as its place tells; else it is a gap.

    What survives even a step as coarse as its source is no rounding any more.
    """
    if (reason := reason_for(result.literal, reasons)) and not reason.step:
        return reason.kind, reason.reason
    if told := result.literal.told:
        return told, TOLD[told]
    return ("unreached" if result.verdict.how == "unreached" else "gap"), ""


class Memory:
    """What killed before: the tests that killed a figure of the same name, and of the same file, go first."""

    def __init__(self, kept: Iterable[Tried] = ()) -> None:
        self.by: dict[str, Counter[str]] = defaultdict(Counter)
        for result in kept:
            self.add(result)

    def add(self, result: Tried) -> None:
        """Remembers one result."""
        if result.verdict.test:
            one = result.literal
            for key in (one.file, f"{one.file}:{one.name}"):
                self.by[key][result.verdict.test] += 1

    def ordered(self, one: Literal, tests: list[str]) -> list[str]:
        """Tests with the likeliest first; the order of the others is kept."""
        likely = [self.by[key] for key in (f"{one.file}:{one.name}", one.file)]
        return sorted(tests, key=lambda test: tuple(-known[test] for known in likely))


def copied(tree: Path, to: Path) -> Path:
    """A copy of source and tests, so that editing goes on while figures are tried."""
    for name in ("src", "tests", "examples", "docs", "tools"):
        if (tree / name).exists():
            shutil.copytree(tree / name, to / name, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(tree / "pyproject.toml", to)
    return to


def try_one(root: Path, one: Literal, reach: Reach, memory: Memory, step: float) -> Tried:
    """A figure's fate."""
    tests = memory.ordered(one, reach.tests(one))
    if not tests:
        return Tried(one, Verdict("unreached"), one.value)

    def attempt(value: float) -> Verdict:
        for part in parted(tests):
            verdict = outcome(Change(root, one, value), part, reach.heard.ran)
            if verdict.how != "survived":
                break
        return verdict

    return Tried(one, *tried(one, step, attempt))


def parted(tests: list[str]) -> list[list[str]]:
    """Where there are many tests, those in the file of the first one, and the others."""
    first = tests[0].partition("::")[0]
    mine = [t for t in tests if t.startswith(f"{first}::")]
    return [mine, [t for t in tests if t not in set(mine)]] if MANY_TESTS < len(tests) > len(mine) else [tests]


def try_all(root: Path, asked: list[Literal], kept: list[Tried], jobs: int, whole: bool) -> Iterator[Tried]:
    """The fate of every figure, as it becomes known; `jobs` processes share them out."""
    prepare(root)
    heard = listened(root, TESTS)
    if heard is None:
        raise SystemExit(f"{TESTS} cannot be collected as it stands")
    for test in heard.failed:
        print(f"left out, fails before anything is changed: {test}")
    reach, reasons, memory = Reach(root, heard, whole), read_reasons(), Memory(kept)

    def share(job: int) -> None:
        for at in range(job, len(asked), jobs):
            reason = reason_for(asked[at], reasons)
            result = try_one(root, asked[at], reach, memory, float(reason.step or STEP) if reason else STEP)
            memory.add(result)
            verdict = result.verdict
            told = json.dumps([at, verdict.how, verdict.test, verdict.fault, result.value])
            os.write(writing, f"{told}\n".encode())

    reading, writing = os.pipe()
    for job in range(jobs):
        if os.fork() == 0:
            try:
                share(job)
            except BaseException:
                traceback.print_exc()
            finally:
                os._exit(0)
    os.close(writing)
    with os.fdopen(reading) as lines:
        for line in lines:
            at, how, test, fault, value = json.loads(line)
            yield Tried(asked[at], Verdict(how, test, fault), value)


COLUMNS = ("file", "name", "text", "which", "how", "test", "fault", "value")


def keep(results: Iterable[Tried], there: list[Literal], path: Path = RESULTS) -> None:
    """Writes results down: by file, name, text and which of those alike, for lines move."""
    which = {(one.file, one.line, one.column): key for key, one in numbered(there).items()}
    path.parent.mkdir(exist_ok=True)
    with path.open("w", newline="") as file:
        out = csv.writer(file, lineterminator="\n")
        out.writerow(COLUMNS)
        for r in results:
            key = which[r.literal.file, r.literal.line, r.literal.column]
            out.writerow((*key, r.verdict.how, r.verdict.test, r.verdict.fault, repr(r.value)))


def kept_results(there: list[Literal], path: Path = RESULTS) -> list[Tried]:
    """What the last runs left, for numbers that still stand as they stood."""
    if not path.exists():
        return []
    by_key = numbered(there)
    with path.open(newline="") as file:
        rows = [(r["file"], r["name"], r["text"], int(r["which"]), r) for r in csv.DictReader(file)]
    return [
        Tried(by_key[a, b, c, d], Verdict(r["how"], r["test"], r["fault"]), float(r["value"]))
        for a, b, c, d, r in rows
        if (a, b, c, d) in by_key
    ]


def row(result: Tried) -> str:
    """A line of the table."""
    one, verdict = result.literal, result.verdict
    where = f"{one.file}:{one.line}"
    by = f"{verdict.test.removeprefix(f'{TESTS}/')} {verdict.fault if verdict.how == 'raised' else ''}".rstrip()
    return f"{where:34} {one.name[:30]:30} {one.text:>9}  {verdict.how:9} {by}".rstrip()


def structure_lines(there: Iterable[Literal]) -> list[str]:
    """The numbers that are no figures, by kind."""
    counts = Counter(one.structure for one in there if one.structure)
    return [f"{counts[kind]:6} {kind}: {says}" for kind, says in STRUCTURE.items() if counts[kind]]


def by_kind(results: Iterable[Tried], reasons: list[Reason]) -> dict[str, list[tuple[Tried, str]]]:
    """The survivors with their reasons, under their kinds."""
    found: dict[str, list[tuple[Tried, str]]] = {kind: [] for kind in KINDS}
    for result in results:
        if result.survived:
            kind, says = kind_of(result, reasons)
            found[kind].append((result, says))
    return found


def summary(results: list[Tried], reasons: list[Reason]) -> list[str]:
    """Counts, the kinds of the survivors, and the reasons that are stale."""
    how = Counter(r.verdict.how for r in results)
    left = by_kind(results, reasons)
    lines = [f"{len(results)} figures tried: " + ", ".join(f"{n} {name}" for name, n in sorted(how.items()))]
    lines += [f"{len(met):6} {kind}: {KINDS[kind]}" for kind, met in left.items() if met]
    for kind in ("gap", "unreached"):
        places = Counter(f"{r.literal.file}: {r.literal.name}" for r, says in left[kind] if not says)
        lines += [f"no reason yet ({kind}): {place} ({n})" for place, n in sorted(places.items())]
    for reason in reasons:
        met = [r for r in results if reason.meets(r.literal)]
        if met and not reason.step and not any(r.survived for r in met):
            lines.append(f"stale reason, all are killed: {reason.file}: {reason.name} {reason.text}")
    return lines


INTRO = """# Which figures the checks hold

Every number in the rooms `measure`, `iron` and `parts` was changed by 1 %, one at a time, first up and then down, and
the tests in `tests/published` were run with it. A figure is **held** when at least one of them fails. A figure that
stands both changes is listed below, with the reason: what no test notices, no printed figure holds.

A figure whose change makes the program break off counts apart: that shows that it is used, not that it is right.
Structure (noughts, places in a list, numbers of rows, years) is not tried; it is counted at the end.

This page is written by `python tools/mutate.py --write`; reasons stand in `tools/survivors.csv`, and where it says
nothing, the kind is told by the number's place: a source marked as memory or common practice, a default, one side of
a comparison or a function that gives findings only, a size under 0.00001.

"""


def rooms_table(results: list[Tried], reasons: list[Reason]) -> str:
    """Counts by room."""
    lines = [
        "| room | figures | held | held at the source's rounding | breaks off | survive |",
        "|---|---|---|---|---|---|",
    ]
    for room in (*ROOMS, "all"):
        mine = [r for r in results if room in (r.literal.file.split("/")[0], "all")]
        stepped = [r for r in mine if (q := reason_for(r.literal, reasons)) and q.step]
        coarse = sum(r.verdict.how == "failed" for r in stepped)
        how = Counter(r.verdict.how for r in mine)
        broken, left = how["raised"] + how["late"], how["survived"] + how["unreached"]
        lines.append(f"| {room} | {len(mine)} | {how['failed'] - coarse} | {coarse} | {broken} | {left} |")
    return "\n".join(lines) + "\n"


def survivors_table(met: list[tuple[Tried, str]]) -> str:
    """Survivors of one kind, those of one file and reason on one line."""
    lines: dict[tuple[str, str], dict[str, list[str]]] = defaultdict(lambda: defaultdict(list))
    for result, says in met:
        one = result.literal
        lines[one.file, says or "no reason yet"][one.name].append(one.text)
    rows = [f"| `{file}` | {_names(names)} | {says} |" for (file, says), names in lines.items()]
    return "\n".join(("| file | of what: figures | why |", "|---|---|---|", *rows)) + "\n"


def _names(names: dict[str, list[str]]) -> str:
    return "; ".join(f"`{name}`: {_texts(texts)}" for name, texts in names.items())


def _texts(texts: list[str]) -> str:
    return ", ".join(text if n == 1 else f"{text} ({n} times)" for text, n in Counter(texts).items())


def page(results: list[Tried], there: list[Literal], reasons: list[Reason]) -> str:
    """The whole page."""
    parts = [INTRO, rooms_table(results, reasons)]
    for kind, met in by_kind(results, reasons).items():
        if met:
            parts.append(
                f"\n## {kind.capitalize()}: {len(met)}\n\n{KINDS[kind].capitalize()}.\n\n{survivors_table(met)}"
            )
    steps = [f"| `{q.file}` | `{q.name}` | {q.text} | {q.step} % | {q.reason} |" for q in reasons if q.step]
    if steps:
        parts.append("\n## Held at the source's rounding\n\nThese were changed by more than 1 %.\n\n")
        parts.append("\n".join(("| file | name | figures | step | why |", "|---|---|---|---|---|", *steps)) + "\n")
    listed = "\n".join(f"- {line.strip()}" for line in structure_lines(there))
    return "".join(parts) + f"\n## Not tried\n\n{listed}\n"


def options(words: list[str] | None = None) -> argparse.Namespace:
    """What is asked for on the command line."""
    asks = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    asks.add_argument("--room", choices=ROOMS)
    asks.add_argument("--file", help="the end of a file's name, as bar/rules.py")
    asks.add_argument("--line", type=int)
    asks.add_argument("--name", help="a function or a constant")
    asks.add_argument("--jobs", type=int, default=2)
    asks.add_argument("--tree", type=Path, default=ROOT, help="another checkout to try")
    for word in ("list", "again", "kept", "whole", "write"):
        asks.add_argument(f"--{word}", action="store_true")
    return asks.parse_args(words)


def chosen(there: list[Literal], asked: argparse.Namespace) -> list[Literal]:
    """The numbers asked for."""
    return [
        one
        for one in there
        if (not asked.room or one.file.startswith(f"{asked.room}/"))
        and (not asked.file or one.file.endswith(asked.file))
        and (not asked.line or one.line == asked.line)
        and (not asked.name or one.name == asked.name)
    ]


def show_list(there: list[Literal]) -> None:
    """Prints the numbers and what they are taken for."""
    for one in there:
        taken = one.structure or ("figure" if one.inside else "figure, imported")
        print(f"{one.file}:{one.line}:{one.column:<4} {one.name[:40]:40} {one.text:>9}  {taken} {one.told}".rstrip())
    print(f"{len(there)} numbers, {sum(not one.structure for one in there)} figures; not tried:")
    print("\n".join(structure_lines(there)))


def run(asked: argparse.Namespace, there: list[Literal], root: Path) -> list[Tried]:
    """Tries what is asked for, prints the table, and keeps the results with those of earlier runs."""
    kept = {r.literal: r for r in kept_results(there)}
    figures = [one for one in chosen(there, asked) if not one.structure]
    if asked.again:
        figures = [one for one in figures if one not in kept or kept[one].survived]
    start, done = time.perf_counter(), dict[Literal, Tried]()
    try:
        for result in [] if asked.kept else try_all(root, figures, list(kept.values()), asked.jobs, asked.whole):
            done[result.literal] = result
            print(row(result), flush=True)
    finally:
        # read again: another run may have written meanwhile
        kept = {r.literal: r for r in kept_results(there)} | done
        keep([kept[one] for one in there if one in kept], there)
    print(f"{(time.perf_counter() - start) / 60:.1f} min")
    return [kept[one] for one in chosen(there, asked) if one in kept]


def main() -> None:
    """Lists, tries, prints, writes."""
    asked = options()
    with tempfile.TemporaryDirectory() as folder:
        root = copied(asked.tree.resolve(), Path(folder).resolve())
        there = every_literal(root)
        if asked.list:
            show_list(chosen(there, asked))
            return
        reasons = read_reasons()
        results = run(asked, there, root)
        print("\n".join(("", *(row(r) for r in results if r.survived), "", *summary(results, reasons))))
        print("not tried:", *structure_lines(chosen(there, asked)), sep="\n")
        for lost in nowhere(reasons, there):
            print(f"stale reason, no such number: {lost.file}: {lost.name} {lost.text}")
        if asked.write:
            PAGE.write_text(page(results, there, reasons))
            print(PAGE.relative_to(ROOT))


if __name__ == "__main__":
    main()
