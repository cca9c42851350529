//! Roads as they are written: plain numbers in base units, words as places in fixed lists.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::{LazyLock, Mutex, PoisonError};

use model::place::{LonLat, Travel};
use model::problem::{Locator, Problem, ProblemSeverity};
use model::quantity::{InLength, InMass, InVelocity, kilograms, metres, metres_per_second};
use model::road::{
    Flow, HoldsFor, NodeId, RoadClass, RoadSection, SectionId, Setting, Surface, TruckAccess, TurnRestriction, TurnRule,
};
use model::road_around::StructureKind;
use serde::{Deserialize, Serialize};

use super::KeptRoads;

const FLOWS: [Flow; 3] = [Flow::Both, Flow::Forward, Flow::Backward];
const SURFACES: [Surface; 5] =
    [Surface::SurfaceTreated, Surface::Paved, Surface::Rigid, Surface::Unpaved, Surface::Unknown];
const SETTINGS: [Setting; 2] = [Setting::Rural, Setting::Urban];
const STRUCTURES: [Option<StructureKind>; 3] = [None, Some(StructureKind::Bridge), Some(StructureKind::Tunnel)];
const SEVERITIES: [ProblemSeverity; 3] = [ProblemSeverity::Warning, ProblemSeverity::Refused, ProblemSeverity::Fatal];
/// Attributes of a road that a class default can stand in for.
const ATTRIBUTES: [&str; 8] = ["class", "setting", "speed", "flow", "lanes", "width", "shoulder", "surface"];

/// A part of a kept file.
#[derive(Serialize, Deserialize)]
pub(super) enum Frame {
    About(About),
    Nodes(Vec<(f64, f64)>),
    Sections(Vec<StoredSection>),
    Restrictions(Vec<StoredRestriction>),
    Order(Vec<u32>),
    End,
}

/// What is known of all of it.
#[derive(Serialize, Deserialize)]
pub(super) struct About {
    problems: Vec<StoredProblem>,
    attribution: Option<String>,
    left_out: BTreeMap<String, usize>,
}

#[derive(Serialize, Deserialize)]
struct StoredProblem {
    code: String,
    severity: u8,
    file: String,
    line: usize,
    column: usize,
    subject: String,
    wrong: String,
    right: String,
}

#[derive(Serialize, Deserialize)]
pub(super) struct StoredSection {
    source_id: String,
    from: u32,
    to: u32,
    line: Vec<(f64, f64)>,
    length_m: f64,
    name: String,
    number: String,
    speed_m_per_s: f64,
    lanes: u32,
    width_m: f64,
    shoulder_m: f64,
    vehicles_per_day: Option<f64>,
    /// Class, flow, surface, setting, structure.
    words: [u8; 5],
    roundabout: bool,
    /// Mass, height, width, length, greatest mass before all are barred, driving speed.
    truck: [Option<f64>; 6],
    defaulted: Vec<u8>,
}

#[derive(Serialize, Deserialize)]
pub(super) struct StoredRestriction {
    source_id: String,
    only: bool,
    heavier_than_kg: Option<f64>,
    up_to_kg: Option<f64>,
    /// Sections, and whether each is driven backward.
    path: Vec<(u32, bool)>,
}

impl About {
    pub(super) fn of(roads: &KeptRoads) -> Self {
        let problem = |problem: &Problem| StoredProblem {
            code: problem.code.to_owned(),
            severity: index(&SEVERITIES, &problem.severity),
            file: problem.at.file.clone(),
            line: problem.at.line,
            column: problem.at.column,
            subject: problem.subject.clone(),
            wrong: problem.wrong.clone(),
            right: problem.right.clone(),
        };
        About {
            problems: roads.problems.iter().map(problem).collect(),
            attribution: roads.attribution.clone(),
            left_out: roads.left_out.clone(),
        }
    }

    pub(super) fn put_into(self, roads: &mut KeptRoads) -> Option<()> {
        let problem = |stored: StoredProblem| {
            Some(Problem {
                code: code(stored.code),
                severity: *SEVERITIES.get(usize::from(stored.severity))?,
                at: Locator { file: stored.file, line: stored.line, column: stored.column },
                subject: stored.subject,
                wrong: stored.wrong,
                right: stored.right,
            })
        };
        roads.problems = self.problems.into_iter().map(problem).collect::<Option<_>>()?;
        roads.attribution = self.attribution;
        roads.left_out = self.left_out;
        Some(())
    }
}

