//! Undo: whatever was done, in whatever order, undoing all of it gives the first file byte for
//! byte, and doing it again gives the last.

use gapledger::survey::file::{parse, print};
use gapledger::survey::*;
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::Index;

const ONE: &str = include_str!("../../sample-surveys/coastal-coachbuilt.ron");
const OTHER: &str = include_str!("format-2.ron");

fn surveys() -> [Survey; 2] {
    [ONE, OTHER].map(|text| parse(text).unwrap())
}

/// Every record of a survey.
fn records(of: &Survey) -> Vec<Record> {
    let mut all = Vec::new();
    all.extend(of.zones.iter().cloned().map(Record::Zone));
    all.extend(
        of.gaps
            .iter()
            .cloned()
            .map(|gap| Record::Gap(Box::new(gap))),
    );
    all.extend(of.weather.iter().cloned().map(Record::Weather));
    let fabric = of.fabric.iter().cloned();
    all.extend(fabric.map(|element| Record::Fabric(Box::new(element))));
    all.extend(of.appliances.iter().cloned().map(Record::Appliance));
    let machines = of.machines.iter().cloned();
    all.extend(machines.map(|machine| Record::Machine(Box::new(machine))));
    all.extend(of.heaters.iter().cloned().map(Record::Heater));
    all.extend(of.fans.iter().cloned().map(Record::Fan));
    all.extend(of.sources.iter().cloned().map(Record::Source));
    all.extend(of.spaces.iter().cloned().map(Record::Space));
    let openings = of.inner_openings.iter().cloned();
    all.extend(openings.map(|opening| Record::InnerOpening(Box::new(opening))));
    let tests = of.fan_tests.iter().cloned();
    all.extend(tests.map(|test| Record::FanTest(Box::new(test))));
    let series = of.series.iter().cloned();
    all.extend(series.map(|series| Record::Series(Box::new(series))));
    let trials = of.trials.iter().cloned();
    all.extend(trials.map(|trial| Record::Trial(Box::new(trial))));
    all
}

/// What names every record of a survey.
fn ids(of: &Survey) -> Vec<RecordId> {
    let mut all: Vec<RecordId> = Vec::new();
    all.extend(of.zones.iter().map(|one| RecordId::Zone(one.id)));
    all.extend(of.gaps.iter().map(|one| RecordId::Gap(one.id)));
    all.extend(of.weather.iter().map(|one| RecordId::Weather(one.id)));
    all.extend(of.fabric.iter().map(|one| RecordId::Fabric(one.id)));
    all.extend(of.appliances.iter().map(|one| RecordId::Appliance(one.id)));
    all.extend(of.machines.iter().map(|one| RecordId::Machine(one.id)));
    all.extend(of.heaters.iter().map(|one| RecordId::Heater(one.id)));
    all.extend(of.fans.iter().map(|one| RecordId::Fan(one.id)));
    all.extend(of.sources.iter().map(|one| RecordId::Source(one.id)));
    all.extend(of.spaces.iter().map(|one| RecordId::Space(one.id)));
    let openings = of.inner_openings.iter();
    all.extend(openings.map(|one| RecordId::InnerOpening(one.id)));
    all.extend(of.fan_tests.iter().map(|one| RecordId::FanTest(one.id)));
    all.extend(of.series.iter().map(|one| RecordId::Series(one.id)));
    all.extend(of.trials.iter().map(|one| RecordId::Trial(one.id)));
    all
}

/// A part of a survey that is replaced whole.
fn part(of: &Survey, which: Index) -> Edit {
    let all = [
        Edit::Header(of.header.clone()),
        Edit::Vehicle(of.vehicle.clone()),
        Edit::Site(of.site.clone()),
        Edit::Targets(of.targets.clone()),
        Edit::Tariffs(of.tariffs.clone()),
        Edit::Job(of.job.clone()),
        Edit::Drying(of.drying.clone()),
        Edit::Stay(Box::new(of.stay.clone())),
        Edit::SetUp(of.set_up),
        Edit::LeakageNotFound(of.leakage_not_found_percent),
        Edit::AppliancesConfirmed(of.appliances_confirmed),
        Edit::Fittings(of.fittings.clone()),
        Edit::Fittings(None),
        Edit::Usual(TypicalWinter::Alpine),
    ];
    which.get(&all).clone()
}

/// What may be done to a survey; some of it is refused.
#[derive(Clone, Debug)]
enum Done {
    Part(bool, Index),
    Put(bool, Index),
    Remove(Index),
    Move(Index, Index),
    Together(Index, Index),
}

fn done() -> impl Strategy<Value = Done> {
    let index = any::<Index>;
    prop_oneof![
        2 => (any::<bool>(), index()).prop_map(|(own, which)| Done::Part(own, which)),
        4 => (any::<bool>(), index()).prop_map(|(own, which)| Done::Put(own, which)),
        3 => index().prop_map(Done::Remove),
        2 => (index(), index()).prop_map(|(gap, before)| Done::Move(gap, before)),
        1 => (index(), index()).prop_map(|(one, other)| Done::Together(one, other)),
    ]
}

fn edit(now: &Survey, pool: &[Survey; 2], done: &Done) -> Edit {
    let from = |own: bool| &pool[usize::from(own)];
    match done {
        Done::Part(own, which) => part(from(*own), *which),
        Done::Put(own, which) => Edit::Put(which.get(&records(from(*own))).clone()),
        Done::Remove(which) => Edit::Remove(*which.get(&ids(now))),
        Done::Move(gap, before) if !now.gaps.is_empty() => Edit::MoveGaps {
            gaps: vec![gap.get(&now.gaps).id],
            before: Some(before.get(&now.gaps).id),
        },
        Done::Move(which, _) => part(from(true), *which),
        Done::Together(one, other) => Edit::Several(vec![
            part(from(true), *one),
            Edit::Remove(*other.get(&ids(now))),
        ]),
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn undoing_all_gives_the_first_file_byte_for_byte(all in vec(done(), 1..60)) {
        let pool = surveys();
        let first = print(&pool[0]);
        let mut history = History::new(pool[0].clone());
        for done in &all {
            let before = print(history.survey());
            let edit = edit(history.survey(), &pool, done);
            if history.apply(edit, None).is_err() {
                // What is refused changes nothing.
                prop_assert_eq!(&print(history.survey()), &before);
            }
        }
        let last = print(history.survey());
        // What can be reached can be read back.
        prop_assert_eq!(&print(&parse(&last).unwrap()), &last);
        while history.undo() {}
        prop_assert_eq!(&print(history.survey()), &first);
        while history.redo() {}
        prop_assert_eq!(&print(history.survey()), &last);
    }
}
