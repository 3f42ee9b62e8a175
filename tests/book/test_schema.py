"""The JSON Schema is made from the reader's own table of words; its copy is fresh and fits real jobs."""

import json
from pathlib import Path
from typing import Any

import pytest

from bickern.book.forms import Takes
from bickern.book.job.schema import FILE, schema, schema_text
from bickern.book.job.words import FORMS
from bickern.book.text import Group, Items, Value, Word, read_page

jsonschema = pytest.importorskip("jsonschema")
JOBS = sorted((Path(__file__).parent / "jobs").glob("*.yaml"))
SHIPPED = sorted((Path(__file__).parents[2] / "src/bickern/book/examples").glob("*.yaml"))


def plain(value: Value | None) -> Any:
    if isinstance(value, Group):
        return {e.key.text: plain(e.value) for e in value.entries}
    if isinstance(value, Items):
        return [plain(i) for i in value.items]
    return value.text if isinstance(value, Word) else None


def check(text: str) -> None:
    jsonschema.Draft202012Validator(schema()).validate(plain(read_page(text, "t").top))


def test_the_copy_beside_the_reader_is_fresh():
    assert FILE.read_text(encoding="utf-8") == schema_text()


def test_it_is_a_valid_schema():
    jsonschema.Draft202012Validator.check_schema(schema())
    assert json.loads(schema_text()) == schema()


@pytest.mark.parametrize("path", [*JOBS, *SHIPPED], ids=lambda p: p.stem)
def test_real_jobs_fit_it(path: Path):
    check(path.read_text())


@pytest.mark.parametrize(
    "text",
    [
        "units: in\npieces: {a: {bar: 1/4 rd}}\n",
        "job: a\npieces: {a: {bar: 1/4 rd, metl: []}}\n",
        "job: a\npieces: {a: {bar: 1/4 rd, ring: 1/4 rd}}\n",
        "job: a\npieces: {a: {bar: 1/4 rd, closed: glued}}\n",
        "job: a\npieces: {a: {bar: 1/4 rd, path: [{bend: 90, eye: 1}]}}\n",
        "job: a\npieces: {a: {sheet: 1/16}}\n".replace("sheet: 1/16", "sheet: 1/16, surface: {cone: {base: 8}}"),
        "job: a\npieces: {}\n",
    ],
)
def test_slips_do_not_fit_it(text: str):
    with pytest.raises(jsonschema.ValidationError):
        check(text)


def test_every_word_says_what_it_means():
    for form in FORMS.values():
        words = form.words()
        assert len(set(words)) == len(words), form.name
        for key in form.keys:
            assert key.says, (form.name, key.word)
            assert (key.takes in (Takes.GROUP, Takes.LIST, Takes.NAMED, Takes.OFFERED)) == bool(key.form), key.word
            assert (key.takes is Takes.CHOICE) == bool(key.choices), key.word
        assert set(form.one_of) <= set(words)


def test_every_word_stands_on_the_page_that_explains_job_files():
    page = (Path(__file__).parents[2] / "docs" / "job-file.md").read_text()
    missing = [f"{f.name}: {k.word}" for f in FORMS.values() for k in f.keys if k.word not in page]
    assert missing == []
