"""Five invented vehicles through a month of two invented weathers, hour by hour, by scipy.

A plain system of differential equations, integrated by an implicit method of scipy (Radau) that is
started anew every hour: thermostat, hygrostat and saturation are very steep but smooth controls
instead of conditions, the air balance is a root of brentq for sharp openings, sun and planes are
pvlib's, moist air psychrolib's.  It shares no formula layout with the program.

Written: winter_weather_1.epw and _2.epw (a month each, 14 days of spin-up are the first of it),
winter_1.ron to winter_5.ron (the surveys), winter.csv (the hours).  Ten minutes on two cores.
"""

from __future__ import annotations

import csv
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

import numpy as np
import pandas as pd
import psychrolib
import pvlib
from scipy.integrate import solve_ivp
from scipy.interpolate import Akima1DInterpolator
from scipy.optimize import brentq

import air  # sets psychrolib's units
from machines import Figure, Machine, H_FG, R_VAPOUR, TUB_TRANSFER

HOURS = 30 * 24
SPIN_UP = 14 * 24
#: February, so that no reader takes the month for the start of a whole year cut short.
FIRST = pd.Timestamp("2023-02-01")
HEADER = ("vehicle", "weather", "hour", "t_c", "rh", "removed_kg", "heater_wh", "machine_wh")
SIGMA = 5.670374419e-8

LONG = ([0, 45, 90, 135, 180], [0.5, 0.25, -0.5, -0.8, -0.7])
SHORT = ([0, 45, 90, 135, 180], [0.6, 0.2, -0.9, -0.6, -0.35])
LONG_PART = ([0, 45, 90, 135, 180], [0.25, 0.06, -0.35, -0.6, -0.5])
SHORT_PART = ([0, 45, 90, 135, 180], [0.4, 0.2, -0.6, -0.5, -0.3])
FLOOR = ([0, 22.5, 45, 67.5, 90], [-0.22, -0.26, -0.35, -0.44, -0.59])
NORMAL = {"front": 0.0, "offside": 90.0, "rear": 180.0, "nearside": 270.0}
TERRAIN = {"open_flat": (0.68, 0.17), "scattered_windbreaks": (0.52, 0.20), "urban": (0.35, 0.25)}
RSI = {"wall": 0.13, "window": 0.13, "door": 0.13, "roof": 0.10, "rooflight": 0.10, "floor": 0.17}

