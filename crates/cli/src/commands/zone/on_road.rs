//! A stretch of a road of the map: its section, the road around it, and the work on it.

use std::path::PathBuf;

use model::district::DrivingSide;
use model::place::{Side, Travel};
use model::problem::Problem;
use model::quantity::{InLength, InVelocity, Length, metres};
use model::road::{Flow, RoadSection};
use model::road_around::RoadAround;
use roads::{NamedRoad, NamedRoadError, Network, SectionStretch, TruckSpeeds};

use crate::input::{self, Setting};
use crate::progress::Progress;

/// Which stretch.
#[derive(Debug, clap::Args)]
pub(super) struct RoadFlags {
    /// Road of the map by identifier, name or number, in place of the flags that describe one; with --district.
    #[arg(
        long,
        requires_all = ["district", "from", "to", "side"],
        conflicts_with_all = ["lanes", "one_way", "urban", "work_length", "to_junction", "left_hand_traffic"]
    )]
    pub road: Option<String>,
    /// Where the work begins, along the road from its start.
    #[arg(long, value_parser = super::length, allow_hyphen_values = true, requires = "road")]
    from: Option<Length>,
    /// Where it ends.
    #[arg(long, value_parser = super::length, allow_hyphen_values = true, requires = "road")]
    to: Option<Length>,
    /// Side of the centre line worked on, looking along the road from its start.
    #[arg(long, value_enum, requires = "road")]
    side: Option<SideWord>,
    /// Road file in place of the district's.
    #[arg(long, requires = "road")]
    roads: Option<PathBuf>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
enum SideWord {
    Left,
    Right,
}

/// The stretch as it lies on the map.
pub(super) struct OnRoad {
    pub section: RoadSection,
    pub around: RoadAround,
    pub from: Length,
    pub to: Length,
    pub side: Side,
    pub travel: Travel,
    /// Azimuth of the section's growing chainage at the work.
    pub azimuth_deg: f64,
    /// Which road it is and where it begins, in words.
    pub said: Vec<String>,
    /// What could not be used of the road file and the height tiles.
    pub problems: Vec<Problem>,
}

/// Why there is none.
pub(super) enum NotFound {
    /// Roads that can't be read or used.
    Problems(Vec<Problem>),
    /// A road or stretch that is not there, in words.
    Wrong(String),
}

/// Finds the stretch on the district's roads.
pub(super) fn find(flags: &RoadFlags, name: &str, setting: &Setting) -> Result<OnRoad, NotFound> {
    let mut progress = Progress::new();
    let found = input::roads(setting, flags.roads.as_deref(), &mut progress).map_err(NotFound::Problems)?;
    let (heights, height_problems) = input::heights(setting, &found.network);
    progress.done();
    let truck = &setting.district.truck;
    let speeds = TruckSpeeds { factor: truck.speed_factor, max: truck.speed_max };
    let network = Network::prepare(found.network, speeds)
        .map_err(|error| NotFound::Wrong(format!("the roads can't be used: {error}")))?;
    let road = NamedRoad::find(network.roads(), name).map_err(|error| wrong(name, &error, &network))?;
    let given = |length: Option<Length>| length.unwrap_or(metres(0.0));
    let stretch = road.stretch(given(flags.from), given(flags.to)).map_err(|error| {
        NotFound::Wrong(format!(
            "--from {:.1} m --to {:.1} m: {error}; give a stretch between",
            given(flags.from).in_metres(),
            given(flags.to).in_metres()
        ))
    })?;
    let section = network.section(stretch.section).clone();
    let side = side(flags.side.unwrap_or(SideWord::Right), stretch.direction);
    let around = plan::road_around(&network, &heights, stretch.section, &setting.rules.traffic);
    let (_, azimuth_deg) = network.point_at(stretch.section, (stretch.from + stretch.to) / 2.0);
    Ok(OnRoad {
        said: said(&road, &section, &stretch, &network),
        travel: travel(section.flow, side, setting.district.driving_side),
        problems: [found.problems, height_problems].concat(),
        from: stretch.from,
        to: stretch.to,
        section,
        around,
        side,
        azimuth_deg,
    })
}

/// The side in the section's own direction.
fn side(word: SideWord, direction: Travel) -> Side {
    match (word, direction) {
        (SideWord::Left, Travel::Forward) | (SideWord::Right, Travel::Backward) => Side::Left,
        (SideWord::Right, Travel::Forward) | (SideWord::Left, Travel::Backward) => Side::Right,
    }
}

/// Direction of the traffic on that side.
fn travel(flow: Flow, side: Side, keeps: DrivingSide) -> Travel {
    let with_chainage = match flow {
        Flow::Forward => true,
        Flow::Backward => false,
        Flow::Both => (side == Side::Right) == (keeps == DrivingSide::Right),
    };
    if with_chainage { Travel::Forward } else { Travel::Backward }
}

fn wrong(name: &str, error: &NamedRoadError, network: &Network) -> NotFound {
    let right = match error {
        NamedRoadError::NotOneLine(sections) => {
            let mut ids: Vec<&str> = sections.iter().map(|id| network.section(*id).source_id.as_str()).collect();
            ids.sort_unstable();
            ids.dedup();
            format!("give one of the identifiers {}", ids.join(", "))
        }
        _ => "give the identifier of the road data, the name or the number as the road file has it".to_owned(),
    };
    NotFound::Wrong(format!("--road {name}: {error}; {right}"))
}

/// Which road this is, where its chainage begins, and what of it is taken by default.
fn said(road: &NamedRoad, section: &RoadSection, stretch: &SectionStretch, network: &Network) -> Vec<String> {
    let start = road.pieces.first().map(|piece| {
        let node = match piece.direction {
            Travel::Forward => network.section(piece.section).from,
            Travel::Backward => network.section(piece.section).to,
        };
        network.roads().nodes[node.0 as usize]
    });
    let mut said = vec![format!(
        "{} (section {} of {}, {:.0} to {:.0} m of its {:.0} m)",
        section.label(),
        road.pieces.iter().position(|piece| piece.section == stretch.section).map_or(1, |index| index + 1),
        road.pieces.len(),
        stretch.from.in_metres(),
        stretch.to.in_metres(),
        section.length.in_metres()
    )];
    said.extend(start.map(|place| {
        format!(
            "the road begins at {:.6}, {:.6} (latitude, longitude) and is {:.0} m long",
            place.lat,
            place.lon,
            road.length().in_metres()
        )
    }));
    said.push(format!(
        "{:.0} km/h, {} lanes, {:.1} m sealed{}",
        section.speed.in_kilometres_per_hour(),
        section.lanes,
        section.width.in_metres(),
        if section.defaulted.is_empty() {
            String::new()
        } else {
            format!("; not in the road file, by its class: {}", section.defaulted.join(", "))
        }
    ));
    said
}
