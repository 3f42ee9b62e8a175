"""Fields for a bar or a sheet, as they stand in a list; each says what is wrong with it."""

from collections.abc import Iterable, Mapping

from nicegui import ui

from bickern.measure.finding import Finding
from bickern.web.field import Field
from bickern.web.parts import Tick

BAR, SHEET = ("section", "length"), ("thickness", "size", "grain")
ABOUT = ("steel", "coating", "place", "price", "remark")
CALLED = {
    "section": ("Section", "3/8 sq, 1 x 1/4, 12 mm rd"),
    "length": ("Length", "72, 38 1/2, 6 m"),
    "count": ("How many alike", "1"),
    "thickness": ("Thickness", "18 ga, 1.5 mm"),
    "size": ("Size", "48 x 24"),
    "grain": ("Rolled", "along, across, or degrees from its first size"),
    "steel": ("Metal", "S235JR, mild, EN45; empty where nobody knows"),
    "coating": ("What is on it", "none, galvanised, painted"),
    "place": ("Where it lies", ""),
    "price": ("What one like it costs, whole", ""),
    "remark": ("Anything else", ""),
}
"""Column of a list -> what it is called here, and how it is written."""


class Cells:
    """The fields of one piece; `cells` are what stands in them."""

    def __init__(self, columns: Iterable[str], was: Mapping[str, str] | None = None) -> None:
        self.was = dict(was or {})
        self.fields: dict[str, Field] = {}
        self._offcut = self.was.get("offcut") == "yes"
        with ui.element("div").classes("fields"):
            for column in columns:
                label, hint = CALLED[column]
                self.fields[column] = Field(label, self.was.get(column, ""), hint=hint, name=column)
        Tick("it is left of another piece", self._offcut, self._ticked)

    def _ticked(self, yes: bool) -> None:
        self._offcut = yes

    @property
    def cells(self) -> dict[str, str]:
        """What stands in the fields, by column."""
        told = {column: (one.value or "").strip() for column, one in self.fields.items()}
        return told | {"offcut": "yes" if self._offcut else ""}

    @property
    def filled(self) -> dict[str, str]:
        """The same without what stays empty."""
        return {column: words for column, words in self.cells.items() if words}

    @property
    def changed(self) -> dict[str, str]:
        """What is different from what stood there."""
        told = {column: words for column, words in self.cells.items() if words != self.was.get(column, "")}
        return told | ({"offcut": told["offcut"] or "no"} if "offcut" in told else {})

    def wrong(self, found: Iterable[Finding]) -> tuple[Finding, ...]:
        """Says at each field what is wrong with it; what is wrong with no field of these comes back."""
        stops = {one.where.path: one for one in found if one.stops and one.where.path in self.fields}
        for column, field in self.fields.items():
            told = stops.get(column)
            field.wrong(" ".join(says for says in (told.says, told.try_this) if says) if told else "")
        return tuple(one for one in found if stops.get(one.where.path) != one)
