//! How the devices of a zone go out and come back: step by step, what is driven, walked and handled.

use crate::figure::Figure;
use crate::quantity::{Length, Time};

/// Steps of placing, in order; the reverse is the order of taking in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PlacingStep {
    /// Signs for the traffic against the lane worked in.
    OpposingAdvance,
    /// Signs for the traffic of the lane worked in.
    Advance,
    /// Signs on the roads that join.
    Joining,
    /// Flaggers on the roads that join.
    JoiningStation,
    /// Flagger for the traffic against it.
    OpposingStation,
    /// Flagger for the traffic of the lane worked in.
    Station,
    /// Cones and shield vehicle, in the direction of traffic.
    Lane,
    /// Sign past the work for the traffic against it.
    EndOfOpposing,
    /// Sign past the work.
    EndOfWork,
    /// Nothing is placed: the way to the work.
    ToTheWork,
}

/// One step, with the way from where the step before ended.
#[derive(Debug, Clone, PartialEq)]
pub struct CrewMove {
    /// Which step.
    pub step: PlacingStep,
    /// Indexes into the zone's devices, in the order they are handled.
    pub devices: Vec<usize>,
    /// Driven, with traffic.
    pub driven: Length,
    /// Walked from cone to cone.
    pub walked: Length,
    /// Times the vehicle turns round.
    pub turns: u32,
    /// Time of the whole step.
    pub time: Figure<Time>,
}

impl PlacingStep {
    /// Its name in files.
    pub fn key(self) -> &'static str {
        match self {
            PlacingStep::OpposingAdvance => "opposing_advance",
            PlacingStep::Advance => "advance",
            PlacingStep::Joining => "joining",
            PlacingStep::JoiningStation => "joining_station",
            PlacingStep::OpposingStation => "opposing_station",
            PlacingStep::Station => "station",
            PlacingStep::Lane => "lane",
            PlacingStep::EndOfOpposing => "end_of_opposing",
            PlacingStep::EndOfWork => "end_of_work",
            PlacingStep::ToTheWork => "to_the_work",
        }
    }

    /// In words, for the sheet.
    pub fn words(self) -> &'static str {
        match self {
            PlacingStep::OpposingAdvance => "advance signs, oncoming",
            PlacingStep::Advance => "advance signs, our lane",
            PlacingStep::Joining => "signs on roads that join",
            PlacingStep::JoiningStation => "flaggers on roads that join",
            PlacingStep::OpposingStation => "flagger, oncoming",
            PlacingStep::Station => "flagger, our lane",
            PlacingStep::Lane => "the lane, with traffic",
            PlacingStep::EndOfOpposing => "end sign, oncoming",
            PlacingStep::EndOfWork => "end sign, our lane",
            PlacingStep::ToTheWork => "to the work",
        }
    }
}
