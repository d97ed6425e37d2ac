//! A file of each format, with every field and every word of it, and the surveys they stand for,
//! written down by hand. The vehicle is invented.

mod equipment;
mod trials;

use equipment::{appliances, fan_test, fans, fittings, heaters, machines, sources};
use gapledger::physics::pressure_coefficient::{PressureSet, Underside};
use gapledger::physics::wind::{Shelter, Terrain};
use gapledger::survey::*;

/// The file of format 1. It never changes again: it stands for all the files of that format that
/// people have.
pub(crate) const FORMAT_1: &str = include_str!("format-1.ron");

/// The file of format 2. It changes as long as that format is open, and then never again.
pub(crate) const FILE: &str = include_str!("format-2.ron");

/// The survey in the file of format 2: that of format 1, and in it every field and word that came
/// with format 2, at other values than a file of format 1 stands for.
pub(crate) fn newest() -> Survey {
    let mut survey = survey();
    survey.vehicle.code_of_practice = CodeOfPractice::AsNzs5601;
    survey.appliances[0].input_mj_per_h = Some(21.5);
    survey.vehicle.underside = Underside::SkirtedTight;
    survey.vehicle.skirt_free_area_mm2 = Some(18_000.0);
    survey.vehicle.underfloor_by_place = true;
    survey.site.pressure_set = PressureSet::VehicleBody;
    survey.fans[0].most_pressure_pa = Some(85.0);
    survey.job = job();
    survey.tariffs.material_tax_percent = Some(7.5);
    survey.gaps[0].photos[1].after_work = true;
    what_gaps_are(&mut survey);
    survey.machines[3].tub_l = Some(2.5);
    let machine = &mut survey.machines[0];
    (machine.price, machine.owned) = (Some(249.5), true);
    machine.upkeep_per_month = Some(1.25);
    let heater = &mut survey.heaters[0];
    (heater.price, heater.owned) = (Some(49.0), true);
    heater.upkeep_per_month = Some(0.75);
    survey.fittings = Some(fittings());
    survey.walk = [
        ("cab", "pedals", Outcome::Found, vec![GapId(1), GapId(2)]),
        ("roof", "aerial", Outcome::NotReached, vec![]),
        ("windows", "rear_window", Outcome::Nothing, vec![]),
    ]
    .map(|(station, place, outcome, gaps)| Visit {
        station: station.into(),
        place: place.into(),
        outcome,
        gaps,
    })
    .into();
    survey.fan_tests = vec![fan_test()];
    survey.air_tests = vec![equipment::air_test()];
    survey.calibrated = false;
    survey.series = trials::loggers();
    survey.trials = trials::trials();
    survey.stay = Stay {
        winter: Some(TypicalWinter::Northern),
        months: vec![
            MonthlyWeather {
                mean_c: -3.5,
                daily_range_k: 7.25,
                rh_percent: 84.0,
                wind_m_s: 3.1,
                sunshine_h_per_day: 1.75,
            };
            12
        ],
        weather_file: "up north.epw".into(),
        weather_original: "Up North 2024.epw".into(),
        latitude_deg: Some(63.5),
        season_first: "10-15".into(),
        season_last: "04-20".into(),
        colour: BodyColour::Grey,
        blinds_drawn: true,
        covered: true,
        present_from_h: Some(17.5),
        present_to_h: Some(8.0),
        stores_g_per_percent: Some(24.0),
    };
    survey.usual = Usual {
        winter: Some(TypicalWinter::Alpine),
        fabric: vec![FabricId(1), FabricId(3)],
        appliances: vec![ApplianceId(2)],
        weather: vec![WeatherId(1)],
        design_outside: true,
        altitude: true,
    };
    survey
}

