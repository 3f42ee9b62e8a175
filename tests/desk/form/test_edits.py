"""What a form does to a job's text: half-typed sizes stay, nothing else is touched, and each edit does what it says."""

from pathlib import Path

import pytest

from bickern.book.job.read import read_job
from bickern.desk.form import edits
from bickern.desk.form.fields import Entries, Field, Fields, form_of, job_form, piece_names
from bickern.measure.units.words import Read

EXAMPLES = Path(__file__).parents[3] / "src/bickern/book/examples"
LANTERN = (EXAMPLES / "porch-lantern.yaml").read_text(encoding="utf-8")
FIRE_SET = (EXAMPLES / "fire-set.yaml").read_text(encoding="utf-8")


def done(read: Read[str]) -> str:
    assert read.value is not None, read.findings
    return read.value


def value_at(text: str, path: str) -> str:
    """What the form shows at a path."""
    forms = [form_of(text, name).value for name, _, _ in piece_names(text)]
    tops = [*(f.form for f in forms if f is not None), job_form(text).value]
    found = {f.path: f.value for top in tops if top is not None for f in every_field(top)}
    return found[path]


def every_field(group: Fields) -> list[Field]:
    inner: list[Field] = list(group.fields)
    for below in group.groups:
        for one in below.entries if isinstance(below, Entries) else (below,):
            inner += every_field(one)
    return inner


@pytest.mark.parametrize("path", ["pieces.arm.metal[1].over", "pieces.arm.bar", "pieces.hood.surface.cone.base"])
def test_a_size_typed_letter_by_letter_is_in_the_text_at_every_letter(path: str):
    text = LANTERN
    for typed in (
        "3",
        "3 ",
        "3 1",
        "3 1/",
        "3 1/4",
        '3 1/4"',
        "1' 3 1/4",
        "3-1/4",
        "3,",
        "3,2",
        "#",
        "3 #",
        "{",
        "[1, 2",
    ):
        text = done(edits.put(text, path, typed))
        assert value_at(text, path) == typed
    assert done(edits.put(text, path, value_at(LANTERN, path))) == LANTERN


def test_nothing_typed_takes_a_word_out_but_leaves_one_that_is_needed():
    without = done(edits.put(LANTERN, "pieces.arm.metal[1].name", ""))
    assert "{from: 1/8 rd, to: 1/2 sq, over: 4}" in without
    empty = done(edits.put(LANTERN, "pieces.arm.metal[1].over", ""))
    assert '{from: 1/8 rd, to: 1/2 sq, over: "", name: tip}' in empty
    assert any(f.stops and f.where.path == "pieces.arm.metal[1].over" for f in read_job(empty, "")[1])
    assert done(edits.put(empty, "pieces.arm.metal[1].over", "4")) == LANTERN
    no_bar = done(edits.put(LANTERN, "pieces.arm.bar", ""))
    assert value_at(no_bar, "pieces.arm.bar") == ""
    assert done(edits.put(no_bar, "pieces.arm.bar", "1/2 sq")) == LANTERN


def test_a_list_in_brackets_is_typed_like_any_value():
    path, text = "joins[4].through", LANTERN
    for typed in ("[post.foot hole, tr", "[post.foot hole, tray]", "[ post.foot hole,tray ]", "tray"):
        text = done(edits.put(text, path, typed))
        assert value_at(text, path) == typed
    job, _ = read_job(done(edits.put(text, path, "[post.foot hole, tray]")), "")
    assert job is not None
    assert job.joints[3].through == ("post.foot hole", "tray")


def test_lines_below_one_another_can_be_put_as_lines():
    notes = "\n".join(f.value for f in every_field(form_of_job(LANTERN)) if f.word == "notes")
    assert notes.startswith("Three rings, one above two")
    assert notes.count("\n") == 1
    assert done(edits.put(LANTERN, "notes", notes)) == LANTERN
    more = done(edits.put(LANTERN, "notes", notes + "\nQuench: never"))
    assert '  - Heat leaves by the open top of the hood; keep it clear.\n  - "Quench: never"\n' in more
    assert done(edits.put(more, "notes", notes)) == LANTERN
    fewer = done(edits.put(LANTERN, "notes", "One"))
    assert "notes:\n  - One\n\npieces:" in fewer
    assert "notes" not in done(edits.put(LANTERN, "notes", ""))


