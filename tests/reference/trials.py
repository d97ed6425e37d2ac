"""Trials made up from nothing: invented weather, a body of one node with a known air change, machines,
and loggers that err. It shares no formula layout with the program and reads nothing of it.

`python trials.py` writes `trials.csv`: what daily means of two loggers say of 200 invented trials, and what
the method really did there, which is the same weather run with it less the same weather run without.
`python trials.py sample FOLDER` writes the loggers' files of the sample survey of a trial.

All sizes are invented for this project [N].
"""

import sys
from pathlib import Path

import numpy as np

HERE = Path(__file__).parent
REPEATS = 200
STEP_H = 0.25
PER_DAY = int(24 / STEP_H)
PRESSURE = 101_325.0
VOLUME = 22.0
HEAT_CAPACITY = 450e3  # J/K of fittings and lining
LOSS = 70.0  # W/K through the fabric
STORE = 22.0  # g of water that fittings take up for each percent
STORE_HOURS = 8.0  # time in which they follow the room
SPIN_UP_DAYS = 6


def saturation(t):
    """Pa over water: Buck 1981."""
    return 611.21 * np.exp((18.678 - t / 234.5) * t / (257.14 + t))


def grams(t, rh):
    """g of water for each kg of dry air."""
    vapour = rh * saturation(t)
    return 621.945 * vapour / (PRESSURE - vapour)


def humidity(t, w):
    return w / (w + 621.945) * PRESSURE / saturation(t)


def drift(rng, repeats, steps, hours):
    """Weather that remembers: a first-order chain of unit variance."""
    keep = np.exp(-STEP_H / hours)
    out = np.empty((steps, repeats))
    out[0] = rng.standard_normal(repeats)
    kicks = rng.standard_normal((steps, repeats)) * np.sqrt(1 - keep**2)
    for step in range(1, steps):
        out[step] = keep * out[step - 1] + kicks[step]
    return out


def weather(rng, repeats, days):
    steps = days * PER_DAY
    hour = (np.arange(steps) * STEP_H % 24)[:, None]
    level = rng.uniform(3, 9, repeats)
    slow = drift(rng, repeats, steps, 60)  # lows and highs pass within days
    clouds = 1 / (1 + np.exp(-1.2 * drift(rng, repeats, steps, 30)))
    swing = 1 + 3.5 * (1 - clouds)
    t = level + 3.2 * slow + swing * np.cos((hour - 14.5) / 24 * 2 * np.pi)
    damp = 0.87 + 0.06 * drift(rng, repeats, steps, 24) - 0.022 * swing * np.cos((hour - 14.5) / 24 * 2 * np.pi)
    damp = np.clip(damp, 0.45, 0.99)
    wind = 2.2 * np.exp(0.55 * drift(rng, repeats, steps, 20) - 0.15)
    daylight = np.clip(np.sin((hour - 8) / 8.5 * np.pi), 0, None) * ((hour > 8) & (hour < 16.5))
    sun = 650 * daylight * (1 - 0.85 * clouds)
    return t, grams(t, damp), wind, sun


def tub(t, w, area=0.02):
    """kg/h into calcium chloride brine; it draws no power."""
    brine = np.clip(0.43 - 0.004 * t, 0.3, 0.43)
    room, over = (humidity(t, w) * saturation(t), brine * saturation(t))
    return np.clip(2.1e-3 * area * (room - over) / 461.5 / (t + 273.15) * 3600, 0, None), 0 * t


def compressor(t, w, watts=280.0):
    """kg/h of a unit that takes 10 kg in a day at 27 °C 60 %, with its hygrostat at 55 %."""
    coil = t - 15
    rated = grams(27.0, 0.6) - grams(12.0, 1.0)
    frost = np.clip(0.3 + 0.7 * (coil + 10) / 13, 0.3, 1)
    on = 1 / (1 + np.exp(-(humidity(t, w) - 0.55) / 0.01)) * (t > 3)
    taken = 10 / 24 * np.clip(w - grams(coil, 1.0), 0, None) / rated * frost
    return taken * on, watts * on


def heater(t, w, watts=500.0):
    """A convector that holds 10 °C."""
    return 0 * t, watts / (1 + np.exp((t - 10) / 0.25))


def nothing(t, w):
    return 0 * t, 0 * t


def run(sky, plan, base_ach, by_wind, source=3.0):
    """Room through a plan: one function for each day. Gives T, W, kg taken and kWh used."""
    t_out, w_out, wind, sun = sky
    steps, repeats = t_out.shape
    t, w = t_out[0] + 1.0, w_out[0].copy()
    store = humidity(t, w)
    air = VOLUME * 1.25
    out = [np.empty((steps, repeats)) for _ in range(4)]
    for step in range(steps):
        method = plan[step // PER_DAY]
        taken, watts = method(t, w)
        ach = base_ach + by_wind * wind[step]
        # heat, by the exponential towards where it would settle
        vented = ach * air * 1006 / 3600
        gain = watts + taken / 3600 * 2.5e6 + 0.35 * sun[step]
        settle = t_out[step] + gain / (LOSS + vented)
        t = settle + (t - settle) * np.exp(-(LOSS + vented) * STEP_H * 3600 / HEAT_CAPACITY)
        # water in finer steps: air follows fast
        for _ in range(3):
            part = STEP_H / 3
            rh = humidity(t, w)
            given = STORE * 100 * (store - rh) / STORE_HOURS  # g/h out of the fittings
            store = store - given * part / (STORE * 100)
            rate = ach * (w_out[step] - w) + (given + source - taken * 1000) / air
            w = np.clip(w + rate * part, 0.1, None)
        wet = grams(t, np.ones_like(t))
        w = np.minimum(w, wet)
        for place, value in zip(out, (t, w, taken * STEP_H, watts * STEP_H / 1000)):
            place[step] = value
    return out


def read(rng, t, w):
    """What a logger says: an offset of its own that stays, noise, a last digit."""
    repeats = t.shape[1]
    seen_t = np.round(t + rng.normal(0, 0.25, repeats) + rng.normal(0, 0.08, t.shape), 1)
    rh = humidity(t, w) * 100 + rng.normal(0, 1.5, repeats) + rng.normal(0, 0.4, t.shape)
    seen_rh = np.clip(np.round(rh, 1), 1, 100)
    return seen_t, grams(seen_t, seen_rh / 100)


def by_day(values):
    return values.reshape(-1, PER_DAY, values.shape[1]).mean(axis=1)


def trial(rng, method, length, periods, repeats=REPEATS):
    """Off, on, off, on … each so many days. Gives daily means seen, and what was true."""
    days = SPIN_UP_DAYS + length * periods
    sky = weather(rng, repeats, days)
    plan = [nothing] * SPIN_UP_DAYS + [
        method if period % 2 else nothing for period in range(periods) for _ in range(length)
    ]
    air = (rng.uniform(0.3, 0.8, repeats), rng.uniform(0.1, 0.35, repeats))
    with_it = run(sky, plan, *air)
    without = run(sky, [nothing] * days, *air)
    start = SPIN_UP_DAYS * PER_DAY
    seen = [by_day(one[start:]) for one in (*read(rng, *with_it[:2]), *read(rng, *sky[:2]))]
    real = [by_day(one[start:]) for one in (*with_it[:2], *without[:2], *sky[:2])]
    return seen, real


CASES = [
    (name, method, length, periods)
    for name, method in (("tub", tub), ("compressor", compressor))
    for length, periods in ((4, 2), (7, 2), (14, 2), (4, 4), (7, 4))
]
