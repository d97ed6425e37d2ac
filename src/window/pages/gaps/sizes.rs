//! The sizes of each form of gap.

use super::change::change;
use crate::survey::{AreaConvention, Form, Gap, GrilleMaterial, Item};
use crate::window::marks::Marks;
use crate::window::request::Queue;
use crate::window::widgets::{Choice, NumberField};
use eframe::egui::Ui;

/// A count that the number field has already held to whole numbers from 0 up.
pub(super) fn whole(value: f64) -> u32 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "the field takes whole numbers from 0 to a million only"
    )]
    let count = value as u32;
    count
}

struct Sizes<'a, 'u> {
    ui: &'u mut Ui,
    queue: &'u mut Queue,
    id: Item,
    marks: Marks<'a>,
    changed: bool,
}

impl Sizes<'_, '_> {
    fn number(&mut self, label: &str, field: &'static str, value: &mut Option<f64>) {
        self.hinted(label, field, value, "");
    }

    fn hinted(
        &mut self,
        label: &str,
        field: &'static str,
        value: &mut Option<f64>,
        hint: &'static str,
    ) {
        let typed = NumberField::new(label, field, *value)
            .id(self.id)
            .marks(self.marks)
            .hint(hint)
            .show(self.ui, self.queue);
        if let Some(typed) = typed {
            *value = typed;
            self.changed = true;
        }
    }

    fn bends(&mut self, bends: &mut u32) {
        let typed = NumberField::new("Bends on the way", "bends", Some(f64::from(*bends)))
            .id(self.id)
            .marks(self.marks)
            .whole()
            .required()
            .show(self.ui, self.queue);
        if let Some(Some(typed)) = typed {
            *bends = whole(typed);
            self.changed = true;
        }
    }

    fn material(&mut self, material: &mut GrilleMaterial) {
        let options = [GrilleMaterial::Metal, GrilleMaterial::Wood];
        let chosen =
            Choice::new("Made of", material, &options)
                .id(self.id)
                .show(self.ui, |material| {
                    match material {
                        GrilleMaterial::Metal => "metal or plastic, 75 % free",
                        GrilleMaterial::Wood => "wood, 25 % free",
                    }
                    .to_owned()
                });
        if let Some(chosen) = chosen {
            *material = chosen;
            self.changed = true;
        }
    }

    fn convention(&mut self, convention: &mut AreaConvention) {
        let chosen = Choice::new("Which area", convention, &AreaConvention::ALL)
            .id(self.id)
            .show(self.ui, |convention| convention.name().to_owned());
        if let Some(chosen) = chosen {
            *convention = chosen;
            self.changed = true;
        }
    }

    fn all(&mut self, form: &mut Form) {
        match form {
            Form::NarrowGap {
                length_mm,
                width_mm,
                depth_mm,
                bends,
            } => {
                self.number("Length", "gap_length_mm", length_mm);
                self.number("Clear width", "gap_width_mm", width_mm);
                self.number("Depth of the way", "gap_depth_mm", depth_mm);
                self.bends(bends);
            }
            Form::RoundHole { diameter_mm } => {
                self.number("Diameter", "diameter_mm", diameter_mm);
            }
            Form::RectangularHole {
                width_mm,
                height_mm,
            } => {
                self.number("Width", "gap_width_mm", width_mm);
                self.number("Height", "gap_height_mm", height_mm);
            }
            Form::RingGap { hole_mm, pipe_mm } => {
                self.number("Diameter of the hole", "hole_mm", hole_mm);
                self.number("Diameter of the pipe", "pipe_mm", pipe_mm);
            }
            Form::Grille {
                width_mm,
                height_mm,
                material,
                free_percent,
            } => {
                self.number("Width", "gap_width_mm", width_mm);
                self.number("Height", "gap_height_mm", height_mm);
                self.material(material);
                self.hinted("Free share", "free_percent", free_percent, "by material");
            }
            Form::StatedArea {
                area_mm2,
                convention,
                exponent,
            } => {
                self.number("Area", "area_mm2", area_mm2);
                self.convention(convention);
                if *convention == AreaConvention::Effective {
                    self.hinted("Flow exponent", "exponent", exponent, "0.65");
                }
            }
            Form::FlowTest {
                flow_m3_per_h,
                at_pa,
                exponent,
            } => {
                self.number("Flow", "flow_m3_per_h", flow_m3_per_h);
                self.number("Test pressure", "at_pa", at_pa);
                self.hinted("Flow exponent", "exponent", exponent, "0.65");
            }
        }
    }
}

/// Draws the sizes of the gap's form.
pub(super) fn show(ui: &mut Ui, queue: &mut Queue, gap: &Gap, marks: Marks<'_>) {
    if let Some(form) = form(ui, queue, Item::Gap(gap.id), marks, &gap.form) {
        change(queue, gap, |gap| gap.form = form);
    }
}

/// Draws the sizes of a form, of whatever item it is; `Some` is the form with a size changed.
pub(in crate::window::pages) fn form(
    ui: &mut Ui,
    queue: &mut Queue,
    item: Item,
    marks: Marks<'_>,
    form: &Form,
) -> Option<Form> {
    let mut changed = form.clone();
    let mut sizes = Sizes {
        ui,
        queue,
        id: item,
        marks,
        changed: false,
    };
    sizes.all(&mut changed);
    sizes.changed.then_some(changed)
}