def form_of_job(text: str) -> Fields:
    form = job_form(text).value
    assert form is not None
    return form


def test_a_word_is_added_where_the_table_has_it():
    text = done(edits.add_word(LANTERN, "pieces.arm", "grip", "2"))
    assert "    steel: S235JR\n    grip: 2\n    metal:" in text
    text = done(edits.add_word(LANTERN, "pieces.arm.metal[1]", "shoulder", "1/4"))
    assert "over: 4, shoulder: 1/4, name: tip}" in text
    text = done(edits.add_word(LANTERN, "", "author", "A smith"))
    assert "\nauthor: A smith\nnotes:" in text
    text = done(edits.add_word(LANTERN, "pieces.hood", "hot"))
    assert value_at(text, "pieces.hood.hot") == "yes"
    text = done(edits.add_word(LANTERN, "pieces.links", "chain"))
    assert 'chain: {links: ""}' in text
    text = done(edits.add_word(LANTERN, "pieces.tray.seam", "lap", "1/2"))
    assert "seam: {lap: 1/2}" in text
    assert edits.add_word(LANTERN, "pieces.arm", "bar", "1/4 sq").value is None


@pytest.mark.parametrize(
    ("path", "kind", "value", "line"),
    [
        ("pieces.arm.metal", "keep", "3", "      - {keep: 3}\n"),
        ("pieces.arm.path", "bend", "90", '      - {bend: 90, inside radius: ""}\n'),
        ("pieces.arm.twist", "middle of", "stem", '      - {turns: "", over: "", middle of: stem}\n'),
        ("pieces.arm.holes", "size", "1/4", '      - {size: 1/4, at: ""}\n'),
        ("pieces.arm.overall", "reach", "20", '    overall:\n      - {reach: 20, by: ""}\n'),
        ("pieces.tray.edges", "hem", "1/4", '    edges:\n      - {on: "", hem: 1/4}\n'),
        ("pieces.tray.cut from", "size", "24 x 12", "    cut from:\n      - {size: 24 x 12}\n"),
        ("joins", "rivet", "1/8", '  - {rivet: 1/8, through: ""}\n'),
        ("joins", "collar", "1/4 rd", '  - {collar: 1/4 rd, round: ""}\n'),
        ("pieces.arm.split", "left", "", "    split: {left: {}}\n"),
        ("pieces.arm.weld on", "leaf", "", '    weld on: {leaf: {at: "", bar: ""}}\n'),
    ],
)
def test_an_entry_is_added_in_the_way_of_its_list(path: str, kind: str, value: str, line: str):
    text = done(edits.add_entry(LANTERN, path, kind, value))
    assert line in text
    assert text.replace(line, "", 1) == LANTERN


def test_an_entry_goes_up_and_down_with_the_remark_above_it():
    text = done(edits.move_entry(LANTERN, "pieces.arm.path[1]", 1))
    lines = text.splitlines()
    first = lines.index("    path:                        # the bends, read along the same length")
    assert lines[first + 1] == "      - {straight: rest, name: run}"
    assert lines[first + 2].lstrip().startswith("# down, as the palm goes")
    assert "{scroll:" in lines[first + 3]
    assert done(edits.move_entry(text, "pieces.arm.path[2]", -1)) == LANTERN
    assert done(edits.move_entry(LANTERN, "pieces.arm.path[1]", -1)) == LANTERN
    assert done(edits.move_entry(LANTERN, "pieces.arm.path[4]", 5)) == LANTERN


def test_the_last_entry_taken_out_takes_its_word_along():
    text = done(edits.drop(LANTERN, "pieces.arm.twist[1]"))
    assert "end of: stem - 2" not in text
    assert "[twist]" not in text
    form = form_of(text, "arm").value
    assert form is not None
    assert "twist" not in [g.word for g in form.form.groups]


