//! What the ledger shows: which gaps, in which order, and what they come to together. The survey
//! stays as it is: sorting and filtering are for the eye only.

use super::columns::Column;
use crate::assess::words::sizes;
use crate::assess::{Answer, GapAnswer, LeakageTotal, leakage_total};
use crate::survey::{
    Certainty, Facing, Finding, Gap, GapId, Item, Purpose, Severity, Survey, WorkState, ZoneId,
};
use crate::window::answers::Results;
use std::cmp::Ordering;
use std::collections::{HashMap, HashSet};

/// Which gaps are shown beside what the other choices say.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Only {
    /// All of them.
    #[default]
    All,
    /// Those that lack a size.
    NotSized,
    /// The fewest that make [`MOST`] of the flow through all gaps.
    MostLeaking,
    /// Those with a finding that is more than a note.
    Noticed,
}

/// The share of the leakage that *most leaking* gaps make.
pub(super) const MOST: f64 = 0.8;

impl Only {
    /// Every choice, in the order offered.
    pub(super) const ALL: [Self; 4] = [Self::All, Self::NotSized, Self::MostLeaking, Self::Noticed];

    /// Words for it.
    pub(super) fn name(self) -> &'static str {
        match self {
            Self::All => "all gaps",
            Self::NotSized => "not sized",
            Self::MostLeaking => "most leaking: 80 %",
            Self::Noticed => "with a finding",
        }
    }
}

/// Which gaps are shown.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Filter {
    /// Words that all must stand somewhere in the gap's row, remedy or note.
    pub(super) search: String,
    pub(super) zone: Option<ZoneId>,
    pub(super) facing: Option<Facing>,
    pub(super) purpose: Option<Purpose>,
    pub(super) state: Option<WorkState>,
    pub(super) certainty: Option<Certainty>,
    pub(super) only: Only,
}

impl Filter {
    /// How many choices narrow the ledger, the searched words aside.
    pub(super) fn choices(&self) -> usize {
        [
            self.zone.is_some(),
            self.facing.is_some(),
            self.purpose.is_some(),
            self.state.is_some(),
            self.certainty.is_some(),
            self.only != Only::All,
        ]
        .into_iter()
        .filter(|&narrows| narrows)
        .count()
    }

    fn takes(&self, gap: &Gap, survey: &Survey, searched: &[String]) -> bool {
        let fits = |wanted: bool| wanted;
        fits(self.zone.is_none_or(|zone| zone == gap.zone))
            && fits(self.facing.is_none_or(|facing| facing == gap.facing))
            && fits(self.purpose.is_none_or(|purpose| purpose == gap.purpose))
            && fits(self.state.is_none_or(|state| state == gap.state))
            && fits(self.certainty.is_none_or(|sure| sure == gap.certainty))
            && holds(gap, survey, searched)
    }
}

/// Whether all the words searched for stand somewhere in the gap; a whole number means the gap's
/// own number too.
fn holds(gap: &Gap, survey: &Survey, searched: &[String]) -> bool {
    if searched.is_empty() {
        return true;
    }
    let remedy = gap.remedy.as_ref();
    let text = [
        gap.shown_name(),
        survey.zone_name(gap.zone),
        gap.facing.name(),
        &gap.note,
        &gap.damp,
        remedy.map_or("", |remedy| remedy.kind.name()),
        remedy.map_or("", |remedy| remedy.words.as_str()),
        &sizes(&gap.form),
    ]
    .join("\n")
    .to_lowercase();
    let number = gap.id.to_string();
    searched
        .iter()
        .all(|word| *word == number || text.contains(word))
}

/// The order of the rows; without one they stand as in the ledger.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Sort {
    pub(super) column: Column,
    /// From the largest, or from the end of the alphabet.
    pub(super) down: bool,
}

impl Sort {
    /// The order after a click on a heading: one way, the other way, then the ledger's own.
    pub(super) fn clicked(old: Option<Self>, column: Column) -> Option<Self> {
        let first = column.largest_first();
        match old {
            Some(old) if old.column == column && old.down == first => Some(Self {
                column,
                down: !first,
            }),
            Some(old) if old.column == column => None,
            _ => Some(Self {
                column,
                down: first,
            }),
        }
    }
}

/// What the user wants to see.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Wanted {
    pub(super) filter: Filter,
    pub(super) sort: Option<Sort>,
}

/// One row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Line {
    /// The gap.
    pub(super) id: GapId,
    /// Its index in the survey.
    pub(super) at: usize,
    /// Index of its answer.
    answer: Option<usize>,
    /// Index of its worst finding.
    finding: Option<usize>,
}

