//! The page in short of every sample.

use crate::assess::Study;
use crate::assess::drying::{Comparison, OptionKind};
use crate::assess::in_short::{BySeason, Pick, pick};
use crate::assess::quantity::{Kind, price_about};
use crate::assess::shown::Units;
use crate::assess::tests::{bare, gap_mut, hole};
use crate::assess::words::facing;
use crate::headless::{Command, run_to};
use crate::report::Material;
use crate::report::in_short::{Leads, in_short};
use crate::survey::{CostBasis, Facing, Remedy, RemedyKind, SetUp, TypicalWinter, WorkState, file};
use crate::tasks;
use std::path::{Path, PathBuf};

fn samples() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-surveys");
    let entries = std::fs::read_dir(folder).expect("the samples");
    let mut files: Vec<PathBuf> = entries
        .map(|entry| entry.expect("an entry").path())
        .collect();
    files.retain(|path| path.extension().is_some_and(|ending| ending == "ron"));
    files.sort();
    assert!(files.len() >= 6, "{files:?}");
    files
}

fn printed(file: &Path, set_up: Option<crate::headless::SetUpWord>) -> String {
    let assess = Command::Assess {
        file: file.to_owned(),
        full: false,
        json: false,
        set_up,
        budget: None,
        aim: None,
        units: Units::Metric,
        draws: 100,
    };
    let (mut out, mut errors) = (Vec::new(), Vec::new());
    run_to(assess, &mut out, &mut errors);
    assert!(errors.is_empty(), "{}", String::from_utf8_lossy(&errors));
    String::from_utf8(out).expect("text")
}

/// Words of the trade that a neighbour does not know, and the marks of sources.
const NOT_HERE: [&str; 15] = [
    "EqLA",
    "ELA",
    " Pa",
    "\u{a0}Pa",
    "[S]",
    "[R]",
    "[M]",
    "[C]",
    "[A]",
    "[N]",
    "ACH",
    " RH",
    "W/K",
    "dew point",
    "relayed",
];

#[test]
fn the_page_of_every_sample_is_short_and_in_words_that_a_neighbour_understands() {
    use crate::headless::SetUpWord::{InUse, LaidUp};
    for file in samples() {
        for set_up in [None, Some(LaidUp), Some(InUse)] {
            let text = printed(&file, set_up);
            let lines = text.lines().count();
            assert!(lines <= 60, "{lines} lines: {text}");
            for words in NOT_HERE {
                assert!(!text.contains(words), "{words}: {text}");
            }
            for heading in [
                "HOW LEAKY",
                "SEAL THESE FIRST",
                "NEVER CLOSE THESE",
                "FROST, AND HOW SURE",
            ] {
                assert!(text.contains(heading), "{heading}: {text}");
            }
        }
    }
}

/// The amounts of money behind the currency, as they are printed.
fn amounts(text: &str) -> Vec<String> {
    let text = text.replace('\u{a0}', " ");
    let behind = text.split("EUR ").skip(1);
    let number = |words: &str| {
        let digits = words
            .chars()
            .take_while(|sign| sign.is_ascii_digit() || *sign == '.');
        digits.collect::<String>().trim_end_matches('.').to_owned()
    };
    behind
        .map(number)
        .filter(|number| !number.is_empty())
        .collect()
}

#[test]
fn no_estimate_of_ten_or_more_is_told_to_the_cent() {
    let mut told = 0;
    for file in samples() {
        for amount in amounts(&printed(&file, None)) {
            let value: f64 = amount.parse().expect("a number");
            assert!(
                value < 9.995 || !amount.contains('.'),
                "{amount}: {}",
                file.display()
            );
            told += 1;
        }
    }
    assert!(told > 20, "{told}");
}

/// Whoever reads two sums for the same sealing takes neither for true: in use it is what the heater there
/// is costs less, laid up what the dryer does.
#[test]
fn what_sealing_saves_is_told_once_and_by_the_heat_there_is() {
    let (mut in_use, mut laid_up) = (0, 0);
    for path in samples() {
        let survey = file::load(&path).expect("a sample").survey;
        let study = Study::of(&survey);
        let text = text_of(&study);
        let by_electricity = text.contains("Heated by electricity");
        let Ok(Some(first)) = study.first() else {
            continue;
        };
        let (Ok(now), Ok(then)) = (study.comparison(), &first.comparison) else {
            continue;
        };
        if survey.set_up == SetUp::LaidUp {
            assert!(text.contains("a month, not EUR"), "{text}");
            assert!(!by_electricity, "{text}");
            laid_up += 1;
            continue;
        }
        let winter = |of: &Comparison| of.options[0].costs.per_winter.clone().expect("priced");
        let saved = price_about(winter(now) - winter(then), "EUR");
        let words = format!("Heating then costs {saved} a winter less.");
        assert!(text.contains(&words) && !by_electricity, "{words}: {text}");
        in_use += 1;
    }
    assert!(in_use > 1 && laid_up > 2, "{in_use} {laid_up}");
}

