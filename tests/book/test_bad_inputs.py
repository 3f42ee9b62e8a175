"""Every slip ends in a finding with a stable name at the line it stands on; none raises."""

from pathlib import Path

import pytest

from bickern.book.job.read import read_job
from bickern.book.told import TURNS
from bickern.measure.finding import Finding, Weight
from bickern.measure.units.words import GaugeSystem

HEAD = "job: Trial\nunits: in\npieces:\n  hook:\n"
BAR = HEAD + "    bar: 1/4 rd\n"  # the next line is line 6
RING = HEAD + "    ring: 1/2 rd\n"
SHEET = HEAD + "    sheet: 1/16\n"
BOWL = "    surface: {bowl: {rim: 4, depth: 1, sizes: mean}}\n"


def findings(text: str | bytes) -> tuple[Finding, ...]:
    return read_job(text, "trial.yaml")[1]


BAD = [
    # which size, inside or outside or mean
    ("which-size", 4 + 1, RING + "    make: 2\n"),
    ("which-size", 6, RING + "    inside: 3\n"),
    ("which-size", 6, RING + "    across: 3\n"),
    ("which-size", 6, BAR + "    path: [{bend: 90, inside: 1/2}]\n"),
    ("which-size", 6, BAR + "    path: [{hoop: {across: 4}}]\n"),
    ("which-radius", 6, BAR + "    path: [{bend: 90}]\n"),
    ("which-surface", 6, SHEET + "    surface: {cone: {base: 8, top: 2, height: 4}}\n"),
    ("two-kinds", 7, RING + "    inside across: 3\n    outside across: 4\n"),
    # unit slips
    ("looks-like-mm", 5, HEAD + "    bar: 10 rd\n"),
    ("looks-like-fraction", 5, HEAD + "    bar: 3.8 rd\n"),
    ("improper-fraction", 6, BAR + "    metal: [{keep: 11/2}]\n"),
    ("feet-and-inches", 6, BAR + "    metal: [{keep: 1' 6}]\n"),
    ("no-units", 4, "job: Trial\npieces:\n  hook:\n    bar: 1/4 rd\n"),
    ("decimal-comma", 6, BAR + "    metal: [{keep: 1,5 mm}]\n"),
    ("decimal-comma", 6, BAR + "    metal: [{keep: 2, offset: [1,5 mm, 2]}]\n"),
    ("decimal-comma", 5, HEAD + "    bar: 12,5 mm rd\n"),
    ("leading-zero", 6, BAR + "    metal: [{keep: 012}]\n"),
    ("not-a-size", 6, BAR + "    metal: [{keep: 1:30}]\n"),
    ("gauge-in-section", 5, HEAD + "    bar: 16 ga\n"),
    ("pipe-size", 5, HEAD + "    bar: 1/2 pipe\n"),
    ("no-shape", 5, HEAD + "    bar: 1/2\n"),
    # counts
    ("count-out-of-range", 6, BAR + "    make: 0\n"),
    ("count-out-of-range", 6, BAR + "    make: -2\n"),
    ("not-whole", 6, BAR + "    make: 1 1/2\n"),
    ("negative-size", 6, BAR + "    metal: [{keep: -3}]\n"),
    ("zero-size", 6, BAR + "    metal: [{keep: 0}]\n"),
    # ask, never guess
    ("ask-how-much", 6, BAR + "    metal: [{to: half as thick, over: 2}]\n"),
    ("ask-how-much", 6, BAR + "    metal: [{upset: 25 %, over: 2}]\n"),
    ("ask-how-much", 6, BAR + "    metal: [a long taper]\n"),
    ("ask-how-much", 6, BAR + "    metal: [{to: 1/8 rd, over: a bit}]\n"),
    # what it is made of
    ("coated-metal", 6, BAR + "    coating: galvanised\n"),
    ("coated-metal", 6, BAR + "    coating: sealed tube\n"),
    ("coating-unknown", 6, BAR + "    coating: something blue\n"),
    ("no-such-steel", 6, BAR + "    steel: S325JR\n"),
    ("steel-unknown", 6, BAR + "    steel: scrap\n"),
    ("coated-metal", 6, SHEET + "    coating: zinc\n" + BOWL),
    ("coated-metal", 7, SHEET + "    hot: yes\n    coating: zinc\n" + BOWL),
    # words
    ("unknown-word", 6, BAR + "    metl: [{keep: 3}]\n"),
    ("unknown-word", 2, "job: Trial\nunit: in\npieces: {hook: {bar: 1/4 in rd}}\n"),
    ("missing", 5, HEAD + "    steel: mild\n"),
    ("missing", 1, "units: in\npieces: {hook: {bar: 1/4 rd}}\n"),
    ("not-a-choice", 6, BAR + "    closed: soldered\n"),
    ("yes-or-no", 6, BAR + "    mirror: maybe\n"),
    ("one-value", 6, BAR + "    steel: [mild, A36]\n"),
    ("not-a-group", 6, BAR + "    metal: [3]\n"),
    ("two-kinds", 5, HEAD + "    bar: 1/4 rd\n    ring: 1/4 rd\n"),
    ("two-kinds", 6, BAR + "    metal: [{keep: 3, over: 4}]\n"),
    ("two-kinds", 6, BAR + "    metal: [{keep: 3, to: 1/8 rd}]\n"),
    ("scroll-sizes", 6, BAR + "    path: [{scroll: {turns: 1, inside radius: 1/4}}]\n"),
    ("scroll-sizes", 6, BAR + "    path: [{scroll: {turns: 1, inside radius: 2, outside radius: 1}}]\n"),
    ("shoulder-too-long", 6, BAR + "    metal: [{as: 1/8 rd, over: 1, shoulder: 2}]\n"),
    ("open-size", 5, HEAD + "    bar: ? rd\n"),
    ("bad-name", 6, BAR + '    metal: [{keep: 3, name: "a.b"}]\n'),
    ("same-name", 5, BAR + "    metal: [{keep: 3, name: a}, {keep: 3, name: a}]\n"),
    ("not-a-place", 6, BAR + "    holes: [{size: 1/16, at: somewhere}]\n"),
    ("unknown-place", 7, BAR + "    metal: [{keep: 3, name: palm}]\n    holes: [{size: 1/16, at: middle of plam}]\n"),
    ("unknown-place", 7, BAR + "    metal: [{keep: 3, name: palm}]\n    twist: [{turns: 1, all of: stem}]\n"),
    ("split", 6, BAR + "    split: {left: {metal: [{keep: 1}]}}\n"),
    # repeats
    ("like-cycle", 5, "job: T\nunits: in\npieces:\n  a: {like: b}\n  b: {like: a}\n"),
    ("like-cycle", 4, "job: T\nunits: in\npieces:\n  a: {like: a}\n"),
    ("like-cycle", 5, "job: T\nunits: in\npieces:\n  a: {bar: 1/4 rd, metal: [{like: b.x}]}\n"
                      "  b: {bar: 1/4 rd, metal: [{like: a.x}]}\n"),
    ("unknown-piece", 4, "job: T\nunits: in\npieces:\n  a: {like: pokr}\n  poker: {bar: 1/4 rd}\n"),
    # joins
    ("unknown-piece", 6, BAR + "joins: [{ring: links, through: [hook]}]\n"),
    ("unknown-place", 6, BAR + "joins: [{rivet: 1/8, through: [hook.palm]}]\n"),
    ("not-so-many", 6, BAR + "joins: [{rivet: 1/8, through: [hook 2]}]\n"),
    ("not-so-many", 7, BAR + "    holes: [{size: 1/16, at: 1, name: row, number: 2, spacing: 1}]\n"
                             "joins: [{rivet: 1/16, through: [hook.row 3]}]\n"),
    ("not-so-many", 9, SHEET + "    surface: {cone: {base: 8, top: 2, height: 4, sizes: mean}}\n"
                               "    lugs: [{eye: 1/4, on: top, divide: 2}]\n"
                               "  r: {ring: 1/8 rd, inside across: 1}\n"
                               "joins: [{ring: r, through: [hook.lugs 3]}]\n"),
    ("joins-nothing", 6, BAR + "joins: [{weld: [hook.end]}]\n"),
    ("unknown-piece", 6, BAR + "hang: {from: arm.palm}\n"),
    # files and YAML
    ("no-file", 6, HEAD + "    sheet: 1/16\n    surface: {outline: {file: leaf.dxf}}\n"),
    ("said-twice", 6, HEAD + "    bar: 1/4 rd\n    bar: 1/2 rd\n"),
    ("alias", 5, HEAD + "    bar: &b 1/4 rd\n"),
    ("alias", 5, HEAD + "    bar: *b\n"),
    ("alias", 5, HEAD + "    <<: {bar: 1/4 rd}\n"),
    ("tag", 5, HEAD + "    bar: !!python/object/apply:os.system [ls]\n"),
    ("two-documents", 2, "job: a\n---\njob: b\n"),
    ("comment", 5, HEAD + "    bar: 1/2 #4\n"),
    ("comment", 6, BAR + "    make: #10\n"),
    ("no-space", 6, BAR + "    metal: [{keep:3}]\n"),
    ("tab", 5, HEAD + "\tbar: 1/4 rd\n"),
    ("bracket", 6, BAR + "    metal: [{keep: 3]\n"),
    ("quote", 7, BAR + '    steel: "mild\n'),
    ("colon", 6, BAR + "    metal: keep: 3: 4\n"),
    ("starts-badly", 6, BAR + "    steel: @mild\n"),
    ("indent", 6, BAR + "   make: 2\n"),
    ("not-a-job", 1, "just words\n"),
    ("not-a-job", 1, "[1, 2]\n"),
    ("no-pieces", 3, "job: a\nunits: in\npieces:\n"),
    ("empty", 0, ""),
    ("empty", 0, "\n  \n"),
    ("not-text", 1, "job: a\x00b\n"),
    ("not-text", 2, 'job: a\nunits: "\\a"\n'),
]  # fmt: skip


