//! Surveys invented from random numbers, with every field and every word of the format in reach.
//!
//! The random numbers are a list that runs out: after its end everything is the first choice,
//! `None` or empty. A failing case therefore shrinks to a small survey.

mod fabric;
mod fan_tests;
mod trials;

use gapledger::physics::pressure_coefficient::{PressureSet, Underside};
use gapledger::physics::wind::{Shelter, Terrain};
use gapledger::survey::*;
use proptest::prelude::*;

/// Any survey that a file can hold: finite numbers, plain photo names, each id once, each gap in
/// a zone.
pub(crate) fn any_survey() -> impl Strategy<Value = Survey> {
    prop::collection::vec(any::<u32>(), 0..1500).prop_map(|numbers| {
        let mut maker = Maker {
            numbers: numbers.into_iter(),
        };
        maker.survey()
    })
}

struct Maker {
    numbers: std::vec::IntoIter<u32>,
}

const TEXTS: [&str; 14] = [
    "",
    "door seal",
    "the driver's door",
    "\"quoted\" and \\ back",
    "two\nlines\r\nand\ttab",
    "Größe 2 mm → höchstens ½",
    "שלום عربى",
    "\u{202e}turned\u{200b}",
    "e\u{301} \u{1f690}",
    "\u{0}\u{7}\u{1b}[31m",
    "r#\"raw\"# // no comment /* none */",
    "), format: 2, (",
    "NaN",
    " \u{feff} ",
];

impl Maker {
    fn next(&mut self) -> u32 {
        self.numbers.next().unwrap_or(0)
    }

    fn yes(&mut self) -> bool {
        self.next() % 2 == 1
    }

    fn pick<T: Copy>(&mut self, from: &[T]) -> T {
        from[self.next() as usize % from.len()]
    }

    fn number(&mut self) -> f64 {
        match self.next() % 8 {
            0 => f64::from(self.next() % 3000),
            1 => f64::from(self.next() % 100_000) / 1000.0,
            2 => -f64::from(self.next() % 1000) / 10.0,
            3 => self.pick(&[
                0.0,
                -0.0,
                f64::MIN_POSITIVE,
                5e-324,
                f64::MAX,
                f64::MIN,
                0.1 + 0.2,
                1e15,
                999_999_999_999_999.0,
                -1e15,
                9_007_199_254_740_993.0,
                1e-7,
            ]),
            _ => {
                let bits = u64::from(self.next()) << 32 | u64::from(self.next());
                let any = f64::from_bits(bits);
                if any.is_finite() { any } else { 1.5 }
            }
        }
    }

    fn maybe(&mut self) -> Option<f64> {
        self.yes().then(|| self.number())
    }

    fn text(&mut self) -> String {
        match self.next() % 4 {
            3 => {
                let letters = self.next() % 12;
                (0..letters)
                    .filter_map(|_| char::from_u32(self.next() % 0x11_0000))
                    .collect()
            }
            _ => self.pick(&TEXTS).to_owned(),
        }
    }

    fn list<T>(&mut self, most: u32, mut one: impl FnMut(&mut Self, u32) -> T) -> Vec<T> {
        let count = self.next() % (most + 1);
        let mut id = 0;
        (0..count)
            .map(|_| {
                id += 1 + self.next() % 1000;
                one(self, id)
            })
            .collect()
    }

