"""One page large: to be read, made wider, and turned like a leaf."""

from collections.abc import Sequence
from html import escape

from nicegui import ui
from nicegui.element import Element

from bickern.web import parts

STYLE = """
dialog.leaf{border:0;padding:0;margin:auto;width:min(98vw,110rem);height:96vh;max-width:none;max-height:none;
  background:var(--paper);color:var(--ink)}
dialog.leaf::backdrop{background:#000a}
dialog.leaf[open]{display:grid;grid-template-rows:auto minmax(0,1fr)}
.leaf .bar{display:flex;flex-wrap:wrap;gap:.5rem;align-items:center;padding:.5rem .7rem;
  border-bottom:2px solid var(--line)}
.leaf .bar h2{margin:0;flex:1 1 12rem;font-size:1.1rem}
.leaf .look{overflow:auto;text-align:center;padding:.6rem;touch-action:pan-x pan-y pinch-zoom}
.leaf .look img{background:#fff center/contain no-repeat;border:1px solid var(--line);height:100%;max-width:100%;
  object-fit:contain}
.leaf.wide .look img{height:auto;width:100%}
@media (max-width:760px){
  dialog.leaf{width:100vw;height:100dvh}
  .leaf .bar h2{flex-basis:100%}
  .leaf .bar button{flex:1}
  .leaf .look img{height:auto;width:100%}
  .leaf.wide .look img{max-width:none;width:230%}
}
"""


class Turning(Element):
    """A window over the page with one page of a document; arrow keys turn it, Escape closes it."""

    def __init__(self) -> None:
        super().__init__("dialog")
        ui.add_css(STYLE)
        self.classes("leaf").props["aria-label"] = "One page, large"
        self._title, self._where, self._page, self._wide = "", "", 1, False
        self._sizes: Sequence[tuple[int, int]] = ()
        with self:
            with ui.element("div").classes("bar"):
                self._named = ui.html("", tag="h2", sanitize=False)
                self._back = parts.button("Back", lambda: self._turn(-1), about="Page before")
                self._on = parts.button("On", lambda: self._turn(1), about="Next page")
                self._size = parts.button("Larger", self._resize)
                parts.button("Close", self._close)
            self._look = ui.html("", sanitize=False).classes("look").props("tabindex=0 role=region")
        self.on("keydown.left", lambda: self._turn(-1)).on("keydown.right", lambda: self._turn(1))

    def open(self, title: str, where: str, page: int, sizes: Sequence[tuple[int, int]]) -> None:
        """Shows one page of the document at the address `where`; `sizes` of its pages, in any unit."""
        self._title, self._where, self._page, self._sizes = title, where, page, sizes
        self._show()
        ui.run_javascript(f"const d=getHtmlElement({self.id}); if (!d.open) d.showModal()")

    def _turn(self, by: int) -> None:
        if 1 <= self._page + by <= len(self._sizes):
            self._page += by
            self._show()

    def _show(self) -> None:
        named = f"{self._title}, page {self._page} of {len(self._sizes)}"
        self._named.set_content(escape(named))
        self._look.props["aria-label"] = named
        self._look.set_content(self._picture(named))
        parts.able(self._back, self._page > 1)
        parts.able(self._on, self._page < len(self._sizes))

    def _picture(self, named: str) -> str:
        """The large picture; until it is there, the small one stands in its place."""
        where, page = escape(self._where, quote=True), self._page
        wide, high = self._sizes[page - 1]
        shape = f"aspect-ratio:{wide}/{high};background-image:url({where}?small={page})"
        return f'<img src="{where}?page={page}" alt="{escape(named, quote=True)}" style="{shape}">'

    def _resize(self) -> None:
        self._wide = not self._wide
        self._size.props["aria-pressed"] = "true" if self._wide else "false"
        self.classes(add="wide" if self._wide else "", remove="" if self._wide else "wide")

    def _close(self) -> None:
        ui.run_javascript(f"getHtmlElement({self.id}).close()")
