//! Which rows of an export are of one hole. The matching is `triage`'s; here pairs that are near enough are found among a million
//! rows, in a few dozen bytes for each.

use std::collections::BTreeMap;
use std::ops::ControlFlow;

use jiff::civil::Date;
use model::district::UnitSystem;
use model::hole::HoleId;
use model::quantity::{InLength, metres};
use model::record::happened::Position;
use model::road::SectionId;
use model::rules::matching::MatchingRules;
use triage::same_hole::{Report, farthest_apart, pair_apart, same_holes_apart};

use crate::bulk::BulkRow;
use crate::ground::{METRES_PER_DEGREE, metres_between};

/// Pairs that are kept, eight bytes each. An export with more says nothing of its holes.
const PAIRS_MAX: usize = 40_000_000;

/// Rows of an export, as far as the matching needs them.
pub struct Repeats<'r> {
    rules: &'r MatchingRules,
    rows: Vec<Row>,
    /// The words for sources, each once.
    sources: Vec<String>,
}

#[derive(Clone, Copy)]
struct Row {
    lon: f64,
    lat: f64,
    day: Option<Date>,
    source: u32,
    /// Closed at the office: what was told later is not the same any more, so that it is matched with nothing.
    is_closed: bool,
}

/// A row's band from south to north, and its number.
type InBand = (i64, u32);

/// Rows that are of one hole.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SameRows {
    /// The row that stays: the first seen; rows are counted from 0 in the order they were added.
    pub stays: usize,
    /// The others, each with why it is of the same hole as the first.
    pub others: Vec<(usize, String)>,
}

/// What the matching came to.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Repeated {
    /// Holes with more than one row, in the order of the rows that stay.
    pub same: Vec<SameRows>,
    /// Places that many rows stand at, to the last digit, with how many: where an office puts what it can't find. Their rows were
    /// not matched.
    pub fallback_places: Vec<(usize, usize)>,
    /// So many pairs of rows are near each other that the matching was given up; every row stays.
    pub is_given_up: bool,
    /// The caller stopped it; every row stays.
    pub is_stopped: bool,
}

impl<'r> Repeats<'r> {
    /// Without rows.
    pub fn new(rules: &'r MatchingRules) -> Self {
        Repeats { rules, rows: Vec::new(), sources: Vec::new() }
    }

    /// Adds a row; tells its number, from 0. One that the office has closed is matched with no other.
    pub fn add(&mut self, row: &BulkRow) -> usize {
        let source = self.sources.iter().position(|source| *source == row.source).unwrap_or_else(|| {
            self.sources.push(row.source.clone());
            self.sources.len() - 1
        });
        let Position { lon, lat } = row.position;
        let is_closed = row.closed.is_some();
        self.rows.push(Row { lon, lat, day: row.day, source: source as u32, is_closed });
        self.rows.len() - 1
    }

    /// How many rows were added.
    pub fn count(&self) -> usize {
        self.rows.len()
    }

    /// Finds the rows that are of one hole. `progress` is told now and then what share is done, from 0 to 1; `Break` stops.
    pub fn find(&self, progress: &mut dyn FnMut(f64) -> ControlFlow<()>) -> Repeated {
        let (fallback_places, order) = self.in_bands();
        let mut repeated = Repeated { fallback_places, ..Repeated::default() };
        let pairs = match self.near_pairs(&order, progress) {
            Ok(pairs) => pairs,
            Err(Stopped::ByCaller) => return Repeated { is_stopped: true, ..repeated },
            Err(Stopped::TooMany) => return Repeated { is_given_up: true, ..repeated },
        };
        let (pairs, part_of) = by_parts(pairs, self.rows.len());
        for part in pairs.chunk_by(|a, b| part_of[a.0 as usize] == part_of[b.0 as usize]) {
            repeated.same.extend(self.same_of_part(part));
        }
        repeated.same.sort_by_key(|same| same.stays);
        repeated
    }

