"""Slips that a smith new to the job file makes: each is told by name, at its line, and nothing raises."""

from pathlib import Path

import pytest

from bickern.book.job.read import read_job
from bickern.desk.reckon import reckon_text
from bickern.measure.finding import Finding

EXAMPLES = sorted((Path(__file__).parents[2] / "src/bickern/book/examples").glob("*.yaml"))


def findings(pieces: str, units: str = "in", more: str = "") -> dict[str, Finding]:
    """All findings by name, for pieces written on lines of their own."""
    rows = "".join(f"  {row}\n" for row in pieces.strip().splitlines())
    return {f.name: f for f in reckon_text(f"job: t\nunits: {units}\npieces:\n{rows}{more}", "t").findings}


def bar(words: str, stock: str = "1/2 sq") -> dict[str, Finding]:
    return findings(f"p: {{bar: {stock}, {words}}}")


STOPS = [
    # `to: point` first draws the bar to a point away from the datum end: the rest would fall off.
    ("metal: [{to: point, over: 2}, {from: 1/2 sq, over: 3}]", "point-inside"),
    ("metal: [{keep: 3}, {from: point, to: 1/2 sq, over: 2}]", "point-inside"),
    ("metal: [{to: point, over: 3}], split: {a: {metal: [{as: 1/8 sq, over: 1}]}, b: {like: a}}", "point-inside"),
    ("metal: [{keep: 3}, {leaf: 2, width: 1, thick: 1/8}, {keep: 4}]", "end-not-at-end"),
    # Three coils between 3/8 and 1 lie 5/24 apart: less than half of the bar.
    ("metal: [{keep: rest}], path: [{scroll: {turns: 3, inside radius: 3/8, outside radius: 1}}]", "scroll-coils-meet"),
    # One turn round 3/4 inside takes 2 pi (3/4 + 1/4) = 6.28 at the least; a spiral inward is not what is asked.
    ("metal: [{keep: rest}], path: [{scroll: {turns: 1, inside radius: 3/4, length: 5}}]", "scroll-inside-out"),
    ("metal: [{keep: rest}], path: [{scroll: {turns: 2, inside radius: 3/8, length: 4}}]", "scroll-impossible"),
    ("metal: [{keep: 4}], weld on: {thorn: {at: 9, bar: 1/4 rd, metal: [{keep: 3}]}}", "branch-off-the-bar"),
    ("metal: [{keep: 4}], holes: [{size: 3/8, by: slit and drift, at: 1/4}]", "slit-off-the-bar"),
    ("metal: [{keep: 9}], path: [{straight: 9, turn: left}]", "two-kinds"),
    ("metal: [{keep: rest}], path: [{eye: 1, inside radius: 3}, {straight: 4}]", "two-kinds"),
    ("metal: [{keep: rest}], path: [{hoop: {inside across: 9}, inside radius: 3}], closed: welded", "two-kinds"),
    ("metal: [{keep: 9, name: a}], twist: [{turns: 1, over: 3, all of: a}]", "two-kinds"),
    ("metal: [{keep: 9}], holes: [{size: 1/4, by: punch, at: 3, first: 1/4}]", "two-kinds"),
    ("metal: [{keep: 9}], holes: [{size: 1/4, long: 1/8, by: punch, at: 3}]", "slot-sizes"),
    ("metal: [{keep: 9}], holes: [{size: 1/8, by: punch, at: 3, spacing: 1}]", "missing"),
]


@pytest.mark.parametrize(("words", "name"), STOPS)
def test_what_cannot_be_is_stopped(words: str, name: str) -> None:
    found = bar(words)
    assert name in found, found
    assert found[name].stops
    assert found[name].where.line == 4
    assert found[name].try_this


WARNINGS = [
    ("metal: [{keep: 8}], path: [{straight: 3}, {bend: 90, inside radius: 1/2}, {straight: rest}], "
     "holes: [{size: 1/8, by: drill, at: 3 1/4}]", "1/2 sq", "hole-in-bend"),
    ("closed: welded, metal: [{keep: rest}], path: [{hoop: {inside across: 12}}], "
     "holes: [{size: 1/4, by: drill, divide: 8, first: at the joint}]", "1 x 1/8", "hole-on-the-joint"),
    ("metal: [{to: point, over: 4}]", "1 x 1/8 tube", "tube-forged-shut"),
    ("metal: [{keep: rest}], path: [{curl: 1080, inside radius: 1}]", "1/8 rd", "lies-on-itself"),
    ("metal: [{keep: 4}], split: {a: {metal: [{as: 1/2 sq, over: 3}]}, b: {metal: [{keep: 3}]}}", "1/2 sq",
     "split-too-thick"),
]  # fmt: skip


