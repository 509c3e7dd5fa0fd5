"""One moment in one part of the crack: all that the flows depend on."""

from dataclasses import dataclass, replace

from app.trade.filling.air import Air, find_air
from app.trade.filling.inside import Inside, Setting
from app.trade.filling.plane import Plane


@dataclass(frozen=True, slots=True)
class Moment:
    """The cells, what is in them, how they are joined to the outside, and the air among them.

    `inside` is shared with whoever made the moment: what changes there changes here.
    """

    plane: Plane
    inside: Inside
    setting: Setting
    air: Air

    def part(self, plane: Plane, window: tuple[int, int]) -> "Moment":
        """Some columns of it; `plane` is that part of the plane."""
        return Moment(
            *(plane, self.inside.part(*window)),
            *(self.setting.part(*window), self.air.part(*window)),
        )

    def with_other_openings(self, setting: Setting) -> "Moment":
        """After cells at openings were opened or shut: the air is looked for again.

        Air that reached beyond this part was open to the outside there; it still is.
        """
        was_open = (self.air.numbers > 0) & ~self.air.trapped_cells
        air = find_air(self.plane, self.inside, setting.is_vent | was_open)
        return replace(self, setting=setting, air=air)
