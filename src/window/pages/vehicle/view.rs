//! What the Vehicle page remembers between frames, and how wide its cards are.

use crate::figure::outline::SideFigure;
use crate::survey::{FabricId, Field, Item, Place, Survey, TypicalWinter};
use crate::window::context::PageContext;
use crate::window::pages::kept::Kept;

/// What the page gets to see.
pub(super) type VehicleContext<'a> = PageContext<'a, VehicleView>;

/// Width of a card at least.
pub(super) const CARD_LEAST: f32 = 370.0;

/// What the page remembers between frames.
#[derive(Clone, Debug, Default)]
pub struct VehicleView {
    pub(super) section: Section,
    pub(super) element: Option<FabricId>,
    /// The winter to take weather from, where one was chosen.
    pub(super) winter: Option<TypicalWinter>,
    /// What is seldom changed of where it stands is unfolded.
    pub(super) more: bool,
    /// The vehicle from its side, for a revision of the survey.
    pub(super) drawing: Kept<u64, SideFigure>,
}

/// The parts of the page, in the order of the job.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Section {
    /// The survey itself, the vehicle's sizes, where it stands.
    #[default]
    Body,
    /// Weather cases, targets, prices.
    Weather,
    /// Fabric elements with their build-ups.
    Fabric,
    /// Appliances, machines, heaters, fans, moisture sources.
    Equipment,
    /// Spaces inside and what joins them.
    Spaces,
}

impl Section {
    /// Every section with its name.
    pub const ALL: [(Self, &'static str); 5] = [
        (Self::Body, "Body and place"),
        (Self::Weather, "Weather and targets"),
        (Self::Fabric, "Fabric"),
        (Self::Equipment, "Equipment"),
        (Self::Spaces, "Spaces inside"),
    ];
}

impl VehicleView {
    /// Makes an item visible, for a finding's way to its place.
    pub fn reveal(&mut self, place: Place) {
        self.more |= place.is_at(Field::PressureSet);
        self.section = match place.item {
            _ if place.is_at(Field::AppliancesConfirmed) => Section::Equipment,
            Item::Weather(_) | Item::Targets | Item::Tariffs => Section::Weather,
            Item::Fabric(id) => {
                self.element = Some(id);
                Section::Fabric
            }
            Item::Appliance(_)
            | Item::Machine(_)
            | Item::Drying
            | Item::Heater(_)
            | Item::Fan(_)
            | Item::Source(_) => Section::Equipment,
            Item::Space(_) | Item::InnerOpening(_) => Section::Spaces,
            _ => Section::Body,
        };
    }

    /// The winter to take weather from: the one chosen, or that of the survey. The first offered is
    /// the middle one: heat sized for its cold is too much in most places rather than too little.
    #[must_use]
    pub fn winter_in(&self, survey: &Survey) -> TypicalWinter {
        let known = self.winter.or(survey.usual.winter);
        known.unwrap_or(TypicalWinter::Continental)
    }

    /// The section shown.
    #[must_use]
    pub fn section(&self) -> Section {
        self.section
    }

    /// The selected fabric element, or the first.
    #[must_use]
    pub fn element_in(&self, survey: &Survey) -> Option<FabricId> {
        let there = |id: FabricId| survey.fabric.iter().any(|element| element.id == id);
        self.element
            .filter(|&id| there(id))
            .or_else(|| survey.fabric.first().map(|element| element.id))
    }
}
