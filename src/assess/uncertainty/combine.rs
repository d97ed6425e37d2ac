//! From draws to intervals and shares.
#![expect(
    clippy::indexing_slicing,
    reason = "rows and columns of one table; a missing number must never turn into a silent default"
)]

use super::input::UncertainInput;
use super::measure::outweighed;
use super::random::Draw;
use super::trials::{CASE_COLUMNS, Chunk, LEAKAGE_COLUMNS, Trials};
use super::{CaseUncertainty, FEWEST_DRAWS, Interval, NotFound, Share, Uncertainty, too_few};
use crate::assess::answer::{Answer, NotKnown};
use crate::assess::model::{Case, Want};
use crate::physics::counts::{count, whole};
use crate::physics::units::{LITRES_PER_DAY, SECONDS_PER_HOUR};

impl Trials {
    /// Puts the pieces together. They must come from this survey and seed and hold every draw
    /// from 0 on once; their order does not matter.
    ///
    /// # Errors
    /// [`NotKnown`] where a draw had no finite answer, draws are missing or given twice, or there
    /// are fewer than a hundred.
    pub fn combine(&self, seed: u64, mut chunks: Vec<Chunk>) -> Answer<Uncertainty> {
        chunks.sort_by_key(|chunk| chunk.draws.start);
        let mut next = 0;
        let mut rows = Vec::new();
        for chunk in chunks {
            if chunk.draws.start != next || chunk.seed != seed {
                return Err(NotKnown::because("some draws are missing or given twice"));
            }
            next = chunk.draws.end;
            rows.extend(chunk.rows?);
        }
        let table = Table {
            columns: self.columns(),
            rows,
        };
        let draws = table.draws();
        if draws < FEWEST_DRAWS {
            return Err(too_few(draws));
        }
        self.results(seed, next, &table)
    }

    fn results(&self, seed: u64, draws: u32, table: &Table) -> Answer<Uncertainty> {
        let model = &self.model;
        let volume = model.volume_m3.clone();
        let season = table.column(|row| {
            let cases = model.cases.iter().enumerate();
            cases
                .map(|(at, case)| case.share * row[recorded(at)] / case.density_in)
                .sum()
        });
        let (air_change, leakage) = self.all_shares(seed, &season, &table.column(|row| row[1]));
        Ok(Uncertainty {
            draws,
            seed,
            ela: interval(table.column(|row| row[0])),
            eqla: interval(table.column(|row| row[1])),
            eqla_unintended: interval(table.column(|row| row[2])),
            n50_per_h: volume
                .clone()
                .map(|volume| interval(table.column(|row| row[3] * SECONDS_PER_HOUR / volume))),
            cases: (0..model.cases.len())
                .map(|at| self.case(at, table))
                .collect(),
            season_ach_per_h: volume.map(|volume| {
                interval(
                    season
                        .iter()
                        .map(|flow| flow * SECONDS_PER_HOUR / volume)
                        .collect(),
                )
            }),
            outweighed: outweighed(&air_change),
            measure_next: self.measure_next(&air_change),
            air_change_shares: air_change,
            leakage_shares: leakage,
            not_found: self.not_found.map(|share| self.added(share)).transpose()?,
        })
    }

    fn case(&self, at: usize, table: &Table) -> CaseUncertainty {
        let model = &self.model;
        let case: &Case = &model.cases[at];
        let warm = recorded(at) + 1;
        let removal = model.source_kg_s.clone().map(|_| {
            interval(table.column(|row| {
                // Known, as the source is.
                model
                    .removal_kg_s(case, row[warm])
                    .map_or(f64::NAN, |removal| removal * LITRES_PER_DAY)
            }))
        });
        let heat = model
            .fabric_heat_w(case)
            .map(|fabric| interval(table.column(|row| model.air_heat_w(case, row[warm]) + fabric)));
        CaseUncertainty {
            id: case.id,
            name: case.name.clone(),
            ach_per_h: model
                .ach_per_kg_s(case)
                .map(|per| interval(table.column(|row| per * row[recorded(at)]))),
            removal_l_per_day: removal,
            heat_w: heat,
        }
    }

    /// Shares of the air change and of the leakage area. What was drawn is drawn again: it
    /// depends on nothing but the seed.
    fn all_shares(&self, seed: u64, air: &[f64], leakage: &[f64]) -> (Vec<Share>, Vec<Share>) {
        let (air, leakage) = (ranks(air), ranks(leakage));
        let mut weights = Vec::new();
        for (uncertainty, spread) in self.inputs() {
            let drawn: Vec<f64> = (0..)
                .take(air.len())
                .map(|number| spread.draw(Draw::new(seed, number), uncertainty))
                .collect();
            let drawn = ranks(&drawn);
            weights.push((
                uncertainty,
                correlation(&drawn, &air),
                correlation(&drawn, &leakage),
            ));
        }
        (
            shares(
                weights
                    .iter()
                    .map(|(uncertainty, air, _)| (*uncertainty, *air)),
            ),
            shares(
                weights
                    .iter()
                    .map(|(uncertainty, _, area)| (*uncertainty, *area)),
            ),
        )
    }

