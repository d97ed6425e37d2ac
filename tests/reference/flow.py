"""What one gap lets through, solved by root finding and quadrature only.

Every gap is stated as the pressure it takes to drive a flow through it, drop(Q).  The flow at a
pressure is the root of drop(Q) = dp; a gap that spans a height is the mean of that root over the
height, by adaptive quadrature.  No root and no antiderivative is written in closed form.

Laws, with their sources:

* opening: dp = rho/(2 Cd^2 A^2) Q^2, the sharp-edged form of BS 5925 [R];
* crack: dp = a Q + b Q^2 with a = 12 mu z/(L d^3), b = rho C/(2 d^2 L^2), C = 1.5 + bends: Baker,
  Sharples & Ward, Building and Environment 22(4), 1987 [R]; never easier to pass than a sharp
  opening of the same section with Cd 0.61, so the greater of the two drops is taken;
* power law: Q = C dp^n, C at reference air.  ISO 9972 and ASTM E779 bring a tested coefficient to
  reference air with C_ref = C (rho/rho0)^(1-n) (mu/mu0)^(2n-1) [R]; here the other way round;
* behind an opening of area A_s: same flow, drops add (series resistance), Cd 0.61.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from scipy.integrate import quad
from scipy.optimize import brentq

from air import REFERENCE, RTOL, Gas

GRAVITY = 9.81
SHARP_DISCHARGE = 0.61


@dataclass(frozen=True)
class Gap:
    """One row of air_balance_gaps.csv; SI throughout, heights above the ground."""

    kind: str
    cp: float
    z_low_m: float
    z_high_m: float
    multiplier: float = 1.0
    behind_area_m2: float | None = None
    area_m2: float | None = None
    discharge: float | None = None
    length_m: float | None = None
    width_m: float | None = None
    depth_m: float | None = None
    bends: int | None = None
    coefficient_m3_per_s_pa_n: float | None = None
    exponent: float | None = None


def sharp_resistance(gas: Gas, area: float, discharge: float) -> float:
    """Pressure per squared flow of a sharp-edged opening, Pa s2/m6."""
    return gas.density / (2.0 * (discharge * area) ** 2)


def drop_through(gap: Gap, gas: Gas) -> Callable[[float], float]:
    """The pressure, Pa, that drives the flow Q >= 0, m3/s, through one such gap."""
    own = _own_drop(gap, gas)
    if gap.behind_area_m2 is None:
        return own
    outer = sharp_resistance(gas, gap.behind_area_m2, SHARP_DISCHARGE)
    return lambda q: own(q) + outer * q * q


def _own_drop(gap: Gap, gas: Gas) -> Callable[[float], float]:
    if gap.kind == "opening":
        resistance = sharp_resistance(gas, gap.area_m2, gap.discharge)
        return lambda q: resistance * q * q
    if gap.kind == "crack":
        linear, square, sharp = crack_resistances(gap, gas)
        return lambda q: max(linear * q + square * q * q, sharp * q * q)
    if gap.kind == "power":
        n = gap.exponent
        lighter = (REFERENCE.density / gas.density) ** (1.0 - n)
        thinner = (REFERENCE.viscosity / gas.viscosity) ** (2.0 * n - 1.0)
        coefficient = gap.coefficient_m3_per_s_pa_n * lighter * thinner
        return lambda q: (q / coefficient) ** (1.0 / n)
    raise ValueError(f"no such kind of gap: {gap.kind}")


def crack_resistances(gap: Gap, gas: Gas) -> tuple[float, float, float]:
    """a and b of the crack law, and the resistance of the sharp opening that bounds it."""
    loss = 1.5 + gap.bends
    linear = 12.0 * gas.viscosity * gap.depth_m / (gap.length_m * gap.width_m**3)
    square = gas.density * loss / (2.0 * gap.width_m**2 * gap.length_m**2)
    sharp = sharp_resistance(gas, gap.length_m * gap.width_m, SHARP_DISCHARGE)
    return linear, square, sharp


class Law:
    """A gap in one gas: the flow at a pressure, and the pressure where its law changes."""

    def __init__(self, gap: Gap, gas: Gas) -> None:
        self.drop = drop_through(gap, gas)
        self.guess = 1e-3
        self.change_pa = self._pressure_of_change(gap, gas)

    def flow(self, dp: float) -> float:
        """Flow, m3/s, at a pressure difference dp >= 0, Pa."""
        if dp == 0.0:
            return 0.0
        high = self.guess
        while self.drop(high) < dp:
            high *= 4.0
        low = high / 4.0
        while self.drop(low) > dp:
            high = low
            low /= 4.0
        q = brentq(lambda q: self.drop(q) - dp, low, high, xtol=1e-300, rtol=RTOL, maxiter=500)
        self.guess = q
        return q

    def _pressure_of_change(self, gap: Gap, gas: Gas) -> float | None:
        """Where a crack begins to pass what the sharp opening passes; None if it never does."""
        if gap.kind != "crack":
            return None
        linear, square, sharp = crack_resistances(gap, gas)
        if square >= sharp:
            return None
        # In w = 1/Q the crack needs more than the opening while linear * w > sharp - square.
        w = brentq(
            lambda w: (linear * w + square) / sharp - 1.0,
            0.0,
            2.0 * sharp / linear,
            xtol=1e-300,
            rtol=RTOL,
            maxiter=500,
        )
        return self.drop(1.0 / w)


def gap_flows(
    gap: Gap, pressure_at: Callable[[float], float], inward: Law, outward: Law
) -> tuple[float, float]:
    """Gross flows in and out, m3/s, each at the density of the air that flows.

    pressure_at(z) is the pressure outside less that inside, Pa, linear in the height z.
    """
    low, high = gap.z_low_m, gap.z_high_m
    at_low, at_high = pressure_at(low), pressure_at(high)
    if high == low or at_low == at_high:
        volume = gap.multiplier * (inward if at_low > 0.0 else outward).flow(abs(at_low))
        return (volume, 0.0) if at_low > 0.0 else (0.0, volume)
    pieces = [low, high]
    if at_low * at_high < 0.0:
        neutral = brentq(pressure_at, low, high, xtol=1e-16, rtol=RTOL, maxiter=500)
        pieces.insert(1, neutral)
    total_in = total_out = 0.0
    for bottom, top in zip(pieces, pieces[1:]):
        if pressure_at(0.5 * (bottom + top)) > 0.0:
            total_in += _one_way(bottom, top, pressure_at, inward, len(pieces) > 2)
        else:
            total_out += _one_way(bottom, top, pressure_at, outward, len(pieces) > 2)
    share = gap.multiplier / (high - low)
    return share * total_in, share * total_out


def _one_way(
    bottom: float,
    top: float,
    pressure_at: Callable[[float], float],
    law: Law,
    from_neutral: bool,
) -> float:
    """Integral of the flow over a height in which the air goes one way, m3/s times m."""
    near, far = sorted((bottom, top), key=lambda z: abs(pressure_at(z)))
    dp_near, dp_far = abs(pressure_at(near)), abs(pressure_at(far))
    if from_neutral:
        dp_near = 0.0
    ends = [0.0, 1.0]
    if law.change_pa is not None and dp_near < law.change_pa < dp_far:
        ends.insert(1, ((law.change_pa - dp_near) / (dp_far - dp_near)) ** 0.5)

    # The height is counted from the end of least pressure, as near + (far - near) x^2: that
    # takes the square-root rise at the neutral level out of the quadrature.
    def integrand(x: float) -> float:
        return law.flow(dp_near + (dp_far - dp_near) * x * x) * 2.0 * x

    total = 0.0
    for start, end in zip(ends, ends[1:]):
        value, error, *_ = quad(
            integrand, start, end, epsabs=0.0, epsrel=1e-12, limit=400, full_output=1
        )
        if error > 1e-10 * value:
            raise ArithmeticError(f"quadrature reached only {error / value:.1e}: {law}")
        total += value
    return total * abs(far - near)
