//! Format 1: walls, roof, floor, windows and doors.

use super::super::live;
use super::super::stored::{Entry, Number, Stored, Text, list, numbered, record, words};
use super::gap::Facing;
use super::ids::FabricId;
use serde::{Deserialize, Serialize};

words! {
    /// Which part of the fabric.
    FabricPart {
        Wall = "wall",
        Roof = "roof",
        Floor = "floor",
        Window = "window",
        Rooflight = "rooflight",
        Door = "door",
        CabMetal = "cab_metal",
    }
}

record! {
    /// One layer, from outside to inside.
    #[serde(default)]
    #[derive(Default)]
    Layer {
        #[serde(skip_serializing_if = "Text::is_empty")]
        material: Text,
        #[serde(skip_serializing_if = "Option::is_none")]
        thickness_mm: Option<Number>,
        #[serde(skip_serializing_if = "Option::is_none")]
        conductivity_w_per_m_k: Option<Number>,
        #[serde(skip_serializing_if = "Option::is_none")]
        resistance_m2_k_per_w: Option<Number>,
    }
}

impl Entry for Layer {
    const WORD: &'static str = "layer";
}

/// How heat transmittance is known.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::survey::file) enum BuildUp {
    #[serde(rename = "layers")]
    Layers(#[serde(deserialize_with = "list")] Vec<Layer>),
    #[serde(rename = "stated")]
    Stated {
        #[serde(default, skip_serializing_if = "Option::is_none")]
        u_w_per_m2_k: Option<Number>,
    },
}

impl Stored for BuildUp {
    type Live = live::BuildUp;

    fn live(self) -> live::BuildUp {
        match self {
            Self::Layers(layers) => live::BuildUp::Layers(layers.live()),
            Self::Stated { u_w_per_m2_k } => live::BuildUp::Stated {
                u_w_per_m2_k: u_w_per_m2_k.live(),
            },
        }
    }

    fn stored(live: &live::BuildUp) -> Self {
        match live {
            live::BuildUp::Layers(layers) => Self::Layers(Stored::stored(layers)),
            live::BuildUp::Stated { u_w_per_m2_k } => Self::Stated {
                u_w_per_m2_k: Stored::stored(u_w_per_m2_k),
            },
        }
    }
}

record! {
    /// Where an opening of the fabric is drawn.
    Outline {
        facing: Facing,
        along_m: Number,
        up_m: Number,
        width_m: Number,
        height_m: Number,
    }
}

record! {
    /// One element, or several alike.
    FabricElement {
        id: FabricId,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        name: Text,
        part: FabricPart,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        area_m2: Option<Number>,
        build_up: BuildUp,
        bridge_percent: Number,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        outline: Option<Outline>,
    }
}

numbered!(FabricElement = "fabric element");
