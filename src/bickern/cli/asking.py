"""`bickern ask ...`: one-off questions at the anvil, without a file."""

import sys
from argparse import ArgumentParser, Namespace
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from bickern.desk.answer import Answer
    from bickern.desk.asker import Asker

Does = Callable[[Namespace, "Asker"], "Answer"]
Word = tuple[str, str]


def add_ask(ask: ArgumentParser) -> None:
    """The questions, each with its words."""
    words = ask.add_subparsers(title="questions", metavar="QUESTION", required=True)

    def question(name: str, does: Does, says: str, *places: Word) -> ArgumentParser:
        made = words.add_parser(name, help=says, description=says)
        for place, means in places:
            made.add_argument(place, metavar=place.upper(), help=means)
        made.add_argument("--units", choices=("in", "mm"), default="in", help="what a bare number means")
        made.add_argument("--shop", type=Path, metavar="FILE", help="a shop file: this forge's own figures")
        made.set_defaults(does=_answers(does))
        return made

    bar, sheet = ("bar", "such as '3/16 rd', '1/2 sq', '1 x 1/4', '8 mm rd'"), ("sheet", "thickness or gauge: '20 ga'")
    ring = question("ring", _ring, "Cut length of a ring or a link.", bar, ("inside", "inside across"))
    ring.add_argument("--long", default="", help="inside length of an oval link")
    ring.add_argument("--closed", default="butted", choices=("welded", "butted", "open"), help="how the ends meet")
    end, long = ("end", "the thin end: point, '1/8 rd' ..."), ("length", "finished length of the taper")
    taper = question("taper", _taper, "How much bar a taper takes.", bar, end, long)
    taper.add_argument("--from", dest="start", default="", help="the thick end, where it is not the bar itself")
    sizes = (("base", "diameter of the base"), ("top", "diameter of the top, 0 for a full cone"), ("height", "height"))
    cone = question("cone", _cone, "The pattern of a cone or frustum.", *sizes)
    cone.add_argument("--sheet", default="20 ga", help=sheet[1])
    cone.add_argument("--sizes", default="mean", choices=("inside", "outside", "mean"), help="what the sizes are of")
    weight = question("weight", _weight, "What a bar weighs.", bar, ("length", "its length"))
    weight.add_argument("--steel", default="mild", help="steel or other metal")
    collar = question("collar", _collar, "Bar for a collar, by every published rule.", ("thick", "of the collar bar"))
    collar.add_argument("bars", nargs="+", metavar="BAR", help="the bundle, side by side: '1/2 sq' '1/2 sq'")
    grip = ("grip", "thickness that it holds together")
    question("rivet", _rivet, "Length of a rivet past its head, and its hole.", ("across", "of the rivet"), grip)
    turn, radius = ("angle", "how far it turns, in degrees"), ("radius", "inside radius")
    question("bend", _bend, "Length that a cold bend in sheet takes.", sheet, turn, radius)
    question("gauge", _gauge, "What a gauge number means in each system.", ("number", "the number"))
    question("convert", _convert, "A length in both systems.", ("length", "such as '3 1/4 in' or '82 mm'"))


def _answers(does: Does) -> Callable[[Namespace], int]:
    def answer(asked: Namespace) -> int:
        from bickern.cli.show import show_findings, show_rows
        from bickern.desk.asker import asker

        if asked.shop is not None and not asked.shop.is_file():
            print(f"bickern: there is no file {asked.shop}", file=sys.stderr)
            return 2
        me = asker(asked.units, asked.shop)
        assert me is not None, "the parser lets only known units pass"
        told = does(asked, me)
        if told.rows:
            show_rows(told.title, told.rows)
        show_findings((*me.findings, *told.findings))
        return 1 if told.stops else 0

    return answer


def _ring(asked: Namespace, me: "Asker") -> "Answer":
    from bickern.desk import ask

    return ask.ring(asked.bar, asked.inside, me.shop, me.system, long=asked.long, closed=asked.closed)


def _taper(asked: Namespace, me: "Asker") -> "Answer":
    from bickern.desk import ask

    return ask.taper(asked.bar, asked.end, asked.length, me.shop, me.system, start=asked.start)


def _cone(asked: Namespace, me: "Asker") -> "Answer":
    from bickern.desk import ask

    sizes = (asked.base, asked.top, asked.height)
    return ask.cone(*sizes, me.shop, me.system, sheet=asked.sheet, sizes=asked.sizes)


def _weight(asked: Namespace, me: "Asker") -> "Answer":
    from bickern.desk import ask

    return ask.weight(asked.bar, asked.length, me.shop, me.system, steel=asked.steel)


def _collar(asked: Namespace, me: "Asker") -> "Answer":
    from bickern.desk import ask

    return ask.collar(asked.bars, asked.thick, me.shop, me.system)


def _rivet(asked: Namespace, me: "Asker") -> "Answer":
    from bickern.desk import ask

    return ask.rivet(asked.across, asked.grip, me.shop, me.system)


def _bend(asked: Namespace, me: "Asker") -> "Answer":
    from bickern.desk import ask

    return ask.bend(asked.sheet, asked.angle, asked.radius, me.shop, me.system)


def _gauge(asked: Namespace, me: "Asker") -> "Answer":
    from bickern.desk import ask

    return ask.gauge(asked.number, me.shop)


def _convert(asked: Namespace, me: "Asker") -> "Answer":
    from bickern.desk import ask

    return ask.convert(asked.length, me.shop, me.system)
