//! The form of a gap or an inner opening, and its sizes.

use super::super::fields::{Fields, Part};
use crate::survey::{AreaConvention, Field, Form, GrilleMaterial};
use crate::window::ledger::blank_like;
use crate::window::widgets::{Choice, NumberField};

/// Draws the choice of the form, and its sizes.
pub(in crate::window::pages) fn form<T: Clone>(
    fields: &mut Fields<'_, '_, T>,
    part: Part<T, Form>,
) {
    let item = fields.item();
    let mut form = fields.get(part).clone();
    let (ui, queue, marks) = fields.parts();
    let blanks = Form::blanks();
    let current = blank_like(&form);
    let chosen = Choice::of(Field::Form, &current, &blanks)
        .id(item)
        .show(ui, |form| form.name().to_owned());
    let mut changed = chosen.is_some();
    let sizes = form.sizes();
    if let Some(chosen) = chosen {
        form = chosen;
    }
    for (field, size) in sizes {
        // What decides about a size stands above it.
        match (field, &mut form) {
            (Field::FreeShare, Form::Grille { material, .. }) => {
                let options = [GrilleMaterial::Metal, GrilleMaterial::Wood];
                let words = |material: &GrilleMaterial| {
                    match material {
                        GrilleMaterial::Metal => "metal or plastic, 75 % free",
                        GrilleMaterial::Wood => "wood, 25 % free",
                    }
                    .to_owned()
                };
                let made_of = Choice::of(Field::GrilleMaterial, material, &options);
                let chosen = made_of.id(item).show(ui, words);
                changed |= set(material, chosen);
            }
            (Field::FlowExponent, Form::StatedArea { convention, .. }) => {
                let stated_as = Choice::of(Field::StatedAs, convention, &AreaConvention::ALL);
                let chosen = stated_as.id(item).show(ui, |one| one.name().to_owned());
                changed |= set(convention, chosen);
                if *convention != AreaConvention::EffectiveAt4Pa {
                    continue;
                }
            }
            _ => {}
        }
        let mut input = NumberField::new(field, size).id(item).marks(marks);
        if field == Field::Bends {
            input = input.whole().required();
        }
        if let Some(typed) = input.show(ui, queue) {
            form.set_size(field, typed);
            changed = true;
        }
    }
    fields.take(changed.then_some(form), part);
}

fn set<T>(part: &mut T, chosen: Option<T>) -> bool {
    let changed = chosen.is_some();
    if let Some(chosen) = chosen {
        *part = chosen;
    }
    changed
}
