"""The air balance of one space, by bracketing the inside pressure with brentq.

Pressure outside less inside at height z, Pa (the common form of single-zone models, e.g. ASHRAE
Fundamentals ch. 16 [M]):

    dp(z) = Cp rho_o U^2/2 - p_i - (rho_o - rho_i) g (z - datum)

Air that comes in carries the density and viscosity of outside, air that leaves those of inside.
Mass is balanced: what comes in, fans included, leaves.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.optimize import brentq

from air import RTOL, Gas
from flow import GRAVITY, Gap, Law, gap_flows


@dataclass(frozen=True)
class Fan:
    """A fan whose flow falls in a straight line with the pressure it works against [A].

    Against no pressure or with one that helps it moves its free flow, against `most_pa` nothing.
    Its ends are at mid-height, the outer one in undisturbed air.
    """

    supplies: bool
    free_kg_s: float
    most_pa: float

    def flow(self, inside_pressure_pa: float) -> float:
        against = inside_pressure_pa if self.supplies else -inside_pressure_pa
        return float(np.interp(against, [0.0, self.most_pa], [self.free_kg_s, 0.0]))


STILL = Gap("opening", 0.0, 0.0, 0.0)


@dataclass(frozen=True)
class Case:
    """Air on both sides, wind and fans; the datum is the height at which p_i is stated."""

    outside: Gas
    inside: Gas
    dynamic_pressure_pa: float
    datum_m: float
    supply_kg_s: float = 0.0
    extract_kg_s: float = 0.0
    curves: tuple[Fan, ...] = ()


@dataclass(frozen=True)
class Answer:
    """Inside pressure, gross flows with fans, (in, out) of every gap and of every fan, in kg/s."""

    inside_pressure_pa: float
    inflow_kg_s: float
    outflow_kg_s: float
    gaps: list[tuple[float, float]]
    fans: list[float]


def solve(case: Case, gaps: list[Gap]) -> Answer:
    """The inside pressure that balances the mass, and the flows at it.

    Solved twice.  Where a large gap passes only what a tiny one lets out again, the pressure
    across the large one is lost in the rounding of the inside pressure.  So the second time the
    unknown is the inside pressure less that outside the gap which has the least across it.
    """
    space = Space(case, gaps)
    levels = [(gap, z) for gap in gaps for z in (gap.z_low_m, gap.z_high_m)]
    if case.curves:  # the origin of their own pressure is undisturbed air at the datum
        levels.append((STILL, case.datum_m))
    outside = [space.outside_pressure(gap, z) for gap, z in levels]
    rough = space.root(min(outside) - 1e-3, max(outside) + 1e-3, 1.0)
    least = min(range(len(levels)), key=lambda index: abs(outside[index] - rough))
    space.origin = levels[least]
    rest = rough - outside[least]
    around = 1e-9 * max(1.0, abs(rest))  # well above the rounding of the flows
    rest = space.root(rest - around, rest + around, around)
    through = space.flows(rest)
    fans = space.fans(rest)
    inflow = sum(mass_in for mass_in, _ in through) + case.supply_kg_s
    outflow = sum(mass_out for _, mass_out in through) + case.extract_kg_s
    for fan, flow in zip(case.curves, fans):
        inflow, outflow = inflow + flow * fan.supplies, outflow + flow * (not fan.supplies)
    # A fan all but stopped has no more digits than its free flow.
    rounding = 1e-15 * sum(fan.free_kg_s for fan in case.curves)
    if abs(inflow - outflow) > 1e-11 * inflow + rounding:
        raise ArithmeticError(f"imbalance {inflow - outflow:.1e} of {inflow:.1e} kg/s")
    return Answer(outside[least] + rest, inflow, outflow, through, fans)


class Space:
    """Flows and their surplus as a function of the inside pressure.

    The inside pressure is counted from that outside the origin, a gap and a height; from
    undisturbed outside air at the datum while there is none.
    """

    def __init__(self, case: Case, gaps: list[Gap]) -> None:
        self.case = case
        self.gaps = gaps
        self.laws = [(Law(gap, case.outside), Law(gap, case.inside)) for gap in gaps]
        self.lift = (case.outside.density - case.inside.density) * GRAVITY
        self.origin: tuple[Gap, float] | None = None

    def outside_pressure(self, gap: Gap, z: float) -> float:
        """Outside pressure at a gap, brought to the datum by the weight of inside air, Pa."""
        cp, level = 0.0, self.case.datum_m
        if self.origin is not None:
            cp, level = self.origin[0].cp, self.origin[1]
        return (gap.cp - cp) * self.case.dynamic_pressure_pa - self.lift * (z - level)

    def flows(self, inside_pressure: float) -> list[tuple[float, float]]:
        """Mass flows (in, out) through every gap, kg/s."""
        result = []
        for gap, (inward, outward) in zip(self.gaps, self.laws):

            def pressure_at(z: float, gap: Gap = gap) -> float:
                return self.outside_pressure(gap, z) - inside_pressure

            volume_in, volume_out = gap_flows(gap, pressure_at, inward, outward)
            mass_in = volume_in * self.case.outside.density
            result.append((mass_in, volume_out * self.case.inside.density))
        return result

    def surplus(self, inside_pressure: float) -> float:
        """What comes in less what leaves, fans included, kg/s; falls as the pressure rises."""
        net = sum(mass_in - mass_out for mass_in, mass_out in self.flows(inside_pressure))
        for fan, flow in zip(self.case.curves, self.fans(inside_pressure)):
            net += flow if fan.supplies else -flow
        return net + self.case.supply_kg_s - self.case.extract_kg_s

    def fans(self, inside_pressure: float) -> list[float]:
        """What every fan with a curve moves, kg/s."""
        at_datum = inside_pressure - self.outside_pressure(STILL, self.case.datum_m)
        return [fan.flow(at_datum) for fan in self.case.curves]

    def root(self, low: float, high: float, step: float) -> float:
        """The pressure without surplus, from a first bracket that is widened as need be."""
        widening = step
        while self.surplus(low) < 0.0:
            low, widening = low - widening, 4.0 * widening
        widening = step
        while self.surplus(high) > 0.0:
            high, widening = high + widening, 4.0 * widening
        return brentq(self.surplus, low, high, xtol=1e-300, rtol=RTOL, maxiter=2000)
