"""A new job from a shipped example."""

from dataclasses import dataclass
from importlib.resources import files
from pathlib import Path

from bickern.measure.finding import Finding, stop


@dataclass(frozen=True, slots=True)
class Example:
    """A job that comes with bickern: its short name, its title, and its text."""

    name: str
    title: str
    text: str


def examples() -> tuple[Example, ...]:
    """All of them, by name."""
    folder = files("bickern.book") / "examples"
    texts = {
        f.name.removesuffix(".yaml"): f.read_text(encoding="utf-8")
        for f in folder.iterdir()
        if f.name.endswith(".yaml")
    }
    return tuple(Example(name, title_of(text), text) for name, text in sorted(texts.items()))


def write_new(name: str, to: Path) -> Path | Finding:
    """Writes an example into a new file; what is there already is never overwritten."""
    found = next((e for e in examples() if e.name == name), None)
    if found is None:
        near = ", ".join(e.name for e in examples())
        return stop("unknown-example", f"there is no example “{name}”", f"there are: {near}")
    try:
        with to.open("x", encoding="utf-8") as file:
            file.write(found.text)
    except FileExistsError:
        return stop("file-there", f"{to} is there already and stays as it is", "give another name")
    return to


def title_of(text: str) -> str:
    """The title of a job as its file has it, on a line of its own; "" where it has none."""
    line = next((t for t in text.splitlines() if t.startswith("job:")), "job:")
    return line.removeprefix("job:").strip().strip("\"'")
