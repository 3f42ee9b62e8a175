"""The rack on a terminal."""

from argparse import ArgumentParser
from typing import Any


def rack_words(words: Any) -> None:
    """Adds what can be said to the words that `bickern` understands."""
