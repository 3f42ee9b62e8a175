"""The job file itself, for those who prefer to type; lines with something to look at are marked."""

from nicegui.element import Element
from nicegui.elements.codemirror import CodeMirror
from nicegui.events import GenericEventArguments

from bickern.measure.finding import Weight
from bickern.web.bench.window import Window

BUILT_ON = CodeMirror
"""The framework's editor: its program is loaded for ours, which keeps apart what was typed from what was shown."""
RECENT = 30
"""States among which the last messages of a window that was cut off are looked for."""
MARKED = {Weight.STOP: "line-stop", Weight.WARN: "line-look"}
"""How a line is marked; a note marks none."""


class FileText(Element, component="file_text.js"):
    """The editor. What it sends tells the state that it was typed on; the answer is always the newest text."""

    def __init__(self, window: Window) -> None:
        super().__init__()
        now = window.doc.now
        self._props["begun"], self._props["number"] = now.text, now.number
        self._props["label"], self._props["name"] = "The job file", f"bickern typed {window.doc.path.name}"
        self._window = window
        self._marks: list[tuple[int, str, str]] = []
        self.on("typed", self._typed)
        self.on("undo", window.undo)
        self.on("redo", window.redo)
        window.hears.append(lambda _: self.show())
        window.shows.append(lambda _: self.mark_lines())

    def _typed(self, event: GenericEventArguments) -> None:
        """Something was typed; the answer goes out whatever becomes of it."""
        said = event.args if isinstance(event.args, dict) else {}
        text, base = said.get("text"), said.get("base")
        try:
            if isinstance(text, str) and isinstance(base, int):
                self._window.typed(text, self._began(base, said))
        finally:
            now = self._window.doc.now
            self.run_method("heard", said.get("turn"), now.number, now.text)

    def _began(self, base: int, said: dict[str, object]) -> int:
        """The state that a message began from: of one that was cut off, what came in of it or of those before it."""
        earlier = said.get("earlier")
        came = [*earlier] if isinstance(earlier, list) else []
        came += [said["text"]] if said.get("again") else []
        if not came:
            return base
        doc = self._window.doc
        recent = [state.number for state in doc.states(RECENT) if state.number > base]
        return next((number for number in reversed(recent) if doc.text_at(number) in came), base)

    def show(self) -> None:
        """Shows what somebody else, a field or an undo made of the file."""
        now = self._window.doc.now
        self.run_method("show", now.number, now.text)

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