@pytest.mark.parametrize(("words", "stock", "name"), WARNINGS)
def test_what_wants_care_is_said_and_still_reckoned(words: str, stock: str, name: str) -> None:
    found = bar(words, stock)
    assert name in found, found
    assert not any(f.stops for f in found.values()), found


SOUND = [
    ("metal: [{from: point, to: 1/2 sq, over: 2}, {keep: 3}]", "1/2 sq"),
    # Two unequal limbs that make up the bar together: 1/3 and 2/3 of its width.
    ("metal: [{keep: 4}], split: {a: {metal: [{as: 1/4 x 1/4, over: 2}]}, b: {metal: [{as: 1/2 x 1/4, over: 2}]}}",
     "3/4 x 1/4"),
    # Coils that clear: 1 1/2 turns between 1/2 and 2 lie one inch apart.
    ("metal: [{keep: rest}], path: [{scroll: {turns: 1 1/2, inside radius: 1/2, outside radius: 2}}]", "1/2 sq"),
    ("closed: welded, metal: [{keep: rest}], path: [{hoop: {inside across: 12}}], "
     "holes: [{size: 1/4, by: drill, divide: 8}]", "1 x 1/8"),
]  # fmt: skip


@pytest.mark.parametrize(("words", "stock"), SOUND)
def test_sound_pieces_are_let_alone(words: str, stock: str) -> None:
    assert not set(bar(words, stock)) - {"limbs-from-the-middle"}  # a note on how split ends are drawn


def test_tracks_that_differ_say_both_lengths_and_what_to_change() -> None:
    """Path 3 + pi/2 (1 + 1/4) + 3 = 7.963 (7 15/16), metal 6: the last straight would be 1.037, the metal 7.963."""
    found = bar("metal: [{keep: 6}], path: [{straight: 3}, {bend: 90, inside radius: 1}, {straight: 3}]")[
        "tracks-differ"
    ]
    assert "7 15/16 in (202.5 mm)" in found.says
    assert "6 in (152.5 mm)" in found.says
    assert "1 15/16 in (50 mm)" in found.says
    assert "1 1/16 in (26.5 mm)" in found.try_this
    assert "`rest`" in found.try_this


def test_any_bar_says_how_much_metal_and_which_bars_draw_down_to_it() -> None:
    """Of 3/8 sq, 6 stay as they are, and the point takes 3/3 and its scale: 1/(1 - .025 x 1.5^.6) = 1.033.

    Of 7/16 rd both are forged, and scale: (6/.975 + 1.033) x .140625 / .150330 = 6.723.
    """
    found = findings("p: {bar: any, metal: [{as: 3/8 sq, over: 6}, {to: point, over: 3}]}")["no-stock"]
    assert found.stops
    assert "7 1/16 in" in found.says
    assert "3/8 in sq" in found.try_this
    assert "6 3/4 in (171 mm) of 7/16 in rd" in found.try_this
    kept = findings("p: {bar: any, metal: [{keep: 6}]}")["no-stock"]
    assert "what is kept" in kept.try_this or "bar: 1/2 sq" in kept.try_this


@pytest.mark.parametrize("words", [
    "metal: [{as: 3/8 sq, over: rest}]",
    "metal: [{as: 3/8 sq, over: 3}], path: [{scroll: {turns: 5, inside radius: 1, length: 2}}]",
    "metal: [{as: 3/8 sq, over: 3}], split: {a: {metal: [{keep: 2}]}, b: {like: a}}",
])  # fmt: skip
def test_any_bar_that_does_not_tell_its_metal_is_asked_for_its_bar(words: str) -> None:
    found = bar(words, "any")
    assert set(found) == {"no-stock"}


LIMBS = """
vine:
  bar: 3/8 sq
  metal: [{keep: 12, name: stem}]
  weld on:
    thorn:
      at: 3
      bar: 1/8 rd
      metal: [{like: bud.tip}]
      path: [{bend: 30, inside radius: 1, turn: left}, {straight: rest}]
    thorn two: {like: thorn, at: 7, mirror: yes}
  split:
    one: {metal: [{to: 1/16 sq, over: 3}], path: [{bend: 60, inside radius: 1/2, turn: up}, {straight: rest}]}
    two: {like: one, metal: [{to: 1/16 sq, over: 5}]}
bud: {bar: 1/8 rd, metal: [{to: point, over: 2, name: tip}]}
"""


