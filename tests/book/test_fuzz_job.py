"""No text and no bytes make the reader raise, hang or answer anything but a job and findings."""

import random
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bickern.book.job.asked import Job
from bickern.book.job.change import change, rewrite
from bickern.book.job.print import print_job
from bickern.book.job.read import read_job
from bickern.book.job.words import FORMS
from bickern.measure.finding import Finding

JOBS = [p.read_text() for p in sorted((Path(__file__).parent / "jobs").glob("*.yaml"))]
WORDS = sorted({k.word for f in FORMS.values() for k in f.keys})
VALUES = [
    "0",
    "-1",
    "1e99",
    "nan",
    "inf",
    "?",
    "rest",
    "1/0",
    "3/8",
    "1' 6",
    "16 ga",
    "½",
    "any",
    "point",
    "1 x ?",
    "? x ?",
    "? rd",
    "yes",
    "[]",
    "{}",
    "[[0, 0], [1, 1]]",
    "[1, 2, 3]",
    "{a: b}",
    "''",
    '"',
    "*a",
    "&a",
    "!!x",
    "|",
    "> \n",
    "# c",
    "99999999999",
    "arm.tip",
    "links 2",
    "middle of stem - 3/8",
    "end + 1",
    "1/2 1/2",
    "on edge",
    "1 x 1/4 on edge",
    "0x10",
    "1_000",
    "~",
    "null",
    "\t",
    "\u2028",
    "\ufeff",
    "\x85",
    "é",
    "٣/٨",
    "²",
    "x" * 300,
    "9" * 400,
    "1/" + "9" * 400,
    "-",
    "- -",
    ": :",
    "?:",
    ",",
    "360",
    "1e-9 mm",
]


def check(text: str | bytes) -> None:
    job, found = read_job(text, "fuzz.yaml")
    assert job is None or isinstance(job, Job)
    assert all(isinstance(f, Finding) and f.name and f.says for f in found)
    assert job is not None or any(f.stops for f in found)
    if isinstance(text, str):
        assert isinstance(rewrite(text).findings, tuple)
    if job is not None and not any(f.stops for f in found):
        again, faults = read_job(print_job(job), "fuzz.yaml")
        assert again is not None
        assert not [f for f in faults if f.stops], (faults, text)


def mutated(seed: int) -> str:
    """A real job with a few of its characters, words, values, lines or blocks put wrong."""
    dice = random.Random(seed)
    text = dice.choice(JOBS)
    for _ in range(dice.randint(1, 4)):
        text = dice.choice((_cut, _swap_value, _swap_word, _move_line, _insert, _double, _indent))(text, dice)
    return text


def _cut(text: str, dice: random.Random) -> str:
    at = dice.randrange(len(text) + 1)
    return text[:at] + text[at + dice.randint(1, 30) :]


def _swap_value(text: str, dice: random.Random) -> str:
    spots = [i for i in range(len(text) - 1) if text[i : i + 2] == ": "]
    if not spots:
        return text
    at = dice.choice(spots) + 2
    end = min((e for c in ",}]\n" if (e := text.find(c, at)) >= 0), default=len(text))
    return text[:at] + dice.choice(VALUES) + text[end:]


def _swap_word(text: str, dice: random.Random) -> str:
    here = [w for w in WORDS if f"{w}:" in text]
    return text.replace(f"{dice.choice(here)}:", f"{dice.choice(WORDS)}:", 1) if here else text


def _move_line(text: str, dice: random.Random) -> str:
    lines = text.splitlines(keepends=True)
    lines.insert(dice.randrange(len(lines)), lines.pop(dice.randrange(len(lines))))
    return "".join(lines)


def _insert(text: str, dice: random.Random) -> str:
    at = dice.randrange(len(text) + 1)
    return text[:at] + dice.choice([*VALUES, *'{}[]:,#&*!|>"%@`\n\r\t\0']) + text[at:]


def _double(text: str, dice: random.Random) -> str:
    at = dice.randrange(len(text) + 1)
    return text[:at] + text[at : at + dice.randint(1, 200)] * 2 + text[at:]


def _indent(text: str, dice: random.Random) -> str:
    lines = text.splitlines(keepends=True)
    at = dice.randrange(len(lines))
    lines[at] = " " * dice.randint(0, 6) + lines[at].lstrip()
    return "".join(lines)


@pytest.mark.parametrize("block", range(10))
def test_jobs_put_wrong_never_raise(block: int):
    for seed in range(block * 30, block * 30 + 30):
        text = mutated(seed)
        try:
            check(text)
        except Exception as bad:
            raise AssertionError(f"seed {seed}:\n{text}") from bad


@pytest.mark.soak
def test_twenty_thousand_jobs_put_wrong_never_raise():
    for seed in range(1000, 21_000):
        try:
            check(mutated(seed))
        except Exception as bad:
            raise AssertionError(f"seed {seed}:\n{mutated(seed)}") from bad


@settings(max_examples=200, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(st.one_of(st.binary(max_size=200), st.text(max_size=200)))
def test_any_text_or_bytes_never_raise(text: str | bytes):
    check(text)


TREE = st.recursive(
    st.sampled_from(VALUES),
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(st.sampled_from(WORDS), inner, max_size=4)),
    max_leaves=12,
)


def said(tree: object) -> str:
    if isinstance(tree, dict):
        return "{" + ", ".join(f'"{k}": {said(v)}' for k, v in tree.items()) + "}"
    return "[" + ", ".join(said(v) for v in tree) + "]" if isinstance(tree, list) else str(tree)


@settings(max_examples=200, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(
    st.sampled_from(["bar: 1/2 sq", "ring: 1/4 rd", "sheet: 16 ga"]),
    st.dictionaries(st.sampled_from(WORDS), TREE, max_size=6),
)
def test_known_words_in_the_wrong_places_never_raise(kind: str, words: dict[str, object]):
    rows = "".join(
        f"    {word}: {said(value)}\n" for word, value in words.items() if word not in ("bar", "ring", "sheet")
    )
    check(f"job: t\nunits: in\npieces:\n  a:\n    {kind}\n{rows}joins: {said(list(words.values()))}\n")


@pytest.mark.parametrize("seed", range(40))
def test_changes_at_odd_places_never_raise(seed: int):
    dice = random.Random(seed)
    text = mutated(seed) if seed % 2 else dice.choice(JOBS)
    path = dice.choice(
        ["job", "pieces", "pieces.arm.metal[1].over", "x.y", "[", "joins[9].ring", "joins[1].through[1]", ""]
    )
    found = change(text, path, dice.choice(VALUES))
    assert found.value is not None or found.findings
