//! The fabric: the elements at the left, the selected one at the right.

use super::super::fields::Fields;
use super::view::{CARD_LEAST, VehicleContext};
use super::{fabric_list, layers, lists, usual};
use crate::assess::Topic;
use crate::assess::quantity::Kind;
use crate::survey::fabric::{BuildUp, Outline};
use crate::survey::{
    Edit, FabricElement, FabricPart, Facing, Field, Item, Record, RecordId, Survey,
};
use crate::window::widgets::{self, Choice, NumberField};
use eframe::egui::Ui;

/// Draws the section.
pub(super) fn show(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    widgets::columns(ui, CARD_LEAST * 1.2, 2, |ui, at| {
        if at == 0 {
            widgets::card(ui, "Elements", |ui| list(ui, context));
        } else {
            selected(ui, context);
        }
    });
}

fn put(element: FabricElement) -> Edit {
    Edit::Put(Record::Fabric(Box::new(element)))
}

/// A new element with nothing measured, of the part that the survey still lacks.
fn another(survey: &Survey) -> FabricElement {
    let has = |part: &FabricPart| survey.fabric.iter().any(|element| element.part == *part);
    let part = FabricPart::ALL.into_iter().find(|part| !has(part));
    FabricElement {
        id: survey.free_fabric_id(),
        name: String::new(),
        part: part.unwrap_or(FabricPart::Wall),
        area_m2: None,
        build_up: BuildUp::Layers(Vec::new()),
        bridge_percent: 10.0,
        outline: None,
    }
}

fn list(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    fabric_list::show(ui, context);
    ui.add_space(4.0);
    let element = another(context.survey);
    if ui.button("Add element").clicked() {
        context.view.element = Some(element.id);
        context.queue.edit(put(element), None);
    }
    ui.add_space(4.0);
    fabric_list::totals(ui, context);
}

fn selected(ui: &mut Ui, context: &mut VehicleContext<'_>) {
    let Some(id) = context.view.element_in(context.survey) else {
        return;
    };
    let survey = context.survey;
    let Some(element) = survey.fabric.iter().find(|element| element.id == id) else {
        return;
    };
    ui.push_id(id, |ui| {
        widgets::card(ui, "", |ui| form(ui, context, element));
    });
}

fn form(ui: &mut Ui, context: &mut VehicleContext<'_>, element: &FabricElement) {
    let item = Item::Fabric(element.id);
    let id = RecordId::Fabric(element.id);
    lists::head(ui, context, &element.name, element.part.name(), id);
    let mut fields = Fields::new(ui, context, item, element, &put);
    fields.text(Field::Name, |element| &mut element.name);
    fields.one_of(Field::Part, &FabricPart::ALL, FabricPart::name, |element| {
        &mut element.part
    });
    fields.optional(Field::Area, |element| &mut element.area_m2);
    build_up(&mut fields, element);
    fields.number(Field::Bridges, |element| &mut element.bridge_percent);
    outline(ui, context, element);
    loss(ui, context, element);
}

fn build_up(fields: &mut Fields<'_, '_, FabricElement>, element: &FabricElement) {
    let stated = BuildUp::Stated { u_w_per_m2_k: None };
    let layered = BuildUp::Layers(Vec::new());
    let options = match &element.build_up {
        BuildUp::Layers(_) => [element.build_up.clone(), stated],
        BuildUp::Stated { .. } => [layered, element.build_up.clone()],
    };
    let (ui, _, _) = fields.parts();
    let chosen = Choice::of(Field::BuildUp, &element.build_up, &options)
        .id(element.id)
        .show(ui, |build_up| {
            match build_up {
                BuildUp::Layers(_) => "its layers",
                BuildUp::Stated { .. } => "a stated U-value",
            }
            .to_owned()
        });
    if let Some(build_up) = chosen {
        fields.change(|element| element.build_up = build_up);
        return;
    }
    usual::show(fields, element);
    match &element.build_up {
        BuildUp::Layers(of) => layers::show(fields, element.id, of),
        BuildUp::Stated { u_w_per_m2_k } => {
            let (ui, queue, marks) = fields.parts();
            let typed = NumberField::new(Field::UValue, *u_w_per_m2_k)
                .id(element.id)
                .marks(marks)
                .show(ui, queue);
            if let Some(u_w_per_m2_k) = typed {
                fields.change(|element| element.build_up = BuildUp::Stated { u_w_per_m2_k });
            }
        }
    }
}

/// The element's place on the drawing, for windows, doors and rooflights.
fn outline(ui: &mut Ui, context: &mut VehicleContext<'_>, element: &FabricElement) {
    let with = |outline: Option<Outline>| {
        put(FabricElement {
            outline,
            ..element.clone()
        })
    };
    if let Some(drawn) = widgets::tick(ui, Field::Outline, element.outline.is_some()) {
        let outline = drawn.then(|| blank_outline(element.part));
        context.queue.typed(with(outline));
        return;
    }
    let Some(outline) = element.outline else {
        return;
    };
    let facings: Vec<Facing> = Facing::ALL
        .into_iter()
        .filter(|facing| !matches!(facing, Facing::Cavity(_)))
        .collect();
    let put = |outline| with(Some(outline));
    let mut fields = Fields::new(ui, context, Item::Fabric(element.id), &outline, &put);
    fields.one_of(Field::OutlineFacing, &facings, Facing::name, |outline| {
        &mut outline.facing
    });
    fields.number(Field::OutlineAlong, |outline| &mut outline.along_m);
    fields.number(Field::OutlineUp, |outline| &mut outline.up_m);
    fields.number(Field::OutlineWidth, |outline| &mut outline.width_m);
    fields.number(Field::OutlineHeight, |outline| &mut outline.height_m);
    widgets::muted(
        ui,
        "Along: from the front, or from the nearside on front and rear. Up: above ground, or from \
         the nearside on roof and floor.",
    );
}

/// A place to start from; it is drawn, and never used in a result.
fn blank_outline(part: FabricPart) -> Outline {
    let facing = match part {
        FabricPart::Roof | FabricPart::Rooflight => Facing::Roof,
        FabricPart::Floor => Facing::Underfloor,
        _ => Facing::Nearside,
    };
    Outline {
        facing,
        along_m: 1.0,
        up_m: 1.0,
        width_m: 0.6,
        height_m: 0.5,
    }
}

fn loss(ui: &mut Ui, context: &mut VehicleContext<'_>, element: &FabricElement) {
    let Some(answer) = fabric_list::loss(context, element.id) else {
        return;
    };
    let answer = answer.map(|(u, loss)| {
        format!(
            "{}\u{a0}W/(m²\u{a0}K), {}",
            Kind::Plain.number(u),
            Kind::WattsPerKelvin.text(loss)
        )
    });
    widgets::row(ui, "U-value and loss", |ui| {
        ui.horizontal_wrapped(|ui| {
            widgets::answer_line(ui, &answer);
            let topic = Topic::FabricElement(element.id);
            widgets::working_button(ui, context.queue, topic, "U-value");
        });
    });
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::VehicleKind;

    #[test]
    fn a_new_element_is_of_a_part_still_lacking_and_has_no_size() {
        let mut survey = Survey::new(VehicleKind::PanelVan);
        for part in FabricPart::ALL {
            let element = another(&survey);
            assert_eq!(element.part, part);
            assert_eq!(element.area_m2, None);
            survey.apply(put(element)).unwrap();
        }
        assert_eq!(another(&survey).part, FabricPart::Wall);
        assert_eq!(survey.fabric.len(), FabricPart::ALL.len());
    }
}
