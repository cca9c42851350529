//! What the targets share: files that only a path can name, and what must hold of every report.

use std::fs;
use std::path::PathBuf;

use exchange::road_files::{RoadFile, read_roads};
use exchange::rules::{RuleKind, load_rules};
use model::problem::Problem;
use model::rules::roads::RoadDefaults;

/// A folder that lives as long as the target runs.
pub struct Folder {
    folder: tempfile::TempDir,
}

impl Folder {
    /// A new empty folder.
    pub fn new() -> Self {
        Folder { folder: tempfile::tempdir().expect("a folder for scratch files") }
    }

    /// Writes a file and gives its path.
    pub fn file(&self, name: &str, bytes: &[u8]) -> PathBuf {
        let path = self.folder.path().join(name);
        fs::write(&path, bytes).expect("a scratch file");
        path
    }

    /// Reads roads from a file of that name.
    pub fn roads(&self, name: &str, bytes: &[u8], defaults: &RoadDefaults) -> RoadFile {
        let read = read_roads(&self.file(name, bytes), defaults, &mut |_| {});
        said_in_words(&read.problems);
        let finite = |degrees: f64| degrees.is_finite();
        for line in &read.lines {
            assert!(line.points.len() >= 2, "a line of {} points", line.points.len());
            assert!(line.points.iter().all(|point| finite(point.lon) && finite(point.lat)));
        }
        read
    }
}

impl Default for Folder {
    fn default() -> Self {
        Folder::new()
    }
}

/// The road defaults that come with the program.
pub fn road_defaults() -> RoadDefaults {
    load_rules(RuleKind::Roads, "open-map-defaults", None).expect("the shipped rule set")
}

/// Every problem says what was wrong and what would be right.
pub fn said_in_words(problems: &[Problem]) {
    for problem in problems {
        assert!(!problem.code.is_empty() && !problem.wrong.is_empty() && !problem.right.is_empty(), "{problem:?}");
    }
}
