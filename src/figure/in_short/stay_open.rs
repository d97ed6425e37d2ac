//! The openings that stay open, on the unfolded body.

use crate::assess::Assessment;
use crate::figure::body::{Arrangement, Show, body};
use crate::figure::scene::{Role, Scene, Shape};
use crate::survey::{Survey, leave};

/// Draws the unfolded body with those openings alone that must stay open, `width` mm wide.
#[must_use]
pub fn stay_open(survey: &Survey, assessment: &Assessment, width: f64) -> Scene {
    let mut shown = survey.clone();
    shown.gaps.retain(|gap| leave::never(survey, gap));
    let show = Show {
        numbers: true,
        ..Show::default()
    };
    let ids: Vec<String> = shown.gaps.iter().map(|gap| gap.id.to_string()).collect();
    let mut scene = body(&shown, assessment, Arrangement::Wide, width, &show).scene;
    // The colour of what suffices would read as *close these*.
    for mark in &mut scene.marks {
        if let Shape::Polygon {
            fill: Some(role), ..
        }
        | Shape::Circle {
            fill: Some(role), ..
        } = &mut mark.shape
            && *role == Role::Protected
        {
            *role = Role::Leak;
        }
    }
    scene.description = format!(
        "The {} unfolded, with the openings that must stay open: {}",
        survey.vehicle.kind.name(),
        ids.join(", ")
    );
    scene
}