@pytest.mark.parametrize(("name", "line", "text"), BAD, ids=[f"{n}-{i}" for i, (n, _, _) in enumerate(BAD)])
def test_a_slip_is_a_finding_at_its_line(name: str, line: int, text: str):
    found = {(f.name, f.where.line) for f in findings(text)}
    assert (name, line) in found, sorted(found)


@pytest.mark.parametrize(("name", "line", "text"), BAD, ids=[f"{n}-{i}" for i, (n, _, _) in enumerate(BAD)])
def test_every_finding_says_where_and_is_in_words(name: str, line: int, text: str):
    for f in findings(text):
        assert f.where.file == "trial.yaml"
        assert f.says.strip()
        assert "Traceback" not in f.says


def test_the_right_job_has_no_findings():
    good = (
        BAR
        + "    metal: [{to: 1/8 rd, over: 3, name: tip}]\n    path: [{straight: 1}, {bend: 90, inside radius: 1/2}]\n"
    )
    assert findings(good) == ()


def test_all_faults_are_told_at_once():
    text = (
        BAR
        + "    make: 0\n    steel: nonsuch\n    metal: [{keep: 3.8}, {over: -1, to: 1/8 rd}]\n    path: [{bend: 90}]\n"
    )
    assert {f.name for f in findings(text)} >= {
        "count-out-of-range", "no-such-steel", "looks-like-fraction", "negative-size", "which-radius",
    }  # fmt: skip