    fn survey(&mut self) -> Survey {
        let header = Header {
            title: self.text(),
            scene: self.text(),
            surveyor: self.text(),
            date: self.text(),
            reference: self.text(),
            note: self.text(),
        };
        let zones = self.list(5, |maker, id| Zone {
            id: ZoneId(id),
            name: maker.text(),
        });
        let gaps = match zones.is_empty() {
            true => Vec::new(),
            false => self.list(8, |maker, id| maker.gap(GapId(id), &zones)),
        };
        Survey {
            header,
            vehicle: self.vehicle(),
            site: self.site(),
            targets: self.targets(),
            tariffs: self.tariffs(),
            job: Job {
                customer: self.text(),
                address: self.text(),
                registration: self.text(),
                quotation_number: self.text(),
                quotation_date: self.text(),
                valid_until: self.text(),
                order_number: self.text(),
                order_date: self.text(),
                invoice_number: self.text(),
                invoice_date: self.text(),
                pay_by: self.text(),
            },
            drying: self.drying(),
            stay: self.stay(),
            set_up: self.pick(&SetUp::ALL),
            zones,
            gaps,
            weather: self.list(4, Self::weather),
            fabric: self.list(4, Self::fabric),
            appliances: self.list(3, |maker, id| Appliance {
                id: ApplianceId(id),
                kind: maker.pick(&ApplianceKind::ALL),
                name: maker.text(),
                room_sealed: maker.yes(),
                input_mj_per_h: maker.maybe(),
            }),
            appliances_confirmed: self.yes(),
            machines: self.list(3, Self::machine),
            heaters: self.heaters(),
            fans: self.fans(),
            sources: self.sources(),
            spaces: self.spaces(),
            inner_openings: self.inner_openings(),
            fittings: self.yes().then(|| self.list(4, Self::fitting)),
            leakage_not_found_percent: self.maybe(),
            walk: self.list(4, |maker, _| Visit {
                station: maker.text(),
                place: maker.text(),
                outcome: maker.pick(&Outcome::ALL),
                gaps: maker.list(3, |_, id| GapId(id)),
            }),
            fan_tests: self.list(3, Self::fan_test),
            air_tests: self.list(3, Self::air_test),
            calibrated: self.yes(),
            series: self.list(3, Self::logger),
            trials: self.list(2, Self::trial),
            usual: self.usual(),
        }
    }

    fn usual(&mut self) -> Usual {
        Usual {
            winter: self.yes().then(|| self.pick(&TypicalWinter::ALL)),
            fabric: self.list(3, |_, id| FabricId(id)),
            appliances: self.list(3, |_, id| ApplianceId(id)),
            weather: self.list(3, |_, id| WeatherId(id)),
            design_outside: self.yes(),
            altitude: self.yes(),
        }
    }

    fn targets(&mut self) -> Targets {
        Targets {
            rh_percent: self.number(),
            set_temperature_c: self.number(),
            frost_guard_c: self.number(),
            comfort_c: self.number(),
            design_outside_c: self.number(),
        }
    }

    fn tariffs(&mut self) -> Tariffs {
        Tariffs {
            currency: self.text(),
            electricity_per_kwh: self.maybe(),
            gas_per_kg: self.maybe(),
            liquid_fuel_per_l: self.maybe(),
            workshop_per_hour: self.maybe(),
            tax_percent: self.maybe(),
            material_tax_percent: self.maybe(),
        }
    }

    fn drying(&mut self) -> Drying {
        Drying {
            sun_w: self.number(),
            contents_kg: self.maybe(),
            contents_moisture_percent: self.maybe(),
            heat_capacity_kj_per_k: self.maybe(),
            salt_kg: self.maybe(),
            hookup_a: self.maybe(),
            battery_wh: self.maybe(),
        }
    }

    fn stay(&mut self) -> Stay {
        Stay {
            winter: self.yes().then(|| self.pick(&TypicalWinter::ALL)),
            months: self.list(12, |maker, _| MonthlyWeather {
                mean_c: maker.number(),
                daily_range_k: maker.number(),
                rh_percent: maker.number(),
                wind_m_s: maker.number(),
                sunshine_h_per_day: maker.number(),
            }),
            weather_file: self.text(),
            weather_original: self.text(),
            latitude_deg: self.maybe(),
            season_first: self.text(),
            season_last: self.text(),
            colour: self.pick(&BodyColour::ALL),
            blinds_drawn: self.yes(),
            covered: self.yes(),
            present_from_h: self.maybe(),
            present_to_h: self.maybe(),
            stores_g_per_percent: self.maybe(),
        }
    }

