"""Questions as a page asks them: each finding at its word, the figure to cut first, and words as a page says them."""

import math
import re

import pytest

from bickern.desk.ask.heard import GROUPS, example_of, fits, grouped, hear, on_page, question_named
from bickern.desk.ask.question import Question, answer_to
from bickern.desk.ask.questions import QUESTIONS
from bickern.making.shop import Shop
from bickern.measure.units.words import System

SHOP = Shop()


def asked(name: str, **words: str | tuple[str, ...] | bool):
    question = question_named(name)
    assert question is not None
    return hear(question, words, SHOP, System.INCH)


def test_every_question_stands_under_one_head():
    assert sorted(name for _, names in GROUPS for name in names) == sorted(q.name for q in QUESTIONS)
    assert sum(len(some) for _, some in grouped()) == len(QUESTIONS)


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda q: q.name)
def test_an_example_is_answered_as_the_terminal_answers_it(question: Question):
    words = example_of(question)
    heard = hear(question, words, SHOP, System.INCH)
    plain = answer_to(question, words, SHOP, System.INCH)
    assert heard.answer == plain
    assert not heard.missing
    told = [*([heard.first] if heard.first else []), *heard.rows, *heard.also]
    assert sorted(says for _, says in told) == sorted(says for _, says in plain.rows)
    assert {f for found in heard.at.values() for f in found} | set(heard.rest) == set(plain.findings)


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda q: q.name)
def test_an_example_means_the_same_sizes_where_millimetres_come_first(question: Question):
    inches = answer_to(question, example_of(question), SHOP, System.INCH)
    metric = answer_to(question, example_of(question, System.MM), SHOP, System.MM)
    assert [f.name for f in inches.figures] == [f.name for f in metric.figures]
    for one, other in zip(inches.figures, metric.figures, strict=True):
        assert one.value == pytest.approx(other.value, rel=1e-9), one.name


def test_a_ring_is_asked_for_what_to_cut():
    heard = asked("ring", bar="1/2 rd", size="3 1/2", closed="welded")
    assert heard.first is not None
    name, says = heard.first
    assert name == "CUT THIS"
    # exact mathematics: round the middle line pi (D + t) = 12.566 in, and one thickness for the weld (the shop's rule);
    # cut up to the next sixteenth, which is 13 1/8 in
    assert says.startswith("13 1/8 in")
    assert math.ceil((math.pi * 4.0 + 0.5) * 16) / 16 == 13.125


def test_no_gauge_comes_before_the_others():
    assert asked("gauge", number="16").first is None


@pytest.mark.parametrize(
    ("question", "words", "at"),
    [
        ("ring", {"bar": "cheese", "size": "3"}, {"bar"}),
        ("ring", {"bar": "1/2 rd", "size": "-3"}, {"size"}),
        ("ring", {"bar": "cheese", "size": "-3"}, {"bar", "size"}),
        ("ring", {"bar": "1/2 rd", "size": "3", "across": "along"}, {"across"}),
        ("weight", {"bar": "1/2 rd", "length": "3", "steel": "cheese"}, {"steel"}),
        ("weight", {"bar": "1/2 rd", "length": "3", "density": "cheese"}, {"density"}),
        ("pan", {"long": "8", "wide": "5", "high": "1", "sheet": "99 ga"}, {"sheet"}),
        ("curve", {"bar": "1/2 sq", "radius": "2", "angle": "-90"}, {"angle"}),
        ("coil", {"bar": "1/4 rd", "size": "1", "turns": "many"}, {"turns"}),
        ("pyramid", {"sides": "2", "base": "3", "top": "1", "height": "3"}, {"sides"}),
        ("hole", {"size": "7 x"}, {"size"}),
        ("gauge", {"number": "lots"}, {"number"}),
    ],
)
def test_what_is_wrong_with_a_word_is_told_at_that_word(question: str, words: dict[str, str], at: set[str]):
    heard = asked(question, **words)
    assert set(heard.at) == at
    assert heard.answer is not None
    assert heard.answer.stops


def test_words_that_are_still_wanted_are_told_and_nothing_is_found_wrong_yet():
    heard = asked("collar", thick="1/8", bars=())
    assert heard.missing == ("bars",)
    assert heard.answer is None
    assert asked("ring").missing == ("bar", "size")
    assert asked("ring", bar="  ", size="3").missing == ("bar",)


def test_what_is_about_several_words_together_is_told_apart_from_them():
    heard = asked("chain", bar="1/4 rd", long="1", wide="3/8")
    assert [f.name for f in heard.rest] == ["too-stiff-cold"]


def test_questions_are_found_by_their_words():
    assert {q.name for q in QUESTIONS if fits(q, "Hem seam")} == {"edge"}
    assert {q.name for q in QUESTIONS if fits(q, "rivet")} >= {"rivet", "hole"}
    assert not [q for q in QUESTIONS if fits(q, "spaghetti")]
    assert len([q for q in QUESTIONS if fits(q, "")]) == len(QUESTIONS)


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda q: q.name)
def test_a_page_shows_no_marks_of_a_command_line(question: Question):
    told = " ".join(on_page(text) for text in (question.says, *(w.means for w in question.words)))
    assert not re.search(r"--|`|'\d", told)


def test_the_cure_in_a_finding_names_the_field():
    assert on_page("Say it, as `--radius 1/16`.") == "Say it, as “radius” 1/16."
    assert on_page("inside, unless `--across` says otherwise") == "inside, unless “across” says otherwise"
    assert on_page("the bundle: '1/2 sq' '1/2 sq'") == "the bundle: 1/2 sq, 1/2 sq"
    assert on_page("20 ga of the shop's own gauge") == "20 ga of the shop's own gauge"
