//! Remedies and what they cost: the library with the user's own prices, the hourly rate, and the
//! remedy of the selected gap.

use super::super::fields::Fields;
use super::super::gaps::work;
use super::state;
use super::view::SealingPlanContext;
use crate::assess::sealing::Sealable;
use crate::survey::{CostBasis, Edit, Field, Gap, GapId, Item, RemedyKind};
use crate::window::request::Request;
use crate::window::theme::palette;
use crate::window::widgets::{self, Choice, NumberField};
use eframe::egui;
use egui::{RichText, Ui};

/// Widths of the kind, and of the number of gaps.
const NAME: f32 = 150.0;
const MANY: f32 = 150.0;
/// Width of a column at least.
const COLUMN_LEAST: f32 = 400.0;

/// Draws the library, the prices, and one gap's remedy.
pub(super) fn show(ui: &mut Ui, context: &mut SealingPlanContext<'_>) {
    library(ui, context);
    ui.add_space(6.0);
    widgets::columns(ui, COLUMN_LEAST, 2, |ui, at| {
        if at == 0 {
            rates(ui, context);
        } else {
            one_gap(ui, context);
        }
    });
}

/// Gaps that one kind of remedy, counted one way, would seal.
struct Group<'s> {
    kind: RemedyKind,
    basis: CostBasis,
    sealables: Vec<&'s Sealable>,
}

fn groups<'s>(sealables: impl Iterator<Item = &'s Sealable>) -> Vec<Group<'s>> {
    let mut groups: Vec<Group<'s>> = Vec::new();
    for sealable in sealables {
        let remedy = sealable.remedy();
        let (kind, basis) = (remedy.kind, remedy.cost_basis);
        match groups
            .iter_mut()
            .find(|group| group.kind == kind && group.basis == basis)
        {
            Some(group) => group.sealables.push(sealable),
            None => groups.push(Group {
                kind,
                basis,
                sealables: vec![sealable],
            }),
        }
    }
    let place = |kind: RemedyKind| RemedyKind::ALL.iter().position(|one| *one == kind);
    groups.sort_by_key(|group| (place(group.kind), group.basis == CostBasis::Piece));
    groups
}

/// A number that all of a group share; `None` where they differ or have none.
fn shared(numbers: impl Iterator<Item = Option<f64>>) -> (Option<f64>, bool) {
    let all: Vec<Option<f64>> = numbers.collect();
    let first = all.first().copied().flatten();
    let same = all
        .iter()
        .all(|one| one.map(f64::to_bits) == first.map(f64::to_bits));
    (first.filter(|_| same), same)
}

fn basis_words(basis: CostBasis) -> &'static str {
    match basis {
        CostBasis::Piece => "piece",
        CostBasis::Metre => "metre",
    }
}

fn library(ui: &mut Ui, context: &mut SealingPlanContext<'_>) {
    let answers = context.answers;
    let Some(Ok(ranking)) = answers.ranking().map(|dated| dated.answer) else {
        return;
    };
    widgets::muted(
        ui,
        "The remedies of the gaps that may be sealed, by kind. A price or share typed here goes into every \
         gap listed in its line and makes its remedy your own; until then they are this program's \
         suggestions [A].",
    );
    for group in groups(ranking.ranked.iter().map(|one| &one.sealable)) {
        ui.push_id((group.kind, group.basis == CostBasis::Piece), |ui| {
            one_group(ui, context, &group);
        });
    }
}

