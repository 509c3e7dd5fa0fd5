"""Set cracks 7 to 12: where following the order is not enough."""

from dataclasses import replace

from app.trade.filling.parts import Back
from app.trade.filling.set_crack import PLAIN, SetCrack, even, ports_every, resin, rough

HARDER = (
    SetCrack(
        "back-not-sealed",
        7,
        "A back that is open for a stretch",
        "Resin shows late and the count of resin used climbs past the crack's volume. Seal the "
        "back or agree on a thicker resin before going on.",
        replace(PLAIN, back=Back("open", from_m=0.55, to_m=0.8), roughness=rough(17)),
        (0.9, 1.0),
    ),
    SetCrack(
        "deep-with-close-ports",
        8,
        "A deep crack with ports close together",
        "Ports closer than the depth: resin at the next port proves little about the back. Stay "
        "longer on each port, as the engineer says.",
        replace(
            PLAIN,
            length_m=1.2,
            depth_m=0.45,
            ports=ports_every(1.2, 0.15),
            roughness=rough(18),
            columns=64,
            rows=24,
        ),
        (0.7, 0.78),
    ),
    SetCrack(
        "too-cold",
        9,
        "A cold wall in winter",
        "Cold resin is thick: it gets less far in the same time, though it gels later. Below the "
        "limit of the data sheet, do not start.",
        replace(
            PLAIN,
            widths=even(0.2),
            resin=resin(2.0, temperature_c=5),
            roughness=rough(19),
        ),
        (0.97, 1.0),
    ),
    SetCrack(
        "too-narrow",
        10,
        "A crack too narrow for its ports",
        "Nothing shows at the next port before the resin is thick. Closer ports, a thinner resin: "
        "for the engineer to say. Pumping harder is not the answer.",
        replace(PLAIN, widths=even(0.06), roughness=rough(20)),
        (0.4, 0.48),
    ),
    SetCrack(
        "nearly-gelled",
        11,
        "A batch that is nearly too old",
        "With minutes left, resin will not reach the top. Mix fresh before starting; do not start "
        "what cannot be finished.",
        replace(PLAIN, widths=even(0.2), resin=resin(age_min=42), roughness=rough(21)),
        (0.43, 0.52),
    ),
    SetCrack(
        "wrong-viscosity",
        12,
        "The wrong resin for the width",
        "A thick resin, right for a wide crack, in a fine one. Every sign is that of a crack too "
        "narrow; only the label tells.",
        replace(PLAIN, widths=even(0.15), resin=resin(5.0), roughness=rough(22)),
        (0.15, 0.23),
    ),
)
