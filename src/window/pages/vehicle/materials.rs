//! Materials on offer for a layer, with their conductivities.

use crate::physics::fabric::Material;
use crate::survey::fabric::Layer;

/// Materials in the order offered: name and material. Conductivities: glass, acrylic, GRP,
/// steel, aluminium, softwood and PU foam \[S\]; EPS, XPS and plywood \[M\].
pub(super) const MATERIALS: [(&str, Material); 10] = [
    ("GRP", Material::GlassFibre),
    ("aluminium", Material::Aluminium),
    ("steel", Material::Steel),
    ("plywood", Material::Plywood),
    ("softwood", Material::Softwood),
    ("EPS foam", Material::ExpandedPolystyrene),
    ("XPS foam", Material::ExtrudedPolystyrene),
    ("PU foam", Material::PolyurethaneFoam),
    ("acrylic", Material::Acrylic),
    ("glass", Material::Glass),
];

/// A layer of a material, its thickness not yet measured.
pub(super) fn layer(name: &str, material: Material) -> Layer {
    Layer {
        material: name.to_owned(),
        thickness_mm: None,
        conductivity_w_per_m_k: Some(material.conductivity()),
        resistance_m2_k_per_w: None,
    }
}

/// A layer about which nothing is known yet.
pub(super) fn blank() -> Layer {
    Layer {
        material: String::new(),
        thickness_mm: None,
        conductivity_w_per_m_k: None,
        resistance_m2_k_per_w: None,
    }
}

/// An air gap: its resistance stands for thickness and conductivity. 0.17 m² K/W for the gap of
/// a double acrylic window \[M\].
pub(super) fn air_gap() -> Layer {
    Layer {
        material: "air gap".to_owned(),
        resistance_m2_k_per_w: Some(0.17),
        ..blank()
    }
}
