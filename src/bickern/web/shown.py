"""A place for words or a drawing that change at each key, put in without laying out the rest of the page anew."""

from nicegui.element import Element


class Shown(Element, component="shown.js"):
    """What is put in is our own markup: whoever makes it has escaped what people wrote."""

    def __init__(self, tag: str = "div", inside: str = "") -> None:
        super().__init__()
        self._props["tag"], self._props["begun"] = tag, inside
        self._inside, self._wide = inside, ""
        self._named: dict[str, str] = {}
        self._marks: dict[str, bool] = {}

    def put(self, inside: str, **named: str) -> None:
        """Puts it in, where it is not there already; `named`: attributes, as role or aria_label."""
        told = {name.replace("_", "-"): says for name, says in named.items()}
        if (inside, told) != (self._inside, self._named):
            self._inside, self._named = inside, told
            self.run_method("put", inside, told)

    def wide(self, says: str) -> None:
        """How wide a drawing in it is, as CSS has it."""
        if says != self._wide:
            self._wide = says
            self.run_method("wide", says)

    def marked(self, name: str, yes: bool) -> None:
        """Whether it has a class."""
        if yes != self._marks.get(name, False):
            self._marks[name] = yes
            self.run_method("mark", name, yes)
