"""Published answers that the reference itself must give before it may write a table."""

from __future__ import annotations

from air import REFERENCE, Gas, gas_of
from balance import Case, solve
from flow import Gap, Law


def check_all() -> None:
    """Raise AssertionError at the first answer that is not met."""
    crack_flows()
    two_openings()
    one_tall_opening()
    network_of_ghiaus()
    extract_fan()


def near(found: float, stated: float, half_digit: float) -> None:
    assert abs(found - stated) <= half_digit, f"{found!r} is not {stated} within {half_digit}"


def crack_flows() -> None:
    """Crack law of Baker, Sharples & Ward 1987 [R]: litres a second of 1 m at 4 Pa, 30 mm deep."""
    gas = Gas(1.2, 1.81e-5)
    stated = {
        0.5: (0.0763, 0.0761, 0.0758),
        1.0: (0.569, 0.545, 0.525),
        2.0: (2.78, 2.36, 2.09),
    }
    for width_mm, flows in stated.items():
        for bends, litres in enumerate(flows):
            gap = Gap("crack", 0.0, 0.0, 0.0, length_m=1.0, width_m=width_mm / 1e3, depth_m=0.03,
                      bends=bends)
            half_digit = 0.00006 if width_mm < 1 else 0.0006 if width_mm < 2 else 0.006
            near(Law(gap, gas).flow(4.0) * 1e3, litres, half_digit)


def two_openings() -> None:
    """Two openings 2 m apart, 20/0 deg C dry: closed form of API RP 500 [S]."""
    case = Case(gas_of(0.0, 0.0, 101325.0), gas_of(20.0, 0.0, 101325.0), 0.0, 0.0)
    for lower_m2, upper_m2, mass_kg_s in ((0.01, 0.01, 0.008958), (0.02, 0.005, 0.006052)):
        gaps = [
            Gap("opening", 0.0, 0.0, 0.0, area_m2=lower_m2, discharge=0.61),
            Gap("opening", 0.0, 2.0, 2.0, area_m2=upper_m2, discharge=0.61),
        ]
        near(solve(case, gaps).inflow_kg_s, mass_kg_s, 5e-7)


def one_tall_opening() -> None:
    """One opening 0.5 m wide and 1 m tall, 20/0 deg C dry: exact integral of the BS 5925 form."""
    case = Case(gas_of(0.0, 0.0, 101325.0), gas_of(20.0, 0.0, 101325.0), 0.0, 0.0)
    gap = Gap("opening", 0.0, 0.0, 1.0, area_m2=0.5, discharge=0.61)
    near(solve(case, [gap]).inflow_kg_s, 0.10559, 5e-6)


def network_of_ghiaus() -> None:
    """C. Ghiaus, Dynamic Models for Building Energy Management, tutorial A05 [S].

    The book takes its coefficients at the air that flows, so they are brought to reference air
    here, and g = 9.8 where this reference has 9.81: 0.01 Pa over the 8 m of the chimney.
    """
    outside, inside = Gas(1.315, 1.73e-5), Gas(1.191, 1.81e-5)

    def coefficient(stated_m3_per_h: float, n: float, gas: Gas) -> float:
        heavier = (gas.density / REFERENCE.density) ** (1.0 - n)
        thicker = (gas.viscosity / REFERENCE.viscosity) ** (2.0 * n - 1.0)
        return stated_m3_per_h / 3600.0 * heavier * thicker

    for wind_m_s, pressure_pa, north, south, chimney in (
        (0.0, -4.45, 0.019, 0.019, 0.038),
        (5.0, -10.50, 0.045, 0.009, 0.054),
    ):
        facade = coefficient(10.0, 0.64, outside)
        top = coefficient(50.0, 0.5, inside)
        gaps = [
            Gap("power", 0.4, 0.5, 0.5, 2.0, coefficient_m3_per_s_pa_n=facade, exponent=0.64),
            Gap("power", -0.55, 0.5, 0.5, 2.0, coefficient_m3_per_s_pa_n=facade, exponent=0.64),
            Gap("power", -0.7, 8.5, 8.5, coefficient_m3_per_s_pa_n=top, exponent=0.5),
        ]
        answer = solve(Case(outside, inside, 0.5 * 1.315 * wind_m_s**2, 0.5), gaps)
        near(answer.inside_pressure_pa, pressure_pa, 0.015)
        near(answer.gaps[0][0], north, 0.0006)
        near(answer.gaps[1][0], south, 0.0006)
        near(answer.gaps[2][1], chimney, 0.0006)


def extract_fan() -> None:
    """An extract fan of 0.012 kg/s and two openings of 100 cm2: closed form of the sharp edge."""
    gas = Gas(1.2, 1.81e-5)
    gaps = [Gap("opening", 0.0, 1.0, 1.0, 2.0, area_m2=0.01, discharge=0.61)]
    answer = solve(Case(gas, gas, 0.0, 1.0, extract_kg_s=0.012), gaps)
    near(answer.inside_pressure_pa, -0.4031, 5e-5)
