"""Every state of a job stays, whatever happens to the disk or to the program."""

import json
import os
import resource
import stat
import zlib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bickern.book.states import (
    WHOLE_EVERY,
    Kept,
    StateLog,
    bytes_of,
    difference,
    log_for,
    states_folder,
    text_of,
    write_whole,
)
from bickern.measure.finding import Finding


def filled(path: Path, texts: list[str]) -> StateLog:
    log = StateLog(path)
    old = ""
    for number, text in enumerate(texts, 1):
        with log.held():
            log.news()
            log.add(Kept(number, 100.0 + number, "typed", "me"), text, number - 1, old)
        old = text
    return log


def again(path: Path) -> StateLog:
    log = StateLog(path)
    with log.held():
        log.news()
    return log


TEXTS = st.text(alphabet=st.sampled_from("ab\n\r\u2028é🔥\x00\ud800"), max_size=30)


@given(TEXTS, TEXTS)
def test_a_difference_gives_the_new_text_again(old: str, new: str):
    start, end, put = difference(old, new)
    assert old[:start] + put + old[end:] == new
    assert 0 <= start <= end <= len(old)


@given(st.lists(TEXTS, min_size=1, max_size=8))
def test_every_text_is_given_again_also_after_a_new_start(tmp_path_factory, texts: list[str]):
    path = tmp_path_factory.mktemp("log") / "a.states"
    log = filled(path, texts)
    assert [log.text_at(n) for n in range(1, len(texts) + 1)] == texts
    assert [again(path).text_at(n) for n in range(1, len(texts) + 1)] == texts


def test_a_whole_text_stands_again_after_so_many_states(tmp_path: Path):
    texts = ["x" * 200 + str(n) for n in range(3 * WHOLE_EVERY)]
    filled(tmp_path / "a.states", texts)
    whole = [json.loads(line[9:]) for line in (tmp_path / "a.states").read_text().splitlines()]
    assert 3 <= sum("text" in line for line in whole) <= 5
    log = again(tmp_path / "a.states")
    assert [log.text_at(n + 1) for n in range(len(texts))] == texts


def test_a_line_torn_anywhere_is_left_out_and_takes_nothing_with_it(tmp_path: Path):
    texts = ["one", "one two", "one two three", "two three four"]
    filled(tmp_path / "a.states", texts)
    data = (tmp_path / "a.states").read_bytes()
    last = data[:-1].rindex(b"\n") + 1
    for cut in range(last, len(data)):
        torn = tmp_path / f"{cut}.states"
        torn.write_bytes(data[:cut])
        log = again(torn)
        assert log.last == 3
        with log.held():
            log.news()
            log.add(Kept(4, 0.0, "typed"), "after the crash", 3, texts[2])
        assert log.fault is None
        assert [again(torn).text_at(n) for n in (1, 2, 3, 4)] == [*texts[:3], "after the crash"]
        assert torn.read_bytes().startswith(data[:cut])


def test_a_line_with_a_wrong_letter_is_never_trusted(tmp_path: Path):
    texts = ["alpha beta", "alpha gamma", "alpha gamma delta"]
    filled(tmp_path / "a.states", texts)
    data = bytearray((tmp_path / "a.states").read_bytes())
    at = data.index(b"gamm")
    data[at] = ord("G")
    (tmp_path / "a.states").write_bytes(data)
    log = again(tmp_path / "a.states")
    assert log.text_at(1) == texts[0]
    assert log.text_at(2) is None
    # the third is told against the second: it is not guessed
    assert log.text_at(3) in (None, texts[2])


def test_a_line_that_fits_its_check_but_not_its_text_is_not_given(tmp_path: Path):
    filled(tmp_path / "a.states", ["alpha"])
    said = b'{"number":2,"at":1,"what":"typed","of":1,"start":0,"end":0,"put":"x","sum":1}'
    with (tmp_path / "a.states").open("ab") as file:
        file.write(b"%08x %s\n" % (zlib.crc32(said), said))
    assert again(tmp_path / "a.states").text_at(2) is None


