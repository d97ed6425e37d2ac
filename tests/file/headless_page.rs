//! The page that `assess` prints.

use crate::headless::{OnDisk, hole, van};
use gapledger::survey::*;

/// A small van that has something of everything: all forms, a gap behind another and one behind
/// an opening, one not sized, one that closes, safety ventilation, fabric, people, a fan.
pub(crate) fn thorough() -> Survey {
    let mut survey = van();
    survey.header.title = "Trial van".to_owned();
    survey.header.scene = "Invented for a test; no real vehicle.".to_owned();
    survey.header.date = "2026-01-31".to_owned();
    survey.site.heading_deg = Some(200.0);
    survey.gaps = gaps();
    for gap in &mut survey.gaps {
        (gap.part, gap.purpose_confirmed) = (GapPart::FixedJoint, true);
    }
    survey.appliances_confirmed = true;
    survey.fabric = fabric();
    survey.appliances = vec![Appliance {
        id: ApplianceId(1),
        kind: ApplianceKind::Hob,
        name: "two-burner hob".to_owned(),
        room_sealed: false,
        input_mj_per_h: None,
    }];
    survey.sources = vec![MoistureSource {
        id: SourceId(1),
        name: "drying boots".to_owned(),
        kind: SourceKind::Other,
        count: 1,
        rate_g_per_h: Some(20.0),
        hours_per_day: 12.0,
        laid_up: true,
        in_use: true,
    }];
    survey
}

fn gaps() -> Vec<Gap> {
    let gap = |id, zone, name: &str, facing, height, form| {
        let mut gap = Gap::new(GapId(id), ZoneId(zone), facing, form);
        gap.name = name.to_owned();
        gap.position.height_m = height;
        gap
    };
    let seal = |length, width| Form::NarrowGap {
        length_mm: Some(length),
        width_mm: width,
        depth_mm: Some(30.0),
        bends: 1,
    };
    let area = |mm2| Form::StatedArea {
        area_mm2: Some(mm2),
        convention: AreaConvention::Free,
        exponent: None,
    };
    let mut door = gap(
        1,
        5,
        "sliding door seal",
        Facing::Nearside,
        Some(1.5),
        seal(4200.0, Some(2.0)),
    );
    door.position.rise_m = Some(1.6);
    door.certainty = Certainty::Measured;
    let missing = gap(
        2,
        1,
        "bulkhead joint",
        Facing::Front,
        Some(1.2),
        seal(900.0, None),
    );
    let mut cables = hole(3, Facing::Underfloor, 40.0);
    cables.name = "cable hole".to_owned();
    let pipe = Form::RingGap {
        hole_mm: Some(32.0),
        pipe_mm: Some(22.0),
    };
    let mut pipe = gap(4, 7, "water pipe", Facing::Offside, Some(0.7), pipe);
    pipe.count = 2;
    pipe.behind = Some(Behind::Opening {
        free_area_mm2: Some(900.0),
    });
    let grille = Form::Grille {
        width_mm: Some(300.0),
        height_mm: Some(150.0),
        material: GrilleMaterial::Metal,
        free_percent: None,
    };
    let mut grille = gap(
        5,
        4,
        "refrigerator grille",
        Facing::Offside,
        Some(1.1),
        grille,
    );
    grille.leads_to = LeadsTo::Compartment;
    grille.purpose = Purpose::ApplianceAir;
    let mut surround = gap(
        6,
        4,
        "round the refrigerator",
        Facing::Offside,
        Some(1.0),
        seal(1600.0, Some(1.5)),
    );
    surround.behind = Some(Behind::Gap(GapId(5)));
    surround.certainty = Certainty::Guessed;
    let test = Form::FlowTest {
        flow_m3_per_h: Some(18.0),
        at_pa: Some(50.0),
        exponent: Some(0.6),
    };
    let tested = gap(
        7,
        2,
        "wheel box, by test",
        Facing::Cavity(Cavity::WheelArch),
        None,
        test,
    );
    let mut vent = gap(
        8,
        3,
        "roof ventilator",
        Facing::Roof,
        Some(2.6),
        area(12_500.0),
    );
    vent.purpose = Purpose::SafetyVentilation;
    let mut low = gap(
        9,
        2,
        "floor ventilator",
        Facing::Underfloor,
        Some(0.6),
        area(2000.0),
    );
    low.purpose = Purpose::SafetyVentilation;
    let drain = Form::RoundHole {
        diameter_mm: Some(25.0),
    };
    let mut drain = gap(10, 2, "drop-out hole", Facing::Underfloor, Some(0.6), drain);
    drain.purpose = Purpose::GasDropOut;
    drain.state = WorkState::Sealed;
    let mut hatch = gap(
        11,
        3,
        "rooflight vent",
        Facing::Roof,
        Some(2.6),
        area(8000.0),
    );
    hatch.purpose = Purpose::UserVentilation;
    hatch.closing = Some(Closing {
        open_in_use: true,
        ..Closing::CLOSED
    });
    vec![
        door, missing, cables, pipe, grille, surround, tested, vent, low, drain, hatch,
    ]
}

