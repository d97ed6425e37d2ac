//! The words that stand for choices in JSON and CSV: the same as in the survey file.
//!
//! They are part of what other programs rely on, and so do not follow the display names.

use super::{
    ApplianceKind, AreaConvention, Cavity, Certainty, CodeOfPractice, CostBasis, FabricPart,
    Facing, FanDirection, Form, GapPart, GrilleMaterial, HeaterFuel, LeadsTo, MachineKind, Purpose,
    RemedyKind, SetUp, SourceKind, VehicleKind, WorkState,
};
use crate::physics::pressure_coefficient::{PressureSet, Underside};
use crate::physics::wind::{Shelter, Terrain};

/// A choice that has a fixed word.
pub trait Word {
    /// The word.
    fn word(&self) -> &'static str;
}

macro_rules! words {
    ($($kind:ty { $($value:pat => $word:literal,)+ })+) => {$(
        impl Word for $kind {
            fn word(&self) -> &'static str {
                match self {
                    $($value => $word,)+
                }
            }
        }
    )+};
}

words! {
    SetUp {
        Self::LaidUp => "laid_up",
        Self::InUse => "in_use",
    }
    VehicleKind {
        Self::TouringCaravan => "touring_caravan",
        Self::PanelVan => "panel_van",
        Self::CoachBuilt => "coach_built",
        Self::Integrated => "integrated",
        Self::Other => "other",
    }
    CodeOfPractice {
        Self::En721 => "en_721",
        Self::AsNzs5601 => "as_nzs_5601_2",
    }
    Terrain {
        Self::OpenFlat => "open_flat",
        Self::ScatteredWindbreaks => "scattered_windbreaks",
        Self::Urban => "urban",
        Self::City => "city",
    }
    Shelter {
        Self::Exposed => "exposed",
        Self::PartSheltered => "part_sheltered",
        Self::Sheltered => "sheltered",
    }
    PressureSet {
        Self::LowRise => "low_rise",
        Self::WallAverage => "wall_average",
        Self::VehicleBody => "vehicle_body",
    }
    Underside {
        Self::Open => "open",
        Self::ClosedOneSide => "closed_one_side",
        Self::SkirtedLeaking => "skirted_leaking",
        Self::SkirtedTight => "skirted_tight",
    }
    Facing {
        Self::Front => "front",
        Self::Rear => "rear",
        Self::Nearside => "nearside",
        Self::Offside => "offside",
        Self::Roof => "roof",
        Self::Underfloor => "underfloor",
        Self::Cavity(Cavity::EngineBay) => "engine_bay",
        Self::Cavity(Cavity::WheelArch) => "wheel_arch",
        Self::Cavity(Cavity::Locker) => "locker",
        Self::Cavity(Cavity::RefrigeratorCompartment) => "refrigerator_compartment",
    }
    Form {
        Self::NarrowGap { .. } => "narrow_gap",
        Self::RoundHole { .. } => "round_hole",
        Self::RectangularHole { .. } => "rectangular_hole",
        Self::RingGap { .. } => "ring_gap",
        Self::Grille { .. } => "grille",
        Self::StatedArea { .. } => "stated_area",
        Self::FlowTest { .. } => "flow_test",
    }
    GrilleMaterial {
        Self::Metal => "metal",
        Self::Wood => "wood",
    }
    AreaConvention {
        Self::Free => "free",
        Self::EquivalentAt1Pa => "equivalent",
        Self::EffectiveAt4Pa => "effective",
    }
    GapPart {
        Self::NotSaid => "not_said",
        Self::FixedJoint => "fixed_joint",
        Self::MovingSeal => "moving_seal",
        Self::Passage => "passage",
        Self::GasPassage => "gas_passage",
        Self::Hole => "hole",
        Self::Grille => "grille",
        Self::Drain => "drain",
        Self::RefrigeratorSurround => "refrigerator_surround",
        Self::Flue => "flue",
        Self::BatteryVent => "battery_vent",
        Self::ToiletVent => "toilet_vent",
    }
    Purpose {
        Self::NotSaid => "not_said",
        Self::Unintended => "unintended",
        Self::SafetyVentilation => "safety_ventilation",
        Self::GasDropOut => "gas_drop_out",
        Self::ApplianceAir => "appliance_air",
        Self::Drain => "drain",
        Self::UserVentilation => "user_ventilation",
    }
    LeadsTo {
        Self::LivingSpace => "living_space",
        Self::Compartment => "compartment",
    }
    Certainty {
        Self::Measured => "measured",
        Self::Estimated => "estimated",
        Self::Guessed => "guessed",
    }
    RemedyKind {
        Self::Strip => "strip",
        Self::Brush => "brush",
        Self::Sealant => "sealant",
        Self::Grommet => "grommet",
        Self::CoverPlate => "cover_plate",
        Self::Curtain => "curtain",
        Self::Trap => "trap",
        Self::Own => "own",
    }
    CostBasis {
        Self::Piece => "piece",
        Self::Metre => "metre",
    }
    WorkState {
        Self::Open => "open",
        Self::Planned => "planned",
        Self::Sealed => "sealed",
        Self::Deferred => "deferred",
    }
    FabricPart {
        Self::Wall => "wall",
        Self::Roof => "roof",
        Self::Floor => "floor",
        Self::Window => "window",
        Self::Rooflight => "rooflight",
        Self::Door => "door",
        Self::CabMetal => "cab_metal",
    }
    ApplianceKind {
        Self::Hob => "hob",
        Self::Oven => "oven",
        Self::SpaceHeater => "space_heater",
        Self::WaterHeater => "water_heater",
        Self::Refrigerator => "refrigerator",
        Self::Stove => "stove",
        Self::Other => "other",
    }
    MachineKind {
        Self::Compressor => "compressor",
        Self::DesiccantRotor => "desiccant_rotor",
        Self::Thermoelectric => "thermoelectric",
        Self::SaltTub => "salt_tub",
    }
    HeaterFuel {
        Self::Electricity => "electricity",
        Self::FluedGas => "flued_gas",
        Self::UnfluedGas => "unflued_gas",
        Self::LiquidFuel => "liquid_fuel",
    }
    FanDirection {
        Self::Extract => "extract",
        Self::Supply => "supply",
    }
    SourceKind {
        Self::PersonAwake => "person_awake",
        Self::PersonAsleep => "person_asleep",
        Self::Cooking => "cooking",
        Self::Clothes => "clothes",
        Self::UnfluedFlame => "unflued_flame",
        Self::Other => "other",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::{Gap, GapId, Survey, ZoneId, file};

    /// The survey file is the other place where these words stand; they must agree.
    #[test]
    fn words_are_those_of_the_survey_file() {
        let mut survey = Survey::new(VehicleKind::CoachBuilt);
        let mut expected = vec![VehicleKind::CoachBuilt.word()];
        for (id, facing) in (1..).zip(Facing::ALL) {
            let form = Form::blanks()[id as usize % 7].clone();
            let mut gap = Gap::new(GapId(id), ZoneId(1), facing, form);
            gap.part = GapPart::ALL[id as usize % 12];
            gap.purpose = Purpose::ALL[id as usize % 7];
            gap.certainty = Certainty::ALL[id as usize % 3];
            gap.state = WorkState::ALL[id as usize % 4];
            gap.leads_to = LeadsTo::Compartment;
            // The file leaves out what is the usual choice.
            let usual = Gap::new(GapId(id), ZoneId(1), facing, gap.form.clone());
            expected.extend([gap.facing.word(), gap.form.word(), gap.leads_to.word()]);
            expected.push(gap.part.word());
            for (word, is_usual) in [
                (gap.purpose.word(), gap.purpose == usual.purpose),
                (gap.certainty.word(), gap.certainty == usual.certainty),
                (gap.state.word(), gap.state == usual.state),
            ] {
                if !is_usual {
                    expected.push(word);
                }
            }
            survey.gaps.push(gap);
        }
        let text = file::print(&survey);
        for word in expected {
            let found = text
                .split(|c: char| !(c.is_ascii_alphanumeric() || c == '_'))
                .any(|token| token == word);
            assert!(found, "{word} is not in the survey file");
        }
    }
}
