"""What stands under the thumb at the fire: the seconds left of a heat, ticking off, on and back."""

from collections.abc import Callable

from nicegui.element import Element

from bickern.desk.work.cards import Card, Kind

Goes = Callable[[int], object]
Does = Callable[[], object]


class Dock(Element, component="dock.js"):
    """The clock of a heat runs in the browser alone; here it is only told what the card that is shown gives."""

    def __init__(self, goes: Goes, ticks: Does, pulled: Does) -> None:
        """`goes`: a card on (1) or back (-1); `ticks`: ticked off; `pulled`: an iron was pulled from the fire."""
        super().__init__()
        self.on("go", lambda event: goes(1 if event.args == 1 else -1))
        self.on("tick", lambda: ticks())
        self.on("pulled", lambda: pulled())

    def show(self, card: Card | None, tick: str, *, first: bool, last: bool) -> None:
        """What the card gives, and what its button for ticking off says ("" none)."""
        hot = card is not None and card.kind is Kind.HEAT and card.gives.value > 0
        self._props["hot"] = hot
        self._props["tick"] = tick
        self._props["first"], self._props["last"] = first, last
        if card is not None:
            self._props["name"], self._props["of"] = card.number, card.key
            self._props["gives"] = round(card.gives.value, 1)
            self._props["least"] = round(card.gives.low, 1)
            self._props["carry"] = card.carry
        self.update()

    def stop(self) -> None:
        """The heat is over: the iron lies in the fire, or is done."""
        self.run_method("stop")
