"""Bad inputs, through `bickern check`: each ends in a finding of a stable name at its own line, and exit code 1.

The list is the project's own: more metal than there is, thin walls, things as thick as their hole, sizes not said of
what, slips of units, surfaces that cannot be, tracks that differ, words that are no sizes, coated bars, and what this
shop cannot make.
"""

from pathlib import Path

import pytest

from bickern.cli.main import run

Said = pytest.CaptureFixture[str]
HEAD = "job: Trial\nunits: in\npieces:\n  it:\n"  # the next line is line 5
BAR = HEAD + "    bar: 1/2 sq\n"  # the next line is line 6
RING = HEAD + "    ring: 1/2 rd\n"
SHEET = HEAD + "    sheet: 20 ga\n"
KEPT = "    metal: [{keep: 9, name: all}]\n"
DRAWN = "    metal: [{keep: 9}, {to: 1/8 rd, over: 2}]\n"
BOSS = (
    "  boss:\n    bar: 3/4 sq\n    metal: [{as: 3/4 x 5/8, over: 2, name: eye}]\n"
    "    holes: [{size: 1/2, by: slit and drift, at: middle of eye, face: front, name: hole}]\n"
)
HOLE = "    holes: [{{size: {}, by: drill, at: 4, face: front, name: h{}}}]\n"


def hole(size: str, more: str = "") -> str:
    return BAR + KEPT + HOLE.format(size, more)


def cone(base: str, top: str, height: str) -> str:
    return SHEET + f"    surface: {{cone: {{base: {base}, top: {top}, height: {height}, sizes: mean}}}}\n"


STOPS = [
    # 1 more metal wanted than the stock offers
    ("not-enough-metal", 5, BAR + "    stock length: 4\n" + KEPT),
    ("not-enough-metal", 7, BAR + "    stock length: 4\n    metal: [{keep: 9}, {to: 1/8 rd, over: ?}]\n"),
    # 2 bar too thin for the hole
    ("hole-wider-than-bar", 7, hole("1/2")),
    # 3 as thick as the hole
    ("ring-fills-hole", 13, RING + "    inside across: 3\n    closed: welded\n" + BOSS
     + "joins:\n  - {ring: it, through: [boss.hole]}\n"),
    ("rivet-fills-hole", 9, hole("1/4") + "joins:\n  - {rivet: 5/16, through: [it.h]}\n"),
    ("pin-fills-hole", 9, hole("1/4") + "joins:\n  - {pin: 5/16, through: [it.h]}\n"),
    # 4 inside, outside or mean not said; inside smaller than the bar
    ("which-size", 6, RING + "    inside: 3\n"),
    ("which-radius", 6, BAR + "    path: [{straight: 4}, {bend: 90}, {straight: rest}]\n" + KEPT),
    ("which-surface", 6, SHEET + "    surface: {cone: {base: 8, top: 2, height: 4}}\n"),
    ("inside-too-small", 5, RING + "    inside across: 1/4\n"),
    # 5 slips of units
    ("looks-like-mm", 5, HEAD + "    bar: 10 rd\n" + KEPT),
    ("looks-like-fraction", 5, HEAD + "    bar: 3.8 rd\n" + KEPT),
    ("improper-fraction", 6, BAR + "    metal: [{keep: 11/2}]\n"),
    ("decimal-comma", 6, BAR + "    metal: [{keep: 1,5 mm}]\n"),
    ("no-units", 4, "job: Trial\npieces:\n  it:\n    bar: 1/2 sq\n" + KEPT),
    # 6 surfaces that cannot be
    ("cone-upside-down", 5, cone("2", "8", "4")),
    ("zero-size", 6, cone("8", "2", "0")),
    ("lap-too-wide", 7, cone("8", "1/2", "4") + "    seam: {lap: 2}\n"),
    ("no-sheet-fits", 5, cone("8", "1 1/2", "4") + "    cut from: [6 x 6]\n"),
    # 7 parts that do not sum to the whole
    ("tracks-differ", 5, BAR + KEPT + "    path: [{straight: 4}, {bend: 90, inside radius: 1/2}, {straight: 2}]\n"),
    # 8 words that are no sizes
    ("ask-how-much", 6, BAR + "    metal: [{upset: 25 %, over: 2}]\n"),
    ("ask-how-much", 6, BAR + "    metal: [{to: half as thick, over: 2}]\n"),
    ("ask-how-much", 6, BAR + "    metal: [a long taper]\n"),
    # 9 what never goes in the fire
    ("coated-metal", 6, BAR + "    coating: galvanised\n" + DRAWN),
    ("coated-metal", 6, BAR + "    coating: sealed tube\n" + DRAWN),
    ("coated-metal", 6, RING + "    coating: galvanised\n    inside across: 3\n    closed: welded\n"),
    ("steel-unknown", 6, BAR + "    steel: scrap\n" + DRAWN),
    # and the rest of the list
    ("count-out-of-range", 6, BAR + "    make: 0\n" + KEPT),
    ("count-out-of-range", 6, BAR + "    make: -2\n" + KEPT),
    ("counts-differ", 13, hole("1/4", ", number: 2, spacing: 1")
     + "  arm:\n    bar: 1/2 sq\n    metal: [{keep: 9}]\n    holes: [{size: 1/4, by: drill, at: 4, name: h}]\n"
     + "joins:\n  - {rivet: 3/16, through: [it.h, arm.h]}\n"),
    ("unknown-piece", 8, BAR + KEPT + "joins:\n  - {rivet: 1/4, through: [nobody]}\n"),
    ("said-twice", 7, BAR + KEPT + "    metal: [{keep: 8}]\n"),
    ("bracket", 7, BAR + "    metal: [{keep: 9\n"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "line", "text"), STOPS, ids=[f"{n}-{i}" for i, (n, _, _) in enumerate(STOPS)])
