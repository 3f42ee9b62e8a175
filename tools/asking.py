"""Writes `docs/asking.md`: every question that can be asked without a file, its words, an example and its figures."""

import sys
import tempfile
from pathlib import Path

from console import answer

from bickern.cli.asking import answer_of
from bickern.desk.ask.question import Question, Word
from bickern.desk.ask.questions import QUESTIONS
from bickern.desk.printed import NEEDED, OTHERS, kinds

PAGE = Path(__file__).parents[1] / "docs" / "asking.md"

BOOK = "my_book.csv"
"""The worked example: one row that agrees by the book's own pi, one with room of its own, one that is off."""
ROWS = (
    {"ask": "ring '1 rd' 10", "answer": "along the middle", "printed": "34.5714", "unit": "in", "pi": "22/7"},
    {"ask": "weight '1 x 1/4' '1 ft'", "answer": "weighs", "printed": "0.8", "unit": "lb", "within": "0.1"},
    {"ask": "taper '1/2 sq' point 3", "answer": "by constant volume", "printed": "1 1/8", "unit": "in"},
)

INTRO = """# Questions at the anvil

`bickern ask QUESTION ...` answers one thing without a file. Sizes are written as on the tape; words with a space stand
in quotes. Every question takes `--units mm` (what a bare number means; else it is as the shop file has it, or inches),
`--shop FILE` (this forge's own figures) and `--digits` (every figure in full, with the name by which it can be held
against print). This page is written by `tools/asking.py` from the questions themselves.

## A book of your own

Figures that somebody printed can be held against what is reckoned here: write them as rows of a CSV file and say
`bickern ask book my_book.csv`. The rows that bickern is checked by are written so (`tests/published/books/`). A book of
three rows:

```csv
{rows}
```

```text
$ bickern ask book {book}
{told}
```

- `ask`: the words behind `bickern ask`, with `--units mm` or `--shop FILE` (in this folder, or beside the book) where
  the book wants them.
- `answer`: the name of the figure in that answer. `--digits` behind the question shows the names, as
  `bickern ask {example} --digits`; below they stand with each question.
- `printed`, `unit`: as the book has them. Decimals have a point, thousands no mark: a comma is asked about.
- `within`: nothing for half a unit of the last printed place (of a fraction, half of one of its parts: a sixteenth for
  `14 5/8`); `0.01` or `1/64` that much either way; `+0.5` where the print carries an allowance of so much at most;
  `-0.2` where it may fall short of ours by so much.
- `pi`: the pi that the book takes, where it is not the true one and the figure goes with it: `22/7`.
- `right`: for a misprint, what it should say: then ours must be that, by its own last place, and clearly not what is
  printed.
- `topic`, `where`, `known`, `note`: yours.

The columns stand in any order; those not needed are left out. Commas, semicolons or tabs part them, as a spreadsheet
saves it (UTF-8); lines that begin with `#` may stand above the heading. The exit code is 0 only where every row could
be read and agrees.

Units:

{units}

## The questions

"""


def section(question: Question) -> str:
    """One question: what it answers, its words, an example, the names of its figures."""
    words = "\n".join(f"- {_said(word)}" for word in question.words)
    found = answer_of(f"{question.name} {question.example}")
    figures = ", ".join(f"`{name}`" for name in dict.fromkeys(f.name for f in found.figures))
    return (
        f"### {question.name}\n\n{question.says}\n\n{words}\n\n"
        f"`bickern ask {question.name} {question.example}` has the figures {figures}.\n"
    )


def _said(word: Word) -> str:
    name = word.name if word.usual is None and not word.flag else f"--{word.name}"
    may = f" ({', '.join(word.one_of)})" if word.one_of else ""
    usual = f"; else {word.usual}" if word.usual else ""
    return f"`{name}`: {word.means}{may}{usual}"


def lines() -> str:
    """The worked example as CSV."""
    columns = [c for c in (*NEEDED, *OTHERS) if any(c in row for row in ROWS)]
    return "\n".join(",".join(cells) for cells in (columns, *([row.get(c, "") for c in columns] for row in ROWS)))


def told() -> str:
    """What bickern says of the worked example."""
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / BOOK).write_text(lines() + "\n")
        return answer(f"bickern ask book {BOOK}", folder).rstrip()


def page() -> str:
    """The whole page."""
    units = "\n".join(f"- {kind}: {names}" for kind, names in kinds())
    intro = INTRO.format(rows=lines(), book=BOOK, told=told(), example=ROWS[0]["ask"], units=units)
    return intro + "\n".join(map(section, QUESTIONS))


if __name__ == "__main__":
    PAGE.write_text(page())
    sys.stdout.write(f"docs/{PAGE.name}\n")
