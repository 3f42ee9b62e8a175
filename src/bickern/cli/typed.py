"""Words typed behind `bickern ask`, read by the table of their question; what is wrong with them, in plain words."""

import re
from argparse import ArgumentParser, Namespace
from collections.abc import Callable, Sequence
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

if TYPE_CHECKING:
    from bickern.desk.ask.question import Question, Word
    from bickern.measure.finding import Finding

NEAR = 0.6
"""Likeness from which a name may be a misspelt one."""


class Typed(ArgumentParser):
    """A parser that says what it does not understand to the caller and not to the terminal.

    `ending`: what stands last in its help, where that is only gathered when it is shown.
    """

    ending: Callable[[], str] | None = None

    def format_help(self) -> str:
        """The help, with its ending."""
        self.epilog = self.ending() if self.ending else self.epilog
        return super().format_help()

    def error(self, message: str) -> NoReturn:
        """Hands the message on."""
        raise ValueError(message)


def add_words(made: ArgumentParser, question: "Question") -> None:
    """The words of a question, and those that every question takes."""
    for word in question.words:
        _add_word(made, word)
    usual = "what a bare number means; else as the shop file has it, or inches"
    made.add_argument("--units", choices=("in", "mm"), help=usual)
    made.add_argument("--shop", type=Path, metavar="FILE", help="a shop file: this forge's own figures")
    made.add_argument("--digits", action="store_true", help="also every figure by name, unrounded, in inches and SI")


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


def question_of(name: str) -> "Question | None":
    """The question of that name."""
    from bickern.desk.ask.questions import QUESTIONS

    return next((q for q in QUESTIONS if q.name == name), None)


def read(question: "Question", words: Sequence[str]) -> "Namespace | Finding":
    """The words of a question by name, or what is wrong with them."""
    return taken(_parser(question), question, words)


@cache
def _parser(question: "Question") -> Typed:
    made = Typed(prog=f"bickern ask {question.name}", add_help=False)
    add_words(made, question)
    return made


def taken(made: ArgumentParser, question: "Question | None", words: Sequence[str]) -> "Namespace | Finding":
    """What a parser makes of the words, or what is wrong with them; `question` None where it is another command."""
    try:
        asked, more = made.parse_known_args(list(words))
    except ValueError as fault:
        return _fault(made, question, _in_words(question, str(fault)))
    return _fault(made, question, _too_many(made, more)) if more else asked


def no_question(name: str, also: Sequence[str] = ()) -> "Finding":
    """A name that is none, with those near it; `also`: what else can be said there."""
    from bickern.desk.ask.questions import QUESTIONS
    from bickern.measure.finding import stop

    says = f"“{name[:40]}” is no question." if name else "No question is asked."
    near = near_questions(name, also)
    if not near:
        return stop("no-such-question", says, ", ".join(f"`{n}`" for n in (*(q.name for q in QUESTIONS), *also)))
    example = "".join(f" bickern ask {q.name} {q.example}" for q in QUESTIONS if q.name == near[0])
    return stop("no-such-question", says, f"did you mean {' or '.join(f'`{n}`' for n in near)}?{example}")


def near_questions(name: str, also: Sequence[str] = ()) -> list[str]:
    """Names of questions that may be meant: spelt much alike, or with that word in what they answer."""
    from difflib import get_close_matches

    from bickern.desk.ask.questions import QUESTIONS

    fold = name.casefold()
    alike = get_close_matches(fold, [*(q.name for q in QUESTIONS), *also], 3, NEAR)
    about = [q.name for q in QUESTIONS if len(fold) > 2 and re.search(rf"\b{re.escape(fold)}s?\b", q.says.casefold())]
    return list(dict.fromkeys(alike[:1] + about + alike))[:6]


def _fault(made: ArgumentParser, question: "Question | None", says: str) -> "Finding":
    from bickern.measure.finding import stop

    example = f"bickern ask {question.name} {question.example}" if question else f"{made.prog} my_book.csv"
    return stop("words-not-understood", f"`{made.prog.rpartition(' ')[2]}` {says}", example)


def _in_words(question: "Question | None", message: str) -> str:
    """What a parser found fault with, said plainly."""
    if missing := re.search(r"required: (.*)", message):
        return f"wants also {'; '.join(_wanted(question, missing[1].split(', ')))}"
    if wrong := re.match(r"argument (\S+): invalid choice: (.*) \(choose from (.*)\)", message):
        said, choices = (text.replace("'", "") for text in wrong.groups()[1:])
        return f"takes as {_named(wrong[1])} one of {choices}, and not “{said}”"
    if alone := re.match(r"argument (\S+): expected (?:at least )?one argument", message):
        return f"wants a word behind {_named(alone[1])}"
    return f"is not asked so: {message}"


def _named(name: str) -> str:
    return f"`{name}`" if name.startswith("-") else f"`{name.lower()}`"


def _wanted(question: "Question | None", names: Sequence[str]) -> list[str]:
    """The words that are missing, each with what it means."""
    means = {w.name.upper(): w.means for w in question.words} if question else {}
    told = {name: f" ({m})" if (m := means.get(name, "")) not in ("", name.lower()) else "" for name in names}
    return [_named(name) + told[name] for name in names]


def _too_many(made: ArgumentParser, more: Sequence[str]) -> str:
    """Words that are left over: an option misspelt, or a size whose quotes were forgotten."""
    from difflib import get_close_matches

    first = more[0]
    if not first.startswith("--"):
        return f"has no use for “{first}”: words with a space stand in quotes, as '1/2 rd'"
    known = re.findall(r"--[a-z][a-z-]*", made.format_usage())
    near = get_close_matches(first, known, 1, NEAR)
    return f"has no `{first}`: " + (f"did you mean `{near[0]}`?" if near else f"it has {', '.join(known)}")
