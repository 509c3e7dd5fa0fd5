"""Set cracks 1 to 6: the order of work, and what turns up on the way."""

from dataclasses import replace

from app.trade.filling.parts import Branch, Pinhole, Port, WidthAt, pinhole_conductance
from app.trade.filling.set_crack import PLAIN, SetCrack, even, ports_every, rough

EASIER = (
    SetCrack(
        "plain-vertical",
        1,
        "A plain crack up a wall",
        "Lowest port first. Pump until resin shows at the port above, shut, cap, move up.",
        PLAIN,
        (0.97, 1.0),
    ),
    SetCrack(
        "horizontal",
        2,
        "A level crack",
        "From one end to the other. Air can only leave ahead of the resin.",
        replace(PLAIN, orientation="horizontal", roughness=rough(12)),
        (0.97, 1.0),
    ),
    SetCrack(
        "overhead",
        3,
        "A crack on the underside of a slab",
        "Worked as a level crack. Resin has to climb into the depth, and it runs back out of any "
        "port that is left open.",
        replace(
            PLAIN,
            orientation="overhead",
            depth_m=0.15,
            ports=ports_every(1.5, 0.1875),
            roughness=rough(13),
        ),
        (0.97, 1.0),
    ),
    SetCrack(
        "tapering",
        4,
        "A crack that narrows upwards",
        "At half the width resin takes four times as long. Where it gets narrow, wait; more "
        "pressure is the wrong first answer.",
        replace(
            PLAIN,
            widths=(WidthAt(0, 0.4e-3), WidthAt(1.5, 0.1e-3)),
            roughness=rough(14),
        ),
        (0.97, 1.0),
    ),
    SetCrack(
        "pinhole-leak",
        5,
        "A hole left in the seal",
        "When resin shows where it should not: shut, let the pressure down, seal, wait until it "
        "holds, go on. Meanwhile the resin ages.",
        replace(
            PLAIN,
            pinholes=(Pinhole(0.62, pinhole_conductance(0.0015, 0.002)),),
            roughness=rough(15),
        ),
        (0.97, 1.0),
    ),
    SetCrack(
        "branch-with-island",
        6,
        "A branch, and a strand around an island",
        "A port at every end and junction, and close ports around the island, or a piece stays "
        "empty. Cap what shows early and come back to it.",
        replace(
            PLAIN,
            length_m=1.2,
            ports=(
                *ports_every(1.2, 0.2),
                *(Port(0.15, 1), Port(0.3, 1)),
                *(Port(0.12, 2), Port(0.28, 2)),
            ),
            branches=(
                Branch(0.8, 0.3, even(0.25), rise=0.6),
                Branch(0.25, 0.4, even(0.2), rejoins_m=0.55),
            ),
            roughness=rough(16),
            columns=60,
            rows=14,
        ),
        (0.97, 1.0),
    ),
)
