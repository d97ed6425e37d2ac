//! The parts of a study.

/// What a study works out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Part {
    /// Findings, laws of the gaps, envelope.
    Preparation,
    /// The vehicle made ready to be worked out many times.
    Model,
    /// Leakage, air change, water, heat, safety.
    Assessment,
    /// The options of drying and heating.
    Comparison,
    /// Air change against wind.
    WindCurve,
    /// Air change against warmth.
    TemperatureCurves,
    /// What the choice of wind pressures does.
    WindChoices,
    /// What closing each inner opening does.
    Closing,
    /// Best and worst heading.
    Parking,
    /// How sure the results are.
    Uncertainty,
    /// What sealing each gap saves.
    Ranking,
    /// The order in which to seal.
    Order,
    /// The plan of the gaps that the surveyor marked.
    Planned,
    /// The best set within a budget.
    Best,
    /// The work that a sheet sets out.
    Work,
    /// The gaps to seal first.
    First,
    /// What came of the measurements.
    Measured,
    /// What came of the trials.
    Trials,
    /// The winter hour by hour.
    Winter,
    /// How sure the winter is.
    WinterBands,
}

impl Part {
    /// Every part.
    pub const ALL: [Self; 20] = [
        Self::Preparation,
        Self::Model,
        Self::Assessment,
        Self::Comparison,
        Self::WindCurve,
        Self::TemperatureCurves,
        Self::WindChoices,
        Self::Closing,
        Self::Parking,
        Self::Uncertainty,
        Self::Ranking,
        Self::Order,
        Self::Planned,
        Self::Best,
        Self::Work,
        Self::First,
        Self::Measured,
        Self::Trials,
        Self::Winter,
        Self::WinterBands,
    ];
}
