//! Sample surveys, all invented, inside the program: opened as copies that have no file yet.

use crate::survey::VehicleKind;

/// A photo of a sample, or the file of a logger: its name and what its file holds.
pub type SamplePhoto = (&'static str, &'static [u8]);

/// A sample survey.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sample {
    /// Its title.
    pub title: &'static str,
    /// What kind of vehicle it is about.
    pub kind: VehicleKind,
    /// The survey file.
    pub text: &'static str,
    /// Its photos.
    pub photos: &'static [SamplePhoto],
    /// The files of its loggers.
    pub data: &'static [SamplePhoto],
}

macro_rules! sample {
    ($name:literal, $kind:ident, $title:literal) => {
        sample!($name, $kind, $title, &[], &[])
    };
    ($name:literal, $kind:ident, $title:literal, $photos:expr) => {
        sample!($name, $kind, $title, $photos, &[])
    };
    ($name:literal, $kind:ident, $title:literal, $photos:expr, $data:expr) => {
        Sample {
            title: $title,
            kind: VehicleKind::$kind,
            text: include_str!(concat!("../../sample-surveys/", $name, ".ron")),
            photos: $photos,
            data: $data,
        }
    };
}

macro_rules! data {
    ($folder:literal: $($name:literal),+ $(,)?) => {
        &[$((
            $name,
            include_bytes!(concat!("../../sample-surveys/", $folder, ".data/", $name)),
        )),+]
    };
}

macro_rules! photos {
    ($folder:literal: $($name:literal),+ $(,)?) => {
        &[$((
            $name,
            include_bytes!(concat!("../../sample-surveys/", $folder, ".photos/", $name)),
        )),+]
    };
}

/// Every sample, in the order offered.
pub const SAMPLES: &[Sample] = &[
    sample!(
        "farmyard-caravan",
        TouringCaravan,
        "Farmyard touring caravan"
    ),
    sample!("street-panel-van", PanelVan, "Panel van on a town street"),
    sample!(
        "coastal-coachbuilt",
        CoachBuilt,
        "Coach-built on the open coast"
    ),
    sample!(
        "vineyard-coachbuilt",
        CoachBuilt,
        "Coach-built among the vines",
        photos!("vineyard-coachbuilt":
            "cut-sill-plate.png",
            "cut-sill.png",
            "door-sill.png",
            "garage-flap.png",
            "loom-sealed.png",
            "loom-through-bulkhead.png",
            "rooflight-corner.png",
            "waste-pipe-sealed.png",
            "waste-pipe.png",
        )
    ),
    sample!(
        "forest-integrated",
        Integrated,
        "Integrated motor caravan in the forest"
    ),
    sample!(
        "orchard-trial",
        TouringCaravan,
        "Touring caravan in an orchard, with a trial",
        &[],
        data!("orchard-trial": "orchard-inside.csv", "orchard-outside.csv")
    ),
    sample!("two-opening-check", Other, "Two openings, for checking"),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::file::{data_names, parse};
    use std::collections::BTreeSet;
    use std::path::Path;

    #[test]
    fn every_sample_is_what_it_is_offered_as_and_has_its_photos() {
        for sample in SAMPLES {
            let survey = parse(sample.text).unwrap();
            assert_eq!(survey.header.title, sample.title);
            assert_eq!(survey.vehicle.kind, sample.kind);
            let gaps = survey.gaps.iter();
            let wanted: BTreeSet<&str> = gaps
                .flat_map(|gap| &gap.photos)
                .map(|photo| photo.name.as_str())
                .collect();
            let there: BTreeSet<&str> = sample.photos.iter().map(|(name, _)| *name).collect();
            assert_eq!(wanted, there, "{}", sample.title);
            let wanted: BTreeSet<String> = data_names(&survey);
            let data = sample.data.iter().map(|(name, _)| (*name).to_owned());
            assert_eq!(wanted, data.collect(), "{}", sample.title);
        }
    }

    #[test]
    fn every_sample_of_the_repository_is_offered() {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-surveys");
        let files = std::fs::read_dir(folder).unwrap();
        let files = files.map(|file| file.unwrap().path());
        let surveys: Vec<_> = files
            .filter(|path| path.extension().is_some_and(|ending| ending == "ron"))
            .collect();
        assert_eq!(surveys.len(), SAMPLES.len());
        for path in surveys {
            let text = std::fs::read_to_string(&path).unwrap();
            assert!(SAMPLES.iter().any(|sample| sample.text == text), "{path:?}");
        }
    }
}