def test_a_piece_at_fault_is_left_out_and_the_others_stay():
    text = (
        BAR + "    make: 0\n  other: {bar: 1/2 sq, metal: [{keep: 3}]}\njoins: [{rivet: 1/8, through: [hook, other]}]\n"
    )
    job, found = read_job(text, "trial.yaml")
    assert job is not None
    assert [p.name for p in job.pieces] == ["other"]
    assert [f.name for f in found if f.stops] == ["count-out-of-range"]


def test_a_slipped_word_is_told_with_the_nearest_one():
    (finding,) = findings(BAR + "    metl: [{keep: 3}]\n")
    assert "`metal`" in finding.try_this


def test_words_that_yaml_would_turn_into_something_else_stay_words():
    text = HEAD.replace("hook", "no") + "    bar: 1/4 rd\n    metal: [{keep: 3, name: on}, {keep: 3, name: off}]\n"
    job, found = read_job("date: 2026-11-25\n" + text, "trial.yaml")
    assert found == ()
    assert job is not None
    assert job.date == "2026-11-25"
    assert job.pieces[0].name == "no"


def test_counts_of_holes_and_arms_must_match():
    text = HEAD + (
        "    bar: 1/4 x 3/4\n    closed: welded\n    path: [{hoop: {outside across: 7}}]\n"
        "    holes: [{size: 3/16, divide: 4}]\n"
        "  leg: {make: 3, bar: 3/8 sq, metal: [{keep: 3, name: foot}], holes: [{size: 3/16, at: middle of foot}]}\n"
        "joins:\n  - {rivet: 3/16, through: [hook.holes, leg.foot]}\n"
    )
    assert [(f.name, f.where.line) for f in findings(text) if f.stops] == [("counts-differ", 11)]


def test_a_gauge_of_another_system_is_told_and_the_job_may_name_it():
    sheet = HEAD + "    sheet: 16 ga\n    surface: {bowl: {rim: 4, depth: 1, sizes: mean}}\n"
    plain, told = findings(sheet), findings("gauge: SWG\n" + sheet)
    assert [(f.name, f.weight) for f in plain] == [("gauge-system", Weight.NOTE)]
    assert told == ()
    assert read_job("gauge: SWG\n" + sheet, "t")[0].pieces[0].gauge == f"16 {GaugeSystem.SWG}"  # type: ignore[union-attr]