/// A customer with papers, each text another.
fn job() -> Job {
    Job {
        customer: "Nobody & Daughters".into(),
        address: "2 Made-up Road\nNowhere".into(),
        registration: "XX 00 YYY".into(),
        quotation_number: "Q-31/07".into(),
        quotation_date: "2031-02-05".into(),
        valid_until: "2031-03-05".into(),
        order_number: "O 12".into(),
        order_date: "2031-02-11".into(),
        invoice_number: "2031-0044".into(),
        invoice_date: "2031-02-28".into(),
        pay_by: "2031-03-14".into(),
    }
}

/// What part each gap is and how its purpose stands, and that the appliances are confirmed.
fn what_gaps_are(survey: &mut Survey) {
    survey.appliances_confirmed = true;
    let parts = GapPart::ALL.into_iter().rev().cycle();
    for (gap, part) in survey.gaps.iter_mut().zip(parts) {
        gap.part = part;
    }
    survey.gaps[0].purpose = Purpose::NotSaid;
    survey.gaps[0].purpose_confirmed = true;
    survey.gaps[6].purpose_was = Some(Purpose::GasDropOut);
    let zone = survey.gaps[0].zone;
    for (id, part) in [(901, GapPart::NotSaid), (902, GapPart::FixedJoint)] {
        let form = Form::RoundHole { diameter_mm: None };
        let mut gap = Gap::new(GapId(id), zone, Facing::Roof, form);
        gap.part = part;
        gap.remedy = survey.gaps[1].remedy.clone().map(|remedy| Remedy {
            kind: RemedyKind::Trap,
            ..remedy
        });
        survey.gaps.push(gap);
    }
}

/// The survey in the file of format 1.
pub(crate) fn survey() -> Survey {
    Survey {
        header: Header {
            title: "Invented vehicle 1".into(),
            scene: "An invented motor caravan on a hill,\nmade up for a test.".into(),
            surveyor: "Nobody's \"surveyor\"".into(),
            date: "2031-02-03".into(),
            reference: "A-17\\b".into(),
            note: "Größe → später".into(),
        },
        vehicle: Vehicle {
            kind: VehicleKind::CoachBuilt,
            length_m: Some(6.95),
            width_m: Some(2.3),
            height_m: Some(2.89),
            floor_height_m: Some(0.6),
            inside_length_m: Some(5.5),
            inside_width_m: Some(2.17),
            inside_height_m: Some(1.98),
            volume_m3: Some(25.0),
            underside: Underside::SkirtedLeaking,
            skirt_free_area_mm2: None,
            underfloor_by_place: false,
            berths: 4,
            code_of_practice: CodeOfPractice::En721,
        },
        site: Site {
            terrain: Terrain::OpenFlat,
            shelter: Shelter::Exposed,
            pressure_set: PressureSet::WallAverage,
            heading_deg: Some(270.0),
            altitude_m: 350.0,
            prevailing_wind_deg: Some(225.5),
        },
        targets: Targets {
            rh_percent: 60.0,
            set_temperature_c: 8.5,
            frost_guard_c: 4.0,
            comfort_c: 21.0,
            design_outside_c: -15.0,
        },
        tariffs: Tariffs {
            currency: "£".into(),
            electricity_per_kwh: Some(0.31),
            gas_per_kg: Some(2.4),
            liquid_fuel_per_l: Some(1.72),
            workshop_per_hour: Some(65.0),
            tax_percent: Some(20.0),
            material_tax_percent: None,
        },
        job: Job::default(),
        drying: Drying {
            sun_w: 120.0,
            contents_kg: Some(410.0),
            contents_moisture_percent: Some(19.5),
            heat_capacity_kj_per_k: Some(850.0),
            salt_kg: Some(1.5),
            hookup_a: Some(10.0),
            battery_wh: Some(960.0),
        },
        stay: Stay::default(),
        set_up: SetUp::InUse,
        zones: [(1, "cab"), (2, "body"), (9, "roof & rooflights")]
            .map(|(id, name)| Zone {
                id: ZoneId(id),
                name: name.into(),
            })
            .into(),
        gaps: gaps(),
        weather: weather(),
        fabric: fabric(),
        appliances: appliances(),
        appliances_confirmed: false,
        machines: machines(),
        heaters: heaters(),
        fans: fans(),
        sources: sources(),
        spaces: [(1, "living space", Some(19.5), 0.0), (2, "cab", None, -3.5)]
            .map(|(id, name, volume_m3, warmer_by_k)| Space {
                id: SpaceId(id),
                name: name.into(),
                volume_m3,
                warmer_by_k,
            })
            .into(),
        inner_openings: vec![InnerOpening {
            id: InnerOpeningId(1),
            name: "curtain".into(),
            from: SpaceId(1),
            to: SpaceId(2),
            form: Form::RectangularHole {
                width_mm: Some(900.0),
                height_mm: Some(1500.0),
            },
            count: 1,
            height_m: Some(1.5),
            rise_m: Some(1.4),
            closing: Some(Closing {
                open_laid_up: false,
                open_in_use: true,
                leaves_percent: 15.0,
            }),
            certainty: Certainty::Measured,
        }],
        fittings: None,
        leakage_not_found_percent: Some(20.0),
        walk: Vec::new(),
        fan_tests: Vec::new(),
        air_tests: Vec::new(),
        calibrated: true,
        series: Vec::new(),
        trials: Vec::new(),
        usual: Usual::default(),
    }
}

