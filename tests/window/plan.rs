//! The Sealing plan page: aim, ticks, budget, what stays open, prices.

use super::{Window, ctrl, opened, press, replace_text, sample, shows, small_survey, survey};
use eframe::egui;
use egui::Key;
use egui::accesskit::{Role, Toggled};
use egui_kittest::kittest::{NodeT, Queryable};
use gapledger::assess::Topic;
use gapledger::assess::quantity::{Kind, price};
use gapledger::assess::sealing::{Aim, Prospect, Ranked, Sealable, marked_planned, plan};
use gapledger::survey::{Edit, GapId, Item, Place, Record, WorkState};
use gapledger::window::app::{App, Start};
use gapledger::window::commands::Command;
use gapledger::window::page::Page;

const SAMPLES: [&str; 4] = [
    "farmyard-caravan.ron",
    "street-panel-van.ron",
    "coastal-coachbuilt.ron",
    "forest-integrated.ron",
];

pub(crate) fn plan_page(name: &str) -> Window<'static> {
    let mut window = opened(&sample(name));
    ctrl(&mut window, Key::Num5);
    window.run();
    window
}

fn ranked(window: &Window<'_>, aim: Aim) -> Vec<Ranked> {
    Prospect::new(survey(window)).unwrap().rank(aim).unwrap()
}

fn tick_name(window: &Window<'_>, id: GapId) -> String {
    let gap = survey(window).gap(id).unwrap();
    format!("Plan to seal gap {id}, {}", gap.name.trim())
}

/// Clicks the tick of a gap, in sight or not.
fn tick(window: &mut Window<'_>, id: GapId) {
    let name = tick_name(window, id);
    window
        .get_by_role_and_label(Role::CheckBox, &name)
        .click_accesskit();
    window.run();
    window.run();
}

fn planned(window: &Window<'_>) -> Vec<GapId> {
    let gaps = survey(window).gaps.iter();
    gaps.filter(|gap| gap.state == WorkState::Planned)
        .map(|gap| gap.id)
        .collect()
}

/// The figures shown are those of the sealing prospect, which stands against outside sources in
/// its own tests; here it is only whether the right ones are shown at the right gap.
#[test]
fn the_ranking_shows_every_gap_that_may_be_sealed_the_most_saving_first() {
    for name in SAMPLES {
        let window = plan_page(name);
        let ranked = ranked(&window, Aim::AchWindy);
        let planned = planned(&window);
        let mut last = 0.0;
        for one in &ranked {
            let tick = tick_name(&window, one.sealable.gap());
            let node = window.get_by_role_and_label(Role::CheckBox, &tick);
            let ticked = if planned.contains(&one.sealable.gap()) {
                Toggled::True
            } else {
                Toggled::False
            };
            assert_eq!(node.accesskit_node().toggled(), Some(ticked), "{name}");
            assert!(node.rect().top() > last, "{name}: {tick} out of its place");
            last = node.rect().top();
            let cost = one.sealable.cost().unwrap();
            let number = Kind::Money.number(cost.priced);
            let words = format!("{}{number}", cost.at_least());
            assert!(shows(&window, &words), "{name}");
        }
    }
}

#[test]
fn a_tick_takes_a_gap_into_the_plan_with_its_date_and_undo_takes_it_out() {
    let mut window = plan_page("farmyard-caravan.ron");
    assert!(shows(&window, "Nothing is planned yet"));
    let id = ranked(&window, Aim::AchWindy)[0].sealable.gap();
    replace_text(&mut window, "Date of changes", "2026-02-03");
    press(&mut window, Key::Tab);
    tick(&mut window, id);
    let gap = survey(&window).gap(id).unwrap();
    assert_eq!(
        (gap.state, gap.state_date.as_str()),
        (WorkState::Planned, "2026-02-03")
    );
    let (sealables, refused) = marked_planned(survey(&window));
    assert!(refused.is_empty());
    let worked = plan(survey(&window), &sealables).unwrap();
    let currency = &survey(&window).tariffs.currency;
    assert!(shows(
        &window,
        &format!("Costs {}", price(worked.cost, currency))
    ));
    assert!(shows(&window, "2026-02-03"));
    ctrl(&mut window, Key::Z);
    window.run();
    assert!(planned(&window).is_empty());
    assert!(shows(&window, "Nothing is planned yet"));
}

