"""Limits that a house may set; the defaults are house rules of this project and say so."""

from __future__ import annotations

import hashlib
import json
from dataclasses import asdict, dataclass, field

from service.judgement.couples import Couple, Function
from service.judgement.severity import Severity


@dataclass(frozen=True, slots=True)
class Policy:
    """Bands and defaults by which figures become words.

    ``severity_bounds`` are the upper bounds of none, slight and moderate for the ratio of the
    95 % loss over the design life to the allowance. ``section_allowances_um`` is the loss that a
    joint of each function can stand where the caller states none. All values are a house rule
    without a published source, except where a caller's own policy replaces them.
    """

    name: str = "house rule"
    severity_bounds: tuple[float, float, float] = (0.1, 0.5, 2.0)
    default_design_life_years: float = 10.0
    section_allowances_um: dict[Function, float] = field(
        default_factory=lambda: {
            Function.STRUCTURAL: 500.0,
            Function.SEAL: 100.0,
            Function.ELECTRICAL_BOND: 100.0,
            Function.PROTECTIVE_EARTH: 100.0,
            Function.POWER_CONTACT: 100.0,
            Function.SIGNAL_CONTACT: 50.0,
            Function.RF: 50.0,
            Function.THERMAL: 200.0,
        }
    )
    limits_V: dict[str, float] = field(default_factory=dict)

    def allowance_um(self, functions: tuple[Function, ...]) -> float:
        """Smallest allowance among the functions of a joint."""
        return min(self.section_allowances_um[function] for function in functions or (Function.STRUCTURAL,))

    def life_years(self, couple: Couple) -> float:
        """Design life of a couple, the default where it states none [years]."""
        stated = couple.design_life_years
        return self.default_design_life_years if stated is None else stated

    def section_allowance_um(self, couple: Couple) -> float:
        """Loss that the section of a couple can stand, by its functions where it states none [um]."""
        stated = couple.section_allowance_um
        return self.allowance_um(couple.functions) if stated is None else stated

    def severity(self, ratio: float) -> Severity:
        """Word for a ratio of loss to allowance."""
        for bound, severity in zip(self.severity_bounds, Severity, strict=False):
            if ratio <= bound:
                return severity
        return Severity.SEVERE

    def digest(self) -> str:
        """SHA-256 of the policy's content; part of an answer's identity."""
        content = json.dumps(asdict(self), sort_keys=True, default=str)
        return hashlib.sha256(content.encode()).hexdigest()


DEFAULT_POLICY = Policy()
