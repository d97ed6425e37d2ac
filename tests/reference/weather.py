"""The sun, what falls on planes, and a weather file, by pvlib.

sun.csv: places and moments with the sun's apparent elevation and azimuth by pvlib's own coding of
NREL's algorithm (spa_python), and invented light turned onto planes by pvlib's isotropic sky.

weather.epw is an invented weather file (leap day, zone of half an hour, missing values); epw.csv is
what pvlib's reader makes of it.
"""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np
import pandas as pd
import pvlib

SUN = (
    "year", "month", "day", "hour_ut", "latitude_deg", "longitude_deg", "pressure_pa",
    "elevation_deg", "azimuth_deg", "direct_w_m2", "diffuse_w_m2", "global_w_m2", "facing_deg",
    "level_w_m2", "upright_w_m2",
)
EPW = (
    "hour", "temp_air", "temp_dew", "relative_humidity", "atmospheric_pressure",
    "ghi_infrared", "ghi", "dni", "dhi", "wind_direction", "wind_speed", "total_sky_cover",
    "opaque_sky_cover", "visibility", "albedo", "snow_depth", "precipitable_water",
)
#: The number of the column that each field of pvlib is, and what means missing there.
MISSING = {
    "temp_air": 99.9, "temp_dew": 99.9, "relative_humidity": 999, "atmospheric_pressure": 999999,
    "ghi_infrared": 9999, "ghi": 9999, "dni": 9999, "dhi": 9999, "wind_direction": 999,
    "wind_speed": 999, "total_sky_cover": 99, "opaque_sky_cover": 99, "visibility": 9999,
    "albedo": 999, "snow_depth": 999, "precipitable_water": 999,
}
COLUMNS = [
    ("temp_air", 99.9), ("temp_dew", 99.9), ("relative_humidity", 999),
    ("atmospheric_pressure", 999999), (None, 9999), (None, 9999), ("ghi_infrared", 9999),
    ("ghi", 9999), ("dni", 9999), ("dhi", 9999), (None, 999999), (None, 999999), (None, 999999),
    (None, 9999), ("wind_direction", 999), ("wind_speed", 999), ("total_sky_cover", 99),
    ("opaque_sky_cover", 99), ("visibility", 9999), (None, 99999), (None, 9), (None, 999999999),
    ("precipitable_water", 999), (None, 0.999), ("snow_depth", 999), (None, 99), ("albedo", 999),
    (None, 999), (None, 99),
]


def sun_rows() -> list[dict]:
    random = np.random.default_rng(20261128)
    rows = []
    places = [(52.0, 1.5), (47.3, 11.4), (63.0, 25.0), (-43.5, 172.6), (41.0, -104.8), (0.5, 36.0)]
    for latitude, longitude in places:
        for _ in range(40):
            day = pd.Timestamp("2001-01-01") + pd.Timedelta(days=int(random.integers(0, 9000)))
            hour = float(random.integers(0, 48)) / 2.0
            pressure = float(random.integers(80, 104)) * 1000.0
            time = pd.DatetimeIndex([day + pd.Timedelta(hours=hour)], tz="UTC")
            found = pvlib.solarposition.spa_python(
                time, latitude, longitude, altitude=0, pressure=pressure, temperature=12,
                delta_t=67.0,
            ).iloc[0]
            light = [float(value) for value in random.integers(0, 900, 3)]
            facing = float(random.integers(0, 360))

            def plane(tilt: float) -> float:
                total = pvlib.irradiance.get_total_irradiance(
                    tilt, facing, found["apparent_zenith"], found["azimuth"],
                    dni=light[0], ghi=light[2], dhi=light[1], albedo=0.2, model="isotropic",
                )
                return float(total["poa_global"])

            rows.append(dict(
                year=day.year, month=day.month, day=day.day, hour_ut=hour,
                latitude_deg=latitude, longitude_deg=longitude, pressure_pa=pressure,
                elevation_deg=float(found["apparent_elevation"]),
                azimuth_deg=float(found["azimuth"]), direct_w_m2=light[0], diffuse_w_m2=light[1],
                global_w_m2=light[2], facing_deg=facing, level_w_m2=plane(0.0),
                upright_w_m2=plane(90.0),
            ))
    return rows


def epw_text() -> str:
    random = np.random.default_rng(20261129)
    lines = [
        "LOCATION,Nowhere,-,-,invented,000000,27.7,85.3,5.5,1337.0",
        "DESIGN CONDITIONS,0", "TYPICAL/EXTREME PERIODS,0", "GROUND TEMPERATURES,0",
        "HOLIDAYS/DAYLIGHT SAVINGS,Yes,0,0,0", "COMMENTS 1,invented", "COMMENTS 2,",
        "DATA PERIODS,1,1,Data,Tuesday,2/20,3/5",
    ]
    spans = {
        "temp_air": (-15, 20), "temp_dew": (-20, 10), "relative_humidity": (20, 100),
        "atmospheric_pressure": (85000, 88000), "ghi_infrared": (180, 380), "ghi": (0, 800),
        "dni": (0, 900), "dhi": (0, 300), "wind_direction": (0, 360), "wind_speed": (0, 20),
        "total_sky_cover": (0, 10), "opaque_sky_cover": (0, 10), "visibility": (1, 80),
        "albedo": (0, 1), "snow_depth": (0, 40), "precipitable_water": (1, 40),
    }
    day = pd.Timestamp("2024-02-20")
    while day <= pd.Timestamp("2024-03-05"):
        for hour in range(1, 25):
            cells = [str(day.year), str(day.month), str(day.day), str(hour), "0", "A7A7"]
            for name, missing in COLUMNS:
                if name is None or random.random() < 0.03:
                    cells.append(str(missing))
                    continue
                low, high = spans[name]
                cells.append(f"{random.uniform(low, high):.2f}".rstrip("0").rstrip("."))
            lines.append(",".join(cells))
        day += pd.Timedelta(days=1)
    return "\n".join(lines) + "\n"


def epw_rows(path: Path) -> list[dict]:
    frame, place = pvlib.iotools.read_epw(path)
    assert (place["latitude"], place["longitude"], place["TZ"], place["altitude"]) == (
        27.7, 85.3, 5.5, 1337.0,
    )
    rows = []
    for at, (_, values) in enumerate(frame.iterrows()):
        row = {"hour": at}
        for name in EPW[1:]:
            value = float(values[name])
            row[name] = "" if value >= MISSING[name] else repr(value)
        rows.append(row)
    return rows


def write(folder: Path) -> None:
    def table(name: str, fields: tuple[str, ...], rows: list[dict]) -> None:
        with open(folder / name, "w", newline="") as file:
            writer = csv.DictWriter(file, fields, lineterminator="\n")
            writer.writeheader()
            writer.writerows(rows)

    table("sun.csv", SUN, sun_rows())
    (folder / "weather.epw").write_text(epw_text())
    table("epw.csv", EPW, epw_rows(folder / "weather.epw"))


if __name__ == "__main__":
    write(Path(__file__).parent)
