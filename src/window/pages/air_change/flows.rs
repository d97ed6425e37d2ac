//! Air through each gap in one weather case and wind direction.

use super::view::AirChangeContext;
use crate::assess::{CaseAir, CaseAnswer, DirectionAnswer, GapAirFlow};
use crate::report::{direction, flows};
use crate::survey::{Gap, WeatherId};
use crate::window::answers::Results;
use crate::window::body;
use crate::window::request::Request;
use crate::window::theme::{bold, palette};
use crate::window::units;
use crate::window::widgets::{self, Choice, report};
use eframe::egui;
use egui::{Align, Label, Layout, Rect, RichText, Sense, Ui, UiBuilder, pos2, vec2};

const ROW: f32 = 21.0;
/// Widths as parts of the whole: number, name, facing, in, out, share.
const PARTS: [f32; 6] = [0.06, 0.32, 0.20, 0.14, 0.14, 0.14];
/// The first of the columns that hold flows.
const FIRST_NUMBER: usize = 3;

/// A weather case with its air, and the wind direction chosen.
type Shown<'r> = (&'r CaseAnswer, &'r CaseAir, &'r DirectionAnswer);

/// What is shown, or nothing where that is not known and was said.
fn shown<'r>(
    ui: &mut Ui,
    context: &AirChangeContext<'_>,
    results: &'r Results,
) -> Option<Shown<'r>> {
    if results.revision != context.revision {
        // The ledger may have other lines by now; the answers for them are on their way.
        widgets::muted(ui, "The flows are being worked out.");
        return None;
    }
    let cases = &results.assessment().cases;
    let Some(case) = chosen_case(context, cases) else {
        ui.label("There is no weather case.");
        return None;
    };
    match &case.air {
        Ok(air) => Some((case, air, air.directions.get(context.view.direction)?)),
        Err(not_known) => {
            widgets::answer_line(ui, &Err(not_known.clone()));
            None
        }
    }
}

/// Draws the choice of case and direction, the body with the flows, and what they come to.
pub(super) fn show_picture(ui: &mut Ui, context: &mut AirChangeContext<'_>, results: &Results) {
    let cases = &results.assessment().cases;
    if let Some(case) = chosen_case(context, cases) {
        choose(ui, context, cases, case, case.air.as_ref().ok());
    }
    let Some((case, _, direction)) = shown(ui, context, results) else {
        return;
    };
    let words = flows::sentence(context.survey, &case.name, direction);
    let words = units::text(ui.ctx(), &words);
    ui.add(Label::new(RichText::new(words).strong()).wrap());
    picture(ui, context, results, case.id, direction);
}

/// Draws pressures, faces, and the table of the gaps.
pub(super) fn show(ui: &mut Ui, context: &mut AirChangeContext<'_>, results: &Results) {
    let Some((case, air, direction)) = shown(ui, context, results) else {
        return;
    };
    report::section(ui, context.queue, &flows::balance(air, direction));
    widgets::columns(ui, HALF_LEAST, 2, |ui, at| match at {
        0 => pressures(ui, context, case.id, air, direction),
        _ => report::section(ui, context.queue, &flows::faces(context.survey, direction)),
    });
    let mut largest_first = !context.view.ledger_order;
    ui.checkbox(&mut largest_first, "largest first");
    context.view.ledger_order = !largest_first;
    table(ui, context, direction);
}

/// The unfolded body with an arrow for the air through each gap. A click on a mark opens the gap
/// in the ledger.
fn picture(
    ui: &mut Ui,
    context: &mut AirChangeContext<'_>,
    results: &Results,
    case: WeatherId,
    direction: &DirectionAnswer,
) {
    let figure = context.view.drawings.body(
        (context.survey, results),
        (case, context.view.direction),
        direction,
        context.selected,
    );
    let height = body::height_for(ui, &figure.scene);
    let touched = body::show(ui, &figure.scene, height);
    if let Some(id) = touched.hovered {
        touched.response.on_hover_ui_at_pointer(|ui| {
            let lines = context.survey.gaps.iter().zip(&direction.flows);
            for (gap, flow) in lines.filter(|(gap, _)| gap.id == id) {
                let words = flows::gap_words(gap, *flow);
                ui.label(units::text(ui.ctx(), &words));
            }
        });
    }
    if let Some(id) = touched.clicked_gap {
        context.queue.push(Request::SelectGap(id));
    }
    widgets::muted(
        ui,
        "Arrows down to a mark bring air in, arrows up from it take air out; \
         broader ones carry more. Circles are unintended gaps, squares safety ventilation, \
         hexagons appliance air, triangles gas drop-outs (down) and user ventilation (up), \
         diamonds drains; the outline is whole where the size was measured, dashed where \
         estimated, dotted where guessed.",
    );
}

