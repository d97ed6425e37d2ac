//! The outside air that sleepers get.
#![expect(
    clippy::indexing_slicing,
    reason = "a square of flows, as many as there are spaces; places are looked up in the same list"
)]

use super::answer::CaseAir;
use crate::physics::counts::count;
use crate::survey::Survey;

/// Outside air for all sleepers together, m³/s at the density inside, mean over the directions.
///
/// Of several spaces they sleep in the first, the one that results are stated for **\[A\]**: what
/// comes into a garage is theirs only as far as it goes on to them.
pub(super) fn outside_air_m3_s(survey: &Survey, air: &CaseAir) -> f64 {
    let flow = if survey.spaces.len() > 1 {
        reaching_the_first(survey, air)
    } else {
        air.mean_inflow_kg_s
    };
    flow / air.inside.density()
}

/// Outside air that reaches the first space, kg/s, straight or through others.
///
/// ```text
/// m_ij ← m_ij + m_ik m_kj / Σ_l m_lk
/// ```
/// where m_ij is the flow from i to j, outside among the i: a space k is taken out by handing on what
/// it is made of. What comes back to where it was is neither fresh nor lost. Nothing but sums of
/// positive numbers.
fn reaching_the_first(survey: &Survey, air: &CaseAir) -> f64 {
    let outside = survey.spaces.len();
    let counted: f64 = air.spaces.iter().map(|space| space.mean_inflow_kg_s).sum();
    if counted <= 0.0 {
        return 0.0;
    }
    let mut flows = vec![vec![0.0; outside]; outside + 1];
    // What gusts exchange stands in the sum alone: it is shared out as the rest is.
    let scale = air.mean_inflow_kg_s / counted;
    for (at, space) in air.spaces.iter().enumerate() {
        flows[outside][at] = space.mean_inflow_kg_s * scale;
    }
    let place = |id| survey.spaces.iter().position(|space| space.id == id);
    let share = 1.0 / count(air.directions.len());
    for direction in &air.directions {
        for (opening, flow) in survey.inner_openings.iter().zip(&direction.inner_flows) {
            if let (Some(from), Some(to)) = (place(opening.from), place(opening.to)) {
                flows[from][to] += flow.forward_kg_s * share;
                flows[to][from] += flow.back_kg_s * share;
            }
        }
    }
    for gone in (1..outside).rev() {
        let sources = || (0..gone).chain([outside]);
        let all: f64 = sources().map(|from| flows[from][gone]).sum();
        if all <= 0.0 {
            continue;
        }
        for from in sources() {
            let share = flows[from][gone] / all;
            for to in (0..gone).filter(|to| *to != from) {
                flows[from][to] += share * flows[gone][to];
            }
        }
    }
    flows[outside][0]
}
