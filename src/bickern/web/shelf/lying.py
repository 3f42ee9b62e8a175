"""The table of what lies in the rack, a page at a time; a piece is opened in its place, to be changed or taken out."""

from collections.abc import Callable, Iterable, Sequence
from html import escape

from nicegui import run, ui

from bickern.desk.rack.rack import Done, Keeper, Lying, cells_of, change_in_rack, move_in_rack, remove_from_rack
from bickern.desk.rack.rows import HEADS, history_of, history_rows, list_rows, of_kinds
from bickern.measure.finding import Finding
from bickern.web.field import Field
from bickern.web.parts import able, button, findings, heading, say, words
from bickern.web.shelf.folded import folded
from bickern.web.shelf.forms import ABOUT, BAR, SHEET, Cells
from bickern.web.shelf.window import PAGE, Window

LAID = ("id", "stock", "size", "steel", "mind")
"""What a cell of each column is known by where the table is laid out for a narrow screen."""
CHOOSE = '(e) => { const one = e.target.closest("[data-id]"); if (one) emit(one.dataset.id); }'
FOCUS = """(id, tries = 20) => {
  const go = () => {
    const one = document.querySelector(`[data-id="${id}"]`);
    if (one) one.focus(); else if (tries--) setTimeout(go, 50);
  };
  go();
}"""
"""Puts the keys on a piece's button, once its row is laid out again."""
STYLE = """
.lying .never th,.lying .never td{border-bottom:4px double var(--bad)}
.lying .open>td{padding:.9rem;background:var(--field);border-left:6px solid var(--ember)}
table.figures.lying th[scope=row]{width:auto;color:var(--ink);font-weight:700;font-size:1.2rem;padding-right:1.2rem}

.lying .stock,.lying .size{white-space:nowrap}
.lying td.act{text-align:right;padding-right:0}
@media (max-width:760px){
  .lying,.lying tbody,.lying .open,.lying .open>td{display:block}
  .lying thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
  .lying tr.piece{display:grid;grid-template-columns:3.4rem 1fr auto;gap:0 .6rem;padding:.5rem 0;
    border-bottom:1px solid var(--faint)}
  .lying tr.piece>*{border:0;padding:.15rem 0}
  .lying tr.never{border-bottom:4px double var(--bad)}
  .lying tr.never>*{border:0!important}
  .lying .stock,.lying .size{white-space:normal}
  .lying .stock{grid-area:1/2}.lying .act{grid-area:1/3/3/4}.lying .size{grid-area:2/2}
  .lying .steel,.lying .mind{grid-column:2/4}
}
"""


class Table:
    """The table: the pieces before the one that is open, that one, and those after it."""

    def __init__(self, window: Window) -> None:
        self.window = window
        self._shown: tuple[object, ...] = ()
        self.says = ui.html("", tag="p", sanitize=False).classes("quiet").props("role=status")
        self.found = ui.element("div")
        with ui.element("table").classes("figures lying").props('role=table aria-label="What lies in the rack"'):
            heads = "".join(f'<th scope="col" role="columnheader">{head}</th>' for head in (*HEADS, ""))
            ui.html(f'<tr role="row">{heads}</tr>', tag="thead", sanitize=False).props("role=rowgroup")
            self.before, self.open, self.after = self._part(), ui.element("tbody"), self._part()
        with ui.element("div").classes("row"):
            self.back = button(f"The {PAGE} before", lambda: window.turn(-1))
            self.on = button(f"The next {PAGE}", lambda: window.turn(1))
        window.shows.append(self.show)

    def _part(self) -> ui.html:
        part = ui.html("", tag="tbody", sanitize=False)
        part.on("click", lambda event: self.look_into(str(event.args)), js_handler=CHOOSE)
        return part

    def look_into(self, piece_id: str) -> None:
        """Opens a piece in its place."""
        self.window.open = piece_id
        self.show()

    def close(self, done: str = "") -> None:
        """Closes it, and puts the keys back on its button; says what was done."""
        was, self.window.open = self.window.open, ""
        self.show()
        with self.found:  # what was pressed is gone with the piece that was open
            ui.run_javascript(f"({FOCUS})({was!r})")
            if done:
                say(done)

    def show(self) -> None:
        """The rows of the page that is looked at."""
        window = self.window
        page, count = window.page, len(window.look.pieces)
        which = f" · {window.start + 1} to {window.start + len(page)}" if count > PAGE else ""
        self.says.set_content(escape(window.look.says() + which))
        able(self.back, window.start > 0)
        able(self.on, window.start + PAGE < count)
        for one in (self.back, self.on):
            one.set_visibility(count > PAGE)
        self.found.clear()
        with self.found:
            findings(window.look.findings)
        self._rows(page)

    def _rows(self, page: Sequence[Lying]) -> None:
        at = next((i for i, one in enumerate(page) if one.id == self.window.open), len(page))
        self.before.set_content(self._html(page[:at]))
        self.after.set_content(self._html(page[at + 1 :]))
        self.open.clear()
        if at < len(page):
            with self.open, ui.element("tr").classes("open"), ui.element("td").props(f"colspan={len(HEADS) + 1}"):
                Opened(self, page[at])

    def _html(self, pieces: Sequence[Lying]) -> str:
        rows = list_rows(pieces, self.window.by().shop.style)
        return "".join(_row(row) for row in rows)


