//! The gap that the bar is about to add.

use crate::survey::shapes::{SHAPES, StartingShape, asked_purpose, only_outer_opening};
use crate::survey::{
    Certainty, Facing, Form, Gap, GapPart, Position, Purpose, Survey, Vehicle, ZoneId,
};

/// What a draft starts from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Start {
    /// A starting shape, by its place in the list.
    Shape(usize),
    /// A bare form, by its place among the blanks.
    Form(usize),
}

impl Start {
    /// Every start: shapes first, then bare forms.
    pub(super) fn all() -> Vec<Self> {
        let shapes = (0..SHAPES.len()).map(Self::Shape);
        let forms = (0..Form::blanks().len()).map(Self::Form);
        shapes.chain(forms).collect()
    }

    pub(super) fn shape(self) -> Option<&'static StartingShape> {
        match self {
            Self::Shape(at) => SHAPES.get(at),
            Self::Form(_) => None,
        }
    }

    /// Form and sizes that it starts with.
    fn form(self) -> Form {
        let [first, ..] = Form::blanks();
        match self {
            Self::Shape(_) => self.shape().map_or(first, |shape| shape.form.clone()),
            Self::Form(at) => Form::blanks().get(at).cloned().unwrap_or(first),
        }
    }

    /// Its name in the choice.
    pub(super) fn words(self) -> String {
        match self.shape() {
            Some(shape) => shape.name.to_owned(),
            None => self.form().name().to_owned(),
        }
    }
}

/// The gap being written down.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Draft {
    pub(super) start: Start,
    pub(super) zone: Option<ZoneId>,
    pub(super) facing: Facing,
    /// The facing chosen last by hand: shapes without one of their own go back to it.
    by_hand: Facing,
    /// It was chosen for this very gap: no shape then changes it.
    held: bool,
    pub(super) form: Form,
    pub(super) count: u32,
    pub(super) position: Position,
    pub(super) certainty: Certainty,
    /// The part chosen by hand.
    pub(super) part: Option<GapPart>,
    /// The purpose chosen by hand.
    pub(super) purpose: Option<Purpose>,
    pub(super) name: String,
}

impl Default for Draft {
    fn default() -> Self {
        let start = Start::Form(0);
        Self {
            start,
            zone: None,
            facing: Facing::Nearside,
            by_hand: Facing::Nearside,
            held: false,
            form: start.form(),
            count: 1,
            position: Position::default(),
            certainty: Certainty::Estimated,
            part: None,
            purpose: None,
            name: String::new(),
        }
    }
}

impl Draft {
    /// Starts from another shape or form.
    pub(super) fn begin(&mut self, start: Start) {
        self.start = start;
        self.form = start.form();
        self.name.clear();
        (self.part, self.purpose) = (None, None);
        if !self.held {
            let own = start.shape().and_then(|shape| shape.facing);
            self.turn(own.unwrap_or(self.by_hand));
        }
    }

    /// Faces the outside that somebody chose.
    pub(super) fn choose(&mut self, facing: Facing) {
        self.by_hand = facing;
        self.held = true;
        self.turn(facing);
    }

    /// Faces another outside; the place belonged to the one before.
    pub(super) fn turn(&mut self, facing: Facing) {
        if facing != self.facing {
            self.facing = facing;
            self.position = Position::default();
        }
    }

    /// The zone, or the first of the survey where none was chosen or it is gone.
    pub(super) fn zone_in(&self, survey: &Survey) -> Option<ZoneId> {
        self.zone
            .filter(|zone| survey.zone(*zone).is_some())
            .or_else(|| survey.zones.first().map(|zone| zone.id))
    }

    /// Whether its sizes are still the guesses that it started with.
    pub(super) fn is_guess(&self) -> bool {
        self.start
            .shape()
            .is_some_and(|shape| shape.form == self.form)
    }