impl Line {
    /// The answer about its gap.
    pub(super) fn answer<'a>(&self, results: Option<&'a Results>) -> Option<&'a GapAnswer> {
        let answer = results?.assessment().gaps.get(self.answer?)?;
        (answer.id == self.id).then_some(answer)
    }

    /// The worst finding about its gap.
    pub(super) fn finding<'a>(&self, results: Option<&'a Results>) -> Option<&'a Finding> {
        results?.findings.get(self.finding?)
    }
}

/// What the gaps shown come to together.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Together {
    /// Their leakage.
    pub(super) total: Answer<LeakageTotal>,
    /// Their share of the flow at 10 Pa through all gaps.
    pub(super) share: Option<f64>,
}

/// The rows of the ledger, made once for each change of survey, results or wishes.
#[derive(Clone, Debug)]
pub(super) struct Listing {
    key: (u64, Option<u64>),
    wanted: Wanted,
    /// The rows, from the top.
    pub(super) lines: Vec<Line>,
    /// What they come to; none while results are being worked out.
    pub(super) together: Option<Together>,
}

impl Listing {
    /// Whether it is still what these would make.
    pub(super) fn holds_for(
        &self,
        revision: u64,
        results: Option<&Results>,
        wanted: &Wanted,
    ) -> bool {
        self.key == (revision, results.map(|results| results.revision)) && self.wanted == *wanted
    }

    /// The rows for a survey. While results are one revision old, totals stay as they were in
    /// `before`.
    pub(super) fn new(
        survey: &Survey,
        revision: u64,
        results: Option<&Results>,
        wanted: &Wanted,
        before: Option<&Self>,
    ) -> Self {
        let searched: Vec<String> = wanted
            .filter
            .search
            .split_whitespace()
            .map(str::to_lowercase)
            .collect();
        let only = only(wanted.filter.only, results);
        let (answers, findings) = by_gap(results);
        let mut lines: Vec<Line> = survey
            .gaps
            .iter()
            .enumerate()
            .filter(|(_, gap)| wanted.filter.takes(gap, survey, &searched))
            .filter(|(_, gap)| only.as_ref().is_none_or(|only| only.contains(&gap.id)))
            .map(|(at, gap)| Line {
                id: gap.id,
                at,
                answer: answers.get(&gap.id).copied(),
                finding: findings.get(&gap.id).copied(),
            })
            .collect();
        if let Some(sort) = wanted.sort {
            order(&mut lines, survey, results, sort);
        }
        let fresh = results.filter(|results| results.revision == revision);
        let together = match fresh {
            Some(results) => Some(together(survey, results, &lines)),
            None => before.and_then(|before| before.together.clone()),
        };
        Self {
            key: (revision, results.map(|results| results.revision)),
            wanted: wanted.clone(),
            lines,
            together,
        }
    }

    /// The row of a gap.
    pub(super) fn row(&self, id: GapId) -> Option<usize> {
        self.lines.iter().position(|line| line.id == id)
    }
}

type ByGap = HashMap<GapId, usize>;

/// Indices of the answer and of the worst finding of each gap. Findings stand worst first.
fn by_gap(results: Option<&Results>) -> (ByGap, ByGap) {
    let Some(results) = results else {
        return (ByGap::new(), ByGap::new());
    };
    let answers = results.assessment().gaps.iter().enumerate();
    let answers = answers.map(|(at, answer)| (answer.id, at)).collect();
    let mut findings = ByGap::new();
    for (at, finding) in results.findings.iter().enumerate() {
        if let Item::Gap(id) = finding.place.item {
            findings.entry(id).or_insert(at);
        }
    }
    (answers, findings)
}

/// The gaps that a choice leaves, or none where it leaves all.
fn only(only: Only, results: Option<&Results>) -> Option<HashSet<GapId>> {
    if only == Only::All {
        return None;
    }
    let Some(results) = results else {
        return Some(HashSet::new());
    };
    let assessment = results.assessment();
    Some(match only {
        Only::All => return None,
        Only::NotSized => assessment.leakage.not_sized.iter().copied().collect(),
        Only::MostLeaking => most_leaking(&assessment.gaps),
        Only::Noticed => assessment
            .findings
            .iter()
            .filter(|finding| finding.severity != Severity::Note)
            .filter_map(|finding| match finding.place.item {
                Item::Gap(id) => Some(id),
                _ => None,
            })
            .collect(),
    })
}

