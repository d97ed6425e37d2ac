"""Moist air for the reference tables, from psychrolib (ASHRAE Fundamentals 2017 ch. 1).

psychrolib differs from the plain equations of the handbook in three places, dealt with here:

* it lifts every humidity ratio below 1e-7 to 1e-7, so dry air would not be dry: MIN_HUM_RATIO is
  set to 0;
* its dew point stops at a Newton step of 0.001 K: `dew_point_c` inverts its saturation pressure
  by brentq instead, to 1e-12 K;
* it changes from the ice to the water equation at the triple point, 0.01 deg C, where the handbook
  prints 0 deg C.  That is kept: at 0 deg C the inversion would misbehave.

The constants are the handbook's: R = 287.042 J/(kg K), 0 deg C = 273.15 K, ratio 0.621945.
"""

from __future__ import annotations

from dataclasses import dataclass

import psychrolib
from scipy.optimize import brentq

psychrolib.SetUnitSystem(psychrolib.SI)
psychrolib.MIN_HUM_RATIO = 0.0

RTOL = 8.881784197001252e-16  # four times the spacing of doubles at 1, the least brentq takes


@dataclass(frozen=True)
class Gas:
    """Air as a flow law sees it: density in kg/m3, dynamic viscosity in Pa s."""

    density: float
    viscosity: float


def viscosity_pa_s(t_c: float) -> float:
    """Sutherland's law for air [M], quoted from memory: no library is asked for this one."""
    kelvin = t_c + 273.15
    return 1.716e-5 * (kelvin / 273.15) ** 1.5 * (273.15 + 110.4) / (kelvin + 110.4)


# Reference air of the leakage conventions: 20 deg C and 1.2041 kg/m3.
REFERENCE = Gas(1.2041, viscosity_pa_s(20.0))


def gas_of(t_c: float, rh: float, pressure_pa: float) -> Gas:
    """Density and viscosity of moist air."""
    humidity_ratio = psychrolib.GetHumRatioFromRelHum(t_c, rh, pressure_pa)
    density = psychrolib.GetMoistAirDensity(t_c, humidity_ratio, pressure_pa)
    return Gas(density, viscosity_pa_s(t_c))


def dew_point_c(t_c: float, vapour_pressure_pa: float) -> float:
    """Dew (or frost) point by brentq on psychrolib's saturation pressure; t_c bounds it above."""

    def excess(candidate_c: float) -> float:
        return psychrolib.GetSatVapPres(candidate_c) / vapour_pressure_pa - 1.0

    return brentq(excess, -100.0, t_c + 1.0, xtol=1e-12, rtol=RTOL, maxiter=500)
