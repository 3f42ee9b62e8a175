"""The folder of the jobs: nothing outside it is read or written, and nothing in it is overwritten."""

import os
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bickern.desk.job.folder import LONGEST_NAME, JobFolder, bad_name, blank
from bickern.desk.job.new import examples
from bickern.desk.job.open_job import OpenJob
from bickern.desk.reckon import reckon_text
from bickern.measure.finding import Finding

JOB = b"job: Hook\npieces:\n  hook:\n    bar: 1/4 rd\n  eye:\n    bar: 1/4 rd\n"

LEADS_OUT = (
    "", ".", "..", "../hook.yaml", "a/../../hook.yaml", "/etc/passwd", "/etc/hook.yaml", "a/hook.yaml", "a\\hook.yaml",
    "..\\hook.yaml", "C:\\hook.yaml", "hook.yaml\x00", "\x00.yaml", "ho\nok.yaml", ".hook.yaml", "~hook.yaml",
    "hook\u202elmay.yaml", "hook\u200b.yaml", "hook\ud800.yaml", "x" * 300 + ".yaml", "é" * 130 + ".yaml",
)  # fmt: skip
BAD_FOR_A_NEW_ONE = (
    "con.yaml", "NUL.yaml", "com1.yaml", "aux.b.yaml", "hook .yaml", "hook..yaml", " hook.yaml", "a:b.yaml", "a?.yaml",
    'a".yaml', "a|b.yaml", "a<b>.yaml", "x" * LONGEST_NAME + ".yaml",
)  # fmt: skip


@pytest.fixture
def jobs(tmp_path: Path) -> JobFolder:
    (tmp_path / "outside.yaml").write_bytes(JOB)
    (tmp_path / "jobs").mkdir()
    return JobFolder(tmp_path / "jobs", tmp_path / "states")


def there(jobs: JobFolder) -> dict[str, bytes]:
    return {p.name: p.read_bytes() for p in jobs.folder.iterdir()}


@pytest.mark.parametrize("name", LEADS_OUT)
def test_a_name_that_leads_out_is_refused_everywhere(jobs: JobFolder, name: str):
    for asked in (jobs.open(name), jobs.path(name), jobs.drop(name, JOB)):
        assert isinstance(asked, Finding)
    assert isinstance(jobs.new(None, name or "."), Finding)
    assert there(jobs) == {}
    assert sorted(p.name for p in jobs.folder.parent.iterdir()) == ["jobs", "outside.yaml"]


@pytest.mark.parametrize("name", BAD_FOR_A_NEW_ONE)
def test_a_new_file_gets_a_name_that_every_machine_can_keep(jobs: JobFolder, name: str):
    assert isinstance(bad_name(name), Finding)
    assert isinstance(jobs.drop(name, JOB), Finding)
    assert there(jobs) == {}


@given(st.text(max_size=40), st.sampled_from(["", ".yaml", ".yml", ".svg"]))
def test_whatever_the_name_the_file_is_in_the_folder(tmp_path_factory, name: str, ending: str):
    home = tmp_path_factory.mktemp("home")
    jobs = JobFolder(home / "jobs", home / "states")
    made = jobs.drop(name + ending, JOB)
    assert [p.name for p in home.iterdir()] == ([] if isinstance(made, Finding) else ["jobs"])
    if isinstance(made, str):
        assert [p.name for p in (home / "jobs").iterdir()] == [made]


def test_a_link_that_leads_out_is_no_job(jobs: JobFolder):
    (jobs.folder / "link.yaml").symlink_to(jobs.folder.parent / "outside.yaml")
    (jobs.folder / "round.yaml").symlink_to(jobs.folder / "round.yaml")
    (jobs.folder / "gone.yaml").symlink_to(jobs.folder / "nowhere.yaml")
    (jobs.folder / "folder.yaml").mkdir()
    assert jobs.jobs() == ()
    for name in ("link.yaml", "round.yaml", "gone.yaml", "folder.yaml"):
        assert isinstance(jobs.open(name), Finding)
    dropped = jobs.drop("link.yaml", JOB)
    assert dropped == "link 2.yaml"
    assert (jobs.folder.parent / "outside.yaml").read_bytes() == JOB


def test_a_link_within_the_folder_is_a_job(jobs: JobFolder):
    (jobs.folder / "hook.yaml").write_bytes(JOB)
    (jobs.folder / "same.yaml").symlink_to(jobs.folder / "hook.yaml")
    first, second = jobs.open("hook.yaml"), jobs.open("same.yaml")
    assert isinstance(first, OpenJob)
    assert first is second