def _row(row: Sequence[str]) -> str:
    """One piece; what may not go into a fire says so in words, and with a double line."""
    name, *rest = (escape(cell.replace("`", "")) for cell in row)
    never = " never" if "NEVER IN THE FIRE" in row[-1] else ""
    cells = "".join(f'<td role="cell" class="{kind}">{cell}</td>' for kind, cell in zip(LAID[1:], rest, strict=True))
    press = f'<button type="button" class="plain small" data-id="{name}" aria-label="Open {name}">Open</button>'
    head = f'<th scope="row" role="rowheader">{name}</th>'
    return f'<tr role="row" class="piece{never}">{head}{cells}<td role="cell" class="act">{press}</td></tr>'


class Opened:
    """One piece opened: its fields, its history, and a way to take it out."""

    def __init__(self, of: Table, piece: Lying) -> None:
        self.of, self.piece = of, piece
        by = of.window.by()
        (row,) = list_rows((piece,), by.shop.style)
        heading(f"{piece.id}: {row[1]}, {row[2]}", 3)
        words(row[4].replace("`", ""), quiet=True)
        kinds = BAR if of_kinds((piece,))[0] else SHEET
        was = cells_of(piece, by)
        columns = [column for column in (*kinds, *ABOUT) if column != "size" or was.get("size")]
        self.cells = Cells(columns, was)
        self.found = ui.element("div")
        with ui.element("div").classes("row"):
            button("Keep what is changed", self.keep, main=True)
            button("What happened to it", self.history)
            button("Close", of.close)
        with ui.element("details"):
            ui.html("Take it out of the rack", tag="summary", sanitize=False)
            self.because = Field("Why", hint="sold, lost, thrown away ...", name="because")
            button(f"Take {piece.id} out", self.remove)
        self.told = ui.element("div")
        self.cells.fields[columns[0]].go()

    async def keep(self) -> None:
        """Writes what is different; a new place alone is a move."""
        told, seen = self.cells.changed, self.piece.version
        if not told:
            self.of.close(f"{self.piece.id} stays as it was.")
        elif set(told) == {"place"}:
            await self._done(lambda by: move_in_rack(by, self.piece.id, told["place"], seen), "is moved")
        else:
            await self._done(lambda by: change_in_rack(by, self.piece.id, told, seen), "is changed")

    async def remove(self) -> None:
        """Takes it out, for a reason."""
        because = (self.because.value or "").strip()
        if not because:
            self.because.wrong("say why: its history keeps that")
            self.because.go()
            return
        await self._done(lambda by: remove_from_rack(by, [self.piece.id], because), "is taken out")

    async def _done(self, does: Callable[[Keeper], Done], what: str) -> None:
        came: Done = await self.of.window.done(does)
        if came.stops:
            self._show(self.cells.wrong(came.findings))
            return
        told = " ".join(one.says for one in came.findings)
        self.of.close(f"{self.piece.id} {what}. {told}".strip())

    def _show(self, found: Iterable[Finding]) -> None:
        self.found.clear()
        with self.found:
            findings(found)

    async def history(self) -> None:
        """All that happened to it, oldest first."""
        by = self.of.window.by()
        told = await run.io_bound(history_of, by, self.piece.id)
        self.told.clear()
        with self.told:
            if isinstance(told, Finding):
                findings([told])
            elif told is not None:
                folded(("when", "who", "what"), history_rows(told, by.shop.style), f"What happened to {self.piece.id}")