def test_a_piece_renamed_is_renamed_wherever_it_is_named():
    text = done(edits.rename_piece(LANTERN, "links", "rings"))
    assert "  rings:                         # one round" in text
    assert "- {ring: rings 1, through: [arm.scroll, rings 2, rings 3]}" in text
    assert "links" not in text.replace("  links:", "")
    text = done(edits.rename_piece(LANTERN, "arm", "bracket"))
    assert "hang: {from: bracket.palm, on: wall}" in text
    text = done(edits.rename_piece(FIRE_SET, "poker", "fire iron"))
    assert text.count("like: fire iron\n") == 2
    assert text.count("like: fire iron.shaft}") == 3
    assert "like: poker" not in text
    one, other = (read_job(t, "")[0] for t in (FIRE_SET, text))
    assert one is not None
    assert other is not None
    assert [p.name for p in other.pieces] == [p.name.replace("poker", "fire iron") for p in one.pieces]


def test_limbs_of_the_same_name_as_a_piece_keep_theirs():
    text = """job: x
units: in
pieces:
  left:
    bar: 1/2 sq
    metal: [{keep: 6}]
    path: [{straight: rest}]
  fork:
    bar: 1 sq
    metal: [{keep: 6}]
    path: [{straight: rest}]
    split:
      left: {metal: [{keep: 3}], path: [{straight: rest}]}
      right: {like: left, mirror: yes}
"""
    new = done(edits.rename_piece(text, "left", "poker"))
    assert "right: {like: left, mirror: yes}" in new
    assert new == text.replace("  left:\n", "  poker:\n", 1)


@pytest.mark.parametrize("new", ["", "a.b", "hood", "hood ", "a: b", "[x]", "links 2", "a" * 80, "-"])
def test_a_name_that_cannot_be_is_refused_and_nothing_is_changed(new: str):
    read = edits.rename_piece(LANTERN, "arm", new)
    assert read.value is None
    assert read.findings


def test_a_piece_taken_out_leaves_the_joins_that_name_it_to_be_found():
    text = done(edits.drop_piece(LANTERN, "tray"))
    assert "tray]" in text
    assert "\n\n\n" not in text
    assert "unknown-piece" in [f.name for f in read_job(text, "")[1]]


def test_a_piece_copied_stands_behind_it_with_its_remarks():
    text = done(edits.copy_piece(LANTERN, "arm", "second arm"))
    assert [n for n, _, _ in piece_names(text)][:3] == ["arm", "second arm", "hood"]
    assert text.count("# a ramp to the flat, one face kept in line") == 2
    assert done(edits.drop_piece(text, "second arm")) == LANTERN


@pytest.mark.parametrize("kind", ["bar", "ring", "sheet"])
def test_a_new_piece_is_whole(kind: str):
    text = done(edits.add_piece(LANTERN, "new one", kind))
    assert not [f for f in read_job(text, "")[1] if f.stops]
    assert piece_names(text)[-1][:2] == ("new one", kind)
    assert edits.add_piece(LANTERN, "arm", kind).value is None


@pytest.mark.parametrize(
    "text",
    ["", "a", "[1]", "job: [", "job: x\npieces: 3\n", "job: x\npieces: [a]\n", "\ufeffjob: x\n", "job: x\npieces:\n"],
)
def test_texts_that_are_no_job_are_findings_and_never_fall_over(text: str):
    for read in (
        edits.put(text, "pieces.a.bar", "1"),
        edits.drop(text, "pieces.a"),
        edits.add_word(text, "pieces.a", "steel"),
        edits.add_entry(text, "pieces.a.metal", "over"),
        edits.move_entry(text, "pieces.a.metal[1]", 1),
        edits.rename_piece(text, "a", "b"),
        edits.copy_piece(text, "a", "b"),
        edits.drop_piece(text, "a"),
        edits.add_piece(text, "a", "wood"),
    ):
        assert read.value is not None or read.findings
    added = edits.add_piece(text, "a", "bar")
    assert added.value is not None or added.findings
    assert (added.value or "\ufeff").startswith("\ufeff") or not text.startswith("\ufeff")