    /// What leakage not found adds to the plain result.
    fn added(&self, share: f64) -> Answer<NotFound> {
        const FINE: f64 = 1e-9;
        let model = &self.model;
        let mut bench = model.workbench();
        let mut varied = model.as_surveyed(FINE);
        model.evaluate(&mut bench, &varied, Want::Recorded)?;
        let without: Vec<f64> = bench.inflows.iter().map(|inflow| inflow.recorded).collect();
        for (factor, leak) in varied.factors.iter_mut().zip(model.leaks()) {
            if leak.ledger.is_none() {
                *factor = share;
            }
        }
        model.evaluate(&mut bench, &varied, Want::Recorded)?;
        let more = model.cases.iter().zip(&bench.inflows).zip(without);
        Ok(NotFound {
            percent: share * 100.0,
            eqla: share * self.found_eqla,
            ach_per_h: more
                .map(|((case, with), without)| {
                    model
                        .ach_per_kg_s(case)
                        .map(|per| per * (with.recorded - without))
                })
                .collect(),
        })
    }
}

fn recorded(case: usize) -> usize {
    LEAKAGE_COLUMNS + CASE_COLUMNS * case
}

struct Table {
    columns: usize,
    rows: Vec<f64>,
}

impl Table {
    fn draws(&self) -> usize {
        self.rows.len() / self.columns
    }

    fn column(&self, of: impl Fn(&[f64]) -> f64) -> Vec<f64> {
        self.rows.chunks_exact(self.columns).map(of).collect()
    }
}

/// Mean, standard deviation and the middle 95 %: quantiles between neighbouring draws in order
/// of size, position `p (N − 1)`.
pub(super) fn interval(mut draws: Vec<f64>) -> Interval {
    let n = count(draws.len());
    let mean = draws.iter().sum::<f64>() / n;
    let square: f64 = draws.iter().map(|x| (x - mean) * (x - mean)).sum();
    draws.sort_unstable_by(f64::total_cmp);
    Interval {
        low: quantile(&draws, 0.025),
        high: quantile(&draws, 0.975),
        mean,
        standard_deviation: (square / (n - 1.0)).sqrt(),
    }
}

fn quantile(sorted: &[f64], p: f64) -> f64 {
    let place = p * count(sorted.len() - 1);
    let below = place.floor();
    let at = whole(below);
    let above = (at + 1).min(sorted.len() - 1);
    sorted[at] + (place - below) * (sorted[above] - sorted[at])
}

/// Ranks from the least, equals sharing their mean rank.
pub(super) fn ranks(values: &[f64]) -> Vec<f64> {
    let mut order: Vec<(f64, u32)> = values.iter().copied().zip(0..).collect();
    order.sort_unstable_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    let mut ranks = vec![0.0; values.len()];
    let mut from = 0;
    while from < order.len() {
        let alike = order[from..]
            .iter()
            .take_while(|(value, _)| value.total_cmp(&order[from].0).is_eq())
            .count();
        let rank = count(from) + 0.5 * (count(alike) - 1.0);
        for (_, at) in &order[from..from + alike] {
            ranks[*at as usize] = rank;
        }
        from += alike;
    }
    ranks
}

/// Correlation of two lists of ranks (Spearman); zero where one does not vary.
pub(super) fn correlation(a: &[f64], b: &[f64]) -> f64 {
    let middle = 0.5 * (count(a.len()) - 1.0);
    let (mut both, mut square_a, mut square_b) = (0.0, 0.0, 0.0);
    for (a, b) in a.iter().zip(b) {
        let (a, b) = (a - middle, b - middle);
        both += a * b;
        square_a += a * a;
        square_b += b * b;
    }
    if square_a > 0.0 && square_b > 0.0 {
        both / (square_a * square_b).sqrt()
    } else {
        0.0
    }
}

/// Squared correlations made to sum to one, greatest first; none where nothing varies.
pub(super) fn shares(correlations: impl Iterator<Item = (UncertainInput, f64)>) -> Vec<Share> {
    let squares: Vec<(UncertainInput, f64)> = correlations.map(|(of, r)| (of, r * r)).collect();
    let sum: f64 = squares.iter().map(|(_, square)| square).sum();
    if sum <= 0.0 {
        return Vec::new();
    }
    let mut shares: Vec<Share> = squares
        .into_iter()
        .map(|(of, square)| Share {
            of,
            share: square / sum,
        })
        .collect();
    shares.sort_by(|a, b| b.share.total_cmp(&a.share).then(a.of.cmp(&b.of)));
    shares
}
