"""Is injection the right repair? An answer with its reasons; the engineer decides."""

from collections.abc import Iterator
from dataclasses import dataclass

from app.trade.calculator import Input, Output, calculator
from app.trade.crack_width import GAUGE_WIDTH, width_limits

MOVEMENT = Input("movement", "", None, None, "choice", ("dormant", "moving"), says="is it moving?")
PATTERN = Input("pattern", "", None, None, "choice", ("isolated", "pattern"), says="one, or a net?")
STRENGTH = Input("strength_wanted", "", None, None, "flag", says="must it carry load again?")
WATER = Input("water", "", None, None, "choice", ("dry", "damp", "wet", "leaking"))
TEMPERATURE = Input("temperature_c", "c", -40, 60, says="of the member")
MEMBER = Input(
    *("member", "", None, None, "choice"),
    ("reinforced", "prestressed", "plain", "not-concrete"),
    says="what the member is made of",
)

INJECT = "inject"
REINFORCE = "inject-with-added-reinforcement"
SEAL = "seal-flexibly"
NOT_THIS = "not-by-this-method"

COLDEST_C = {"temperature-member-dafstb": 8.0, "temperature-lowest": 10.0}

ENGINEER = "The engineer decides. This is what the sources say, not a design."


@dataclass(frozen=True, slots=True)
class Reason:
    """One reason: what it speaks for, in plain words, with its source id.

    `weight` is "decides" when it settles the answer, "doubt" when a source disagrees or asks for
    more, "note" when it only explains.
    """

    weight: str
    says: str
    source: str


@dataclass(frozen=True, slots=True)
class RepairChoice:
    """What the sources lead to, and why. `has_doubts`: at least one source says otherwise."""

    choice: str  # inject | inject-with-added-reinforcement | seal-flexibly | not-by-this-method
    reasons: tuple[Reason, ...]
    has_doubts: bool
    who_decides: str


@dataclass(frozen=True, slots=True)
class _Crack:
    movement: str
    pattern: str
    strength_wanted: bool
    water: str
    width_mm: float
    temperature_c: float
    member: str


def repair_choice(
    movement: str,
    pattern: str,
    strength_wanted: bool,
    water: str,
    width_mm: float,
    temperature_c: float,
    member: str,
) -> RepairChoice:
    """What the published charts lead to for one crack, with every reason and doubt.

    Inputs:
        movement: dormant or moving
        pattern: isolated crack, or pattern cracking
        strength_wanted: must the crack carry load again, true or false
        water: dry, damp, wet, or leaking and not to be dried
        width_mm: gauge width, mm
        temperature_c: of the member, degrees C
        member: reinforced, prestressed, plain, or not-concrete
    Result:
        choice: RepairChoice(choice, reasons, has_doubts, who_decides)
    Errors: OutOfRange, NotAChoice
    Source: repair-choice-chart, moving-crack, leaking-crack, filler-classes, width-lowest-bonded,
        width-lowest-bonded-txdot, width-force-transmitting, width-resin-must-enter, width-precast,
        temperature-member-dafstb, temperature-lowest, member-plain, crack-faces-clean
    Example:
        >>> repair_choice("dormant", "isolated", True, "dry", 0.3, 18, "reinforced").choice
        'inject'
    """
    MOVEMENT.check_choice(movement)
    PATTERN.check_choice(pattern)
    WATER.check_choice(water)
    MEMBER.check_choice(member)
    STRENGTH.check_flag(strength_wanted)
    GAUGE_WIDTH.check(width_mm)
    TEMPERATURE.check(temperature_c)
    crack = _Crack(*(movement, pattern, strength_wanted, water), *(width_mm, temperature_c, member))
    choice, deciding = _by_the_chart(crack)
    further: tuple[Reason, ...] = ()
    if choice in (INJECT, REINFORCE):
        against = tuple(_against_resin(crack))
        further = tuple(_doubts(crack))
        choice, deciding = (NOT_THIS, against) if against else (choice, deciding)
    has_doubts = any(reason.weight == "doubt" for reason in further)
    return RepairChoice(choice, (*deciding, *further), has_doubts, ENGINEER)


