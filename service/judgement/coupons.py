"""What exposed coupons say of the air of a room."""

from __future__ import annotations

from service.chemistry.indoor import (
    INDOOR_CLASSES,
    SEVERITY_LEVELS,
    FilmMetal,
    IndoorMetal,
    film_growth_per_30_days,
    indoor_class,
    severity_level,
)


def class_of(metal: IndoorMetal, loss_mg_per_m2_y: float) -> str:
    """Class of ISO 11844-1 that a weighed coupon shows, of its own metal.

    Parameters
    ----------
    metal : IndoorMetal
    loss_mg_per_m2_y : float
        Loss of mass in a year [mg/(m2 y)].

    Returns
    -------
    str
        ``IC1`` to ``IC5``, or ``above IC5``.
    """
    index = int(indoor_class(metal, loss_mg_per_m2_y))
    return INDOOR_CLASSES[index] if index < len(INDOOR_CLASSES) else f"above {INDOOR_CLASSES[-1]}"


def level_of(metal: FilmMetal, film_angstrom: float, days: float) -> str:
    """Severity level of ANSI/ISA-71.04-2013 that a coupon shows, its film brought to thirty days.

    Parameters
    ----------
    metal : FilmMetal
    film_angstrom : float
        Thickness of the film [angstrom].
    days : float
        Length of the exposure [d].

    Returns
    -------
    str
        ``G1``, ``G2``, ``G3`` or ``GX``; the level of a room is the worse of copper and silver.
    """
    film = float(film_growth_per_30_days(film_angstrom, days))
    films = {each: film if each is metal else 0.0 for each in FilmMetal}
    return SEVERITY_LEVELS[int(severity_level(films[FilmMetal.COPPER], films[FilmMetal.SILVER]))]
