//! From draws to intervals and shares.
#![expect(
    clippy::indexing_slicing,
    reason = "rows and columns of one table; a missing number must never turn into a silent default"
)]

use super::input::UncertainInput;
use super::measure::outweighed;
use super::round::Round;
use super::told::{
    Calibrated, CaseUncertainty, FEWEST_DRAWS, NotFound, Share, Uncertainty, too_few,
};
use super::trials::{CASE_COLUMNS, Chunk, LEAKAGE_COLUMNS, Trials, WEIGHING_COLUMNS};
use super::weighing::{
    MOST_ROUNDS, are_enough, are_too_few, effective, next_round, resampled, weights,
};
use crate::assess::answer::{Answer, NotKnown};
use crate::assess::interval::Interval;
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
    pub fn combine(&self, seed: u64, chunks: Vec<Chunk>) -> Answer<Uncertainty> {
        let round = Round::default();
        let table = self.table(seed, &round, chunks)?;
        self.results(seed, &round, &table, &one_by_one)
    }

    /// All rounds of draws: each is made by `make`, the first for everybody, further ones only where
    /// measurements leave too few of them with any weight. `None` where `make` gives up. What each
    /// input has to do with the results is worked out by `share_out`, see [`one_by_one`].
    pub fn in_rounds(
        &self,
        seed: u64,
        mut make: impl FnMut(&Round) -> Option<Vec<Chunk>>,
        share_out: &ShareOut<'_>,
    ) -> Option<Answer<Uncertainty>> {
        let mut round = Round::default();
        let first = match self.table(seed, &round, make(&round)?) {
            Ok(table) => table,
            Err(unknown) => return Some(Err(unknown)),
        };
        let before = self.results(seed, &round, &first, share_out);
        if !self.is_weighed() {
            return Some(before);
        }
        let mut table = self.weighed(first);
        while !are_enough(effective(&table.weights), table.draws())
            && round.number() + 1 < MOST_ROUNDS
        {
            round = self.next_round(seed, &round, &table);
            table = match self.table(seed, &round, make(&round)?) {
                Ok(table) => self.weighed(table),
                Err(unknown) => return Some(Err(unknown)),
            };
        }
        Some(self.after(seed, (&round, &table), before, share_out))
    }

    /// What the draws say, weighed, with what they said before.
    fn after(
        &self,
        seed: u64,
        (round, table): (&Round, &Table),
        before: Answer<Uncertainty>,
        share_out: &ShareOut<'_>,
    ) -> Answer<Uncertainty> {
        let effective = effective(&table.weights);
        if are_too_few(effective, table.draws()) {
            return Err(NotKnown::because(
                "the measurements and the sizes are so far apart that hardly any draw explains both",
            ));
        }
        let mut found = self.results(seed, round, table, share_out)?;
        let at = self.columns() - self.targets.len() - 1;
        found.calibrated = Some(Calibrated {
            before: Box::new(before?),
            not_found_eqla: table.interval(|row| row[at]),
            effective_draws: effective,
            rounds: round.number() + 1,
        });
        Ok(found)
    }

    /// The same draws with their weights.
    fn weighed(&self, mut table: Table) -> Table {
        let first = self.columns() - self.targets.len();
        let logarithms = table.column(|row| {
            let targets = self.targets.iter().zip(&row[first..]);
            let likely = targets.map(|(target, predicted)| target.ln_likelihood(*predicted));
            likely.sum::<f64>() + row[first - WEIGHING_COLUMNS]
        });
        table.weights = weights(&logarithms);
        table
    }

    fn next_round(&self, seed: u64, round: &Round, table: &Table) -> Round {
        let first = self.columns() - self.targets.len();
        let predicted: Vec<Vec<f64>> = (0..self.targets.len())
            .map(|at| table.column(|row| row[first + at]))
            .collect();
        let inputs = self.inputs().into_iter();
        let normals: Vec<(UncertainInput, Vec<f64>)> = inputs
            .map(|(input, _)| {
                let numbers = (0..).take(table.draws());
                let drawn = numbers.map(|number| round.draw(seed, number).normal(input));
                (input, drawn.collect())
            })
            .collect();
        next_round(round, &normals, (&self.targets, &predicted))
    }

    /// The rows of a round, in order.
    fn table(&self, seed: u64, round: &Round, mut chunks: Vec<Chunk>) -> Answer<Table> {
        chunks.sort_by_key(|chunk| chunk.draws.start);
        let mut next = 0;
        let mut rows = Vec::new();
        for chunk in chunks {
            let same = chunk.seed == seed && chunk.round == round.number();
            if chunk.draws.start != next || !same {
                return Err(NotKnown::because("some draws are missing or given twice"));
            }
            next = chunk.draws.end;
            rows.extend(chunk.rows?);
        }
        let table = Table {
            columns: self.columns(),
            rows,
            weights: Vec::new(),
        };
        let draws = table.draws();
        if draws < FEWEST_DRAWS {
            return Err(too_few(draws));
        }
        Ok(table)
    }

    fn results(
        &self,
        seed: u64,
        round: &Round,
        table: &Table,
        share_out: &ShareOut<'_>,
    ) -> Answer<Uncertainty> {
        let model = &self.model;
        let volume = model.volume_m3.clone();
        let season = table.column(|row| {
            let cases = model.cases.iter().enumerate();
            cases
                .map(|(at, case)| case.share * row[recorded(at)] / case.density_in)
                .sum()
        });
        let (air_change, leakage) = self.all_shares(seed, (round, table), &season, share_out);
        Ok(Uncertainty {
            draws: u32::try_from(table.draws()).unwrap_or(u32::MAX),
            seed,
            ela: table.interval(|row| row[0]),
            eqla: table.interval(|row| row[1]),
            eqla_unintended: table.interval(|row| row[2]),
            n50_per_h: volume
                .clone()
                .map(|volume| table.interval(|row| row[3] * SECONDS_PER_HOUR / volume)),
            cases: (0..model.cases.len())
                .map(|at| self.case(at, table))
                .collect(),
            season_ach_per_h: volume.map(|volume| {
                let flows = season.iter();
                table.weigh(flows.map(|flow| flow * SECONDS_PER_HOUR / volume).collect())
            }),
            outweighed: outweighed(&air_change),
            measure_next: self.measure_next(&air_change),
            air_change_shares: air_change,
            leakage_shares: leakage,
            not_found: self.not_found.map(|share| self.added(share)).transpose()?,
            calibrated: None,
        })
    }

    fn case(&self, at: usize, table: &Table) -> CaseUncertainty {
        let model = &self.model;
        let case: &Case = &model.cases[at];
        let warm = recorded(at) + 1;
        let removal = model.source_kg_s.clone().map(|_| {
            table.interval(|row| {
                // Known, as the source is.
                model
                    .removal_kg_s(case, row[warm])
                    .map_or(f64::NAN, |removal| removal * LITRES_PER_DAY)
            })
        });
        let heat = model
            .fabric_heat_w(case)
            .map(|fabric| table.interval(|row| model.air_heat_w(case, row[warm]) + fabric));
        CaseUncertainty {
            id: case.id,
            name: case.name.clone(),
            ach_per_h: model
                .ach_per_kg_s(case)
                .map(|per| table.interval(|row| per * row[recorded(at)])),
            removal_l_per_day: removal,
            heat_w: heat,
        }
    }

    /// Shares of the air change and of the leakage area. What was drawn is drawn again: it
    /// depends on nothing but the seed.
    fn all_shares(
        &self,
        seed: u64,
        (round, table): (&Round, &Table),
        air: &[f64],
        share_out: &ShareOut<'_>,
    ) -> (Vec<Share>, Vec<Share>) {
        // Draws that weigh stand there as often as they do.
        let places = if table.weights.is_empty() {
            (0..air.len()).collect()
        } else {
            resampled(&table.weights, air.len())
        };
        let taken = |of: &[f64]| ranks(&places.iter().map(|at| of[*at]).collect::<Vec<f64>>());
        let leakage = taken(&table.column(|row| row[1]));
        let air = taken(air);
        let inputs = self.inputs();
        let found = share_out(inputs.len(), &|at| {
            let (input, spread) = inputs[at];
            let numbers = (0..).take(table.draws());
            let drawn = numbers.map(|number| round.draw(seed, number).place_of(input, spread));
            let drawn = taken(&drawn.collect::<Vec<f64>>());
            Correlations {
                air: correlation(&drawn, &air),
                leakage: correlation(&drawn, &leakage),
            }
        });
        let parts = || inputs.iter().map(|(input, _)| *input).zip(&found);
        (
            shares(parts().map(|(input, found)| (input, found.air))),
            shares(parts().map(|(input, found)| (input, found.leakage))),
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

/// What one input has to do with the results: rank correlations.
#[derive(Clone, Copy, Debug)]
pub struct Correlations {
    air: f64,
    leakage: f64,
}

/// Has so many pieces of work done, each told by its number, and gives what came of them in order.
pub type ShareOut<'a> =
    dyn Fn(usize, &(dyn Fn(usize) -> Correlations + Sync)) -> Vec<Correlations> + 'a;

/// All pieces one after another on the caller's thread.
#[must_use]
pub fn one_by_one(
    pieces: usize,
    work: &(dyn Fn(usize) -> Correlations + Sync),
) -> Vec<Correlations> {
    (0..pieces).map(work).collect()
}

fn recorded(case: usize) -> usize {
    LEAKAGE_COLUMNS + CASE_COLUMNS * case
}

struct Table {
    columns: usize,
    rows: Vec<f64>,
    /// How much each draw weighs; empty where all weigh alike.
    weights: Vec<f64>,
}

impl Table {
    fn draws(&self) -> usize {
        self.rows.len() / self.columns
    }

    fn column(&self, of: impl Fn(&[f64]) -> f64) -> Vec<f64> {
        self.rows.chunks_exact(self.columns).map(of).collect()
    }

    fn interval(&self, of: impl Fn(&[f64]) -> f64) -> Interval {
        self.weigh(self.column(of))
    }

    /// The interval of what came of each draw.
    fn weigh(&self, draws: Vec<f64>) -> Interval {
        if self.weights.is_empty() {
            interval(draws)
        } else {
            weighed_interval(&draws, &self.weights)
        }
    }
}

/// Mean, standard deviation and the middle 95 % of draws that weigh: each draw stands in the middle
/// of its weight, quantiles between neighbours in order of size.
pub(super) fn weighed_interval(draws: &[f64], weights: &[f64]) -> Interval {
    let whole: f64 = weights.iter().sum();
    let pairs = || draws.iter().zip(weights);
    let mean = pairs().map(|(x, w)| w * x).sum::<f64>() / whole;
    let square: f64 = pairs().map(|(x, w)| w * (x - mean) * (x - mean)).sum();
    let mut order: Vec<(f64, f64)> = pairs().map(|(x, w)| (*x, *w)).collect();
    order.sort_unstable_by(|a, b| a.0.total_cmp(&b.0));
    let quantile = |p: f64| {
        let wanted = p * whole;
        let (mut reached, mut before) = (0.0, None);
        for (value, weight) in &order {
            let middle = reached + 0.5 * weight;
            if middle >= wanted {
                return before.map_or(*value, |(low, at): (f64, f64)| {
                    low + (value - low) * (wanted - at) / (middle - at)
                });
            }
            (before, reached) = (Some((*value, middle)), reached + weight);
        }
        before.map_or(f64::NAN, |(value, _)| value)
    };
    Interval {
        low: quantile(0.025),
        high: quantile(0.975),
        mean,
        standard_deviation: (square / whole).sqrt(),
    }
}

/// Mean, standard deviation and the middle 95 %: quantiles between neighbouring draws in order
/// of size, position `p (N − 1)`.
pub(super) fn interval(mut draws: Vec<f64>) -> Interval {
    let n = count(draws.len());
    let mean = draws.iter().sum::<f64>() / n;
    let square: f64 = draws.iter().map(|x| (x - mean) * (x - mean)).sum();
    Interval {
        low: quantile(&mut draws, 0.025),
        high: quantile(&mut draws, 0.975),
        mean,
        standard_deviation: (square / (n - 1.0)).sqrt(),
    }
}

/// Leaves the draws in another order.
fn quantile(draws: &mut [f64], p: f64) -> f64 {
    let place = p * count(draws.len() - 1);
    let below = place.floor();
    let (_, at, above) = draws.select_nth_unstable_by(whole(below), f64::total_cmp);
    let next = above.iter().copied().min_by(f64::total_cmp).unwrap_or(*at);
    *at + (place - below) * (next - *at)
}

/// Ranks from the least, equals sharing their mean rank.
pub(super) fn ranks(values: &[f64]) -> Vec<f64> {
    let mut order: Vec<(u64, u32)> = values
        .iter()
        .map(|value| in_order(*value))
        .zip(0..)
        .collect();
    order.sort_unstable();
    let mut ranks = vec![0.0; values.len()];
    let mut from = 0;
    while from < order.len() {
        let alike = order[from..]
            .iter()
            .take_while(|(value, _)| *value == order[from].0)
            .count();
        let rank = count(from) + 0.5 * (count(alike) - 1.0);
        for (_, at) in &order[from..from + alike] {
            ranks[*at as usize] = rank;
        }
        from += alike;
    }
    ranks
}

/// A whole number that is the greater, the greater the number is: quicker to compare.
fn in_order(value: f64) -> u64 {
    const SIGN: u64 = 1 << 63;
    let bits = value.to_bits();
    if bits & SIGN == 0 { bits | SIGN } else { !bits }
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
