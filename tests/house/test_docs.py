"""The docs are true: their jobs are read, their terminal examples are what comes, their lists are whole and fresh."""

import re
import sys
from pathlib import Path

import pytest

from bickern.book.job.read import read_job
from bickern.book.shopfile import read_shop
from bickern.making.shop import Shop
from bickern.measure.finding import stopping

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT / "tools"))

import asking  # noqa: E402 - the tools lie beside the package, not in it
import console  # noqa: E402 - the same
import precedence  # noqa: E402 - the same
import refusals  # noqa: E402 - the same
import validation  # noqa: E402 - the same

PAGES = {page.relative_to(ROOT).as_posix(): page.read_text() for page in console.PAGES}
YAML = re.compile(r"```yaml\n(.*?)```", re.DOTALL)
LINK = re.compile(r"\]\(([^)#:]+)(?:#[^)]*)?\)")
LARGEST = 300_000
"""Bytes that a picture may have."""


def yaml_blocks(word: str) -> list[tuple[str, str]]:
    """Blocks of whole files that begin with a word; a block with three dots for what is left out is no whole file."""
    found = [(name, block) for name, text in PAGES.items() for block in YAML.findall(text)]
    whole = [(name, block) for name, block in found if not re.search(r"\.\.\.\]?$", block, re.MULTILINE)]
    return [(name, b) for name, b in whole if re.match(rf"(#.*\n)*{word}:", b)]


@pytest.mark.parametrize(("page", "text"), yaml_blocks("job"), ids=lambda given: given.splitlines()[0])
def test_a_whole_job_in_the_docs_is_read(page: str, text: str):
    job, findings = read_job(text, page, Shop(), _no_file)
    assert job is not None
    assert not stopping(findings)


@pytest.mark.parametrize(("page", "text"), yaml_blocks("shop"), ids=lambda given: given.splitlines()[0])
def test_a_whole_shop_file_in_the_docs_is_read(page: str, text: str):
    _, findings = read_shop(text, page)
    assert not findings


def test_there_are_whole_files_in_the_docs():
    assert yaml_blocks("job")
    assert yaml_blocks("shop")


def _no_file(name: str) -> bytes:
    raise AssertionError(f"a job in the docs names a file, {name}")


EXAMPLES = [(name, block) for name, text in PAGES.items() for block in console.blocks(text)]


@pytest.mark.parametrize(("page", "block"), EXAMPLES, ids=[name for name, _ in EXAMPLES])
def test_terminal_examples_are_what_really_comes(page: str, block: str):
    real = console.played(block, PAGES[page])
    assert console.same(block, real), f"stale (python tools/console.py writes it anew); really:\n{real}"


def test_the_comparison_can_fail():
    assert console.same("$ a\n1\n...\n3\n", "$ a\n1\n2\n3\n")
    assert not console.same("$ a\n1\n...\n4\n", "$ a\n1\n2\n3\n")
    assert not console.same("$ a\n1\n", "$ a\n1\n2\n")


def test_the_list_of_refusals_is_whole():
    """Names are looked for here another way than the tool that writes the page does."""
    source = "\n".join(f.read_text() for f in sorted((ROOT / "src" / "bickern").rglob("*.py")))
    names = set(re.findall(r'\b(?:stop|warn|note|fault|Finding)\(\s*"([a-z]+(?:-[a-z]+)*)"', source))
    for pair in re.findall(r'"([a-z]+(?:-[a-z]+)+)" if [^\n]* else "([a-z]+(?:-[a-z]+)+)",', source):
        names |= set(pair)
    listed = set(re.findall(r"^\| `([a-z-]+)` \| (?:STOP|look|note)", PAGES["docs/refusals.md"], re.MULTILINE))
    assert len(names) >= 150
    assert not names - listed


def test_the_rules_of_the_order_are_fresh():
    assert PAGES["docs/precedence.md"] == precedence.page(), "stale: python tools/precedence.py writes it anew"


def test_the_list_of_refusals_is_fresh():
    assert PAGES["docs/refusals.md"] == refusals.page(), "stale: python tools/refusals.py writes it anew"


def test_no_refusal_is_listed_without_words():
    assert "| … |" not in PAGES["docs/refusals.md"]


def test_the_page_of_checks_is_fresh():
    assert PAGES["docs/validation.md"] == validation.page(), "stale: python tools/validation.py writes it anew"


def test_the_page_of_questions_is_fresh():
    assert PAGES["docs/asking.md"] == asking.page(), "stale: python tools/asking.py writes it anew"


@pytest.mark.parametrize("page", sorted(PAGES))
def test_what_a_page_points_to_is_there(page: str):
    folder = (ROOT / page).parent
    missing = [to for to in LINK.findall(PAGES[page]) if not (folder / to).exists()]
    assert not missing


def test_pictures_are_small_and_shown():
    shown = {to.rsplit("/", 1)[-1] for text in PAGES.values() for to in LINK.findall(text) if "pictures/" in to}
    there = {p.name: p.stat().st_size for p in (ROOT / "docs" / "pictures").rglob("*") if p.is_file()}
    assert set(there) == shown
    assert max(there.values()) <= LARGEST


def test_every_page_stands_in_the_contents():
    contents = (ROOT / "mkdocs.yml").read_text()
    assert not [name for name in PAGES if name.startswith("docs/") and Path(name).name not in contents]
