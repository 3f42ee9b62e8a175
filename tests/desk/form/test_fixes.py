"""Fixes of findings: each takes its finding away and brings none that stops; where none is certain there is none."""

import random
from collections import Counter
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bickern.book.job.read import read_job
from bickern.desk.form import edits
from bickern.desk.form.fields import Entries, Fields, form_of, job_form, piece_names
from bickern.desk.form.fixes import fix_for, fixes_for
from bickern.desk.job.new import examples
from bickern.desk.reckon import reckon_text
from bickern.measure.finding import Finding

JOB = """# a remark at the top
job: Try
units: in
pieces:
  a:   # the arm
    bar: 1/2 sq   # its bar
    metal:
      - {keep: 12, name: stem}   # a remark, with a comma
    path:
      - {straight: 3}
      - {bend: 90, inside radius: 1, turn: up, name: knee}
      - {straight: rest}
    holes:
      - {size: 1/4, by: drill, at: middle of stem, face: front, name: hole}
  b:
    bar: 1 x 1/4
    metal:
      - {keep: 6, name: palm}
    path: [{straight: rest}]
    holes: [{size: 1/4, at: 1, name: hole}]
  r:
    ring: 1/4 rd
    inside across: 2
    make: 2
  s:
    sheet: 16 US ga
    surface: {cylinder: {across: 4, height: 6, sizes: mean}}
joins:
  - {rivet: 1/4, through: [a.hole, b.hole]}
  - {ring: r 1, through: [r 2, a.hole]}
"""
CERTAIN = [
    ("decimal-comma", "keep: 12,", "keep: 1,5 mm,", "keep: 1.5 mm,"),
    ("decimal-comma", "inside across: 2", "inside across: 1,5 mm", "inside across: 1.5 mm"),
    ("decimal-comma", "joins:", "hang: {from: a.stem, on: wall}\nx: [1,5 mm]\njoins:", "x: [1.5 mm]"),
    ("no-space", "{keep: 12,", "{keep:12,", "{keep: 12,"),
    ("unknown-word", "inside across: 2", "inside acros: 2", "inside across: 2"),
    ("unknown-word", "{straight: 3}", "{strait: 3}", "{straight: 3}"),
    ("unknown-word", "units: in", "unit: in", "units: in"),
    ("unknown-piece", "a.hole, b.hole", "a.hole, bb.hole", "a.hole, b.hole"),
    ("unknown-place", "a.hole, b.hole", "a.hole, b.hloe", "a.hole, b.hole"),
    ("unknown-place", "middle of stem", "middle of stm + 1", "middle of stem + 1"),
    ("unknown-piece", "through: [r 2, a.hole]", 'through: "r 2, a.hole"', "through: [r 2, a.hole]"),
    ("not-a-choice", "by: drill", "by: dril", "by: drill"),
    ("not-a-choice", "turn: up", "turn: upp", "turn: up"),
    ("not-a-choice", "units: in", "units: inn", "units: in"),
    ("missing", "bar: 1/2 sq", "bra: 1/2 sq", "bar: 1/2 sq"),
    ("yes-or-no", "    sheet: 16 US ga", "    sheet: 16 US ga\n    hot: y", "hot: yes"),
    ("comment", "{rivet: 1/4, through", "screw: #8\n    through", "screw: 8\n"),
    ("power-of-ten", "keep: 12,", "keep: 1.2e1,", "keep: 12,"),
    ("feet-and-inches", "keep: 12,", "keep: 1' 6,", "keep: 1' 6\","),
    ("looks-like-mm", "bar: 1/2 sq", "bar: 20 sq", "bar: 20 mm sq"),
    ("looks-like-mm", "bar: 1/2 sq", "bar: 25 x 10", "bar: 25 x 10 mm"),
    ("unit-on-one-size", "bar: 1 x 1/4", "bar: 25 mm x 6", "bar: 25 mm x 6 mm"),
    ("not-a-number", "bar: 1/2 sq", "bar: “1/2 sq”", "bar: 1/2 sq"),
    ("two-kinds", "turn: up", "turn: up, forged: square", None),
    ("two-kinds", "{straight: 3}", "{straight: 3, turn: up}", "{straight: 3}"),
    ("two-kinds", "face: front, name", "face: front, first: half a space, name", "face: front, name"),
    ("slot-sizes", "{size: 1/4, by", "{size: 1/2, long: 1/4, by", "{size: 1/4, long: 1/2, by"),
    ("scroll-sizes", "{straight: 3}", "{scroll: {turns: 1, inside radius: 2, outside radius: 1}}",
     "{turns: 1, inside radius: 1, outside radius: 2}"),
    ("one-value", "inside across: 2", "inside across: [2]", "inside across: 2"),
    ("two-numbers", "{keep: 6,", '{over: 6, offset: "0, 1/2",', "offset: [0, 1/2]"),
    ("unknown-word", "{ring: r 1, through: [r 2, a.hole]}", "{collar: 1/4 rd, through: [a.stem, b.palm]}",
     "{collar: 1/4 rd, round: [a.stem, b.palm]}"),
    ("not-a-ring", "{ring: r 1, through: [r 2, a.hole]}", "{ring: a.knee, through: [r 1]}",
     "{hook: a.knee, on: [r 1]}"),
    ("not-a-ring", "{ring: r 1, through", "{ring: r 1.inside, through", "{ring: r 1, through"),
    ("section-not-told", "{keep: 12,", "{over: 12,", "{keep: 12,"),
    ("lug-width", "joins:", "    lugs: [{eye: 1/4, on: top}]\njoins:", "width: 1/4"),
    ("said-twice", "units: in", "units: in\nunits: in", "job: Try\nunits: in\npieces"),
    ("tab", "    bar: 1/2 sq", "\tbar: 1/2 sq", "  a:   # the arm\n    bar: 1/2 sq"),
    ("colon", "job: Try", "job: Try: the first", 'job: "Try: the first"'),
    ("colon", "  s:\n    sheet: 16 US ga", "  s:\n    seam: lap: 1/2\n    sheet: 16 US ga", "seam: {lap: 1/2}"),
    ("starts-badly", "job: Try", "job: @home and away", 'job: "@home and away"'),
    ("starts-badly", "name: stem}", "name: `stem}", None),
    ("alias", "job: Try", "job: *Try", 'job: "*Try"'),
    ("tag", "job: Try", "job: !Try", 'job: "!Try"'),
    ("fraction-in-mm-job", "units: in", "units: mm", None),
]  # fmt: skip
CHOICES = [
    ("improper-fraction", "keep: 12,", "keep: 31/4,", ("keep: 3 1/4,", "keep: 7 3/4,")),
    ("leading-zero", "keep: 12,", "keep: 012,", ("keep: 12,", "keep: 0.12,")),
    ("spaced-dash", "keep: 12,", "keep: 3 - 1/4,", ("keep: 3 1/4,", "keep: 2 3/4,")),
    ("no-shape", "bar: 1/2 sq", "bar: 1/2", ("bar: 1/2 sq", "bar: 1/2 rd")),
    ("looks-like-gauge", "sheet: 16 US ga", "sheet: 16", ("sheet: 16 ga", "sheet: 16 in")),
    ("looks-like-fraction", "keep: 12,", "keep: 3.8,", ("keep: 3/8,", "keep: 3.80 in,")),
    ("which-surface", ", sizes: mean", "", ("sizes: inside", "sizes: outside", "sizes: mean")),
    ("which-size", "inside radius: 1,", "radius: 1,", ("inside radius: 1,",)),
    ("which-size", "inside across: 2", "across: 2", ("inside across: 2", "mean across: 2", "outside across: 2")),
    ("two-kinds", "inside across: 2", "inside across: 2\n    mean across: 3", ("inside across: 2", "mean across: 3")),
    ("no-units", "units: in\n", "", ("units: in", "units: mm")),
    (
        "said-twice",
        "    make: 2",
        "    make: 2\n    make: 3",
        ("across: 2\n    make: 2\n  s", "across: 2\n    make: 3\n  s"),
    ),
    ("yes-or-no", "    sheet: 16 US ga", "    sheet: 16 US ga\n    hot: so so", ("hot: yes", "hot: no")),
]
NONE = [
    ("unknown-word", "inside across: 2", "inside across: 2\n    weight: 3"),
    ("unknown-piece", "a.hole, b.hole", "a.hole, zebra.hole"),
    ("unknown-word", "{keep: 12,", "{keep: 12, widths: [[0, 1], [1, 1]],"),
    ("missing", "inside across: 2\n", "inside across: 2\n  t:\n    steel: S235JR\n"),
    ("bracket", "name: stem}", "name: stem"),
    ("quote", "job: Try", 'job: "Try'),
    ("zero-size", "keep: 12,", "keep: 0,"),
    ("negative-size", "keep: 12,", "keep: -1,"),
    ("joins-nothing", "{rivet: 1/4, through: [a.hole, b.hole]}", "{weld: [a.stem]}"),
    ("like-cycle", "    ring: 1/4 rd", "    like: r"),
    ("said-twice", "{keep: 12,", "{keep: 12, keep: 6,"),
]