@pytest.mark.parametrize(
    "said",
    [
        b"[]", b"{}", b'{"number":2}', b'{"number":"x","at":1,"what":"typed","text":"t","sum":0}', b'{"filed":"x"}',
        b'{"number":-2,"at":1,"what":"typed"}', b'{"number":1e400,"at":1,"what":"a"}', b'{"filed":1e999}',
        b'{"number":2,"at":1,"what":"typed","of":"x"}', b'{"number":2,"at":1,"what":"typed","of":2,"sum":1}',
        b'{"number":2,"at":1,"what":"typed","of":1,"sum":1}', b'{"number":99999999999999999999,"at":1,"what":"a"}',
        b'{"number":2,"at":1,"what":"typed","text":5}', b'{"number":2,"at":1,"what":"typed","of":1,"start":[],"sum":1}',
    ],
)  # fmt: skip
def test_a_line_written_by_hand_does_no_harm(tmp_path: Path, said: bytes):
    filled(tmp_path / "a.states", ["alpha"])
    with (tmp_path / "a.states").open("ab") as file:
        file.write(b"%08x %s\n" % (zlib.crc32(said), said))
    log = again(tmp_path / "a.states")
    assert log.text_at(1) == "alpha"
    assert log.text_at(2) is None
    with log.held():
        log.add(Kept(log.last + 1, 0.0, "typed"), "beta", 1, "alpha")
    assert again(log.path).text_at(log.last) == "beta"


def test_of_ten_thousand_states_no_texts_stay_in_memory(tmp_path: Path):
    import tracemalloc

    text = "".join(f"line {n} of a job that is somewhat long\n" for n in range(200))
    log = StateLog(tmp_path / "a.states")
    tracemalloc.start()
    with log.held():
        old = ""
        for number in range(1, 10_001):
            new = text + str(number)
            log.add(Kept(number, 0.0, "typed", "me"), new, number - 1, old)
            old = new
    held = tracemalloc.get_traced_memory()[0]
    tracemalloc.stop()
    assert len(log) == 10_000
    assert held < 1_500_000  # whole texts would be 80 MB
    assert log.text_at(5_000) == text + "5000"


def test_two_logs_of_one_file_see_each_others_states(tmp_path: Path):
    one = filled(tmp_path / "a.states", ["one"])
    other = again(tmp_path / "a.states")
    with other.held():
        other.add(Kept(2, 5.0, "form", "them"), "one two", 1, "one")
        other.file_holds(2)
    with one.held():
        news = one.news()
    assert [k.what for k in news.kept] == ["form"]
    assert one.text_at(2) == "one two"
    assert one.filed == 2


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write everywhere")
def test_a_folder_that_cannot_be_written_is_a_finding(tmp_path: Path):
    tmp_path.chmod(0o500)
    log = filled(tmp_path / "a.states", ["one", "one two"])
    assert log.fault is not None
    assert log.fault.name == "states-not-kept"
    tmp_path.chmod(0o700)


def test_where_the_log_cannot_be_written_states_wait_and_are_written_later(tmp_path: Path):
    (tmp_path / "states").write_text("a file where the folder should be")
    log = filled(tmp_path / "states" / "a.states", ["one", "one two"])
    assert log.fault is not None
    assert [log.text_at(n) for n in (1, 2)] == ["one", "one two"]
    (tmp_path / "states").unlink()
    with log.held():
        log.news()
        log.tried_again()
    assert log.fault is None
    assert [again(log.path).text_at(n) for n in (1, 2)] == ["one", "one two"]


def small_files_only(work) -> None:
    """A disk that is full, as the system tells it: no file may grow past so many bytes."""
    import signal

    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    heard = signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (2000, before[1]))
    try:
        work()
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)
        signal.signal(signal.SIGXFSZ, heard)


