"""Random vehicles for the balance table: invented, from mild to violent, always the same.

Every vehicle has a generator seeded by its own number, so one can be worked out alone.  Inputs are
rounded to a few digits before they are used, to keep the tables short.  A vehicle in which nothing
drives air (no difference of density, and no wind or all gaps on one face) is given a fan: flows of
nothing but rounding are no reference.

The vehicles after the first 240 have fans whose flow falls with the pressure, from bathroom fans to
ones far too strong for the few tight gaps of their vehicle.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from air import gas_of
from balance import Case, Fan
from flow import Gap

WITHOUT_CURVES = 240
VEHICLES = 340
SEED = 20_240_117
PRESSURES_PA = (101325.0, 84556.0)  # standard, and about that at 1500 m


@dataclass(frozen=True)
class Vehicle:
    """One row of air_balance.csv less its answers, and its gaps."""

    t_out_c: float
    rh_out: float
    t_in_c: float
    rh_in: float
    pressure_pa: float
    wind_m_s: float
    case: Case
    gaps: list[Gap]


def digits(value: float, count: int = 4) -> float:
    return float(f"{value:.{count}g}")


def spread(rng: np.random.Generator, low: float, high: float) -> float:
    """Evenly over the logarithm."""
    return digits(np.exp(rng.uniform(np.log(low), np.log(high))))


def evenly(rng: np.random.Generator, low: float, high: float) -> float:
    return digits(rng.uniform(low, high))


def vehicle(number: int) -> Vehicle:
    if number > WITHOUT_CURVES:
        return with_curves(number)
    rng = np.random.default_rng([SEED, number])
    pressure = PRESSURES_PA[int(rng.integers(2))]
    t_out, rh_out, t_in, rh_in = climate(rng)
    winds = [0.0, evenly(rng, 0.5, 3.0), evenly(rng, 3.0, 10.0), 20.0]
    wind = float(rng.choice(winds, p=[0.2, 0.3, 0.35, 0.15]))
    outside, inside = gas_of(t_out, rh_out, pressure), gas_of(t_in, rh_in, pressure)
    one_face = bool(rng.uniform() < 0.06)
    count = 2 + int(38.999 * rng.uniform() ** 2)
    faces = [evenly(rng, -1.2, 0.8) for _ in range(6)]
    gaps = [gap(rng, faces[0] if one_face else faces[int(rng.integers(6))]) for _ in range(count)]
    windless = wind == 0.0 or len({one.cp for one in gaps}) == 1
    supply, extract = fans(rng, windless and outside == inside)
    case = Case(
        outside,
        inside,
        0.5 * outside.density * wind**2,
        evenly(rng, 1.0, 2.2),
        supply,
        extract,
    )
    return Vehicle(t_out, rh_out, t_in, rh_in, pressure, wind, case, gaps)


def with_curves(number: int) -> Vehicle:
    """A vehicle with one to four fans that pressure slows, its gaps tighter by as much as 1000."""
    rng = np.random.default_rng([SEED, number])
    pressure = PRESSURES_PA[int(rng.integers(2))]
    t_out, rh_out, t_in, rh_in = climate(rng)
    wind = float(rng.choice([0.0, 0.5, evenly(rng, 1.0, 12.0)]))
    outside, inside = gas_of(t_out, rh_out, pressure), gas_of(t_in, rh_in, pressure)
    tighter = float(rng.choice([1.0, 0.1, 0.01, 0.001]))
    faces = [evenly(rng, -1.2, 0.8) for _ in range(6)]
    gaps = [gap(rng, faces[int(rng.integers(6))]) for _ in range(int(rng.integers(1, 13)))]
    gaps = [replace(one, multiplier=digits(one.multiplier * tighter)) for one in gaps]
    curves = [curve(rng) for _ in range(int(rng.integers(1, 5)))]
    case = Case(
        outside,
        inside,
        0.5 * outside.density * wind**2,
        evenly(rng, 1.0, 2.2),
        curves=tuple(curves),
    )
    return Vehicle(t_out, rh_out, t_in, rh_in, pressure, wind, case, gaps)


def curve(rng: np.random.Generator) -> Fan:
    """From 10 m3/h in a washroom to what 1500 m3/h weigh."""
    return Fan(
        bool(rng.uniform() < 0.3),
        spread(rng, 3e-3, 0.5),
        60.0 if rng.uniform() < 0.4 else spread(rng, 8.0, 300.0),
    )


def climate(rng: np.random.Generator) -> tuple[float, float, float, float]:
    """Outside and inside temperature and relative humidity."""
    t_out, rh_out = evenly(rng, -20.0, 35.0), digits(rng.uniform(0.1, 1.0), 3)
    kind = rng.choice(["none", "small", "heated", "violent", "cooled"],
                      p=[0.15, 0.25, 0.35, 0.15, 0.1])
    if kind == "none":
        return t_out, rh_out, t_out, rh_out
    if kind == "violent":
        t_out = evenly(rng, -20.0, 0.0)
    rise = {
        "small": evenly(rng, 0.1, 3.0),
        "heated": evenly(rng, 5.0, 25.0),
        "violent": 40.0,
        "cooled": -evenly(rng, 1.0, 15.0),
    }[kind]
    return t_out, rh_out, digits(t_out + rise), digits(rng.uniform(0.1, 0.9), 3)


def fans(rng: np.random.Generator, idle: bool) -> tuple[float, float]:
    """Supply and extract in kg/s; none in most vehicles that have another drive."""
    which = rng.choice(["none", "supply", "extract", "both"], p=[0.65, 0.1, 0.15, 0.1])
    if which == "none" and idle:
        which = "extract"
    supply = spread(rng, 1e-4, 5e-2) if which in ("supply", "both") else 0.0
    extract = spread(rng, 1e-4, 5e-2) if which in ("extract", "both") else 0.0
    return supply, extract


def gap(rng: np.random.Generator, cp: float) -> Gap:
    low = evenly(rng, 0.25, 2.6)
    tall = bool(rng.uniform() < 0.3)
    high = digits(low + evenly(rng, 0.05, 1.9), 5) if tall else low
    common = {
        "cp": cp,
        "z_low_m": low,
        "z_high_m": high,
        "multiplier": float(rng.choice([1.0, 2.0, 3.0, 0.1], p=[0.75, 0.1, 0.05, 0.1])),
        "behind_area_m2": spread(rng, 5e-5, 5e-2) if rng.uniform() < 0.35 else None,
    }
    kind = str(rng.choice(["opening", "crack", "power"], p=[0.3, 0.45, 0.25]))
    if kind == "opening":
        discharge = float(rng.choice([0.61, 0.6, 0.66, 1.0], p=[0.7, 0.1, 0.1, 0.1]))
        smallest = 1e-9 if rng.uniform() < 0.05 else 3e-6
        return Gap(kind, area_m2=spread(rng, smallest, 5e-2), discharge=discharge, **common)
    if kind == "crack":
        return Gap(
            kind,
            length_m=spread(rng, 0.02, 6.0),
            width_m=spread(rng, 2e-4, 6e-3),
            depth_m=spread(rng, 1e-3, 7e-2),
            bends=int(rng.choice([0, 1, 2, 3], p=[0.4, 0.35, 0.2, 0.05])),
            **common,
        )
    exponent = float(rng.choice([0.5, 0.65, 1.0, evenly(rng, 0.5, 1.0)], p=[0.1, 0.3, 0.1, 0.5]))
    return Gap(kind, coefficient_m3_per_s_pa_n=spread(rng, 1e-6, 1e-2), exponent=exponent, **common)
