//! Invented fabric, fittings and machines.

use super::Maker;
use gapledger::survey::*;

impl Maker {
    pub(super) fn fabric(&mut self, id: u32) -> FabricElement {
        FabricElement {
            id: FabricId(id),
            name: self.text(),
            part: self.pick(&FabricPart::ALL),
            area_m2: self.maybe(),
            build_up: match self.yes() {
                true => BuildUp::Stated {
                    u_w_per_m2_k: self.maybe(),
                },
                false => BuildUp::Layers(self.list(4, |maker, _| Layer {
                    material: maker.text(),
                    thickness_mm: maker.maybe(),
                    conductivity_w_per_m_k: maker.maybe(),
                    resistance_m2_k_per_w: maker.maybe(),
                })),
            },
            bridge_percent: self.number(),
            outline: self.yes().then(|| self.outline()),
        }
    }

    pub(super) fn outline(&mut self) -> Outline {
        Outline {
            facing: self.pick(&Facing::ALL),
            along_m: self.number(),
            up_m: self.number(),
            width_m: self.number(),
            height_m: self.number(),
        }
    }

    pub(super) fn fitting(&mut self, id: u32) -> Fitting {
        Fitting {
            id: FittingId(id),
            kind: self.pick(&FittingKind::ALL),
            outline: self.outline(),
        }
    }

    pub(super) fn machine(&mut self, id: u32) -> Machine {
        Machine {
            id: MachineId(id),
            name: self.text(),
            kind: self.pick(&MachineKind::ALL),
            rated_removal_l_per_day: self.maybe(),
            rated_temperature_c: self.maybe(),
            rated_rh_percent: self.maybe(),
            power_w: self.maybe(),
            airflow_m3_per_h: self.maybe(),
            lowest_room_c: self.maybe(),
            tub_area_m2: self.maybe(),
            tub_l: self.maybe(),
            hygrostat: self.yes(),
            points: self.list(3, |maker, _| MachinePoint {
                temperature_c: maker.number(),
                rh_percent: maker.number(),
                removal_l_per_day: maker.number(),
                power_w: maker.number(),
            }),
            price: self.maybe(),
            upkeep_per_month: self.maybe(),
            owned: self.yes(),
        }
    }
}
