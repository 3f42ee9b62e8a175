"""The stairs are walked down only, every room says what it is for, and functions stay small."""

import ast
import re
import statistics
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
SRC = ROOT / "src" / "bickern"
FILES = sorted(SRC.rglob("*.py"))
ROOMS = sorted({f.parent for f in FILES if f.parent != SRC})


def test_imports_go_down_only():
    lint = Path(sys.executable).with_name("lint-imports")
    run = subprocess.run([lint], cwd=ROOT, capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stdout[-3000:]


@pytest.mark.parametrize("room", ROOMS, ids=lambda r: str(r.relative_to(SRC)))
def test_every_floor_and_room_has_a_short_readme(room: Path):
    readme = room / "README.md"
    assert readme.is_file(), f"{room} has no README.md"
    assert len(readme.read_text().strip().splitlines()) <= 15


@pytest.mark.parametrize("room", ROOMS, ids=lambda r: str(r.relative_to(SRC)))
def test_a_readme_names_no_bench_that_is_not_there(room: Path):
    """Written `name.py` or, where the whole page leaves the ending out, `name` at the head of its line."""
    text = (room / "README.md").read_text()
    named = re.findall(r"`([a-z_0-9]+\.py)`", text)
    named += [f"{name}.py" for name in re.findall(r"^- `([a-z_0-9]+)`", text, re.MULTILINE)]
    there = {p.name for p in room.glob("*.py")} | {f"{p.name}.py" for p in room.iterdir() if p.is_dir()}
    assert not set(named) - there


@pytest.mark.parametrize("room", ROOMS, ids=lambda r: str(r.relative_to(SRC)))
def test_every_room_stands_in_the_list_of_words(room: Path):
    assert f"`{room.relative_to(SRC)}`" in (ROOT / "docs" / "words.md").read_text()


def functions() -> list[tuple[int, str]]:
    """Lines of every function's body, docstring left out."""
    found = []
    for file in FILES:
        for node in ast.walk(ast.parse(file.read_text())):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
                first = node.body[1] if ast.get_docstring(node) and len(node.body) > 1 else node.body[0]
                found.append(((node.end_lineno or 0) - first.lineno + 1, f"{file.name}:{node.name}"))
    return sorted(found)


def test_functions_are_small():
    lines = [n for n, _ in functions()]
    assert statistics.median(lines) <= 8
    assert lines[int(0.9 * (len(lines) - 1))] <= 30
    assert lines[-1] <= 60, functions()[-5:]


def test_files_are_short():
    long = {f.name: n for f in FILES if (n := f.read_text().count("\n")) > 500}
    assert not long


def test_no_room_is_a_box_of_leftovers():
    names = {p.stem for p in SRC.rglob("*")}
    assert not names & {"utils", "util", "common", "helpers", "helper", "core", "base", "misc"}


def test_every_lint_ignore_gives_its_reason():
    bare = [
        f"{f.name}:{i}"
        for f in FILES
        for i, line in enumerate(f.read_text().splitlines(), 1)
        if ("# noqa" in line or "# type: ignore" in line) and line.count("#") < 2 and " - " not in line.split("# ")[-1]
    ]
    assert not bare
