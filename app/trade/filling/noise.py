"""The seeded roughness of a crack: the same numbers from the same seed on any machine.

Only the raw bits of PCG64 are used, which numpy keeps stable from version to version (its
compatibility policy, NEP 19, promises that for bit generators, not for distributions). The rest is
additions and multiplications in a fixed order.
"""

import numpy as np
from numpy.random import PCG64

from app.trade.filling.arrays import Array
from app.trade.filling.parts import Roughness


def width_factors(roughness: Roughness, strip: int, along_m: Array, deep_m: Array) -> Array:
    """1 + share × noise at every crossing of along_m and deep_m; each strip has its own noise."""
    across = int(along_m[-1] / roughness.patch_m) + 2
    down = int(deep_m[-1] / roughness.patch_m) + 2
    bits = PCG64([roughness.seed, strip]).random_raw(across * down)
    # The top 53 bits as a fraction of 1, then from -1 to 1.
    nodes = (bits >> np.uint64(11)).astype(np.float64).reshape(across, down) * 2.0**-52 - 1
    i, u = _cell(along_m / roughness.patch_m)
    j, v = _cell(deep_m / roughness.patch_m)
    near = nodes[i][:, j] * (1 - v) + nodes[i][:, j + 1] * v
    far = nodes[i + 1][:, j] * (1 - v) + nodes[i + 1][:, j + 1] * v
    factors: Array = 1 + roughness.share * (near * (1 - u)[:, None] + far * u[:, None])
    return factors


def _cell(place: Array) -> tuple[np.ndarray, Array]:
    whole = np.floor(place).astype(np.intp)
    return whole, place - whole
