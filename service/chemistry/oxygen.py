"""Supply of oxygen to a cathode: how much dissolves, how fast it diffuses, what current it feeds."""

from __future__ import annotations

import numpy as np

from service.chemistry.arrays import FloatArray, FloatLike
from service.chemistry.constants import FARADAY, ZERO_CELSIUS

STAGNANT_LAYER = 500e-6
"""Diffusion layer of natural convection [m]; 200 to 800 um (from memory)."""

TRANSFER_LAYER = 16e-6
"""Transfer from gas to liquid, as a layer of water [m]; counts under films only."""

THINNEST_FILM = 5e-6
"""Below this film thickness no limiting current is predicted [m]: salt saturates, products fill the
film and the diffusion picture fails (measurements leave it at about 20 um: C. L. Alexander et al.,
J. Electrochem. Soc. 165 (2018) C869, abstract read)."""

REFERENCE_BORE = 0.05
"""Passage whose turbulent mass transfer stands for flowing water where none is known [m]; the current
goes with its power -0.14."""

_ELECTRONS = 4.0
_SOLUBILITY = (5.80871, 3.20291, 4.17887, 5.10006, -9.86643e-2, 3.80369)
_SALTING_OUT = (-7.01577e-3, -7.70028e-3, -1.13864e-2, -9.51519e-3)
_SALTING_OUT_SQUARE = -2.75915e-7
_FITTED_SALINITY = 42.0
_PROTON_DIFFUSIVITY = 9.3e-9


def oxygen_diffusivity(temperature_C: FloatLike, salinity_g_per_kg: FloatLike = 0.0) -> FloatArray:
    r"""Diffusivity of oxygen in water and brine.

    :math:`\log_{10} D_0 = -4.410 + 773.8/T - (506.4/T)^2` (cm2/s), divided by the viscosity of the
    brine against that of water, :math:`1 + 1.15\cdot10^{-3} S + 1.01\cdot10^{-5} S^2`.

    Parameters
    ----------
    temperature_C : float or ndarray
        Temperature [degC], 0 to 60.
    salinity_g_per_kg : float or ndarray
        Dissolved salt, as sodium chloride or sea salt [g/kg], 0 to 263.

    Returns
    -------
    ndarray
        Diffusivity [m2/s].

    Notes
    -----
    Sources differ by 20 % at 25 degC (1.9 to 2.4e-9 m2/s). The viscosity term is fitted to 0.95 in
    sea water and one half in saturated brine, both from memory.

    Examples
    --------
    >>> float(f"{oxygen_diffusivity(25.0):.4g}")
    1.998e-09

    References
    ----------
    P. Han, D. M. Bartels, J. Phys. Chem. 100 (1996) 5597, doi 10.1021/jp952903y (coefficients from
    memory).
    """
    kelvin = np.asarray(temperature_C, dtype=np.float64) + ZERO_CELSIUS
    salinity = np.asarray(salinity_g_per_kg, dtype=np.float64)
    pure = 1e-4 * 10.0 ** (-4.410 + 773.8 / kelvin - (506.4 / kelvin) ** 2)
    return np.asarray(pure / (1.0 + 1.15e-3 * salinity + 1.01e-5 * salinity**2))


