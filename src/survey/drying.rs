//! What drying and heating depend on besides machines and heaters.

/// Contents, sun, supply: everything may be left out, and is then not known.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Drying {
    /// Heat of the sun through windows and walls, mean over day and night, W; none unless given.
    pub sun_w: f64,
    /// Dry mass of what can be damp: furniture, boards, cushions, carpets, kg.
    pub contents_kg: Option<f64>,
    /// Its moisture, % of the dry mass, as a wood-moisture meter shows it.
    pub contents_moisture_percent: Option<f64>,
    /// Heat capacity of the inside, kJ/K.
    pub heat_capacity_kj_per_k: Option<f64>,
    /// Dry salt in a tub, kg.
    pub salt_kg: Option<f64>,
    /// Electric supply at 230 V, A.
    pub hookup_a: Option<f64>,
    /// What the batteries may give, Wh.
    pub battery_wh: Option<f64>,
}
