"""Laws of the rack: whatever is done to it in whatever order, it is what was done, and its history tells it."""

import shutil
import tempfile
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import Bundle, RuleBasedStateMachine, consumes, initialize, invariant, multiple, rule

from bickern.book.database.open import open_book
from bickern.book.database.work import Book
from bickern.book.rack.change import add, change, remove
from bickern.book.rack.check import check
from bickern.book.rack.history import History, history
from bickern.book.rack.read import piece_in, rack_of
from bickern.book.rack.take import take
from bickern.iron.section import Section
from bickern.making.stock.rack import Rack, StockBar, Taking, Use
from bickern.measure.finding import Finding
from bickern.measure.units.words import Shape

KERF = 0.002
LENGTHS = st.floats(0.05, 6.0)
WORDS = st.text(st.characters(codec="utf-8", exclude_categories=["C", "Z"]), max_size=8)


class TheRack(RuleBasedStateMachine):
    """Does what a shop does, and keeps its own plain account beside it."""

    bars: Bundle[str] = Bundle("bars")

    @initialize()
    def begin(self) -> None:
        self.folder = Path(tempfile.mkdtemp())
        book = open_book(self.folder / "rack.sqlite")
        assert isinstance(book, Book)
        self.book = book
        self.there: dict[str, StockBar] = {}
        self.versions: dict[str, int] = {}
        self.put_in = self.cut_off = 0.0

    @rule(target=bars, lengths=st.lists(LENGTHS, min_size=1, max_size=3), place=WORDS)
    def adds(self, lengths: list[float], place: str) -> object:
        new = [StockBar("", Section(Shape.ROUND, 0.01, 0.01), length, place=place) for length in lengths]
        ids = add(self.book, new, "law")
        assert isinstance(ids, tuple)
        for one, bar in zip(ids, new, strict=True):
            self.keep(replace(bar, id=one, version=1))
        self.put_in += sum(lengths)
        return multiple(*ids)

    def keep(self, bar: StockBar) -> None:
        self.there[bar.id] = bar
        self.versions[bar.id] = bar.version

    @rule(bar=bars, place=WORDS, steel=WORDS)
    def changes(self, bar: str, place: str, steel: str) -> None:
        seen = self.there.get(bar)
        now = piece_in(self.book, bar)
        if seen is None:
            assert isinstance(now, Finding)
            return
        done = change(self.book, replace(seen, place=place, steel=steel), "law")
        if (seen.place, seen.steel) == (place, steel):
            assert isinstance(done, Finding)
            return
        assert isinstance(done, StockBar)
        self.keep(done)

    @rule(target=bars, bar=consumes(bars), shares=st.lists(st.floats(0.05, 0.3), max_size=3))
    def takes(self, bar: str, shares: list[float]) -> object:
        seen = self.there.pop(bar, None)
        if seen is None:
            assert isinstance(take(self.book, Taking((Use(bar, self.versions[bar], ()),), ("law",))), Finding)
            return multiple()
        left = [replace(seen, id="", length=seen.length * share) for share in shares]
        ids = take(self.book, Taking((Use(bar, seen.version, ("x",), tuple(left)),), ("law",)), "law")
        assert isinstance(ids, tuple), ids
        self.versions[bar] = seen.version + 1
        for one, drop in zip(ids, left, strict=True):
            self.keep(replace(drop, id=one, of=bar, offcut=True, version=1))
        self.cut_off += seen.length - sum(drop.length for drop in left)
        return multiple(*ids)

    @rule(bar=bars)
    def removes(self, bar: str) -> None:
        seen = self.there.pop(bar, None)
        done = remove(self.book, [bar], "lost", "law")
        assert isinstance(done, Finding) == (seen is None)
        if seen is not None:
            self.versions[bar] = seen.version + 1
            self.cut_off += seen.length

    @rule(bar=bars, back=st.integers(1, 3))
    def comes_late(self, bar: str, back: int) -> None:
        """A plan that has seen an older state of the bar takes nothing."""
        version = self.versions[bar] - back
        assert isinstance(take(self.book, Taking((Use(bar, version, ()),), ("late",))), Finding)

    @invariant()
    def is_what_was_done(self) -> None:
        rack = rack_of(self.book)
        assert isinstance(rack, Rack)
        assert {bar.id: bar for bar in rack.bars} == self.there
        assert sum(bar.length for bar in rack.bars) + self.cut_off == pytest.approx(self.put_in)
        assert check(self.book) == ()

    def teardown(self) -> None:
        """In the end: a row of history for each version there ever was."""
        for one, version in self.versions.items():
            told = history(self.book, one)
            assert isinstance(told, History)
            assert [c.version for c in told.changes] == list(range(1, version + 1))
        self.book.close()
        shutil.rmtree(self.folder)


class TheRackForLong(TheRack):
    """The same, many more times."""


TheRack.TestCase.settings = settings(max_examples=8, stateful_step_count=20, deadline=None)
TheRackForLong.TestCase.settings = settings(max_examples=300, stateful_step_count=50, deadline=None)
TestTheRack = TheRack.TestCase
TestTheRackForLong = pytest.mark.soak(TheRackForLong.TestCase)
