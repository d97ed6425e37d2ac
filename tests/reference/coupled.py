"""Reference solution of the coupled balance of heat and water, nested scipy.optimize.brentq.

    water  m (W_o - W) + S - duty D(T, W) - sum C_s - C = 0
    heat   (UA + m (1006 + 1860 W_o)) (T - T_o)
           = Q + gains + duty P + (duty D + sum f_s C_s + C) h_fg - S_liquid h_fg
    C_s = 2.1e-3 m/s A_s max(0, rho_v(T) - rho_v,sat(T_s)),  T_s = T_seen + f_s (T - T_seen)

The program solves one falling function of the temperature in which hygrostat and thermostat are
eliminated.  Here they are the outer loops: heater output Q, in it the duty, in it the temperature,
in it the humidity ratio, each by brentq.  Moist air is psychrolib's.  Air flow is a made-up
m = still + stack sqrt(|T - T_o|), standing for wind and stack.

Rooms with surfaces also have what clears the first of them, where it is above its limit: the
removal with the temperature kept, and the inside temperature with the heater raised, up to 30 degC.
At a given inside temperature dry heat has no part in the water, so the second is one brentq in the
temperature over the water balances; where that crosses the limit more than once it is left out.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import psychrolib
from scipy.optimize import brentq

from air import RTOL
from machines import H_FG, R_VAPOUR, TUB_TRANSFER, Figure, Machine

CASES = 260
# Rooms from this one on have surfaces.
FIRST_WITH_SURFACES = 201
WARMEST_C = 30.0


@dataclass(frozen=True)
class Surface:
    area_m2: float
    factor: float
    seen_c: float

    def temperature(self, inside_c: float) -> float:
        return self.seen_c + self.factor * (inside_c - self.seen_c)

    def takes(self, inside_c: float, vapour_pa: float) -> float:
        here = self.temperature(inside_c)
        inside = vapour_pa / (R_VAPOUR * (inside_c + 273.15))
        saturated = psychrolib.GetSatVapPres(here) / (R_VAPOUR * (here + 273.15))
        return TUB_TRANSFER * self.area_m2 * max(0.0, inside - saturated)


@dataclass(frozen=True)
class Room:
    t_out_c: float
    rh_out: float
    pressure_pa: float
    fabric_w_per_k: float
    vapour_kg_s: float
    liquid_kg_s: float
    gains_w: float
    heater_w: float | None
    set_point_c: float | None
    water_kg_per_j: float
    hygrostat_rh: float | None
    still_kg_s: float
    stack_kg_s_k05: float
    machine: Machine | None
    surfaces: tuple[Surface, ...] = ()
    limit: float | None = None


@dataclass(frozen=True)
class Answer:
    t_in_c: float
    humidity_ratio: float
    removal_kg_s: float
    duty: float
    machine_w: float
    heater_w: float
    condensation_kg_s: float
    on_surfaces_kg_s: float
    runs: bool


class Solver:
    """One room with its machine running or standing."""

    def __init__(self, room: Room, runs: bool) -> None:
        self.room = room
        self.runs = runs
        self.w_out = psychrolib.GetHumRatioFromRelHum(
            room.t_out_c, room.rh_out, room.pressure_pa
        )

    def flow(self, t_c: float) -> float:
        return self.room.still_kg_s + self.room.stack_kg_s_k05 * abs(t_c - self.room.t_out_c) ** 0.5

    def machine(self, t_c: float, ratio: float, duty: float) -> tuple[float, float]:
        if not self.runs or self.room.machine is None:
            return 0.0, 0.0
        removal, power = self.room.machine.full(t_c, ratio, self.room.pressure_pa)
        return duty * removal, duty * power

    def onto_surfaces(self, t_c: float, ratio: float) -> tuple[float, float]:
        """What condenses on the surfaces, and the part whose heat comes back."""
        vapour = psychrolib.GetVapPresFromHumRatio(ratio, self.room.pressure_pa)
        each = [(one.factor, one.takes(t_c, vapour)) for one in self.room.surfaces]
        return sum(taken for _, taken in each), sum(factor * taken for factor, taken in each)

    def water(self, t_c: float, duty: float, source: float) -> tuple[float, float]:
        """Humidity ratio and condensation at a temperature."""
        flow = self.flow(t_c)
        saturated = psychrolib.GetSatHumRatio(t_c, self.room.pressure_pa)

        def left(ratio: float) -> float:
            removal = self.machine(t_c, ratio, duty)[0]
            onto = self.onto_surfaces(t_c, ratio)[0]
            return flow * (self.w_out - ratio) + source - removal - onto

        if left(saturated) >= 0.0:
            return saturated, left(saturated)
        return brentq(left, 0.0, saturated, xtol=1e-300, rtol=RTOL, maxiter=500), 0.0

    def state(self, duty: float, heater: float) -> Answer:
        """The state at a given duty and heater output."""
        room = self.room
        source = room.vapour_kg_s + room.liquid_kg_s + heater * room.water_kg_per_j

        def answer(t_c: float) -> tuple[float, Answer]:
            ratio, condensation = self.water(t_c, duty, source)
            removal, power = self.machine(t_c, ratio, duty)
            through = room.fabric_w_per_k + self.flow(t_c) * (1006.0 + 1860.0 * self.w_out)
            gains = heater + room.gains_w + power
            onto, back = self.onto_surfaces(t_c, ratio)
            latent = (removal + condensation + back - room.liquid_kg_s) * H_FG
            residual = gains + latent - through * (t_c - room.t_out_c)
            found = Answer(
                t_c, ratio, removal, duty if self.runs else 0.0, power, heater, condensation,
                onto, self.runs,
            )
            return residual, found

        t_c = brentq(lambda t: answer(t)[0], -59.0, 59.9, xtol=1e-300, rtol=RTOL, maxiter=500)
        return answer(t_c)[1]

    def rh(self, answer: Answer) -> float:
        vapour = psychrolib.GetVapPresFromHumRatio(answer.humidity_ratio, self.room.pressure_pa)
        return vapour / psychrolib.GetSatVapPres(answer.t_in_c)

    def on_hygrostat(self, heater: float) -> Answer:
        setting = self.room.hygrostat_rh
        full = self.state(1.0, heater)
        if setting is None or not self.runs or self.rh(full) >= setting:
            return full
        idle = self.state(0.0, heater)
        if self.rh(idle) <= setting:
            return idle
        duty = brentq(
            lambda share: self.rh(self.state(share, heater)) - setting,
            0.0, 1.0, xtol=1e-300, rtol=RTOL, maxiter=500,
        )
        return self.state(duty, heater)

    def on_thermostat(self) -> Answer:
        rating, wanted = self.room.heater_w, self.room.set_point_c
        if rating is None:
            return self.on_hygrostat(0.0)
        full = self.on_hygrostat(rating)
        if wanted is None or full.t_in_c <= wanted:
            return full
        off = self.on_hygrostat(0.0)
        if off.t_in_c >= wanted:
            return off
        output = brentq(
            lambda watts: self.on_hygrostat(watts).t_in_c - wanted,
            0.0, rating, xtol=1e-300, rtol=RTOL, maxiter=500,
        )
        return self.on_hygrostat(output)


def solve(room: Room) -> Answer:
    standing = Solver(room, False).on_thermostat()
    if room.machine is None or standing.t_in_c < room.machine.lowest():
        return standing
    return Solver(room, True).on_thermostat()


def clearing(room: Room, answer: Answer) -> tuple[float | None, float | None]:
    """Removal and inside temperature that clear the first surface; None where there is none."""
    if not room.surfaces:
        return None, None
    surface, t_in = room.surfaces[0], answer.t_in_c

    def most(t_c: float) -> float:
        return room.limit * psychrolib.GetSatVapPres(surface.temperature(t_c))

    if psychrolib.GetVapPresFromHumRatio(answer.humidity_ratio, room.pressure_pa) <= most(t_in):
        return None, None
    solver = Solver(room, False)
    ratio = psychrolib.GetHumRatioFromVapPres(most(t_in), room.pressure_pa)
    source = room.vapour_kg_s + room.liquid_kg_s
    removal = (
        source + answer.heater_w * room.water_kg_per_j
        + solver.flow(t_in) * (solver.w_out - ratio)
        - solver.onto_surfaces(t_in, ratio)[0]
    )
    if room.water_kg_per_j > 0.0 or t_in >= WARMEST_C:
        return removal, None

    def over(t_c: float) -> float:
        runs = room.machine is not None and t_c >= room.machine.lowest()
        there = Solver(room, runs)
        ratio = there.water(t_c, 1.0, source)[0]
        if runs and room.hygrostat_rh is not None:
            held = psychrolib.GetHumRatioFromRelHum(t_c, room.hygrostat_rh, room.pressure_pa)
            if ratio < held:
                ratio = min(held, Solver(room, False).water(t_c, 0.0, source)[0])
        return psychrolib.GetVapPresFromHumRatio(ratio, room.pressure_pa) / most(t_c) - 1.0

    grid = np.linspace(t_in + 1e-6, WARMEST_C, 40)
    signs = [over(float(t_c)) > 0.0 for t_c in grid]
    changes = [at for at in range(len(grid) - 1) if signs[at] != signs[at + 1]]
    if len(changes) != 1 or not signs[0]:
        return removal, None
    ends = float(grid[changes[0]]), float(grid[changes[0] + 1])
    warm = brentq(over, *ends, xtol=1e-300, rtol=RTOL, maxiter=500)
    return removal, warm if abs(over(warm)) < 1e-9 else None


KINDS = ("none", "compressor", "thermoelectric", "rotor", "salt")
# Rating states in rising order of every kind's driving quantity.
STATES = ((10.0, 0.7), (20.0, 0.7), (30.0, 0.8))


def machine(kind: str, rng: np.random.Generator) -> Machine | None:
    if kind == "none":
        return None
    if kind == "salt":
        return Machine(kind, tub_m2=_round(rng.uniform(0.005, 0.3)))
    largest = {"compressor": 30.0, "thermoelectric": 1.0, "rotor": 9.0}[kind] / 86400.0
    power = {"compressor": 300.0, "thermoelectric": 60.0, "rotor": 600.0}[kind]
    last = Figure(*STATES[2], _round(largest * rng.uniform(0.3, 1.0)), _round(power))
    figures = [last]
    if rng.random() < 0.5:
        shares = sorted(rng.uniform(0.1, 0.95, 2))
        figures = [
            Figure(t, rh, _round(last.removal_kg_s * share), _round(power * rng.uniform(0.6, 1.0)))
            for (t, rh), share in zip(STATES, shares)
        ] + [last]
    lowest = _round(rng.uniform(-2.0, 8.0)) if rng.random() < 0.4 else None
    return Machine(kind, tuple(figures), None, lowest if kind == "compressor" else None)


def _round(value: float) -> float:
    return float(f"{value:.4g}")


def room(number: int) -> Room:
    """Case `number`, drawn at random; the kinds take turns."""
    rng = np.random.default_rng([2004, 8, number])

    def perhaps(chance: float, low: float, high: float) -> float | None:
        return _round(rng.uniform(low, high)) if rng.random() < chance else None

    heater = perhaps(0.4, 100.0, 2000.0)
    drawn = Room(
        t_out_c=_round(rng.uniform(-5.0, 16.0)),
        rh_out=_round(rng.uniform(0.6, 1.0)),
        pressure_pa=[101325.0, 95461.0, 84500.0][number % 3],
        fabric_w_per_k=_round(rng.uniform(40.0, 150.0)),
        vapour_kg_s=perhaps(0.3, 0.0, 6e-5) or 0.0,
        liquid_kg_s=perhaps(0.3, 0.0, 6e-5) or 0.0,
        gains_w=perhaps(0.3, 0.0, 300.0) or 0.0,
        heater_w=heater,
        set_point_c=perhaps(0.7, 4.0, 20.0) if heater else None,
        water_kg_per_j=3.5e-8 if heater and rng.random() < 0.25 else 0.0,
        hygrostat_rh=perhaps(0.7, 0.4, 0.75),
        still_kg_s=_round(rng.uniform(1e-3, 0.03)),
        stack_kg_s_k05=_round(rng.uniform(0.0, 3e-3)),
        machine=machine(KINDS[number % len(KINDS)], rng),
    )
    if number < FIRST_WITH_SURFACES:
        return drawn
    # Drawn last, so that the rooms without surfaces stay what they were.
    surfaces = tuple(
        Surface(
            _round(rng.uniform(0.05, 12.0)),
            _round(rng.uniform(0.1, 0.85)),
            _round(drawn.t_out_c - (rng.uniform(2.0, 9.5) if rng.random() < 0.5 else 0.0)),
        )
        for _ in range(rng.integers(1, 7))
    )
    return replace(
        drawn,
        vapour_kg_s=drawn.vapour_kg_s or _round(rng.uniform(0.0, 1.2e-4)),
        surfaces=surfaces,
        limit=(0.6, 0.8, 1.0)[number % 3],
    )


def solved(number: int) -> tuple[Room, Answer, tuple[float | None, float | None]]:
    one = room(number)
    answer = solve(one)
    return one, answer, clearing(one, answer)


HEADER = (
    "case", "t_out_c", "rh_out", "pressure_pa", "fabric_w_per_k", "vapour_kg_s", "liquid_kg_s",
    "gains_w", "heater_w", "set_point_c", "water_kg_per_j", "hygrostat_rh", "still_kg_s",
    "stack_kg_s_k05", "kind", "tub_m2", "lowest_room_c", "figures", "surfaces", "limit", "runs",
    "t_in_c", "humidity_ratio", "removal_kg_s", "duty", "machine_w", "heater_out_w",
    "condensation_kg_s", "on_surfaces_kg_s", "clearing_removal_kg_s", "clearing_c",
)


def row(
    number: int, one: Room, answer: Answer, cleared: tuple[float | None, float | None]
) -> list[object]:
    appliance = one.machine or Machine("none")
    figures = ";".join(
        f"{f.t_c!r}/{f.rh!r}/{f.removal_kg_s!r}/{f.power_w!r}" for f in appliance.figures
    )
    surfaces = ";".join(f"{s.area_m2!r}/{s.factor!r}/{s.seen_c!r}" for s in one.surfaces)
    return [
        number, one.t_out_c, one.rh_out, one.pressure_pa, one.fabric_w_per_k, one.vapour_kg_s,
        one.liquid_kg_s, one.gains_w, one.heater_w, one.set_point_c, one.water_kg_per_j,
        one.hygrostat_rh, one.still_kg_s, one.stack_kg_s_k05, appliance.kind, appliance.tub_m2,
        appliance.lowest_room_c, figures, surfaces, one.limit, int(answer.runs), answer.t_in_c, answer.humidity_ratio,
        answer.removal_kg_s, answer.duty, answer.machine_w, answer.heater_w,
        answer.condensation_kg_s, answer.on_surfaces_kg_s, *cleared,
    ]
