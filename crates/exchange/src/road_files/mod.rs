//! Road readers: extracts of the open map (PBF, XML), `GeoJSON` lines and shapefiles in, raw road lines out.
//!
//! A file is read as a stream. What can't be used is reported with its place and left out; whatever can be read before
//! a break is kept. Where the data are silent the rule set's class defaults stand in, and the line says for which of
//! its attributes. Cutting the lines into sections at junctions is not done here.

mod attributes;
mod columns;
mod dbf;
mod findings;
mod geojson_lines;
mod input;
mod join;
mod open_map;
mod pbf;
mod projection;
mod restrictions;
mod shapefile_lines;
mod values;
mod xml;

use std::collections::BTreeMap;
use std::io;
use std::path::Path;

use model::place::LonLat;
use model::problem::{Locator, Problem};
use model::road::{RawLine, RawRestriction, RoadAttributes};
use model::rules::roads::RoadDefaults;

use attributes::{Habits, SaidOfRoad, Whence, Words, attributes_of};
use findings::Findings;
use input::{Format, Ticker};
pub use join::{JoinReport, RoadJoin, RoadJoinRow, apply_road_join, read_road_join};

/// How far the work is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Progress {
    /// Bytes read, over all passes.
    pub done_bytes: u64,
    /// Bytes to be read, over all passes.
    pub total_bytes: u64,
}

/// What a road file held.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RoadFile {
    /// Its lines, in file order.
    pub lines: Vec<RawLine>,
    /// Restrictions of turns between them; only the open map has any.
    pub restrictions: Vec<RawRestriction>,
    /// What could not be used, and why.
    pub problems: Vec<Problem>,
    /// What must be printed wherever the data are shown, e.g. the licence line of the open map.
    pub attribution: Option<String>,
    /// Lines left out on purpose by the rule set (footpaths, driveways), and restrictions of turns that are none of the truck's: how many
    /// by which word.
    pub left_out: BTreeMap<String, usize>,
}

/// Reads a road file: an extract of the open map as PBF or XML (plain or gzip), `GeoJSON` lines, or a shapefile (name
/// its `.shp`; `.dbf`, `.prj` and `.cpg` are looked for beside it). The format is told by content, then by extension.
/// Coordinates come out as WGS 84 degrees. Where the rule set has a `[join]`, its table corrects the lines.
///
/// Never fails: a file that can't be read at all gives no lines and a fatal problem.
pub fn read_roads(path: &Path, defaults: &RoadDefaults, progress: &mut dyn FnMut(Progress)) -> RoadFile {
    let mut reading = Reading::new(path, defaults);
    let size = match std::fs::metadata(path) {
        Ok(data) if data.len() > 0 => data.len(),
        Ok(_) => {
            reading.findings.fatal("road.file.empty", "the file is empty".into(), "name a file with roads in it");
            return reading.finish();
        }
        Err(error) => {
            reading.cannot_open(&error);
            return reading.finish();
        }
    };
    match input::format_of(path) {
        Ok(Ok(format)) => {
            let passes = if matches!(format, Format::Pbf | Format::Xml) { 2 } else { 1 };
            let mut ticker = Ticker::new(progress, size * passes);
            match format {
                Format::Pbf => pbf::read(path, &mut reading, &mut ticker),
                Format::Xml => xml::read(path, &mut reading, &mut ticker),
                Format::GeoJson => geojson_lines::read(path, &mut reading, &mut ticker),
                Format::Shapefile => shapefile_lines::read(path, &mut reading, &mut ticker),
            }
            ticker.finish();
        }
        Ok(Err(looks_like)) => reading.findings.fatal(
            "road.file.unknown_format",
            format!("this looks like {looks_like}"),
            "name an OpenStreetMap extract (.osm.pbf, .osm, .osm.gz), a .geojson or a .shp",
        ),
        Err(error) => reading.cannot_open(&error),
    }
    reading.join(path);
    reading.finish()
}

/// The state of reading one file.
struct Reading<'a> {
    rules: &'a RoadDefaults,
    words: Words,
    findings: Findings,
    lines: Vec<RawLine>,
    restrictions: Vec<RawRestriction>,
    attribution: Option<String>,
    left_out: BTreeMap<String, usize>,
    /// Problems of the join table.
    joined: Vec<Problem>,
}

impl<'a> Reading<'a> {
    fn new(path: &Path, rules: &'a RoadDefaults) -> Self {
        Reading {
            rules,
            words: Words::new(rules),
            findings: Findings::new(path.display().to_string()),
            lines: Vec::new(),
            restrictions: Vec::new(),
            attribution: None,
            left_out: BTreeMap::new(),
            joined: Vec::new(),
        }
    }

    fn cannot_open(&mut self, error: &io::Error) {
        self.findings.fatal("road.file.unreadable", format!("can't be read: {error}"), "name a file that can be read");
    }

    /// Corrects the lines by the table that the rule set names, if it names one.
    fn join(&mut self, path: &Path) {
        let Some(rule) = &self.rules.join else { return };
        let table = path.with_file_name(&rule.file.value);
        let join = read_road_join(&table, rule, &self.rules.plausible);
        let report = apply_road_join(&mut self.lines, &join);
        if report.lines_matched == 0 && !join.rows.is_empty() && !self.lines.is_empty() {
            let at = Locator { file: table.display().to_string(), ..Locator::default() };
            let wrong = format!("none of its {} identifiers is one of a road's", join.rows.len());
            let right = "the identifiers that the road file has, see columns.id and join.key of the rule set";
            self.findings.warn("road.join.no_match", at, "", wrong, right);
        }
        self.joined.extend(join.problems);
    }

    fn leave_out(&mut self, why: String) {
        *self.left_out.entry(why).or_default() += 1;
    }

    /// Takes a line in that knows no node numbers; points that repeat the one before are left out.
    fn push_line(
        &mut self,
        id: &str,
        at: &Locator,
        subject: &str,
        mut points: Vec<LonLat>,
        attributes: &RoadAttributes,
    ) {
        points.dedup();
        if points.len() < 2 {
            let wrong = "it has fewer than two different points".to_owned();
            self.findings.refuse("road.line.too_short", at.clone(), subject, wrong, "a line of at least two points");
            return;
        }
        let (source_id, at, attributes) = (id.to_owned(), at.clone(), attributes.clone());
        self.lines.push(RawLine { source_id, at, points, node_keys: None, attributes });
    }

    fn attributes(&mut self, said: &SaidOfRoad, habits: Habits, at: &Locator, subject: &str) -> RoadAttributes {
        attributes_of(said, habits, self.rules, &self.words, &Whence { at, subject }, &mut self.findings)
    }

    fn finish(mut self) -> RoadFile {
        if self.lines.is_empty() && self.left_out.is_empty() {
            let at = self.findings.at(0, 0);
            self.findings.warn(
                "road.file.no_roads",
                at,
                "",
                "no road could be read".into(),
                "a file with lines that are roads for vehicles",
            );
        }
        let mut problems = self.findings.finish();
        problems.extend(self.joined);
        RoadFile {
            lines: self.lines,
            restrictions: self.restrictions,
            problems,
            attribution: self.attribution,
            left_out: self.left_out,
        }
    }
}
