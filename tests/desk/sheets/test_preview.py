"""The packet to look at: its pages as pictures, its files, the whole of it in one, and how it is kept."""

import io
import sys
import threading
import time
import zipfile
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pdfplumber
import pytest
from PIL import Image

from bickern.desk.reckon import Reckoning, reckon_file, reckon_text
from bickern.desk.seen import Seen
from bickern.desk.sheets.packets import MOST_KEPT, Packets
from bickern.desk.sheets.packets_apart import pictures_apart, set_apart
from bickern.desk.sheets.preview import (
    FOR_WHOM,
    PAPER_WORDS,
    Preview,
    Step,
    groups_of,
    kind_of,
    large_pictures,
    mark_of,
    preview,
    size_of,
    stem_of,
    usual_paper,
    whole_packet,
)
from bickern.desk.sheets.sheets import many_pages, packet_of
from bickern.desk.whole.assemble import for_packet
from bickern.measure.finding import Finding
from bickern.paper.packet import AUDIENCES
from bickern.paper.pens.page import PAPERS

EXAMPLES = Path(__file__).parents[3] / "examples"
HOOK = """\
job: Hook
units: in
make: 2
pieces:
  hook:
    bar: 3/8 sq
    metal:
      - {from: point, to: 3/8 sq, over: 3}
      - {keep: 4}
"""
HOOD = """\
job: Hood
units: mm
pieces:
  hood:
    sheet: 2 mm
    surface: {cone: {base: %d, top: %d, height: %d, sizes: mean}}
"""


def job(text: str = HOOK) -> Reckoning:
    return reckon_text(text, "job.yaml")


def seen_of(done: Reckoning, audience: str = "shop", paper: str = "letter") -> Preview:
    made = preview(done, paper, audience)
    assert isinstance(made, Preview)
    return made


def page_count(pdf: bytes) -> int:
    with pdfplumber.open(io.BytesIO(pdf)) as file:
        return len(file.pages)


def test_every_audience_and_paper_that_can_be_printed_can_be_chosen():
    assert set(FOR_WHOM) == set(AUDIENCES)
    assert set(PAPER_WORDS) == set(PAPERS)


@pytest.mark.parametrize("audience", AUDIENCES)
def test_the_packet_seen_is_the_packet_that_the_terminal_writes(audience: str):
    done = job()
    assert dict(seen_of(done, audience).files) == packet_of(for_packet(done, audience), "letter", audience)


def test_a_picture_for_each_page_in_the_shape_of_the_paper():
    # pages counted and pictures measured by other libraries: pdfplumber, Pillow
    for paper, wide, high in (("letter", 8.5, 11.0), ("a4", 210.0, 297.0)):
        for one in seen_of(job(), paper=paper).documents:
            pictures = one.small
            assert one.pages == len(pictures) == page_count(seen_of(job(), paper=paper).files[one.name])
            for picture in (pictures[0], large_pictures(one)[0]):
                size = Image.open(io.BytesIO(picture)).size
                assert size == size_of(picture)
                # sideways or upright; a picture ends on a whole dot
                assert max(size) / min(size) == pytest.approx(high / wide, rel=2.0 / min(size))


def test_large_pictures_show_the_same_pages():
    one = seen_of(job()).documents[0]
    assert len(large_pictures(one)) == len(one.small)
    for small, large in zip(one.small, large_pictures(one), strict=True):
        image = Image.open(io.BytesIO(large)).convert("L").resize(size_of(small))
        told = Image.open(io.BytesIO(small)).convert("L")
        # ink covers the same share of the page, whatever it is drawn with
        ink = [sum(255 - dot for dot in picture.tobytes()) / 255 for picture in (image, told)]
        assert ink[0] == pytest.approx(ink[1], rel=0.1)


