"""The uncertainty of one vehicle, by a million draws in numpy.

Invented: six sharp-edged holes, one on each face.  Every draw multiplies the flow of each hole by a
lognormal factor of mean 1 (95 % within k = 1.2 measured, 1.6 estimated, 3 guessed), all of them by
one for the surveyor (1.15), one for the discharge coefficient (1.08), the pressure coefficients of
walls and roof by one (1.25), the wind by one (1.2), sigma = ln k/1.96; those under the floor, by the
wind's angle off the front, by one normal factor (mean 1, 95 % within 0.5 and 1.5, not below 0); and
what gusts exchange through the largest hole, 0.025 A U (BS 5925 [R]), by one whose logarithm is
normal on either side of 0, 95 % within 0.016/0.025 and 0.07/0.025 (EN 16798-7 [R]).  The spreads are
assumptions of the program [A]; what is checked is what it makes of them.  Then the inside pressure
that balances the mass is found in sixteen wind directions for all draws at once, by Newton steps kept
inside a bracket, and the gross inflow of outside air, at least what gusts exchange, is the mean over
the directions (JCGM 101:2008, propagation of distributions [M]).

Pressure coefficients: AIVC, Liddament 1986, low-rise 2:1, exposed [S]; under the floor simulated
by this project, exposed, folded both ways off the front [N].  Wind at the roof:
0.52 z^0.20 of the weather station's (BS 5925:1991, country with scattered windbreaks [R]), at
least 0.5 m/s [A].  Holes: 0.61 A sqrt(2 dp/rho) (BS 5925 form [R]); EqLA at 10 Pa and 0.611
(CAN/CGSB-149.10 [R]).
"""

from __future__ import annotations

import numpy as np
import psychrolib

import air  # noqa: F401 - sets psychrolib's units

DRAWS = 1_000_000
PIECE = 20_000
SEED = 20_240_905
HEADER = ("what", "mean", "standard_deviation", "low", "high")
GAPS_HEADER = ("face", "height_m", "area_mm2", "certainty")
GAPS = (
    ("front", 0.8, 4000.0, "estimated"),
    ("rear", 1.6, 2500.0, "measured"),
    ("nearside", 1.1, 6000.0, "guessed"),
    ("offside", 2.0, 3000.0, "estimated"),
    ("roof", 2.6, 1500.0, "guessed"),
    ("underfloor", 0.5, 8000.0, "estimated"),
)
K = {"measured": 1.2, "estimated": 1.6, "guessed": 3.0}
WINDS = {"still": 0.0, "windy": 8.0}  # m/s at 10 m
VOLUME_M3, ROOF_M = 25.0, 2.6
OUTSIDE_C, RH, WARMER_K = 5.0, 0.87, 6.0
ANGLES = 45.0 * np.arange(9)
# The first value again at the end.
LONG = [0.5, 0.25, -0.5, -0.8, -0.7, -0.8, -0.5, 0.25, 0.5]
SHORT_FACING_90 = [-0.9, 0.2, 0.6, 0.2, -0.9, -0.6, -0.35, -0.6, -0.9]
ROOF = [-0.7, -0.7, -0.8, -0.7, -0.7, -0.7, -0.8, -0.7, -0.7]
# Under an open floor, wind 0, 22.5, ... 90 degrees off the front.
UNDERFLOOR = [-0.22, -0.26, -0.35, -0.44, -0.59]
NORMALS = {"front": 0.0, "offside": 90.0, "rear": 180.0, "nearside": 270.0}


def coefficient(face: str, wind_deg: float) -> float:
    """Cp of a face, wind in degrees clockwise from the front."""
    if face == "underfloor":
        off_an_end = abs((wind_deg + 90.0) % 180.0 - 90.0)
        return float(np.interp(off_an_end, 22.5 * np.arange(5), UNDERFLOOR))
    if face == "roof":
        row, angle = ROOF, wind_deg - NORMALS["offside"]
    elif face in ("front", "rear"):
        row, angle = SHORT_FACING_90, wind_deg - NORMALS[face] + 90.0
    else:
        row, angle = LONG, wind_deg - NORMALS[face]
    return float(np.interp(angle % 360.0, ANGLES, row))