#: Gaps are (facing, width mm, height mm, height above ground m); elements (part, area, U, bridge %,
#: facing or None).
VEHICLES = [
    dict(
        size=(5.4, 2.3, 2.6, 0.45), volume=22.0, heading=20.0, altitude=60.0,
        terrain="scattered_windbreaks", shelter="exposed", colour="white", blinds=False,
        gaps=[("nearside", 60, 40, 1.2), ("offside", 50, 50, 2.1), ("underfloor", 80, 60, 0.45),
              ("roof", 40, 40, 2.6), ("rear", 30, 60, 0.9)],
        fabric=[("wall", 28.0, 1.1, 15, None), ("roof", 12.0, 1.0, 10, None),
                ("floor", 12.0, 0.7, 10, None), ("window", 2.2, 2.7, 0, "nearside"),
                ("window", 1.6, 5.2, 0, "front")],
        option="nothing",
    ),
    dict(
        size=(6.0, 2.1, 2.7, 0.55), volume=16.0, heading=265.0, altitude=300.0,
        terrain="open_flat", shelter="part_sheltered", colour="grey", blinds=False,
        gaps=[("front", 100, 40, 1.0), ("nearside", 70, 40, 1.5), ("underfloor", 60, 60, 0.55),
              ("roof", 50, 40, 2.7)],
        fabric=[("wall", 26.0, 1.3, 25, None), ("roof", 10.0, 1.3, 25, None),
                ("floor", 9.0, 0.9, 20, None), ("window", 2.5, 5.3, 0, None)],
        machine=dict(kind="compressor", removal=10.0, power=260.0, lowest=-15.0, target=60.0),
        option="machine",
    ),
    dict(
        size=(7.0, 2.4, 3.0, 0.6), volume=30.0, heading=130.0, altitude=0.0,
        terrain="urban", shelter="exposed", colour="white", blinds=True,
        gaps=[("offside", 90, 60, 1.4), ("rear", 60, 60, 2.4), ("underfloor", 120, 40, 0.6)],
        fabric=[("wall", 34.0, 1.0, 15, None), ("roof", 16.0, 0.9, 10, None),
                ("floor", 15.0, 0.7, 10, None), ("window", 3.0, 2.7, 0, None),
                ("rooflight", 0.6, 3.0, 0, None)],
        heater=dict(rating=900.0, set=5.0), option="heater",
    ),
    dict(
        size=(6.5, 2.3, 2.9, 0.5), volume=25.0, heading=310.0, altitude=500.0,
        terrain="scattered_windbreaks", shelter="part_sheltered", colour="dark", blinds=True,
        gaps=[("front", 60, 60, 1.1), ("offside", 80, 40, 1.8), ("underfloor", 70, 60, 0.5),
              ("roof", 60, 40, 2.9)],
        fabric=[("wall", 32.0, 1.0, 15, None), ("roof", 14.0, 1.0, 15, None),
                ("floor", 13.0, 0.7, 10, None), ("window", 2.6, 2.7, 0, "offside"),
                ("door", 1.4, 1.6, 20, "nearside")],
        heater=dict(rating=2500.0, set=8.0), comfort=18.0, presence=(18.0, 8.0),
        sources=[("other", 45.0, 10.0), ("person_asleep", 40.0, 8.0)], option="heater",
    ),
    dict(
        size=(5.0, 2.2, 2.5, 0.4), volume=18.0, heading=85.0, altitude=150.0,
        terrain="scattered_windbreaks", shelter="exposed", colour="dark", blinds=False,
        gaps=[("nearside", 40, 40, 1.0), ("rear", 40, 40, 2.0), ("underfloor", 50, 40, 0.4)],
        fabric=[("wall", 25.0, 1.2, 15, None), ("roof", 10.0, 1.2, 15, None),
                ("floor", 10.0, 0.8, 10, None), ("window", 2.0, 2.7, 0, "rear")],
        sources=[("other", 12.0, 24.0)], machine=dict(kind="salt_tub", area=0.3), option="machine",
    ),
]
PLACES = [(51.7, -1.2, 0.0, 70.0, 5.0, 0.86), (46.8, 11.3, 1.0, 560.0, -1.5, 0.74)]


def weather(number: int) -> list[dict]:
    """Thirty days: swings by the day and by the week, clouds, gusts; all invented."""
    latitude, longitude, zone, altitude, mean, damp = PLACES[number - 1]
    random = np.random.default_rng([2026, number])
    rows, cloud, wind, direction = [], 0.6, 3.0, 240.0
    for at in range(HOURS):
        day, hour = divmod(at, 24)
        cloud = min(max(cloud + random.normal(0, 0.15), 0.0), 1.0)
        wind = abs(wind + random.normal(0, 0.9) + 0.08 * (4.0 - wind))
        direction = (direction + random.normal(0, 14)) % 360.0
        swing = (1.6 - cloud) * 2.6 * np.cos(2 * np.pi * (hour + 0.5 - 14.5) / 24)
        t = mean + swing + 3.5 * np.sin(2 * np.pi * at / 190.0) + random.normal(0, 0.2)
        rh = min(max(damp - 0.025 * swing + random.normal(0, 0.02), 0.3), 1.0)
        date = FIRST + pd.Timedelta(days=day)
        rows.append(dict(
            date=date, hour=hour + 1, t=round(float(t), 2), rh=round(float(100 * rh), 1),
            pressure=round(101325 * (1 - 2.25577e-5 * altitude) ** 5.2559 + random.normal(0, 300)),
            wind=round(wind, 2), direction=round(direction, 1), cloud=cloud,
        ))
    times = pd.DatetimeIndex([
        row["date"] + pd.Timedelta(hours=row["hour"] - 0.5 - zone)
        for row in rows
    ], tz="UTC")
    sun = pd.concat([
        pvlib.solarposition.spa_python(
            times[[at]], latitude, longitude, altitude=0, pressure=rows[at]["pressure"],
            temperature=12, delta_t=67.0,
        ) for at in range(HOURS)
    ])
    for row, elevation, azimuth in zip(rows, sun["apparent_elevation"], sun["azimuth"]):
        sine = max(0.0, float(np.sin(np.radians(elevation))))
        clear = 1000.0 * np.exp(-0.14 / max(sine, 0.03)) if sine > 0 else 0.0
        row["dni"] = round(clear * (1 - row["cloud"]))
        row["dhi"] = round((60 + 180 * row["cloud"]) * sine)
        row["ghi"] = round(row["dni"] * sine + row["dhi"])
        row["elevation"], row["azimuth"] = float(elevation), float(azimuth)
        black = SIGMA * (row["t"] + 273.15) ** 4
        row["ir"] = round(black * (0.72 + 0.22 * row["cloud"]))
    return rows


