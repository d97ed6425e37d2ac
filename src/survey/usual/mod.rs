//! What is usual for a kind of vehicle, filled in with one edit and marked: *usual, not measured*.
//!
//! It fills only what is empty, or still as a new survey has it, or still marked; nothing that
//! somebody entered is ever changed. A mark goes when its record is changed by hand, or when somebody
//! says that it is so. What is marked follows the vehicle: areas its sizes, appliances its kind.

mod appliances;
mod fabric;
mod marks;
mod weather;

pub use marks::{Usual, UsualPart};

use super::starting::default_weather;
use super::typical_winters::TypicalWinter;
use super::{FabricElement, Survey, Targets, Vehicle, VehicleKind};

impl Survey {
    /// Fills in what is usual for the vehicle's kind, with the weather of a winter, wherever nobody
    /// has entered anything.
    pub(super) fn fill_usual(&mut self, winter: TypicalWinter) {
        self.vehicle.fill_sizes();
        if self.fabric_is_nobodys() {
            self.put_usual_fabric();
        }
        if self.appliances_are_nobodys() {
            self.put_usual_appliances();
        }
        if self.weather_is_nobodys() {
            self.weather = weather::of(winter);
            self.usual.weather = self.weather.iter().map(|case| case.id).collect();
            self.usual.winter = Some(winter);
        }
        let means = winter.means();
        let first = Targets::default().design_outside_c;
        if self.usual.design_outside || same(self.targets.design_outside_c, first) {
            self.targets.design_outside_c = means.design_outside_c;
            self.usual.design_outside = true;
            self.usual.winter = Some(winter);
        }
        if self.usual.altitude || same(self.site.altitude_m, 0.0) {
            self.site.altitude_m = means.altitude_m;
            self.usual.altitude = true;
            self.usual.winter = Some(winter);
        }
    }

    /// Brings what is marked after the vehicle: areas after its sizes, appliances after its kind.
    pub(super) fn usual_follows(&mut self, before: VehicleKind) {
        if !self.usual.fabric.is_empty() {
            if self.fabric_is_nobodys() {
                self.put_usual_fabric();
            } else {
                let wanted = fabric::of(&self.vehicle);
                for element in &mut self.fabric {
                    let same = |one: &&FabricElement| one.name == element.name;
                    if self.usual.fabric.contains(&element.id)
                        && let Some(wanted) = wanted.iter().find(same)
                    {
                        element.area_m2 = wanted.area_m2;
                    }
                }
            }
        }
        let another_kind = before != self.vehicle.kind;
        if another_kind && !self.usual.appliances.is_empty() && self.appliances_are_nobodys() {
            self.put_usual_appliances();
        }
    }

    fn put_usual_fabric(&mut self) {
        self.fabric = fabric::of(&self.vehicle);
        self.usual.fabric = self.fabric.iter().map(|element| element.id).collect();
    }

    fn put_usual_appliances(&mut self) {
        self.appliances = appliances::of(self.vehicle.kind);
        self.usual.appliances = self.appliances.iter().map(|one| one.id).collect();
        self.appliances_confirmed = false;
    }

    fn fabric_is_nobodys(&self) -> bool {
        let mut all = self.fabric.iter();
        all.all(|element| self.usual.fabric.contains(&element.id))
    }

    /// A list that is confirmed to be whole is somebody's, even where nothing stands in it.
    fn appliances_are_nobodys(&self) -> bool {
        let mut all = self.appliances.iter();
        !self.appliances_confirmed && all.all(|one| self.usual.appliances.contains(&one.id))
    }

    fn weather_is_nobodys(&self) -> bool {
        let mut all = self.weather.iter();
        all.all(|case| self.usual.weather.contains(&case.id)) || self.weather == default_weather()
    }
}

impl Vehicle {
    /// Takes the usual sizes of its kind where it has no size at all: some with others would be a
    /// vehicle that nobody has seen.
    fn fill_sizes(&mut self) {
        let sizes = [
            self.length_m,
            self.width_m,
            self.height_m,
            self.floor_height_m,
            self.inside_length_m,
            self.inside_width_m,
            self.inside_height_m,
            self.volume_m3,
        ];
        if sizes.iter().all(Option::is_none) {
            self.take_starting_sizes();
        }
    }
}

/// Whether two numbers are the very same.
fn same(one: f64, other: f64) -> bool {
    one.total_cmp(&other).is_eq()
}

#[cfg(test)]
mod tests;
