"""The form of a job shows what is written, where it is written, and offers what the table of words has."""

import time
from pathlib import Path

import pytest

from bickern.book.forms import Takes
from bickern.book.job.words import FORMS, PIECES
from bickern.desk.form import edits
from bickern.desk.form.fields import Entries, Field, Fields, Offer, form_of, job_form, piece_names

EXAMPLES = Path(__file__).parents[3] / "src/bickern/book/examples"
JOBS = {f.stem: f.read_text(encoding="utf-8") for f in EXAMPLES.glob("*.yaml")}
LANTERN = JOBS["porch-lantern"]


def groups(form: Fields) -> list[Fields]:
    found = [form]
    for below in form.groups:
        for one in below.entries if isinstance(below, Entries) else (below,):
            found += groups(one)
    return found


def every_form(text: str) -> list[Fields]:
    forms = [form_of(text, name).value for name, _, _ in piece_names(text)]
    job = job_form(text).value
    assert job is not None
    return [*(f.form for f in forms if f is not None), job]


def piece(text: str, name: str) -> Fields:
    form = form_of(text, name).value
    assert form is not None
    return form.form


def group(form: Fields, path: str) -> Fields:
    return next(g for g in groups(form) if g.path == path)


def test_the_pieces_by_name_kind_and_line():
    assert piece_names(LANTERN) == (
        ("arm", "bar", 14), ("hood", "sheet", 34), ("links", "ring", 43), ("post", "bar", 49), ("tray", "sheet", 70),
    )  # fmt: skip
    assert [(n, k) for n, k, _ in piece_names(JOBS["fire-set"])][3:5] == [("rake", "bar"), ("brush holder", "bar")]


def test_a_bar_is_its_own_words_and_its_tracks():
    arm = piece(LANTERN, "arm")
    assert [(f.word, f.value, f.needed) for f in arm.fields] == [("bar", "1/2 sq", True), ("steel", "S235JR", False)]
    assert [g.word for g in arm.groups] == ["metal", "path", "twist", "holes"]
    metal = arm.groups[0]
    assert isinstance(metal, Entries)
    assert [e.title for e in metal.entries] == [
        "over 4, from 1/8 rd, to 1/2 sq, “tip”", "keep 16, “stem”",
        "over 1/2, to 1 x 1/4, “shoulder”", "keep 2, “palm”",
    ]  # fmt: skip
    assert [k.word for k in metal.kinds] == list(FORMS["metal"].one_of)
    tip = metal.entries[0]
    assert [(f.word, f.value) for f in tip.fields] == [
        ("over", "4"), ("from", "1/8 rd"), ("to", "1/2 sq"), ("name", "tip"),
    ]  # fmt: skip
    assert "width" not in [o.word for o in tip.offers]
    assert {"shoulder", "flush", "offset", "roll"} <= {o.word for o in tip.offers}


@pytest.mark.parametrize("name", sorted(JOBS))
def test_every_field_stands_where_it_says_and_holds_what_is_written_there(name: str):
    text = JOBS[name]
    lines = text.splitlines()
    for form in every_form(text):
        for g in groups(form):
            assert g.line <= g.last_line or not g.written
            for f in g.fields:
                if f.value and not f.only_in_text:
                    assert lines[f.line - 1][f.column - 1 :].lstrip("\"'").startswith(f.value), f
                assert g.line <= f.line <= g.last_line or (not f.value and not f.line)


@pytest.mark.parametrize("name", sorted(JOBS))
def test_every_field_can_be_put_as_it_is_and_nothing_changes(name: str):
    text = JOBS[name]
    for form in every_form(text):
        for f in (f for g in groups(form) for f in g.fields if f.value and not f.only_in_text):
            assert edits.put(text, f.path, f.value).value == text


@pytest.mark.parametrize("name", ["porch-lantern", "leaf-coat-hook", "crane-chain"])
def test_every_offer_can_be_taken_and_is_then_a_field_or_a_group(name: str):
    text = JOBS[name]
    for g in (g for form in every_form(text) for g in groups(form)):
        for offer in g.offers:
            new = edits.add_word(text, g.path, offer.word, offer.value).value
            assert new is not None, (g.path, offer)
            path = f"{g.path}.{offer.word}" if g.path else offer.word
            paths = {x.path for form in every_form(new) for y in groups(form) for x in (*y.fields, *y.groups)}
            assert path in paths


def test_every_kind_of_entry_can_be_added_to_its_list():
    text = LANTERN
    for listed in (g for form in every_form(text) for y in groups(form) for g in y.groups if isinstance(g, Entries)):
        for kind in listed.kinds:
            new = edits.add_entry(text, listed.path, kind.word, "1").value
            assert new is not None
            form = next(f for f in every_form(new) if any(g.path == listed.path for y in groups(f) for g in y.groups))
            now = next(g for y in groups(form) for g in y.groups if g.path == listed.path)
            assert isinstance(now, Entries)
            assert len(now.entries) == len(listed.entries) + 1
            last = now.entries[-1]
            assert {f.word: f.value for f in last.fields}.get(kind.word, "1") == "1"
            assert kind.word in [f.word for f in (*last.fields, *last.groups)]


