"""Prints every option of a survey in the five typical winters, and what sun and sky change.

    python tests/smoke/winters.py PROGRAM SURVEY

A row for each winter and option: mean relative humidity inside, share of the hours above 80 %, frost
nights, the mould index on boards at its highest, water taken, energy and money. Then the vehicle with
nothing done: as surveyed, dark instead of its colour, and under a roof, where neither sun nor sky
reaches it.
"""

import json
import subprocess
import sys

WINTERS = ["mild-maritime", "high-plain", "continental", "alpine", "northern"]


def winter(program, survey, *more):
    """A winter as the program tells it; exit code 1 stands for errors, 2 for not done."""
    run = subprocess.run(
        [program, "winter", survey, "--json", *more], capture_output=True, check=False
    )
    if run.returncode not in (0, 3):
        sys.exit(run.stderr.decode())
    return json.loads(run.stdout)


def row(name, season):
    mould = max((spot["sensitive"]["highest"] for spot in season["mould"]), default=None)
    energy = season["machine_kwh"] + season["heater_kwh"]
    cost = season["cost"]
    cells = [
        f"{name[:44]:44}",
        f"{season['rh_mean_percent']:5.1f}",
        f"{100 * season['above_80_share']:5.1f}",
        f"{season['frost']['nights']:6d}",
        "   -" if mould is None else f"{mould:4.1f}",
        f"{season['removed_l']:7.1f}",
        f"{energy:7.0f}",
        "  not known" if cost is None else f"{cost:11.2f}",
        f"{season['inside_mean_c']:5.1f}",
    ]
    print(" ".join(cells))


def main(program, survey):
    print(f"{'':44}    RH  >80% nights mould litres     kWh        cost    °C")
    for name in WINTERS:
        told = winter(program, survey, "--typical", name)
        outside = told["outside"]
        print(f"{name}: outside {outside['mean_c']:.1f} °C, {outside['rh_mean_percent']:.0f} %")
        for option in told["options"]:
            if option["season"] is None:
                print(f"{option['name']}: not known")
            else:
                row(option["name"], option["season"])
    print("nothing done, and what sun and sky change")
    for name in WINTERS:
        for how, more in [("as surveyed", []), ("dark", ["--colour", "dark"]), ("covered", ["--covered"])]:
            told = winter(program, survey, "--typical", name, *more)
            row(f"{name}, {how}", told["options"][0]["season"])


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    main(*sys.argv[1:])
