"""A new job from an example, and the list of rules."""

from pathlib import Path

import pytest

from bickern.book.shopfile import FORMS
from bickern.desk.job.new import examples, write_new
from bickern.desk.reckon import reckon_file
from bickern.desk.rules import CHOSEN, NO_CHOICE, all_rules, rules_by_use
from bickern.desk.schema import job_schema
from bickern.measure.finding import Finding


@pytest.mark.parametrize("name", [e.name for e in examples()])
def test_every_example_can_be_written_and_read(name: str, tmp_path: Path):
    made = write_new(name, tmp_path / "mine.yaml")
    assert made == tmp_path / "mine.yaml"
    assert reckon_file(tmp_path / "mine.yaml").job is not None


def test_every_example_has_a_title():
    assert all(e.title and not e.title.startswith("#") for e in examples())


def test_a_file_that_is_there_stays_as_it_is(tmp_path: Path):
    mine = tmp_path / "mine.yaml"
    mine.write_text("job: mine, a week of work\n")
    found = write_new("ladle", mine)
    assert isinstance(found, Finding)
    assert found.name == "file-there"
    assert mine.read_text() == "job: mine, a week of work\n"


def test_an_unknown_example_is_answered_with_those_there_are(tmp_path: Path):
    found = write_new("teapot", tmp_path / "mine.yaml")
    assert isinstance(found, Finding)
    assert "ladle" in found.try_this
    assert not (tmp_path / "mine.yaml").exists()


def test_every_rule_is_listed_once_under_its_use():
    groups, findings = rules_by_use()
    assert findings == ()
    listed = [(use, name) for use, rows in groups for _, name, _ in rows]
    assert sorted(listed) == sorted((r.about, r.name) for r in all_rules())


def test_a_shop_file_moves_the_star(tmp_path: Path):
    shop = tmp_path / "shop.yaml"
    shop.write_text("shop: Mine\njoints: {rivet: grip + 1 d}\n")
    for path, name in ((None, "grip + 1 1/2 d"), (shop, "grip + 1 d")):
        groups, findings = rules_by_use(path)
        assert findings == ()
        stars = {row[1] for _, rows in groups for row in rows if row[0] == "*" and row[1].startswith("grip +")}
        assert name in stars


def test_schema_is_of_the_published_draft():
    assert "2020-12" in str(job_schema()["$schema"])


def test_every_use_is_chosen_in_the_shop_file_or_says_why_not():
    """The rows of a use are just what the shop file takes by name there; all other rows say why there is no choice."""
    assert CHOSEN.keys() | NO_CHOICE.keys() == {r.about for r in all_rules()}
    assert CHOSEN.keys().isdisjoint(NO_CHOICE)
    for use, places in CHOSEN.items():
        names = [str(r.name) for r in all_rules() if r.about == use]
        for group, word in places:
            key = next(f for f in FORMS if f.name == group).key(word)
            assert key is not None
            assert list(key.choices) == names, (use, group, word)
    for use, rows in rules_by_use()[0]:
        assert all(("No choice: " in text) is (use in NO_CHOICE) for _, _, text in rows)


def test_a_choice_that_no_word_takes_is_none():
    """Every word of a shop file that names rules is one of those places."""
    places = {(group, word) for found in CHOSEN.values() for group, word in found}
    named = {r.name for r in all_rules()}
    assert {(f.name, k.word) for f in FORMS for k in f.keys if set(k.choices) & named} == places


def test_each_use_has_its_own_star():
    """A rivet and a tenon have rules of one name."""
    starred = {(use, name) for use, rows in rules_by_use()[0] for star, name, _ in rows if star}
    assert ("tenon", "grip + 1 d") in starred
    assert ("rivet", "grip + 1 d") not in starred
    assert {use for use, _ in starred} == set(CHOSEN)


@pytest.mark.parametrize(
    ("rules", "use", "star"),
    [
        ("rings: {length: 3 1/7 x the hole}", "length of a ring", "3 1/7 x the hole"),
        ("bars: {eye: 3 1/7 x mean diameter}", "length of an eye", "3 1/7 x mean diameter"),
        ("bars: {corners full: a fifth longer when rounded}", "corners full", "a fifth longer when rounded"),
        ("bars: {corners full: 97 %}", "corners full", None),
        ("sheet: {wire: 2 wires + 4 sheets}", "wired edge", "2 wires + 4 sheets"),
        ("sheet: {wire: 2.5}", "wired edge", "2 1/2 d"),
        ("sheet: {wire: 2.6}", "wired edge", None),
        ("sheet: {fold: middle}", "fold", "middle"),
    ],
)
def test_the_star_stands_on_the_rule_chosen(rules: str, use: str, star: str | None, tmp_path: Path):
    (tmp_path / "shop.yaml").write_text(f"shop: Mine\n{rules}\n")
    groups, findings = rules_by_use(tmp_path / "shop.yaml")
    assert findings == ()
    assert [name for mark, name, _ in dict(groups)[use] if mark] == ([] if star is None else [star])
