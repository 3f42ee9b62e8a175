"""Small parts that every page is made of: the browser's own, so that keys and readers work as people know them."""

from collections.abc import Callable, Iterable, Sequence
from html import escape

from nicegui import ui
from nicegui.element import Element
from nicegui.elements.html import Html

from bickern.desk.page_ways import on_page
from bickern.measure.finding import Finding, Weight
from bickern.web.field import Field, hears

Does = Callable[[], object]
"""What is done at a press; what it gives back is waited for where it has to be."""
WORD = {Weight.STOP: "Stop", Weight.WARN: "Look", Weight.NOTE: "Note"}
KIND = {Weight.STOP: "stop", Weight.WARN: "look", Weight.NOTE: "note"}


def button(says: str, does: Does, *, main: bool = False, small: bool = False, about: str = "") -> Element:
    """A button with words on it; `about`: what a reader says where the words alone do not tell which one it is."""
    made = ui.element("button").props("type=button").classes("main" if main else "plain small" if small else "plain")
    if about:
        made.props["aria-label"] = about
    with made:
        ui.html(escape(says), tag="span", sanitize=False)
    return made.on("click", lambda: None if "aria-disabled" in made.props else does())


def able(one: Element, yes: bool) -> None:
    """Whether a button can be pressed; one that cannot keeps the cursor, so that nobody who goes by keys is lost."""
    if yes == ("aria-disabled" not in one.props):
        return
    if yes:
        one.props.pop("aria-disabled", None)
    else:
        one.props["aria-disabled"] = "true"
    one.update()


def pressed(one: Element, yes: bool) -> None:
    """Whether a button is the one of several that counts; told to readers, and sent only where it changes."""
    says = "true" if yes else "false"
    if one.props.get("aria-pressed") != says:
        one.props["aria-pressed"] = says
        one.update()


def field(label: str, value: str, does: Callable[[str], object], hint: str = "", *, name: str = "") -> Field:
    """A line to fill in; told at each key."""
    return Field(label, value, hears(does), hint=hint, name=name)


def choice(
    label: str, options: Sequence[tuple[str, str]], value: str, does: Callable[[str], object], hint: str = ""
) -> Field:
    """A list to choose from: (value, words)."""
    return Field(label, value, hears(does), options=options, hint=hint)


class Tick(Element):
    """A box to tick, with its words."""

    def __init__(self, says: str, value: bool, does: Callable[[bool], object]) -> None:
        super().__init__("label")
        self.classes("tick")
        with self:
            box = ui.element("input").props("type=checkbox")
            if value:
                box.props["checked"] = True
            ui.html(escape(says), tag="span", sanitize=False)
        box.on("change", lambda event: does(bool(event.args)), js_handler="(e) => emit(e.target.checked)")


def heading(says: str, level: int = 2) -> Element:
    """A heading."""
    return ui.html(escape(says), tag=f"h{level}", sanitize=False)


def words(says: str, *, quiet: bool = False) -> Html:
    """A paragraph."""
    made = ui.html(escape(says), tag="p", sanitize=False)
    return made.classes("quiet") if quiet else made


def finding_html(one: Finding) -> str:
    """What a finding says: its word, what is wrong, what to try, where."""
    one = on_page((one,))[0]
    spot = " · ".join(s for s in (f"line {one.where.line}" if one.where.line else "", one.where.path) if s)
    way = f"<p>{escape(_sentence(one.try_this))}</p>" if one.try_this else ""
    place = f'<p class="where">{escape(spot)}</p>' if spot else ""
    return f'<p><span class="word">{WORD[one.weight]}:</span> {escape(_sentence(one.says))}</p>{way}{place}'


def _sentence(says: str) -> str:
    return says[:1].upper() + says[1:]


def findings(found: Iterable[Finding]) -> Element:
    """A list of findings; each has its weight as a word and as a kind of line."""
    items = "".join(f'<li class="{KIND[one.weight]}">{finding_html(one)}</li>' for one in found)
    return ui.html(items, tag="ul", sanitize=False).classes("found")


def rows(told: Iterable[Sequence[str]]) -> Html:
    """Two columns of words: what it is, and how much."""
    return ui.html(rows_html(told), tag="dl", sanitize=False).classes("lines")


def rows_html(told: Iterable[Sequence[str]]) -> str:
    """The inside of such a list."""
    return "".join(f"<dt>{escape(name)}</dt><dd>{escape(says)}</dd>" for name, says, *_ in told)


def table(heads: Sequence[str], told: Iterable[Sequence[str]], named: str = "") -> Element:
    """A table of figures; its first column names the row."""
    made = ui.element("div").classes("scrolls").props("tabindex=0 role=region")
    made.props["aria-label"] = named or "table"
    with made:
        ui.html(table_html(heads, told, named), tag="table", sanitize=False).classes("figures")
    return made


def table_html(heads: Sequence[str], told: Iterable[Sequence[str]], named: str = "") -> str:
    """The inside of such a table."""
    caption = f'<caption class="unseen">{escape(named)}</caption>' if named else ""
    top = "".join(f'<th scope="col">{escape(head)}</th>' for head in heads)
    lines = "".join(
        f'<tr><th scope="row">{escape(first)}</th>{"".join(f"<td>{escape(cell)}</td>" for cell in rest)}</tr>'
        for first, *rest in told
    )
    return f"{caption}{f'<thead><tr>{top}</tr></thead>' if heads else ''}<tbody>{lines}</tbody>"


def drawing(svg: str, says: str) -> Html:
    """A drawing, which a reader tells by its words. The SVG is our own pen's: nothing in it is anybody's markup."""
    made = ui.html(svg, sanitize=False).classes("drawing").props("role=img tabindex=0")
    made.props["aria-label"] = says
    return made


def cautions(told: Iterable[str]) -> None:
    """The cautions for the very work that is shown."""
    lines = "".join(f"<li>{escape(says)}</li>" for says in told)
    if lines:
        heading("Mind this", 3)
        ui.html(lines, tag="ul", sanitize=False).classes("cautions")


def say(text: str) -> None:
    """Says something in passing, to eyes and to readers; it goes away by itself."""
    said = "document.getElementById('said')"
    ui.run_javascript(
        f"const s={said};if(s){{s.textContent={_js(text)};clearTimeout(s.t);s.t=setTimeout(()=>s.textContent='',6000)}}"
    )


def _js(text: str) -> str:
    import json

    return json.dumps(text).replace("</", "<\\/")
