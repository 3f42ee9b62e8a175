"""How often a passphrase may be tried before it takes for ever."""

import time
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass
from ipaddress import IPv6Address, ip_address

Clock = Callable[[], float]
"""Seconds that only go on."""


REMEMBERED = 1024
"""Addresses that tries are counted of, and as many that are known; more would only be a store to fill."""


@dataclass(slots=True)
class _Tries:
    wrong: int = 0
    until: float = 0.0


class Patience:
    """How often the passphrase may be tried: by one address, and by all of them together.

    One address: five wrong in a row, then 30 s to wait, doubled with every further one up to 15 min. All of them: 30,
    and one more each minute; this machine itself and addresses from which somebody has come in before are not held up
    by what others try. At one a minute four billion tries take eight thousand years. A try is counted as wrong before
    it is looked at, so that many at once are no way round.
    """

    FREE, FIRST_WAIT, LONGEST_WAIT = 5, 30.0, 900.0
    AT_ONCE, EACH = 30.0, 60.0

    def __init__(self, clock: Clock = time.monotonic) -> None:
        self._clock = clock
        self._tries: OrderedDict[str, _Tries] = OrderedDict()
        self._known: OrderedDict[str, None] = OrderedDict()
        self._left, self._counted_at = self.AT_ONCE, clock()

    def wait(self, address: str) -> float:
        """Seconds until this address may try: 0 where it may now, and then this try is counted."""
        now, who = self._clock(), whose(address)
        tries = self._tries.get(who, _Tries())
        if tries.until > now:
            return tries.until - now
        held_up = 0.0 if self._trusted(who) else self._all_together(now)
        if held_up:
            return held_up
        tries.wrong += 1
        over = tries.wrong - self.FREE
        tries.until = now + min(self.FIRST_WAIT * 2.0 ** min(over, 20), self.LONGEST_WAIT) if over >= 0 else 0.0
        self._tries[who] = tries
        forget(self._tries, REMEMBERED)
        return 0.0

    def right(self, address: str) -> None:
        """The try just counted was right: the address begins anew, and is known."""
        who = whose(address)
        self._tries.pop(who, None)
        self._known[who] = None
        forget(self._known, REMEMBERED)

    def _trusted(self, who: str) -> bool:
        return who == HERE or who in self._known

    def _all_together(self, now: float) -> float:
        """Seconds until anybody may try; 0 where one may now, and then it is counted."""
        self._left = min(self.AT_ONCE, self._left + (now - self._counted_at) / self.EACH)
        self._counted_at = now
        if self._left < 1.0:
            return (1.0 - self._left) * self.EACH
        self._left -= 1.0
        return 0.0


HERE = "here"
"""This machine, whichever of its loopback addresses it uses."""


def whose(address: str) -> str:
    """Whose tries are counted together: an address, or the 64 bits of IPv6 that one household has to itself."""
    try:
        known = ip_address(address.partition("%")[0])
    except ValueError:
        return "nobody knows where"
    if isinstance(known, IPv6Address):
        if known.ipv4_mapped is not None:
            return whose(str(known.ipv4_mapped))
        return HERE if known.is_loopback else known.packed[:8].hex()
    return HERE if known.is_loopback else str(known)


def forget(kept: "OrderedDict[str, _Tries] | OrderedDict[str, None] | OrderedDict[bytes, float]", most: int) -> None:
    """Drops what was put in longest ago, until no more than `most` are left."""
    while len(kept) > most:
        kept.popitem(last=False)