def oxygen_solubility(temperature_C: FloatLike, salinity_g_per_kg: FloatLike = 0.0) -> FloatArray:
    r"""Oxygen in water under moist air at one atmosphere.

    :math:`\ln c = \sum a_k t^k + S \sum b_k t^k + c_0 S^2` (umol/kg) with
    :math:`t = \ln\frac{298.15 - T}{273.15 + T}`, times the density.

    Parameters
    ----------
    temperature_C : float or ndarray
        Temperature [degC], 0 to 60.
    salinity_g_per_kg : float or ndarray
        Dissolved salt, as sodium chloride or sea salt [g/kg], 0 to 263.

    Returns
    -------
    ndarray
        Concentration [mol/m3].

    Notes
    -----
    Fitted for 0 to 40 degC and up to 42 g/kg. Beyond, it stays within 2 % of handbook values to 60
    degC, and within 12 % of salting-out by 0.145 L/mol to saturated sodium chloride when the further
    rise of density is left out (both from memory).

    Examples
    --------
    >>> oxygen_solubility(25.0, np.array([0.0, 35.0, 263.0])).round(3).tolist()
    [0.258, 0.212, 0.048]

    References
    ----------
    H. E. Garcia, L. I. Gordon, Limnol. Oceanogr. 37 (1992) 1307, doi 10.4319/lo.1992.37.6.1307,
    equation 8 with the coefficients fitted to Benson and Krause (from memory, checked against
    gsw 3.6).
    """
    temperature = np.asarray(temperature_C, dtype=np.float64)
    salinity = np.asarray(salinity_g_per_kg, dtype=np.float64)
    scaled = np.log((298.15 - temperature) / (ZERO_CELSIUS + temperature))
    logarithm = np.polynomial.polynomial.polyval(scaled, _SOLUBILITY)
    logarithm = logarithm + salinity * np.polynomial.polynomial.polyval(scaled, _SALTING_OUT)
    micromoles = np.exp(logarithm + _SALTING_OUT_SQUARE * salinity**2)
    return np.asarray(1e-6 * micromoles * _density(temperature, salinity))


def limiting_current_density(
    temperature_C: FloatLike,
    salinity_g_per_kg: FloatLike = 0.0,
    film_thickness: FloatLike = np.inf,
    velocity: FloatLike | None = None,
    bore: FloatLike = REFERENCE_BORE,
) -> FloatArray:
    r"""Limiting current density of oxygen reduction, immersed or under a film.

    :math:`i_{lim} = \frac{4 F D C}{\min(h, \delta_N) + \delta_0}`, with :math:`\delta_N` 500 um or
    the layer of flowing water, whichever is thinner, and :math:`\delta_0 = 16` um under a film.

    Parameters
    ----------
    temperature_C : float or ndarray
        Temperature [degC], 0 to 60.
    salinity_g_per_kg : float or ndarray
        Dissolved salt [g/kg], 0 to 263.
    film_thickness : float or ndarray
        Thickness of the film [m]; infinite where immersed.
    velocity : float or ndarray, optional
        Velocity of the water [m/s]; without it stagnant.
    bore : float or ndarray
        Inside diameter of the passage in which it flows [m].

    Returns
    -------
    ndarray
        Current density [A/m2]; not-a-number under films thinner than 5 um.

    Notes
    -----
    Four electrons, air-saturated: scale by the oxygen content against saturation where that is
    known. Stagnant sea water gives 0.3 A/m2, against 0.2 to 0.3 measured on copper (M. B.
    Vukmirovic et al., J. Electrochem. Soc. 150 (2003) B10, abstract read).

    Examples
    --------
    >>> limiting_current_density(25.0, 35.0, np.array([np.inf, 100e-6, 1e-6])).round(2).tolist()
    [0.31, 1.34, nan]

    References
    ----------
    F. P. Berger, K.-F. F.-L. Hau, Int. J. Heat Mass Transfer 20 (1977) 1185: Sh = 0.0165 Re^0.86
    Sc^0.33 in smooth pipes (from memory).
    """
    thickness = np.asarray(film_thickness, dtype=np.float64)
    diffusivity = oxygen_diffusivity(temperature_C, salinity_g_per_kg)
    layer = np.minimum(thickness, _diffusion_layer(temperature_C, diffusivity, velocity, bore))
    layer = np.where(np.isinf(thickness), layer, layer + TRANSFER_LAYER)
    supply = diffusivity * oxygen_solubility(temperature_C, salinity_g_per_kg)
    return np.where(thickness < THINNEST_FILM, np.nan, _ELECTRONS * FARADAY * supply / layer)


