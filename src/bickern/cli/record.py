"""The day book on a terminal."""

from argparse import ArgumentParser
from typing import Any


def record_words(words: Any) -> None:
    """Adds what can be said to the words that `bickern` understands."""
