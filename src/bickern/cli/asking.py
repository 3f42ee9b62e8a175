"""`bickern ask ...`: one-off questions at the anvil, without a file."""

import shlex
import sys
from argparse import ArgumentParser, Namespace, _SubParsersAction
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from bickern.cli.shelf import is_there
from bickern.cli.typed import Typed, add_words, no_question, question_of, read, taken

if TYPE_CHECKING:
    from bickern.desk.answer import Answer
    from bickern.desk.ask.question import Question
    from bickern.desk.asker import Asker
    from bickern.measure.finding import Finding

    _Names = _SubParsersAction[Typed]
else:
    _Names = _SubParsersAction  # which takes no brackets when it runs

BOOK = "Hold a book of printed figures against what is reckoned here."

ALSO = ("book",)
"""What can be said behind `bickern ask` and is no question."""


class _Questions(_Names):
    """The questions by name; words that are not understood end in a plain line and not in a parser's usage."""

    def __init__(self, *given: Any, **named: Any) -> None:
        super().__init__(*given, **named)
        self.choices = None  # type: ignore[assignment]  # a name that is none is told of below, with those near it

    def __call__(self, parser: ArgumentParser, namespace: Namespace, values: Any, option_string: Any = None) -> None:
        name, *words = values
        made = self._name_parser_map.get(name)
        asked = taken(made, question_of(name), words) if made else no_question(name, ALSO)
        if not isinstance(asked, Namespace):
            parser.exit(2, _line(asked))
        for word, said in vars(asked).items():
            setattr(namespace, word, said)


def add_ask(ask: ArgumentParser) -> None:
    """The questions, each with its words."""
    from bickern.desk.ask.questions import QUESTIONS

    ask.set_defaults(does=_nothing_asked)
    names = ask.add_subparsers(title="questions", metavar="QUESTION", action=_Questions, parser_class=Typed)
    for question in QUESTIONS:
        example = f"for instance: bickern ask {question.name} {question.example}"
        made = names.add_parser(question.name, help=question.says, description=question.says, epilog=example)
        add_words(made, question)
        made.set_defaults(does=_shown, question=question)
    book = names.add_parser("book", help=BOOK, description=BOOK)
    book.ending = _units
    book.add_argument("file", type=Path, metavar="FILE", help="a CSV file with the columns ask, answer, printed, unit")
    book.set_defaults(does=_book)


def _units() -> str:
    from bickern.desk.printed import kinds

    told = "; ".join(f"{kind}: {units}" for kind, units in kinds())
    return f"Units that a printed figure may have: {told}."


def _line(fault: "Finding") -> str:
    return f"bickern: {fault.says}\n  try: {fault.try_this}\n"


def _nothing_asked(_: Namespace) -> int:
    sys.stderr.write(_line(no_question("", ALSO)))
    return 2


def answer_of(words: str, beside: Path | None = None) -> "Answer":
    """The answer to a question typed behind `bickern ask`; words that are not understood are a finding in it.

    `beside`: the folder where a shop file is looked for too.
    """
    from bickern.measure.finding import stop

    try:
        typed = shlex.split(words)
    except ValueError:
        way = "an inch mark stands inside quotes: '1/2\" rd'"
        return _unasked(stop("open-quote", f"In “{words}” a quote is opened and not closed.", way))
    question = question_of(typed[0]) if typed else None
    if question is None:
        return _unasked(no_question(typed[0] if typed else ""))
    asked = read(question, typed[1:])
    return _answer(question, asked, beside) if isinstance(asked, Namespace) else _unasked(asked)


def _unasked(fault: "Finding") -> "Answer":
    from bickern.desk.answer import Answer

    return Answer("Ask", (), (fault,))


def _answer(question: "Question", asked: Namespace, beside: Path | None = None) -> "Answer":
    """The answer; none where the shop file stops, for it would go by other rules than were meant."""
    from bickern.desk.answer import Answer
    from bickern.desk.ask.question import answer_to

    me = _asker(asked, beside)
    if any(f.stops for f in me.findings):
        return Answer(question.name.capitalize(), (), me.findings)
    said = {w.name: getattr(asked, w.name.replace("-", "_")) for w in question.words}
    whole = {name: tuple(value) if isinstance(value, list) else value for name, value in said.items()}
    told = answer_to(question, whole, me.shop, me.system)
    return Answer(told.title, told.rows, (*me.findings, *told.findings), told.figures)


def _asker(asked: Namespace, beside: Path | None) -> "Asker":
    from bickern.desk.asker import asker

    shop = asked.shop
    if shop is not None and beside is not None and not shop.is_file():
        shop = beside / shop
    me = asker(asked.units, shop)
    assert me is not None, "the parser lets only known units pass"
    return me


def _shown(asked: Namespace) -> int:
    from bickern.cli.show import show_findings, show_rows

    if not is_there(asked.shop):
        return 2
    told = _answer(asked.question, asked)
    if told.rows:
        show_rows(told.title, told.rows)
    if told.figures and asked.digits:
        _show_digits(told)
    show_findings(told.findings)
    return 1 if told.stops else 0


def _show_digits(told: "Answer") -> None:
    from bickern.cli.show import show_rows
    from bickern.desk.printed import digits

    show_rows("In full", [(f.name, digits(f)) for f in told.figures])


def _book(asked: Namespace) -> int:
    from bickern.cli.show import show_findings, show_rows
    from bickern.desk.printed import hold, read_book, told

    if not is_there(asked.file):
        return 2
    rows, findings = read_book(asked.file)
    reads = [hold(row, partial(answer_of, beside=asked.file.parent)) for row in rows]
    found = [read.value for read in reads if read.value is not None]
    findings = tuple(sorted((*findings, *(f for read in reads for f in read.findings)), key=lambda f: f.where.line))
    if found:
        show_rows(str(asked.file), [told(one) for one in found])
    show_findings(findings)
    agree, unread = sum(one.fits for one in found), len({f.where.line for f in findings if f.stops})
    print(_closing(agree, len(found) - agree, unread) if rows else "no row could be read")
    return 0 if rows and agree == len(rows) and not unread else 1


def _closing(agree: int, differ: int, unread: int) -> str:
    """How many rows agree, do not, and could not be read."""
    parts = [f"{agree} agree{'s' * (agree == 1)}"]
    parts += [f"{differ} do{'es' * (differ == 1)} not"] if differ else []
    return ", ".join([*parts, *([f"{unread} could not be read"] if unread else [])])
