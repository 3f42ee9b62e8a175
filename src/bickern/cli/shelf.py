"""Where the rack and the day book lie: what every command that opens them understands."""

from argparse import ArgumentParser

PLACE = "a file, or a postgresql:// address (else BICKERN_RACK, else your own)"
OWN = "reckon by the figures that the day book beside the rack has taught"


def add_rack(command: ArgumentParser, what: str = "the rack") -> None:
    """The rack by its file or address; `what` it is to this command."""
    command.add_argument("--rack", metavar="FILE", help=f"{what}: {PLACE}")


def add_own(command: ArgumentParser) -> None:
    """Reckoning by the shop's own figures, only where it is asked for: the same files else give the same answer."""
    command.add_argument("--own", action="store_true", help=OWN)
