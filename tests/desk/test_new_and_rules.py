"""A new job from an example, and the list of rules."""

from pathlib import Path

import pytest

from bickern.desk.new import examples, write_new
from bickern.desk.reckon import reckon_file
from bickern.desk.rules import all_rules, rules_by_use
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