def test_jobs_are_told_newest_first_with_title_and_pieces(jobs: JobFolder):
    (jobs.folder / "old.yaml").write_bytes(JOB.replace(b"Hook", b"Old"))
    (jobs.folder / "faulty.yml").write_text("job: [")
    (jobs.folder / "shop.yaml").write_text("shop: My forge\nunits: in\n")
    (jobs.folder / "note.txt").write_text("no job")
    (jobs.folder / ".hidden.yaml").write_bytes(JOB)
    os.utime(jobs.folder / "old.yaml", (1000, 1000))
    told = jobs.jobs()
    assert [(j.name, j.title, j.pieces) for j in told] == [("faulty.yml", "faulty", 0), ("old.yaml", "Old", 2)]
    assert (told[1].when, told[1].size) == (1000.0, len(JOB) - 1)
    (jobs.folder / "old.yaml").write_bytes(JOB)
    assert [j.title for j in jobs.jobs()] == ["Hook", "faulty"]


def test_where_there_is_no_folder_yet_there_are_no_jobs(tmp_path: Path):
    jobs = JobFolder(tmp_path / "new" / "jobs", tmp_path / "states")
    assert jobs.jobs() == ()
    assert jobs.new("trivet") == "trivet.yaml"
    assert [j.title for j in jobs.jobs()] == ["Trivet"]


def test_every_example_can_be_begun_and_none_is_overwritten(jobs: JobFolder):
    for example in examples():
        assert jobs.new(example.name) == f"{example.name}.yaml"
        assert jobs.new(example.name) == f"{example.name} 2.yaml"
        assert jobs.new(example.name, "mine") in ("mine.yaml", *(f"mine {n}.yaml" for n in range(2, 30)))
        assert there(jobs)[f"{example.name}.yaml"] == example.text.encode()
    assert isinstance(jobs.new("no-such", "x"), Finding)


@pytest.mark.parametrize("units", ["in", "mm"])
@pytest.mark.parametrize("title", ["Gate hinge", "Hook: the 2nd #1", "no", '"', "Türband"])
def test_a_blank_job_can_be_reckoned_as_it_is(units: str, title: str):
    done = reckon_text(blank(title, units), "new.yaml")
    assert done.findings == ()
    assert done.job is not None
    assert done.job.title == title
    assert done.copy is not None
    assert len(done.copy.pieces) == 1


def test_a_blank_job_gets_a_file_of_its_title(jobs: JobFolder):
    assert jobs.new(None, "Gate hinge") == "Gate hinge.yaml"
    assert jobs.new(None, "Gate hinge") == "Gate hinge 2.yaml"
    assert jobs.new(None) == "new job.yaml"
    assert jobs.new(None, "plate.yml", units="mm") == "plate.yml"
    assert "units: mm" in there(jobs)["plate.yml"].decode()


def test_a_dropped_job_is_there_as_it_was_also_with_faults_in_it(jobs: JobFolder):
    assert jobs.drop("hook.yaml", JOB) == "hook.yaml"
    assert jobs.drop("hook.yaml", JOB) == "hook.yaml"
    assert jobs.drop("hook.yaml", b"job: [") == "hook 2.yaml"
    assert jobs.drop("leaf.svg", b"<svg/>") == "leaf.svg"
    assert jobs.drop("LEAF.DXF", b"0\nEOF\n") == "LEAF.DXF"
    assert there(jobs)["hook.yaml"] == JOB
    assert there(jobs)["hook 2.yaml"] == b"job: ["


@pytest.mark.parametrize(
    ("name", "data", "says"),
    [
        ("a.yaml", b"\x89PNG\r\n\x1a\n\x00", "not-text"),
        ("a.yaml", b"\x00" * 10, "not-text"),
        ("a.yaml", "a\ud7ffb\x07".encode(), "not-text"),
        ("a.yaml", b"", "empty"),
        ("a.yaml", b"# " + b"x" * 1_000_000, "too-large"),
        ("a.svg", b"x" * 5_000_001, "too-large"),
        ("a.svg", b"", "not-text"),
        ("a.dxf", b"binary\x00", "not-text"),
        ("a.exe", JOB, "not-a-job"),
        ("a.yaml.exe", JOB, "not-a-job"),
        ("a", JOB, "not-a-job"),
        ("a.html", b"<script>", "not-a-job"),
    ],
)
def test_what_is_no_job_is_not_taken(jobs: JobFolder, name: str, data: bytes, says: str):
    found = jobs.drop(name, data)
    assert isinstance(found, Finding)
    assert found.name == says
    assert there(jobs) == {}


def test_a_folder_that_cannot_be_made_is_a_finding(tmp_path: Path):
    (tmp_path / "jobs").write_text("a file")
    found = JobFolder(tmp_path / "jobs", tmp_path / "states").new("trivet")
    assert isinstance(found, Finding)
    assert found.name == "not-written"


def test_the_same_job_is_given_to_all_who_open_it(jobs: JobFolder):
    jobs.drop("hook.yaml", JOB)
    job = jobs.open("hook.yaml")
    assert isinstance(job, OpenJob)
    assert jobs.open("hook.yaml") is job
    (jobs.folder / "hook.yaml").unlink()
    assert isinstance(jobs.open("hook.yaml"), Finding)
