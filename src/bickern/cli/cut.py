"""What is cut from which bar and sheet of the rack, on a terminal."""

from argparse import ArgumentParser
from typing import Any


def cut_words(words: Any) -> None:
    """Adds what can be said to the words that `bickern` understands."""
