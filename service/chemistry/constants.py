"""Physical constants, SI.

The SI of 2019 fixes the elementary charge, the Avogadro and the Boltzmann constant, so that the
Faraday and the gas constant are exact products (BIPM, The International System of Units, 9th
edition 2019, section 2.2).
"""

from __future__ import annotations

FARADAY = 1.602176634e-19 * 6.02214076e23
"""Charge of one mole of electrons [C/mol]."""

GAS_CONSTANT = 1.380649e-23 * 6.02214076e23
"""Molar gas constant [J/(mol K)]."""

ZERO_CELSIUS = 273.15
"""0 degC on the thermodynamic scale [K]."""

SECONDS_PER_YEAR = 365.25 * 86400.0
"""Julian year [s]; with it the ASTM G102 constant K1 comes out as 3.27e-3."""
