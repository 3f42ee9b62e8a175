"""Which lengths can be put together: a whole number with a bit for each length, so that a look costs microseconds."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from bickern.geometry.pack.lengths.whole import Pattern

FINE = 500_000
"""Lengths that are told apart, at most; cuts are taken longer and bars shorter than they are where there are more."""


def grain(room: int) -> int:
    """Units that are one length, so that there are not too many lengths up to a room."""
    return room // FINE + 1


def sums(cuts: Sequence[int], wants: Sequence[int], room: int) -> int:
    """The lengths up to a room that cuts add up to, as bits."""
    added = 1
    for cut, want in zip(cuts, wants, strict=True):
        added = more(added, cut, want, room)
    return added


def more(added: int, cut: int, want: int, room: int) -> int:
    """These lengths, and those with up to so many of one cut more (in lots of 1, 2, 4 ...)."""
    within = _up_to(room)
    if want == 1 and cut <= room:
        return added | ((added << cut) & within)
    want, lot = min(want, room // cut), 1
    while want > 0:
        n = min(lot, want)
        added |= (added << (n * cut)) & within
        want, lot = want - n, 2 * lot
    return added


def bits(added: int, room: int) -> bytes:
    """These lengths up to a room, eight bits a byte: one bit of these is soon looked at."""
    added &= _up_to(room)
    return added.to_bytes(added.bit_length() // 8 + 1, "little")


def top(added: int, room: int) -> int:
    """The longest of these lengths up to a room."""
    return (added & _up_to(room)).bit_length() - 1


@lru_cache(64)
def _up_to(room: int) -> int:
    """All lengths up to a room: long enough to be worth keeping."""
    return (1 << (room + 1)) - 1


@dataclass(frozen=True, slots=True)
class Fillings:
    """The fullest filling of any bar up to a room, from cuts that are left."""

    cuts: tuple[int, ...]
    wants: tuple[int, ...]
    added: int
    """What all cuts add up to, as bits."""
    reach: tuple[bytes, ...]
    """What the cuts behind each one add up to, eight bits a byte: one bit of these is soon looked at."""
    unit: int

    def fullest(self, room: int) -> Pattern:
        """The filling that leaves least of a bar, as many of the long cuts in it as can be."""
        rest = top(self.added, room // self.unit)
        pattern = []
        for i, (cut, want) in enumerate(zip(self.cuts, self.wants, strict=True)):
            n = min(want, rest // cut)
            while not self.reaches(i, rest - n * cut):
                n -= 1
            if n:
                pattern.append((i, n))
                rest -= n * cut
        return tuple(pattern)

    def reaches(self, i: int, length: int) -> bool:
        """Whether the cuts behind one add up to a length."""
        behind, byte = self.reach[i], length // 8
        return byte < len(behind) and bool(behind[byte] >> length % 8 & 1)


def fillings(cuts: Sequence[int], wants: Sequence[int], room: int) -> Fillings:
    """All fillings up to a room; cuts longest first."""
    unit = grain(room)
    sizes = tuple(-(-cut // unit) for cut in cuts)
    added, reach = 1, []
    for cut, want in zip(reversed(sizes), reversed(wants), strict=True):
        reach.append(bits(added, room // unit))
        added = more(added, cut, want, room // unit)
    return Fillings(sizes, tuple(wants), added, tuple(reversed(reach)), unit)