def _by_the_chart(crack: _Crack) -> tuple[str, tuple[Reason, ...]]:
    """The answer from movement, pattern, strength and water alone."""
    if crack.member == "not-concrete":
        return NOT_THIS, (_decides("The sources here speak of concrete only.", "filler-classes"),)
    if crack.pattern == "pattern":
        words = "Injection is not listed for pattern cracking."
        return NOT_THIS, (_decides(words, "repair-choice-chart"),)
    if crack.movement == "moving":
        return _moving(crack.strength_wanted)
    if not crack.strength_wanted:
        return SEAL, _sealing(crack.water)
    if crack.water == "leaking":
        words = "A leak that cannot be dried is not for ordinary resin."
        return NOT_THIS, (_decides(words, "leaking-crack"),)
    if crack.water == "wet":
        words = "Dormant, isolated, strength wanted, wet: reinforcement is added to injection."
        return REINFORCE, (_decides(words, "repair-choice-chart"),)
    words = "Dormant, isolated, strength wanted, not wet: injection is the first choice."
    return INJECT, (_decides(words, "repair-choice-chart"),)


def _moving(strength_wanted: bool) -> tuple[str, tuple[Reason, ...]]:
    moves = _decides("A crack that moves comes back beside a rigid repair.", "moving-crack")
    if strength_wanted:
        return NOT_THIS, (moves,)
    return SEAL, (moves, _decides("A ductile filler lets it move.", "filler-classes"))


def _sealing(water: str) -> tuple[Reason, ...]:
    if water in ("wet", "leaking"):
        words = "No strength wanted and water about: seal flexibly."
        return (_decides(words, "repair-choice-chart"),)
    return (_decides("No strength wanted: a load-bearing filler is not asked.", "filler-classes"),)


def _against_resin(crack: _Crack) -> Iterator[Reason]:
    """What every source that speaks of it rules out."""
    limits = width_limits(crack.width_mm)
    if not limits.met:
        for limit in {limit.source: limit for limit in limits.limits}.values():
            yield _decides("Too narrow for every source.", limit.source)
    if crack.temperature_c < min(COLDEST_C.values()):
        for source in COLDEST_C:
            yield _decides("Too cold today. Warm the member or wait.", source)


def _doubts(crack: _Crack) -> Iterator[Reason]:
    """Where one source disagrees with another, or asks for more."""
    limits = width_limits(crack.width_mm)
    if limits.met:
        for limit in limits.unmet:
            yield Reason("doubt", f"{limit.says}: {limit.limit_mm} mm", limit.source)
    coldest = min(COLDEST_C.values())
    for source, least in COLDEST_C.items():
        if coldest <= crack.temperature_c < least:
            yield Reason("doubt", f"This source asks for {least:g} °C or warmer.", source)
    if crack.water in ("damp", "wet"):
        yield Reason(
            "doubt", "Damp cracks can be injected; water cuts the result.", "leaking-crack"
        )
    if crack.member == "prestressed":
        yield Reason("note", "This source speaks of prestressed members.", "width-precast")
    if crack.member == "plain":
        yield Reason("doubt", "No steel crosses the crack; bond alone carries.", "member-plain")
    yield Reason("note", "Crack faces must be free of what reduces bond.", "crack-faces-clean")


def _decides(says: str, source: str) -> Reason:
    return Reason("decides", says, source)


CALCULATORS = (
    calculator(
        repair_choice,
        "Is injection the right repair?",
        (MOVEMENT, PATTERN, STRENGTH, WATER, GAUGE_WIDTH, TEMPERATURE, MEMBER),
        tuple(Output(name, "") for name in ("choice", "reasons", "has_doubts", "who_decides")),
        (
            *("repair-choice-chart", "moving-crack", "leaking-crack", "filler-classes"),
            *("width-lowest-bonded", "width-lowest-bonded-txdot", "width-force-transmitting"),
            *("width-resin-must-enter", "width-precast", "temperature-member-dafstb"),
            *("temperature-lowest", "member-plain", "crack-faces-clean"),
        ),
    ),
)