fn fabric() -> Vec<FabricElement> {
    let element = |id, name: &str, part, area, u| FabricElement {
        id: FabricId(id),
        name: name.to_owned(),
        part,
        area_m2: Some(area),
        build_up: BuildUp::Stated {
            u_w_per_m2_k: Some(u),
        },
        bridge_percent: 15.0,
        outline: None,
    };
    vec![
        element(1, "sides", FabricPart::Wall, 24.0, 1.0),
        element(2, "roof", FabricPart::Roof, 12.0, 0.9),
        element(3, "floor", FabricPart::Floor, 12.0, 0.7),
        element(4, "windscreen", FabricPart::Window, 2.2, 5.7),
    ]
}

fn page(survey: &Survey) -> String {
    OnDisk::new(survey).assess(false, None).out
}

/// The page down to the workings, as it was read and found good. After a change that is meant,
/// run the test once with `GAPLEDGER_WRITE_PAGE` set, and read the new page before keeping it.
#[test]
fn the_page_is_the_one_that_was_read() {
    let page = page(&thorough());
    let results = &page[..page.find("\nAPPENDIX: WORKINGS AND SOURCES ").unwrap()];
    let kept = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/file/page.txt");
    if std::env::var_os("GAPLEDGER_WRITE_PAGE").is_some() {
        std::fs::write(kept, results).unwrap();
    }
    let kept = std::fs::read_to_string(kept).unwrap();
    for (line, (new, old)) in results.lines().zip(kept.lines()).enumerate() {
        assert_eq!(new, old, "line {}", line + 1);
    }
    assert_eq!(results.lines().count(), kept.lines().count());
}

#[test]
fn alerts_come_before_all_else_and_danger_first() {
    let mut survey = thorough();
    survey.gaps[2].count = 0;
    let page = page(&survey);
    let at = |words: &str| {
        page.find(words)
            .unwrap_or_else(|| panic!("no {words:?} in\n{page}"))
    };
    assert!(at("\nDANGER ") < at("\nERROR "));
    assert!(at("\nERROR ") < at("\nWARNING "));
    assert!(at("\nWARNING ") < at("VEHICLE AND PLACE"));
}

/// What is not known says so with the reason; no line gives a zero in its place.
#[test]
fn an_empty_survey_prints_reasons_and_no_zeros() {
    let page = page(&Survey::new(VehicleKind::Other));
    for words in [
        "not known (1)",
        "(1) Not known: ",
        "Volume, furniture not deducted",
    ] {
        assert!(page.contains(words), "no {words:?} in\n{page}");
    }
    let from = page.find("RESULTS BY WEATHER").unwrap();
    let results = &page[from..page.find("WHAT THE AIR CHANGE DEPENDS ON").unwrap()];
    let rows = [
        "Lowest, /h",
        "Mean, /h",
        "Highest, /h",
        "With the air, W",
        "Through the fabric, W",
        "Together, W",
    ];
    for line in results
        .lines()
        .filter(|line| rows.iter().any(|row| line.starts_with(row)))
    {
        assert_eq!(line.matches("not known").count(), 3, "{line}");
    }
}

/// A zone whose only gap is not sized has no area that is known, and totals are *at least*.
#[test]
fn what_lacks_a_size_is_at_least_or_not_known() {
    let page = page(&thorough());
    let line = |start: &str| {
        let found = page.lines().find(|line| line.starts_with(start));
        found.unwrap_or_else(|| panic!("no {start:?} in\n{page}"))
    };
    assert!(line("All gaps ").contains("≥ "));
    // The cab holds the bulkhead joint, not sized, and the cable hole; facing front only the joint.
    assert!(line("cab ").contains("≥ "));
    assert!(line("front ").contains("not known"));
    assert!(line("roof ").split_whitespace().all(|word| word != "≥"));
    assert!(page.contains("2 gaps are not sized (2, 10): in no total"));
}

/// The leakiest gap stands first: 12 500 mm² of free area passes more than any other gap here.
#[test]
fn the_ledger_starts_with_the_leakiest_gap() {
    let page = page(&thorough());
    let table = &page[page.find("LEDGER OF GAPS, THE LEAKIEST FIRST").unwrap()..];
    let rows = &table[table.find('╌').unwrap()..table.find("All gaps").unwrap()];
    let numbers: Vec<u32> = rows
        .lines()
        .filter_map(|line| line.get(..3)?.trim().parse().ok())
        .collect();
    assert_eq!(numbers.len(), 11);
    assert_eq!(numbers.first(), Some(&8));
    // Without a figure: the one not sized and the outer opening, in the ledger's order; the
    // sealed drop-out hole gives no remaining share and so has none either.
    assert_eq!(&numbers[8..], [2, 5, 10]);
}

