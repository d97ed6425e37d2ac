//! `gapledger winter`: every option through a winter, hour by hour.

use super::asked::{SetUpWord, whole_number};
use super::{json, page};
use crate::assess::winter::{
    Doubted, Laid, MOST_WINTER_DRAWS, Season, Winter, WinterOption, laid_over, sound, typical,
    typical_weather,
};
use crate::assess::{Answer, NotKnown, Study};
use crate::climate::{Hour, Weather};
use crate::report::winter::{PlannedTold, WinterTold, sections};
use crate::sheet::csv::{self, ByteOrderMark, CsvError};
use crate::survey::{BodyColour, Presence, Stay, Survey, TypicalWinter, file};
use crate::tasks;
use clap::{Args, ValueEnum};
use std::ops::ControlFlow;
use std::path::{Path, PathBuf};

/// What is asked of a winter.
#[derive(Clone, Debug, PartialEq, Args)]
pub struct WinterArguments {
    /// The survey file, NAME.ron
    pub file: PathBuf,
    /// A weather file: of building simulation, NAME.epw, or the hourly rows of a logger or a weather
    /// service, NAME.csv
    #[arg(long, value_name = "WEATHER", conflicts_with = "typical")]
    pub weather: Option<PathBuf>,
    /// A typical winter, invented, instead of the weather that the survey names; where it names
    /// none, the one that it was filled in with, or else mild-maritime
    #[arg(long, value_name = "WINTER")]
    pub typical: Option<WinterWord>,
    /// Work it out for this set-up instead of the one the file shows
    #[arg(long, value_name = "SET-UP")]
    pub set_up: Option<SetUpWord>,
    /// Colour of roof and walls, instead of the survey's
    #[arg(long, value_name = "COLOUR")]
    pub colour: Option<ColourWord>,
    /// Blinds are drawn over the windows, whatever the survey says
    #[arg(long)]
    pub blinds: bool,
    /// It stands under a roof or a whole cover, whatever the survey says: neither sun nor sky
    /// reaches it
    #[arg(long)]
    pub covered: bool,
    /// Hours in which somebody is there, in use, such as 18-8, instead of the survey's
    #[arg(long, value_name = "FROM-TO", value_parser = presence)]
    pub present: Option<Presence>,
    /// Also tell how sure the figures are, from so many draws
    #[arg(
        long,
        value_name = "NUMBER",
        num_args = 0..=1,
        default_missing_value = "30",
        value_parser = draws
    )]
    pub draws: Option<u32>,
    /// Print everything as JSON
    #[arg(long)]
    pub json: bool,
    /// Write every hour of every option to this CSV file, or - for standard output; an old file is
    /// replaced
    #[arg(short, long, value_name = "HOURS.csv")]
    pub output: Option<PathBuf>,
}

impl WinterArguments {
    /// The survey's own winter, told as a page.
    #[must_use]
    pub fn of(file: PathBuf) -> Self {
        Self {
            file,
            weather: None,
            typical: None,
            set_up: None,
            colour: None,
            blinds: false,
            covered: false,
            present: None,
            draws: None,
            json: false,
            output: None,
        }
    }
}

/// A typical winter as written on the command line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum WinterWord {
    /// By a mild sea
    MildMaritime,
    /// A dry plateau
    HighPlain,
    /// Inland plains
    Continental,
    /// A high valley
    Alpine,
    /// Far north
    Northern,
}

/// A colour as written on the command line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum ColourWord {
    /// White or nearly so
    White,
    /// Grey, silver, beige
    Grey,
    /// Dark
    Dark,
}

impl From<WinterWord> for TypicalWinter {
    fn from(word: WinterWord) -> Self {
        match word {
            WinterWord::MildMaritime => Self::MildMaritime,
            WinterWord::HighPlain => Self::HighPlain,
            WinterWord::Continental => Self::Continental,
            WinterWord::Alpine => Self::Alpine,
            WinterWord::Northern => Self::Northern,
        }
    }
}