def epw(number: int, rows: list[dict]) -> str:
    latitude, longitude, zone, altitude, *_ = PLACES[number - 1]
    lines = [
        f"LOCATION,invented {number},-,-,invented,000000,{latitude},{longitude},{zone},{altitude}",
        "DESIGN CONDITIONS,0", "TYPICAL/EXTREME PERIODS,0", "GROUND TEMPERATURES,0",
        "HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0", "COMMENTS 1,invented", "COMMENTS 2,",
        "DATA PERIODS,1,1,Data,Monday,2/1,3/2",
    ]
    for row in rows:
        date = row["date"]
        lines.append(
            f"{date.year},{date.month},{date.day},{row['hour']},60,?9,{row['t']},99.9,{row['rh']},"
            f"{row['pressure']},9999,9999,{row['ir']},{row['ghi']},{row['dni']},{row['dhi']},"
            f"999999,999999,999999,9999,{row['direction']},{row['wind']},99,99,9999,99999,9,"
            "999999999,999,.999,999,99,999,999,99"
        )
    return "\n".join(lines) + "\n"


def survey(vehicle: dict) -> str:
    length, width, roof, floor = vehicle["size"]
    machine, heater = vehicle.get("machine"), vehicle.get("heater")
    in_use = "comfort" in vehicle
    gaps = "\n".join(
        f"    (id: {at}, zone: 1, facing: {facing}, form: rectangular_hole(width_mm: {w}, "
        f"height_mm: {h}), position: (height_m: {z}), certainty: measured),"
        for at, (facing, w, h, z) in enumerate(vehicle["gaps"], 1)
    )

    def outline(facing: str | None) -> str:
        if facing is None:
            return ""
        return (f", outline: (facing: {facing}, along_m: 2, up_m: 1.5, width_m: 1, height_m: 0.6)")

    fabric = "\n".join(
        f'    (id: {at}, name: "{part} {at}", part: {part}, area_m2: {area}, '
        f"build_up: stated(u_w_per_m2_k: {u}), bridge_percent: {bridge}{outline(facing)}),"
        for at, (part, area, u, bridge, facing) in enumerate(vehicle["fabric"], 1)
    )
    sources = "\n".join(
        f'    (id: {at}, name: "source {at}", kind: {kind}, count: 1, rate_g_per_h: {rate}, '
        f"hours_per_day: {hours}, laid_up: {str(not in_use).lower()}, in_use: {str(in_use).lower()}),"
        for at, (kind, rate, hours) in enumerate(vehicle.get("sources", []), 1)
    )
    machines = ""
    if machine and machine["kind"] == "compressor":
        machines = (
            f'    (id: 1, name: "machine", kind: compressor, rated_removal_l_per_day: '
            f"{machine['removal']}, rated_temperature_c: 30, rated_rh_percent: 80, power_w: "
            f"{machine['power']}, lowest_room_c: {machine['lowest']}, hygrostat: true),"
        )
    elif machine:
        machines = (
            f'    (id: 1, name: "tub", kind: salt_tub, tub_area_m2: {machine["area"]}, '
            "hygrostat: false),"
        )
    heaters = ""
    if heater:
        heaters = (
            f'    (id: 1, name: "heater", fuel: electricity, rating_w: {heater["rating"]}, '
            f"set_point_c: {heater['set']}),"
        )
    rh = machine.get("target", 60.0) if machine else 60.0
    return f"""// Gapledger survey
#![enable(implicit_some)]
(
  format: 2,
  header: (title: "Invented, for the reference of the winter"),
  vehicle: (
    kind: other, length_m: {length}, width_m: {width}, height_m: {roof}, floor_height_m: {floor},
    volume_m3: {vehicle['volume']}, underside: open,
  ),
  site: (
    terrain: {vehicle['terrain']}, shelter: {vehicle['shelter']}, pressure_set: low_rise,
    heading_deg: {vehicle['heading']}, altitude_m: {vehicle['altitude']},
  ),
  targets: (rh_percent: {rh}, comfort_c: {vehicle.get('comfort', 20.0)}),
  set_up: {'in_use' if in_use else 'laid_up'},
  zones: [(id: 1, name: "all")],
  gaps: [
{gaps}
  ],
  fabric: [
{fabric}
  ],
  machines: [
{machines}
  ],
  heaters: [
{heaters}
  ],
  sources: [
{sources}
  ],
)
"""


