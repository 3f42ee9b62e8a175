"""Questions about rings, links, coils and chain."""

from typing import TYPE_CHECKING

from bickern.desk.answer import Answer, gathered, unread, with_findings
from bickern.desk.ask.amounts import BAR
from bickern.desk.ask.answered import SHARE, answered, piece_rows
from bickern.desk.ask.question import Asked, Question, Word, section_at
from bickern.iron.section import Section
from bickern.iron.steel import density_of
from bickern.measure.figure import Figure
from bickern.measure.units.words import Read

if TYPE_CHECKING:
    from bickern.parts.ring.lengths import Loop
    from bickern.parts.ring.spec import RingResult, RingSpec

SIZE = Word("size", "how wide it is: inside, unless `--across` says otherwise")
ACROSS = Word("across", "what that size is", "inside", ("inside", "outside", "mean"))
CLOSED = Word("closed", "how the ends meet", "butted", ("welded", "butted", "open"))


def ring(asked: Asked) -> Answer:
    """Cut length of a ring or link: `3/16 rd`, inside across `3/4`."""
    from bickern.parts.ring.lengths import loop_of
    from bickern.parts.ring.reckon import reckon_ring

    oval: Read[float] = asked.size("long") if asked.said("long") else Read(0.0)
    read = gathered(asked.bent_bar("bar"), asked.size("size"), oval)
    if not read.ok:
        return unread("Ring", read)
    spec = ring_of(asked, section_at(read, 0), read.number(1), read.number(2) or None)
    done, loop = reckon_ring(spec, asked.shop.ring, density_of("mild")), loop_of(spec)
    if done.value is None or loop is None:
        return unread("Ring", read, *done.findings)
    figures = (*_ring_figures(done.value, loop), *_rule_figures(loop))
    first, *rest = piece_rows(done.value, asked.shop.style)
    answer = Answer("Ring", (first, ("ends", asked.text("closed")), *rest), read.findings, figures)
    return with_findings(answer, done.findings)


def ring_of(asked: Asked, bar: Section, size: float, long: float | None = None) -> "RingSpec":
    """The ring as asked: its size [m] is what `--across` says."""
    from bickern.parts.ring.spec import Closing, RingSpec

    inside, mean, outside = (size if asked.text("across") == told else None for told in ("inside", "mean", "outside"))
    closing = Closing(asked.text("closed")) if "closed" in asked.words else Closing.OPEN
    return RingSpec("ring", bar, "mild", inside, mean, outside, inside_long=long, closing=closing)


def _ring_figures(ring: "RingResult", loop: "Loop") -> tuple[Figure, ...]:
    longs = (Figure("inside long", ring.inside_long, "m"), Figure("outside long", ring.outside_long, "m"))
    return (
        Figure("along the middle", ring.bare, "m"),
        Figure("cut", ring.stock.value, "m"),
        Figure("weld", ring.weld, "m"),
        Figure("inside across", ring.inside_across, "m"),
        Figure("mean across", loop.mean_across, "m"),
        Figure("outside across", ring.outside_across, "m"),
        *(longs if ring.spec.inside_long is not None else ()),
        Figure("skin stretches", ring.strain, SHARE),
        Figure("weighs", ring.mass, "kg"),
    )


def _rule_figures(loop: "Loop") -> tuple[Figure, ...]:
    from bickern.parts.ring.reckon import by_every_rule

    return tuple(Figure(name, length, "m") for name, length in by_every_rule(loop))


def coil(asked: Asked) -> Answer:
    """Bar in a coil: `1/4 rd`, inside across `2`, `6` turns, close or at a pitch."""
    from bickern.parts.ring.helix import reckon_helix

    pitch: Read[float] = asked.size("pitch") if asked.said("pitch") else Read(0.0)
    read = gathered(asked.bent_bar("bar"), asked.size("size"), asked.turns("turns"), pitch)
    if not read.ok:
        return unread("Coil", read)
    spec = ring_of(asked, section_at(read, 0), read.number(1))
    done = reckon_helix(spec, read.number(2), read.number(3) or None, density_of("mild"))
    if done.value is None:
        return unread("Coil", read, *done.findings)
    wound = done.value
    figures = (
        Figure("bar", wound.bar, "m"),
        Figure("a turn", wound.turn, "m"),
        Figure("length of the coil", wound.long, "m"),
        Figure("middle to middle", wound.forward, "m"),
        Figure("pitch", wound.pitch, "m"),
        Figure("mean across", wound.loop.mean_across, "m"),
        Figure("weighs", wound.mass, "kg"),
    )
    return answered("Coil", read, figures, asked.shop.style)


def chain(asked: Asked) -> Answer:
    """Bar and weight of chain: `1/4 rd`, links `1 1/4` long and `3/8` wide inside."""
    from bickern.parts.ring.chain import LEAST
    from bickern.parts.ring.reckon import reckon_ring
    from bickern.parts.ring.spec import ChainSpec, Closing, RingSpec

    length: Read[float] = asked.size("length") if asked.said("length") else Read(0.0)
    read = gathered(asked.bent_bar("bar"), asked.size("long"), asked.size("wide"), length)
    if not read.ok:
        return unread("Chain", read)
    asks = ChainSpec(length=read.number(3)) if read.number(3) else ChainSpec(links=LEAST)
    closing, long = Closing(asked.text("closed")), read.number(1)
    spec = RingSpec("link", section_at(read, 0), "mild", read.number(2), inside_long=long, closing=closing, chain=asks)
    done = reckon_ring(spec, asked.shop.ring, density_of("mild"))
    if done.value is None:
        return unread("Chain", read, *done.findings)
    figures = _chain_figures(done.value, whole=read.number(3) > 0)
    ends = (("ends of the links", str(closing)),)
    return with_findings(answered("Chain", read, figures, asked.shop.style, ends), done.findings)


def _chain_figures(link: "RingResult", *, whole: bool) -> tuple[Figure, ...]:
    hung = link.chain
    assert hung is not None, "a chain was asked for"
    one = (
        Figure("bar for a link", link.stock.value, "m"),
        Figure("weight of a link", link.mass, "kg"),
        Figure("weight a length", hung.a_metre, "kg/m"),
        Figure("outside long", link.outside_long, "m"),
        Figure("outside across", link.outside_across, "m"),
    )
    if not whole:
        return one
    return (
        *one,
        Figure("links", float(hung.links), ""),
        Figure("chain length", hung.length, "m"),
        Figure("chain over all", hung.outside, "m"),
        Figure("bar for the chain", hung.bar, "m"),
        Figure("chain weighs", hung.mass, "kg"),
    )


QUESTIONS = (
    Question(
        "ring",
        "Cut length of a ring or a link.",
        (BAR, SIZE, ACROSS, Word("long", "inside length of an oval link", ""), CLOSED),
        ring,
        "'1/2 rd' '3 1/2' --closed welded",
    ),
    Question(
        "coil",
        "Bar in a coil or a spring.",
        (
            BAR,
            SIZE,
            Word("turns", "how many turns"),
            ACROSS,
            Word("pitch", "from turn to turn, middle to middle; close if left out", ""),
        ),
        coil,
        "'1/4 rd' 1 12",
    ),
    Question(
        "chain",
        "Bar and weight of chain.",
        (
            BAR,
            Word("long", "inside length of a link"),
            Word("wide", "inside width of a link"),
            Word("length", "how long the chain is to be", ""),
            CLOSED,
        ),
        chain,
        "'1/4 rd' 1 3/8 --length '3 ft'",
    ),
)
