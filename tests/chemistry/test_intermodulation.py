"""Products of carriers in bands."""

from __future__ import annotations

import itertools

import pytest

from service.chemistry.errors import OutOfRangeError
from service.chemistry.intermodulation import combinations_count, products_in_bands


def _by_hand(
    carriers: list[int], bands: list[tuple[int, int]], order: int, widths: list[int]
) -> set[tuple[tuple[int, ...], int]]:
    """Every combination, tried one by one, in hertz."""
    found = set()
    for k in itertools.product(range(-order, order + 1), repeat=len(carriers)):
        total = sum(map(abs, k))
        frequency = sum(a * f for a, f in zip(k, carriers, strict=True))
        reach = sum(abs(a) * w for a, w in zip(k, widths, strict=True)) / 2
        if 2 <= total <= order and frequency > 0:
            found |= {
                (k, index)
                for index, (low, high) in enumerate(bands)
                if frequency + reach >= low and frequency - reach <= high
            }
    return found


@pytest.mark.parametrize("order", [2, 3, 5, 7])
@pytest.mark.parametrize("widths", [(), (0.2, 5.0, 1.4)])
def test_the_list_is_the_same_as_trying_every_combination(order: int, widths: tuple[float, ...]) -> None:
    carriers, bands = [935.2, 947.5, 1842.6], [(890.0, 915.0), (1710.0, 1785.0), (0.0, 60.0)]
    products = products_in_bands(carriers, bands, order, widths)
    expected = _by_hand(
        [round(f * 1e6) for f in carriers],
        [(round(a * 1e6), round(b * 1e6)) for a, b in bands],
        order,
        [round(w * 1e6) for w in widths] or [0, 0, 0],
    )
    assert {(p.coefficients, p.band) for p in products} == expected
    assert len(products) == len(expected)


def test_third_order_products_of_two_carriers() -> None:
    products = products_in_bands([930.0, 955.0], [(900.0, 985.0)], 3)
    assert [(p.coefficients, p.frequency_Hz) for p in products] == [
        ((2, -1), 905_000_000),
        ((-1, 2), 980_000_000),
    ]
    assert not any(p.is_harmonic for p in products)


def test_harmonics_are_listed_and_marked() -> None:
    (product,) = products_in_bands([150.0], [(449.0, 451.0)], 3)
    assert product.is_harmonic
    assert (product.order, product.coefficients, product.frequency_Hz) == (3, (3,), 450_000_000)


def test_a_product_on_the_edge_of_a_band_is_inside_it() -> None:
    assert len(products_in_bands([100.0], [(200.0, 210.0)], 2)) == 1
    assert products_in_bands([100.0], [(200.000001, 210.0)], 2) == ()


def test_modulation_widens_a_product_by_its_coefficients() -> None:
    carriers, band = [930.0, 955.0], [(905.5, 906.0)]
    assert products_in_bands(carriers, band, 3) == ()
    (product,) = products_in_bands(carriers, band, 3, (0.4, 0.4))
    assert product.half_width_Hz == 600_000


def test_products_come_by_order_then_frequency() -> None:
    products = products_in_bands([11.0, 17.0, 29.0], [(0.0, 40.0), (20.0, 30.0)], 4)
    keys = [(p.order, p.frequency_Hz, p.band) for p in products]
    assert keys == sorted(keys)
    assert {p.band for p in products} == {0, 1}


@pytest.mark.parametrize(("carriers", "order"), [(1, 5), (2, 3), (3, 7), (5, 4)])
def test_combinations_are_counted_exactly(carriers: int, order: int) -> None:
    vectors = itertools.product(range(-order, order + 1), repeat=carriers)
    assert combinations_count(carriers, order) == sum(sum(map(abs, k)) <= order for k in vectors)


@pytest.mark.parametrize(
    ("carriers", "bands", "order", "widths", "quantity"),
    [
        ([], [(1.0, 2.0)], 3, (), "number of carriers"),
        ([float(i) for i in range(1, 18)], [(1.0, 2.0)], 3, (), "number of carriers"),
        ([0.0], [(1.0, 2.0)], 3, (), "carriers_MHz"),
        ([float("nan")], [(1.0, 2.0)], 3, (), "carriers_MHz"),
        ([2e6], [(1.0, 2.0)], 3, (), "carriers_MHz"),
        ([5.0, 5.0], [(1.0, 2.0)], 3, (), "carriers_MHz"),
        ([5.0], [], 3, (), "number of bands"),
        ([5.0], [(1.0, 2.0)] * 65, 3, (), "number of bands"),
        ([5.0], [(1.0, 2.0, 3.0)], 3, (), "bands_MHz"),
        ([5.0], [(2.0, 1.0)], 3, (), "bands_MHz"),
        ([5.0], [(-1.0, 1.0)], 3, (), "bands_MHz"),
        ([5.0], [(1.0, 2.0)], 1, (), "highest_order"),
        ([5.0], [(1.0, 2.0)], 16, (), "highest_order"),
        ([5.0, 6.0], [(1.0, 2.0)], 3, (0.1,), "bandwidths_MHz"),
        ([5.0], [(1.0, 2.0)], 3, (-0.1,), "bandwidths_MHz"),
        ([float(i) for i in range(1, 9)], [(1.0, 2.0)], 15, (), "combinations of carriers"),
        ([1.0, 1.1, 1.2, 1.3, 1.4], [(0.0, 100.0)], 11, (), "products found"),
    ],
)
def test_requests_without_meaning_or_bound_are_refused(
    carriers: list[float],
    bands: list[tuple[float, float]],
    order: int,
    widths: tuple[float, ...],
    quantity: str,
) -> None:
    with pytest.raises(OutOfRangeError) as caught:
        products_in_bands(carriers, bands, order, widths)
    assert caught.value.quantity == quantity
