"""Edits of a job's text: what changes is what was meant and nothing else, and every remark stays where it was.

What a text says is read here by PyYAML's own loader, which shares no code with the reader that the edits use.
"""

import random
import re
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bickern.book.job.edit import add_entry, add_word, move, put, take_out
from bickern.book.job.pieces import add_piece, copy_piece, drop_piece, rename_piece
from bickern.book.job.read import read_job

ROOT = Path(__file__).parents[3]
SHIPPED = sorted((ROOT / "src/bickern/book/examples").glob("*.yaml"))
BY_HAND = sorted((ROOT / "tests/book/jobs").glob("*.yaml"))
TEXTS = {f.stem: f.read_text(encoding="utf-8") for f in (*SHIPPED, *BY_HAND)}
TYPED = [
    "3", "3 1/", "3 1/4", "1,5 mm", "1/2 #4", "#10", "a: b", "a:", "'", '"', '3"', "it's", "-", "- 1", "-1/2", "?",
    "? rd", "[", "{a", "a]", "x, y", "&a", "*b", "!t", "|", ">", "%", "@", "`", "tip #2", "Ä ½ “x”", "no", "1:30", "~",
    "null", "---", "...", "012", "2026-11-25", "a\\b", "\\", "'a'", '"a"', "a 'b", "x ", " x", "= 1", "<<",
]  # fmt: skip
HIDDEN = "\ue000"
MANY = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


def says(text: str) -> Any:
    """The text as PyYAML's own loader has it, every value left as text; `?` is a letter to a smith."""
    return yaml.load(text.replace("?", HIDDEN), Loader=yaml.BaseLoader)


def remarks(text: str) -> list[str]:
    """Every remark; no value in these files has a # behind a blank."""
    return re.findall(r"(?:^|(?<=\s))#.*", text.replace("\r", ""), re.MULTILINE)


def paths(value: Any, path: str = "") -> list[tuple[str, Any]]:
    """Every path below a value as findings write it, with what stands there."""
    found: list[tuple[str, Any]] = []
    inner = (
        [(f"{path}.{k}" if path else k, v) for k, v in value.items()]
        if isinstance(value, dict)
        else [(f"{path}[{i}]", v) for i, v in enumerate(value, 1)]
        if isinstance(value, list)
        else []
    )
    for below, v in inner:
        found += [(below.replace(HIDDEN, "?"), v), *paths(v, below)]
    return found


def holder(data: Any, path: str) -> tuple[Any, Any]:
    """The list or group that holds what stands at a path, and its number or word there."""
    steps = re.findall(r"\.?([^.\[\]]+)|\[(\d+)\]", path)
    keys = [int(n) - 1 if n else w.replace("?", HIDDEN) for w, n in steps]
    for key in keys[:-1]:
        data = data[key]
    return data, keys[-1]


def outside(old: str, new: str, line: int = 0) -> tuple[str, str]:
    """What of the old text differs from the new, and what of the new from the old: all before and behind is alike."""
    a = 0
    while a < min(len(old), len(new)) and old[a] == new[a]:
        a += 1
    b = 0
    while b < min(len(old), len(new)) - a and old[len(old) - 1 - b] == new[len(new) - 1 - b]:
        b += 1
    return old[a : len(old) - b], new[a : len(new) - b]


def drawn(seed: int, kinds: tuple[type, ...]) -> tuple[str, str, Any]:
    """A shipped or written job, and one path in it to a value of that kind."""
    dice = random.Random(seed)
    text = TEXTS[dice.choice(sorted(TEXTS))]
    if dice.random() < 0.2:
        text = text.replace("\n", "\r\n")
    there = [p for p in paths(says(text)) if isinstance(p[1], kinds)]
    path, value = dice.choice(there)
    return text, path, value


SEEDS = st.integers(0, 2**32)


@MANY
@given(SEEDS, st.sampled_from(TYPED))
def test_a_value_put_in_is_that_value_and_nothing_else_is_changed(seed: int, typed: str):
    text, path, _ = drawn(seed, (str,))
    done = put(text, path, typed).value
    assert done is not None
    meant = says(text)
    group, key = holder(meant, path)
    group[key] = typed.replace("?", HIDDEN)
    assert says(done) == meant
    assert remarks(done) == remarks(text) or "#" in typed
    old, new = outside(text, done)
    assert len(old) <= len(group[key]) + 2 + len(str(dict(paths(says(text)))[path]))
    assert "\n" not in old + new


@MANY
@given(SEEDS, st.lists(st.sampled_from(TYPED), min_size=1, max_size=4))
def test_put_and_put_back_gives_the_same_letters(seed: int, typed: list[str]):
    text, path, value = drawn(seed, (str,))
    now = text
    for one in typed:
        now = put(now, path, one).value or ""
    assert put(now, path, value.replace(HIDDEN, "?")).value == text


