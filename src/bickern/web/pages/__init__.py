"""Every page, each in a file of its own; a page registers its own routes."""

from collections.abc import Callable
from importlib import import_module

from bickern.web.place import Place

NAMES = ("start", "bench", "round", "heats", "stock", "price", "paper", "rack", "ask", "looks_page")
"""The files in this room, in the order of the ways at the head of a page."""


def every_page() -> tuple[Callable[[Place], None], ...]:
    """What registers each page."""
    return tuple(import_module(f"bickern.web.pages.{name}").pages for name in NAMES)
