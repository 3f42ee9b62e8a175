"""A card as it is read from the anvil: number and colour first, what to do, where, what to measure, what to mind."""

import re
from collections.abc import Iterator
from html import escape

from bickern.desk.work.cards import Card, Cards, Step
from bickern.desk.work.ticks import Ticked
from bickern.web.parts import rows_html

SHADES = (
    (750.0, (58, 14, 10)), (900.0, (110, 22, 14)), (1073.0, (176, 38, 26)), (1173.0, (214, 62, 26)),
    (1273.0, (238, 100, 30)), (1373.0, (248, 146, 40)), (1473.0, (255, 192, 80)), (1573.0, (255, 222, 140)),
    (1723.0, (255, 243, 210)),
)  # fmt: skip
"""Iron's own light as a screen can show it, by temperature [K]: for the eye alone (our choice). The word counts."""


def shade(kelvin: float) -> str:
    """A colour for a patch beside the word of a heat, as `#rrggbb`."""
    (at, one), *rest = SHADES
    for above, other in rest:
        if kelvin <= above:
            share = min(1.0, max(0.0, (kelvin - at) / (above - at)))
            return "#" + "".join(f"{round(a + share * (b - a)):02x}" for a, b in zip(one, other, strict=True))
        at, one = above, other
    return "#" + "".join(f"{part:02x}" for part in one)


def top_html(card: Card, copy: int) -> str:
    """Whose heat it is, its number, and what is done."""
    aside = f' <span class="quiet">{escape(card.aside)}</span>' if card.aside else ""
    many = [one for one in (card.count, f"number {copy} of {card.make}" if card.make > 1 else "") if one]
    more = "".join(f' <span class="many">{escape(one)}</span>' for one in many)
    number = f'<span class="no">{escape(card.number)}</span>' if card.number else ""
    titles = [step.title for step in card.steps] or [card.title]
    does = "".join(f'<span class="does">{_kept_together(title)}</span>' for title in titles)
    lot = f'<p class="lot">{escape(card.lot)}</p>' if card.lot else ""
    now = f'<h2 class="now" id="now" tabindex="-1">{number}{more}{does}</h2>'
    return f'<p class="of">{escape(card.group)}{aside}</p>{now}{lot}'


def heat_html(card: Card) -> str:
    """The colours to pull and to stop at, each a patch and a word, and how long it all takes."""
    if not card.pull:
        return f'<p class="lasts">{escape(card.time_says)}</p>' if card.time_says else ""
    times = "; ".join(one for one in (card.gives_says, card.time_says) if one)
    return (
        f'<p class="pull">{_patch(card.start_at)}<span>Pull at <b>{_kept_together(card.pull)}</b></span></p>'
        f'<p class="stop-at">{_patch(card.stop_at)}<span>stop at {_kept_together(card.stop)}</span></p>'
        f'<p class="lasts">{_kept_together(times)}</p>'
    )


_UNIT = re.compile(r"(?<=\d) (?=(?:in|mm|x|s|min|h|°[CF])\b|°)|(?<=\dx) |(?<=\bx) (?=\d)|(?<=\d) (?=\d+/\d)")


def _kept_together(says: str) -> str:
    """Words as HTML in which no line ends between a figure and its unit."""
    return _UNIT.sub("\N{NO-BREAK SPACE}", escape(says))


def _patch(kelvin: float) -> str:
    return f'<i class="patch" style="background:{shade(kelvin)}" aria-hidden="true"></i>'


def work_html(card: Card) -> str:
    """What to know first, where it is hot and held, then each work: where, how, what to measure, what goes wrong."""
    facts = f'<dl class="facts">{rows_html(card.facts)}</dl>' if card.facts else ""
    before = f'<dl class="facts first">{rows_html(card.before)}</dl>' if card.before else ""
    several = len(card.steps) > 1
    return before + facts + "".join(f'<div class="step">{"".join(_lines(one, several))}</div>' for one in card.steps)


def _lines(step: Step, named: bool) -> Iterator[str]:
    """One work; `named`: with its name once more, where a heat holds several."""
    if named:
        yield f"<h3>{escape(step.title)}</h3>"
    if step.at:
        yield f'<p class="at">{_kept_together(step.at)}</p>'
    if step.how:
        yield f'<p class="how">{escape(step.how)}</p>'
    if step.check:
        yield f'<p class="check"><b>Measure</b> {escape(step.check)}</p>'
    if step.fault:
        yield f'<p class="fault"><b>Usual fault</b> {escape(step.fault)}</p>'


def mind_html(card: Card) -> str:
    """The cautions for what is done on this very card."""
    return "".join(f"<p><b>Mind this</b> {escape(says)}</p>" for says in card.cautions)


def overview_html(cards: Cards, stands: Ticked, at: int) -> str:
    """All cards by group, each a button to it, with how far it is; the one that is shown is marked."""
    found: list[str] = [
        f'<li><button type="button" data-place="0"{_here(at == 0)}>Before the fire is lit</button></li>'
    ]
    group = ""
    for card in cards.cards:
        if card.group != group:
            group = card.group
            found.append(f'<li class="group"><h3>{escape(group)}</h3></li>')
        found.append(_row(card, stands, card.place == at))
    return "".join(found)


def _here(here: bool) -> str:
    return ' aria-current="step"' if here else ""


def _row(card: Card, stands: Ticked, here: bool) -> str:
    done = stands.done(card)
    whole = card.ticks and done >= card.make
    says = "done" if whole else f"{done} of {card.make}" if done else "no heats" if not card.ticks else ""
    kind = "whole" if whole else "part" if done else ""
    noted = '<span class="noted">noted</span>' if stands.note(card.key) else ""
    number = f'<span class="no">{escape(card.number)}</span>' if card.number else ""
    return (
        f'<li class="{kind}"><button type="button" data-place="{card.place}"{_here(here)}>'
        f'<i class="box" aria-hidden="true"></i>{number}<span class="title">{escape(card.title)}</span>{noted}'
        f'<span class="state">{says}</span></button></li>'
    )