def pressure_coefficient(vehicle: dict, facing: str, from_front: float) -> float:
    part = vehicle["shelter"] == "part_sheltered"
    if facing == "underfloor":
        folded = from_front % 180.0
        return float(np.interp(min(folded, 180.0 - folded), *FLOOR)) * (0.8 if part else 1.0)
    if facing == "roof":
        off_long = abs((from_front - 90.0 + 90.0) % 180.0 - 90.0)
        return -0.6 if part else float(np.interp(off_long, [0, 45, 90], [-0.7, -0.7, -0.8]))
    off = abs((from_front - NORMAL[facing] + 180.0) % 360.0 - 180.0)
    if facing in ("nearside", "offside"):
        return float(np.interp(off, *(LONG_PART if part else LONG)))
    return float(np.interp(off, *(SHORT_PART if part else SHORT)))


class Hour:
    """All of an hour that does not change within it."""

    def __init__(self, vehicle: dict, row: dict, place: tuple) -> None:
        self.t_o, rh, self.pressure = row["t"], row["rh"] / 100, float(row["pressure"])
        self.w_o = psychrolib.GetHumRatioFromRelHum(self.t_o, rh, self.pressure)
        k, a = TERRAIN[vehicle["terrain"]]
        self.wind = max(0.5, row["wind"] * k * vehicle["size"][2] ** a)
        self.present = vehicle.get("comfort") is not None
        if "presence" in vehicle:
            start, end = vehicle["presence"]
            middle = row["hour"] - 0.5
            self.present = middle >= start or middle < end
        self.flow = self.air(vehicle, row)
        self.envelope(vehicle, row)

    def air(self, vehicle: dict, row: dict):
        from_front = (row["direction"] - vehicle["heading"]) % 360.0
        length, width, roof, floor = vehicle["size"]
        middle = (roof + floor) / 2
        area = np.array([w * h * 1e-6 for _, w, h, _ in vehicle["gaps"]])
        z = np.array([height for *_, height in vehicle["gaps"]])
        cp = np.array([pressure_coefficient(vehicle, gap[0], from_front) for gap in vehicle["gaps"]])
        rho_o = psychrolib.GetMoistAirDensity(self.t_o, self.w_o, self.pressure)
        widest = max(
            area[[gap[0] == face for gap in vehicle["gaps"]]].sum()
            for face in {gap[0] for gap in vehicle["gaps"]}
        )
        gust = 0.025 * widest * self.wind * rho_o

        def inflow(t_i: float) -> float:
            w_i = min(self.w_o, psychrolib.GetSatHumRatio(t_i, self.pressure))
            rho_i = psychrolib.GetMoistAirDensity(t_i, w_i, self.pressure)
            outside = cp * 0.5 * rho_o * self.wind**2 - (rho_o - rho_i) * 9.81 * (z - middle)

            def net(p: float) -> float:
                dp = outside - p
                into = 0.61 * area * np.sqrt(2 * rho_o * np.maximum(dp, 0))
                out = 0.61 * area * np.sqrt(2 * rho_i * np.maximum(-dp, 0))
                return float(into.sum() - out.sum())

            p = brentq(net, outside.min() - 1e-6, outside.max() + 1e-6, xtol=1e-13)
            into = 0.61 * area * np.sqrt(2 * rho_o * np.maximum(outside - p, 0))
            return max(float(into.sum()), gust) / (1 + self.w_o)

        warmer = np.array([-14, -9, -6, -4, -2.5, -1.5, -0.8, -0.4, -0.15, 0, 0.15, 0.4, 0.8, 1.5,
                           2.5, 4, 5.5, 7, 9, 12, 16, 21, 27, 34])
        return Akima1DInterpolator(
            warmer, [inflow(self.t_o + step) for step in warmer], method="makima", extrapolate=True
        )

    def envelope(self, vehicle: dict, row: dict) -> None:
        absorbs = {"white": 0.3, "grey": 0.7, "dark": 0.9}[vehicle["colour"]]
        h_e = 2.8 + 3.0 * self.wind + 4.5
        black = SIGMA * (self.t_o + 273.15) ** 4
        loss = 0.9 * (black - row["ir"])
        length, width, *_ = vehicle["size"]
        zenith = 90.0 - row["elevation"]

        def light(tilt: float, facing: float) -> float:
            return float(pvlib.irradiance.get_total_irradiance(
                tilt, facing, zenith, row["azimuth"], dni=row["dni"], ghi=row["ghi"],
                dhi=row["dhi"], albedo=0.2, model="isotropic")["poa_global"])

        sides = {name: light(90.0, (vehicle["heading"] + off) % 360) for name, off in NORMAL.items()}
        around = 2 * (length + width)
        mean = (width * (sides["front"] + sides["rear"])
                + length * (sides["nearside"] + sides["offside"])) / around
        self.gain, self.seen, self.area, self.factor, self.ua = 0.0, [], [], [], 0.0
        for part, area, u, bridge, facing in vehicle["fabric"]:
            ua = u * area * (1 + bridge / 100)
            self.ua += ua
            on = light(0.0, 0.0) if part in ("roof", "rooflight") else (
                sides[facing] if facing else mean)
            view = {"roof": 1.0, "rooflight": 1.0, "floor": 0.0}.get(part, 0.5)
            glass = part in ("window", "rooflight")
            if part == "floor":
                continue
            if glass:
                through = (0.68 if u < 3.6 else 0.8) * (0.5 if vehicle["blinds"] else 1.0)
                self.gain += through * area * on - ua * view * loss / h_e
                self.seen.append(self.t_o - view * loss / h_e)
            else:
                warmer = (absorbs * on - view * loss) / h_e
                self.gain += ua * warmer
                self.seen.append(self.t_o + warmer)
            layers = max(0.0, 1 / u - RSI[part] - 0.04)
            judging = 0.13 if glass else 0.25
            self.area.append(area)
            self.factor.append((layers + 0.04) / (layers + 0.04 + judging))
        self.seen, self.area = np.array(self.seen), np.array(self.area)
        self.factor = np.array(self.factor)


