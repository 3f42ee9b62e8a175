"""No caution that applies is missing from a job, and none is there that does not: read anew, row by row.

What is done is read off the works of every piece, joint and finish; what it is of, off the metals; what it is for, off
the job. The table is read here by its own words and not by the room's function.
"""

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bickern.desk.reckon import reckon_file, reckon_text
from bickern.desk.work.heats import planned
from bickern.iron.steel import families_of
from bickern.making.work.bar_works import works_of_bar
from bickern.making.work.cautions import CAUTIONS
from bickern.making.work.finish_works import works_of_finish
from bickern.making.work.joint_works import works_of_joint
from bickern.making.work.result import Work
from bickern.making.work.ring_works import works_of_ring
from bickern.making.work.sheet_works import works_of_sheet
from bickern.paper.copy import Copy
from bickern.paper.sheets.heat_words import groups
from bickern.parts.bar.result import BarResult
from bickern.parts.joint.spec import JointKind
from bickern.parts.ring.spec import RingResult

OFTEN = 20 if os.environ.get("BICKERN_SOAK") else 1
"""How many times the sample of `make test` is tried in `make soak`."""
EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.yaml"))


def every_work(copy: Copy) -> Iterator[Work]:
    """Every work of the job, hot or cold."""
    for piece in copy.pieces:
        if isinstance(piece, BarResult):
            yield from works_of_bar(piece, copy.shop)
        elif isinstance(piece, RingResult):
            yield from works_of_ring(piece, copy.shop)
        else:
            yield from works_of_sheet(piece, copy.shop)
    named = {p.spec.name: p for p in copy.pieces}
    for joint in copy.joints:
        yield from works_of_joint(joint, named, copy.shop)
    yield from works_of_finish(copy.job.finish, copy.pieces, copy.shop)


def what_is_done(copy: Copy) -> set[str]:
    """Operations, and what goes with them: fire, chain, sheet that stands in heat, a hollow that is shut."""
    works = list(every_work(copy))
    done = {w.does for w in works}
    if any(w.hot for w in works) or "braze" in done:
        done.add("heat")
    if any(isinstance(p, RingResult) and p.spec.chain is not None for p in copy.pieces):
        done.add("chain")
    if any(getattr(p.spec, "hot", False) for p in copy.pieces):
        done.add("stands in heat")
    if any("tube" in r.a.shape for p in copy.pieces if isinstance(p, BarResult) for r in p.runs):
        done.add("shut hollow")
    return done


def what_it_is_for(copy: Copy) -> set[str]:
    hangs = copy.job.hang is not None or any(j.spec.kind is JointKind.RING for j in copy.joints)
    return set(copy.job.use) | ({"load"} if hangs else set())


def every_steel(spec: object) -> Iterator[str]:
    """What a piece is of, and what is welded on to it or split from it."""
    yield spec.steel
    for branch in getattr(spec, "branches", ()):
        yield from every_steel(branch.bar)


def wanted(copy: Copy) -> list[str]:
    done, uses = what_is_done(copy), what_it_is_for(copy)
    metals = {word for p in copy.pieces for steel in every_steel(p.spec) for word in families_of(steel)}
    keys = []
    for row in CAUTIONS:
        missing = [
            words
            for words, there in ((row.operations, done), (row.metals, metals), (row.uses, uses))
            if len(words) > 0 and not any(word in there for word in words)
        ]
        if not missing:
            keys.append(row.key)
    return keys


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_none_is_missing_from_an_example_and_none_is_too_many(path: Path):
    copy = reckon_file(path).copy
    assert copy is not None
    assert [c.key for c in copy.cautions] == wanted(copy)


