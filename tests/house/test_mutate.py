"""The tool that changes figures: what it takes for a figure, how it changes one, and that its reasons are not stale."""

import ast
import re
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT / "tools"))

import literals  # noqa: E402 - the tools lie beside the package, not in it
import mutate  # noqa: E402 - the same
import reach  # noqa: E402 - the same
import trials  # noqa: E402 - the same

MADE_UP = '''
"""A module with every sort of number."""
SHARE, LEAST = 0.25, 3
"""Of the whole (common practice)."""
TABLE = {16: 0.0598, 18: 0.0478}
ROW = Row(7850.0, Source("A. Smith", "A Book", 1912, "p. 3", Kind.HANDBOOK))
GUESS = Row(8900.0, Source("", "a guess", None, "", Kind.MEMORY))


class Rules:
    edge: float = 2.5


class Order(IntEnum):
    FIRST = 1


def half(a, least=4.5):
    return a * 0.5 + TABLE[16] + SHARE


def counted(rows):
    if len(rows) < 2 or rows[0] > 30.0 * rows[-1]:
        return replace(rows, width=7)
    return sum(round(rows[k + 1] ** 3, 4) for k in range(5)) % 2


def faults(a) -> "Iterator[Finding]":
    yield a * 6.5


def wanting(a) -> tuple[Finding, ...]:
    return a * 5.5


def near(a):
    return abs(a) - 1e-9
'''
FIGURES = {
    "0.25": ("SHARE", False, "prior"),
    "3": ("LEAST", False, "prior"),
    "0.0598": ("TABLE", False, ""),
    "0.0478": ("TABLE", False, ""),
    "7850.0": ("ROW", False, ""),
    "8900.0": ("GUESS", False, "prior"),
    "2.5": ("Rules.edge", False, "prior"),
    "4.5": ("half", False, ""),
    "0.5": ("half", True, ""),
    "30.0": ("counted", True, "bound"),
    "6.5": ("faults", True, ""),
    "5.5": ("wanting", True, "bound"),
    "7": ("counted", True, ""),
    "1e-9": ("near", True, "numeric"),
}
"""All figures but the exponent 3, whose text stands twice: name, whether in a body, kind as told by its place."""


def found() -> list[literals.Literal]:
    return literals.literals(MADE_UP, "made_up.py")


def test_no_number_is_passed_over():
    assert len(found()) == len(re.findall(r"(?<![\w.\"])\d+(\.\d+)?(e-\d+)?", MADE_UP.replace('"p. 3"', '""')))


def test_figures_are_told_from_structure():
    figures = [one for one in found() if not one.structure]
    assert {o.text: (o.name, o.inside, o.told) for o in figures if o.text != "3"} == {
        text: all_of for text, all_of in FIGURES.items() if text != "3"
    }
    assert [(o.name, o.told) for o in figures if o.text == "3"] == [("LEAST", "prior"), ("counted", "")]


def test_structure_is_told_by_kind():
    structure = [(one.text, one.structure) for one in found() if one.structure]
    assert structure == [
        ("16", "key"), ("18", "key"), ("1912", "year"), ("1", "rank"), ("16", "index"), ("2", "count"), ("0", "zero"),
        ("1", "index"), ("1", "index"), ("4", "digits"), ("5", "count"), ("2", "parity"),
    ]  # fmt: skip
    assert {kind for _, kind in structure} == set(literals.STRUCTURE)


def half_of_two(value: float) -> float:
    """What the made-up `half` gives of 2 when its 0.5 is another number."""
    (one,) = (o for o in found() if o.text == "0.5")
    tree = literals.changed(MADE_UP, one.line, one.column, value)
    (function,) = (node for name, node in literals.functions(tree) if name == "half")
    space = {"TABLE": {16: 0.0}, "SHARE": 0.0}
    exec(compile(ast.Module([function], []), "made_up.py", "exec"), space)
    return space["half"](2.0)


def test_one_number_is_changed_and_no_other():
    (one,) = (o for o in found() if o.text == "0.5")
    other = literals.literals(ast.unparse(literals.changed(MADE_UP, one.line, one.column, 0.505)), "made_up.py")
    assert [(a.value, b.value) for a, b in zip(found(), other, strict=True) if a.value != b.value] == [(0.5, 0.505)]
    assert half_of_two(0.505) == pytest.approx(1.01)