#[test]
fn a_vehicle_that_is_dry_enough_is_not_called_damp_without_a_word_between() {
    let mut told = 0;
    for path in samples() {
        let survey = file::load(&path).expect("a sample").survey;
        let text = text_of(&Study::of(&survey));
        let damp = text
            .lines()
            .find(|line| line.to_lowercase().contains("water, mould or rust"));
        let Some(damp) = damp else { continue };
        let dry = text.contains("Nothing has to be bought");
        let between = damp.starts_with("Dry enough inside, yet in some weather");
        assert_eq!(dry, between, "{}: {text}", path.display());
        told += 1;
    }
    assert!(told > 4, "{told}");
}

#[test]
fn a_gap_at_the_mains_is_named_with_who_alone_may_seal_it() {
    for name in ["street-panel-van.ron", "forest-integrated.ron"] {
        let file = samples().into_iter().find(|path| path.ends_with(name));
        let text = printed(&file.expect("a sample"), None);
        assert!(
            text.contains("mains inlet box – electrician only"),
            "{text}"
        );
    }
}

#[test]
fn an_unconfirmed_list_of_appliances_leads_to_where_it_is_confirmed() {
    for path in samples() {
        let mut survey = file::load(&path).expect("a sample").survey;
        survey.appliances_confirmed = false;
        survey.set_up = SetUp::LaidUp;
        for gap in &mut survey.gaps {
            gap.state = WorkState::Open;
        }
        let study = Study::of(&survey);
        let page = in_short(&Material::of(&study));
        let leads = page.lines().any(|line| {
            matches!(line.leads_to, Leads::Place(place)
                if place.is_at(crate::survey::Field::AppliancesConfirmed))
        });
        let known = study.first().is_ok();
        assert_eq!(leads, known, "{}: {page:?}", path.display());
    }
}

