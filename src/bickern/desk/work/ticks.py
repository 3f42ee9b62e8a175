"""What is ticked off of the cards of a job, noted, and pulled from the fire; kept, and told to every window on it."""

import json
import os
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from threading import Lock

from bickern.book.ticks import Line, add_line, read_lines
from bickern.desk.answer import Row
from bickern.desk.work.cards import Card, Cards, Turn
from bickern.measure.finding import Finding

Of = tuple[str, int]
"""A card by its key, and which of the copies, from 1."""


@dataclass(frozen=True, slots=True)
class Ticked:
    """What stands now: what is ticked off (with its line), the notes by card, irons pulled from the fire for each.

    `drafts`: by piece ("" the whole job), what is filled in for the day book and not kept there yet, by field.
    `findings`: what could not be read of it.
    """

    ticks: Mapping[Of, Line] = field(default_factory=dict)
    notes: Mapping[str, Line] = field(default_factory=dict)
    pulls: Mapping[Of, int] = field(default_factory=dict)
    drafts: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    findings: tuple[Finding, ...] = ()

    def note(self, key: str) -> str:
        """What is noted to a card."""
        line = self.notes.get(key)
        return line.text if line is not None else ""

    def done(self, card: Card) -> int:
        """Of how many copies a card is ticked off."""
        return sum((card.key, copy) in self.ticks for copy in range(1, card.make + 1))


@dataclass(frozen=True, slots=True)
class Progress:
    """How far the work is: turns ticked off, and of how many; `next` (None: all is done)."""

    done: int
    of: int
    next: Turn | None


def ticked(job: Path) -> Ticked:
    """What stands in the ticks of a job file, since it was last begun anew."""
    read = read_lines(job)
    return replace(_stands(read.lines), findings=read.findings)


def _stands(lines: Sequence[Line]) -> Ticked:
    ticks: dict[Of, Line] = {}
    notes: dict[str, Line] = {}
    pulls: dict[Of, int] = {}
    drafts: dict[str, dict[str, str]] = {}
    for line in lines:
        of = (line.key, line.copy)
        if line.what == "tick":
            ticks[of] = line
        elif line.what == "untick":
            ticks.pop(of, None)
        elif line.what == "note":
            notes[line.key] = line
        elif line.what == "pull":
            pulls[of] = pulls.get(of, 0) + 1
        elif line.what == "draft":
            drafts[line.piece] = _draft(line.text)
        else:
            ticks, notes, pulls, drafts = {}, {}, {}, {}
    return Ticked(ticks, {key: line for key, line in notes.items() if line.text}, pulls, drafts)


def _draft(text: str) -> dict[str, str]:
    """What was filled in, by field; nothing where it cannot be read."""
    try:
        told = json.loads(text)
    except ValueError:
        return {}
    return {str(name): says for name, says in told.items() if isinstance(says, str)} if isinstance(told, dict) else {}


# ---- what is pressed


def tick(job: Path, card: Card, copy: int = 1, who: str = "") -> Finding | None:
    """Ticks a card off for one copy; None where it is kept."""
    return _kept(job, _line("tick", card, copy, who=who))


def untick(job: Path, card: Card, copy: int = 1, who: str = "") -> Finding | None:
    """Takes a tick back; that it was there stays in the file."""
    return _kept(job, _line("untick", card, copy, who=who))


def pull(job: Path, card: Card, copy: int = 1, who: str = "") -> Finding | None:
    """Counts an iron that is pulled from the fire for this card."""
    return _kept(job, _line("pull", card, copy, who=who))


def write_note(job: Path, card: Card, text: str, who: str = "") -> Finding | None:
    """Notes what happened in a heat; what was noted before stays in the file."""
    return _kept(job, _line("note", card, 0, text, who))


def write_draft(job: Path, piece: str, values: Mapping[str, str], who: str = "") -> Finding | None:
    """Keeps what is filled in of a piece for the day book, until it is written there; no values: nothing is."""
    text = json.dumps(dict(values), ensure_ascii=False) if values else ""
    return _kept(job, Line("draft", piece=piece, text=text, who=who))


