"""The set in the round as a thing of the page: what is there, how it lies, what is hidden, where the eye is."""

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any

import nicegui
from nicegui.element import Element

MESHES = Path(nicegui.__file__).parent / "elements" / "scene" / "dist"
"""three.js as the web framework brings it: nothing is fetched from anywhere."""
Lies = Sequence[float]
"""Sixteen numbers, row by row: how a mesh lies in the world."""


class RoundView(Element, component="view.js", esm={"nicegui-scene": str(MESHES)}):
    """Draws only when something moves; turned by hand or by keys in the browser itself, without asking anybody."""

    def __init__(self, label: str, lost: Callable[[], object]) -> None:
        """`lost`: called where the browser cannot draw it."""
        super().__init__()
        self._looks = 0
        self._props["label"] = label
        self.shows((), {}, (), ())
        self._props["look"] = []
        self.on("lost", lambda: lost())

    def shows(
        self,
        things: Sequence[Mapping[str, Any]],
        moved: Mapping[str, Lies],
        hidden: Sequence[str],
        marked: Sequence[str],
    ) -> None:
        """Everything at once. A thing has an `id`, the `key` and `url` of its mesh, how it `lies`, and `ground`."""
        self._props["things"] = list(things)
        self.moves(moved, marked)
        self.hides(hidden)

    def moves(self, moved: Mapping[str, Lies], marked: Sequence[str]) -> None:
        """Things that lie elsewhere for now, and those that touch or clash, by id."""
        self._props["moved"] = {name: list(lies) for name, lies in moved.items()}
        self._props["marked"] = list(marked)
        self.update()

    def hides(self, hidden: Sequence[str]) -> None:
        """Things that are not shown, by id."""
        self._props["hidden"] = list(hidden)
        self.update()

    def look(self, eye: Sequence[float], upward: Sequence[float]) -> None:
        """Looks from there, all of it in view."""
        self._looks += 1
        self._props["look"] = [self._looks, list(eye), list(upward)]
        self.update()