def test_a_bad_job_stops_with_its_line_and_what_to_try(name: str, line: int, text: str, tmp_path: Path, capsys: Said):
    from bickern.desk.reckon import reckon_file

    job = tmp_path / "bad.yaml"
    job.write_text(text, encoding="utf-8")
    found = [f for f in reckon_file(job).findings if f.stops and f.name == name]
    assert line in {f.where.line for f in found}
    assert run(["check", str(job)]) == 1
    said = capsys.readouterr()
    assert f"STOP  {job}:{line}:" in said.out
    assert said.err == ""
    assert found[0].try_this, "a finding says what to do"


@pytest.mark.parametrize(
    ("name", "line", "text"),
    [
        ("thin-wall", 7, hole("3/8")),
        ("feet-and-inches", 6, BAR + "    metal: [{keep: 1' 6}]\n"),
        ("twist-over-hole", 7, BAR + KEPT + "    twist: [{turns: 1, over: 6, at: 1}]\n"
         "    holes: [{size: 1/8, by: drill, at: 3, face: front}]\n"),
        ("coating-unknown", 6, BAR + "    coating: unknown\n" + DRAWN),
        ("far-apex", 5, cone("8", "7.999", "4")),
        ("gauge-system", 5, HEAD + "    sheet: 16 ga\n    surface: {bowl: {rim: 4, depth: 1, sizes: mean}}\n"),
        ("pin-fills-hole", 9, hole("1/4") + "joins:\n  - {pin: 1/4, through: [it.h]}\n"),
    ],
)  # fmt: skip
def test_what_needs_a_second_look_is_told_and_does_not_stop(
    name: str, line: int, text: str, tmp_path: Path, capsys: Said
):
    from bickern.desk.reckon import reckon_file

    job = tmp_path / "look.yaml"
    job.write_text(text, encoding="utf-8")
    assert [f.where.line for f in reckon_file(job).findings if f.name == name] == [line]
    assert run(["check", str(job)]) == 0
    assert f"{job}:{line}:" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("name", "shop"),
    [
        ("too-big-for-fire", "fire: {opening: 3/8}"),
        ("no-tongs", "tongs: [1/4]"),
    ],
)
def test_what_this_shop_cannot_make(name: str, shop: str, tmp_path: Path, capsys: Said):
    job, own = tmp_path / "job.yaml", tmp_path / "shop.yaml"
    job.write_text(BAR + DRAWN)
    own.write_text(f"shop: Mine\nunits: in\n{shop}\n")
    stops = name == "too-big-for-fire"
    assert run(["check", str(job), "--shop", str(own)]) == (1 if stops else 0)
    assert ("STOP  " if stops else "look  ") + f"{job}:5:" in capsys.readouterr().out


@pytest.mark.parametrize(
    "data",
    [
        b"\xff\xfe\x00\x01job",
        b"\x00" * 100,
        b"%PDF-1.7\n\x89",
        b"",
        b"- a\n- b\n",
        b"job\n",
        b"job: [\n",
        b"job: &a x\n",
    ],
    ids=["not-utf8", "noughts", "pdf", "empty", "list", "a word", "bracket", "anchor"],
)
def test_a_file_that_is_no_job(data: bytes, tmp_path: Path, capsys: Said):
    job = tmp_path / "bad.yaml"
    job.write_bytes(data)
    assert run(["check", str(job)]) == 1
    said = capsys.readouterr()
    assert "STOP" in said.out
    assert "Traceback" not in said.out + said.err


def test_a_file_of_a_hundred_megabytes(tmp_path: Path, capsys: Said):
    job = tmp_path / "big.yaml"
    with job.open("wb") as file:
        file.truncate(100_000_000)
    assert run(["check", str(job)]) == 1
    assert "100.0 MB" in capsys.readouterr().out