    /// Fallback places, and all other rows by bands from south to north, in each from west to east.
    fn in_bands(&self) -> (Vec<(usize, usize)>, Vec<InBand>) {
        let band = farthest_apart(self.rules).in_metres() / METRES_PER_DEGREE;
        let of_band = |row: &Row| (row.lat / band).floor() as i64;
        let open = self.rows.iter().enumerate().filter(|(_, row)| !row.is_closed);
        let mut order: Vec<InBand> = open.map(|(index, row)| (of_band(row), index as u32)).collect();
        order.sort_unstable_by(|a, b| {
            let (one, other) = (&self.rows[a.1 as usize], &self.rows[b.1 as usize]);
            a.0.cmp(&b.0).then(one.lon.total_cmp(&other.lon)).then(one.lat.total_cmp(&other.lat)).then(a.1.cmp(&b.1))
        });
        let at = |entry: &InBand| &self.rows[entry.1 as usize];
        let same_place = |a: &InBand, b: &InBand| at(a).lon == at(b).lon && at(a).lat == at(b).lat;
        let most = self.rules.fallback_rows.value as usize;
        let mut fallback = Vec::new();
        let mut kept = Vec::with_capacity(order.len());
        for run in order.chunk_by(same_place) {
            if run.len() >= most {
                fallback.push((run[0].1 as usize, run.len()));
            } else {
                kept.extend_from_slice(run);
            }
        }
        fallback.sort_unstable();
        (fallback, kept)
    }

    /// Pairs of rows that can be of one hole. Every row is looked at beside those east of it in its own band and those around it
    /// in the band to the north. Rows on both sides of the meridian of 180 degrees are not paired.
    fn near_pairs(
        &self,
        order: &[InBand],
        progress: &mut dyn FnMut(f64) -> ControlFlow<()>,
    ) -> Result<Vec<(u32, u32)>, Stopped> {
        let reach_m = farthest_apart(self.rules).in_metres();
        let mut templates = (self.templates(), self.templates());
        let mut pairs = Vec::new();
        let bands: Vec<&[InBand]> = order.chunk_by(|a, b| a.0 == b.0).collect();
        let mut done = 0;
        let lon = |entry: &InBand| self.rows[entry.1 as usize].lon;
        for (index, band) in bands.iter().enumerate() {
            let north = bands.get(index + 1).filter(|north| north[0].0 == band[0].0 + 1).copied().unwrap_or_default();
            // The widest a reach can be in degrees: at the edge of the two bands that is nearer to a pole.
            let edge = band.iter().chain(north).map(|entry| self.rows[entry.1 as usize].lat.abs()).fold(0.0, f64::max);
            let reach = reach_m / METRES_PER_DEGREE / edge.to_radians().cos().max(1e-6);
            let mut first_north = 0;
            for (place, one) in band.iter().enumerate() {
                let west = lon(one) - reach;
                while first_north < north.len() && lon(&north[first_north]) < west {
                    first_north += 1;
                }
                let east = lon(one) + reach;
                for candidates in [&band[place + 1..], &north[first_north..]] {
                    for other in candidates.iter().take_while(|other| lon(other) <= east) {
                        if self.can_be_one(one.1, other.1, reach_m, &mut templates) {
                            pairs.push((one.1, other.1));
                        }
                    }
                }
                if pairs.len() > PAIRS_MAX {
                    return Err(Stopped::TooMany);
                }
                done += 1;
                if done % 8192 == 0 && progress(f64::from(done) / order.len() as f64).is_break() {
                    return Err(Stopped::ByCaller);
                }
            }
        }
        Ok(pairs)
    }

    /// A report of each source, to be filled in.
    fn templates(&self) -> Vec<Report> {
        self.sources.iter().map(|source| report(String::new(), None, source)).collect()
    }

