"""The air balance of one space, by bracketing the inside pressure with brentq.

Pressure outside less inside at height z, Pa (the common form of single-zone models, e.g. ASHRAE
Fundamentals ch. 16 [M]):

    dp(z) = Cp rho_o U^2/2 - p_i - (rho_o - rho_i) g (z - datum)

Air that comes in carries the density and viscosity of outside, air that leaves those of inside.
Mass is balanced: what comes in, fans included, leaves.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from scipy.optimize import brentq

from air import RTOL, Gas
from flow import GRAVITY, Gap, Law, gap_flows


@dataclass(frozen=True)
class Case:
    """Air on both sides, wind and fans; the datum is the height at which p_i is stated."""

    outside: Gas
    inside: Gas
    dynamic_pressure_pa: float
    datum_m: float
    supply_kg_s: float = 0.0
    extract_kg_s: float = 0.0


@dataclass(frozen=True)
class Answer:
    """Inside pressure, gross flows with fans, and (in, out) of every gap in kg/s."""

    inside_pressure_pa: float
    inflow_kg_s: float
    outflow_kg_s: float
    gaps: list[tuple[float, float]]


class IllConditioned(ArithmeticError):
    """The last bit of the inside pressure moves the balance by more than 1e-11 of the inflow.

    So it is where a large gap passes only what a tiny one lets out again: the pressure across the
    large one is lost in the rounding of the inside pressure, for any program that states it.
    """


def solve(case: Case, gaps: list[Gap]) -> Answer:
    """The inside pressure that balances the mass, and the flows at it."""
    laws = [(Law(gap, case.outside), Law(gap, case.inside)) for gap in gaps]
    lift = (case.outside.density - case.inside.density) * GRAVITY

    def driving(gap: Gap, z: float, inside_pressure: float) -> float:
        return gap.cp * case.dynamic_pressure_pa - inside_pressure - lift * (z - case.datum_m)

    def flows(inside_pressure: float) -> list[tuple[float, float]]:
        result = []
        for gap, (inward, outward) in zip(gaps, laws):
            volume_in, volume_out = gap_flows(
                gap, lambda z, gap=gap: driving(gap, z, inside_pressure), inward, outward
            )
            result.append((volume_in * case.outside.density, volume_out * case.inside.density))
        return result

    def surplus(inside_pressure: float) -> float:
        through = flows(inside_pressure)
        gained = sum(mass_in for mass_in, _ in through) + case.supply_kg_s
        lost = sum(mass_out for _, mass_out in through) + case.extract_kg_s
        return gained - lost

    ends = [driving(gap, z, 0.0) for gap in gaps for z in (gap.z_low_m, gap.z_high_m)]
    low, high = min(ends) - 1e-3, max(ends) + 1e-3
    step = 1.0
    while surplus(low) < 0.0:
        low, step = low - step, 4.0 * step
    step = 1.0
    while surplus(high) > 0.0:
        high, step = high + step, 4.0 * step
    root = brentq(surplus, low, high, xtol=1e-300, rtol=RTOL, maxiter=1000)
    through = flows(root)
    inflow = sum(mass_in for mass_in, _ in through) + case.supply_kg_s
    outflow = sum(mass_out for _, mass_out in through) + case.extract_kg_s
    last_bit = math.ulp(root)
    if abs(surplus(root + last_bit) - surplus(root - last_bit)) > 1e-11 * inflow:
        raise IllConditioned
    if abs(inflow - outflow) > 1e-11 * inflow:
        raise ArithmeticError(f"imbalance {inflow - outflow:.1e} of {inflow:.1e} kg/s")
    return Answer(root, inflow, outflow, through)
