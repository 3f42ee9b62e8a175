"""Words of results on a page: the tables hold US words, and a UK shop reads its own."""

from dataclasses import replace
from pathlib import Path

from bickern.desk.answer import Row
from bickern.desk.asker import shop_at
from bickern.desk.seen import Seen, as_seen
from bickern.making.shop import Shop
from bickern.measure.finding import Finding
from bickern.measure.units.say import say_both
from bickern.measure.units.words import INCH
from bickern.paper.sheets.english import in_english

SAMPLE_LENGTH = 3.25 * INCH
SAMPLE_WORDS = "Upset the end, draw out the tip over the horn, and hold it in the vise."


def said(text: str, shop: Shop) -> str:
    """Our own words in the shop's English; what stands in quotes is a name that a person gave, and stays."""
    return in_english(text, shop.english)


def said_finding(finding: Finding, shop: Shop) -> Finding:
    """The same finding in the shop's English."""
    return replace(finding, says=said(finding.says, shop), try_this=said(finding.try_this, shop))


def sample(seen: Seen, shop_path: Path | None) -> tuple[Row, ...]:
    """How a length and a line of work read to a person who wants them so."""
    shop = as_seen(shop_at(shop_path)[0], seen)
    return (("a length", say_both(SAMPLE_LENGTH, shop.style)), ("a line of work", said(SAMPLE_WORDS, shop)))