    fn heaters(&mut self) -> Vec<Heater> {
        self.list(3, |maker, id| Heater {
            id: HeaterId(id),
            name: maker.text(),
            fuel: maker.pick(&HeaterFuel::ALL),
            rating_w: maker.maybe(),
            set_point_c: maker.maybe(),
            price: maker.maybe(),
            upkeep_per_month: maker.maybe(),
            owned: maker.yes(),
        })
    }

    fn fans(&mut self) -> Vec<Fan> {
        self.list(3, |maker, id| Fan {
            id: FanId(id),
            name: maker.text(),
            direction: maker.pick(&[FanDirection::Extract, FanDirection::Supply]),
            flow_m3_per_h: maker.maybe(),
            most_pressure_pa: maker.maybe(),
            on_laid_up: maker.yes(),
            on_in_use: maker.yes(),
            space: maker.yes().then(|| SpaceId(maker.next())),
        })
    }

    fn sources(&mut self) -> Vec<MoistureSource> {
        self.list(3, |maker, id| MoistureSource {
            id: SourceId(id),
            name: maker.text(),
            kind: maker.pick(&SourceKind::ALL),
            count: maker.next(),
            rate_g_per_h: maker.maybe(),
            hours_per_day: maker.number(),
            laid_up: maker.yes(),
            in_use: maker.yes(),
        })
    }

    fn vehicle(&mut self) -> Vehicle {
        Vehicle {
            kind: self.pick(&VehicleKind::ALL),
            length_m: self.maybe(),
            width_m: self.maybe(),
            height_m: self.maybe(),
            floor_height_m: self.maybe(),
            inside_length_m: self.maybe(),
            inside_width_m: self.maybe(),
            inside_height_m: self.maybe(),
            volume_m3: self.maybe(),
            underside: self.pick(&Underside::ALL),
            skirt_free_area_mm2: self.maybe(),
            underfloor_by_place: self.yes(),
            berths: self.next(),
            code_of_practice: self.pick(&CodeOfPractice::ALL),
        }
    }

    fn site(&mut self) -> Site {
        Site {
            terrain: self.pick(&[
                Terrain::OpenFlat,
                Terrain::ScatteredWindbreaks,
                Terrain::Urban,
                Terrain::City,
            ]),
            shelter: self.pick(&[Shelter::Exposed, Shelter::PartSheltered, Shelter::Sheltered]),
            pressure_set: self.pick(&PressureSet::ALL),
            heading_deg: self.maybe(),
            altitude_m: self.number(),
            prevailing_wind_deg: self.maybe(),
        }
    }

    fn form(&mut self) -> Form {
        match self.next() % 7 {
            0 => Form::NarrowGap {
                length_mm: self.maybe(),
                width_mm: self.maybe(),
                depth_mm: self.maybe(),
                bends: self.next(),
            },
            1 => Form::RoundHole {
                diameter_mm: self.maybe(),
            },
            2 => Form::RectangularHole {
                width_mm: self.maybe(),
                height_mm: self.maybe(),
            },
            3 => Form::RingGap {
                hole_mm: self.maybe(),
                pipe_mm: self.maybe(),
            },
            4 => Form::Grille {
                width_mm: self.maybe(),
                height_mm: self.maybe(),
                material: self.pick(&[GrilleMaterial::Metal, GrilleMaterial::Wood]),
                free_percent: self.maybe(),
            },
            5 => Form::StatedArea {
                area_mm2: self.maybe(),
                convention: self.pick(&AreaConvention::ALL),
                exponent: self.maybe(),
            },
            _ => Form::FlowTest {
                flow_m3_per_h: self.maybe(),
                at_pa: self.maybe(),
                exponent: self.maybe(),
            },
        }
    }

