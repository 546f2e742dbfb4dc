"""Figures of a place as networks and charts report them, turned into those that are judged by."""

from __future__ import annotations

import math
from dataclasses import dataclass

from service.chemistry.deposition import so2_deposition_mg_per_m2_d, wet_candle_chloride_mg_per_m2_d
from service.chemistry.electrolyte import SEA_WATER_RANGE_C, sea_water_conductivity
from service.chemistry.errors import OutOfRangeError
from service.chemistry.rain import rain_hours_per_year
from service.chemistry.rounding import three_significant


@dataclass(frozen=True, slots=True)
class Reported:
    """What may be reported in place of a figure of ``Environment``; ``None`` where it is not."""

    so2_ug_per_m3: float | None = None
    chloride_dry_plate_mg_per_m2_d: float | None = None
    precipitation_mm_per_year: float | None = None
    salinity_g_per_kg: float | None = None

    def figures(self, temperature_C: float) -> dict[str, float]:
        """Return fields of ``Environment``, of three significant figures.

        Parameters
        ----------
        temperature_C : float
            Temperature of the water, for its conductivity [degC].

        Returns
        -------
        dict of str to float
            Depositions [mg/(m2 d)], hours of rain [h/y] and conductivity [S/m].

        Raises
        ------
        OutOfRangeError
            If TEOS-10 gives no conductivity at this temperature.
        """
        found: dict[str, float] = {}
        if self.so2_ug_per_m3 is not None:
            found["so2_mg_per_m2_d"] = float(so2_deposition_mg_per_m2_d(self.so2_ug_per_m3))
        if self.chloride_dry_plate_mg_per_m2_d is not None:
            plate = self.chloride_dry_plate_mg_per_m2_d
            found["chloride_mg_per_m2_d"] = float(wet_candle_chloride_mg_per_m2_d(plate))
        if self.precipitation_mm_per_year is not None:
            found["hours_rain_per_year"] = float(rain_hours_per_year(self.precipitation_mm_per_year))
        if self.salinity_g_per_kg is not None:
            found["conductivity_S_per_m"] = _conductivity(temperature_C, self.salinity_g_per_kg)
        return {name: float(three_significant(value)) for name, value in found.items()}


REPLACES = {
    "so2_ug_per_m3": "so2_mg_per_m2_d",
    "chloride_dry_plate_mg_per_m2_d": "chloride_mg_per_m2_d",
    "precipitation_mm_per_year": "hours_rain_per_year",
    "salinity_g_per_kg": "conductivity_S_per_m",
}
"""Field of ``Environment`` that each reported figure stands for."""


def _conductivity(temperature_C: float, salinity_g_per_kg: float) -> float:
    conductivity = float(sea_water_conductivity(temperature_C, salinity_g_per_kg))
    if math.isnan(conductivity):
        coldest, warmest = SEA_WATER_RANGE_C
        raise OutOfRangeError("temperature_C", f"from {coldest:g} to {warmest:g} where salt is given")
    return conductivity