def test_limbs_and_branches_are_like_their_brothers() -> None:
    rows = "".join(f"  {row}\n" for row in LIMBS.strip().splitlines())
    done = reckon_text(f"job: t\nunits: in\npieces:\n{rows}", "t")
    assert not done.stops, done.findings
    assert done.copy is not None
    one, two, thorn, other = done.copy.pieces[0].children  # type: ignore[union-attr]
    assert [round(c.length / 0.0254, 6) for c in (one, two, thorn, other)] == [3, 5, 2, 2]
    assert "left" in thorn.bends[0].says
    assert "right" in other.bends[0].says
    assert two.bends[0].says == one.bends[0].says
    at = [b.at.plus for b in done.copy.pieces[0].spec.branches if b.at]  # type: ignore[union-attr]
    assert at == pytest.approx([3 * 0.0254, 7 * 0.0254])


@pytest.mark.parametrize(("limbs", "name"), [
    ("a: {like: b}, b: {like: a}", "like-cycle"),
    ("a: {metal: [{keep: 1}]}, b: {like: c}", "unknown-piece"),
    ("a: {metal: {like: nobody.tip}}, b: {like: a}", "unknown-piece"),
    ("a: {path: {like: [1]}}, b: {like: {}}", "unknown-piece"),
])  # fmt: skip
def test_limbs_like_nobody_are_findings(limbs: str, name: str) -> None:
    found = bar(f"metal: [{{keep: 4}}], split: {{{limbs}}}")
    assert name in found, found


def test_limbs_like_one_another_do_not_grow_without_end() -> None:
    inner = "{metal: [{keep: 1}]}"
    for _ in range(15):
        inner = f"{{metal: [{{keep: 1}}], split: {{x: {inner}, y: {{like: x}}}}}}"
    found = bar(f"metal: [{{keep: 4}}], split: {{a: {inner}, b: {{like: a}}}}")
    assert "too-large" in found


def test_a_track_that_is_one_entry_like_another_is_written_out() -> None:
    """One group alone counts as a list of one, with `like` in it too."""
    assert not findings("a: {bar: 1/4 rd, metal: [{keep: 3, name: x}]}\nb: {bar: 1/4 rd, metal: {like: a.x}}")


def test_a_bar_is_no_ring_to_join_with() -> None:
    pieces = "a: {bar: 1/4 rd, metal: [{keep: 3}], holes: [{size: 1/8, by: drill, at: 1, name: h}]}\n"
    pieces += "r: {ring: 1/16 rd, inside across: 1, closed: welded}"
    assert "not-a-ring" in findings(pieces, more="joins: [{ring: a, through: [a.h]}]\n")
    assert "ring-through-itself" in findings(pieces, more="joins: [{ring: r, through: [r]}]\n")
    inside = findings(pieces, more="joins: [{ring: r.inside, through: [a.h]}]\n")["not-a-ring"]
    assert inside.try_this == "write `ring: r`"


HOOK = """h: {bar: 1/4 rd, metal: [{keep: rest}], make: 2,
      path: [{straight: 1}, {bend: 180, inside radius: 1, turn: left, name: top}, {straight: 3}]}
r: {ring: 1/4 rd, inside across: 2, closed: welded}"""


@pytest.mark.parametrize(
    ("join", "name"),
    [
        ("{hook: h, on: r}", "which-bend"),
        ("{hook: r, on: h}", "not-a-hook"),
        ("{hook: h 1.tap, on: r}", "unknown-place"),
        ("{hook: h 3.top, on: r}", "not-so-many"),
        ("{hook: h 1.top, on: h 1.end}", "hook-on-itself"),
        ("{hook: h 1.top, through: r}", "unknown-word"),
        ("{hook: h 1.top}", "missing"),
        ("{ring: h 1.top, through: r}", "not-a-ring"),
    ],
)
def test_a_hook_is_a_named_bend_of_an_open_bar(join: str, name: str) -> None:
    assert name in findings(HOOK, more=f"joins: [{join}]\n")


def test_a_bend_told_as_a_ring_is_sent_to_the_word_for_hooks() -> None:
    found = findings(HOOK, more="joins: [{ring: h 1.top, through: [r]}]\n")["not-a-ring"]
    assert found.try_this == "a hook is told so: `hook: h 1.top, on: ...`"
    assert not any(f.stops for f in findings(HOOK, more="joins: [{hook: h 1.top, on: r}]\n").values())
    assert not any(f.stops for f in findings(HOOK, more="joins: [{hook: h 1.top, on: [r, h 2.top]}]\n").values())


