"""Generic drying machines for the reference of the coupled balance.

The behaviour of each kind is an assumption of the program [A]; here it is written down a second
time, with numpy's interpolation, so that a slip in the program's own shows.  Salt: the relative
humidity over a saturated calcium chloride solution is Conde's (Int. J. Thermal Sciences 43 (2004)
367 [S]).  Figures are given in rising order of the driving quantity and of removal, so nothing has
to be pooled.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import psychrolib

H_FG = 2.5e6
R_VAPOUR = 461.5
TUB_TRANSFER = 2.1e-3


@dataclass(frozen=True)
class Figure:
    """A maker's figure: state, removal in kg/s, power in W."""

    t_c: float
    rh: float
    removal_kg_s: float
    power_w: float


@dataclass(frozen=True)
class Machine:
    kind: str
    figures: tuple[Figure, ...] = ()
    tub_m2: float | None = None
    lowest_room_c: float | None = None

    def lowest(self) -> float:
        if self.kind != "compressor":
            return -1e9
        return 5.0 if self.lowest_room_c is None else self.lowest_room_c

    def driving(self, t_c: float, humidity_ratio: float, pressure_pa: float) -> float:
        def saturated(temperature: float) -> float:
            return psychrolib.GetSatHumRatio(temperature, pressure_pa)

        if self.kind == "compressor":
            coil = t_c - 15.0
            frost = float(np.interp(coil, [-10.0, 3.0], [0.3, 1.0]))
            return max(0.0, humidity_ratio - saturated(coil)) * frost
        if self.kind == "thermoelectric":
            return max(0.0, humidity_ratio - saturated(max(t_c - 12.0, 0.0)))
        vapour = psychrolib.GetVapPresFromHumRatio(humidity_ratio, pressure_pa)
        if self.kind == "rotor":
            share = (vapour / psychrolib.GetSatVapPres(t_c) - 0.15) / 0.35
            return humidity_ratio**0.5 * min(max(share, 0.0), 1.0)
        over_salt = float(np.interp(t_c, [0.0, 5.0, 10.0, 20.0], [0.43, 0.41, 0.39, 0.34]))
        lack = vapour - over_salt * psychrolib.GetSatVapPres(t_c)
        return max(0.0, lack / (R_VAPOUR * (t_c + 273.15)))

    def full(self, t_c: float, humidity_ratio: float, pressure_pa: float) -> tuple[float, float]:
        """Removal in kg/s and power in W of a machine that runs all the time."""
        drive = self.driving(t_c, humidity_ratio, pressure_pa)
        if self.tub_m2 is not None:
            return TUB_TRANSFER * self.tub_m2 * drive, 0.0
        drives = [self._rated(figure) for figure in self.figures]
        removals = [figure.removal_kg_s for figure in self.figures]
        power = float(np.interp(drive, drives, [figure.power_w for figure in self.figures]))
        if drive > drives[-1]:
            removal = removals[-1] * drive / drives[-1]
        else:
            removal = float(np.interp(drive, [0.0, *drives], [0.0, *removals]))
        if self.kind == "rotor":
            removal = min(removal, 1.2 * removals[-1], power / H_FG)
        return removal, power

    def _rated(self, figure: Figure) -> float:
        ratio = psychrolib.GetHumRatioFromRelHum(figure.t_c, figure.rh, 101325.0)
        return self.driving(figure.t_c, ratio, 101325.0)
