"""What is ticked off is kept as it was pressed: torn lines, a killed program and two at once lose nothing else."""

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

import bickern
from bickern.book.ticks import LONGEST, Line, add_line, read_lines, ticks_file
from bickern.measure.finding import Finding

SRC = Path(bickern.__file__).parents[1]


@pytest.fixture
def job(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    file = tmp_path / "jobs" / "hook.yaml"
    file.parent.mkdir()
    file.write_text("job: Hook\n")
    return file


def test_nothing_pressed_is_nothing_kept(job):
    assert read_lines(job).lines == ()
    assert not ticks_file(job).exists()


def test_lines_come_back_in_order_as_they_were_pressed(job):
    told = [
        Line("tick", "a", 1, "arm", "1. arm: Heat 1"),
        Line("note", "a", 0, "arm", text="zu heiß\n3/8\u0000"),
        Line("anew"),
    ]
    kept = [add_line(job, line) for line in told]
    assert read_lines(job).lines == tuple(kept)
    assert [(line.what, line.key, line.copy, line.text) for line in kept] == [
        (line.what, line.key, line.copy, line.text) for line in told
    ]
    assert all(line.at.endswith("+00:00") for line in kept)


def test_they_lie_in_the_users_data_folder_by_where_the_job_really_lies(job, tmp_path):
    link = tmp_path / "link.yaml"
    link.symlink_to(job)
    assert ticks_file(link) == ticks_file(job)
    assert ticks_file(job).is_relative_to(tmp_path / "data" / "bickern" / "ticks")
    assert ticks_file(job) != ticks_file(tmp_path / "hook.yaml")


@pytest.mark.parametrize(
    "torn", [b'{"what": "tick", "key"', b"\xff\xfe\x00", b'{"what": "hop"}', b"[1]", b'{"what":"tick","copy":"x"}']
)
def test_a_torn_line_is_left_out_and_harms_no_other(job, torn):
    add_line(job, Line("tick", "a", 1))
    with ticks_file(job).open("ab") as file:
        file.write(torn)  # cut short: no end of line
    add_line(job, Line("tick", "b", 1))
    read = read_lines(job)
    assert [line.key for line in read.lines] == ["a", "b"]
    assert [found.name for found in read.findings] == ["tick-torn"]


def test_any_end_of_the_file_can_be_cut_off(job):
    for key in "abc":
        add_line(job, Line("note", key, text="schön ⚒"))
    whole = ticks_file(job).read_bytes()
    for end in range(len(whole)):
        ticks_file(job).write_bytes(whole[:end])
        keys = [line.key for line in read_lines(job).lines]
        assert keys == ["a", "b", "c"][: len(keys)]
        assert len(keys) >= whole[:end].count(b"}\n")


def test_a_note_is_kept_up_to_its_length(job):
    add_line(job, Line("note", "a", text="x" * (LONGEST + 5)))
    assert len(read_lines(job).lines[0].text) == LONGEST


def test_what_cannot_be_written_is_said(job, tmp_path, monkeypatch):
    (tmp_path / "file").write_text("")
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "file"))
    said = add_line(job, Line("tick", "a", 1))
    assert isinstance(said, Finding)
    assert said.stops
    assert said.name == "tick-not-kept"


PRESSES = """
import sys
from pathlib import Path
from bickern.book.ticks import Line, add_line
for number in range(100_000):
    add_line(Path(sys.argv[1]), Line("tick", f"{sys.argv[2]}{number}", 1))
    print(number, flush=True)
"""


def pressing(job, name):
    told = os.environ | {"PYTHONPATH": str(SRC)}
    return subprocess.Popen(
        [sys.executable, "-c", PRESSES, str(job), name], stdout=subprocess.PIPE, env=told, text=True
    )


def test_two_programs_press_at_once_and_are_killed_and_every_press_told_as_kept_is_there(job):
    both = [pressing(job, "a"), pressing(job, "b")]
    told = {"a": -1, "b": -1}
    for name, one in zip(told, both, strict=True):
        while told[name] < 40:
            told[name] = int(one.stdout.readline())
    time.sleep(0.05)
    for one in both:
        one.send_signal(signal.SIGKILL)
    for name, one in zip(told, both, strict=True):
        told[name] = max([told[name], *(int(row) for row in one.stdout.read().split("\n")[:-1] if row)])
        one.wait()
    keys = [line.key for line in read_lines(job).lines]
    for name, last in told.items():
        mine = [int(key[1:]) for key in keys if key[0] == name]
        assert mine == list(range(len(mine)))
        assert len(mine) > last
