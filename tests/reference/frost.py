"""Frost of the two invented weathers, counted by pandas from the files as they stand.

Written: frost.csv.  Nights run from noon to noon; a row of an hour that ends at noon belongs to the
night before.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pandas as pd

HEADER = ("weather", "hours", "longest_h", "nights", "degree_hours")


def counted(path: Path) -> tuple[int, int, int, float]:
    columns = pd.read_csv(path, skiprows=8, header=None)
    day = pd.to_datetime(dict(year=columns[0], month=columns[1], day=columns[2]))
    ends = day + pd.to_timedelta(columns[3], unit="h")
    t_c = columns[6]
    below = t_c < 0.0
    spell = below.groupby((~below).cumsum()).sum()
    night = (ends - pd.Timedelta(hours=12, seconds=1)).dt.date
    return int(below.sum()), int(spell.max()), int(night[below].nunique()), float((-t_c[below]).sum())


def write(folder: Path) -> None:
    with open(folder / "frost.csv", "w", newline="") as file:
        rows = csv.writer(file, lineterminator="\n")
        rows.writerow(HEADER)
        for weather in (1, 2):
            hours, longest, nights, degrees = counted(folder / f"winter_weather_{weather}.epw")
            rows.writerow([weather, hours, longest, nights, f"{degrees:.6f}"])


if __name__ == "__main__":
    write(Path(__file__).parent)
