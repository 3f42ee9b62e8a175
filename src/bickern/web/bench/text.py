"""The job file itself, for those who prefer to type; lines with something to look at are marked."""

from nicegui.element import Element
from nicegui.elements.codemirror import CodeMirror
from nicegui.events import GenericEventArguments

from bickern.measure.finding import Weight
from bickern.web.bench.window import Window

BUILT_ON = CodeMirror
"""The framework's editor: its program is loaded for ours, which keeps apart what was typed from what was shown."""
MARKED = {Weight.STOP: "line-stop", Weight.WARN: "line-look"}
"""How a line is marked; a note marks none."""


class FileText(Element, component="file_text.js"):
    """The editor. `_bases`: by the count of what was last shown to it, the state that its text comes from.

    What it sends may have been typed before it saw the newest: it is then put together with that by its own base, and
    what comes of it is shown.
    """

    def __init__(self, window: Window) -> None:
        super().__init__()
        self._props["begun"] = window.doc.text
        self._props["label"] = "The job file"
        self._window = window
        self._holds = window.doc.text
        self._shown = 0
        self._bases = {0: window.doc.number}
        self._marks: list[tuple[int, str, str]] = []
        self.on("typed", self._typed)
        self.on("undo", window.undo)
        self.on("redo", window.redo)
        window.hears.append(lambda now: self.show())
        window.shows.append(lambda now: self.mark_lines())

    def _typed(self, event: GenericEventArguments) -> None:
        text, shown = event.args
        base = self._bases.get(int(shown))
        if base is None:
            return  # typed into something that is long gone: the newest has been shown since
        self._holds = str(text)
        self._bases[int(shown)] = self._window.typed(self._holds, base)
        self.show()

    def show(self) -> None:
        """Shows what somebody else, a field or an undo made of the file."""
        doc = self._window.doc
        if self._holds == doc.text:
            self._bases[self._shown] = doc.number
            return
        self._shown += 1
        self._holds = doc.text
        self._bases = {self._shown - 1: self._bases.get(self._shown - 1, doc.number), self._shown: doc.number}
        self.run_method("show", doc.text, self._shown)

    def mark_lines(self) -> None:
        """Marks the lines; the same is said in words where the findings are listed."""
        worst: dict[int, tuple[Weight, str]] = {}
        for found in self._window.found:
            line = found.where.line
            if line > 0 and found.weight in MARKED and found.weight > worst.get(line, (Weight.NOTE, ""))[0]:
                worst[line] = (found.weight, found.says)
        marks = [(line, MARKED[weight], says) for line, (weight, says) in sorted(worst.items())]
        if marks != self._marks:
            self._marks = marks
            self.run_method("mark", marks)

    def go(self, line: int) -> None:
        """Moves the cursor to a line."""
        self.run_method("go", line)
