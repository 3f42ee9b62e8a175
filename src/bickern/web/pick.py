"""One of a few, all in sight: a row of words to choose from, each as large as a thumb."""

from collections.abc import Callable, Sequence
from html import escape

from nicegui import ui
from nicegui.element import Element

STYLE = """
.pick legend{font-size:.92rem;color:var(--soft);line-height:1.25;margin-bottom:.2rem}
.pick .of{display:flex;flex-wrap:wrap;gap:.4rem}
.pick label{display:inline-flex;align-items:center;gap:.55rem;min-height:48px;padding:.4rem .9rem .4rem .7rem;
  border:1px solid var(--line);border-bottom-width:3px;border-radius:2px;background:var(--field);cursor:pointer}
.pick input{width:22px;height:22px;margin:0;accent-color:var(--ember);flex:none}
.pick label:has(input:checked){border-color:var(--ink);border-width:2px;border-bottom-width:4px;font-weight:700}
.pick label:has(input:focus-visible){outline:3px solid var(--ember);outline-offset:2px}
.pick .hint{font-size:.88rem;color:var(--soft);line-height:1.3;margin-top:.2rem}
"""


class Pick(Element):
    """A row to choose from: (value, words). The browser's own buttons, so that arrow keys move through them."""

    def __init__(
        self,
        says: str,
        options: Sequence[tuple[str, str]],
        value: str,
        does: Callable[[str], object],
        hint: str = "",
    ) -> None:
        super().__init__("fieldset")
        ui.add_css(STYLE)
        self.classes("pick")
        name = f"pick-{self.id}"
        lines = "".join(_option(name, one, words, one == value) for one, words in options)
        with self:
            ui.html(escape(says), tag="legend", sanitize=False)
            row = ui.html(lines, sanitize=False).classes("of")
            if hint:
                self.props["aria-describedby"] = f"{name}-hint"
                ui.html(escape(hint), tag="p", sanitize=False).classes("hint").props(f"id={name}-hint")
        known = {one for one, _ in options}
        row.on(
            "change",
            lambda event: does(str(event.args)) if str(event.args) in known else None,
            js_handler="(e) => emit(e.target.value)",
        )


def _option(name: str, value: str, words: str, chosen: bool) -> str:
    mark = " checked" if chosen else ""
    return (
        f'<label><input type="radio" name="{name}" value="{escape(value, quote=True)}"{mark}>'
        f"<span>{escape(words)}</span></label>"
    )
