"""The arrays of the model. Each has one row for a column of cells and one entry for each depth."""

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]
Index = NDArray[np.intp]


@dataclass(frozen=True, slots=True)
class Faces:
    """Faces between cells a and b: `values[a]` and `values[b]` give what lies on either side.

    No cell stands twice in a, nor in b, so `values[a] += …` is safe. b comes `offset` places after
    a in the order of the unknowns. conductance: m³, flow × viscosity / pressure. lift_m: height of
    a over b.
    """

    a: Any
    b: Any
    offset: int
    conductance: Array
    lift_m: Array
