"""What a browser brings in is read as if it meant harm: every name, size and number that is not plain is refused."""

import asyncio
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

import pytest

from bickern.measure.finding import Finding
from bickern.web.gate.uploads import AT_ONCE, JOBS, LETTERS, LISTS, Upload, all_taken_in, plain_name, taken_in


@dataclass
class File:
    name: str
    data: bytes = b"job: Hook\n"
    says: int | None = None
    read_in: int = 0

    def size(self) -> int:
        return len(self.data) if self.says is None else self.says

    async def read(self) -> bytes:
        self.read_in += 1
        return self.data


def run(does):
    """Runs it in a thread of its own: the browser's driver keeps a loop of its own running in this one."""
    with ThreadPoolExecutor(1) as own:
        return own.submit(asyncio.run, does).result()


@pytest.mark.parametrize("name", ["hook.yaml", "Gate à main (2).YML", "3.5 inch.yaml", "鉄.yaml", " hook.yaml "])
def test_a_plain_name_is_kept(name: str):
    assert plain_name(name, JOBS) == name.strip()


@pytest.mark.parametrize(
    "name",
    [
        "../hook.yaml", "/etc/hook.yaml", "..\\hook.yaml", "C:hook.yaml", "jobs/hook.yaml", "", ".yaml", ".hidden.yaml",
        "..yaml", "hook\x00.yaml", "hook\n.yaml", "hook\u202elmay.yaml", "con.yaml", "COM1.yaml", "nul.x.yaml",
        "x" * LETTERS + ".yaml", "-rf.yaml", 'a"b.yaml', "a<b>.yaml", "a|b.yaml", "~hook.yaml", "hook.yaml:stream.yaml",
    ],
)  # fmt: skip
def test_a_name_that_is_a_path_or_hides_something_is_refused(name: str):
    found = plain_name(name, JOBS)
    assert isinstance(found, Finding)
    assert found.name == "bad-file-name"
    assert found.says.isprintable()


@pytest.mark.parametrize("name", ["hook.yaml.exe", "hook", "hook.", "hook.html", "hook.svg"])
def test_another_ending_is_refused_and_the_right_ones_are_named(name: str):
    found = plain_name(name, JOBS)
    assert isinstance(found, Finding)
    assert found.name == "bad-file-end"
    assert ".yaml or .yml" in found.try_this


def test_a_file_is_taken_in_with_its_name():
    assert run(taken_in(File("rack.csv", b"a,b\n"), LISTS)) == Upload("rack.csv", b"a,b\n")


def test_too_large_is_refused_before_it_is_read_and_after_where_the_size_was_a_lie():
    large = File("hook.yaml", bytes(101))
    lies = File("hook.yaml", bytes(101), says=1)
    for file, read in ((large, 0), (lies, 1)):
        found = run(taken_in(file, JOBS, most=100))
        assert isinstance(found, Finding)
        assert found.name == "file-too-large"
        assert file.read_in == read


def test_an_empty_file_is_a_finding():
    found = run(taken_in(File("hook.yaml", b""), JOBS))
    assert isinstance(found, Finding)
    assert found.name == "empty-file"


def test_of_too_many_at_once_none_is_read_and_of_a_few_each_is_judged():
    many = [File(f"{n}.yaml") for n in range(AT_ONCE + 1)]
    (found,) = run(all_taken_in(many, JOBS))
    assert isinstance(found, Finding)
    assert not sum(one.read_in for one in many)
    few = run(all_taken_in([File("a.yaml"), File("../b.yaml")], JOBS))
    assert [isinstance(one, Upload) for one in few] == [True, False]
