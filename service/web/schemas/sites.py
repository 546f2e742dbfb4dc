"""What a place does to metals by itself."""

from __future__ import annotations

from typing import Annotated

from service.chemistry.indoor import FilmMetal, IndoorMetal
from service.web.schemas.exposures import EnvironmentField
from service.web.schemas.fields import LOOSE, BodySchema, Schema, described, nested
from service.web.schemas.pages import RELEASE_EXAMPLE, ReleaseIdentity

MOST_COUPONS = 100


class WeighedCoupon(BodySchema):
    """A coupon that was weighed before and after."""

    metal: Annotated[IndoorMetal, LOOSE] = described("Reference metal of ISO 11844-1.", "copper")
    loss_mg_per_m2_per_year: float = described("Loss of mass in a year.", 120.0, ge=0, le=1e7)


class FilmedCoupon(BodySchema):
    """A coupon whose corrosion film was measured."""

    metal: Annotated[FilmMetal, LOOSE] = described("Reference metal of ANSI/ISA-71.04.", "silver")
    film_angstrom: float = described("Thickness of the film.", 400.0, ge=0, le=1e6)
    exposure_days: float = described("Length of the exposure; far from 30 it misleads.", 30.0, ge=1, le=400)


class SiteRequest(BodySchema):
    """A place, and what coupons showed there."""

    environment: EnvironmentField = described("The place.", "marine-atmosphere-0-100-m")
    period_years: float = described("Time over which losses are given.", 20.0, 10.0, gt=0, le=200)
    weighed: Annotated[tuple[WeighedCoupon, ...], LOOSE] = described(
        "Coupons that were weighed.", None, (), max_length=MOST_COUPONS
    )
    filmed: Annotated[tuple[FilmedCoupon, ...], LOOSE] = described(
        "Coupons whose film was measured.", None, (), max_length=MOST_COUPONS
    )
    as_of: str | None = described(
        "Label of the release to read; the current one if absent.", "2026.11.25-1", None, max_length=64
    )


class LossRange(Schema):
    """A loss with its 95 % range."""

    median: float = described("Median.", 2.33)
    low: float = described("Lower end.", 1.55)
    high: float = described("Upper end.", 3.49)


class StandardMetalLoss(Schema):
    """What a standard metal loses in open air."""

    metal: str = described("Standard metal of ISO 9223.", "zinc")
    first_year_um: LossRange = nested("Loss in the first year.")
    category: str = described("Category of ISO 9223, of this metal alone.", "C4")
    basis: str = described("How the first year was found.", "ISO 9223 dose-response function")
    loss_um: float = described("Loss over the years, mean exponent of ISO 9224.", 26.6)
    conservative_loss_um: float = described("The same with its conservative exponent.", 31.8)
    outside: tuple[str, ...] = described("Inputs outside the intervals that were fitted.", [])


class SiteWetness(Schema):
    """Time of wetness as ISO 9223 defines it."""

    hours_per_year: float = described("Hours above 80 % humidity and 0 °C.", 4590.0)
    wetness_class: str = described("Class tau1 to tau5.", "tau4")


class SiteFilm(Schema):
    """One state of the electrolyte in the year."""

    name: str = described("State.", "deliquesced")
    hours_per_year: float = described("Hours of the year.", 4270.0)
    thickness_um: float | None = described("Thickness of the film; null for a bulk.", 9.6)
    conductivity_S_per_m: float = described("Conductivity.", 13.5)
    temperature_C: float = described("Temperature.", 13.0)


class SiteWater(Schema):
    """What the conductivity of a water says."""

    salinity_g_per_kg: float = described("Salt, were it all sea salt.", 34.8)
    saturated_oxygen_mg_per_L: float = described("Oxygen of air-saturated water.", 8.15)


class RoomBand(Schema):
    """What an indoor class says of one metal."""

    metal: str = described("Reference metal.", "copper")
    low: float = described("Lower end.", 0.00558)
    typical: float = described("Geometric mean of the ends.", 0.0112)
    high: float = described("Upper end.", 0.0223)
    is_low_assumed: bool = described("Whether the standard leaves the lower end open.", example=False)
    is_high_assumed: bool = described("Whether the standard leaves the upper end open.", example=False)


class CouponResult(Schema):
    """Where one coupon stands."""

    metal: str = described("Reference metal.", "copper")
    result: str = described("Class of ISO 11844-1 or level of ANSI/ISA-71.04.", "IC2")


class SiteAnswer(Schema):
    """A place by itself; empty where a standard does not apply there."""

    release: ReleaseIdentity = described("Release that knows the place.", RELEASE_EXAMPLE)
    environment: str = described("Name of the place.", "Open air, sea front, 0-100 m from the surf")
    period_years: float = described("Time over which losses are given.", 20.0)
    kinetics_abstain: str = described("Why couples are not computed here; empty where they are.", "")
    metals: tuple[StandardMetalLoss, ...] = nested("Losses of the standard metals in open air.")
    wetness: SiteWetness | None = nested("Time of wetness in open air.")
    films: tuple[SiteFilm, ...] = nested("States of the electrolyte that couples are computed in.")
    water: SiteWater | None = nested("The water that metals lie under, within the range of TEOS-10.")
    indoor_um_per_year: tuple[RoomBand, ...] = nested("Losses that the class of ISO 11844-1 stands for.")
    film_nm_per_year: tuple[RoomBand, ...] = nested("Films that the level of ANSI/ISA-71.04 stands for.")
    weighed: tuple[CouponResult, ...] = nested("Class of each weighed coupon.")
    filmed: tuple[CouponResult, ...] = nested("Level of each coupon with a film.")
    references: tuple[str, ...] = described("Where the methods stand.", ["ISO 9223:2012, Eq. (1) to (4)"])