#[test]
fn another_aim_ranks_anew() {
    let mut window = plan_page("coastal-coachbuilt.ron");
    let tops = |window: &Window<'_>, aim: Aim| {
        let order = ranked(window, aim);
        let ids: Vec<GapId> = order.iter().map(|one| one.sealable.gap()).collect();
        let top = |id: &GapId| {
            let name = tick_name(window, *id);
            window
                .get_by_role_and_label(Role::CheckBox, &name)
                .rect()
                .top()
        };
        (ids.iter().map(top).collect::<Vec<f32>>(), ids)
    };
    let (places, windy) = tops(&window, Aim::AchWindy);
    assert!(places.is_sorted());
    window
        .get_by_role_and_label(Role::ComboBox, "Aim of the plan")
        .focus();
    window.run();
    for _ in 0..3 {
        press(&mut window, Key::ArrowDown);
    }
    window.run();
    assert_eq!(
        window.state().view().sealing_plan.wanted().aim,
        Aim::WinterCost
    );
    let (places, cost) = tops(&window, Aim::WinterCost);
    assert!(places.is_sorted());
    assert_ne!(windy, cost);
    assert!(shows(&window, "Ranked by cost of a winter"));
}

#[test]
fn the_best_set_for_a_sum_is_found_and_made_the_plan_in_one_step() {
    let mut window = plan_page("farmyard-caravan.ron");
    replace_text(&mut window, "Budget", "2*30");
    press(&mut window, Key::Tab);
    window.run();
    let best = Prospect::new(survey(&window))
        .unwrap()
        .best_within(Aim::AchWindy, 60.0)
        .unwrap();
    assert!(!best.is_empty());
    let cost: f64 = best.iter().map(|one| one.cost().unwrap().priced).sum();
    assert!(cost <= 60.0);
    assert!(shows(&window, &format!("Costs {}", price(cost, "EUR"))));
    window
        .get_by_role_and_label(Role::Button, "Make this the plan")
        .click_accesskit();
    window.run();
    let ids: Vec<GapId> = best.iter().map(Sealable::gap).collect();
    assert_eq!(planned(&window), ids);
    ctrl(&mut window, Key::Z);
    assert!(planned(&window).is_empty());
    // A budget is no part of the survey: Undo leaves it, and clearing it puts the set away.
    replace_text(&mut window, "Budget", "-5");
    press(&mut window, Key::Tab);
    window.run();
    assert!(shows(&window, "the budget must be a sum of zero or more"));
    window
        .get_by_role_and_label(Role::TextInput, "Budget")
        .focus();
    window.run();
    ctrl(&mut window, Key::A);
    press(&mut window, Key::Delete);
    press(&mut window, Key::Tab);
    assert!(shows(&window, "Type a sum"));
    assert!(window.state().answers().best().is_none());
}

#[test]
fn what_protects_people_cannot_be_ticked_and_says_why() {
    let mut window = plan_page("coastal-coachbuilt.ron");
    let before = survey(&window).clone();
    let protected: Vec<GapId> = before
        .gaps
        .iter()
        .filter(|gap| gap.purpose.must_stay_open())
        .map(|gap| gap.id)
        .collect();
    assert!(protected.len() >= 3);
    for id in protected {
        let name = tick_name(&window, id);
        let node = window.get_by_role_and_label(Role::CheckBox, &name);
        assert!(node.accesskit_node().is_disabled(), "{name}");
        let why = Sealable::of(&before, id).unwrap_err().to_string();
        assert!(why.contains("protects the people"));
        assert!(shows(&window, &why), "{name}: {why}");
        node.click_accesskit();
        window.run();
    }
    assert_eq!(survey(&window), &before);
}

