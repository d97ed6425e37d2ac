//! The sizes of each form of gap, in the order in which they are taken.

use super::Field;
use super::gap::Form;
use super::number::whole;

impl Form {
    /// Every size with its field.
    pub fn sizes_mut(&mut self) -> Vec<(Field, &mut Option<f64>)> {
        match self {
            Self::NarrowGap {
                length_mm,
                width_mm,
                depth_mm,
                ..
            } => vec![
                (Field::GapLength, length_mm),
                (Field::GapWidth, width_mm),
                (Field::GapDepth, depth_mm),
            ],
            Self::RoundHole { diameter_mm } => vec![(Field::Diameter, diameter_mm)],
            Self::RectangularHole {
                width_mm,
                height_mm,
            } => vec![(Field::HoleWidth, width_mm), (Field::HoleHeight, height_mm)],
            Self::RingGap { hole_mm, pipe_mm } => {
                vec![(Field::RingHole, hole_mm), (Field::RingPipe, pipe_mm)]
            }
            Self::Grille {
                width_mm,
                height_mm,
                free_percent,
                ..
            } => vec![
                (Field::HoleWidth, width_mm),
                (Field::HoleHeight, height_mm),
                (Field::FreeShare, free_percent),
            ],
            Self::StatedArea {
                area_mm2, exponent, ..
            } => vec![
                (Field::StatedArea, area_mm2),
                (Field::FlowExponent, exponent),
            ],
            Self::FlowTest {
                flow_m3_per_h,
                at_pa,
                exponent,
            } => vec![
                (Field::TestFlow, flow_m3_per_h),
                (Field::TestPressure, at_pa),
                (Field::FlowExponent, exponent),
            ],
        }
    }

    /// Every size with its field; the bends of a narrow gap are one of them.
    #[must_use]
    pub fn sizes(&self) -> Vec<(Field, Option<f64>)> {
        let mut copy = self.clone();
        let sizes = copy.sizes_mut();
        let mut sizes: Vec<_> = sizes.into_iter().map(|(at, size)| (at, *size)).collect();
        if let Self::NarrowGap { bends, .. } = self {
            sizes.push((Field::Bends, Some(f64::from(*bends))));
        }
        sizes
    }

    /// Puts in a size, or takes it out; nothing happens where the form has none such.
    pub fn set_size(&mut self, field: Field, size: Option<f64>) {
        if let (Self::NarrowGap { bends, .. }, Field::Bends, Some(size)) = (&mut *self, field, size)
        {
            *bends = whole(size);
        }
        for (of, part) in self.sizes_mut() {
            if of == field {
                *part = size;
            }
        }
    }

    /// Words for the sizes that are missing, and the field of the first; `None` where it is sized.
    #[must_use]
    pub fn missing(&self) -> Option<(Field, String)> {
        let mut missing = self.sizes();
        missing.retain(|(field, size)| size.is_none() && !field.may_stay_empty());
        let words: Vec<&str> = missing.iter().map(|(field, _)| field.words()).collect();
        let (first, _) = *missing.first()?;
        Some((first, format!("{} not given", words.join(" and "))))
    }
}

impl Field {
    /// Whether a size may be left out: something usual is then taken.
    #[must_use]
    pub fn may_stay_empty(self) -> bool {
        matches!(self, Self::FreeShare | Self::FlowExponent)
    }
}