/// The section with inside pressure and neutral level.
fn pressures(
    ui: &mut Ui,
    context: &mut AirChangeContext<'_>,
    case: WeatherId,
    air: &CaseAir,
    direction: &DirectionAnswer,
) {
    let chosen = (case, context.view.direction);
    let drawings = &mut context.view.drawings;
    let survey = (context.survey, context.revision);
    let kept = drawings.section(survey, chosen, air, direction);
    let Some(scene) = &*kept else {
        return;
    };
    let height = body::height_for(ui, scene).min(SECTION_HEIGHT);
    body::show(ui, scene, height);
    widgets::muted(
        ui,
        "The pressure that drives air in (arrows towards the body) or out at each height, where the wind \
         neither presses nor sucks; at the neutral level there is none. Wind adds to it on each face.",
    );
}

const SECTION_HEIGHT: f32 = 230.0;
/// Width of the section and of the totals beside it, at least.
const HALF_LEAST: f32 = 400.0;

fn chosen_case<'r>(
    context: &AirChangeContext<'_>,
    cases: &'r [CaseAnswer],
) -> Option<&'r CaseAnswer> {
    let wanted = context.view.case;
    cases
        .iter()
        .find(|case| Some(case.id) == wanted)
        .or_else(|| cases.first())
}

fn choose(
    ui: &mut Ui,
    context: &mut AirChangeContext<'_>,
    cases: &[CaseAnswer],
    case: &CaseAnswer,
    air: Option<&CaseAir>,
) {
    let ids: Vec<WeatherId> = cases.iter().map(|case| case.id).collect();
    let name = |id: &WeatherId| {
        let case = cases.iter().find(|case| case.id == *id);
        case.map_or_else(String::new, |case| case.name.clone())
    };
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new("Weather case").color(palette(ui).muted));
        let chosen = Choice::new("Weather case of the flows", &case.id, &ids)
            .compact()
            .width(120.0)
            .show(ui, name);
        if let Some(id) = chosen {
            context.view.case = Some(id);
        }
        if let Some(air) = air {
            let count = air.directions.len();
            let at = context.view.direction.min(count.saturating_sub(1));
            // In one piece: a step back on one line and its list on the next is no pair.
            if ui.available_size_before_wrap().x < WIND_FROM + 2.0 * ui.spacing().interact_size.y {
                ui.end_row();
            }
            ui.label(RichText::new("Wind from").color(palette(ui).muted));
            context.view.direction = step_direction(ui, air, at);
        }
    });
}

/// Width of the words before the choice of a direction, of its list, and of what is between them
/// and the two steps.
const WIND_FROM: f32 = 310.0;

/// The direction after this frame: a choice, and a step round the clock to either side.
fn step_direction(ui: &mut Ui, air: &CaseAir, at: usize) -> usize {
    let count = air.directions.len().max(1);
    let mut turned = at;
    if step(ui, "↺", "Wind from one step anticlockwise") {
        turned = (at + count - 1) % count;
    }
    let all: Vec<usize> = (0..count).collect();
    let chosen = Choice::new("Wind direction of the flows", &at, &all)
        .compact()
        .width(180.0)
        .show(ui, |at| {
            let direction = air.directions.get(*at);
            direction.map_or_else(String::new, direction::words)
        });
    if step(ui, "↻", "Wind from one step clockwise") {
        turned = (at + 1) % count;
    }
    chosen.unwrap_or(turned)
}

fn step(ui: &mut Ui, sign: &str, words: &str) -> bool {
    let response = ui.button(sign).on_hover_text(words);
    widgets::tell_name(ui, response.id, words);
    response.clicked()
}