#[test]
fn a_gap_that_was_marked_as_planned_and_protects_people_stays_out_of_the_plan() {
    // No edit marks one so, but a file may.
    let text = std::fs::read_to_string(sample("coastal-coachbuilt.ron")).unwrap();
    let mut marked = gapledger::survey::file::parse(&text).unwrap();
    let gaps = marked.gaps.iter_mut();
    let mut protected = gaps.filter(|gap| gap.purpose.must_stay_open());
    let gap = protected.next().unwrap();
    gap.state = WorkState::Planned;
    let (id, put) = (gap.id, gap.clone());
    let mut window = plan_page("coastal-coachbuilt.ron");
    let before = survey(&window).clone();
    window.state_mut().queue().edit(Edit::gap(put), None);
    window.run();
    assert_eq!(survey(&window), &before);
    assert!(shows(&window, "cannot be marked planned"));
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("marked.ron");
    std::fs::write(&path, gapledger::survey::file::print(&marked)).unwrap();
    window = opened(&path);
    ctrl(&mut window, Key::Num5);
    window.run();
    assert!(shows(&window, &format!("gap {id} ")));
    assert!(shows(&window, "it is not in the plan"));
    assert!(
        window
            .state()
            .answers()
            .planned_work()
            .unwrap()
            .answer
            .plan
            .is_none()
    );
}

#[test]
fn a_plan_shows_its_savings_together_and_warns_below_the_table() {
    let mut window = plan_page("coastal-coachbuilt.ron");
    let ids: Vec<GapId> = ranked(&window, Aim::AchWindy)
        .iter()
        .take(3)
        .map(|one| one.sealable.gap())
        .collect();
    for id in &ids {
        tick(&mut window, *id);
    }
    let (sealables, _) = marked_planned(survey(&window));
    let worked = plan(survey(&window), &sealables).unwrap();
    let both = worked.together[0];
    let [alone, together] = [both.sum_alone, both.together].map(|ach| Kind::AirChanges.text(ach));
    assert!(shows(
        &window,
        &format!("One by one these gaps save {alone}")
    ));
    assert!(shows(&window, &format!("together {together}")));
    for finding in &worked.findings {
        assert!(shows(&window, &finding.sentence));
    }
    assert!(shows(
        &window,
        "The plan takes away leaks that now make up for"
    ));
    // Sealed at one stroke, each gap keeps its date and what its remedy leaves.
    click_at(&mut window, "Mark all of it as sealed");
    for id in &ids {
        let gap = survey(&window).gap(*id).unwrap();
        assert_eq!(gap.state, WorkState::Sealed);
        assert!(gap.remedy.as_ref().unwrap().leak_left_percent.is_some());
    }
    assert!(shows(&window, "it is sealed already"));
    ctrl(&mut window, Key::Z);
    assert_eq!(planned(&window).len(), ids.len());
}

pub(crate) fn click_at(window: &mut Window<'_>, name: &str) {
    window
        .get_by_role_and_label(Role::Button, name)
        .click_accesskit();
    window.run();
    window.run();
}

#[test]
fn a_cost_that_is_not_known_is_said_and_never_counted_as_nothing() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    // Material by the metre, for a gap whose length nobody knows.
    let mut gap = survey(&window).gap(GapId(2)).unwrap().clone();
    gap.form = gapledger::survey::Form::FlowTest {
        flow_m3_per_h: Some(12.0),
        at_pa: Some(10.0),
        exponent: Some(0.6),
    };
    gap.remedy = Some(gapledger::survey::Remedy {
        kind: gapledger::survey::RemedyKind::Strip,
        words: String::new(),
        leak_left_percent: Some(10.0),
        material_cost: Some(4.0),
        cost_basis: gapledger::survey::CostBasis::Metre,
        minutes: Some(10.0),
    });
    let edit = Edit::Put(Record::Gap(Box::new(gap)));
    window.state_mut().queue().edit(edit, None);
    window.run();
    ctrl(&mut window, Key::Num5);
    window.run();
    tick(&mut window, GapId(1));
    tick(&mut window, GapId(2));
    assert!(shows(&window, "Costs at least "));
    assert!(shows(
        &window,
        "The cost of gap 2 is not known: the material is counted by the metre"
    ));
    assert!(shows(&window, "When it pays for itself is not known"));
}

#[test]
fn a_price_typed_once_is_every_such_remedys_own_and_moves_the_costs() {
    let mut window = plan_page("farmyard-caravan.ron");
    let strips: Vec<GapId> = ranked(&window, Aim::AchWindy)
        .iter()
        .filter(|one| one.sealable.remedy().kind == gapledger::survey::RemedyKind::Strip)
        .map(|one| one.sealable.gap())
        .collect();
    assert!(!strips.is_empty());
    let before = survey(&window).clone();
    replace_text(
        &mut window,
        "Price of strip by the metre (EUR/metre)",
        "7,5",
    );
    press(&mut window, Key::Tab);
    window.run();
    for id in &strips {
        let gap = survey(&window).gap(*id).unwrap();
        let own = gap.remedy.as_ref().unwrap();
        if own.cost_basis == gapledger::survey::CostBasis::Metre {
            assert_eq!(own.material_cost, Some(7.5));
        }
    }
    // The next field has the focus now, and Ctrl+Z in a field is the field's own.
    window.state_mut().queue().command(Command::Undo);
    window.run();
    assert_eq!(survey(&window), &before);
}

