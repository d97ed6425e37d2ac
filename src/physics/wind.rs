#![allow(missing_docs)]
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Terrain {
    OpenFlat,
    ScatteredWindbreaks,
    Urban,
    City,
}
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Shelter {
    Exposed,
    PartSheltered,
    Sheltered,
}
