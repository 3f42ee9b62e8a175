"""Questions about rivets and collars."""

from bickern.desk.answer import Answer, gathered, unread, with_findings
from bickern.desk.ask.amounts import BAR
from bickern.desk.ask.answered import answered
from bickern.desk.ask.bars import worked
from bickern.desk.ask.holes import loose_seam
from bickern.desk.ask.question import Asked, Question, Word, read_bar, section_at, with_metal
from bickern.desk.ask.rules import by_rule, said
from bickern.iron.section import Section
from bickern.iron.steel import density_of
from bickern.measure.figure import Figure
from bickern.measure.units.say import say_both, say_down_both
from bickern.measure.units.words import Read, Shape


def collar(asked: Asked) -> Answer:
    """Bar for a collar of thickness `thick` round bars that lie side by side, by every published rule."""
    from bickern.parts.joint.bundle import bundle_girth
    from bickern.parts.joint.reckon import reckon_joint
    from bickern.parts.joint.rules import COLLAR_RULES, collar_length
    from bickern.parts.joint.spec import JointKind, JointSpec

    read = gathered(asked.size("thick"), *_bundle(asked))
    if not read.ok:
        return unread("Collar", read)
    thick = read.number(0)
    round_all = bundle_girth([b for b in read.values[1:] if isinstance(b, Section)])
    spec = JointSpec(JointKind.COLLAR, (), section=Section(Shape.SQUARE, thick, thick))
    done = reckon_joint(spec, asked.shop.joint, density_of("mild"), None, round_all)
    lengths = by_rule(COLLAR_RULES, lambda name: collar_length(name, round_all, thick))
    rows = (
        ("round the bundle", say_both(round_all, asked.shop.style, fit=True)),
        *said(COLLAR_RULES, lengths, asked.shop.joint.collar, asked.shop),
    )
    answer = Answer("Collar", rows, read.findings, (Figure("round the bundle", round_all, "m"), *lengths))
    return with_findings(answer, done.findings)


def _bundle(asked: Asked) -> list[Read[Section]]:
    """The bars that lie side by side; at least one is asked for."""
    return [with_metal(read_bar(b, asked.system)) for b in asked.many("bars")]


def wrap(asked: Asked) -> Answer:
    """Bar that is wound round bars that lie side by side: `1/4 rd`, `3` turns round two of `1/2 sq`."""
    from bickern.parts.joint.bundle import bundle_girth
    from bickern.parts.joint.rules import wrap_length, wrap_width

    read = gathered(asked.bent_bar("bar"), asked.turns("turns"), *_bundle(asked))
    if not read.ok:
        return unread("Wrap", read)
    bar, turns = section_at(read, 0), read.number(1)
    round_all = bundle_girth([b for b in read.values[2:] if isinstance(b, Section)])
    figures = (
        Figure("bar", wrap_length(turns, round_all, bar.thick), "m"),
        Figure("a turn", wrap_length(1.0, round_all, bar.thick), "m"),
        Figure("round the bundle", round_all, "m"),
        Figure("covers", wrap_width(turns, bar.width), "m"),
    )
    words = (("left out", "the tails, and the slope of the turns"),)
    return answered("Wrap", read, figures, asked.shop.style, words)


def tenon(asked: Asked) -> Answer:
    """Length of a tenon past its shoulder, by every published rule, and how much of a bar it takes."""
    from bickern.parts.joint.reckon import reckon_joint
    from bickern.parts.joint.rules import TENON_RULES, tenon_length
    from bickern.parts.joint.spec import JointKind, JointSpec

    stock: Read[Section | None] = asked.bar("from") if asked.said("from") else Read(None)
    read = gathered(asked.bar("tenon"), asked.size("grip"))
    if not read.ok or (asked.said("from") and stock.value is None):
        return unread("Tenon", read, *stock.findings)
    end, grip, chosen = section_at(read, 0), read.number(1), asked.shop.joint.tenon
    done = reckon_joint(JointSpec(JointKind.TENON, (), size=end.thick), asked.shop.joint, density_of("mild"), grip)
    lengths = by_rule(TENON_RULES, lambda name: tenon_length(name, end.thick, grip))
    taken = _taken(asked, stock.value, end, tenon_length(chosen, end.thick, grip))
    rest = answered("Tenon", read, taken, asked.shop.style)
    rows = (*said(TENON_RULES, lengths, chosen, asked.shop), *rest.rows)
    return with_findings(Answer("Tenon", rows, read.findings, (*lengths, *taken)), (*stock.findings, *done.findings))