#[test]
fn another_remedy_is_chosen_by_keyboard_and_a_gap_leads_to_the_ledger() {
    let mut window = plan_page("farmyard-caravan.ron");
    let first = ranked(&window, Aim::AchWindy)[0].sealable.clone();
    let id = first.gap();
    let label = format!("Remedy of gap {id}");
    window.get_by_role_and_label(Role::ComboBox, &label).focus();
    window.run();
    press(&mut window, Key::ArrowDown);
    let kind = survey(&window)
        .gap(id)
        .unwrap()
        .remedy
        .as_ref()
        .unwrap()
        .kind;
    assert_ne!(kind, first.remedy().kind);
    let name = survey(&window).gap(id).unwrap().name.clone();
    window
        .get_all_by_role_and_label(Role::Link, &format!("go to gap {id}, {name}"))
        .next()
        .unwrap()
        .click_accesskit();
    window.run();
    assert_eq!(window.state().view().page, Page::Gaps);
    let selected = window.state().view().gaps.selected_in(survey(&window));
    assert_eq!(selected, Some(id));
}

#[test]
fn what_the_money_buys_stands_in_a_table_and_can_be_planned_up_to_a_step() {
    let mut window = plan_page("farmyard-caravan.ron");
    let order = Prospect::new(survey(&window))
        .unwrap()
        .order(Aim::AchWindy)
        .unwrap();
    assert!(order.steps.len() > 3);
    for step in &order.steps {
        assert!(shows(&window, &Kind::Money.number(step.spent)));
    }
    window
        .get_by_role_and_label(Role::Link, "Plan up to step 3")
        .click_accesskit();
    window.run();
    let mut wanted: Vec<GapId> = order.steps[..3]
        .iter()
        .map(|step| step.sealable.gap())
        .collect();
    wanted.sort();
    let mut there = planned(&window);
    there.sort();
    assert_eq!(there, wanted);
}

#[test]
fn safety_ventilation_is_found_on_the_page_by_its_finding_and_its_working() {
    let mut window = plan_page("coastal-coachbuilt.ron");
    assert!(shows(&window, "Below the minimum"));
    window.state_mut().queue().open_working(Topic::Ranking);
    window.run();
    assert!(shows(
        &window,
        "What sealing saves: air change with most wind"
    ));
    let first = &ranked(&window, Aim::AchWindy)[0];
    assert!(shows(
        &window,
        &format!("gap {} saves most", first.sealable.gap())
    ));
    window
        .state_mut()
        .queue()
        .go_to(Place::whole(Item::SafetyVentilation));
    window.run();
    assert_eq!(window.state().view().page, Page::DryingHeat);
}

#[test]
fn the_page_names_its_inputs_and_rests() {
    for name in SAMPLES {
        let mut window = plan_page(name);
        replace_text(&mut window, "Budget", "100");
        press(&mut window, Key::Tab);
        assert_eq!(
            super::pages::unnamed(&window),
            Vec::<String>::new(),
            "{name}"
        );
        for viewport in window.output().viewport_output.values() {
            assert_eq!(viewport.repaint_delay, std::time::Duration::MAX, "{name}");
        }
    }
}

#[test]
fn nothing_is_cut_off_on_a_small_window_with_large_letters() {
    let start = Start::test(Some(sample("coastal-coachbuilt.ron")));
    let mut window = egui_kittest::Harness::builder()
        .with_size(egui::vec2(683.0, 384.0))
        .with_max_steps(30)
        .build_eframe(|cc| App::new(cc, start));
    window.run();
    ctrl(&mut window, Key::Num5);
    window.run();
    let wide = window
        .query_all_by(|node| node.role() == Role::TextInput || node.role() == Role::Button)
        .filter(|node| node.rect().width() > 683.0)
        .count();
    assert_eq!(wide, 0);
    assert!(shows(&window, "What sealing each gap saves"));
}
