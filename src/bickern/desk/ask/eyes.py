"""Questions about eyes in the end of a bar."""

from bickern.desk.answer import Answer, gathered, unread, with_findings
from bickern.desk.ask.amounts import BAR
from bickern.desk.ask.answered import SHARE, answered
from bickern.desk.ask.question import Asked, Question, Word, section_at
from bickern.desk.ask.rules import by_rule, said
from bickern.iron.steel import density_of
from bickern.measure.figure import Figure


def eye(asked: Asked) -> Answer:
    """Bar in an eye, by every published rule: `1/2 rd`, hole of `1`, on the bar's line or beside it."""
    from bickern.parts.bar.eyes import reckon_eye
    from bickern.parts.eye import EYE_RULES, eye_length

    read = gathered(asked.bent_bar("bar"), asked.size("hole"))
    if not read.ok:
        return unread("Eye", read)
    bar, inside, shop = section_at(read, 0), read.number(1), asked.shop
    on_line, welded = asked.text("lies") == "on", asked.said("welded")
    done = reckon_eye(bar, inside, shop.bar, density_of("mild"), centred=on_line, welded=welded)
    if done.value is None:
        return unread("Eye", read, *done.findings)
    made = done.value
    lengths = by_rule(EYE_RULES, lambda rule: eye_length(rule, inside, made.mean_across) + made.weld)
    figures = (
        Figure("past its mark", made.past, "m"),
        Figure("outside across", inside + 2 * bar.thick, "m"),
        Figure("skin stretches", made.strain, SHARE),
    )
    weld = (Figure("weld", made.weld, "m"),) if made.weld else ()
    rest = answered("Eye", read, (*weld, *figures), shop.style, (("lies", f"{asked.text('lies')} the bar's line"),))
    rows = (*said(EYE_RULES, lengths, shop.bar.eye, shop), *rest.rows)
    return with_findings(Answer("Eye", rows, read.findings, (*lengths, *rest.figures)), done.findings)


QUESTIONS = (
    Question(
        "eye",
        "Bar in an eye at the end of a bar, by every rule.",
        (
            BAR,
            Word("hole", "what the eye is across inside"),
            Word("lies", "where its hole lies: on the bar's line, or beside it", "on", ("on", "beside")),
            Word("welded", "its end is welded to the bar", flag=True),
        ),
        eye,
        "'1/2 rd' 1",
    ),
)