def _taken(asked: Asked, stock: Section | None, end: Section, long: float) -> tuple[Figure, ...]:
    """How much [m] of the bar the tenon takes by constant volume, where a bar is told."""
    made = worked(asked, stock, end, end, long).value if stock else None
    return (Figure("bar taken", made.stock_bare, "m"),) if made else ()


def rivet(asked: Asked) -> Answer:
    """Length of a rivet past its own head, by every published rule, the hole for it, and what each head takes."""
    from bickern.parts.joint.heads import filling_length
    from bickern.parts.joint.holes import hole_for_rivet
    from bickern.parts.joint.reckon import reckon_joint
    from bickern.parts.joint.rules import RIVET_RULES, rivet_length
    from bickern.parts.joint.spec import JointKind, JointSpec

    read = gathered(asked.size("across"), asked.length("grip"))
    if not read.ok:
        return unread("Rivet", read)
    d, grip, rules = read.number(0), read.number(1), asked.shop.joint
    done = reckon_joint(JointSpec(JointKind.RIVET, (), size=d), rules, density_of("mild"), grip)
    lengths = by_rule(RIVET_RULES, lambda name: rivet_length(name, d, grip, rules.rivet_head))
    most, seam = hole_for_rivet(d), Figure("hole in a seam of sheet", d + asked.shop.sheet.rivet_clearance, "m")
    fills = Figure("to fill that hole", filling_length(d, most, grip), "m")
    at_most = ("hole, at most", say_down_both(most, asked.shop.style))
    rest = answered("Rivet", read, (fills, seam, *_heads(d)), asked.shop.style)
    rows = (*said(RIVET_RULES, lengths, rules.rivet, asked.shop), at_most, *rest.rows)
    figures = (*lengths, Figure("hole, at most", most, "m"), *rest.figures, *_sizes(d))
    return with_findings(Answer("Rivet", rows, read.findings, figures), (*done.findings, *loose_seam(most, seam.value)))


def _heads(d: float) -> tuple[Figure, ...]:
    """Shank that fills each head by volume, with nothing lost."""
    from bickern.parts.joint.heads import Head, head_length

    return tuple(Figure(f"head takes, {head}", head_length(head, d), "m") for head in Head)


def _sizes(d: float) -> tuple[Figure, ...]:
    from bickern.parts.joint.heads import Head, head_sizes

    sizes = [(head, *head_sizes(head, d)) for head in Head]
    across = (Figure(f"head across, {head}", wide, "m") for head, wide, _ in sizes)
    return (*across, *(Figure(f"head high, {head}", high, "m") for head, _, high in sizes))


BUNDLE = Word("bars", "the bundle, side by side: '1/2 sq' '1/2 sq'", many=True)

QUESTIONS = (
    Question(
        "collar",
        "Bar for a collar, by every published rule.",
        (Word("thick", "of the collar bar"), BUNDLE),
        collar,
        "1/8 '1/2 sq' '1/2 sq'",
    ),
    Question(
        "wrap",
        "Bar that is wound round a bundle.",
        (BAR, Word("turns", "how many times round"), BUNDLE),
        wrap,
        "'1/4 rd' 4 '1/2 sq' '1/2 sq'",
    ),
    Question(
        "tenon",
        "Length of a tenon past its shoulder, by every rule.",
        (
            Word("tenon", "its section: '3/8 rd', '1/4 x 1/2' ..."),
            Word("grip", "thickness of what it goes through"),
            Word("from", "the bar it is drawn from, to know how much of it that takes", ""),
        ),
        tenon,
        "'3/8 rd' 1/2 --from '3/4 sq'",
    ),
    Question(
        "rivet",
        "Length of a rivet past its head, its hole, and what each head takes.",
        (Word("across", "of the rivet"), Word("grip", "thickness that it holds together")),
        rivet,
        "1/4 1/2",
    ),
)