def test_needed_words_come_first_also_where_they_are_not_written_yet():
    text = "job: x\nunits: in\npieces:\n  a:\n    sheet: 16 ga\n  b:\n    bar: 1 sq\n    twist: [{over: 3}]\n"
    a = piece(text, "a")
    assert isinstance(a.groups[0], Fields)
    assert (a.groups[0].path, a.groups[0].written) == ("pieces.a.surface", False)
    assert [o.word for o in a.groups[0].offers] == list(FORMS["surface"].one_of)
    twist = group(piece(text, "b"), "pieces.b.twist[1]")
    assert [(f.word, f.value, f.needed) for f in twist.fields] == [("turns", "", True), ("over", "3", False)]
    assert edits.put(text, "pieces.b.twist[1].turns", "2").value == text.replace("{over", "{turns: 2, over")
    new = edits.put(text, "pieces.a.surface.cone.base", "8").value
    assert new == text.replace("16 ga\n", "16 ga\n    surface: {cone: {base: 8}}\n")


def test_a_piece_like_another_shows_only_what_is_written_in_it():
    rake = form_of(JOBS["fire-set"], "rake").value
    assert rake is not None
    assert (rake.kind, rake.like) == ("bar", "poker")
    assert [f.word for f in rake.form.fields] == ["like"]
    assert [g.word for g in rake.form.groups] == ["metal", "path"]
    assert "bar" in [o.word for o in rake.form.offers]


def test_the_words_of_the_job_itself():
    job = job_form(LANTERN).value
    assert job is not None
    fields = {f.word: f for f in job.fields}
    assert fields["units"].choices == ("in", "mm")
    assert fields["use"].value == "[flame, outdoors, load]"
    assert not fields["use"].only_in_text
    assert fields["notes"].only_in_text
    assert fields["notes"].takes == "text of several lines"
    assert [g.word for g in job.groups] == ["joins", "hang"]
    joins = job.groups[0]
    assert isinstance(joins, Entries)
    assert joins.entries[0].title == "ring links 1, through arm.scroll, links 2, links 3"
    assert [o.word for o in joins.entries[0].offers] == ["number", "grip"]


def test_named_limbs_and_branches_are_entries_by_their_names():
    text = """job: x
units: in
pieces:
  fork:
    bar: 1 sq
    metal: [{keep: 6}]
    split:
      left: {metal: [{keep: 3}]}
      right: {like: left, mirror: yes}
"""
    split = next(g for g in piece(text, "fork").groups if g.word == "split")
    assert isinstance(split, Entries)
    assert split.named
    assert [(e.title, e.path) for e in split.entries] == [
        ("left", "pieces.fork.split.left"), ("right", "pieces.fork.split.right"),
    ]  # fmt: skip
    assert [f.choices for f in split.entries[1].fields if f.word == "mirror"] == [("yes", "no")]


def test_what_a_person_wrote_wrong_is_in_the_form_all_the_same():
    head = "job: x\npieces:\n  a:\n    bra: 1\n"
    text = head + "    metal: 3\n    bar: [1, 2]\n    path: {straight: 3}\n    seam: [\n    1]\n"
    a = piece(text, "a")
    assert {(f.word, f.value, f.only_in_text) for f in a.fields} == {
        ("bar", "[1, 2]", False), ("bra", "1", False), ("metal", "3", False), ("seam", "1", True),
    }  # fmt: skip
    path = next(g for g in a.groups if g.word == "path")
    assert isinstance(path, Entries)
    assert [(e.path, e.kind) for e in path.entries] == [("pieces.a.path", "straight")]
    unclear = form_of("job: x\npieces:\n  a:\n    steel: S235JR\n", "a").value
    assert unclear is not None
    assert unclear.kind == ""
    assert [o.word for o in unclear.form.offers] == [p.name for p in PIECES]


@pytest.mark.parametrize("text", ["", "job: [", "a: 1\n", "job: x\npieces: 3\n", "job: x\npieces:\n  b: 3\n"])
def test_a_text_without_that_piece_has_no_form_but_a_finding(text: str):
    read = form_of(text, "a")
    assert read.value is None
    assert read.findings
    assert isinstance(piece_names(text), tuple)
    job = job_form(text)
    assert job.value is not None or job.findings


@pytest.mark.slow
def test_the_form_of_the_lanterns_arm_is_there_in_five_milliseconds():
    best = min(_seconds(f"{LANTERN}# {n}\n") for n in range(30))  # never the same text twice
    assert best < 0.005


def _seconds(text: str) -> float:
    begun = time.perf_counter()
    assert form_of(text, "arm").value is not None
    return time.perf_counter() - begun


def test_offers_name_what_they_take_and_may_be():
    arm = piece(LANTERN, "arm")
    hand = next(o for o in arm.offers if o.word == "hand")
    assert hand == Offer("hand", "`left` mirrors every turn", str(Takes.CHOICE), ("right", "left"))
    mirror = next(o for o in arm.offers if o.word == "mirror")
    assert (mirror.choices, mirror.value) == (("yes", "no"), "yes")
    assert isinstance(arm.fields[0], Field)
