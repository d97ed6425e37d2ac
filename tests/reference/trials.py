"""Trials made up from nothing: invented weather, a body of one node with a known air change, machines,
and loggers that err. It shares no formula layout with the program and reads nothing of it.

`python trials.py` writes `trials.csv`, as `make_tables.py` does: what daily means of two loggers say of 200 invented trials, and what
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
    # lows and highs pass within days, spells last for a week or two
    slow = 0.8 * drift(rng, repeats, steps, 60) + 0.6 * drift(rng, repeats, steps, 240)
    spell = drift(rng, repeats, steps, 200)
    clouds = 1 / (1 + np.exp(-1.2 * (0.85 * drift(rng, repeats, steps, 30) + 0.55 * spell)))
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


def run(sky, plan, base_ach, by_wind):
    """Room through a plan: one function for each day. Gives T, W, kg taken and kWh used."""
    return run_by_step(sky, [one for one in plan for _ in range(PER_DAY)], base_ach, by_wind)


def run_by_step(sky, plan, base_ach, by_wind, source=3.0):
    """The same with one function for each step."""
    t_out, w_out, wind, sun = sky
    steps, repeats = t_out.shape
    t, w = t_out[0] + 1.0, w_out[0].copy()
    store = humidity(t, w)
    air = VOLUME * 1.25
    out = [np.empty((steps, repeats)) for _ in range(4)]
    for step in range(steps):
        taken, watts = plan[step](t, w)
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


def write_trials(path):
    """For each case and trial one line: the air outside, what was true, and each day's differences.

    Days are whole numbers: hundredths of a kelvin, then milligrams for each kg of dry air.
    """
    rng = np.random.default_rng(20261129)
    lines = ["method,length,periods,t_out,w_out,true_warmth,true_water,true_rh,days"]
    for name, method, length, periods in CASES:
        (t, w, t_out, w_out), (with_t, with_w, no_t, no_w, sky_t, sky_w) = trial(
            rng, method, length, periods
        )
        on = np.array([period % 2 == 1 for period in range(periods) for _ in range(length)])
        for one in range(REPEATS):
            # at the outside of the days with the method, as it was
            at_t, at_w = sky_t[on, one].mean(), sky_w[on, one].mean()
            here = [
                humidity(at_t + (a - sky_t)[on, one], at_w + (b - sky_w)[on, one]).mean()
                for a, b in ((with_t, with_w), (no_t, no_w))
            ]
            true = (
                (with_t - no_t)[on, one].mean(),
                (with_w - no_w)[on, one].mean(),
                100 * (here[0] - here[1]),
            )
            warmer = np.rint(100 * (t - t_out)[:, one]).astype(int)
            damper = np.rint(1000 * (w - w_out)[:, one]).astype(int)
            lines.append(
                f"{name},{length},{periods},{t_out[on, one].mean():.2f},{w_out[on, one].mean():.3f},"
                f"{true[0]:.3f},{true[1]:.4f},{true[2]:.3f},"
                + " ".join(str(number) for pair in zip(warmer, damper) for number in pair)
            )
    path.write_text("\n".join(lines) + "\n")


#: From day, to day, what ran; the trial begins on 1 November 2026 at noon.
ORCHARD = ((0, 6, nothing), (6, 17, tub), (17, 21, nothing), (21, 25, compressor), (25, 29, heater))


def write_sample(folder):
    """Loggers' files of an invented caravan in an orchard, two instruments with formats of their own."""
    from datetime import datetime, timedelta

    rng = np.random.default_rng(31)
    days = SPIN_UP_DAYS + 30
    sky = weather(rng, 1, days)
    sky = (sky[0] - sky[0].mean() + 5.5, *sky[1:])
    sky = (sky[0], grams(sky[0], np.clip(humidity(sky[0], sky[1]) - 0.06, 0.55, 0.95)), *sky[2:])
    plan = [nothing] * days
    half = PER_DAY // 2
    for start, end, method in ORCHARD:
        for day in range(start, end):
            plan[SPIN_UP_DAYS + day] = method
    # periods change at noon: the day's plan is moved by half a day
    moved = [plan[0]] * half + [one for one in plan for _ in range(PER_DAY)][: days * PER_DAY - half]

    t, w, taken, used = run_by_step(sky, moved, np.array([0.45]), np.array([0.2]))
    seen_in, seen_out = (np.round(one, 1) for one in (t + 0.1, sky[0] - 0.1))
    rh_in = np.clip(np.round(100 * humidity(t, w) + rng.normal(0, 0.3, t.shape), 1), 1, 100)
    rh_out = np.clip(np.round(100 * humidity(sky[0], sky[1]) + rng.normal(0, 0.3, t.shape), 1), 1, 100)
    first = SPIN_UP_DAYS * PER_DAY
    begin = datetime(2026, 11, 1, 0, 0)
    inside = ["Invented logger, inside", "Time,Temperature (°C),Humidity (%RH)"]
    outside = ["Time;Temperature °C;Humidity %"]
    for step in range(first, days * PER_DAY, 2):
        when = begin + timedelta(hours=STEP_H * (step - first))
        inside.append(f"{when:%Y-%m-%d %H:%M},{seen_in[step, 0]:.1f},{rh_in[step, 0]:.1f}")
        row = f"{when:%d.%m.%Y %H:%M};{seen_out[step, 0]:.1f};{rh_out[step, 0]:.1f}"
        outside.append(decimal_comma(row))
    folder = Path(folder)
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "orchard-inside.csv").write_text("\n".join(inside) + "\n", encoding="utf-8")
    (folder / "orchard-outside.csv").write_text("\n".join(outside) + "\n", encoding="cp1252")
    for start, end, method in ORCHARD:
        part = slice(first + half + start * PER_DAY, first + half + end * PER_DAY)
        print(
            f"{method.__name__:10} days {start} to {end}: {taken[part].sum():.2f} kg,"
            f" {used[part].sum():.1f} kWh, {t[part].mean():.1f} °C,"
            f" {100 * humidity(t[part], w[part]).mean():.0f} %, outside {sky[0][part].mean():.1f} °C"
            f" {100 * humidity(sky[0][part], sky[1][part]).mean():.0f} %"
        )


def decimal_comma(row):
    when, *numbers = row.split(";")
    return ";".join([when, *(number.replace(".", ",") for number in numbers)])


if __name__ == "__main__":
    if sys.argv[1:2] == ["sample"]:
        write_sample(sys.argv[2])
    else:
        write_trials(HERE / "trials.csv")