/// Two weeks of a winter by the sea, run for the caravan: all that the page says of shares and money is
/// then of those weeks, counted here from their hours.
#[test]
fn where_a_winter_was_run_its_shares_and_costs_stand_in_place_of_the_weather_cases() {
    let path = samples()
        .into_iter()
        .find(|path| path.ends_with("farmyard-caravan.ron"));
    let mut survey = file::load(&path.expect("the caravan"))
        .expect("a sample")
        .survey;
    let by_cases = text_of(&Study::of(&survey));
    assert!(
        by_cases.contains("the weather cases together"),
        "{by_cases}"
    );
    survey.stay.winter = Some(TypicalWinter::MildMaritime);
    survey.stay.season_first = "01-10".into();
    survey.stay.season_last = "01-23".into();
    let study = Study::of(&survey);
    tasks::winter(&study, &[], 2, &tasks::to_the_end);
    let run = study.winter().expect("run").as_ref().expect("known");
    let text = text_of(&study);
    assert!(
        text.contains("the winter hour by hour, not the weather cases"),
        "{text}"
    );
    assert!(text.contains("mild maritime winter"), "{text}");
    assert!(!text.contains("the weather cases together"), "{text}");
    assert!(!text.to_lowercase().contains("in some weather"), "{text}");
    let mut told = 0;
    for (option, season) in run.options().iter().zip(run.seasons()) {
        let season = season.as_ref().expect("a season");
        let held = season.hours.iter().filter(|hour| hour.rh <= 0.6).count();
        let share = crate::physics::counts::count(held) / 336.0;
        if share < 0.1 || option.kind == OptionKind::SameHeat {
            continue;
        }
        let share = Kind::Share.text(share);
        let words = format!("{} of the season", share);
        let all = share == Kind::Share.text(1.0) && text.contains("all season");
        assert!(
            text.contains(&words) || all,
            "{}: {words}: {text}",
            option.name
        );
        told += 1;
    }
    assert!(told > 0, "{text}");
    assert!(text.contains("10 January to 23 January"), "{text}");
    let bought = in_short(&Material::of(&study));
    let tables = bought.parts.iter().filter_map(|part| part.table.as_ref());
    let mut heads = tables.flat_map(|table| &table.columns);
    assert!(heads.any(|column| column.head.contains("14\u{a0}days")));
    // Salt is paid for on both pages.
    let comparison = BySeason::of(&study);
    let comparison = comparison.comparison().as_ref().expect("compared");
    let mut upkept = 0;
    for (option, season) in comparison.options.iter().zip(run.seasons()) {
        let (Ok(there), Ok(season)) = (&option.costs.per_winter, season) else {
            continue;
        };
        let here = season.cost.as_ref().expect("priced");
        assert!(
            (here - there).abs() < 1e-9,
            "{}: {here} {there}",
            option.name
        );
        let upkeep = option.costs.upkeep_per_month.clone().expect("known");
        upkept += usize::from(upkeep > 0.0 && *here > 0.0);
    }
    assert!(upkept > 0);
    // The same with gaps sealed is of the same weeks: less air, less water, less money.
    let season = BySeason::of(&study);
    let comparison = season.comparison().as_ref().expect("compared");
    let Pick::Take(at) = pick(comparison) else {
        panic!("a dryer holds it: {text}");
    };
    let first = season
        .first()
        .as_ref()
        .expect("known")
        .as_ref()
        .expect("some");
    let then = first.comparison.as_ref().expect("run too");
    let month = |of: &Comparison| of.options[at].costs.per_month.clone().expect("priced");
    assert!(month(then) < month(comparison));
    let power = run.seasons()[at].as_ref().expect("known").cost.clone();
    let days = 14.0;
    let expected = power.expect("priced") / days * 365.25 / 12.0;
    assert!(
        (month(comparison) / expected - 1.0).abs() < 1e-9,
        "no upkeep is given"
    );
}

/// What the page advises is done: the gaps that come first are sealed and all is worked out from nothing.
/// Where it is dry enough for less of the season then, by itself or with what is advised, the page says so.
#[test]
fn what_following_the_advice_takes_away_is_said_beside_it() {
    let (mut followed, mut warned) = (0, 0);
    for path in samples() {
        for set_up in SetUp::ALL {
            let mut survey = file::load(&path).expect("a sample").survey;
            survey.set_up = set_up;
            let study = Study::of(&survey);
            let text = text_of(&study);
            let (Ok(now), Ok(Some(first))) = (study.comparison(), study.first()) else {
                continue;
            };
            for one in &first.gaps {
                let mut gaps = survey.gaps.iter_mut();
                let gap = gaps.find(|gap| gap.id == one.gap()).expect("a gap");
                gap.remedy = Some(one.remedy().clone());
                gap.state = WorkState::Sealed;
                // After every test of the samples.
                gap.state_date = "2031-01-01".to_owned();
            }
            let then = crate::assess::compare(&survey).expect("a comparison");
            let advised = match pick(now) {
                Pick::Take(at) => at,
                _ => 0,
            };
            for at in [0, advised] {
                let share = |of: &Comparison| of.options[at].verdict.clone().map(|one| one.share());
                let (Ok(before), Ok(after)) = (share(now), share(&then)) else {
                    continue;
                };
                let longer = after >= before;
                let (before, told) = (Kind::Share.text(before), Kind::Share.text(after));
                followed += 1;
                if before == told || longer {
                    continue;
                }
                let words = format!("for {told} of the season, not {before}");
                let warning = text.lines().find(|line| line.contains(&words));
                let warning = warning.unwrap_or_else(|| panic!("{words}: {text}"));
                assert!(warning.contains('▲'), "{warning}");
                if at == 0 {
                    assert!(text.contains("but makes it damper"), "{text}");
                    assert!(!text.contains("still no more than is wanted"), "{text}");
                }
                warned += 1;
            }
        }
    }
    assert!(followed > 10 && warned > 0, "{followed} {warned}");
}

#[test]
fn all_season_is_said_of_a_winter_alone() {
    for path in samples() {
        let survey = file::load(&path).expect("a sample").survey;
        let study = Study::of(&survey);
        let text = text_of(&study);
        assert!(!text.contains("all season"), "{text}");
        let material = Material::of(&study);
        let picture = crate::report::in_short::Picture::Options;
        if let Some(scene) = crate::report::in_short::scene(&material, picture, 176.0) {
            assert!(!scene.description.contains("all season"));
        }
    }
}