def saturation(t_c: float) -> float:
    return psychrolib.GetSatVapPres(t_c)


class Room:
    def __init__(self, vehicle: dict) -> None:
        self.vehicle = vehicle
        self.volume = vehicle["volume"]
        self.capacity = 30e3 * self.volume
        self.buffer = 0.1 * 0.6 * 2.0 * self.volume
        machine, heater = vehicle.get("machine"), vehicle.get("heater")
        self.tub = machine["area"] if machine and machine["kind"] == "salt_tub" else None
        self.machine = None
        if machine and machine["kind"] == "compressor":
            rated = Figure(30.0, 0.8, machine["removal"] / 86400.0, machine["power"])
            self.machine = Machine("compressor", (rated,), None, machine["lowest"])
            self.target = machine["target"] / 100
        self.heater = heater
        liquid = vapour = heat = 0.0
        for kind, rate, hours in vehicle.get("sources", []):
            mean = rate * 1e-3 / 3600 * hours / 24
            if kind == "other":
                liquid += mean
            else:
                vapour += mean
                heat += (0.7 * 58.2 * 1.8 - rate * 1e-3 / 3600 * H_FG) * hours / 24
        self.sources = (vapour, liquid, heat)

    def rates(self, hour: Hour, y: np.ndarray) -> np.ndarray:
        t, p, films = y[0], max(y[1], 1.0), y[2:2 + len(hour.area)]
        p_sat = saturation(t)
        rh = p / p_sat
        w = psychrolib.GetHumRatioFromVapPres(p, hour.pressure)
        flow = float(hour.flow(t - hour.t_o))
        here = hour.seen + hour.factor * (t - hour.seen)
        density = p / (R_VAPOUR * (t + 273.15))
        over = np.array([saturation(s) / (R_VAPOUR * (s + 273.15)) for s in here])
        onto = TUB_TRANSFER * hour.area * (density - over)
        wet = np.maximum(films, 0) / (np.maximum(films, 0) + 2e-5 * hour.area)
        onto = np.where(onto > 0, onto, onto * wet)
        over_full = (films >= 0.1 * hour.area) & (onto > 0)
        excess = 0.05 * max(0.0, rh - 1.0)
        vapour, liquid, people = self.sources
        if "presence" in self.vehicle:
            start, end = self.vehicle["presence"]
            times = 24 / ((end - start) % 24) if hour.present else 0.0
            vapour, liquid, people = vapour * times, liquid * times, people * times
        removal = power = heat = 0.0
        if self.machine:
            full, watts = self.machine.full(t, w, hour.pressure)
            duty = float(np.clip((rh - self.target) / 2e-4, 0, 1))
            removal, power = duty * full, duty * watts
        if self.tub:
            salt = float(np.interp(t, [0, 5, 10, 20], [0.43, 0.41, 0.39, 0.34]))
            lack = density - salt * p_sat / (R_VAPOUR * (t + 273.15))
            removal = TUB_TRANSFER * self.tub * max(0.0, lack)
        if self.heater:
            point = self.vehicle["comfort"] if hour.present else self.heater["set"]
            heat = self.heater["rating"] * float(np.clip((point + 0.0025 - t) / 0.005, 0, 1))
        net = flow * (hour.w_o - w) + vapour + liquid - removal - onto.sum() - excess
        q = ((hour.ua + flow * (1006 + 1860 * hour.w_o)) * (hour.t_o - t) + hour.gain + people
             + heat + power + (removal + (hour.factor * onto).sum() + excess - liquid) * H_FG)
        # B dphi/dt = B/p_sat dp/dt - B phi (p_sat'/p_sat) dT/dt
        slope = (saturation(t + 0.005) - saturation(t - 0.005)) / 0.01 / p_sat
        b, holds = self.buffer, self.volume / (R_VAPOUR * (t + 273.15))
        # [C + h B phi s, -h B/p_sat; -B phi s, holds + B/p_sat] [T', p'] = [q, net]
        a11, a12 = self.capacity + H_FG * b * rh * slope, -H_FG * b / p_sat
        a21, a22 = -b * rh * slope, holds + b / p_sat
        det = a11 * a22 - a12 * a21
        dt, dp = (a22 * q - a12 * net) / det, (a11 * net - a21 * q) / det
        grown = np.where(over_full, 0.0, onto)
        return np.concatenate([[dt, dp], grown, [t, rh, removal, heat, power]])