fn one_group(ui: &mut Ui, context: &mut SealingPlanContext<'_>, group: &Group<'_>) {
    let name = group.kind.name();
    let per = basis_words(group.basis);
    let currency = context.survey.tariffs.currency.trim();
    let unit = format!("{currency}/{per}");
    ui.horizontal_wrapped(|ui| {
        let many = group.sealables.len();
        widgets::label(ui, &format!("{name}, by the {per}"), NAME);
        let s = if many == 1 { "" } else { "s" };
        let assumed = group
            .sealables
            .iter()
            .filter(|one| one.is_assumed())
            .count();
        let suggested = if assumed > 0 {
            format!(", {assumed} as suggested *")
        } else {
            String::new()
        };
        widgets::label(ui, &format!("{many} gap{s}{suggested}"), MANY);
        let remedies = || group.sealables.iter().map(|one| one.remedy());
        let (price, same) = shared(remedies().map(|remedy| remedy.material_cost));
        ui.label(RichText::new("material").color(palette(ui).muted));
        let typed = NumberField::new(Field::MaterialCost, price)
            .label(&format!("Price of {name} by the {per}"))
            .id((group.kind, per))
            .unit(&unit)
            .hint(if same { "" } else { "differ" })
            .compact()
            .show(ui, context.queue);
        ui.label(RichText::new(&unit).color(palette(ui).muted));
        if let Some(price) = typed {
            let edit = state::remedies(context.survey, &group.sealables, |remedy| {
                remedy.material_cost = price;
            });
            context.queue.typed(edit);
        }
        let (left, same) = shared(remedies().map(|remedy| remedy.leak_left_percent));
        ui.add_space(8.0);
        ui.label(RichText::new("leaves").color(palette(ui).muted));
        let typed = NumberField::new(Field::LeakLeft, left)
            .label(&format!("Leak that {name} by the {per} leaves"))
            .id((group.kind, per))
            .hint(if same { "" } else { "differ" })
            .compact()
            .show(ui, context.queue);
        ui.label(RichText::new("% of the leak").color(palette(ui).muted));
        if let Some(left) = typed {
            let edit = state::remedies(context.survey, &group.sealables, |remedy| {
                remedy.leak_left_percent = left;
            });
            context.queue.typed(edit);
        }
    });
}

fn rates(ui: &mut Ui, context: &mut SealingPlanContext<'_>) {
    let tariffs = &context.survey.tariffs;
    let currency = tariffs.currency.trim().to_owned();
    ui.heading("Rates");
    let mut fields = Fields::new(ui, context, Item::Tariffs, tariffs, &Edit::Tariffs);
    fields.text(Field::Currency, |tariffs| &mut tariffs.currency);
    fields.price(&currency, Field::Workshop, |tariffs| {
        &mut tariffs.workshop_per_hour
    });
    fields.optional(Field::Tax, |tariffs| &mut tariffs.tax_percent);
    fields.optional(Field::MaterialTax, |tariffs| {
        &mut tariffs.material_tax_percent
    });
    fields.price(&currency, Field::Electricity, |tariffs| {
        &mut tariffs.electricity_per_kwh
    });
    widgets::muted(
        fields.ui,
        "Without an hourly rate the work has no price: give 0 where it is to count nothing, as when the owner \
         does it. Only a workshop's bill has tax. Electricity prices the heat of a winter, November to March \
         [A].",
    );
}

fn one_gap(ui: &mut Ui, context: &mut SealingPlanContext<'_>) {
    let Some(id) = context.selected else {
        return;
    };
    ui.heading("One gap");
    let ids: Vec<GapId> = context.survey.gaps.iter().map(|gap| gap.id).collect();
    let survey = context.survey;
    let words = |id: &GapId| {
        let name = survey.gap(*id).map_or("", Gap::shown_name);
        format!("{id} {name}")
    };
    if let Some(chosen) = Choice::new("Remedy of", &id, &ids).show(ui, words) {
        context.queue.push(Request::SelectGap(chosen));
    }
    let gap: Option<&Gap> = survey.gap(id);
    if let Some(gap) = gap {
        work::show(ui, context, gap);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_is_shared_only_where_all_have_it() {
        assert_eq!(
            shared([Some(2.0), Some(2.0)].into_iter()),
            (Some(2.0), true)
        );
        assert_eq!(shared([Some(2.0), Some(3.0)].into_iter()), (None, false));
        assert_eq!(shared([Some(2.0), None].into_iter()), (None, false));
        assert_eq!(shared([None, None].into_iter()), (None, true));
    }
}
