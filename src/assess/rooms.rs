//! The inside as more than one space, as the air balance sees it.
#![expect(
    clippy::indexing_slicing,
    reason = "parallel lists built together; a missing number must never turn into a silent default"
)]

use super::answer::{Answer, NotKnown};
use super::exposure::Leak;
use super::law::{own_law, share_when_closing};
use crate::physics::balance::{Conditions, Path, PathFlow};
use crate::physics::ensemble::{Compartment, Doorway, JoinedEnsemble, Placed};
use crate::physics::flow_law::{GapFlow, Gas};
use crate::physics::network::{
    InnerOpening, Network, NetworkRoom, OpeningFlow, OuterGap, SolvedNetwork, Space, Surroundings,
};
use crate::physics::{FlowLaw, MoistAir};
use crate::survey::equipment::FanDirection;
use crate::survey::{Finding, Item, SetUp, Severity, SpaceId, Survey};

/// What is known of several spaces besides.
#[derive(Clone, Debug, Default)]
pub(crate) struct Spaces {
    /// Flow through each leak.
    pub(crate) outer: Vec<PathFlow>,
    /// Flow through each inner opening, in the survey's order.
    pub(crate) inner: Vec<OpeningFlow>,
    /// Pressure of each space at mid-height, Pa.
    pub(crate) pressures: Vec<f64>,
    /// Outside air into each space, kg/s, its supply fans included.
    pub(crate) inflows: Vec<f64>,
    /// Air into each space from others, kg/s.
    pub(crate) from_spaces: Vec<f64>,
}

/// Strikes the balance of several spaces.
///
/// # Errors
/// [`NotKnown`] where it has no finite solution.
pub(crate) fn strike(
    network: &Network,
    conditions: &Conditions,
    coefficients: &[f64],
) -> Answer<(SolvedNetwork, Spaces)> {
    let mut network = network.clone();
    for (gap, coefficient) in network.outer.iter_mut().zip(coefficients) {
        gap.coefficient = *coefficient;
    }
    let surroundings = Surroundings {
        density: conditions.density_out,
        dynamic_pressure: conditions.dynamic_pressure,
        datum: conditions.datum,
    };
    let mut room = NetworkRoom::default();
    let solved = network
        .solve(&surroundings, &mut room)
        .map_err(|error| NotKnown::because(error.to_string()))?;
    let mut inflows: Vec<f64> = network.spaces.iter().map(|space| space.supply).collect();
    let outer: Vec<PathFlow> = room
        .outer_flows(&network)
        .map(|flow| PathFlow {
            inward: flow.forward,
            outward: flow.back,
        })
        .collect();
    for (gap, flow) in network.outer.iter().zip(&outer) {
        inflows[gap.space] += flow.inward;
    }
    let inner: Vec<OpeningFlow> = room.inner_flows(&network).collect();
    let mut from_spaces = vec![0.0; network.spaces.len()];
    for (opening, flow) in network.inner.iter().zip(&inner) {
        from_spaces[opening.to] += flow.forward;
        from_spaces[opening.from] += flow.back;
    }
    let spaces = Spaces {
        outer,
        inner,
        pressures: room.pressures().to_vec(),
        inflows,
        from_spaces,
    };
    Ok((solved, spaces))
}

/// A space: how much warmer than the first, and its fans.
struct Room {
    warmer_by: f64,
    /// Fan flows, m³/s at the air they move.
    supply: f64,
    extract: f64,
}

struct Opening {
    from: usize,
    to: usize,
    flow: GapFlow,
    z_low: f64,
    z_high: f64,
}

/// Spaces and what joins them.
pub(crate) struct Rooms {
    rooms: Vec<Room>,
    openings: Vec<Opening>,
    /// Space of each leak.
    of_leak: Vec<usize>,
}

impl Rooms {
    /// The spaces of a survey; `None` where it is a single one.
    ///
    /// # Errors
    /// [`NotKnown`] where an inner opening is not sized or cannot be.
    pub(crate) fn new(
        survey: &Survey,
        findings: &[Finding],
        leaks: &[Leak],
        middle: f64,
    ) -> Answer<Option<Self>> {
        if survey.spaces.len() < 2 {
            return Ok(None);
        }
        let concerns = |item: Item| matches!(item, Item::Space(_) | Item::InnerOpening(_));
        let error = findings
            .iter()
            .find(|finding| finding.severity == Severity::Error && concerns(finding.place.item));
        if let Some(error) = error {
            return Err(NotKnown::because(error.sentence.clone()));
        }
        let mut rooms: Vec<Room> = survey
            .spaces
            .iter()
            .map(|space| Room {
                warmer_by: space.warmer_by_k,
                supply: 0.0,
                extract: 0.0,
            })
            .collect();
        for fan in &survey.fans {
            let on = match survey.set_up {
                SetUp::LaidUp => fan.on_laid_up,
                SetUp::InUse => fan.on_in_use,
            };
            if let (true, Some(flow)) = (on, fan.flow_m3_per_h) {
                let room = &mut rooms[index(survey, fan.space)?];
                match fan.direction {
                    FanDirection::Extract => room.extract += flow / 3600.0,
                    FanDirection::Supply => room.supply += flow / 3600.0,
                }
            }
        }
        let of_leak = leaks
            .iter()
            .map(|leak| index(survey, survey.gaps[leak.ledger].space))
            .collect::<Answer<Vec<usize>>>()?;
        let openings = survey
            .inner_openings
            .iter()
            .map(|opening| {
                let unknown =
                    || NotKnown::because(format!("inner opening {} is not sized", opening.id));
                let law: FlowLaw = own_law(&opening.form).ok_or_else(unknown)?;
                let share = share_when_closing(opening.closing, survey.set_up);
                let flow = GapFlow::new(law)
                    .and_then(|flow| flow.times(f64::from(opening.count) * share))
                    .map_err(|error| NotKnown::because(error.to_string()))?;
                let height = opening.height_m.unwrap_or(middle);
                let half_rise = opening.rise_m.map_or(0.0, |rise| rise / 2.0);
                Ok(Opening {
                    from: index(survey, Some(opening.from))?,
                    to: index(survey, Some(opening.to))?,
                    flow,
                    z_low: height - half_rise,
                    z_high: height + half_rise,
                })
            })
            .collect::<Answer<Vec<Opening>>>()?;
        Ok(Some(Self {
            rooms,
            openings,
            of_leak,
        }))
    }