def test_curly_quotes_and_one_sign_fractions_are_read():
    job, found = read_job(BAR + "    metal: [{keep: 3½”}, {keep: 2’ 1”}]\n", "t")
    assert [f for f in found if f.stops] == []
    assert [m.length for m in job.pieces[0].metal] == pytest.approx([3.5 * 0.0254, 25 * 0.0254])  # type: ignore[union-attr]


@pytest.mark.parametrize("ending", ["\r\n", "\r"])
def test_line_ends_of_other_machines(ending: str):
    text = (BAR + "    make: 0\n").replace("\n", ending)
    assert [(f.name, f.where.line) for f in findings("\ufeff" + text)] == [("count-out-of-range", 6)]


HOSTILE = [
    ("too-large", "job: a\n" + "#" * 1_000_001),
    ("too-large", b"\0" * 100_000_000),
    ("not-text", bytes(range(128, 256)) * 10),
    ("not-text", "job: a".encode("utf-16")),
    ("not-text", b"%PDF-1.7\n\x89\xff"),
    ("too-deep", "job: " + "[" * 100_000),
    ("too-deep", "job: " + "{a: " * 50_000),
    ("too-deep", "- " * 100_000),
    ("too-large", "job: [" + "a, " * 50_000 + "]"),
    ("alias", "a: &a [x]\nb: &b [*a, *a]\nc: [*b, *b]\n"),
    ("too-large", "job: t\nunits: in\npieces:\n" + "".join(f"  p{i}: {{bar: 1/4 rd}}\n" for i in range(2001))),
]


@pytest.mark.parametrize(("name", "text"), HOSTILE, ids=[f"{n}-{i}" for i, (n, _) in enumerate(HOSTILE)])
def test_hostile_files_are_refused_quickly(name: str, text: str | bytes):
    import time

    start = time.process_time()
    found = findings(text)
    assert time.process_time() - start < 2.0
    assert name in {f.name for f in found}


def test_copies_of_copies_do_not_grow_without_end():
    rows = ["  p0: {bar: 1/4 rd, metal: [{keep: 1, name: x}]}"]
    for i in range(1, 9):
        copies = ", ".join([f"{{like: p{i - 1}.x}}"] * 10)
        rows.append(f"  p{i}: {{bar: 1/4 rd, metal: [{copies}]}}")
    found = findings("job: t\nunits: in\npieces:\n" + "\n".join(rows) + "\n")
    assert "too-large" in {f.name for f in found}


def test_a_huge_file_is_not_read(tmp_path: Path):
    from bickern.book.files import read_file

    path = tmp_path / "huge.yaml"
    with path.open("wb") as file:
        file.truncate(100_000_000)  # a file of that size without that many bytes on the disk
    found = read_file(path)
    assert isinstance(found, Finding)
    assert found.name == "too-large"


def test_files_beside_the_job_only(tmp_path: Path):
    from bickern.book.files import beside

    inner = tmp_path / "jobs"
    inner.mkdir()
    (tmp_path / "secret").write_text("x")
    (inner / "leaf.svg").write_text("x")
    (inner / "link.svg").symlink_to(tmp_path / "secret")
    fetch = beside(inner)
    assert fetch("leaf.svg") == b"x"
    outside = {"../secret", str(tmp_path / "secret"), "link.svg"}
    for name in (*outside, "none.svg", "a\0b", ""):
        found = fetch(name)
        assert isinstance(found, Finding)
        assert found.name == ("outside-folder" if name in outside else "no-file")


def test_turns_that_are_not_told_follow_the_bar():
    """Flats bend the easy way (up; on edge: left) and so do the limbs of a split flat; all else bends left."""
    path = "    path: [{bend: 90, inside radius: 1}]\n"
    bend = "bend: 90, inside radius: 1"
    limbs = f"    split: {{a: {{path: [{{{bend}}}]}}, b: {{path: [{{{bend}, way: hard}}]}}}}\n"

    def turns(bar: str) -> list[float]:
        job, found = read_job(HEAD + f"    bar: {bar}\n" + path + limbs, "t")
        assert found == ()
        spec = job.pieces[0]  # type: ignore[union-attr]
        return [leg.turn for s in (spec, *(b.bar for b in spec.branches)) for leg in s.path]  # type: ignore[union-attr]

    assert turns("1 x 1/4") == [TURNS["up"], TURNS["up"], TURNS["left"]]
    assert turns("1 x 1/4 on edge") == [TURNS["left"], TURNS["left"], TURNS["up"]]
    assert turns("1/2 sq") == [TURNS["left"], TURNS["left"], TURNS["left"]]
