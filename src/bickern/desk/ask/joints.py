"""Questions about rivets and collars."""

from bickern.desk.answer import Answer, gathered, unread, with_findings
from bickern.desk.ask.answered import answered
from bickern.desk.ask.question import Asked, Question, Word, read_bar, with_metal
from bickern.desk.ask.rules import by_rule, said
from bickern.iron.section import Section
from bickern.iron.steel import density_of
from bickern.measure.figure import Figure
from bickern.measure.units.say import say_both
from bickern.measure.units.words import Shape


def collar(asked: Asked) -> Answer:
    """Bar for a collar of thickness `thick` round bars that lie side by side, by every published rule."""
    from bickern.parts.joint.bundle import bundle_girth
    from bickern.parts.joint.reckon import reckon_joint
    from bickern.parts.joint.rules import COLLAR_RULES, collar_length
    from bickern.parts.joint.spec import JointKind, JointSpec

    bars = [with_metal(read_bar(b, asked.system)) for b in asked.many("bars")]
    read = gathered(asked.size("thick"), *bars)
    if not read.ok or not bars:
        return unread("Collar", read)
    thick = read.number(0)
    round_all = bundle_girth([b for b in read.values if isinstance(b, Section)])
    spec = JointSpec(JointKind.COLLAR, (), section=Section(Shape.SQUARE, thick, thick))
    done = reckon_joint(spec, asked.shop.joint, density_of("mild"), None, round_all)
    lengths = by_rule(COLLAR_RULES, lambda name: collar_length(name, round_all, thick))
    rows = (
        ("round the bundle", say_both(round_all, asked.shop.style)),
        *said(lengths, asked.shop.joint.collar, asked.shop),
    )
    answer = Answer("Collar", rows, read.findings, (Figure("round the bundle", round_all, "m"), *lengths))
    return with_findings(answer, done.findings)


def rivet(asked: Asked) -> Answer:
    """Length of a rivet past its own head, by every published rule, the hole for it, and what each head takes."""
    from bickern.parts.joint.reckon import reckon_joint
    from bickern.parts.joint.rules import RIVET_RULES, rivet_length
    from bickern.parts.joint.spec import JointKind, JointSpec

    read = gathered(asked.size("across"), asked.length("grip"))
    if not read.ok:
        return unread("Rivet", read)
    d, grip, rules = read.number(0), read.number(1), asked.shop.joint
    done = reckon_joint(JointSpec(JointKind.RIVET, (), size=d), rules, density_of("mild"), grip)
    lengths = by_rule(RIVET_RULES, lambda name: rivet_length(name, d, grip, rules.rivet_head))
    rest = answered("Rivet", read, (*_hole(d, grip), *_heads(d)), asked.shop.style)
    rows = (*said(lengths, rules.rivet, asked.shop), *rest.rows)
    return with_findings(Answer("Rivet", rows, read.findings, (*lengths, *rest.figures, *_sizes(d))), done.findings)


def _hole(d: float, grip: float) -> tuple[Figure, ...]:
    from bickern.parts.joint.heads import filling_length
    from bickern.parts.joint.holes import hole_for_rivet

    most = hole_for_rivet(d)
    return Figure("hole, at most", most, "m"), Figure("to fill that hole", filling_length(d, most, grip), "m")


def _heads(d: float) -> tuple[Figure, ...]:
    """Shank that fills each head by volume, with nothing lost."""
    from bickern.parts.joint.heads import Head, head_length

    return tuple(Figure(f"head takes, {head}", head_length(head, d), "m") for head in Head)


def _sizes(d: float) -> tuple[Figure, ...]:
    from bickern.parts.joint.heads import Head, head_sizes

    sizes = [(head, *head_sizes(head, d)) for head in Head]
    across = (Figure(f"head across, {head}", wide, "m") for head, wide, _ in sizes)
    return (*across, *(Figure(f"head high, {head}", high, "m") for head, _, high in sizes))


QUESTIONS = (
    Question(
        "collar",
        "Bar for a collar, by every published rule.",
        (Word("thick", "of the collar bar"), Word("bars", "the bundle, side by side: '1/2 sq' '1/2 sq'", many=True)),
        collar,
        "1/8 '1/2 sq' '1/2 sq'",
    ),
    Question(
        "rivet",
        "Length of a rivet past its head, its hole, and what each head takes.",
        (Word("across", "of the rivet"), Word("grip", "thickness that it holds together")),
        rivet,
        "1/4 1/2",
    ),
)
