"""`bickern ask ...`: one-off questions at the anvil, without a file."""

import shlex
import sys
from argparse import ArgumentParser, Namespace
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

if TYPE_CHECKING:
    from bickern.desk.answer import Answer
    from bickern.desk.ask.question import Question, Word
    from bickern.desk.asker import Asker


BOOK = "Hold a book of printed figures against what is reckoned here."


class _Words(ArgumentParser):
    """A parser that says what it does not understand to the caller and not to the terminal."""

    def error(self, message: str) -> NoReturn:
        raise ValueError(message)


def add_ask(ask: ArgumentParser) -> None:
    """The questions, each with its words."""
    from bickern.desk.ask.questions import QUESTIONS

    names = ask.add_subparsers(title="questions", metavar="QUESTION", required=True)
    for question in QUESTIONS:
        example = f"for instance: bickern ask {question.name} {question.example}"
        made = names.add_parser(question.name, help=question.says, description=question.says, epilog=example)
        for word in question.words:
            _add_word(made, word)
        made.add_argument("--units", choices=("in", "mm"), default="in", help="what a bare number means")
        made.add_argument("--shop", type=Path, metavar="FILE", help="a shop file: this forge's own figures")
        made.add_argument("--digits", action="store_true", help="also every figure unrounded, in inches and SI")
        made.set_defaults(does=_shown, question=question)
    book = names.add_parser("book", help=BOOK, description=BOOK)
    book.add_argument("file", type=Path, metavar="FILE", help="a CSV file with the columns ask, answer, printed, unit")
    book.set_defaults(does=_book)


def _add_word(made: ArgumentParser, word: "Word") -> None:
    if word.flag:
        made.add_argument(f"--{word.name}", action="store_true", help=word.means)
    elif word.usual is not None:
        choices, count = word.one_of or None, "+" if word.many else None
        made.add_argument(f"--{word.name}", default=word.usual, choices=choices, nargs=count, help=word.means)
    elif word.many:
        made.add_argument(word.name, nargs="+", metavar=word.name.upper(), help=word.means)
    else:
        made.add_argument(word.name, metavar=word.name.upper(), choices=word.one_of or None, help=word.means)


def answer_of(words: str) -> "Answer":
    """The answer to a question typed behind `bickern ask`; words that are not understood are a finding in it."""
    from bickern.desk.answer import Answer
    from bickern.measure.finding import stop

    try:
        asked = _words().parse_args(shlex.split(words))
        return _answer(asked, _asker(asked))
    except (ValueError, SystemExit, AttributeError) as fault:
        says = f"“{words}” is not a question that is understood ({fault})."
        return Answer("Ask", (), (stop("no-such-question", says, "Try it behind `bickern ask`."),))


@cache
def _words() -> ArgumentParser:
    asking = _Words(prog="bickern ask", allow_abbrev=False)
    add_ask(asking)
    return asking


def _answer(asked: Namespace, me: "Asker") -> "Answer":
    from bickern.desk.ask.question import answer_to

    question: Question = asked.question
    said = {w.name: getattr(asked, w.name.replace("-", "_")) for w in question.words}
    whole = {name: tuple(value) if isinstance(value, list) else value for name, value in said.items()}
    return answer_to(question, whole, me.shop, me.system)


def _asker(asked: Namespace) -> "Asker":
    from bickern.desk.asker import asker

    me = asker(asked.units, asked.shop)
    assert me is not None, "the parser lets only known units pass"
    return me


def _shown(asked: Namespace) -> int:
    from bickern.cli.show import show_findings, show_rows

    if asked.shop is not None and not asked.shop.is_file():
        print(f"bickern: there is no file {asked.shop}", file=sys.stderr)
        return 2
    me = _asker(asked)
    told = _answer(asked, me)
    if told.rows:
        show_rows(told.title, told.rows)
    if told.figures and asked.digits:
        _show_digits(told)
    show_findings((*me.findings, *told.findings))
    return 1 if told.stops else 0


def _show_digits(told: "Answer") -> None:
    from bickern.cli.show import show_rows
    from bickern.desk.printed import digits

    show_rows("In full", [(f.name, digits(f)) for f in told.figures])


def _book(asked: Namespace) -> int:
    from bickern.cli.show import show_findings, show_rows
    from bickern.desk.printed import hold, read_book, told

    rows, findings = read_book(asked.file)
    reads = [hold(row, answer_of) for row in rows]
    found = [read.value for read in reads if read.value is not None]
    findings = (*findings, *(f for read in reads for f in read.findings))
    show_rows(str(asked.file), [told(one) for one in found])
    show_findings(findings)
    agree = sum(one.fits for one in found)
    print(f"{agree} of {len(rows)} figures agree")
    return 0 if agree == len(rows) and not findings else 1