def densities() -> tuple[float, float]:
    """Outside, and inside with the same water in it."""
    ratio = psychrolib.GetHumRatioFromRelHum(OUTSIDE_C, RH, 101325.0)
    return (
        psychrolib.GetMoistAirDensity(OUTSIDE_C, ratio, 101325.0),
        psychrolib.GetMoistAirDensity(OUTSIDE_C + WARMER_K, ratio, 101325.0),
    )


def factor(rng: np.random.Generator, k: float) -> np.ndarray:
    sigma = np.log(k) / 1.96
    return np.exp(sigma * rng.standard_normal(PIECE) - 0.5 * sigma**2)


def piece(number: int) -> dict[str, np.ndarray]:
    """One piece of the draws: EqLA in m2 and air changes per hour."""
    rng = np.random.default_rng([SEED, number])
    surveyor, discharge = factor(rng, 1.15), factor(rng, 1.08)
    sizes = [gap[2] * 1e-6 * surveyor * factor(rng, K[gap[3]]) for gap in GAPS]
    areas = [discharge * size for size in sizes]
    walls, wind = factor(rng, 1.25), factor(rng, 1.2)
    under = np.maximum(1.0 + 0.5 / 1.96 * rng.standard_normal(PIECE), 0.0)
    z = rng.standard_normal(PIECE)
    gusty = 0.025 * np.exp(z / 1.96 * np.log(np.where(z < 0.0, 0.025 / 0.016, 0.07 / 0.025)))
    largest = 0.61 / 0.611 * np.max(sizes, axis=0)
    found = {"eqla_m2": 0.61 / 0.611 * sum(areas)}
    outside, inside = densities()
    for name, speed in WINDS.items():
        at_roof = np.maximum(speed * 0.52 * ROOF_M**0.20 * wind, 0.5)
        dynamic = 0.5 * outside * at_roof**2
        total = np.zeros(PIECE)
        for direction in range(16):
            heads = []
            for face, height, _, _ in GAPS:
                factor_of_face = under if face == "underfloor" else walls
                cp = factor_of_face * coefficient(face, 22.5 * direction)
                heads.append(cp * dynamic - (outside - inside) * 9.81 * height)
            inflow = balanced(np.array(areas), np.array(heads), outside, inside)
            total += np.maximum(inflow, gusty * largest * at_roof * outside)
        found[f"{name}_ach_per_h"] = total / 16.0 * 3600.0 / (inside * VOLUME_M3)
    return found


def balanced(areas: np.ndarray, heads: np.ndarray, outside: float, inside: float) -> np.ndarray:
    """Gross inflow, kg/s, at the inside pressure that balances it."""
    result = np.zeros(heads.shape[1])
    left = np.arange(heads.shape[1])  # draws that are not balanced yet
    low, high = heads.min(axis=0), heads.max(axis=0)
    pressure = 0.5 * (low + high)
    for step in range(200):
        difference = heads - pressure
        size = np.abs(difference)
        enters = difference > 0.0
        flow = 0.61 * areas * np.sqrt(2.0 * np.where(enters, outside, inside) * size)
        inflow = np.sum(flow, axis=0, where=enters)
        surplus = 2.0 * inflow - np.sum(flow, axis=0)
        # Beside the pressure of one hole no double balances better than its own last digit.
        open_still = (np.abs(surplus) > 1e-9 * inflow) & (high - low > 4e-16 * np.abs(pressure))
        result[left] = inflow
        if not open_still.any():
            return result
        low = np.where(surplus > 0.0, pressure, low)
        high = np.where(surplus > 0.0, high, pressure)
        slope = np.sum(0.5 * flow / np.maximum(size, 1e-12), axis=0)
        newton = pressure + surplus / slope
        fits = (newton > low) & (newton < high) & (step % 4 != 3)
        pressure = np.where(fits, newton, 0.5 * (low + high))
        left, low, high, pressure = (v[open_still] for v in (left, low, high, pressure))
        areas, heads = areas[:, open_still], heads[:, open_still]
    raise ArithmeticError(f"{len(left)} draws are not balanced")


def rows(pieces: list[dict[str, np.ndarray]]) -> list[list[object]]:
    """Mean, standard deviation and the middle 95 % of all draws."""
    result = []
    for what in pieces[0]:
        draws = np.concatenate([one[what] for one in pieces])
        low, high = np.quantile(draws, [0.025, 0.975])
        result.append([what, *(float(v) for v in (draws.mean(), draws.std(ddof=1), low, high))])
    return result