def surface_limiting_current_density(
    supply: FloatLike, share: FloatLike, stagnant_supply: FloatLike
) -> FloatArray:
    r"""Limiting current density of a surface that can use only a share of the oxygen supplied.

    :math:`\frac{1}{i} = \frac{1}{i_{supply}} + \frac{1/s - 1}{i_{stagnant}}`

    Parameters
    ----------
    supply : float or ndarray
        Limiting current density of the supply, under a film or in flowing water [A/m2].
    share : float or ndarray
        Share of the supply that the surface uses in stagnant water [-], above 0 and at most 1.
    stagnant_supply : float or ndarray
        Limiting current density of the supply in stagnant water of the same kind [A/m2].

    Returns
    -------
    ndarray
        Current density [A/m2]; ``share`` times the supply where that is the stagnant one.

    Notes
    -----
    What holds a poor cathode back, an oxide that hardly conducts electrons or few sites that reduce
    oxygen, does not depend on how thick the water is. It acts in series with the supply, so a thin
    film or a flow speeds a good cathode up and a poor one hardly at all.

    Examples
    --------
    >>> surface_limiting_current_density([0.3, 3.0], np.array([[1.0], [0.05]]), 0.3).round(3).tolist()
    [[0.3, 3.0], [0.015, 0.016]]

    References
    ----------
    Kinetic and transport-limited currents in series after Koutecky and Levich (from memory).
    """
    held_back = (1.0 / np.asarray(share, dtype=np.float64) - 1.0) / np.asarray(stagnant_supply)
    return np.asarray(1.0 / (1.0 / np.asarray(supply, dtype=np.float64) + held_back))


def proton_limiting_current_density(pH: FloatLike, layer_thickness: FloatLike = STAGNANT_LAYER) -> FloatArray:
    r"""Limiting current density of the reduction of hydrogen ions.

    :math:`i = F D_{H^+} 10^{3-pH} / \delta`

    Parameters
    ----------
    pH : float or ndarray
        Acidity [-].
    layer_thickness : float or ndarray
        Diffusion layer [m].

    Returns
    -------
    ndarray
        Current density [A/m2]; add it to the limit of oxygen where it matters.

    Notes
    -----
    Against oxygen in stagnant water it is 6 % at pH 5 and 0.6 % at pH 6. Without buffers; carbonic
    acid can carry more. The diffusivity is 9.3e-9 m2/s at 25 degC (from memory).

    Examples
    --------
    >>> float(proton_limiting_current_density(5.0).round(4))
    0.0179
    """
    concentration = 10.0 ** (3.0 - np.asarray(pH, dtype=np.float64))
    return np.asarray(FARADAY * _PROTON_DIFFUSIVITY * concentration / layer_thickness)


def _density(temperature: FloatArray, salinity: FloatArray) -> FloatArray:
    """Density of water within 0.5 %, with salt as far as the solubility is fitted [kg/m3]."""
    fitted = np.minimum(salinity, _FITTED_SALINITY)
    return np.asarray(1000.0 - 0.0057 * (temperature - 4.0) ** 2 + 0.76 * fitted)


def _diffusion_layer(
    temperature_C: FloatLike, diffusivity: FloatArray, velocity: FloatLike | None, bore: FloatLike
) -> FloatArray | float:
    """Layer of natural convection, or of turbulent flow where that is thinner [m]."""
    if velocity is None:
        return STAGNANT_LAYER
    kelvin = np.asarray(temperature_C, dtype=np.float64) + ZERO_CELSIUS
    viscosity = 2.414e-8 * 10.0 ** (247.8 / (kelvin - 140.0))
    reynolds = np.maximum(np.asarray(velocity, dtype=np.float64), 1e-9) * bore / viscosity
    sherwood = 0.0165 * reynolds**0.86 * (viscosity / diffusivity) ** 0.33
    return np.minimum(STAGNANT_LAYER, bore / sherwood)