/// Ledger lines with their flows, in the order chosen.
fn lines<'s>(
    gaps: &'s [Gap],
    direction: &DirectionAnswer,
    ledger_order: bool,
) -> Vec<(&'s Gap, Option<GapAirFlow>)> {
    let mut lines: Vec<_> = gaps.iter().zip(direction.flows.iter().copied()).collect();
    if !ledger_order {
        let size =
            |flow: &Option<GapAirFlow>| flow.map_or(-1.0, |flow| flow.in_kg_s.max(flow.out_kg_s));
        lines.sort_by(|a, b| size(&b.1).total_cmp(&size(&a.1)));
    }
    lines
}

fn table(ui: &mut Ui, context: &AirChangeContext<'_>, direction: &DirectionAnswer) {
    let gaps = &context.survey.gaps;
    if gaps.is_empty() {
        ui.label("There is no gap in the ledger.");
        return;
    }
    ui.spacing_mut().item_spacing.y = 0.0;
    ui.add_space(4.0);
    let shown = units::shown(ui.ctx());
    let heads = flows::HEADS.map(|title| shown.head(title));
    let columns = heads.each_ref().map(|(_, unit)| *unit);
    row(ui, None, || {
        heads.map(|(title, _)| RichText::new(title).family(bold()).small())
    });
    let lines = lines(gaps, direction, context.view.ledger_order);
    let inflow: f64 = lines
        .iter()
        .filter_map(|(_, flow)| flow.map(|flow| flow.in_kg_s))
        .sum();
    for (number, (gap, flow)) in lines.iter().enumerate() {
        row(ui, Some(number), || {
            let mut columns = columns.into_iter();
            flows::gap(gap, *flow, inflow).map(|words| {
                let unit = columns.next().flatten();
                RichText::new(shown.cell(&words, unit))
            })
        });
    }
}

/// One line of the table; what is out of sight costs nothing but its height.
fn row(ui: &mut Ui, number: Option<usize>, cells: impl FnOnce() -> [RichText; 6]) {
    let size = vec2(ui.available_width(), ROW);
    let (rect, _) = ui.allocate_exact_size(size, Sense::hover());
    if !ui.is_rect_visible(rect) {
        return;
    }
    if number.is_some_and(|number| number % 2 == 0) {
        ui.painter().rect_filled(rect, 0.0, palette(ui).stripe);
    }
    let mut left = rect.left();
    for (at, (words, part)) in cells().into_iter().zip(PARTS).enumerate() {
        let width = rect.width() * part;
        let cell = Rect::from_min_size(pos2(left, rect.top()), vec2(width - 8.0, ROW));
        left += width;
        let layout = if at == 0 || at >= FIRST_NUMBER {
            Layout::right_to_left(Align::Center)
        } else {
            Layout::left_to_right(Align::Center)
        };
        let builder = UiBuilder::new()
            .max_rect(cell)
            .layout(layout)
            .id_salt((number, at));
        let mut cell = ui.new_child(builder);
        cell.add(Label::new(words).truncate());
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::{Facing, Form, GapId, ZoneId};

    fn gap(id: u32) -> Gap {
        let form = Form::RoundHole {
            diameter_mm: Some(20.0),
        };
        Gap::new(GapId(id), ZoneId(1), Facing::Front, form)
    }

    fn flow(in_kg_s: f64, out_kg_s: f64) -> Option<GapAirFlow> {
        Some(GapAirFlow { in_kg_s, out_kg_s })
    }

    #[test]
    fn the_largest_flow_in_either_way_comes_first_and_none_last() {
        let gaps = [gap(1), gap(2), gap(3)];
        let direction = DirectionAnswer {
            from_front_deg: 0.0,
            compass_deg: None,
            inside_pressure: 0.0,
            neutral_level: None,
            inflow_kg_s: 0.0,
            outflow_kg_s: 0.0,
            one_sided: false,
            ach_per_h: Ok(1.0),
            flows: vec![None, flow(0.001, 0.0), flow(0.0, 0.002)],
            inner_flows: Vec::new(),
            space_pressures: Vec::new(),
        };
        let order = |ledger_order| -> Vec<u32> {
            let lines = lines(&gaps, &direction, ledger_order);
            lines.iter().map(|(gap, _)| gap.id.0).collect()
        };
        assert_eq!(order(false), [3, 2, 1]);
        assert_eq!(order(true), [1, 2, 3]);
    }
}
