//! The appliances and equipment of the known survey.

use gapledger::survey::*;

pub(super) fn machines() -> Vec<Machine> {
    let mut machines: Vec<Machine> = MachineKind::ALL
        .into_iter()
        .zip(1..)
        .map(|(kind, id)| Machine {
            id: MachineId(id),
            name: kind.name().into(),
            kind,
            rated_removal_l_per_day: None,
            rated_temperature_c: None,
            rated_rh_percent: None,
            power_w: None,
            airflow_m3_per_h: None,
            lowest_room_c: None,
            tub_area_m2: (id == 4).then_some(0.02),
            tub_l: None,
            hygrostat: id != 4,
            points: Vec::new(),
            price: None,
            upkeep_per_month: None,
            owned: false,
        })
        .collect();
    let first = &mut machines[0];
    first.rated_removal_l_per_day = Some(10.0);
    first.rated_temperature_c = Some(27.0);
    first.rated_rh_percent = Some(80.0);
    first.power_w = Some(280.0);
    first.airflow_m3_per_h = Some(150.0);
    first.lowest_room_c = Some(5.0);
    first.points = vec![MachinePoint {
        temperature_c: 10.0,
        rh_percent: 70.0,
        removal_l_per_day: 1.5,
        power_w: 240.0,
    }];
    machines
}

pub(super) fn appliances() -> Vec<Appliance> {
    ApplianceKind::ALL
        .into_iter()
        .zip(1..)
        .map(|(kind, id)| Appliance {
            id: ApplianceId(id),
            kind,
            name: kind.name().to_uppercase(),
            room_sealed: matches!(kind, ApplianceKind::WaterHeater),
            input_mj_per_h: None,
        })
        .collect()
}

pub(super) fn heaters() -> Vec<Heater> {
    HeaterFuel::ALL
        .into_iter()
        .zip(1..)
        .map(|(fuel, id)| Heater {
            id: HeaterId(id),
            name: format!("heater {id}"),
            fuel,
            rating_w: Some(2000.0),
            set_point_c: (id == 1).then_some(5.0),
            price: None,
            upkeep_per_month: None,
            owned: false,
        })
        .collect()
}

pub(super) fn fans() -> Vec<Fan> {
    [FanDirection::Extract, FanDirection::Supply]
        .into_iter()
        .zip(1..)
        .map(|(direction, id)| Fan {
            id: FanId(id),
            name: "roof fan".into(),
            direction,
            flow_m3_per_h: Some(120.0),
            most_pressure_pa: None,
            on_laid_up: id == 2,
            on_in_use: id == 1,
            space: (id == 2).then_some(SpaceId(2)),
        })
        .collect()
}

pub(super) fn sources() -> Vec<MoistureSource> {
    SourceKind::ALL
        .into_iter()
        .zip(1..)
        .map(|(kind, id)| MoistureSource {
            id: SourceId(id),
            name: kind.name().into(),
            kind,
            count: id,
            rate_g_per_h: kind.usual_rate_g_per_h(),
            hours_per_day: 7.5,
            laid_up: false,
            in_use: true,
        })
        .collect()
}

/// One of each kind, all on the offside.
pub(super) fn fittings() -> Vec<Fitting> {
    let fitting = |(kind, id)| Fitting {
        id: FittingId(id),
        kind,
        outline: Outline {
            facing: Facing::Offside,
            along_m: 0.9 * f64::from(id),
            up_m: 1.5,
            width_m: 0.5,
            height_m: 0.45,
        },
    };
    FittingKind::ALL.into_iter().zip(1..).map(fitting).collect()
}

/// A test of the air change with something in every field.
pub(super) fn air_test() -> AirTest {
    let reading = |minutes, value| AirReading {
        minutes: Some(minutes),
        value,
    };
    AirTest {
        id: AirTestId(3),
        name: "windy night".into(),
        date: "2024-03-01".into(),
        instrument: "logger on the table".into(),
        by: AirTestBy::Moisture,
        tested: Tested::AfterWork,
        set_up: SetUp::InUse,
        closed: "lockers open".into(),
        inside_c: Some(16.5),
        outside_c: Some(4.25),
        wind_m_s: Some(3.5),
        background: Some(5.1),
        readings: vec![
            reading(0.0, Some(11.2)),
            reading(30.0, None),
            reading(60.0, Some(8.4)),
            reading(90.0, Some(7.3)),
        ],
        hours: Some(96.0),
        collected_l: Some(3.1),
        given_off_l: Some(0.0),
        inside_rh_percent: Some(61.0),
        outside_rh_percent: Some(88.0),
        start_rh_percent: Some(79.5),
        end_rh_percent: Some(60.0),
        note: "rain after midnight".into(),
    }
}

/// A fan test with something in every field.
pub(super) fn fan_test() -> FanTest {
    let reading = |pressure, flow| FanReading {
        pressure_pa: Some(pressure),
        flow_m3_per_h: flow,
    };
    FanTest {
        id: FanTestId(4),
        name: "before the work".into(),
        date: "2024-02-29".into(),
        instrument: "small door fan 7, gauge 12".into(),
        tested: Tested::AfterWork,
        set_up: SetUp::InUse,
        closed: "windows shut, lockers open".into(),
        covered: vec![
            Covered {
                gap: Some(GapId(2)),
                what: String::new(),
                uncovered: true,
            },
            Covered {
                gap: None,
                what: "refrigerator vents".into(),
                uncovered: false,
            },
        ],
        inside_c: Some(17.5),
        outside_c: Some(6.25),
        barometer_hpa: Some(998.5),
        wind_m_s: Some(1.5),
        blowing_out: FanReadings {
            readings: vec![
                reading(10.5, Some(61.0)),
                reading(20.0, None),
                reading(30.0, Some(122.0)),
                reading(52.0, Some(175.0)),
            ],
            zero_before_pa: Some(0.5),
            zero_after_pa: Some(-0.25),
        },
        blowing_in: FanReadings {
            readings: vec![
                reading(12.0, Some(70.0)),
                reading(25.0, Some(110.0)),
                reading(50.0, Some(180.5)),
            ],
            zero_before_pa: Some(-1.0),
            zero_after_pa: Some(-1.5),
        },
        note: "a gust at the end".into(),
    }
}
