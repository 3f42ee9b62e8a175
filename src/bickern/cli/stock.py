"""Which bars of the rack a piece can be made from, on a terminal."""

from argparse import ArgumentParser
from typing import Any


def stock_words(words: Any) -> None:
    """Adds what can be said to the words that `bickern` understands."""
