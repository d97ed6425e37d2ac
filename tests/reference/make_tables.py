"""Make the tables moist_air.csv, air_balance.csv, air_balance_gaps.csv, air_balance_fans.csv,
coupled.csv, uncertainty.csv, uncertainty_gaps.csv, network.csv, network_spaces.csv, network_ways.csv,
network_fans.csv, sun.csv, epw.csv with the weather file weather.epw, and winter.csv with its surveys and
weather files.

    python3 -m venv /tmp/reference-venv
    /tmp/reference-venv/bin/pip install -r tests/reference/requirements.txt
    /tmp/reference-venv/bin/python tests/reference/make_tables.py [FOLDER]

Without FOLDER the committed tables beside this script are written anew.  `compare.py` makes them
in a temporary folder and compares.  About five minutes, most of it the winters and the million draws of uncertainty.csv.

The moist air is psychrolib's; the balances are solved by scipy's brentq and quad (see air.py,
flow.py, balance.py, machines.py, coupled.py, network.py and uncertainty.py for the equations and where
they are from).  Published answers are checked
first (published.py).  Numbers are written so that they read back as the same double.
"""

from __future__ import annotations

import csv
import sys
from concurrent.futures import ProcessPoolExecutor
from dataclasses import asdict, fields
from pathlib import Path

import numpy as np
import psychrolib

import coupled
import frost
import trials
import uncertainty
import network
import published
import weather
import winter
from air import dew_point_c
from balance import Answer, Fan, solve
from flow import Gap
from vehicles import PRESSURES_PA, VEHICLES, Vehicle, vehicle

MOIST_AIR = (
    "t_c", "rh", "pressure_pa", "saturation_pressure_pa", "vapour_pressure_pa", "humidity_ratio",
    "specific_volume_m3_per_kg", "density_kg_m3", "enthalpy_j_per_kg", "dew_point_c",
)
BALANCE = (
    "vehicle", "t_out_c", "rh_out", "t_in_c", "rh_in", "pressure_pa", "density_out_kg_m3",
    "viscosity_out_pa_s", "density_in_kg_m3", "viscosity_in_pa_s", "wind_m_s",
    "dynamic_pressure_pa", "datum_m", "supply_kg_s", "extract_kg_s", "inside_pressure_pa",
    "inflow_kg_s", "outflow_kg_s",
)
NETWORK = (
    "vehicle", "density_out_kg_m3", "viscosity_out_pa_s", "dynamic_pressure_pa", "datum_m",
    "inflow_kg_s",
)
SPACES = (
    "vehicle", "space", "density_kg_m3", "viscosity_pa_s", "supply_kg_s", "extract_kg_s",
    "pressure_pa",
)
WAYS = (
    "vehicle", "from_space", "to_space", *(field.name for field in fields(Gap)),
    "in_kg_s", "out_kg_s",
)
FANS = ("vehicle", "space", "way", "free_kg_s", "most_pressure_pa", "flow_kg_s")
GAPS = ("vehicle", "gap", *(field.name for field in fields(Gap)), "in_kg_s", "out_kg_s")


def moist_air_states() -> list[tuple[float, float, float]]:
    """A grid, the two sides of the triple point, and states drawn at random."""
    shares = [0.0, 0.02, 0.1, 0.25, 0.4, 0.55, 0.7, 0.85, 0.95, 1.0]
    temperatures = [float(t) for t in range(-20, 41)]
    temperatures += [-0.01, 0.005, 0.01, 0.0101, 0.02]
    states = [(t, rh, p) for p in PRESSURES_PA for t in sorted(temperatures) for rh in shares]
    rng = np.random.default_rng([2017, 1])
    for pressure in PRESSURES_PA:
        for _ in range(150):
            t, rh = rng.uniform(-20.0, 40.0), rng.uniform(0.02, 1.0)
            states.append((float(f"{t:.6g}"), float(f"{rh:.4g}"), pressure))
    return states


def moist_air_row(t_c: float, rh: float, pressure_pa: float) -> list[object]:
    vapour = psychrolib.GetVapPresFromRelHum(t_c, rh)
    humidity_ratio = psychrolib.GetHumRatioFromVapPres(vapour, pressure_pa)
    return [
        t_c,
        rh,
        pressure_pa,
        psychrolib.GetSatVapPres(t_c),
        vapour,
        humidity_ratio,
        psychrolib.GetMoistAirVolume(t_c, humidity_ratio, pressure_pa),
        psychrolib.GetMoistAirDensity(t_c, humidity_ratio, pressure_pa),
        psychrolib.GetMoistAirEnthalpy(t_c, humidity_ratio),
        dew_point_c(t_c, vapour) if vapour > 0.0 else None,  # dry air has none
    ]


