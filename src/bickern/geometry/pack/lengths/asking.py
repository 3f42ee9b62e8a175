"""What the two processes say to each other: a problem one way, the best answer yet in one line the other way."""

import json
from dataclasses import dataclass

from bickern.geometry.pack.lengths.whole import Answer, Load, Whole, faults, shared


@dataclass(frozen=True, slots=True)
class Asked:
    """A problem, the best that is known of it, and the seconds there are for it."""

    whole: Whole
    known: Answer
    seconds: float


def line_of(answer: Answer) -> str:
    """An answer in one line."""
    loads = [[load.bar, [list(pair) for pair in load.pattern], load.times] for load in answer.sharing.loads]
    return json.dumps([loads, answer.bound, answer.fewest])


def answer_in(whole: Whole, line: str) -> Answer | None:
    """The answer in such a line; None where it is none, or something is wrong with it."""
    try:
        told, bound, fewest = json.loads(line)
        loads = [Load(int(b), tuple((int(i), int(n)) for i, n in pattern), int(times)) for b, pattern, times in told]
        sharing = shared(whole, loads)
        answer = Answer(sharing, float(bound), int(fewest))
    except (ValueError, TypeError, IndexError):
        return None
    return None if faults(whole, sharing) else answer