#[test]
fn every_headline_has_its_working_with_marked_sources() {
    let page = page(&thorough());
    let workings = &page[page.find("\nAPPENDIX: WORKINGS AND SOURCES ").unwrap()..];
    let titles = [
        "INSIDE VOLUME",
        "AIR CHANGE",
        "CROSS-CHECK OF THE AIR CHANGE",
        "WATER TO REMOVE",
        "HEAT TO HOLD THE SET TEMPERATURE",
        "HEAT FOR FROST GUARD",
        "SAFETY VENTILATION",
        "LEAKAGE OF EACH GAP",
    ];
    let starts = titles.map(|title| {
        let found = workings.find(&format!("\n{title}\n"));
        found.unwrap_or_else(|| panic!("no {title:?}"))
    });
    for ends in starts.windows(2) {
        let working = &workings[ends[0]..ends[1]];
        for part in ["\nFormula: ", "\nResult ", "\n– Source: "] {
            assert!(working.contains(part), "{working}");
        }
        let marked = ["[S]", "[R]", "[M]", "[C]", "[N]", "[A]"]
            .iter()
            .any(|mark| working.contains(mark));
        assert!(marked, "{working}");
    }
}

#[test]
fn planned_gaps_print_the_comparison_once_more() {
    let mut survey = thorough();
    assert!(
        !OnDisk::new(&survey)
            .assess(false, None)
            .out
            .contains("After the plan")
    );
    survey.appliances_confirmed = true;
    for gap in &mut survey.gaps {
        if gap.purpose == Purpose::Unintended {
            gap.part = GapPart::FixedJoint;
            gap.purpose_confirmed = true;
            gap.state = WorkState::Planned;
        }
    }
    let disk = OnDisk::new(&survey);
    let (printed, json) = (disk.assess(false, None).out, disk.json());
    let (_, then) = printed.split_once("After the plan: ").unwrap();
    let plan = &json["drying_heating"]["after_plan"];
    assert!(plan["gaps"].as_array().unwrap().len() > 2);
    let options = plan["comparison"]["options"].as_array().unwrap();
    let now = json["drying_heating"]["options"].as_array().unwrap();
    assert_eq!(options.len(), now.len());
    let mut less = 0;
    for (option, now) in options.iter().zip(now) {
        assert_eq!(option["name"], now["name"]);
        assert!(then.contains(option["name"].as_str().unwrap()));
        let air = |option: &serde_json::Value| option["cases"][0]["state"]["dry_air_kg_s"].as_f64();
        if let (Some(then), Some(now)) = (air(option), air(now)) {
            assert!(then < now);
            less += 1;
        }
    }
    assert!(less > 5);
    assert!(then.contains(", after the plan"));
}

/// Words that end in `s` and are of one thing, or a unit.
const SINGULAR: [&str; 4] = ["gas", "is", "was", "this"];

/// Where one of a thing is told as several: `1 gaps`, `in 1 directions`.
fn wrong_numbers(text: &str) -> Vec<String> {
    let words: Vec<&str> = text.split_whitespace().collect();
    words
        .windows(2)
        .filter(|pair| pair[0].trim_start_matches('(') == "1")
        .filter(|pair| {
            let word = pair[1].trim_end_matches(|c: char| !c.is_alphanumeric());
            let plain = word.chars().all(|c| c.is_ascii_lowercase());
            plain && word.len() > 1 && word.ends_with('s') && !SINGULAR.contains(&word)
        })
        .map(|pair| pair.join(" "))
        .collect()
}

#[test]
fn one_thing_is_never_told_as_several() {
    assert_eq!(
        wrong_numbers("in 1 directions, 1 gap is"),
        ["1 directions,"]
    );
    let samples =
        std::fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/sample-surveys")).unwrap();
    let mut surveys = vec![thorough(), Survey::new(VehicleKind::Other)];
    for file in samples.map(|file| file.unwrap().path()) {
        if file.extension().is_some_and(|ending| ending == "ron") {
            let text = std::fs::read_to_string(file).unwrap();
            surveys.push(gapledger::survey::file::parse(&text).unwrap());
        }
    }
    assert!(surveys.len() > 6);
    let mut one = thorough();
    one.gaps.truncate(1);
    one.gaps[0].state = WorkState::Planned;
    surveys.push(one);
    for survey in surveys {
        let page = page(&survey);
        assert_eq!(wrong_numbers(&page), [""; 0], "{}", survey.header.title);
    }
}

#[test]
fn check_tells_of_a_missing_photo() {
    let mut survey = van();
    let mut gap = hole(3, Facing::Rear, 100.0);
    gap.photos = vec![gapledger::survey::Photo::new("seal.jpg")];
    survey.gaps.push(gap);
    let out = OnDisk::new(&survey).check().out;
    let out = out.split_whitespace().collect::<Vec<_>>().join(" ");
    let told = "photo \u{201c}seal.jpg\u{201d} is missing";
    assert!(out.contains(told), "{out}");
}
