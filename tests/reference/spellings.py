"""Write three days of real readings in the spellings of loggers and their apps.

    /tmp/reference-venv/bin/pip install pandas==3.1.1 openpyxl==3.1.5
    /tmp/reference-venv/bin/python tests/reference/spellings.py HOUSE-WINTER.csv

HOUSE-WINTER.csv is a selection of columns, ten minutes apart, of the open data set "Appliances
energy prediction": L. M. Candanedo, V. Feldheim, D. Deramaix, Data driven prediction models of
energy use of appliances in a low-energy house, Energy and Buildings 140 (2017) 81-97; UCI Machine
Learning Repository, CC BY 4.0.  The files beside this script under spellings/ are a cut of it, with
that attribution, and so is outside.csv there: four readings a day of the whole winter by the logger
and by the weather station, in which the logger's humidity fails in spring.

Spellings are written by pandas, and what a reader must find in all of them stands in truth.csv.
"""

from __future__ import annotations

import sys
from pathlib import Path

import pandas as pd

FOLDER = Path(__file__).parent / "spellings"
COLUMNS = ["living_t_c", "living_rh", "outside_logger_t_c", "outside_logger_rh"]


def main(source: str) -> None:
    FOLDER.mkdir(exist_ok=True)
    house = pd.read_csv(source, parse_dates=["time"])
    cut = house[(house.time >= "2016-03-25 12:00") & (house.time < "2016-03-28 12:00")]
    cut = cut[["time", *COLUMNS]].reset_index(drop=True)
    truth = cut.copy()
    truth.insert(1, "seconds", (truth.time - pd.Timestamp(0)) // pd.Timedelta(seconds=1))
    truth.drop(columns="time").to_csv(FOLDER / "truth.csv", index=False)

    # 1. Comma, point, year-month-day.
    cut.to_csv(FOLDER / "iso.csv", index=False, date_format="%Y-%m-%d %H:%M:%S")

    # 2. Semicolon, decimal comma, day.month.year, preamble, Windows-1252, German headings.
    german = cut.copy()
    german.columns = [
        "Datum/Uhrzeit", "Wohnraum Temperatur °C", "Wohnraum Feuchte %", "Außen Temperatur °C",
        "Außen Feuchte %",
    ]
    table = german.to_csv(
        index=False, sep=";", decimal=",", date_format="%d.%m.%Y %H:%M", lineterminator="\r\n"
    )
    preamble = "Datenlogger;Außenwand Nord\r\nIntervall;10 Minuten\r\n\r\n"
    (FOLDER / "german.csv").write_bytes((preamble + table).encode("cp1252"))

    # 3. Tab, UTF-16 with its mark, month/day/year with AM and PM, degrees Fahrenheit.
    american = cut.copy()
    for column in ("living_t_c", "outside_logger_t_c"):
        american[column] = american[column] * 1.8 + 32.0
    american.columns = [
        "Date Time", "Living Temp (°F)", "Living RH (%)", "Outside Temp (°F)", "Outside RH (%)",
    ]
    table = american.to_csv(
        index=False, sep="\t", date_format="%m/%d/%Y %I:%M:%S %p", float_format="%.6f",
        lineterminator="\r\n",
    )
    (FOLDER / "american.txt").write_bytes(b"\xff\xfe" + table.encode("utf-16-le"))

    # 4. Date and time of day apart, day/month/year, UTF-8 with its mark, units in a line of their own.
    apart = cut.copy()
    apart.insert(1, "Time", apart.time.dt.strftime("%H:%M"))
    apart["time"] = apart.time.dt.strftime("%d/%m/%Y")
    body = apart.to_csv(index=False, header=False, sep=";")
    heading = (
        "Date;Time;Living temp;Living humidity;Outside temp;Outside humidity\n;;°C;%RH;°C;%RH\n"
    )
    (FOLDER / "apart.csv").write_bytes(b"\xef\xbb\xbf" + (heading + body).encode())

    # 5. A spreadsheet with real dates.
    with pd.ExcelWriter(FOLDER / "workbook.xlsx", engine="openpyxl") as writer:
        cut.to_excel(writer, sheet_name="Readings", index=False)

    # 6. The wall clock of Brussels over the start of summer time, newest first, some rows twice,
    # units behind the numbers.
    wall = cut.copy()
    clock = wall.time.dt.tz_localize("UTC").dt.tz_convert("Europe/Brussels")
    wall["time"] = clock.dt.strftime("%Y-%m-%dT%H:%M:%S")
    for column in ("living_t_c", "outside_logger_t_c"):
        wall[column] = wall[column].map(lambda value: f"{value} °C")
    for column in ("living_rh", "outside_logger_rh"):
        wall[column] = wall[column].map(lambda value: f"{value}%")
    wall = pd.concat([wall, wall.iloc[100:110]]).iloc[::-1]
    wall.columns = ["Timestamp", "Living Temperature", "Living Humidity", "Outside Temperature",
                    "Outside Humidity"]
    wall.to_csv(FOLDER / "brussels.csv", index=False)

    outside = house.iloc[::36][
        ["time", "outside_logger_t_c", "outside_logger_rh", "station_t_c", "station_rh"]
    ]
    outside.to_csv(FOLDER / "outside.csv", index=False, date_format="%Y-%m-%d %H:%M")


if __name__ == "__main__":
    main(sys.argv[1])