    fn photo(&mut self, id: u32) -> Photo {
        let before = self.pick(&["", "ü", "it's ", "…", "\"", "\u{200b}"]);
        Photo {
            name: format!("{before}{id}.jpg"),
            caption: self.text(),
            after_work: self.yes(),
            marks: self.list(2, |maker, _| {
                if maker.yes() {
                    PhotoMark::Circle {
                        across: maker.number(),
                        down: maker.number(),
                        radius: maker.number(),
                    }
                } else {
                    PhotoMark::Arrow {
                        from_across: maker.number(),
                        from_down: maker.number(),
                        across: maker.number(),
                        down: maker.number(),
                    }
                }
            }),
        }
    }

    fn spaces(&mut self) -> Vec<Space> {
        self.list(3, |maker, id| Space {
            id: SpaceId(id),
            name: maker.text(),
            volume_m3: maker.maybe(),
            warmer_by_k: maker.number(),
        })
    }

    fn inner_openings(&mut self) -> Vec<InnerOpening> {
        self.list(3, |maker, id| InnerOpening {
            id: InnerOpeningId(id),
            name: maker.text(),
            from: SpaceId(maker.next()),
            to: SpaceId(maker.next()),
            form: maker.form(),
            count: maker.next(),
            height_m: maker.maybe(),
            rise_m: maker.maybe(),
            closing: maker.closing(),
            certainty: maker.pick(&Certainty::ALL),
        })
    }

    fn closing(&mut self) -> Option<Closing> {
        self.yes().then(|| Closing {
            open_laid_up: self.yes(),
            open_in_use: self.yes(),
            leaves_percent: self.number(),
        })
    }

    fn gap(&mut self, id: GapId, zones: &[Zone]) -> Gap {
        Gap {
            id,
            zone: zones[self.next() as usize % zones.len()].id,
            name: self.text(),
            facing: self.pick(&Facing::ALL),
            cavity_pressure_coefficient: self.maybe(),
            form: self.form(),
            count: self.next(),
            position: Position {
                along_m: self.maybe(),
                across_m: self.maybe(),
                height_m: self.maybe(),
                rise_m: self.maybe(),
            },
            part: self.pick(&GapPart::ALL),
            purpose: self.pick(&Purpose::ALL),
            purpose_confirmed: self.yes(),
            purpose_was: self.yes().then_some(Purpose::GasDropOut),
            closing: self.closing(),
            leads_to: self.pick(&[LeadsTo::LivingSpace, LeadsTo::Compartment]),
            behind: match self.next() % 3 {
                0 => None,
                1 => Some(Behind::Gap(GapId(self.next()))),
                _ => Some(Behind::Opening {
                    free_area_mm2: self.maybe(),
                }),
            },
            space: self.yes().then(|| SpaceId(self.next())),
            certainty: self.pick(&Certainty::ALL),
            photos: self.list(3, Self::photo),
            damp: self.text(),
            note: self.text(),
            remedy: self.yes().then(|| Remedy {
                kind: self.pick(&RemedyKind::ALL),
                words: self.text(),
                leak_left_percent: self.maybe(),
                material_cost: self.maybe(),
                cost_basis: self.pick(&[CostBasis::Piece, CostBasis::Metre]),
                minutes: self.maybe(),
            }),
            state: self.pick(&WorkState::ALL),
            state_date: self.text(),
        }
    }

    fn weather(&mut self, id: u32) -> WeatherCase {
        WeatherCase {
            id: WeatherId(id),
            name: self.text(),
            wind_m_s: self.number(),
            outside_c: self.number(),
            outside_rh_percent: self.number(),
            inside: match self.yes() {
                true => InsideAir::HeldAt {
                    temperature_c: self.number(),
                },
                false => InsideAir::WarmerBy {
                    kelvin: self.number(),
                },
            },
            inside_rh_percent: self.maybe(),
            weight: self.number(),
        }
    }
}
