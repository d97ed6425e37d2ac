//! Heat through the fabric: U-values of the parts entered, and their sum.

use super::answer::{Answer, Fabric, NotKnown};
use super::sound::sound;
use crate::physics::fabric::{self as physics, HeatFlow, u_value};
use crate::physics::units::MM;
use crate::survey::fabric::{BuildUp, FabricElement, FabricPart, Layer};
use crate::survey::findings::named_or;
use crate::survey::{Finding, Item, Survey};

/// Which way heat leaves through a part, for its inside surface resistance: ISO 6946 **\[M\]**.
pub(crate) fn heat_flow(part: FabricPart) -> HeatFlow {
    match part {
        FabricPart::Roof | FabricPart::Rooflight => HeatFlow::Up,
        FabricPart::Floor => HeatFlow::Down,
        FabricPart::Wall | FabricPart::Window | FabricPart::Door | FabricPart::CabMetal => {
            HeatFlow::Horizontal
        }
    }
}

/// One layer; a stated resistance goes before thickness and conductivity.
fn physical_layer(layer: &Layer) -> Option<physics::Layer> {
    if let Some(resistance) = layer.resistance_m2_k_per_w {
        return Some(physics::Layer::Resistance(resistance));
    }
    Some(physics::Layer::Solid {
        thickness: layer.thickness_mm? * MM,
        conductivity: layer.conductivity_w_per_m_k?,
    })
}

/// The name of an element, or what it is: `a wall without a name`.
pub(crate) fn element_words(element: &FabricElement) -> String {
    named_or(&element.name, &format!("a {}", element.part.name()))
}

/// U-value of one element without its thermal bridges, W/(m² K): as stated, or by its layers.
///
/// ```text
/// U = 1/(Rsi + Σ R + Rse),   R = d/λ
/// ```
/// where Rsi and Rse are the surface resistances, m²K/W, d the thickness of a layer, m, and λ its
/// conductivity, W/(m K). ISO 6946 **\[M\]**; computed in [`u_value`].
///
/// # Errors
/// [`NotKnown`] where the stated value, the build-up or the figures of a layer are not given.
pub(crate) fn element_u(element: &FabricElement) -> Answer<f64> {
    let missing = |what: &str| {
        NotKnown::because(format!("{what} of {} is not given", element_words(element)))
    };
    match &element.build_up {
        BuildUp::Stated { u_w_per_m2_k } => u_w_per_m2_k.ok_or_else(|| missing("the U-value")),
        BuildUp::Layers(layers) if layers.is_empty() => Err(missing("the build-up")),
        BuildUp::Layers(layers) => {
            let layers: Option<Vec<physics::Layer>> = layers.iter().map(physical_layer).collect();
            Ok(u_value(
                &layers.ok_or_else(|| missing("a layer"))?,
                heat_flow(element.part),
            ))
        }
    }
}

/// Heat that the fabric lets through for each kelvin, W/K.
///
/// ```text
/// ΣUA = Σ U A (1 + b/100)
/// ```
/// where U is the U-value of an element without its bridges, W/(m² K), A its area, m², and b the
/// addition for thermal bridges, %.
///
/// # Errors
/// [`NotKnown`] where nothing is entered, a finding on the fabric is an error, or the U-value or
/// the area of any element is not known: a sum without one part would be too small.
pub(crate) fn fabric(survey: &Survey, findings: &[Finding]) -> Answer<Fabric> {
    if survey.fabric.is_empty() {
        return Err(NotKnown::because(
            "no walls, roof or floor have been entered",
        ));
    }
    sound(findings, |place| matches!(place.item, Item::Fabric(_)))?;
    let mut fabric = Fabric {
        ua_w_per_k: 0.0,
        elements: Vec::new(),
        area_m2: 0.0,
    };
    for element in &survey.fabric {
        let u = element_u(element)?;
        let area = element.area_m2.ok_or_else(|| {
            NotKnown::because(format!(
                "the area of {} is not given",
                element_words(element)
            ))
        })?;
        let ua = u * area * (1.0 + element.bridge_percent / 100.0);
        fabric.elements.push((u, ua));
        fabric.ua_w_per_k += ua;
        fabric.area_m2 += area;
    }
    Ok(fabric)
}