def test_of_very_many_pages_only_the_first_are_pictured(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr("bickern.desk.sheets.preview.MOST_SHOWN", 3)
    found = seen_of(job(HOOD % (600, 200, 300)))
    patterns = next(one for one in found.documents if one.name == "patterns.pdf")
    assert patterns.pages == page_count(found.files["patterns.pdf"]) > 3
    assert len(patterns.small) == len(large_pictures(patterns)) == 3


def test_patterns_on_more_pages_than_anybody_tapes_together_are_told_of():
    done = job(HOOD % (1500, 500, 750))
    assert [f.name for f in many_pages(done, "letter")] == ["many-pages"]
    assert "many-pages" not in {f.name for f in seen_of(done, "customer").findings}


def test_each_document_is_told_of_as_soon_as_it_is_set():
    steps: list[Step] = []
    made = preview(job(), "letter", "shop", steps.append)
    assert isinstance(made, Preview)
    assert [step.document for step in steps if step.document] == list(made.documents)
    assert all(0 < a.share <= b.share < 1 for a, b in pairwise(steps))


def test_what_stops_is_told_and_the_rest_is_printed_all_the_same():
    bar = "  hook: {bar: 10 mm sq, metal: [{keep: 100 mm}]}\n"
    made = seen_of(job(HOOD % (100, 500, -3) + bar))
    assert any(f.stops for f in made.findings)
    assert "shop-sheet.pdf" in made.files
    with pdfplumber.open(io.BytesIO(made.files["shop-sheet.pdf"])) as file:
        assert "hook" in "".join(page.extract_text() for page in file.pages)


def test_the_sheet_says_to_cut_what_is_told_beside_it():
    made = seen_of(reckon_file(EXAMPLES / "porch-lantern.yaml"))
    with pdfplumber.open(io.BytesIO(made.files["shop-sheet.pdf"])) as file:
        first = " ".join(file.pages[0].extract_text().split())
    for one in made.cuts:
        assert one.cut.partition(" in")[0] + " in" in first, one
    # what the heats take is never less than nothing
    assert all(float_of(one.cut) > float_of(one.without) for one in made.cuts if one.without)
    assert seen_of(job(), "customer").cuts == ()


def float_of(said: str) -> float:
    """`20 7/16 in (519.5 mm)` in inches."""
    return float(sum(Fraction(part) for part in said.partition(" in")[0].split()))


def test_a_job_that_cannot_be_read_and_words_that_are_none_are_findings():
    for done, paper, audience, name in (
        (job("job: ["), "letter", "shop", "nothing-to-print"),
        (job(), "napkin", "shop", "unknown-paper"),
        (job(), "letter", "king", "unknown-audience"),
    ):
        found = preview(done, paper, audience)
        assert isinstance(found, Finding)
        assert found.name == name


def test_the_whole_packet_in_one_holds_every_file_as_it_is():
    made = seen_of(job(HOOD % (200, 50, 100)))
    data = whole_packet(made)
    with zipfile.ZipFile(io.BytesIO(data)) as folder:
        assert folder.testzip() is None
        assert {name: folder.read(name) for name in folder.namelist()} == dict(made.files)
    assert whole_packet(made) == data
    assert stem_of(made) == "hood-shop-letter"


def test_every_other_file_stands_under_one_head_and_is_known():
    made = seen_of(reckon_file(EXAMPLES / "ring-pull.yaml"))
    told = [name for _, names in groups_of(made.others) for name in names]
    assert sorted((*told, *(one.name for one in made.documents))) == sorted(made.files)
    assert not [name for name in made.files if kind_of(name)[1] == "file"]


def test_the_same_job_has_the_same_mark_and_another_has_another():
    assert mark_of(job()) == mark_of(job())
    assert mark_of(job()) != mark_of(job(HOOK.replace("keep: 4", "keep: 5")))
    assert mark_of(job()) != mark_of(reckon_text(HOOK, "job.yaml", seen=Seen("mm")))


def test_the_paper_tried_first_goes_with_the_tape():
    assert usual_paper(Seen(), None) == usual_paper(Seen("in"), None) == "letter"
    assert usual_paper(Seen("mm"), None) == "a4"


class _Counted:
    """Stands in for the setting of a packet: counts, and takes its time."""

    def __init__(self) -> None:
        self.times = 0

    def __call__(self, done: Reckoning, paper: str, audience: str, report: object = None) -> Preview:
        self.times += 1
        time.sleep(0.05)
        return Preview(mark_of(done), "Hook", audience, paper, (), {"a.csv": b"1"}, ())


@pytest.fixture
def counted() -> _Counted:
    return _Counted()


def test_two_who_ask_at_once_wait_for_one_setting(counted: _Counted):
    packets, found = Packets(counted), []
    ask = [threading.Thread(target=lambda n=n: found.append(packets.set(n, job, "letter", "shop"))) for n in range(4)]
    for one in ask:
        one.start()
    for one in ask:
        one.join()
    assert counted.times == 1
    assert len(found) == 4
    assert all(packets.of(n) is found[0] for n in range(4))


def test_a_job_that_changed_beneath_the_same_asking_is_set_anew(counted: _Counted):
    packets = Packets(counted)
    first = packets.set("hook", job, "letter", "shop")
    second = packets.set("hook", lambda: job(HOOK.replace("keep: 4", "keep: 5")), "letter", "shop")
    assert counted.times == 2
    assert first != second == packets.of("hook")


def test_no_more_packets_are_kept_than_there_is_room_for(counted: _Counted):
    packets = Packets(counted)
    for number in range(MOST_KEPT + 3):
        packets.set(number, lambda n=number: job(HOOK.replace("keep: 4", f"keep: {n + 1}")), "letter", "shop")
    kept = [number for number in range(MOST_KEPT + 3) if packets.of(number) is not None]
    assert kept == list(range(3, MOST_KEPT + 3))


def test_large_pictures_are_made_once():
    times = []
    packets = Packets(pictures=lambda one: (times.append(one.name), large_pictures(one))[1])
    made = packets.set("hook", job, "letter", "shop")
    assert isinstance(made, Preview)
    first = packets.large(made, "shop-sheet.pdf")
    assert packets.large(made, "shop-sheet.pdf") is first
    assert times == ["shop-sheet.pdf"]
    assert packets.large(made, "no-such.pdf") == ()


def test_pages_can_be_looked_at_while_the_rest_is_being_set():
    packets, seen = Packets(), []

    def look(step: Step) -> None:
        if step.document is not None:
            seen.append(packets.small("hook", step.document.name) == step.document.small)
            assert packets.of("hook") is None

    made = packets.set("hook", job, "letter", "shop", look)
    assert isinstance(made, Preview)
    assert seen == [True] * len(made.documents)
    assert packets.small("hook", "shop-sheet.pdf") == made.documents[0].small
    assert packets.small("hook", "no-such.pdf") is packets.small("ring", "shop-sheet.pdf") is None


def test_a_packet_set_in_a_process_of_its_own_is_the_same():
    told, here = [], []
    made = set_apart(job(), "letter", "shop", told.append)
    assert made == preview(job(), "letter", "shop", here.append)
    assert told == here
    assert isinstance(made, Preview)
    assert pictures_apart(made.documents[0]) == large_pictures(made.documents[0])


def test_a_packet_whose_process_is_lost_is_a_finding(monkeypatch: pytest.MonkeyPatch):
    packets = Packets(set_apart, pictures_apart)
    made = packets.set("hook", job, "letter", "shop")
    assert isinstance(made, Preview)
    monkeypatch.setattr(sys, "executable", "/no/such/python")
    assert packets.large(made, "shop-sheet.pdf") == ()
    lost = packets.set("hook", job, "letter", "class")
    assert isinstance(lost, Finding)
    assert lost.name == "packet-lost"
    assert packets.of("hook") is made
    monkeypatch.undo()
    assert packets.large(made, "shop-sheet.pdf")
    assert isinstance(packets.set("hook", job, "letter", "class"), Preview)