impl From<ColourWord> for BodyColour {
    fn from(word: ColourWord) -> Self {
        match word {
            ColourWord::White => Self::White,
            ColourWord::Grey => Self::Grey,
            ColourWord::Dark => Self::Dark,
        }
    }
}

/// A number of draws as typed.
fn draws(text: &str) -> Result<u32, String> {
    whole_number(text, (1, MOST_WINTER_DRAWS))
}

/// Hours of presence as typed.
fn presence(text: &str) -> Result<Presence, String> {
    let ends = text.split_once('-').and_then(|(from, to)| {
        let hour = |text: &str| {
            let hour = text.trim().parse::<f64>().ok()?;
            (0.0..=24.0).contains(&hour).then_some(hour)
        };
        Some((hour(from)?, hour(to)?))
    });
    match ends {
        Some((from_h, to_h)) if (from_h - to_h).abs() > 0.0 => Ok(Presence { from_h, to_h }),
        _ => Err("two hours of the day that differ, such as 18-8".to_owned()),
    }
}

/// Why there is no winter.
#[derive(Debug, thiserror::Error)]
pub(super) enum WinterFailure {
    #[error(transparent)]
    Weather(#[from] tasks::WeatherFailure),
    #[error(transparent)]
    Kept(#[from] file::DataError),
    #[error("the winter is not known: {}", .0.reason)]
    NotKnown(NotKnown),
}

/// Where the weather file of a survey is looked for.
pub(super) fn places(survey: &Path) -> Vec<PathBuf> {
    tasks::weather_places(&tasks::data_folders(Some(survey), None), survey.parent())
}

/// A winter worked out.
pub(super) struct Through<'a> {
    study: &'a Study,
    winter: Winter,
    seasons: Vec<Answer<Season>>,
    typical: Option<TypicalWinter>,
    /// The weather file it stands on.
    weather_file: Option<PathBuf>,
    /// The same once the planned gaps are sealed.
    planned: Option<Answer<Planned>>,
    /// How sure it is.
    doubt: Option<Doubted>,
    /// The same calculation held against what was measured.
    laid: Vec<Laid>,
}

/// The options once the planned gaps are sealed.
struct Planned {
    options: Vec<WinterOption>,
    seasons: Vec<Answer<Season>>,
}

/// Every option through the winter that was asked for.
pub(super) fn through<'a>(
    arguments: &WinterArguments,
    study: &'a Study,
) -> Result<Through<'a>, WinterFailure> {
    let survey = study.survey();
    let stay = stay(arguments, survey);
    let findings = &study.prepared().findings;
    let named = !stay.weather_file.is_empty() && arguments.typical.is_none();
    let file = match &arguments.weather {
        Some(file) => Some(file.clone()),
        None if named => {
            sound(findings).map_err(WinterFailure::NotKnown)?;
            Some(file::find_weather(&places(&arguments.file), survey)?)
        }
        None => None,
    };
    let weather = match &file {
        Some(path) => {
            sound(findings).map_err(WinterFailure::NotKnown)?;
            tasks::weather(path, survey)?
        }
        None => typical_weather(&stay, findings).map_err(WinterFailure::NotKnown)?,
    };
    let threads = tasks::processors();
    let all = |winter: &Winter| {
        let seasons = tasks::seasons(winter, threads, &tasks::to_the_end);
        seasons.ok_or_else(|| NotKnown::because("it was given up"))
    };
    let winter = Winter::new(study, &weather, &stay).map_err(WinterFailure::NotKnown)?;
    let seasons = all(&winter).map_err(WinterFailure::NotKnown)?;
    let planned = study.planned().map(|planned| {
        let winter = Winter::new(planned?, &weather, &stay)?;
        Ok(Planned {
            options: winter.options().to_vec(),
            seasons: all(&winter)?,
        })
    });
    let doubt = match arguments.draws {
        Some(draws) => {
            let doubt = winter
                .doubt(study, draws)
                .map_err(WinterFailure::NotKnown)?;
            let bands = tasks::doubt(&doubt, threads, &tasks::to_the_end)
                .ok_or_else(|| WinterFailure::NotKnown(NotKnown::because("it was given up")))?;
            let draws = doubt.draws();
            Some(Doubted { draws, bands })
        }
        None => None,
    };
    let laid = laid(
        (arguments, study, &stay),
        file.is_some().then_some(&weather),
    );
    Ok(Through {
        laid,
        study,
        seasons,
        planned,
        doubt,
        winter,
        typical: typical(&stay).filter(|_| file.is_none()),
        weather_file: file,
    })
}

