//! Holes that were known before an import, found by their place.

use std::collections::{HashMap, HashSet};

use intake::bulk::{BulkRow, CLOSED_AT_OFFICE};
use intake::sighting::{Sighting, box_around};
use journal::{Journal, JournalError, Query};
use model::record::happened::Position;
use model::record::known::{HoleState, Known};
use model::record::told::Teller;
use model::rules::matching::MatchingRules;
use uuid::Uuid;

use super::ImportOptions;

/// Holes read at a time.
const PAGE: u32 = 5_000;

/// Holes that are the same as each other are followed so far.
const SAME_MAX: usize = 32;

pub struct KnownHoles {
    rules: MatchingRules,
    /// Height of a band, degrees: no hole a report can be of is further than the next band.
    band: f64,
    /// By band from south to north, in each from west to east.
    holes: Vec<(i64, Sighting)>,
    numbers: HashSet<Uuid>,
    /// Holes that are the same as that one.
    merged: HashMap<Uuid, Vec<Uuid>>,
    /// What is mended or dismissed: nothing is left to do there.
    over: HashSet<Uuid>,
    /// What was dismissed because the office closed it.
    closed_at_office: HashMap<Uuid, Teller>,
}

impl KnownHoles {
    /// Those where the rows are. Of what is mended or dismissed only the number is known.
    pub async fn read(journal: &Journal, rows: &[BulkRow], options: &ImportOptions) -> Result<Self, JournalError> {
        let rules = options.matching.clone();
        let around = |row: &BulkRow| box_around(row.position, &rules);
        let tall = rows.iter().map(|row| around(row)[3] - row.position.lat).fold(f64::MIN_POSITIVE, f64::max);
        let mut known = Self {
            band: tall,
            holes: Vec::new(),
            numbers: HashSet::new(),
            merged: HashMap::new(),
            over: HashSet::new(),
            closed_at_office: HashMap::new(),
            rules: rules.clone(),
        };
        let Some(within) =
            rows.iter().map(around).reduce(|a, b| [a[0].min(b[0]), a[1].min(b[1]), a[2].max(b[2]), a[3].max(b[3])])
        else {
            return Ok(known);
        };
        let mut query = Query::all("hole", PAGE);
        // boxes across the meridian of 180 degrees have no common one that is not the whole way round
        let crosses = rows.iter().map(around).any(|[west, _, east, _]| west > east);
        let [west, south, east, north] = within;
        query.within = Some(if crosses { [-180.0, south, 180.0, north] } else { [west, south, east, north] });
        let mut same_as = HashMap::new();
        loop {
            let page = journal.page(&query).await?;
            query.after = page.rows.last().map(|row| row.subject);
            for row in page.rows {
                let Known::Hole(hole) = row.known else { continue };
                known.numbers.insert(hole.hole);
                if !hole.merged.is_empty() {
                    known.merged.insert(hole.hole, hole.merged.clone());
                }
                if hole.dismissed.is_some() || matches!(hole.state, HoleState::Mended | HoleState::Resurfaced) {
                    known.over.insert(hole.hole);
                }
                if let Some(told) = hole.dismissed.as_ref().filter(|told| told.value.starts_with(CLOSED_AT_OFFICE)) {
                    known.closed_at_office.insert(hole.hole, told.by.clone());
                }
                if let Some(told) = hole.same_as.as_ref().filter(|_| hole.state == HoleState::SameAsOther) {
                    same_as.insert(hole.hole, told.value);
                }
                if let Some(sighting) = Sighting::of(&hole, None, &options.bulk.district.zone) {
                    known.holes.push((known.band_of(sighting.position.lat), sighting));
                }
            }
            if !page.more {
                break;
            }
        }
        for (_, sighting) in &mut known.holes {
            for _ in 0..SAME_MAX {
                let Some(next) = sighting.same_as.and_then(|other| same_as.get(&other)) else { break };
                sighting.same_as = Some(*next);
            }
        }
        known.holes.sort_by(|a, b| {
            a.0.cmp(&b.0).then(a.1.position.lon.total_cmp(&b.1.position.lon)).then(a.1.hole.cmp(&b.1.hole))
        });
        Ok(known)
    }

    /// Whether the hole was known.
    pub fn holds(&self, hole: Uuid) -> bool {
        self.numbers.contains(&hole)
    }

    /// Whether a hole is the same as none, or nothing is left to do at any that it is the same as, now or by what `closed` says of it.
    pub fn may_close(&self, hole: Uuid, closed: &HashSet<Uuid>) -> bool {
        let mut seen = HashSet::from([hole]);
        let mut next = vec![hole];
        while let Some(hole) = next.pop() {
            for merged in self.merged.get(&hole).into_iter().flatten().filter(|merged| seen.insert(**merged)) {
                if !self.over.contains(merged) && !closed.contains(merged) {
                    return false;
                }
                next.push(*merged);
            }
        }
        true
    }

    /// Whether a hole that is known is the same as others.
    pub fn has_merged(&self) -> bool {
        !self.merged.is_empty()
    }

    /// Who told that the office has closed a hole.
    pub fn closed_at_office(&self, hole: Uuid) -> Option<&Teller> {
        self.closed_at_office.get(&hole)
    }

    /// Holes that a report at that place can be of, and perhaps some more; and those that they are the same as.
    pub fn around(&self, place: Position) -> Vec<Sighting> {
        if self.holes.is_empty() {
            return Vec::new();
        }
        let [west, _, east, _] = box_around(place, &self.rules);
        let ranges = if west <= east { vec![(west, east)] } else { vec![(west, 180.0), (-180.0, east)] };
        let middle = self.band_of(place.lat);
        let mut found = Vec::new();
        for band in middle - 1..=middle + 1 {
            for (west, east) in &ranges {
                let before = |limit: f64| move |(at, hole): &(i64, Sighting)| (*at, hole.position.lon) < (band, limit);
                let first = self.holes.partition_point(before(*west));
                let inside =
                    self.holes[first..].iter().take_while(|(at, hole)| *at == band && hole.position.lon <= *east);
                found.extend(inside.map(|(_, hole)| hole.clone()));
            }
        }
        found
    }

    fn band_of(&self, lat: f64) -> i64 {
        (lat / self.band).floor() as i64
    }
}