    fn can_be_one(&self, a: u32, b: u32, reach_m: f64, templates: &mut (Vec<Report>, Vec<Report>)) -> bool {
        let apart = self.apart(a as usize, b as usize);
        if apart > reach_m {
            return false;
        }
        let (row_a, row_b) = (&self.rows[a as usize], &self.rows[b as usize]);
        let report_a = &mut templates.0[row_a.source as usize];
        report_a.seen = row_a.day;
        let report_b = &mut templates.1[row_b.source as usize];
        report_b.seen = row_b.day;
        pair_apart(report_a, report_b, metres(apart), self.rules, UnitSystem::Si).is_ok()
    }

    fn apart(&self, a: usize, b: usize) -> f64 {
        let place = |row: &Row| Position { lon: row.lon, lat: row.lat };
        metres_between(place(&self.rows[a]), place(&self.rows[b]))
    }

    /// The holes of rows that hang together by pairs.
    fn same_of_part(&self, pairs: &[(u32, u32)]) -> Vec<SameRows> {
        let mut members: Vec<u32> = pairs.iter().flat_map(|(a, b)| [*a, *b]).collect();
        members.sort_unstable();
        members.dedup();
        let place_of: BTreeMap<u32, usize> = members.iter().enumerate().map(|(place, row)| (*row, place)).collect();
        let reports: Vec<Report> = members
            .iter()
            .map(|&row| {
                let of = &self.rows[row as usize];
                report(format!("{row:010}"), of.day, &self.sources[of.source as usize])
            })
            .collect();
        let near: Vec<(usize, usize)> = pairs.iter().map(|(a, b)| (place_of[a], place_of[b])).collect();
        let apart = |a: usize, b: usize| metres(self.apart(members[a] as usize, members[b] as usize));
        let groups = same_holes_apart(&reports, &near, &apart, self.rules);
        let of_group = |group: Vec<usize>| {
            // The first seen stays; one without a day after all others, of equals the one further up.
            let stays = group.iter().copied().min_by_key(|&at| (reports[at].seen.is_none(), reports[at].seen, at))?;
            let why = |&other: &usize| {
                let words =
                    pair_apart(&reports[stays], &reports[other], apart(stays, other), self.rules, UnitSystem::Si);
                (members[other] as usize, words.map_or_else(|apart| apart, |close| close.words))
            };
            let others: Vec<_> = group.iter().filter(|at| **at != stays).map(why).collect();
            (!others.is_empty()).then_some(SameRows { stays: members[stays] as usize, others })
        };
        groups.into_iter().filter_map(of_group).collect()
    }
}

/// A report as `triage` takes it, of which neither road nor size is known.
fn report(id: String, seen: Option<Date>, source: &str) -> Report {
    let untold = metres(f64::NAN);
    Report {
        id: HoleId(id),
        section: SectionId(0),
        chainage: metres(0.0),
        across: metres(0.0),
        lane_position: None,
        length: untold,
        width: untold,
        depth: untold,
        seen,
        source: source.to_owned(),
    }
}

enum Stopped {
    ByCaller,
    TooMany,
}

/// Pairs in the order of the parts that hang together by them, and the part of each row that is in a pair.
fn by_parts(mut pairs: Vec<(u32, u32)>, rows: usize) -> (Vec<(u32, u32)>, Vec<u32>) {
    let mut leader: Vec<u32> = (0..rows as u32).collect();
    for &(a, b) in &pairs {
        let (a, b) = (find(&mut leader, a), find(&mut leader, b));
        leader[a.max(b) as usize] = a.min(b);
    }
    for &(a, _) in &pairs {
        leader[a as usize] = find(&mut leader, a);
    }
    pairs.sort_unstable_by_key(|&(a, b)| (leader[a as usize], a, b));
    (pairs, leader)
}

/// The least row of those that hang together; the way there is shortened.
fn find(leader: &mut [u32], row: u32) -> u32 {
    let mut first = row;
    while leader[first as usize] != first {
        first = leader[first as usize];
    }
    let mut at = row;
    while leader[at as usize] != first {
        at = std::mem::replace(&mut leader[at as usize], first);
    }
    first
}
