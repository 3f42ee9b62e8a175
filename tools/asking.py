"""Writes `docs/asking.md`: every question that can be asked without a file, its words, an example and its figures."""

import shlex
import sys
from pathlib import Path

from bickern.cli.asking import answer_of
from bickern.desk.ask.question import Question, Word
from bickern.desk.ask.questions import QUESTIONS
from bickern.desk.printed import NEEDED, OTHERS

PAGE = Path(__file__).parents[1] / "docs" / "asking.md"

INTRO = """# Questions at the anvil

`bickern ask QUESTION ...` answers one thing without a file. Sizes are written as on the tape; words with a space stand
in quotes. Every question takes `--units mm` (what a bare number means), `--shop FILE` (this forge's own figures) and
`--digits` (every figure in full, with the name by which it can be held against print). This page is written by
`tools/asking.py` from the questions themselves.

## A book of your own

Figures that somebody printed can be held against what is reckoned here: write them as rows of a CSV file and say
`bickern ask book my_book.csv`. The rows that bickern is checked by are written so (`tests/published/books/`).

```csv
{head}
{row}
```

- `ask`: the words behind `bickern ask`; `answer`: the name of the figure in that answer; `printed`, `unit`: as the
  book has them.
- `within`: nothing for half a unit of the last printed place; `0.01` that much either way; `+0.5` where the print
  carries an allowance of so much at most; `-0.2` where it may fall short of ours by so much.
- `pi`: the pi that the book takes, where it is not the true one and the figure goes with it: `22/7`.
- `right`: for a misprint, what it should say: then ours must be that and clearly not what is printed.
- `topic`, `where`, `known`, `note`: yours.

## The questions

"""


def section(question: Question) -> str:
    """One question: what it answers, its words, an example, the names of its figures."""
    words = "\n".join(f"- {_said(word)}" for word in question.words)
    answer = answer_of(f"{question.name} {question.example}")
    figures = ", ".join(f"`{name}`" for name in dict.fromkeys(f.name for f in answer.figures))
    return (
        f"### {question.name}\n\n{question.says}\n\n{words}\n\n"
        f"`bickern ask {question.name} {question.example}` has the figures {figures}.\n"
    )


def _said(word: Word) -> str:
    name = word.name if word.usual is None and not word.flag else f"--{word.name}"
    may = f" ({', '.join(word.one_of)})" if word.one_of else ""
    usual = f"; else {word.usual}" if word.usual else ""
    return f"`{name}`: {word.means}{may}{usual}"


def page() -> str:
    """The whole page."""
    row = {"ask": "ring '1 rd' 10", "answer": "along the middle", "printed": "34.5714", "unit": "in", "pi": "22/7"}
    assert shlex.split(row["ask"])[0] in {q.name for q in QUESTIONS}
    columns = (*NEEDED, *OTHERS)
    head = ",".join(columns)
    return INTRO.format(head=head, row=",".join(row.get(c, "") for c in columns)) + "\n".join(map(section, QUESTIONS))


if __name__ == "__main__":
    PAGE.write_text(page())
    sys.stdout.write(f"docs/{PAGE.name}\n")
