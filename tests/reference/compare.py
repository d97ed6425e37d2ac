"""Make the reference tables again and compare them with the committed ones.

    python3 -m venv /tmp/reference-venv
    /tmp/reference-venv/bin/pip install -r tests/reference/requirements.txt
    /tmp/reference-venv/bin/python tests/reference/compare.py [--some]

With --some two of the ten winters are integrated again, which take most of the time.

Exit 0 when every number agrees to 1e-9 of itself, 1 with the first that does not.  Text, empty
cells, column names and the number of rows must agree exactly.  Beside the relative tolerance each
column whose values pass through zero has an absolute one (FLOORS), so that another machine's last
bit is no difference; flows through a gap are also let off 1e-12 of the vehicle's whole inflow,
because near zero pressure a flow goes with the square root of a rounding error.  Vehicles of several
spaces (network_*.csv) are held to 1e-8 and 1e-9 of their inflow: scipy balances no space to better
than a few parts in 1e10.
"""

from __future__ import annotations

import csv
import sys
import tempfile
from pathlib import Path

import make_tables
import winter

TABLES = (
    "moist_air.csv", "air_balance.csv", "air_balance_gaps.csv", "air_balance_fans.csv",
    "coupled.csv", "uncertainty.csv", "uncertainty_gaps.csv", "network.csv", "network_spaces.csv",
    "network_ways.csv", "network_fans.csv", "sun.csv", "epw.csv", "winter.csv",
    "frost.csv", "trials.csv",
)
RELATIVE = 1e-9
FLOORS = {
    "dew_point_c": 1e-9,
    "enthalpy_j_per_kg": 1e-6,
    "inside_pressure_pa": 1e-12,
    "pressure_pa": 1e-9,
    "t_in_c": 1e-9,
    "removal_kg_s": 1e-13,
    "duty": 1e-9,
    "machine_w": 1e-7,
    "heater_out_w": 1e-7,
    "condensation_kg_s": 1e-13,
    "on_surfaces_kg_s": 1e-13,
    "clearing_removal_kg_s": 1e-13,
    "clearing_c": 1e-7,
    # Rounded in the table, and by another machine's last bit the last digit.
    "t_c": 2e-4,
    "rh": 2e-5,
    "removed_kg": 2e-6,
    "heater_wh": 2e-2,
    "machine_wh": 2e-2,
    # Trials: a thermostat or hygrostat that switches a step sooner by another machine's last bit moves
    # a day by some hundredths of a kelvin or milligrams for each kg of dry air.
    "true_warmth": 0.01,
    "true_water": 0.01,
    "true_rh": 0.1,
    "days": 60.0,
}
SHARE_OF_INFLOW = 1e-12
# Of vehicles of several spaces.
NETWORK_RELATIVE = 1e-8
NETWORK_SHARE_OF_INFLOW = 1e-9


def read(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def number(text: str) -> float | None:
    try:
        return float(text)
    except ValueError:
        return None


def differs(table: str, column: str, committed: str, made: str, inflow_kg_s: float) -> bool:
    if column == "days":
        # A list of whole numbers.
        pairs = list(zip(committed.split(), made.split()))
        as_many = len(committed.split()) == len(made.split())
        apart = [abs(float(one) - float(other)) for one, other in pairs]
        return not (as_many and max(apart, default=0.0) <= FLOORS[column])
    first, second = number(committed), number(made)
    if first is None or second is None:
        return committed != made
    of_network = table.startswith("network")
    relative = NETWORK_RELATIVE if of_network else RELATIVE
    allowed = max(relative * abs(first), FLOORS.get(column, 0.0))
    if column in ("in_kg_s", "out_kg_s", "flow_kg_s"):
        share = NETWORK_SHARE_OF_INFLOW if of_network else SHARE_OF_INFLOW
        allowed = max(allowed, share * inflow_kg_s)
    return not abs(first - second) <= allowed


def first_difference(
    committed: Path, made: Path, winters: list[tuple[int, int]],
) -> str | None:
    for table in TABLES:
        whole = "network.csv" if table.startswith("network") else "air_balance.csv"
        inflows = {row["vehicle"]: float(row["inflow_kg_s"]) for row in read(committed / whole)}
        old, new = read(committed / table), read(made / table)
        if table == "winter.csv":
            old = [row for row in old if (int(row["vehicle"]), int(row["weather"])) in winters]
        if len(old) != len(new):
            return f"{table}: {len(old)} rows committed, {len(new)} made"
        if not old:
            return f"{table}: empty"
        if list(old[0]) != list(new[0]):
            return f"{table}: the columns differ: {list(old[0])} and {list(new[0])}"
        for line, (before, after) in enumerate(zip(old, new), start=2):
            inflow = inflows.get(before.get("vehicle", ""), 0.0)
            for column in before:
                if differs(table, column, before[column], after[column], inflow):
                    return (
                        f"{table} line {line}, {column}: committed {before[column]!r}, "
                        f"made {after[column]!r}"
                    )
    return None


def main() -> int:
    committed = Path(__file__).resolve().parent
    winters = winter.SOME if "--some" in sys.argv[1:] else winter.ALL
    with tempfile.TemporaryDirectory() as folder:
        make_tables.make(Path(folder), winters)
        difference = first_difference(committed, Path(folder), winters)
    if difference is not None:
        print(difference)
        return 1
    print("The committed tables are what the scripts make.")
    return 0


if __name__ == "__main__":
    sys.exit(main())