@pytest.mark.parametrize("place", ["a.holes", "a.holes 1", "limb.holes", "s.holes", "s.lugs", "a.top"])
def test_holes_and_lugs_are_places_only_where_the_piece_has_some(place: str) -> None:
    pieces = """a: {bar: 1/4 rd, metal: [{keep: 3}]}
limb: {bar: 1 sq, metal: [{keep: 3}], split: {x: {metal: [{keep: 3}]}, y: {like: x}}}
s: {sheet: 1/16, surface: {cylinder: {across: 4, height: 4, sizes: mean}}}"""
    assert "unknown-place" in findings(pieces, more=f"hang: {{from: {place}, on: wall}}\n")


def test_an_empty_on_asks_what_it_hangs_on() -> None:
    found = findings("a: {bar: 1/4 rd, metal: [{keep: 3}]}", more="hang: {from: a.end, on: }\n")
    assert found["empty"].try_this == "write `on: wall`"


UNWELDABLE = [
    "a: {bar: 1/2 sq, steel: '304', closed: welded, metal: [{keep: rest}], path: [{hoop: {inside across: 5}}]}",
    "a: {bar: 1/2 sq, steel: '304', metal: [{keep: rest}], path: [{eye: 1, welded: yes}, {straight: 5}]}",
    "a: {ring: 1/4 rd, steel: copper, inside across: 2, closed: welded}",
    "a: {bar: 1/2 sq, metal: [{keep: 5}], weld on: {t: {at: 3, bar: 1/4 rd, steel: '4140', metal: [{keep: 3}]}}}",
]


@pytest.mark.parametrize("piece", UNWELDABLE)
def test_metals_that_take_no_fire_weld_are_stopped(piece: str) -> None:
    assert findings(piece)["no-fire-weld"].stops
    assert "no-fire-weld" not in findings(piece.replace("welded", "butted").replace("4140", "A36"))


def test_a_weld_joint_asks_both_metals() -> None:
    pieces = "a: {bar: 1/2 sq, steel: '4140', metal: [{keep: 5}]}\nb: {bar: 1/2 sq, metal: [{keep: 5}]}"
    assert findings(pieces, more="joins: [{weld: [a.end, b.start]}]\n")["no-fire-weld"].where.line == 6


def test_what_is_on_a_branch_is_asked_as_of_a_bar() -> None:
    words = "metal: [{keep: 5}], weld on: {t: {at: 3, bar: 1/4 rd, coating: galvanised, metal: [{keep: 3}]}}"
    assert bar(words)["coated-metal"].stops


def test_a_leaf_that_holds_more_than_the_bar_is_to_be_gathered() -> None:
    """2/3 x 2 x 5 x 1/4 = 1.667 cubic inches of 1/4 rd (.0491): 33.95 in of it in a leaf of 2 in."""
    found = bar("metal: [{leaf: 2, width: 5, thick: 1/4}, {from: 1/4 rd, over: 3}]", "1/4 rd")["wants-upset"]
    assert "33 15/16 in" in found.says


def test_a_joint_at_fault_is_not_reckoned() -> None:
    done = reckon_text(
        "job: t\nunits: in\npieces: {a: {bar: 1/4 rd, metal: [{keep: 3}]}}\njoins: [{rivet: 1/8}]\n", "t"
    )
    assert done.copy is not None
    assert done.copy.joints == ()
    assert done.stops


def test_an_offset_of_one_number_goes_along() -> None:
    cone = "{sheet: 20 ga, surface: {cone: {base: 8, top: 2, height: 4, sizes: mean, offset: %s}}}"
    one, two = (read_job(f"job: t\nunits: in\npieces:\n  c: {cone % said}\n", "t")[0] for said in ("2", "[2, 0]"))
    assert one is not None and two is not None  # noqa: PT018 - both or nothing
    assert one.pieces[0].surface == two.pieces[0].surface  # type: ignore[union-attr]


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_half_finished_jobs_say_what_is_missing_and_never_raise(path: Path) -> None:
    """Every example cut off behind each of its lines, and in the middle of each."""
    lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
    for i, line in enumerate(lines):
        for text in ("".join(lines[: i + 1]), "".join(lines[:i]) + line[: len(line) // 2]):
            done = reckon_text(text, path.name)
            assert done.findings or (done.copy is not None and done.copy.pieces), (i, text)
            assert all(f.says for f in done.findings)
