"""What a form in a text file is: its words, and what stands behind each. Readers and schemas share one table."""

from dataclasses import dataclass
from enum import StrEnum

GAUGES = ("US", "galvanised", "SWG", "BWG", "AWG")
YES = ("yes", "true", "on")
NO = ("no", "false", "off")


class Takes(StrEnum):
    """What stands behind a word."""

    TEXT = "text"
    TEXTS = "one text, or a list of texts"
    CHOICE = "one of the words named"
    YES = "yes or no"
    COUNT = "a whole number from 1"
    NUMBER = "a number"
    NUMBER_OR_RULE = "a number, or one of the rules named"
    MASS = "a weight, as 2 lb or 1 kg"
    HEAT = "a temperature, as 1250 C or 2280 F"
    LENGTH = "a length"
    ANY_LENGTH = "a length, which may be nothing or less"
    AMOUNT = "a length, `rest` or `?`"
    ANGLE = "an angle in degrees"
    TURNS = "a number of turns"
    SHARE = "a percentage"
    SHARE_OR_RULE = "a percentage, or one of the rules named"
    SHARES_OF_THREE = "three percentages: low, likely, high"
    LENGTHS = "a list of lengths"
    SECTION = "a bar's section, or `any`"
    GOAL = "a bar's section, where `?` stands for an open size"
    THICKNESS = "a thickness or a gauge"
    SIZES = "one size, or two joined by x"
    ACROSS = "a size across, or a shape with its size"
    PLACE = "a place along the bar"
    FIRST = "`half a space`, `at the joint` or a number of spaces"
    TURN = "left, right, up, down or degrees from left toward up"
    PAIR = "a list of two lengths"
    SHIFT = "a length along, or a list of two: along and across"
    PAIRS = "a list of points"
    SHARES = "a list of pairs of shares"
    SIDES = "a list of left, right, up or down, or two lengths"
    LINKS = "named places, as `arm.palm` or `links 2`"
    GROUP = "words in braces or on lines of their own"
    LIST = "a list of such groups"
    NAMED = "names, each with such a group"
    MONEY = "an amount of money, as 12.50"
    PRICE = "a price, as 3.10 a lb or 6.80 a kg"
    PRICED = "names, each with its price"
    COUNTS = "a whole number from 1, or a list of them"
    OFFERED = "a list of sheets: `48 x 24`, or groups"


@dataclass(frozen=True, slots=True)
class Key:
    """One word: its spelling, what it takes, what it means; `form` names the table for GROUP, LIST and NAMED."""

    word: str
    takes: Takes
    says: str
    choices: tuple[str, ...] = ()
    form: str = ""
    needed: bool = False


@dataclass(frozen=True, slots=True)
class Form:
    """The words of one kind of group; `one_of`: exactly one of these says what the group is."""

    name: str
    says: str
    keys: tuple[Key, ...]
    one_of: tuple[str, ...] = ()

    def key(self, word: str) -> Key | None:
        """The key spelled so."""
        return next((k for k in self.keys if k.word == word), None)

    def words(self) -> tuple[str, ...]:
        """Every spelling."""
        return tuple(k.word for k in self.keys)