BARS = st.sampled_from(
    [
        "metal: [{keep: 9}]",
        "metal: [{keep: 9}, {to: 1/8 rd, over: 4}]",
        "metal: [{keep: 6}, {as: 1 x 1/8, over: 2}]",
        "metal: [{keep: 9}, {as: 5/8 sq, over: 1}]",
        "metal: [{keep: 9}]\n    twist: [{turns: 1, over: 6, at: 1}]",
        "metal: [{keep: 9}]\n    holes: [{size: 1/8, by: drill, at: 2, face: front}]",
        "metal: [{keep: 9}]\n    holes: [{size: 1/8, by: punch, at: 2, face: front}]",
        "metal: [{keep: 9}]\n    holes: [{size: 1/4, by: slit and drift, at: 2, face: front}]",
        "metal: [{keep: 12}]\n    path: [{straight: 5}, {bend: 90, inside radius: 1, turn: up}, {straight: rest}]",
        "metal: [{keep: 12}]\n    weld on: {leg: {bar: 1/4 sq, at: 5, metal: [{keep: 4}], steel: 304}}",
        "metal: [{keep: 12}]\n    weld on: {leg: {bar: 1/4 sq, at: 5, metal: [{keep: 4}], steel: 5160}}",
        "metal: [{keep: 12}]\n    path: [{eye: 1 1/2, turn: left}, {straight: rest}]",
    ]
)
RINGS = st.builds(
    "ring: {}\n    inside across: {}\n    closed: {}{}".format,
    st.sampled_from(["1/8 rd", "1/4 rd"]),
    st.sampled_from(["3/4", "1", "2", "6"]),
    st.sampled_from(["welded", "butted", "open"]),
    st.sampled_from(["", "\n    make: 3"]),
)
SHEETS = st.builds(
    "sheet: {}\n    surface: {}{}".format,
    st.sampled_from(["20 ga", "1/16", "1/8"]),
    st.sampled_from(
        [
            "{cone: {base: 8, top: 2, height: 4, sizes: mean}}",
            "{bowl: {rim: 4, depth: 1, sizes: mean}}",
            "{bowl: {rim: 4, depth: 1 3/4, sizes: mean}}",
            "{pan: {long: 5, wide: 4, high: 1/2, sizes: outside}}",
            "{cylinder: {across: 6, height: 4, sizes: mean}}\n    seam: {grooved: 1/4}",
            "{cylinder: {across: 6, height: 4, sizes: mean}}\n    seam: {brazed lap: 1/4}",
            "{cylinder: {across: 6, height: 4, sizes: mean}}\n    seam: {riveted lap: 1/2, rivets: 1/8, pitch: 1}",
        ]
    ),
    st.sampled_from(["", "\n    hot: yes", "\n    coating: galvanised"]),
)
TUBES = st.sampled_from(["bar: 1 x 1/16 tube\n    metal: [{keep: 9}]", "bar: 1 x 1/16 sq tube\n    metal: [{keep: 9}]"])
JOINS = st.sampled_from(
    [
        "",
        "joins: [{rivet: 3/16, through: [one, two], grip: 1}]\n",
        "joins: [{rivet: 1/2, through: [one, two], grip: 1}]\n",
        "joins: [{screw: 5 mm, through: [one]}]\n",
        "joins: [{pin: 1/4, through: [one], grip: 1}]\n",
        "joins: [{weld: [one, two]}]\n",
        "joins: [{collar: 1/8 x 1/2, round: [one, two]}]\n",
        "joins: [{wrap: 1/8 rd, round: [one, two], turns: 3}]\n",
    ]
)
USES = st.lists(st.sampled_from(["food", "flame", "load", "child", "outdoors", "hearth", "class"]), unique=True)
FINISHES = st.sampled_from(
    ["", "Beeswax at black heat", "Wire brush at red, oil", "Stove black", "Scrub bright", "Galvanised after", "Paint"]
)
METALS = st.sampled_from(["mild", "304", "5160", "W1", "brass", "copper", "12L14"])


@st.composite
def jobs(draw: st.DrawFn) -> str:
    """A job of one to three pieces of one metal each, a joint, a finish and uses."""
    text = f"job: Trial\nunits: in\nuse: [{', '.join(draw(USES))}]\n"
    if finish := draw(FINISHES):
        text += f"finish: {finish}\n"
    text += "pieces:\n"
    for name in ("one", "two", "three")[: draw(st.integers(1, 3))]:
        made = draw(st.one_of(BARS.map("bar: 1/2 sq\n    {}".format), RINGS, SHEETS, TUBES))
        text += f"  {name}:\n    {made}\n    steel: {draw(METALS)}\n"
    return text + draw(JOINS)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_the_order_of_work_of_an_example_has_each_caution_beside_its_step(path: Path):
    assert told_beside_steps(planned(reckon_file(path)).copy) > 0


@given(jobs())
@settings(max_examples=25 * OFTEN, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_the_order_of_work_of_any_job_has_each_caution_beside_its_step(text: str):
    told_beside_steps(planned(reckon_text(text, "trial.yaml")).copy)


def told_beside_steps(copy: Copy | None) -> int:
    """Every caution of one operation stands in each part of the plan where that is done; those of any heat on the job.

    How many stand there.
    """
    if copy is None or copy.plan is None:
        return 0
    found = 0
    for group in groups(copy, copy.plan):
        works = [work for spell in group.spells for work in spell.spell.works]
        told = " ".join(work.caution for spell in group.spells for work in spell.works)
        for row in CAUTIONS:
            if not any(w.does in row.operations or (w.hot and "heat" in row.operations) for w in works):
                continue
            if not (row.metals or row.uses):
                assert row.key in {c.key for c in copy.cautions}
            if "heat" not in row.operations and row.key in {c.key for c in copy.cautions}:
                assert row.says in told, (group.title, row.key)
                found += 1
    return found


@given(jobs())
@settings(max_examples=60 * OFTEN, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_none_is_missing_from_any_job_and_none_is_too_many(text: str):
    copy = reckon_text(text, "trial.yaml").copy
    if copy is not None:
        assert [c.key for c in copy.cautions] == wanted(copy)


@pytest.mark.parametrize(
    ("lines", "there", "gone"),
    [
        # a thin wide ring is bent cold: nothing of the fire is said of it
        ("ring: 1/8 rd\n    inside across: 6\n    closed: butted", {"bend", "springs"}, {"hot", "gas", "zinc"}),
        ("ring: 1/4 rd\n    inside across: 1\n    closed: butted", {"bend", "springs", "hot", "zinc"}, {"weld"}),
        ("ring: 1/4 rd\n    inside across: 1\n    closed: welded", {"weld", "hot"}, {"springs"}),
        ("sheet: 1/16\n    surface: {bowl: {rim: 4, depth: 1, sizes: mean}}", {"dish", "sheet"}, {"hot", "gas"}),
        ("bar: 1 x 1/16 sq tube\n    metal: [{keep: 9}]", {"hollow", "cut-off"}, {"hot"}),
        ("sheet: 1/8\n    surface: {bowl: {rim: 4, depth: 1, sizes: mean}}", {"dish", "sheet", "hot"}, {"snap"}),
    ],
)
def test_by_hand(lines: str, there: set[str], gone: set[str]):
    copy = reckon_text(f"job: Trial\nunits: in\npieces:\n  it:\n    {lines}\n    steel: mild\n", "trial.yaml").copy
    assert copy is not None
    keys = {c.key for c in copy.cautions}
    assert there <= keys
    assert not gone & keys
