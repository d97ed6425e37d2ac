//! What the window remembers between frames, one part for each page.

use crate::assess::Topic;
use crate::survey::Place;
use crate::window::page::Page;
use crate::window::pages;

/// What the pages remember between frames: plain data, one part for each page.
#[derive(Clone, Debug, Default)]
pub struct ViewState {
    /// The page shown.
    pub page: Page,
    /// The result whose working is open.
    pub working: Option<Topic>,
    /// Whether the help on the field at hand is shown.
    pub help: bool,
    /// A place to show and focus in this frame.
    pub wanted: Option<Place>,
    /// The page In short.
    pub in_short: pages::in_short::InShortView,
    /// The Vehicle page.
    pub vehicle: pages::vehicle::VehicleView,
    /// The Gaps page.
    pub gaps: pages::gaps::GapsView,
    /// The Air change page.
    pub air_change: pages::air_change::AirChangeView,
    /// The Drying & heat page.
    pub drying_heat: pages::drying_heat::DryingHeatView,
    /// The Winter page.
    pub winter: pages::winter::WinterView,
    /// The Sealing plan page.
    pub sealing_plan: pages::sealing_plan::SealingPlanView,
    /// The page Measurements.
    pub measurements: pages::measurements::MeasurementsView,
    /// The Job sheet page.
    pub job_sheet: pages::job_sheet::JobSheetView,
}

impl ViewState {
    /// As it begins with another survey, on a page of it: what was chosen for every survey stays.
    #[must_use]
    pub fn for_another_survey(&self, page: Page) -> Self {
        Self {
            page,
            gaps: self.gaps.for_another_survey(),
            air_change: self.air_change.for_another_survey(),
            job_sheet: self.job_sheet.for_another_survey(),
            ..Self::default()
        }
    }

    /// Opens the page that a place is on, lets that page reveal the item, and asks the field to
    /// take the focus in the next frame.
    pub fn go_to(&mut self, place: Place) {
        self.wanted = Some(place);
        self.page = Page::of(place.item);
        match self.page {
            Page::Vehicle => self.vehicle.reveal(place),
            Page::Gaps => self.gaps.reveal(place.item),
            Page::AirChange => self.air_change.reveal(place.item),
            Page::DryingHeat => self.drying_heat.reveal(place.item),
            Page::Winter => self.winter.reveal(place),
            Page::SealingPlan => self.sealing_plan.reveal(place.item),
            Page::Measurements => self.measurements.reveal(place.item),
            // All that a survey has there is in sight.
            Page::JobSheet | Page::InShort => {}
        }
    }
}