def verdict_of(test) -> trials.Verdict:
    def attempt(value: float) -> trials.Verdict:
        return trials.SURVIVED if test(half_of_two(value)) else trials.Verdict("failed", "test_half")

    (one,) = (o for o in found() if o.text == "0.5")
    return trials.tried(one, mutate.STEP, attempt)[0]


def test_a_change_is_killed_by_a_check_and_survives_where_there_is_none():
    assert verdict_of(lambda half: half == pytest.approx(1.0, rel=1e-3)).how == "failed"
    assert verdict_of(lambda half: half > 0.995).how == "failed"  # only the smaller one is noticed
    assert verdict_of(lambda half: half > 0.5) == trials.SURVIVED


def test_a_whole_number_that_a_decimal_breaks_is_made_one_more():
    seen = []

    def attempt(value: float) -> trials.Verdict:
        seen.append(value)
        return trials.SURVIVED if isinstance(value, int) else trials.Verdict("raised", "test", "TypeError")

    (one,) = (o for o in found() if o.text == "7")
    assert trials.tried(one, 1.0, attempt) == (trials.SURVIVED, 6)
    assert seen == pytest.approx([7.07, 8, 6.93, 6])


def project(root: Path, check: str) -> Path:
    """A small project: one table, one function that reads it, one test of it."""
    for name, text in {
        "src/bickern/__init__.py": "",
        "src/bickern/iron.py": "TABLE = {1: 2.0}\n\n\ndef twice(a):\n    return a * TABLE[1]\n",
        "tests/test_twice.py": f"from bickern.iron import twice\n\n\ndef test_twice():\n    assert {check}\n",
    }.items():
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)
    return root


def in_a_new_process(root: Path) -> tuple[trials.Heard, list[str], trials.Verdict]:
    """What a run of the small project's tests hears, which tests feel its 2.0, and what becomes of 2.02 there."""

    def work():
        for name in [m for m in sys.modules if m.partition(".")[0] == "bickern"]:
            del sys.modules[name]
        trials.prepare(root, ())
        heard = trials.listened(root, "tests")
        (one,) = (o for o in literals.literals((root / "src/bickern/iron.py").read_text(), "iron.py") if o.value == 2.0)
        tests = reach.Reach(root, heard).tests(one)
        return heard, tests, trials.outcome(trials.Change(root, one, 2.02), tests, heard.ran)

    return trials.forked(work)


def test_tests_are_found_by_what_they_run_and_a_changed_table_fails_the_one_that_checks_it(tmp_path: Path):
    heard, tests, verdict = in_a_new_process(project(tmp_path, "twice(3.0) == 6.0"))
    assert ("src/bickern/iron.py", "twice") in heard.ran["tests/test_twice.py::test_twice"]
    assert tests == ["tests/test_twice.py::test_twice"]
    assert verdict == trials.Verdict("failed", "tests/test_twice.py::test_twice", "AssertionError")


def test_a_changed_table_survives_a_test_that_hardly_looks(tmp_path: Path):
    assert in_a_new_process(project(tmp_path, "twice(3.0) > 5.0"))[2] == trials.SURVIVED


@pytest.fixture(scope="module")
def there() -> list[literals.Literal]:
    return mutate.every_literal(ROOT)


def test_every_reason_is_for_a_number_that_is_there(there: list[literals.Literal]):
    assert not mutate.nowhere(mutate.read_reasons(), there)
    gone = mutate.Reason("iron/gauge.py", "NO_SUCH", "*", "bound", "", "made up")
    assert mutate.nowhere([gone], there) == [gone]


def test_every_reason_has_a_kind_and_words_and_stands_once():
    reasons = mutate.read_reasons()
    assert not [r for r in reasons if r.kind not in mutate.KINDS or not r.reason.strip()]
    assert not [r for r in reasons if (r.kind == "rounding") != bool(r.step)]
    keys = [(r.file, r.name, r.text) for r in reasons]
    assert len(set(keys)) == len(keys)


def test_most_numbers_of_the_rooms_are_figures(there: list[literals.Literal]):
    assert len(there) >= 2000
    assert sum(not one.structure for one in there) >= 1000