EXAMPLES = [e.text for e in examples()]


def every_form(text: str) -> list[Fields]:
    forms = [form_of(text, name).value for name, _, _ in piece_names(text)]
    job = job_form(text).value
    return [*(f.form for f in forms if f is not None), *((job,) if job is not None else ())]


def groups(form: Fields) -> list[Fields]:
    found = [form]
    for below in form.groups:
        for one in below.entries if isinstance(below, Entries) else (below,):
            found += groups(one)
    return found


def faults(text: str) -> list[Finding]:
    return list(read_job(text, "try.yaml")[1])


def wrong(old: str, new: str) -> str:
    assert JOB.count(old) >= 1, old
    return JOB.replace(old, new, 1)


def the_one(text: str, name: str) -> Finding:
    found = [f for f in faults(text) if f.name == name]
    assert found, [f.name for f in faults(text)]
    return found[0]


def after(text: str, name: str, number: int = 0) -> str:
    """The text with that fix done; the finding is gone and nothing new stops the work."""
    finding = the_one(text, name)
    done = fixes_for(finding, text)[number].does(text)
    assert done.value is not None, done.findings
    left = Counter((f.name, f.says) for f in faults(done.value))
    assert left[(finding.name, finding.says)] < Counter((f.name, f.says) for f in faults(text))[(name, finding.says)]
    before = Counter(f.name for f in faults(text) if f.stops)
    if any(f.name == name and not f.where.path for f in faults(text)):
        return done.value  # nothing could be read before
    assert Counter(f.name for f in faults(done.value) if f.stops) <= before
    return done.value


