"""How the page looks: ink on paper by day, chalk on slate by night; the drawing first, big targets, quiet lines."""

from functools import cache
from importlib.resources import files

LIGHT = {
    "paper": "#f5f2ea", "field": "#fffdf8", "ink": "#1d1a16", "soft": "#57503f", "line": "#8a8171",
    "faint": "#ddd6c6", "ember": "#8a3b12", "on-ember": "#fffdf8", "bad": "#9c1c1c",
}  # fmt: skip
DARK = {
    "paper": "#191715", "field": "#24211d", "ink": "#f3ecdf", "soft": "#c3b9a5", "line": "#8d836f",
    "faint": "#3b362e", "ember": "#ffb273", "on-ember": "#1d1a16", "bad": "#ff9d8f",
}  # fmt: skip
"""Colours by name; each pair of ink and ground that is used keeps at least 4.5 to 1 (tests/web/test_looks.py)."""


def style(light: str, large: bool) -> str:
    """The style sheet as an element of the head; `light`: "light", "dark", or "" for what the machine asks for."""
    day, night = _colours(LIGHT, "light"), _colours(DARK, "dark")
    asked = {"light": f":root{{{day}}}", "dark": f":root{{{night}}}"}.get(
        light, f":root{{{day}}}@media (prefers-color-scheme:dark){{:root{{{night}}}}}"
    )
    size = "html{font-size:20px}" if large else "html{font-size:17px}"
    return f"<style>{asked}{size}{_sheet()}</style>"


@cache
def _sheet() -> str:
    return (files("bickern.web") / "looks.css").read_text(encoding="utf-8")


def _colours(named: dict[str, str], scheme: str) -> str:
    return "".join(f"--{name}:{colour};" for name, colour in named.items()) + f"color-scheme:{scheme};"