    /// Number of inner openings, as many as the survey lists.
    pub(crate) fn openings(&self) -> usize {
        self.openings.len()
    }

    /// Space of each leak.
    pub(crate) fn of_leak(&self, leak: usize) -> usize {
        // Leakage that nobody found belongs to the first space.
        self.of_leak.get(leak).copied().unwrap_or(0)
    }

    /// The network with outside and first inside air of these states, pressure coefficients
    /// still zero.
    pub(crate) fn network(
        &self,
        leaks: impl Iterator<Item = (GapFlow, f64, f64)>,
        outside: &MoistAir,
        inside: &MoistAir,
    ) -> Network {
        let gas_out = Gas::from(outside);
        let gases: Vec<Gas> = self
            .rooms
            .iter()
            .map(|room| Gas::from(&warmer(inside, room.warmer_by)))
            .collect();
        let spaces = self.rooms.iter().zip(&gases).map(|(room, gas)| Space {
            density: gas.density,
            supply: room.supply * gas_out.density,
            extract: room.extract * gas.density,
        });
        let outer = leaks.enumerate().map(|(at, (flow, z_low, z_high))| {
            let space = self.of_leak(at);
            OuterGap {
                space,
                path: Path::new(&flow, &gas_out, &gases[space], z_low, z_high),
                coefficient: 0.0,
            }
        });
        let inner = self.openings.iter().map(|opening| InnerOpening {
            from: opening.from,
            to: opening.to,
            path: Path::new(
                &opening.flow,
                &gases[opening.from],
                &gases[opening.to],
                opening.z_low,
                opening.z_high,
            ),
        });
        Network {
            spaces: spaces.collect(),
            outer: outer.collect(),
            inner: inner.collect(),
        }
    }

    /// The same made ready to be balanced many times over; pressures are stated at `datum`, m.
    pub(crate) fn ensemble(
        &self,
        leaks: impl Iterator<Item = (GapFlow, f64, f64)>,
        outside: &MoistAir,
        inside: &MoistAir,
        datum: f64,
    ) -> JoinedEnsemble {
        let gas_out = Gas::from(outside);
        let compartments = self.rooms.iter().map(|room| {
            let gas = Gas::from(&warmer(inside, room.warmer_by));
            Compartment {
                gas,
                supply: room.supply * gas_out.density,
                extract: room.extract * gas.density,
            }
        });
        let gaps = leaks.enumerate().map(|(at, (flow, z_low, z_high))| {
            let placed = Placed {
                flow,
                z_low,
                z_high,
            };
            (self.of_leak(at), placed)
        });
        let doorways = self.openings.iter().map(|opening| Doorway {
            from: opening.from,
            to: opening.to,
            placed: Placed {
                flow: opening.flow,
                z_low: opening.z_low,
                z_high: opening.z_high,
            },
        });
        JoinedEnsemble::new(
            &compartments.collect::<Vec<_>>(),
            &gaps.collect::<Vec<_>>(),
            doorways.collect(),
            gas_out,
            datum,
        )
    }

    /// The air of one space.
    pub(crate) fn air(&self, space: usize, inside: &MoistAir) -> MoistAir {
        warmer(inside, self.rooms[space].warmer_by)
    }
}

/// The same water, so many kelvin warmer. In a colder space it may be more than the air can hold;
/// for density and viscosity that makes no difference worth the name.
fn warmer(air: &MoistAir, kelvin: f64) -> MoistAir {
    MoistAir {
        t_c: air.t_c + kelvin,
        ..*air
    }
}

/// Place of a space in the list; none is the first.
fn index(survey: &Survey, space: Option<SpaceId>) -> Answer<usize> {
    let Some(id) = space else { return Ok(0) };
    let place = survey.spaces.iter().position(|known| known.id == id);
    place.ok_or_else(|| NotKnown::because(format!("there is no space {id}")))
}