pub(super) fn section(section: &RoadSection) -> StoredSection {
    let TruckAccess { mass, height, width, length, no_heavier_than, driving_speed } = section.truck;
    let defaulted = section.defaulted.iter().map(|name| index(&ATTRIBUTES, name)).collect();
    StoredSection {
        source_id: section.source_id.clone(),
        from: section.from.0,
        to: section.to.0,
        line: section.line.iter().map(|place| (place.lon, place.lat)).collect(),
        length_m: section.length.in_metres(),
        name: section.name.clone(),
        number: section.number.clone(),
        speed_m_per_s: section.speed.in_metres_per_second(),
        lanes: section.lanes,
        width_m: section.width.in_metres(),
        shoulder_m: section.shoulder.in_metres(),
        vehicles_per_day: section.vehicles_per_day,
        words: [
            index(&RoadClass::ALL, &section.class),
            index(&FLOWS, &section.flow),
            index(&SURFACES, &section.surface),
            index(&SETTINGS, &section.setting),
            index(&STRUCTURES, &section.structure),
        ],
        roundabout: section.roundabout,
        truck: [
            mass.map(InMass::in_kilograms),
            height.map(InLength::in_metres),
            width.map(InLength::in_metres),
            length.map(InLength::in_metres),
            no_heavier_than.map(InMass::in_kilograms),
            driving_speed.map(InVelocity::in_metres_per_second),
        ],
        defaulted,
    }
}

impl StoredSection {
    /// `None` where a word is none of the list's.
    pub(super) fn restored(self, id: u32) -> Option<RoadSection> {
        let [class, flow, surface, setting, structure] = self.words.map(usize::from);
        let [mass, height, width, length, no_heavier_than, driving_speed] = self.truck;
        let attribute = |place: u8| ATTRIBUTES.get(usize::from(place)).copied();
        Some(RoadSection {
            id: SectionId(id),
            source_id: self.source_id,
            from: NodeId(self.from),
            to: NodeId(self.to),
            line: self.line.into_iter().map(place).collect(),
            length: metres(self.length_m),
            class: *RoadClass::ALL.get(class)?,
            name: self.name,
            number: self.number,
            speed: metres_per_second(self.speed_m_per_s),
            lanes: self.lanes,
            width: metres(self.width_m),
            shoulder: metres(self.shoulder_m),
            flow: *FLOWS.get(flow)?,
            surface: *SURFACES.get(surface)?,
            vehicles_per_day: self.vehicles_per_day,
            setting: *SETTINGS.get(setting)?,
            structure: *STRUCTURES.get(structure)?,
            roundabout: self.roundabout,
            truck: TruckAccess {
                mass: mass.map(kilograms),
                height: height.map(metres),
                width: width.map(metres),
                length: length.map(metres),
                no_heavier_than: no_heavier_than.map(kilograms),
                driving_speed: driving_speed.map(metres_per_second),
            },
            defaulted: self.defaulted.into_iter().map(attribute).collect::<Option<_>>()?,
        })
    }
}

pub(super) fn restriction(turn: &TurnRestriction) -> StoredRestriction {
    let (heavier_than_kg, up_to_kg) = match turn.holds_for {
        HoldsFor::All => (None, None),
        HoldsFor::HeavierThan(mass) => (Some(mass.in_kilograms()), None),
        HoldsFor::UpTo(mass) => (None, Some(mass.in_kilograms())),
    };
    StoredRestriction {
        source_id: turn.source_id.clone(),
        only: turn.rule == TurnRule::Only,
        heavier_than_kg,
        up_to_kg,
        path: turn.path.iter().map(|(section, travel)| (section.0, *travel == Travel::Backward)).collect(),
    }
}

impl StoredRestriction {
    pub(super) fn restored(self) -> TurnRestriction {
        let holds_for = match (self.heavier_than_kg, self.up_to_kg) {
            (Some(kg), _) => HoldsFor::HeavierThan(kilograms(kg)),
            (None, Some(kg)) => HoldsFor::UpTo(kilograms(kg)),
            (None, None) => HoldsFor::All,
        };
        let travel = |backward| if backward { Travel::Backward } else { Travel::Forward };
        TurnRestriction {
            source_id: self.source_id,
            rule: if self.only { TurnRule::Only } else { TurnRule::No },
            holds_for,
            path: self.path.into_iter().map(|(section, backward)| (SectionId(section), travel(backward))).collect(),
        }
    }
}

pub(super) fn place((lon, lat): (f64, f64)) -> LonLat {
    LonLat { lon, lat }
}

/// Where a word stands in its list; beyond the list, which is not restored, where it does not.
fn index<T: PartialEq>(list: &[T], word: &T) -> u8 {
    list.iter().position(|known| known == word).map_or(u8::MAX, |place| place as u8)
}

/// Codes of problems are a few fixed words of the program, and live as long as it does.
fn code(word: String) -> &'static str {
    static KNOWN: LazyLock<Mutex<BTreeSet<&'static str>>> = LazyLock::new(Mutex::default);
    let mut known = KNOWN.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some(code) = known.get(word.as_str()) {
        return code;
    }
    let code: &'static str = word.leak();
    known.insert(code);
    code
}