fn forms() -> [Form; 10] {
    let stated = |convention, exponent| Form::StatedArea {
        area_mm2: Some(1500.0),
        convention,
        exponent,
    };
    [
        Form::NarrowGap {
            length_mm: Some(1800.0),
            width_mm: Some(1.5),
            depth_mm: Some(30.0),
            bends: 1,
        },
        Form::RoundHole {
            diameter_mm: Some(20.0),
        },
        Form::RectangularHole {
            width_mm: Some(100.0),
            height_mm: Some(99.5),
        },
        Form::RingGap {
            hole_mm: Some(40.0),
            pipe_mm: Some(28.0),
        },
        Form::Grille {
            width_mm: Some(300.0),
            height_mm: Some(80.0),
            material: GrilleMaterial::Metal,
            free_percent: Some(62.5),
        },
        Form::Grille {
            width_mm: None,
            height_mm: None,
            material: GrilleMaterial::Wood,
            free_percent: None,
        },
        stated(AreaConvention::Free, None),
        stated(AreaConvention::EquivalentAt1Pa, None),
        stated(AreaConvention::EffectiveAt4Pa, Some(0.7)),
        Form::FlowTest {
            flow_m3_per_h: Some(12.25),
            at_pa: Some(50.0),
            exponent: Some(0.65),
        },
    ]
}

