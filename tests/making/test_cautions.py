"""Cautions: none that applies is missing, none that does not apply is there."""

import itertools
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bickern.desk.reckon import reckon_file
from bickern.iron.steel import STEELS, families_of
from bickern.making.work.cautions import CAUTIONS, USES, that_apply
from bickern.making.work.faults import FAULTS, faults_of
from bickern.measure.source import Source

EXAMPLES = Path(__file__).parents[2] / "examples"
DONE = {
    "bend", "black", "braze", "brush", "chain", "close ring", "collar", "curl", "cut bar", "cut off", "cut sheet",
    "deburr", "dish", "draw", "drift", "drill", "file", "fold", "galvanise after", "groove", "heat", "hem", "hoop",
    "mark", "paint", "pin", "punch", "rivet", "rivet hot", "roll sheet", "scarf", "screw", "scroll", "scrub",
    "shoulder", "shut hollow", "slit", "split", "spread", "stands in heat", "straighten", "taper", "thread", "twist",
    "upset", "wax or oil", "weld", "wind",
}  # fmt: skip
"""Every operation that a bar, ring, sheet, joint or finish can be found to need, by hand."""
OPERATIONS = sorted({o for c in CAUTIONS for o in c.operations} | DONE)
METALS = sorted({m for c in CAUTIONS for m in c.metals} | {"mild", "copper"})


def subsets(words: list[str]) -> st.SearchStrategy[frozenset[str]]:
    return st.sets(st.sampled_from(words)).map(frozenset)


def wanted(operations: frozenset[str], metals: frozenset[str], uses: frozenset[str]) -> list[str]:
    """The keys that apply, row by row and word by word: a blank condition is no condition."""
    keys = []
    for row in CAUTIONS:
        by_work = row.operations == () or any(word in operations for word in row.operations)
        by_metal = row.metals == () or any(word in metals for word in row.metals)
        by_use = row.uses == () or any(word in uses for word in row.uses)
        if by_work and by_metal and by_use:
            keys.append(row.key)
    return keys


@given(subsets(OPERATIONS), subsets(METALS), subsets(list(USES)))
def test_exactly_the_rows_whose_conditions_hold(
    operations: frozenset[str], metals: frozenset[str], uses: frozenset[str]
):
    assert [c.key for c in that_apply(operations, metals, uses)] == wanted(operations, metals, uses)


@pytest.mark.parametrize("row", CAUTIONS, ids=lambda c: c.key)
def test_each_row_comes_with_any_one_word_of_each_kind_and_goes_without(row):
    kinds = (row.operations or ("",), row.metals or ("",), row.uses or ("",))
    for words in itertools.product(*kinds):
        there = that_apply(*(frozenset({w} - {""}) for w in words))
        assert row in there
    for kind, needed in enumerate((row.operations, row.metals, row.uses)):
        if needed:
            words = [frozenset(k) for k in (row.operations, row.metals, row.uses)]
            words[kind] = frozenset({"something else"})
            assert row not in that_apply(*words)


def test_keys_are_single_and_every_row_has_words_and_a_source():
    assert len({c.key for c in CAUTIONS}) == len(CAUTIONS)
    assert all(c.says.strip().endswith(".") for c in CAUTIONS)
    assert all(isinstance(c.source, Source) for c in CAUTIONS)


def test_every_operation_that_a_caution_or_a_fault_hangs_on_can_happen():
    assert {o for c in CAUTIONS for o in c.operations} <= DONE
    assert {f.operation for f in FAULTS} <= DONE


def test_every_metal_that_a_caution_hangs_on_is_the_word_of_some_metal():
    said = {word for name in STEELS for word in families_of(name)}
    assert {m for c in CAUTIONS for m in c.metals} <= said


@pytest.mark.parametrize(
    ("metal", "key"),
    [
        ("304", "stainless"),
        ("brass", "brass"),
        ("5160", "tool-steel"),
        ("W1", "tool-steel"),
        ("12L14", "leaded"),
        ("something found in a field", "tool-steel"),  # it may harden
    ],
)
def test_a_metal_brings_its_own_caution_when_it_is_heated(metal: str, key: str):
    hot, cold = ({c.key for c in that_apply(frozenset(o), families_of(metal), frozenset())} for o in (["heat"], []))
    assert key in hot
    assert key not in cold


def test_mild_steel_brings_no_caution_of_another_metal():
    keys = {c.key for c in that_apply(frozenset(["heat"]), families_of("mild"), frozenset())}
    assert not keys & {"stainless", "brass", "tool-steel", "leaded"}


def test_faults_are_those_of_the_operations():
    assert {f.operation for f in faults_of(frozenset({"twist", "weld"}))} == {"twist", "weld"}
    assert faults_of(frozenset()) == ()


FIRE = {
    "hot", "eyes", "clothes", "hammer", "gas", "fire", "fibre", "grip", "cracks", "zinc", "sealed", "scrap",
    "cut-off",
}  # fmt: skip
"""What goes with any bar that is cut and heated."""
WAX = {"finish"}
SHEET = {"sheet", "eyes"}
HANGS = {"load"}
BY_HAND: dict[str, set[str]] = {
    # read off the jobs by hand: what is done in each, and what it is for
    "rail-s-hook": FIRE | WAX | HANGS | {"thin", "bend", "brush"},
    "rail-s-hook-metric": FIRE | WAX | HANGS | {"thin", "bend", "brush"},
    "leaf-coat-hook": FIRE | WAX | HANGS | {"thin", "punch", "bend", "twist", "brush"},
    # its neck is a short ramp to a stout tail: nothing thin; welded rings do not spring open
    "ring-pull": FIRE | WAX | HANGS | {"punch", "drift", "bend", "weld"},
    "crane-chain": FIRE | WAX | HANGS | {"thin", "bend", "weld", "chain-load"},
    # bowl and pan have no holes of their own: they are drilled through the palms
    "ladle": FIRE | WAX | HANGS | SHEET | {"thin", "punch", "drill", "bend", "dish", "rivet", "food"},
    "trivet": FIRE | WAX | {"thin", "punch", "bend", "weld", "rivet", "food"},
    "fire-set": FIRE | SHEET | {"thin", "punch", "drill", "bend", "twist", "snap", "rivet", "stove"},
    "porch-lantern": FIRE
    | WAX
    | HANGS
    | SHEET
    | {"thin", "bend", "twist", "drill", "snap", "rivet", "springs", "brush", "flame", "outdoors"},
    "forge-hood": SHEET | {"snap", "stove", "zinc"},
    "dinner-triangle": FIRE | WAX | HANGS | {"bend", "outdoors"},
    # the boss holds a little more than the bar: it is driven back while it is spread
    "bolt-tongs": FIRE | WAX | {"thin", "punch", "rivet"},
}


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.yaml")), ids=lambda p: p.stem)
def test_the_example_jobs_carry_the_cautions_read_off_them_by_hand(path: Path):
    copy = reckon_file(path).copy
    assert copy is not None
    assert {c.key for c in copy.cautions} == BY_HAND[path.stem]


COLOURS = ("yellow", "orange", "cherry", "white heat", "bright heat")


def test_no_words_for_any_metal_name_a_colour_of_hot_steel():
    """Copper melts at 1083 C, below yellow: what is told of every metal goes by the heat told, not by a colour."""
    for row in CAUTIONS:
        if not row.metals:
            assert not any(colour in row.says.lower() for colour in COLOURS), row.says
    for fault in FAULTS:
        assert not any(colour in fault.cure.lower() for colour in COLOURS), fault.cure