/// In the orchard the compressor that the page advises was tried, and came to more than is wanted.
#[test]
fn what_was_tried_is_told_beside_what_is_worked_out() {
    let path = samples()
        .into_iter()
        .find(|path| path.ends_with("orchard-trial.ron"));
    let text = printed(&path.expect("the orchard"), None);
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in [
        "Tried: tub of salt",
        "no effect on humidity that the data can show",
        "“compressor, 280 W” did not come to 55 % there",
    ] {
        assert!(text.contains(words), "{words}: {text}");
    }
    // Frost is told by the temperature of frost guard, not by that of drying.
    assert!(text.contains("keeps 5 °C down to"), "{text}");
    assert!(!text.contains("keeps 10 °C"), "{text}");
}

#[test]
fn what_is_not_sized_is_named_before_any_test() {
    let mut named = 0;
    for path in samples() {
        let survey = file::load(&path).expect("a sample").survey;
        let study = Study::of(&survey);
        let missing = &study.assessment().leakage.not_sized;
        let text = printed(&path, None);
        if !missing.is_empty() {
            let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
            assert!(words.contains("first to be surer"), "{text}");
            assert!(!text.contains("measuring gaps does not"), "{text}");
            named += 1;
        }
    }
    assert!(named > 1);
}

fn text_of(study: &Study) -> String {
    let page = in_short(&Material::of(study));
    let notes = page.parts.iter().flat_map(|part| part.notes.clone());
    let rows = page.parts.iter().filter_map(|part| part.table.clone());
    let cells = rows.flat_map(|table| table.rows).flat_map(|row| row.cells);
    let lines = page.lines().map(|line| line.text.clone());
    lines
        .chain(notes)
        .chain(cells)
        .collect::<Vec<_>>()
        .join("\n")
}

/// What protects people stands on the page by its number, its name and where it is, whatever else does.
#[test]
fn every_opening_that_protects_people_is_named_among_those_never_to_close() {
    for path in samples() {
        let survey = file::load(&path).expect("a sample").survey;
        let page = in_short(&Material::of(&Study::of(&survey)));
        let part = page
            .parts
            .iter()
            .find(|part| part.title == "Never close these");
        let part = part.expect("it is always there");
        for gap in &survey.gaps {
            if !crate::survey::leave::never(&survey, gap) {
                continue;
            }
            let id = gap.id.to_string();
            let whole = format!("{id} \u{201c}{}\u{201d} ({}", gap.name, facing(gap.facing));
            let named = part
                .lines
                .iter()
                .any(|line| line.text.starts_with('✖') && line.text.contains(&whole));
            assert!(named, "gap {id} of {}: {part:?}", path.display());
        }
    }
}

/// Two holes of 200 cm² that a strip closes to a tenth leave two sleepers less than 2 m³/h.
#[test]
fn sealing_that_leaves_sleepers_without_air_comes_after_ventilation() {
    let mut survey = bare();
    survey.tariffs.workshop_per_hour = Some(0.0);
    for (facing, height) in [(Facing::Front, 0.8), (Facing::Rear, 1.0)] {
        let gap = hole(&mut survey, facing, height, 200.0);
        gap_mut(&mut survey, gap).remedy = Some(Remedy {
            kind: RemedyKind::Strip,
            words: String::new(),
            leak_left_percent: Some(5.0),
            material_cost: Some(10.0),
            cost_basis: CostBasis::Piece,
            minutes: Some(10.0),
        });
    }
    for set_up in SetUp::ALL {
        survey.set_up = set_up;
        let study = Study::of(&survey);
        let page = in_short(&Material::of(&study));
        let begins = "▲ Ventilation first; sealing 2 gaps";
        let headline = page.headline.iter();
        assert!(
            headline
                .filter(|line| line.text.starts_with(begins))
                .count()
                == 1
        );
        let lines = page.parts.iter().flat_map(|part| part.all_lines());
        let told: Vec<_> = lines
            .filter(|line| {
                line.text
                    .starts_with("Ventilation first, then seal: once this is sealed")
            })
            .collect();
        assert_eq!(told.len(), 1, "{page:?}");
        assert!(told[0].grave && told[0].text.contains("carbon dioxide"));
    }
}
