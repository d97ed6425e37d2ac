"""Random vehicles of several spaces, their air balance solved by scipy.

Outer gap of space s and inner opening from a to b, pressure difference at height z, Pa:

    outer  dp(z) = Cp rho_o U^2/2 - p_s - (rho_o - rho_s) g (z - datum)
    inner  dp(z) = p_a - p_b - (rho_a - rho_b) g (z - datum)

Air carries the density and viscosity of where it comes from; in every space the mass that comes in,
fans included, leaves.  The unknowns are the pressures at the datum, that of the first space and the
step from each space to the next, so that a wide doorway between two keeps its digits: scipy's
hybrid Powell method finds them for a vehicle whose tall gaps are cut into level slices, then for
the gaps as they are (quadrature, see flow.py).  Nothing is shared with a search by flows.

Vehicles are invented: two to six spaces in a chain with some further doors, gaps from pinholes to
grilles, doorways as wide as the pressures' own digits can bear.  Inputs are rounded before use.
The vehicles after the first 200 have fans whose flow falls with the pressure (balance.py).
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from scipy.optimize import brentq, root

from air import Gas, gas_of
from balance import Fan
from flow import GRAVITY, Gap, Law, gap_flows
from vehicles import curve, digits, evenly, gap, spread

WITHOUT_CURVES = 200
VEHICLES = 270
SEED = 20_240_611
SLICES = 6
# Where rounding lets scipy come no nearer, a surplus of this share of what passes will do.
ROUNDING = 2e-10


@dataclass(frozen=True)
class Space:
    """Air of a space and its fans: constant flows, and fans that pressure slows."""

    gas: Gas
    supply_kg_s: float
    extract_kg_s: float
    curves: tuple[Fan, ...] = ()

    def supply(self, pressure_pa: float) -> float:
        return self.supply_kg_s + sum(f.flow(pressure_pa) for f in self.curves if f.supplies)

    def extract(self, pressure_pa: float) -> float:
        return self.extract_kg_s + sum(f.flow(pressure_pa) for f in self.curves if not f.supplies)


@dataclass(frozen=True)
class Way:
    """An outer gap (no space it comes from) or an inner opening; cp counts for outer gaps."""

    from_space: int | None
    to_space: int
    gap: Gap


@dataclass(frozen=True)
class Vehicle:
    outside: Gas
    dynamic_pressure_pa: float
    datum_m: float
    spaces: list[Space]
    ways: list[Way]


@dataclass(frozen=True)
class Answer:
    """Pressures of the spaces, (forward, back) of every way and the flow of every fan with a curve,
    space by space, in kg/s, and the whole flow in."""

    pressures_pa: list[float]
    flows: list[tuple[float, float]]
    fans: list[float]
    inflow_kg_s: float


def vehicle(number: int) -> Vehicle:
    rng = np.random.default_rng([SEED, number])
    outside = gas_of(evenly(rng, -15.0, 25.0), digits(rng.uniform(0.2, 1.0), 3), 101325.0)
    wind = float(rng.choice([0.5, evenly(rng, 1.0, 6.0), evenly(rng, 6.0, 14.0)]))
    count = int(rng.integers(2, 7))
    alike = bool(rng.uniform() < 0.4)
    first = evenly(rng, 0.0, 25.0)
    spaces = []
    for _ in range(count):
        t_c = first if alike else digits(first + rng.uniform(-12.0, 12.0))
        if number > WITHOUT_CURVES:
            curves = [curve(rng) for _ in range(int(rng.integers(0, 3)))]
            spaces.append(Space(gas_of(t_c, 0.4, 101325.0), 0.0, 0.0, tuple(curves)))
            continue
        has_fan = rng.uniform()
        spaces.append(Space(
            gas_of(t_c, 0.4, 101325.0),
            spread(rng, 1e-4, 2e-2) if has_fan < 0.1 else 0.0,
            spread(rng, 1e-4, 2e-2) if has_fan > 0.8 else 0.0,
        ))
    faces = [evenly(rng, -1.0, 0.7) for _ in range(6)]
    ways = [Way(None, space, outer(rng, faces)) for space in range(count) for _ in range(2)]
    ways += [
        Way(None, int(rng.integers(count)), outer(rng, faces))
        for _ in range(int(rng.integers(0, 8)))
    ]
    ways += [Way(space, space + 1, inner(rng)) for space in range(count - 1)]
    for _ in range(int(rng.integers(0, 3))):
        one, other = (int(n) for n in rng.choice(count, 2, replace=False))
        ways.append(Way(one, other, inner(rng)))
    return Vehicle(
        outside,
        0.5 * outside.density * wind**2,
        evenly(rng, 1.0, 2.2),
        spaces,
        ways,
    )


def outer(rng: np.random.Generator, faces: list[float]) -> Gap:
    return gap(rng, faces[int(rng.integers(6))])


def inner(rng: np.random.Generator) -> Gap:
    """A gap round a door or locker, or a doorway from floor to ceiling."""
    one = replace(gap(rng, 0.0), z_low_m=evenly(rng, 0.4, 1.2))
    if rng.uniform() < 0.4:
        return Gap("opening", 0.0, 0.4, 2.3, area_m2=evenly(rng, 0.02, 0.9), discharge=0.61)
    return replace(one, z_high_m=max(one.z_high_m, one.z_low_m))


class Balance:
    """Surplus of every space as a function of the pressures."""

    def __init__(self, one: Vehicle, ways: list[Way]) -> None:
        self.one = one
        self.ways = ways
        gases = [space.gas for space in one.spaces]
        self.laws = []
        for way in ways:
            source = one.outside if way.from_space is None else gases[way.from_space]
            target = gases[way.to_space]
            self.laws.append((source, target, Law(way.gap, source), Law(way.gap, target)))

    def difference(self, way: Way, steps: np.ndarray) -> float:
        """Pressure difference at the datum, Pa."""
        target = way.to_space
        if way.from_space is None:
            head = way.gap.cp * self.one.dynamic_pressure_pa
            return float(head - np.sum(steps[: target + 1]))
        if way.from_space < target:
            return float(-np.sum(steps[way.from_space + 1 : target + 1]))
        return float(np.sum(steps[target + 1 : way.from_space + 1]))

    def flows(self, steps: np.ndarray) -> list[tuple[float, float]]:
        result = []
        for way, (source, target, forward, back) in zip(self.ways, self.laws):
            difference = self.difference(way, steps)
            lift = (source.density - target.density) * GRAVITY

            def pressure_at(z: float, difference: float = difference, lift: float = lift) -> float:
                return difference - lift * (z - self.one.datum_m)

            there, and_back = gap_flows(way.gap, pressure_at, forward, back)
            result.append((there * source.density, and_back * target.density))
        return result

    def surplus(self, steps: np.ndarray) -> np.ndarray:
        pressures = zip(self.one.spaces, np.cumsum(steps))
        surplus = np.array([s.supply(p) - s.extract(p) for s, p in pressures])
        for way, (there, back) in zip(self.ways, self.flows(steps)):
            surplus[way.to_space] += there - back
            if way.from_space is not None:
                surplus[way.from_space] -= there - back
        return surplus

    def through(self, steps: np.ndarray) -> np.ndarray:
        """Half of all that passes in and out of each space, kg/s."""
        pressures = zip(self.one.spaces, np.cumsum(steps))
        total = np.array([s.supply(p) + s.extract(p) for s, p in pressures])
        for way, (there, back) in zip(self.ways, self.flows(steps)):
            total[way.to_space] += there + back
            if way.from_space is not None:
                total[way.from_space] += there + back
        return 0.5 * total

    def off(self, steps: np.ndarray) -> float:
        """Greatest surplus of a space as a share of what passes through it."""
        return float(np.max(np.abs(self.surplus(steps)) / self.through(steps)))


def sliced(ways: list[Way]) -> list[Way]:
    """Tall gaps as level slices of equal height."""
    result = []
    for way in ways:
        low, high = way.gap.z_low_m, way.gap.z_high_m
        if high == low:
            result.append(way)
            continue
        for middle in low + (np.arange(SLICES) + 0.5) / SLICES * (high - low):
            level = replace(
                way.gap,
                z_low_m=float(middle),
                z_high_m=float(middle),
                multiplier=way.gap.multiplier / SLICES,
            )
            result.append(replace(way, gap=level))
    return result


def solve(one: Vehicle) -> Answer:
    """The pressures that balance every space, and the flows at them."""
    heads = [w.gap.cp * one.dynamic_pressure_pa for w in one.ways if w.from_space is None]
    start = np.zeros(len(one.spaces))
    start[0] = np.mean(heads)
    balance = Balance(one, one.ways)
    steps = closer(balance, closer(Balance(one, sliced(one.ways)), start, 1e-6), 1e-11)
    flows = balance.flows(steps)
    outer_in = sum(f[0] for w, f in zip(one.ways, flows) if w.from_space is None)
    pressures = [float(p) for p in np.cumsum(steps)]
    at = list(zip(one.spaces, pressures))
    inflow = outer_in + sum(space.supply(p) for space, p in at)
    fans = [fan.flow(p) for space, p in at for fan in space.curves]
    return Answer(pressures, flows, fans, inflow)


def closer(balance: Balance, start: np.ndarray, share: float) -> np.ndarray:
    """Solves from a start; every space must balance to a share of what passes through it.

    The square root of a gap that all but stands still may hold the method up: then the spaces are
    balanced one by one for a while, and it starts again from there.
    """
    best = start
    for attempt in range(8):
        found = root(balance.surplus, best, method="hybr", options={"xtol": 1e-15})
        if balance.off(found.x) < balance.off(best):
            best = found.x
        if balance.off(best) <= share:
            return best
        for _ in range(1 + attempt):
            best = swept(balance, best)
        if balance.off(best) <= share:
            return best
    if balance.off(best) <= ROUNDING:
        return best
    raise ArithmeticError(f"no balance: {balance.off(best):.1e} off")


def swept(balance: Balance, steps: np.ndarray) -> np.ndarray:
    """Balances one space after the other, the others held."""
    for space in range(len(steps)):

        def moved(rise: float, space: int = space) -> np.ndarray:
            changed = steps.copy()
            changed[space] += rise
            if space + 1 < len(changed):
                changed[space + 1] -= rise
            return changed

        def surplus(rise: float, space: int = space) -> float:
            return float(balance.surplus(moved(rise))[space])

        here = surplus(0.0)
        if here == 0.0:
            continue
        far, reach = 0.0, 1e-9
        while surplus(far) * here > 0.0:
            far, reach = (far + reach, 4.0 * reach) if here > 0.0 else (far - reach, 4.0 * reach)
        try:
            far = brentq(surplus, 0.0, far, xtol=1e-18)
        except ValueError:  # the ends differ by nothing but rounding
            pass
        steps = moved(far)
    return steps


def solved(number: int) -> tuple[Vehicle, Answer]:
    one = vehicle(number)
    return one, solve(one)