def season(job: tuple[int, int]) -> list[list[object]]:
    number, which = job
    vehicle, rows = VEHICLES[number - 1], weather(which)
    hours = [Hour(vehicle, row, PLACES[which - 1]) for row in rows]
    room = Room(vehicle)
    first = hours[0]
    films = len(first.area)
    state = np.zeros(2 + films)
    state[0] = first.t_o
    rh = rows[0]["rh"] / 100
    state[1] = min(rh, 0.95) * saturation(first.t_o)
    found = []
    for at in list(range(SPIN_UP)) + [SPIN_UP + at for at in range(HOURS)]:
        hour = hours[at] if at < SPIN_UP else hours[at - SPIN_UP]
        y = np.concatenate([state, np.zeros(5)])
        scale = np.concatenate([[1e-6, 1e-4], np.full(films, 1e-8), [1e-2, 1e-4, 1e-8, 1.0, 1.0]])
        solved = solve_ivp(
            lambda _, y, hour=hour: room.rates(hour, y), (0.0, 3600.0), y, method="Radau",
            rtol=1e-6, atol=scale, first_step=5.0, max_step=600.0,
        )
        assert solved.success, solved.message
        end = solved.y[:, -1]
        state = end[:2 + films]
        if at >= SPIN_UP:
            t, rh, removed, heat, power = end[2 + films:]
            found.append([
                number, which, at - SPIN_UP, f"{t / 3600:.4f}", f"{rh / 3600:.5f}",
                f"{removed:.6f}", f"{heat / 3600:.3f}", f"{power / 3600:.3f}",
            ])
    return found


#: Every vehicle through every weather, and the two of them that a quick comparison takes: one with a
#: machine that dries, one with a heater.
ALL = [(number, which) for number in range(1, len(VEHICLES) + 1) for which in (1, 2)]
SOME = [(2, 1), (3, 2)]


def write(folder: Path, jobs: list[tuple[int, int]] = ALL) -> None:
    for number in (1, 2):
        (folder / f"winter_weather_{number}.epw").write_text(epw(number, weather(number)))
    for number, vehicle in enumerate(VEHICLES, 1):
        (folder / f"winter_{number}.ron").write_text(survey(vehicle))
    with ProcessPoolExecutor(2) as pool:
        rows = [row for found in pool.map(season, jobs) for row in found]
    with open(folder / "winter.csv", "w", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(HEADER)
        writer.writerows(rows)


if __name__ == "__main__":
    write(Path(__file__).resolve().parent)
