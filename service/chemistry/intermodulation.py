"""Which intermodulation products of stated carriers fall into stated receive bands.

Frequencies are whole hertz, so that the answer is exact. Nothing is said of the level of a product: that
depends on how a joint is made and ages, and has to be measured.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from service.chemistry.arrays import IntArray
from service.chemistry.requirements import require

HERTZ_PER_MHZ = 1_000_000
LOWEST_ORDER = 2
LARGEST_ORDER = 15
LARGEST_CARRIERS = 16
LARGEST_BANDS = 64
LARGEST_FREQUENCY_MHZ = 1_000_000.0
LARGEST_COMBINATIONS = 400_000
LARGEST_PRODUCTS = 20_000


@dataclass(frozen=True, slots=True)
class Product:
    """A combination of carriers that reaches a band.

    ``coefficients`` multiply the carriers in the order given; ``half_width_Hz`` is how far modulated
    carriers spread it to either side; ``band`` is the place of the band in the order given.
    """

    order: int
    coefficients: tuple[int, ...]
    frequency_Hz: int
    half_width_Hz: int
    band: int

    @property
    def is_harmonic(self) -> bool:
        """Whether one carrier alone makes it."""
        return sum(k != 0 for k in self.coefficients) == 1


def combinations_count(carriers: int, highest_order: int) -> int:
    r"""Count the combinations of order 0 to N: :math:`\sum_j 2^j \binom{n}{j} \binom{N}{j}`.

    Parameters
    ----------
    carriers : int
        Number of carriers [-].
    highest_order : int
        Highest order [-].

    Returns
    -------
    int
        Number of coefficient vectors [-].

    Examples
    --------
    >>> combinations_count(2, 3)
    25

    References
    ----------
    Lattice points of a cross-polytope.
    """
    shared = range(min(carriers, highest_order) + 1)
    return sum(2**j * math.comb(carriers, j) * math.comb(highest_order, j) for j in shared)


def products_in_bands(
    carriers_MHz: Sequence[float],
    bands_MHz: Sequence[tuple[float, float]],
    highest_order: int = 7,
    bandwidths_MHz: Sequence[float] = (),
) -> tuple[Product, ...]:
    r"""List every product up to an order that touches a band.

    A product is :math:`f = \sum_i k_i f_i > 0` of the order :math:`\sum_i |k_i|`, from 2 upwards, harmonics
    included; carriers of bandwidth :math:`b_i` spread it by :math:`\sum_i |k_i| b_i / 2` to either side.

    Parameters
    ----------
    carriers_MHz : sequence of float
        Transmit frequencies, positive, all different, 1 to 16 of them [MHz].
    bands_MHz : sequence of (float, float)
        Lower and upper edge of each receive band, both included, up to 64 of them [MHz].
    highest_order : int
        Highest order, 2 to 15 [-].
    bandwidths_MHz : sequence of float
        Occupied bandwidth of each carrier; none for unmodulated carriers [MHz].

    Returns
    -------
    tuple of Product
        By order, then frequency, then band.

    Raises
    ------
    OutOfRangeError
        For inputs outside the stated bounds, more than 400,000 combinations, or more than 20,000 products.

    Notes
    -----
    Frequencies are rounded to 1 Hz. No level is claimed, and a band free of listed products says nothing of
    products of higher order. Odd orders near the carriers are the ones usually met.

    Examples
    --------
    >>> [(p.coefficients, p.frequency_Hz) for p in products_in_bands([935.0, 960.0], [(905.0, 915.0)], 3)]
    [((2, -1), 910000000)]

    References
    ----------
    Definition of intermodulation products; IEC 62037-1 for their measurement (from memory).
    """
    carriers = _carriers_hz(carriers_MHz)
    widths = _bandwidths_hz(bandwidths_MHz, len(carriers))
    bands = _bands_hz(bands_MHz)
    require(LOWEST_ORDER <= highest_order <= LARGEST_ORDER, "highest_order", f"2 to {LARGEST_ORDER}")
    count = combinations_count(len(carriers), highest_order)
    require(count <= LARGEST_COMBINATIONS, "combinations of carriers", f"at most {LARGEST_COMBINATIONS:,}")
    coefficients = _coefficients(len(carriers), highest_order)
    frequencies = coefficients @ carriers
    orders = np.abs(coefficients).sum(axis=1)
    half_widths = -(-(np.abs(coefficients) @ widths) // 2)
    is_product = (frequencies > 0) & (orders >= LOWEST_ORDER)
    found: list[Product] = []
    for band, (low, high) in enumerate(bands):
        hits = np.flatnonzero(
            is_product & (frequencies + half_widths >= low) & (frequencies - half_widths <= high)
        )
        require(len(found) + len(hits) <= LARGEST_PRODUCTS, "products found", f"at most {LARGEST_PRODUCTS:,}")
        found.extend(
            Product(
                int(orders[i]),
                tuple(int(k) for k in coefficients[i]),
                int(frequencies[i]),
                int(half_widths[i]),
                band,
            )
            for i in hits
        )
    return tuple(sorted(found, key=lambda p: (p.order, p.frequency_Hz, p.band, p.coefficients)))


def _coefficients(carriers: int, highest_order: int) -> IntArray:
    """Every vector of whole numbers whose magnitudes add up to at most the order, one in a row."""
    rows = np.zeros((1, 0), dtype=np.int64)
    used = np.zeros(1, dtype=np.int64)
    steps = np.arange(-highest_order, highest_order + 1)
    for _ in range(carriers):
        total = used[:, None] + np.abs(steps)[None, :]
        parents, choices = np.nonzero(total <= highest_order)
        rows = np.column_stack((rows[parents], steps[choices]))
        used = total[parents, choices]
    return rows


def _carriers_hz(carriers_MHz: Sequence[float]) -> IntArray:
    require(1 <= len(carriers_MHz) <= LARGEST_CARRIERS, "number of carriers", f"1 to {LARGEST_CARRIERS}")
    values = np.asarray(carriers_MHz, dtype=np.float64)
    require(
        (values > 0.0) & (values <= LARGEST_FREQUENCY_MHZ), "carriers_MHz", "above 0 and at most 1,000,000"
    )
    carriers = np.rint(values * HERTZ_PER_MHZ).astype(np.int64)
    require(len(np.unique(carriers)) == len(carriers), "carriers_MHz", "all different")
    return carriers


def _bandwidths_hz(bandwidths_MHz: Sequence[float], carriers: int) -> IntArray:
    if len(bandwidths_MHz) == 0:
        return np.zeros(carriers, dtype=np.int64)
    require(len(bandwidths_MHz) == carriers, "bandwidths_MHz", "one for each carrier")
    values = np.asarray(bandwidths_MHz, dtype=np.float64)
    require((values >= 0.0) & (values <= LARGEST_FREQUENCY_MHZ), "bandwidths_MHz", "0 to 1,000,000")
    return np.rint(values * HERTZ_PER_MHZ).astype(np.int64)


def _bands_hz(bands_MHz: Sequence[tuple[float, float]]) -> list[tuple[int, int]]:
    require(1 <= len(bands_MHz) <= LARGEST_BANDS, "number of bands", f"1 to {LARGEST_BANDS}")
    edges = np.asarray(bands_MHz, dtype=np.float64)
    require(edges.shape == (len(bands_MHz), 2), "bands_MHz", "pairs of a lower and an upper edge")
    require((edges >= 0.0) & (edges <= LARGEST_FREQUENCY_MHZ), "bands_MHz", "0 to 1,000,000")
    require(edges[:, 0] <= edges[:, 1], "bands_MHz", "in the order lower, upper")
    return [(int(low), int(high)) for low, high in np.rint(edges * HERTZ_PER_MHZ).astype(np.int64)]
