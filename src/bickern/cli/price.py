"""What a job should cost, on a terminal."""

from argparse import ArgumentParser
from typing import Any


def price_words(words: Any) -> None:
    """Adds what can be said to the words that `bickern` understands."""