/// The fewest gaps that make [`MOST`] of the flow at 10 Pa.
fn most_leaking(answers: &[GapAnswer]) -> HashSet<GapId> {
    let mut flows: Vec<(GapId, f64)> = answers
        .iter()
        .filter_map(|answer| Some((answer.id, answer.leakage.figures()?.flow_10pa)))
        .collect();
    flows.sort_by(|a, b| b.1.total_cmp(&a.1));
    let wanted = MOST * flows.iter().map(|(_, flow)| flow).sum::<f64>();
    let mut gathered = 0.0;
    flows
        .into_iter()
        .take_while(|(_, flow)| {
            let more = gathered < wanted;
            gathered += flow;
            more
        })
        .map(|(id, _)| id)
        .collect()
}

fn together(survey: &Survey, results: &Results, lines: &[Line]) -> Together {
    let assessment = results.assessment();
    let shown: HashSet<GapId> = lines.iter().map(|line| line.id).collect();
    let total = leakage_total(survey, &assessment.gaps, |gap| shown.contains(&gap.id));
    let share = match (&total, &assessment.leakage.all) {
        (Ok(total), Ok(all)) if all.figures.flow_10pa > 0.0 => {
            Some(total.figures.flow_10pa / all.figures.flow_10pa)
        }
        _ => None,
    };
    Together { total, share }
}

/// What a row is sorted by; what is not known stands last either way.
enum SortKey {
    Figure(Option<f64>),
    Words(String),
}

fn order(lines: &mut [Line], survey: &Survey, results: Option<&Results>, sort: Sort) {
    let key = |line: &Line| {
        survey
            .gaps
            .get(line.at)
            .map(|gap| key(survey, results, gap, line, sort.column))
    };
    let mut keyed: Vec<(Option<SortKey>, Line)> =
        lines.iter().map(|line| (key(line), *line)).collect();
    // A stable sort: equal rows stand as in the ledger.
    keyed.sort_by(|(a, _), (b, _)| compare(a.as_ref(), b.as_ref(), sort.down));
    for (line, (_, sorted)) in lines.iter_mut().zip(keyed) {
        *line = sorted;
    }
}

fn compare(a: Option<&SortKey>, b: Option<&SortKey>, down: bool) -> Ordering {
    let turned = |ordering: Ordering| if down { ordering.reverse() } else { ordering };
    match (a, b) {
        (Some(SortKey::Figure(Some(a))), Some(SortKey::Figure(Some(b)))) => turned(a.total_cmp(b)),
        (Some(SortKey::Figure(Some(_))), _) => Ordering::Less,
        (_, Some(SortKey::Figure(Some(_)))) => Ordering::Greater,
        (Some(SortKey::Words(a)), Some(SortKey::Words(b))) => {
            a.is_empty().cmp(&b.is_empty()).then(turned(a.cmp(b)))
        }
        _ => Ordering::Equal,
    }
}

fn place<T: PartialEq>(all: &[T], one: &T) -> SortKey {
    #[expect(clippy::cast_precision_loss, reason = "a place in a short list")]
    let at = all
        .iter()
        .position(|other| other == one)
        .map(|at| at as f64);
    SortKey::Figure(at)
}

fn key(
    survey: &Survey,
    results: Option<&Results>,
    gap: &Gap,
    line: &Line,
    column: Column,
) -> SortKey {
    let figures = || {
        line.answer(results)
            .and_then(|answer| answer.leakage.figures())
    };
    match column {
        Column::Number => SortKey::Figure(Some(f64::from(gap.id.0))),
        Column::Mark | Column::Purpose => place(&Purpose::ALL, &gap.purpose),
        Column::Noticed => SortKey::Figure(
            line.finding(results)
                .map(|finding| f64::from(finding.severity as u8)),
        ),
        Column::Name => SortKey::Words(gap.shown_name().to_lowercase()),
        Column::Zone => {
            let zones: Vec<ZoneId> = survey.zones.iter().map(|zone| zone.id).collect();
            place(&zones, &gap.zone)
        }
        Column::Facing => place(&Facing::ALL, &gap.facing),
        Column::Form => SortKey::Words(sizes(&gap.form)),
        Column::Count => SortKey::Figure(Some(f64::from(gap.count))),
        Column::Area => SortKey::Figure(figures().map(|figures| figures.eqla)),
        Column::Share => SortKey::Figure(figures().map(|figures| figures.flow_10pa)),
        Column::Certainty => place(&Certainty::ALL, &gap.certainty),
        Column::State => place(&WorkState::ALL, &gap.state),
        Column::Remedy => {
            let remedy = gap.remedy.as_ref();
            SortKey::Words(remedy.map_or_else(String::new, |remedy| remedy.kind.name().to_owned()))
        }
        Column::Height => SortKey::Figure(gap.position.height_m),
        Column::Note => SortKey::Words(gap.note.to_lowercase()),
    }
}
