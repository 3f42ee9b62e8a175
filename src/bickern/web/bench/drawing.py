"""The drawing across the top: the straight bar with its marks, the finished shape, the pattern; and what to cut."""

from functools import partial
from html import escape

from nicegui import ui
from nicegui.element import Element

from bickern.desk.live.live import Picture, PieceLive
from bickern.web.bench.window import JOB, Window
from bickern.web.parts import Tick, button, pressed, rows_html
from bickern.web.shown import Shown

TO_SCALE = "to scale in every part"
TRUE_SIZE = "true size, if this screen is set right: hold a rule to it"
"""What is said of the scale beside a drawing."""


class Sheet:
    """The drawing that is looked at, its buttons, and the figure that the saw follows."""

    def __init__(self, window: Window) -> None:
        self.window = window
        self.buttons: dict[str, Element] = {}
        with ui.element("section").props('aria-label="Drawing"').classes("above") as self.box:
            with ui.element("div").classes("row"):
                self.choose = ui.element("div").classes("row").props('role=group aria-label="Which drawing"')
                Tick("true size", window.true_size, self._true)
                self.scale = Shown("span").classes("quiet")
            self.sheet = Shown().classes("drawing")
            self.cut = Shown("p").classes("cut").props("aria-live=polite")
        window.shows.append(lambda _: self.show())

    def show(self) -> None:
        """The newest; of text that cannot be read the last drawing stays, pale."""
        piece = piece_of(self.window)
        pale = piece is None or not piece.pictures
        self.sheet.marked("stale", pale)
        self.box.set_visibility(self.window.piece != JOB)
        if piece is None or not piece.pictures:
            return
        if list(self.buttons) != [picture.title for picture in piece.pictures]:
            self._choices(piece)
        picture = next((p for p in piece.pictures if p.title == self.window.picture), piece.pictures[0])
        for title, one in self.buttons.items():
            pressed(one, title == picture.title)
        self._shown(picture)
        self.cut.put(_cut(piece, counted=self.window.live is not None and self.window.live.heated))

    def _true(self, yes: bool) -> None:
        self.window.true_size = yes
        self.window.reckon()

    def _choices(self, piece: PieceLive) -> None:
        """A button for each drawing that there is of this piece."""
        self.choose.clear()
        self.buttons.clear()
        with self.choose:
            for title in (picture.title for picture in piece.pictures):
                self.buttons[title] = button(title, partial(self._look, title), small=True)

    def _look(self, title: str) -> None:
        self.window.picture = title
        self.show()

    def _shown(self, picture: Picture) -> None:
        true_size = self.window.true_size
        self.scale.put(TRUE_SIZE if true_size else TO_SCALE)
        self.sheet.marked("true", true_size)
        self.sheet.wide(f"{picture.wide * 1000 * self.window.larger:.1f}mm")
        self.sheet.put(picture.svg, role="img", tabindex="0", aria_label=picture.says)


def piece_of(window: Window) -> PieceLive | None:
    """What is on the bench, as it was reckoned last."""
    return window.live.piece(window.piece) if window.live is not None else None


def _cut(piece: PieceLive, *, counted: bool) -> str:
    """What to cut, large: the figure that the saw follows, once its heats are counted; before that it says so."""
    says = f"Cut <b>{escape(piece.cut)}</b> of {escape(piece.made_of)}: {piece.count} in all"
    return (
        says
        if counted or piece.kind == "sheet"
        else f'{says} <span class="quiet">(its heats are not counted yet)</span>'
    )


def figures_of(window: Window) -> None:
    """Every figure of the piece, and of the whole set, kept up to date."""
    box = Shown("dl").classes("lines")

    def show(now: Window) -> None:
        piece = piece_of(now)
        if now.live is not None and now.live.pieces:
            told = piece.rows if piece is not None else now.live.together
            box.put(rows_html((now.said(name), says) for name, says in told))

    window.shows.append(show)
