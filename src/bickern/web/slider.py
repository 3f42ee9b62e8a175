"""A slider with its words, moved by finger or keys; it holds its own value in the browser."""

from collections.abc import Callable

from nicegui.element import Element
from nicegui.events import GenericEventArguments


class Slider(Element, component="slider.js"):
    """From `low` to `high` in `step`s; `unit`: what a reader says after the number."""

    def __init__(
        self,
        label: str,
        low: float,
        high: float,
        value: float,
        does: Callable[[float], object],
        *,
        step: float = 1.0,
        unit: str = "",
    ) -> None:
        super().__init__()
        for name, number in (("low", low), ("high", high), ("step", step), ("value", value)):
            self._props[name] = number
        self._props["label"], self._props["unit"] = label, unit

        def slid(event: GenericEventArguments) -> None:
            does(float(event.args))

        self.on("slid", slid)

    def put(self, value: float) -> None:
        """Moves it without telling anybody."""
        self.run_method("put", value)
