"""Whether the steel of a bar in the rack may stand in for the steel that a job asks for."""

from dataclasses import dataclass
from enum import IntEnum

from bickern.iron.steel import MetalClass, Steel, find_steel

ANY_WILL_DO = (MetalClass.MILD,)
"""Families whose grades a smith takes for one another where the job does not lean on the grade (common practice).

Wrought iron is none of them: it splits where mild steel does not, and is bought for what it is.
"""


class Match(IntEnum):
    """How well a steel fits, the best first."""

    SAME = 0
    ALIKE = 1  # another grade of the same plain family
    UNKNOWN = 2  # nobody can say what it is, and the shop takes it all the same
    NO = 3


@dataclass(frozen=True, slots=True)
class Matched:
    """How well it fits, and what is to be said of it ("" for the very grade)."""

    match: Match
    says: str = ""

    @property
    def will_do(self) -> bool:
        """Whether a piece may be made of it."""
        return self.match is not Match.NO


def steel_match(asked: str, there: str, unknown: bool) -> Matched:
    """How the steel `there` fits a piece of steel `asked`; `unknown`: the shop takes what nobody can name."""
    wanted, read = find_steel(asked).value, find_steel(there)
    if read.value is None or any(f.name == "scrap-steel" for f in read.findings):
        return _not_known(there, wanted, read.value, unknown)
    return _known(wanted, read.value, asked)


def _known(wanted: Steel | None, there: Steel, asked: str) -> Matched:
    if wanted is None:
        return Matched(Match.NO, f"what “{asked[:40]}” is, is not known")
    if wanted.name == there.name:
        return Matched(Match.SAME)
    if wanted.family is not there.family:
        return Matched(Match.NO, f"it is {there.name}, {there.family}; the job asks for {wanted.name}, {wanted.family}")
    if there.family in ANY_WILL_DO and not _leaded(there) and not _leaded(wanted):
        return Matched(Match.ALIKE, f"{there.name} for {wanted.name}, both {there.family}{_of(there)}")
    return Matched(Match.NO, f"it is {there.name}; the job asks for {wanted.name}, and the two do not work alike")


def _not_known(said: str, wanted: Steel | None, guess: Steel | None, unknown: bool) -> Matched:
    what = f"“{said.strip()[:40]}”" if said.strip() else "not told"
    if not unknown:
        return Matched(Match.NO, f"what steel it is, is {'a guess' if guess else 'not known'} ({what})")
    if guess is not None and (wanted is None or guess.family is not wanted.family):
        return Matched(Match.NO, f"it is taken for {guess.name}, {guess.family}, and the job asks for {_name(wanted)}")
    return Matched(Match.UNKNOWN, f"what steel it is, is not known ({what}): forge and quench a test piece first")


def _name(wanted: Steel | None) -> str:
    return f"{wanted.name}, {wanted.family}" if wanted is not None else "another"


def _of(there: Steel) -> str:
    return f" ({there.notes.rstrip('.')})" if there.notes else ""


def _leaded(steel: Steel) -> bool:
    return steel.name == "12L14"