def test_a_full_disk_loses_nothing_and_what_was_half_written_is_not_trusted(tmp_path: Path):
    log = filled(tmp_path / "a.states", ["one"])
    texts = ["one"] + ["".join(f"{n} {i} {i * i}\n" for i in range(60)) for n in range(5)]

    def edits() -> None:
        for number in range(2, 7):
            with log.held():
                log.news()
                log.add(Kept(number, 0.0, "typed"), texts[number - 1], number - 1, texts[number - 2])

    small_files_only(edits)
    assert log.fault is not None
    assert [log.text_at(n) for n in range(1, 7)] == texts
    with log.held():
        log.news()
        log.tried_again()
    assert log.fault is None
    assert [again(log.path).text_at(n) for n in range(1, 7)] == texts


def test_states_that_waited_while_another_program_wrote_are_given_back(tmp_path: Path):
    one = filled(tmp_path / "a.states", ["one"])
    folder = tmp_path
    kept_away = folder / "away.states"
    one.path.rename(kept_away)
    one.path.mkdir()  # no log can be opened here now
    with one.held():
        one.news()
        one.add(Kept(2, 0.0, "typed", "me"), "one mine", 1, "one")
    one.path.rmdir()
    kept_away.rename(one.path)
    other = again(one.path)
    with other.held():
        other.add(Kept(2, 0.0, "typed", "them"), "one theirs", 1, "one")
    with one.held():
        news = one.news()
    assert [(k.who, text) for k, text in news.displaced] == [("me", "one mine")]
    assert one.text_at(2) == "one theirs"


def test_a_log_that_was_taken_away_is_noticed(tmp_path: Path):
    log = filled(tmp_path / "a.states", ["one", "two"])
    log.path.unlink()
    with log.held():
        assert log.news().anew
    assert log.last == 0


def test_a_file_is_put_in_place_whole_with_its_mode_and_through_its_link(tmp_path: Path):
    (tmp_path / "there").mkdir()
    real = tmp_path / "there" / "real.yaml"
    real.write_text("old")
    real.chmod(0o640)
    link = tmp_path / "link.yaml"
    link.symlink_to(real)
    assert write_whole(link, b"new") is None
    assert link.is_symlink()
    assert real.read_text() == "new"
    assert stat.S_IMODE(real.stat().st_mode) == 0o640
    assert sorted(p.name for p in real.parent.iterdir()) == ["real.yaml"]


def test_on_a_full_disk_the_old_file_stays_whole(tmp_path: Path):
    path = tmp_path / "a.yaml"
    path.write_text("old")
    found: list[Finding | None] = []
    small_files_only(lambda: found.append(write_whole(path, b"n" * 5000)))
    assert found[0] is not None
    assert found[0].name == "not-written"
    assert path.read_text() == "old"
    assert [p.name for p in tmp_path.iterdir()] == ["a.yaml"]


def test_the_log_lies_in_the_users_data_folder_under_a_name_a_person_can_find(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    path = log_for(Path("/shop/Porch lantern.yaml"))
    assert path.parent == states_folder() == tmp_path / "bickern" / "states"
    assert path.name.endswith("-Porch-lantern.states")
    assert path != log_for(Path("/other/Porch lantern.yaml"))


@pytest.mark.parametrize("data", [b"a\nb\n", b"a\r\nb\r\n", b"\xef\xbb\xbfa\r\n", b"", "é\n".encode()])
def test_line_ends_and_the_mark_at_the_head_come_back_as_they_were(data: bytes):
    text = text_of(data, "a.yaml")
    assert isinstance(text, str)
    assert "\r" not in text
    assert bytes_of(text, data) == data


def test_what_is_not_text_is_a_finding():
    found = text_of(b"\xff\xfe\x00", "a.yaml")
    assert isinstance(found, Finding)
    assert found.name == "not-text"
