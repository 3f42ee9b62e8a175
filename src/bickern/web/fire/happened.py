"""What really happened, told at the anvil: a form beside what was foreseen, what it taught, and the records so far."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from nicegui import run, ui

from bickern.desk.answer import Row
from bickern.desk.daybook.fields import DayField, at_field, day_fields, recorded_before, words_of
from bickern.desk.daybook.listed import ListRow
from bickern.desk.daybook.page import Filled, Page, filled, listed, page_of, struck
from bickern.desk.daybook.retold import Words
from bickern.desk.seen import as_seen
from bickern.desk.work.ticks import made_so_far, noted, pulled
from bickern.measure.finding import Finding
from bickern.measure.units.words import Read
from bickern.web.field import Field, hears
from bickern.web.fire.window import WHOLE, Window
from bickern.web.parts import button, findings, heading, rows, say, words

LINES = 3
"""Lines of the field for a remark."""
TAUGHT, UNTAUGHT = "What it taught", "What it had taught, without it"


@dataclass(frozen=True, slots=True)
class _Ahead:
    """What can be told of a piece, how many of it were recorded, and the records of the whole job."""

    fields: tuple[DayField, ...] = ()
    before: int = 0
    title: str = ""
    records: tuple[ListRow, ...] = ()
    findings: tuple[Finding, ...] = ()


class Happened:
    """The section below the cards; it asks the day book only when it is opened."""

    def __init__(self, window: Window) -> None:
        self.window = window
        self.piece = WHOLE
        self.values: dict[str, str] = {}
        self.fields: dict[str, Field] = {}
        self._told: tuple[DayField, ...] = ()
        self.box = ui.element("section").props("id=happened tabindex=-1 aria-labelledby=happened-head")
        with self.box:
            ui.html("What really happened", tag="h2", sanitize=False).props("id=happened-head")
            self.inner = ui.element("div")
            with self.inner:
                words("Told in figures, it teaches the shop's own: cut, heats and minutes of what is still to be made.")
                button("Tell what really happened", self.open)

    async def open(self, piece: str | None = None) -> None:
        """Asks of a piece (None: that of the card that is shown)."""
        card = self.window.card
        self.piece = piece if piece is not None else card.piece if card is not None else WHOLE
        ahead = await run.io_bound(self._ahead)
        if ahead is None:
            return
        self.inner.clear()
        with self.inner:
            self.form = ui.element("div")
            self.came = ui.element("div").props("role=status")
            self.records = ui.element("div")
        self._show(ahead)
        ui.run_javascript("document.getElementById('happened')?.scrollIntoView({block:'start'});"
                          "document.getElementById('happened')?.focus({preventScroll:true})")  # fmt: skip

    def _show(self, ahead: _Ahead) -> None:
        self.form.clear()
        with self.form:
            self._form(ahead)
        self._list(ahead)

    # ---- the form

    def _form(self, ahead: _Ahead) -> None:
        """The piece, what is asked first, and the rest folded away; notes to its cards stand as the remark."""
        if ahead.findings:
            findings(ahead.findings)
        cards, stands = self.window.cards, self.window.stands
        names = list(dict.fromkeys(card.piece for card in cards.cards if card.piece and card.ticks))
        told = [(name, name) for name in names] + [(WHOLE, "the whole job")]
        with ui.element("div").classes("fields"):
            Field("Of what", self.piece, hears(self.open), options=told)
        made = made_so_far(cards, stands, self.piece) - ahead.before if self.piece else 1
        remark = "" if ahead.before else noted(cards, stands, self.piece)
        self.values = {"made": str(max(1, made)), "remark": remark, **stands.drafts.get(self.piece, {})}
        self.fields, self._told = {}, ahead.fields
        self._fields(one for one in ahead.fields if one.first and one.takes != "words")
        self._fields(one for one in ahead.fields if one.takes == "words")
        if any(not one.first for one in ahead.fields):
            with ui.element("details").classes("folded"):
                ui.html("more, for whoever measured more", tag="summary", sanitize=False)
                self._fields(one for one in ahead.fields if not one.first)
        with ui.element("div").classes("row keep"):
            button("Write it into the day book", self.keep, main=True)

    def _fields(self, told: Iterable[DayField]) -> None:
        with ui.element("div").classes("fields"):
            for one in told:
                self._field(one)

    def _field(self, one: DayField) -> None:
        value = self.values.get(one.name, "")
        keys = "decimal" if one.takes in ("number", "minutes") else ""
        lines = LINES if one.takes == "words" else 1

        def typed(says: str) -> None:
            self.values[one.name] = says
            self.window.fill_in(self.piece, dict(self.values))

        self.fields[one.name] = Field(
            _sentence(one.label), value, hears(typed), hint=self._hint(one), keys=keys, name=one.name, lines=lines
        )

    def _hint(self, one: DayField) -> str:
        """What it is and what was foreseen; of heats also how often an iron was pulled from the fire here."""
        many = pulled(self.window.cards, self.window.stands, self.piece) if one.name == "heats" else 0
        return f"{one.says}; pulled from the fire here, of all of them: {many}" if many else one.says

    async def keep(self) -> None:
        """Writes it into the day book; what is wrong is said at its field, and then nothing is kept."""
        read = await run.io_bound(self._filled, dict(self.values), self.piece)
        if read is None:
            return
        for field in self.fields.values():
            field.wrong("")
        if read.value is None:
            self._wrong(read.findings)
            return
        await self.window.filled_in(self.piece)
        await self._came(read.value, TAUGHT)

    def _wrong(self, found: tuple[Finding, ...]) -> None:
        """Each fault at its field, those of no field below; the first is gone to."""
        rest, first = [], ""
        for one in found:
            name, says = at_field(one, self._told)
            if name in self.fields:
                self.fields[name].wrong(f"{says} {one.try_this}".strip())
                first = first or name
            else:
                rest.append(replace(one, says=says))
        self.came.clear()
        with self.came:
            if rest:
                findings(rest)
            words("Nothing was kept yet.")
        if first:
            self.fields[first].go()

    async def _came(self, done: Filled, title: str) -> None:
        """What was kept or struck, what that taught, and what the rest takes by now."""
        self.came.clear()
        with self.came:
            for line in done.says:
                words(line).classes("kept")
            _table(title, done.taught)
            _table(*done.rest)
            if done.findings:
                findings(done.findings)
        ahead = await run.io_bound(self._ahead)
        if ahead is not None:
            self._show(ahead)

    # ---- the records

    def _list(self, ahead: _Ahead) -> None:
        self.records.clear()
        with self.records:
            heading(ahead.title, 3)
            with ui.element("ul").classes("records"):
                for row in ahead.records:
                    self._record(row)

    def _record(self, row: ListRow) -> None:
        number, when, of, said = row
        with ui.element("li"):
            words(f"{number}. {of}: {said}")
            words(when, quiet=True)
            if said.startswith("STRUCK"):
                return
            with ui.element("details").classes("folded"):
                ui.html(f"strike record {number}", tag="summary", sanitize=False)
                why = Field("Why it was a slip", hint="it stays in the day book, marked, and counts for nothing")
                button(f"Strike record {number}", lambda: self._strike(int(number), why.value))

    async def _strike(self, number: int, why: str) -> None:
        read = await run.io_bound(self._struck, number, why)
        if read is None:
            return
        if read.value is None:
            say("; ".join(one.says for one in read.findings))
            return
        await self._came(read.value, UNTAUGHT)

    # ---- the day book, beside everything else

    def _on_page(self, does: Callable[[Page], Read[Filled]], *, write: bool) -> Read[Filled]:
        page = self._page(write=write)
        if page.value is None:
            return Read(None, page.findings)
        try:
            return does(page.value)
        finally:
            page.value.close()

    def _page(self, *, write: bool) -> Read[Page]:
        place, visit = self.window.visit.place, self.window.visit
        read = page_of(self.window.doc.path, place.shop, place.rack, write=write)
        if read.value is None:
            return read
        return Read(replace(read.value, shop=as_seen(read.value.shop, visit.seen)), read.findings)

    def _ahead(self) -> _Ahead:
        read = self._page(write=False)
        if read.value is None:
            return _Ahead(findings=read.findings)
        try:
            fields, told = day_fields(read.value, self.piece), listed(read.value)
            title, records = told.value or ("", ())
            found = (*fields.findings, *told.findings)
            return _Ahead(fields.value or (), recorded_before(read.value, self.piece), title, records, found)
        finally:
            read.value.close()

    def _filled(self, values: dict[str, str], piece: str) -> Read[Filled]:
        who = self.window.who or None
        return self._on_page(lambda page: filled(page, piece, words_of(values), who=who), write=True)

    def _struck(self, number: int, why: str) -> Read[Filled]:
        who = self.window.who or None
        return self._on_page(lambda page: struck(page, number, words=Words(remark=why), who=who), write=True)


def _table(title: str, told: tuple[Row, ...]) -> None:
    if told:
        heading(title, 3)
        rows(told)


def _sentence(says: str) -> str:
    return says[:1].upper() + says[1:]