def begin_anew(job: Path, who: str = "") -> Finding | None:
    """The job is made once more: nothing is ticked off any more. What was stays in the file."""
    return _kept(job, Line("anew", who=who))


def _line(what: str, card: Card, copy: int, text: str = "", who: str = "") -> Line:
    says = ": ".join(one for one in (card.group, card.number, card.title) if one)
    return Line(what, card.key, copy, card.piece, says, text, who=who)


def _kept(job: Path, line: Line) -> Finding | None:
    kept = add_line(job, line)
    if isinstance(kept, Finding):
        return kept
    for hears in _hearing(job):
        hears()
    return None


# ---- how far it is


def progress(cards: Cards, stands: Ticked, after: Turn | None = None) -> Progress:
    """How far the work is; the next turn is the first one open behind `after`, else the first one open at all."""
    turns = cards.turns
    left = [one for one in turns if not is_done(cards, stands, one)]
    at = turns.index(after) if after in turns else -1
    later = {(one.place, one.copy) for one in turns[at + 1 :]}
    behind = next((one for one in left if (one.place, one.copy) in later), None)
    return Progress(len(turns) - len(left), len(turns), behind or (left[0] if left else None))


def is_done(cards: Cards, stands: Ticked, turn: Turn) -> bool:
    """Whether a turn is ticked off."""
    return (cards.cards[turn.place - 1].key, turn.copy) in stands.ticks


def made_so_far(cards: Cards, stands: Ticked, piece: str) -> int:
    """How many copies of a piece have all their cards ticked off."""
    mine = [card for card in cards.cards if card.piece == piece and card.ticks]
    if not mine:
        return 0
    return sum(all((card.key, copy) in stands.ticks for card in mine) for copy in range(1, mine[0].make + 1))


def pulled(cards: Cards, stands: Ticked, piece: str) -> int:
    """How often an iron of this piece was pulled from the fire, of all copies ("": of the whole job)."""
    return sum(stands.pulls.get((c.key, n), 0) for c in _of(cards, piece) for n in range(1, c.make + 1))


def noted(cards: Cards, stands: Ticked, piece: str) -> str:
    """The notes to the cards of a piece ("": of the whole job), one behind the other, as a remark."""
    told = ((card, " ".join(stands.note(card.key).split())) for card in _of(cards, piece))
    return "; ".join(f"{(card.number if card.gives.value > 0 else card.title)}: {says}" for card, says in told if says)


def _of(cards: Cards, piece: str) -> list[Card]:
    return [card for card in cards.cards if not piece or card.piece == piece]


def earlier(cards: Cards, stands: Ticked) -> tuple[Row, ...]:
    """What was ticked off or noted of an earlier plan: cards as they were then called, and when, or what was noted."""
    rows: list[Row] = []
    for (key, copy), line in stands.ticks.items():
        card = cards.card(key)
        if card is None or copy > card.make:
            number = f", number {copy}" if copy > 1 else ""
            rows.append((f"{line.says}{number}", f"ticked off {line.at[:16].replace('T', ' ')} UTC"))
    rows += [(line.says, line.text) for key, line in stands.notes.items() if cards.card(key) is None]
    return tuple(rows)


# ---- who is told


Hears = Callable[[], None]
_HEARING: dict[str, list[Hears]] = {}
_LOCK = Lock()


def listen(job: Path, hears: Hears) -> Callable[[], None]:
    """Has `hears` called whenever something is pressed for this job in this process; gives what stops that."""
    place = os.path.realpath(job)
    with _LOCK:
        _HEARING.setdefault(place, []).append(hears)

    def stop() -> None:
        with _LOCK:
            left = [one for one in _HEARING.get(place, []) if one is not hears]
            if left:
                _HEARING[place] = left
            else:
                _HEARING.pop(place, None)

    return stop


def _hearing(job: Path) -> tuple[Hears, ...]:
    with _LOCK:
        return tuple(_HEARING.get(os.path.realpath(job), ()))
