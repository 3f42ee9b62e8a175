"""Two changes of one text put together, line by line, where they do not touch the same lines."""

from dataclasses import dataclass
from difflib import SequenceMatcher

_MOST = 4000
"""Lines that are compared one by one; a larger change counts as one."""


@dataclass(frozen=True, slots=True)
class _Change:
    """Lines `start` to `end` of the old text, and what stands there now."""

    start: int
    end: int
    lines: tuple[str, ...]


def merged(before: str, ours: str, theirs: str) -> str | None:
    """The text with both changes made to `before`; None where they touch the same lines."""
    if before == ours or ours == theirs:
        return theirs
    if before == theirs:
        return ours
    further = _further(before, ours, theirs)
    if further is not None:
        return further
    old = before.split("\n")
    changes = _sorted(_changes(old, ours.split("\n")), _changes(old, theirs.split("\n")))
    if changes is None:
        return None
    for change in reversed(changes):
        old[change.start : change.end] = change.lines
    return "\n".join(old)


def _further(before: str, ours: str, theirs: str) -> str | None:
    """Where both began to write the same in one place, what the one who is further has written; else None."""
    less, more = sorted((ours, theirs), key=len)
    at = _alike_signs(before, less)
    put = len(less) - len(before)
    if put <= 0 or less[at + put :] != before[at:] or more[: at + put] != less[: at + put]:
        return None
    return more if more.endswith(before[at:]) else None


def _alike_signs(one: str, other: str) -> int:
    """How many signs two texts have in common from their beginning."""
    most = min(len(one), len(other))
    return next((i for i in range(most) if one[i] != other[i]), most)


def _changes(old: list[str], new: list[str]) -> list[_Change]:
    head = _alike(old, new, min(len(old), len(new)))
    tail = _alike(old[head:][::-1], new[head:][::-1], min(len(old), len(new)) - head)
    was, now = old[head : len(old) - tail], new[head : len(new) - tail]
    if len(was) > _MOST or len(now) > _MOST:
        return [_Change(head, head + len(was), tuple(now))]
    codes = SequenceMatcher(None, was, now, autojunk=False).get_opcodes()
    return [_Change(head + i, head + j, tuple(now[k:m])) for tag, i, j, k, m in codes if tag != "equal"]


def _alike(one: list[str], other: list[str], most: int) -> int:
    return next((i for i in range(most) if one[i] != other[i]), most)


def _sorted(ours: list[_Change], theirs: list[_Change]) -> list[_Change] | None:
    """All changes in order, a change that both made once; None where two of them meet."""
    own = [c for c in ours if c not in theirs]
    if any(_meet(a, b) for a in own for b in theirs):
        return None
    return sorted((*own, *theirs), key=lambda c: (c.start, c.end))


def _meet(one: _Change, other: _Change) -> bool:
    """Whether they touch the same line; lines put in between must not lie at the edge of the other's change."""
    if one.start == one.end or other.start == other.end:
        return one.start <= other.end and other.start <= one.end
    return one.start < other.end and other.start < one.end