/// The calculation laid over the trials of the survey, where it has any.
fn laid(
    (arguments, study, stay): (&WinterArguments, &Study, &Stay),
    weather: Option<&Weather>,
) -> Vec<Laid> {
    let (path, watch) = (&arguments.file, &tasks::to_the_end);
    let folders = tasks::data_folders(Some(path), None);
    let shelf = tasks::Shelf::default();
    let Some(tried) = tasks::tried(study, &folders, path.parent(), &shelf, watch) else {
        return Vec::new();
    };
    let none = tasks::no_weather_file();
    let progress = || ControlFlow::Continue(());
    laid_over((study, stay), tried, weather.ok_or(&none), &progress).unwrap_or_default()
}

/// The stay of the survey, with what the arguments say instead.
fn stay(arguments: &WinterArguments, survey: &Survey) -> Stay {
    let mut stay = survey.stay.clone();
    let winter = arguments.typical.map(TypicalWinter::from).or(stay.winter);
    if winter != stay.winter {
        // The user's own months are those of the winter they began with.
        stay.months.clear();
    }
    let usual = survey.usual.winter.unwrap_or(TypicalWinter::MildMaritime);
    stay.winter = Some(winter.unwrap_or(usual));
    if let Some(colour) = arguments.colour {
        stay.colour = colour.into();
    }
    stay.blinds_drawn |= arguments.blinds;
    stay.covered |= arguments.covered;
    if let Some(present) = arguments.present {
        stay.present_from_h = Some(present.from_h);
        stay.present_to_h = Some(present.to_h);
    }
    stay
}

impl Through<'_> {
    /// The weather file it stands on.
    pub(super) fn weather_file(&self) -> Option<&PathBuf> {
        self.weather_file.as_ref()
    }

    /// The hours as bytes of a CSV file.
    pub(super) fn table(&self) -> Result<Vec<u8>, CsvError> {
        csv::winter(&self.winter, &self.seasons, ByteOrderMark::Without)
    }

    /// The page.
    pub(super) fn page(&self) -> String {
        self.told(|told| {
            let sections = sections(told);
            let pages: Vec<String> = sections.iter().map(page::alone).collect();
            pages.join("\n")
        })
    }

    /// The same as JSON.
    pub(super) fn json(&self) -> serde_json::Result<String> {
        self.told(json::print_winter)
    }

    fn told<T>(&self, tell: impl FnOnce(&WinterTold<'_>) -> T) -> T {
        let winter = &self.winter;
        let hours: Vec<Hour> = winter.outside().map(|(hour, _)| *hour).collect();
        let planned = self.planned.as_ref().map(|planned| {
            let planned = planned.as_ref().map_err(Clone::clone)?;
            Ok(PlannedTold {
                options: &planned.options,
                seasons: &planned.seasons,
            })
        });
        let doubt = self.doubt.as_ref();
        tell(&WinterTold {
            survey: self.study.survey(),
            weathered: winter.weathered(),
            options: winter.options(),
            seasons: &self.seasons,
            hours: &hours,
            typical: self.typical,
            planned,
            doubt: doubt.map(Ok),
            laid: &self.laid,
        })
    }
}
