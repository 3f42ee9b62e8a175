"""One thing to fill in: a line, a list to choose from, or several lines, with its name, a hint and what is wrong."""

from collections.abc import Callable, Sequence

from nicegui.elements.mixins.value_element import ValueElement
from nicegui.events import Handler, ValueChangeEventArguments


class Field(ValueElement[str], component="field.js"):
    """A labelled field; what is typed stays in the browser until it has been heard here, and is never put back."""

    VALUE_PROP = "value"
    LOOPBACK = False

    def __init__(
        self,
        label: str,
        value: str = "",
        on_change: Handler[ValueChangeEventArguments[str]] | None = None,
        *,
        hint: str = "",
        options: Sequence[tuple[str, str]] = (),
        kind: str = "text",
        keys: str = "",
        ghost: str = "",
        name: str = "",
        needed: bool = False,
        lines: int = 1,
        keeps: bool = False,
    ) -> None:
        """`options`: (value, words) to choose from; `kind`: as text or search; `keys`: what a phone shows.

        `keeps`: what was typed is work that must not be lost; the browser holds it, under `name`, until it is here.
        """
        super().__init__(value=value, on_value_change=on_change)
        said = {"label": label, "hint": hint, "kind": kind, "keys": keys, "ghost": ghost, "name": name}
        for prop, words in said.items():
            self._props[prop] = words
        self._props["options"] = [list(one) for one in options]
        self._props["needed"] = needed
        self._props["lines"] = lines
        self._props["says"] = ""
        self._props["keeps"] = keeps
        if keeps:
            self.on("sure", lambda: self.run_method("heard", self.value))

    def wrong(self, says: str) -> None:
        """Says what is wrong with what stands here; "" where nothing is."""
        if self._props["says"] != says:
            self._props["says"] = says
            self.update()

    def show(self, value: str) -> None:
        """Puts in what somebody else, or an undo, made of it; nobody is told of that as of something typed."""
        if self.value == value:
            return
        hears, self._change_handlers = self._change_handlers, []
        self._send_update_on_value_change = False
        self.set_value(value)
        self._change_handlers, self._send_update_on_value_change = hears, True
        self.run_method("show", value)

    def put(self, words: str) -> None:
        """Puts words in where the cursor stands."""
        self.run_method("put", words)

    def go(self) -> None:
        """Moves the cursor here."""
        self.run_method("go")


def hears(does: Callable[[str], object]) -> Handler[ValueChangeEventArguments[str]]:
    """A handler that is told the words alone; what it gives back is waited for where it has to be."""
    return lambda event: does(event.value or "")
