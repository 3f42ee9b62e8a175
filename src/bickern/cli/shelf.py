"""What many commands take: the rack and its day book, a shop file; and whether files that were named are there."""

import sys
from argparse import ArgumentParser
from pathlib import Path

PLACE = "a file, or a postgresql:// address (else BICKERN_RACK, else your own)"
OWN = "reckon by the figures that the day book beside the rack has taught"


def add_rack(command: ArgumentParser, what: str = "the rack") -> None:
    """The rack by its file or address; `what` it is to this command."""
    command.add_argument("--rack", metavar="FILE", help=f"{what}: {PLACE}")


def add_own(command: ArgumentParser) -> None:
    """Reckoning by the shop's own figures, only where it is asked for: the same files else give the same answer."""
    command.add_argument("--own", action="store_true", help=OWN)


def add_shop(command: ArgumentParser) -> None:
    """Every command that reckons takes a shop file."""
    command.add_argument("--shop", type=Path, metavar="FILE", help="a shop file: this forge's own figures")


def is_there(*paths: Path | None) -> bool:
    """Whether the files that were named are there; says which are not."""
    missing = [path for path in paths if path is not None and not path.is_file()]
    for path in missing:
        print(f"bickern: there is no file {path}", file=sys.stderr)
    return not missing