@MANY
@given(SEEDS)
def test_taken_out_is_gone_with_the_remarks_on_its_lines_only(seed: int):
    text, path, _ = drawn(seed, (str, dict, list))
    done = take_out(text, path).value
    if done is None:
        assert "." not in path
        assert "[" not in path
        return
    meant = says(text)
    group, key = holder(meant, path)
    while isinstance(group, list) and len(group) == 1:
        path = path.rpartition("[")[0]
        group, key = holder(meant, path)
    del group[key]
    assert says(done) == meant
    old, _ = outside(text, done)
    left, had = remarks(done), remarks(text)
    for one in left:
        had.remove(one)
    assert all(one in old or old.rstrip().endswith(one[-1]) for one in had)


@MANY
@given(SEEDS, st.integers(-3, 3))
def test_moved_stands_so_many_places_on_and_all_remarks_are_there(seed: int, by: int):
    text, path, _ = drawn(seed, (dict, list))
    group, key = holder(says(text), path)
    done = move(text, path, by).value
    assert done is not None
    assert sorted(remarks(done)) == sorted(remarks(text))
    after, _ = holder(says(done), path)
    before = list(group) if isinstance(group, dict) else group
    i = before.index(key) if isinstance(group, dict) else key
    to = max(0, min(len(before) - 1, i + by))
    rest = [*before[:i], *before[i + 1 :]]
    assert list(after) == [*rest[:to], before[i], *rest[to:]]
    assert sorted(paths_of_words(says(done))) == sorted(paths_of_words(says(text)))


def paths_of_words(value: Any) -> list[str]:
    return [str(v) for _, v in paths(value) if isinstance(v, str)]


@MANY
@given(SEEDS, st.sampled_from(TYPED))
def test_a_word_added_is_there_once_and_taken_out_again_gives_the_same_letters(seed: int, typed: str):
    text, path, _ = drawn(seed, (dict,))
    done = add_word(text, path, "turn", typed).value
    group = dict(paths(says(text)))[path]
    if "turn" in group:
        assert done is None
        return
    assert done is not None
    found = dict(paths(says(done)))[path]
    assert found.pop("turn") == typed.replace("?", HIDDEN)
    assert found == group
    assert remarks(done) == remarks(text) or "#" in typed
    assert take_out(done, f"{path}.turn").value == text


@MANY
@given(SEEDS)
def test_an_entry_added_is_the_last_and_taken_out_again_gives_the_same_letters(seed: int):
    text, path, value = drawn(seed, (list,))
    if not any(isinstance(v, dict) for v in value):
        return
    done = add_entry(text, path, {"over": "3 1/", "to": "1/2 sq"}).value
    assert done is not None
    assert dict(paths(says(done)))[path] == [*value, {"over": "3 1/", "to": "1/2 sq"}]
    assert remarks(done) == remarks(text)
    assert take_out(done, f"{path}[{len(value) + 1}]").value == text


@pytest.mark.parametrize("name", sorted(TEXTS))
def test_a_piece_added_copied_and_taken_out_again_leaves_the_job_as_it_was(name: str):
    text = TEXTS[name]
    for done in (add_piece(text, "new one", "bar"), copy_piece(text, next(iter(says(text)["pieces"])), "new one")):
        assert done.value is not None, done.findings
        after = says(done.value)
        after["pieces"].pop("new one")
        assert after == says(text)
        assert not [r for r in remarks(text) if r not in remarks(done.value)]
        assert drop_piece(done.value, "new one").value == text


@pytest.mark.parametrize("name", sorted(TEXTS))
def test_a_piece_renamed_and_renamed_back_gives_the_same_letters(name: str):
    text = TEXTS[name]
    _, findings = read_job(text, "")
    for piece in says(text)["pieces"]:
        done = rename_piece(text, piece, "zebra").value
        assert done is not None
        assert [f.name for f in read_job(done, "")[1]] == [f.name for f in findings]
        assert rename_piece(done, "zebra", piece).value == text


@pytest.mark.parametrize("kind", ["bar", "ring", "sheet"])
@pytest.mark.parametrize("head", ["units: in\n", "units: mm\n", ""])
@pytest.mark.parametrize(
    "pieces", ["", "pieces:\n", "pieces:   # none yet\n", "pieces: {}\n", "pieces: {a: {bar: any}}\n"]
)
def test_a_new_piece_can_be_reckoned_as_it_is(kind: str, head: str, pieces: str):
    done = add_piece(f"job: x\n{head}{pieces}", "first", kind).value
    assert done is not None
    assert "# none yet" in done or "#" not in pieces
    job, findings = read_job(done, "")
    assert job is not None
    assert "first" in [p.name for p in job.pieces]
    assert not [f for f in findings if f.stops and f.where.path != "pieces.a"]