def solved(number: int) -> tuple[Vehicle, Answer]:
    one = vehicle(number)
    return one, solve(one.case, one.gaps)


def balance_row(number: int, one: Vehicle, answer: Answer) -> list[object]:
    case = one.case
    return [
        number, one.t_out_c, one.rh_out, one.t_in_c, one.rh_in, one.pressure_pa,
        case.outside.density, case.outside.viscosity, case.inside.density, case.inside.viscosity,
        one.wind_m_s, case.dynamic_pressure_pa, case.datum_m, case.supply_kg_s, case.extract_kg_s,
        answer.inside_pressure_pa, answer.inflow_kg_s, answer.outflow_kg_s,
    ]


def network_rows(
    number: int, one: network.Vehicle, answer: network.Answer
) -> tuple[list[object], list[list[object]], list[list[object]], list[list[object]]]:
    row = [
        number, one.outside.density, one.outside.viscosity, one.dynamic_pressure_pa, one.datum_m,
        answer.inflow_kg_s,
    ]
    spaces = [
        [
            number, index, space.gas.density, space.gas.viscosity, space.supply_kg_s,
            space.extract_kg_s, pressure,
        ]
        for index, (space, pressure) in enumerate(zip(one.spaces, answer.pressures_pa))
    ]
    ways = [
        [number, way.from_space, way.to_space, *asdict(way.gap).values(), *flows]
        for way, flows in zip(one.ways, answer.flows)
    ]
    listed = [(index, fan) for index, space in enumerate(one.spaces) for fan in space.curves]
    fans = [
        fan_row(number, index, fan, flow) for (index, fan), flow in zip(listed, answer.fans)
    ]
    return row, spaces, ways, fans


def fan_row(number: int, space: int, fan: Fan, flow: float) -> list[object]:
    way = "supply" if fan.supplies else "extract"
    return [number, space, way, fan.free_kg_s, fan.most_pa, flow]


def write(path: Path, header: tuple[str, ...], rows: list[list[object]]) -> None:
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(header)
        for row in rows:
            writer.writerow(["" if value is None else _text(value) for value in row])


def _text(value: object) -> str:
    return repr(float(value)) if isinstance(value, float) else str(value)


def make(folder: Path, winters: list[tuple[int, int]] = winter.ALL) -> None:
    """Write the tables to a folder, of the winters those asked for."""
    published.check_all()
    write(folder / "moist_air.csv", MOIST_AIR, [moist_air_row(*s) for s in moist_air_states()])
    with ProcessPoolExecutor() as pool:
        answers = list(pool.map(solved, range(1, VEHICLES + 1), chunksize=4))
        rooms = list(pool.map(coupled.solved, range(1, coupled.CASES + 1), chunksize=4))
        networks = list(pool.map(network.solved, range(1, network.VEHICLES + 1), chunksize=4))
        pieces = list(pool.map(uncertainty.piece, range(uncertainty.DRAWS // uncertainty.PIECE)))
    vehicles, gaps, fans = [], [], []
    for number, (one, answer) in enumerate(answers, start=1):
        vehicles.append(balance_row(number, one, answer))
        for index, (gap, flows) in enumerate(zip(one.gaps, answer.gaps), start=1):
            gaps.append([number, index, *asdict(gap).values(), *flows])
        for fan, flow in zip(one.case.curves, answer.fans):
            fans.append(fan_row(number, 0, fan, flow))
    write(folder / "air_balance.csv", BALANCE, vehicles)
    write(folder / "air_balance_gaps.csv", GAPS, gaps)
    write(folder / "air_balance_fans.csv", FANS, fans)
    rows = [coupled.row(number, *solved) for number, solved in enumerate(rooms, start=1)]
    write(folder / "coupled.csv", coupled.HEADER, rows)
    write(folder / "uncertainty.csv", uncertainty.HEADER, uncertainty.rows(pieces))
    write(folder / "uncertainty_gaps.csv", uncertainty.GAPS_HEADER, [list(gap) for gap in uncertainty.GAPS])
    rows, spaces, ways, fans = [], [], [], []
    for number, (one, answer) in enumerate(networks, start=1):
        row, own_spaces, own_ways, own_fans = network_rows(number, one, answer)
        rows.append(row)
        spaces += own_spaces
        ways += own_ways
        fans += own_fans
    write(folder / "network.csv", NETWORK, rows)
    write(folder / "network_spaces.csv", SPACES, spaces)
    write(folder / "network_ways.csv", WAYS, ways)
    write(folder / "network_fans.csv", FANS, fans)
    weather.write(folder)
    winter.write(folder, winters)
    frost.write(folder)
    trials.write_trials(folder / "trials.csv")


if __name__ == "__main__":
    make(Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).resolve().parent)