    /// What the next draft keeps: zone, facing, shape, how sizes are found, and of a narrow gap
    /// the depth and bends, which belong to the wall. Sizes and place are taken anew.
    pub(super) fn next(&self) -> Self {
        let mut next = Self {
            form: self.start.form(),
            count: 1,
            position: Position::default(),
            name: String::new(),
            part: None,
            purpose: None,
            held: false,
            ..self.clone()
        };
        if let (
            Form::NarrowGap {
                depth_mm, bends, ..
            },
            Form::NarrowGap {
                depth_mm: kept,
                bends: kept_bends,
                ..
            },
            Start::Form(_),
        ) = (&mut next.form, &self.form, self.start)
        {
            (*depth_mm, *bends) = (*kept, *kept_bends);
        }
        next
    }

    /// The gap; `None` while the survey has no zone.
    pub(super) fn gap(&self, survey: &Survey) -> Option<Gap> {
        let zone = self.zone_in(survey)?;
        let id = survey.free_gap_id();
        let mut gap = Gap::new(id, zone, self.facing, self.form.clone());
        gap.name = self.name.trim().to_owned();
        gap.count = self.count;
        gap.position = self.place(&survey.vehicle);
        gap.certainty = self.certainty;
        if let Some(shape) = self.start.shape() {
            if gap.name.is_empty() {
                gap.name = shape.name.to_owned();
            }
            if self.is_guess() {
                gap.certainty = Certainty::Guessed;
            }
            gap.position.rise_m = shape.rise_m;
            gap.leads_to = shape.leads_to;
            gap.closing = shape.closing;
        }
        gap.part = self.part();
        gap.purpose = self.purpose_of(survey, &gap);
        gap.behind = only_outer_opening(survey, self.facing);
        Some(gap)
    }

    /// What part it is: as chosen, or as its shape or a bare grille says.
    pub(super) fn part(&self) -> GapPart {
        let own = || match self.start.shape() {
            Some(shape) => shape.part,
            None if matches!(self.form, Form::Grille { .. }) => GapPart::Grille,
            None => GapPart::NotSaid,
        };
        self.part.unwrap_or_else(own)
    }

    /// What it is there for, in this survey: a grille, or what stands among vents, is never
    /// unintended before somebody has said so.
    pub(super) fn purpose(&self, survey: &Survey) -> Purpose {
        self.gap(survey).map_or(Purpose::NotSaid, |gap| gap.purpose)
    }

    fn purpose_of(&self, survey: &Survey, gap: &Gap) -> Purpose {
        let shape = self.start.shape();
        let own = shape.map_or(Purpose::Unintended, |shape| shape.purpose);
        self.purpose
            .unwrap_or_else(|| asked_purpose(survey, gap, own))
    }