fn gaps() -> Vec<Gap> {
    let mut gaps: Vec<Gap> = forms()
        .into_iter()
        .zip(Facing::ALL)
        .zip(1..)
        .map(|((form, facing), id)| Gap::new(GapId(id), ZoneId(1), facing, form))
        .collect();
    for gap in &mut gaps {
        gap.purpose = Purpose::Unintended;
    }
    let kinds = RemedyKind::ALL.into_iter();
    let kinds = kinds.filter(|kind| *kind != RemedyKind::Trap);
    for ((gap, kind), purpose) in gaps.iter_mut().zip(kinds).zip(
        Purpose::ALL
            .into_iter()
            .filter(|purpose| *purpose != Purpose::NotSaid)
            .chain(std::iter::repeat(Purpose::Unintended)),
    ) {
        gap.purpose = purpose;
        gap.remedy = Some(Remedy {
            kind,
            words: String::new(),
            leak_left_percent: None,
            material_cost: None,
            cost_basis: CostBasis::Piece,
            minutes: None,
        });
    }
    for (gap, state) in gaps.iter_mut().zip(WorkState::ALL) {
        gap.state = state;
    }
    let first = &mut gaps[0];
    first.zone = ZoneId(9);
    first.name = "habitation door seal".into();
    first.count = 2;
    first.position = Position {
        along_m: Some(3.2),
        across_m: Some(2.3),
        height_m: Some(1.55),
        rise_m: Some(1.75),
    };
    first.behind = Some(Behind::Gap(GapId(5)));
    first.space = Some(SpaceId(2));
    first.certainty = Certainty::Measured;
    first.photos = vec![
        Photo::new("1.jpg"),
        Photo {
            name: "door seal.png".into(),
            caption: "lower corner, from inside".into(),
            marks: vec![
                PhotoMark::Circle {
                    across: 0.25,
                    down: 0.75,
                    radius: 0.08,
                },
                PhotoMark::Arrow {
                    from_across: 0.5,
                    from_down: 0.2,
                    across: 0.3,
                    down: 0.7,
                },
            ],
            after_work: false,
        },
    ];
    first.damp = "18 %".into();
    first.note = "felt a draught here".into();
    first.remedy = Some(Remedy {
        kind: RemedyKind::Strip,
        words: "new strip all round".into(),
        leak_left_percent: Some(15.0),
        material_cost: Some(4.2),
        cost_basis: CostBasis::Metre,
        minutes: Some(40.0),
    });
    first.state_date = "2031-02-04".into();
    gaps[1].behind = Some(Behind::Opening {
        free_area_mm2: Some(5000.0),
    });
    gaps[2].behind = Some(Behind::Opening {
        free_area_mm2: None,
    });
    gaps[3].closing = Some(Closing::CLOSED);
    gaps[4].closing = Some(Closing {
        open_laid_up: true,
        open_in_use: true,
        leaves_percent: 2.5,
    });
    gaps[4].leads_to = LeadsTo::Compartment;
    gaps[5].certainty = Certainty::Guessed;
    gaps[7].cavity_pressure_coefficient = Some(-0.35);
    gaps
}

fn weather() -> Vec<WeatherCase> {
    vec![
        WeatherCase {
            id: WeatherId(1),
            name: "still".into(),
            wind_m_s: 0.0,
            outside_c: -5.5,
            outside_rh_percent: 92.0,
            inside: InsideAir::WarmerBy { kelvin: 2.0 },
            inside_rh_percent: None,
            weight: 0.25,
        },
        WeatherCase {
            id: WeatherId(4),
            name: "gale".into(),
            wind_m_s: 17.2,
            outside_c: 3.0,
            outside_rh_percent: 80.0,
            inside: InsideAir::HeldAt {
                temperature_c: 18.0,
            },
            inside_rh_percent: Some(48.0),
            weight: 3.0,
        },
    ]
}

fn fabric() -> Vec<FabricElement> {
    let mut fabric: Vec<FabricElement> = FabricPart::ALL
        .into_iter()
        .zip(1..)
        .map(|(part, id)| FabricElement {
            id: FabricId(id),
            name: part.name().into(),
            part,
            area_m2: Some(f64::from(id)),
            build_up: BuildUp::Stated {
                u_w_per_m2_k: Some(1.25),
            },
            bridge_percent: 15.0,
            outline: None,
        })
        .collect();
    fabric[0].build_up = BuildUp::Layers(vec![
        Layer {
            material: "GRP".into(),
            thickness_mm: Some(1.5),
            conductivity_w_per_m_k: Some(0.4),
            resistance_m2_k_per_w: None,
        },
        Layer {
            material: "air".into(),
            thickness_mm: None,
            conductivity_w_per_m_k: None,
            resistance_m2_k_per_w: Some(0.17),
        },
    ]);
    fabric[1].build_up = BuildUp::Layers(Vec::new());
    fabric[2].build_up = BuildUp::Stated { u_w_per_m2_k: None };
    fabric[3].outline = Some(Outline {
        facing: Facing::Nearside,
        along_m: 2.0,
        up_m: 1.6,
        width_m: 0.9,
        height_m: 0.5,
    });
    fabric
}
