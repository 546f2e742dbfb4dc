"""What exposed coupons say of the air of a room."""

from __future__ import annotations

from dataclasses import dataclass

from service.chemistry.indoor import (
    INDOOR_CLASSES,
    SEVERITY_LEVELS,
    FilmMetal,
    IndoorMetal,
    film_growth_per_30_days,
    indoor_class,
    severity_level,
)


@dataclass(frozen=True, slots=True)
class LossCoupon:
    """A coupon that was weighed: loss of mass in a year [mg/(m2 y)]."""

    metal: IndoorMetal
    loss_mg_per_m2_y: float


@dataclass(frozen=True, slots=True)
class FilmCoupon:
    """A coupon whose film was measured [angstrom] after some days."""

    metal: FilmMetal
    film_angstrom: float
    days: float


def class_of(coupon: LossCoupon) -> str:
    """Class of ISO 11844-1 that a coupon shows, of its own metal.

    Parameters
    ----------
    coupon : LossCoupon

    Returns
    -------
    str
        ``IC1`` to ``IC5``, or ``above IC5``.
    """
    index = int(indoor_class(coupon.metal, coupon.loss_mg_per_m2_y))
    return INDOOR_CLASSES[index] if index < len(INDOOR_CLASSES) else f"above {INDOOR_CLASSES[-1]}"


def level_of(coupon: FilmCoupon) -> str:
    """Severity level of ANSI/ISA-71.04-2013 that a coupon shows, its film brought to thirty days.

    Parameters
    ----------
    coupon : FilmCoupon

    Returns
    -------
    str
        ``G1``, ``G2``, ``G3`` or ``GX``; the level of a room is the worse of copper and silver.
    """
    film = float(film_growth_per_30_days(coupon.film_angstrom, coupon.days))
    films = {metal: film if metal is coupon.metal else 0.0 for metal in FilmMetal}
    return SEVERITY_LEVELS[int(severity_level(films[FilmMetal.COPPER], films[FilmMetal.SILVER]))]