    /// The place with everything that the face and the vehicle's sizes determine.
    fn place(&self, vehicle: &Vehicle) -> Position {
        let mut place = self.position;
        match self.facing {
            Facing::Nearside => place.across_m = vehicle.width_m.map(|_| 0.0),
            Facing::Offside => place.across_m = vehicle.width_m,
            Facing::Front => place.along_m = vehicle.length_m.map(|_| 0.0),
            Facing::Rear => place.along_m = vehicle.length_m,
            Facing::Roof => place.height_m = vehicle.height_m,
            Facing::Underfloor => place.height_m = vehicle.floor_height_m,
            Facing::Cavity(_) => {}
        }
        place
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::{Behind, Cavity};
    use crate::survey::{Edit, Purpose, Record, VehicleKind};

    fn survey() -> Survey {
        let mut survey = Survey::new(VehicleKind::CoachBuilt);
        (survey.vehicle.width_m, survey.vehicle.height_m) = (Some(2.3), Some(2.9));
        survey
    }

    fn started(name: &str) -> Draft {
        let mut draft = Draft::default();
        let all = Start::all();
        let start = all.iter().find(|start| start.words() == name).unwrap();
        draft.begin(*start);
        draft
    }

    #[test]
    fn a_shape_is_guessed_until_a_size_is_typed() {
        let mut draft = started("heater flue collar");
        let gap = draft.gap(&survey()).unwrap();
        assert_eq!(gap.certainty, Certainty::Guessed);
        assert_eq!(gap.purpose, Purpose::ApplianceAir);
        assert_eq!(gap.name, "heater flue collar");
        draft.certainty = Certainty::Measured;
        draft.form = Form::RingGap {
            hole_mm: Some(90.0),
            pipe_mm: Some(80.0),
        };
        let gap = draft.gap(&survey()).unwrap();
        assert_eq!(gap.certainty, Certainty::Measured);
        assert_eq!(gap.purpose, Purpose::ApplianceAir);
    }

    #[test]
    fn shapes_passed_on_the_way_leave_no_facing_behind() {
        let shape = |name: &str| {
            let all = Start::all();
            *all.iter().find(|start| start.words() == name).unwrap()
        };
        let mut draft = Draft::default();
        draft.choose(Facing::Offside);
        draft.begin(shape("wheel-arch joint"));
        assert_eq!(draft.facing, Facing::Offside, "chosen for this gap");
        // For the next gap a shape says where it is, and one that does not goes back.
        let mut next = draft.next();
        next.begin(shape("wheel-arch joint"));
        assert_eq!(next.facing, Facing::Cavity(Cavity::WheelArch));
        next.begin(shape("window seal"));
        assert_eq!(next.facing, Facing::Offside);
    }

    #[test]
    fn the_face_gives_the_rest_of_the_place_only_where_the_size_is_recorded() {
        let mut survey = survey();
        let mut draft = started("rooflight frame");
        assert_eq!(draft.facing, Facing::Roof);
        draft.position.along_m = Some(2.0);
        let place = draft.gap(&survey).unwrap().position;
        assert_eq!((place.along_m, place.height_m), (Some(2.0), Some(2.9)));
        assert_eq!(place.across_m, None);
        draft.turn(Facing::Offside);
        assert_eq!(draft.gap(&survey).unwrap().position.across_m, Some(2.3));
        survey.vehicle.width_m = None;
        assert_eq!(draft.gap(&survey).unwrap().position, Position::default());
    }

    #[test]
    fn the_next_draft_keeps_zone_facing_and_wall_but_no_size_and_no_place() {
        let mut draft = Draft {
            zone: Some(ZoneId(3)),
            facing: Facing::Rear,
            count: 4,
            name: "seam".into(),
            ..Draft::default()
        };
        draft.form = Form::NarrowGap {
            length_mm: Some(900.0),
            width_mm: Some(1.0),
            depth_mm: Some(25.0),
            bends: 2,
        };
        draft.position.height_m = Some(1.0);
        let next = draft.next();
        assert_eq!((next.zone, next.facing), (Some(ZoneId(3)), Facing::Rear));
        assert_eq!((next.count, next.name.as_str()), (1, ""));
        assert_eq!(next.position, Position::default());
        assert_eq!(
            next.form,
            Form::NarrowGap {
                length_mm: None,
                width_mm: None,
                depth_mm: Some(25.0),
                bends: 2
            }
        );
    }

    #[test]
    fn the_surround_of_a_refrigerator_lies_behind_the_only_outer_opening() {
        let mut survey = survey();
        let surround = started("refrigerator surround");
        assert_eq!(surround.gap(&survey).unwrap().behind, None);
        let mut grille = started("refrigerator grille");
        grille.turn(Facing::Offside);
        for expected in [Some(Behind::Gap(crate::survey::GapId(1))), None] {
            let gap = grille.gap(&survey).unwrap();
            survey.apply(Edit::Put(Record::Gap(Box::new(gap)))).unwrap();
            assert_eq!(surround.gap(&survey).unwrap().behind, expected);
        }
        survey.gaps.clear();
        survey.zones.clear();
        assert_eq!(surround.gap(&survey), None);
    }
}
