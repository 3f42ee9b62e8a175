"""A shop that follows one rule by its name: what its file says, what it answers, and what it makes of a job."""

from pathlib import Path
from tempfile import TemporaryDirectory

from bickern.book.shopfile import read_shop
from bickern.cli.asking import answer_of
from bickern.desk.answer import Answer
from bickern.desk.reckon import Reckoning, reckon_text
from bickern.making.shop import Shop
from bickern.measure.units.words import INCH

NO_LOSS = "scale worked: [0 %, 0 %, 0 %]"
"""In a shop's `bars`: what constant volume alone says."""


def shop_file(rules: str) -> str:
    """The text of a shop file that tells these rules, inches, and nothing else."""
    return f"shop: mine\nunits: in\n{rules}\n"


def shop_of(rules: str) -> Shop:
    """The shop that a file with these rules makes; a rule that is not understood is our fault."""
    shop, found = read_shop(shop_file(rules), "shop.yaml")
    assert found == (), found
    return shop


def answer_by(rules: str, words: str) -> Answer:
    """What `bickern ask` answers with a shop file of these rules."""
    shop_of(rules)
    with TemporaryDirectory() as folder:
        path = Path(folder) / "shop.yaml"
        path.write_text(shop_file(rules))
        return answer_of(f"{words} --shop '{path}'")


def inches_by(rules: str, words: str, name: str) -> float:
    """One length in that answer [in]."""
    answer = answer_by(rules, words)
    figure = answer.figure(name)
    assert figure is not None, (words, answer.findings)
    return figure.value / INCH


def reckoned_by(rules: str, pieces: str) -> Reckoning:
    """A job of these pieces [in], reckoned with a shop file of these rules."""
    shop_of(rules)
    job = f"job: one\nunits: in\npieces:\n{pieces}\n"
    with TemporaryDirectory() as folder:
        path = Path(folder) / "shop.yaml"
        path.write_text(shop_file(rules))
        done = reckon_text(job, "job.yaml", shop_path=path)
    assert done.copy is not None, done.findings
    return done