def test_the_job_that_is_made_wrong_has_nothing_that_stops():
    assert not [f for f in faults(JOB) if f.stops]


@pytest.mark.parametrize(("name", "old", "new", "mended"), CERTAIN, ids=lambda v: str(v)[:24])
def test_a_certain_fix_takes_its_finding_away(name: str, old: str, new: str, mended: str | None):
    text = wrong(old, new)
    found = the_one(text, name)
    if mended is None:
        for n in range(len(fixes_for(found, text))):
            after(text, name, n)
        return
    fix = fix_for(found, text)
    assert fix is not None
    assert mended in after(text, name)
    assert fix.says
    assert fix.says[0].isupper()


@pytest.mark.parametrize(("name", "old", "new", "mended"), CHOICES, ids=lambda v: str(v)[:24])
def test_where_several_things_can_be_meant_each_is_offered(name: str, old: str, new: str, mended: tuple[str, ...]):
    text = wrong(old, new)
    found = fixes_for(the_one(text, name), text)
    assert len(found) == len(mended)
    assert (fix_for(the_one(text, name), text) is None) == (len(mended) > 1)
    assert len({f.says for f in found}) == len(found)
    for n, fix in enumerate(found):
        done = fix.does(text).value or ""
        assert any(m in done for m in mended)
        if name != "no-units":
            after(text, name, n)
        else:
            assert not [f for f in faults(done) if f.name == name]


@pytest.mark.parametrize(("name", "old", "new"), NONE, ids=lambda v: str(v)[:24])
def test_where_nothing_is_certain_no_fix_is_offered(name: str, old: str, new: str):
    text = wrong(old, new)
    assert fixes_for(the_one(text, name), text) == ()


def test_a_fix_of_a_text_that_has_changed_meanwhile_changes_nothing_else():
    text = wrong("keep: 12,", "keep: 1,5 mm,")
    fix = fix_for(the_one(text, "decimal-comma"), text)
    assert fix is not None
    done = fix.does("# a line more\n" + text)
    assert done.value is None
    assert done.findings


def test_every_name_that_has_a_fix_is_a_name_that_is_said_somewhere():
    from bickern.desk.form import fixes

    source = Path(fixes.__file__).parents[2]
    said = "".join(f.read_text(encoding="utf-8") for f in source.rglob("*.py") if f.name != "fixes.py")
    assert [n for n in fixes._FIXES if f'"{n}"' not in said] == []


RECKONED = [
    ("turn-not-told", "inside radius: 1, turn: up, name: knee}", "inside radius: 1}", 1, "turn: "),
    ("hoop-left-open", "path: [{straight: rest}]", "path: [{hoop: {inside across: 2}}]", 2, "closed: "),
]


@pytest.mark.parametrize(("name", "old", "new", "many", "mended"), RECKONED, ids=lambda v: str(v)[:24])
def test_what_is_found_when_the_job_is_reckoned_can_be_mended_too(
    name: str, old: str, new: str, many: int, mended: str
):
    text = wrong(old, new).replace("keep: 12, name: stem", "as: 1 x 1/4, over: 12, name: stem")
    found = [f for f in reckon_text(text, "try.yaml").findings if f.name == name]
    assert found
    fixes = fixes_for(found[0], text)
    assert len(fixes) == many
    for fix in fixes:
        done = fix.does(text).value
        assert done is not None
        assert mended in done
        assert name not in [f.name for f in reckon_text(done, "try.yaml").findings]


HALF_TYPED = [
    "3 1/", "31/4", "1,5 mm", "012", "3 - 1/4", "1e1", "", "up", "yess", "1/2", "20 sq", "[1]", "[a, b]", "a, b", "“3”",
    "hook", "arm.stm", "1' 6", "y", "bar", "stem", "#3", "no", "3.8", "16", "rest", "?",
]  # fmt: skip


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 2**32))
def test_whatever_was_typed_where_each_fix_on_offer_mends_its_fault(seed: int):
    dice = random.Random(seed)
    text = dice.choice(EXAMPLES)
    for _ in range(dice.randint(1, 3)):
        paths = [f.path for form in every_form(text) for g in groups(form) for f in g.fields]
        text = edits.put(text, dice.choice(paths), dice.choice(HALF_TYPED)).value or text
    before = Counter((f.name, f.says) for f in faults(text))
    for finding in faults(text):
        for fix in fixes_for(finding, text):
            done = fix.does(text)
            assert done.value is not None, (finding, fix.says)
            after = Counter((f.name, f.says) for f in faults(done.value))
            assert after[(finding.name, finding.says)] < before[(finding.name, finding.says)], (finding, fix.says)
