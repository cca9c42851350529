//! Exports of offices put into the record.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::ops::ControlFlow;

use intake::bulk::BulkOptions;
use intake::place::{Bounds, District};
use jiff::Timestamp;
use jiff::civil::date;
use jiff::tz::TimeZone;
use journal::Journal;
use journal::store::Location;
use model::district::UnitSystem;
use model::problem::Problem;
use model::record::happened::Happened;
use model::record::known::{HoleState, Known};
use server::ReportSettings;
use server::import::{ImportOptions, ImportProgress, ImportSink, Imported, import};
use tempfile::TempDir;
use tokio::runtime::Handle;

/// Rows 1 and 2 are 3.3 m apart (0.00003 degrees of latitude), 3 is 1.1 km north, 4 is exchanged, 5 stands at 1's place half a year
/// later: by hand.
const EXPORT: &str = "case id,opened,lon,lat,details\n\
    a-1,2026-03-01 10:00,-28.4000,47.30000,\"Deep; '<b>\"\n\
    a-2,2026-03-03 10:00,-28.4000,47.30003,\n\
    a-3,2026-03-02 10:00,-28.4000,47.31000,\n\
    a-4,2026-03-02 10:00,47.3,-28.4,\n\
    a-5,2025-09-01,-28.4000,47.30000,\n";

#[derive(Default)]
struct Said {
    problems: Vec<Problem>,
    progress: Vec<ImportProgress>,
    stop_when_writing: bool,
}

impl ImportSink for Said {
    fn problem(&mut self, problem: Problem) {
        self.problems.push(problem);
    }

    fn progress(&mut self, progress: ImportProgress) -> ControlFlow<()> {
        self.progress.push(progress);
        let stop = self.stop_when_writing && matches!(progress, ImportProgress::Writing { .. });
        if stop { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
    }
}

async fn record() -> (TempDir, Journal) {
    let folder = TempDir::new().unwrap();
    let journal = Journal::open(&Location::in_folder(folder.path())).await.unwrap();
    (folder, journal)
}

fn now() -> Timestamp {
    "2026-05-06T12:00:00Z".parse().unwrap()
}

async fn imported(journal: &Journal, export: &str, mut said: Said) -> (Imported, Said) {
    let (journal, export) = (journal.clone(), export.to_owned());
    let work = move || {
        let bounds = Some(Bounds { west: -28.7, south: 47.1, east: -28.1, north: 47.5 });
        let options = ImportOptions {
            bulk: BulkOptions {
                file: "export.csv".into(),
                columns: BTreeMap::new(),
                source: "public".into(),
                slashes: None,
                district: District { bounds, zone: TimeZone::UTC },
                today: date(2026, 5, 6),
            },
            matching: ReportSettings::default().matching,
            units: UnitSystem::Si,
            actor: "mara".into(),
            device: "desk".into(),
        };
        let imported = import(&journal, &Handle::current(), export.as_bytes(), &options, now(), &mut said).unwrap();
        (imported, said)
    };
    tokio::task::spawn_blocking(work).await.unwrap()
}

/// The references of the holes that are merged, and into which.
async fn merges(journal: &Journal) -> Vec<(String, Vec<String>)> {
    let events = journal.events_after(0, 10_000).await.unwrap();
    let name = |id| {
        let of_hole = events.iter().find_map(|recorded| match &recorded.event.happened {
            Happened::HoleReported { hole, reference, .. } if *hole == id => Some(reference.clone()),
            _ => None,
        });
        of_hole.unwrap_or_else(|| "?".into())
    };
    let merges = events.iter().filter_map(|recorded| match &recorded.event.happened {
        Happened::HolesMerged { into, merged, why } => {
            assert!(why.contains("apart"), "{why}");
            Some((name(*into), merged.iter().map(|hole| name(*hole)).collect()))
        }
        _ => None,
    });
    merges.collect()
}

fn pair(into: &str, merged: &str) -> (String, Vec<String>) {
    (into.to_owned(), vec![merged.to_owned()])
}

#[tokio::test]
async fn rows_are_reports_and_those_of_one_hole_are_merged() {
    let (_folder, journal) = record().await;
    let (done, said) = imported(&journal, EXPORT, Said::default()).await;
    assert_eq!((done.read.rows, done.read.refused, done.added, done.known_before), (5, 1, 4, 0));
    assert_eq!((done.repeats, done.of_known_holes, done.is_stopped), (1, 0, false));
    assert!(said.problems.iter().any(|problem| problem.code == "intake.position.exchanged"), "{:?}", said.problems);
    assert_eq!(merges(&journal).await, [pair("a-1", "a-2")]);
    let events = journal.events_after(0, 10).await.unwrap();
    assert_eq!(events.len(), 5);
    let first = events.iter().find(
        |recorded| matches!(&recorded.event.happened, Happened::HoleReported { reference, .. } if reference == "a-1"),
    );
    let first = &first.unwrap().event;
    assert_eq!((first.actor.as_str(), first.device_time.to_string().as_str()), ("mara", "2026-03-01T10:00:00Z"));
    assert_eq!(first.id.get_version_num(), 7);
    assert!(matches!(said.progress.last(), Some(ImportProgress::Writing { rows: 4, of: 4 })), "{:?}", said.progress);
}

#[tokio::test]
async fn imported_again_adds_nothing_and_what_is_new_joins_what_was_known() {
    let (_folder, journal) = record().await;
    imported(&journal, EXPORT, Said::default()).await;
    let head = journal.head().await.unwrap();
    let (again, _) = imported(&journal, EXPORT, Said::default()).await;
    assert_eq!((again.added, again.known_before, again.of_known_holes), (0, 4, 0));
    assert_eq!(journal.head().await.unwrap(), head);

    let more = "case id,opened,lon,lat,details\n\
        b-1,2026-03-10 10:00,-28.4000,47.30001,\n\
        a-3,2026-03-02 10:00,-28.4000,47.31000,now twice as large\n";
    let (done, _) = imported(&journal, more, Said::default()).await;
    assert_eq!((done.added, done.known_before, done.of_known_holes), (2, 0, 1));
    assert_eq!(merges(&journal).await, [pair("a-1", "a-2"), pair("a-1", "b-1")]);
    let holes = journal.page(&journal::Query::all("hole", 100)).await.unwrap().rows;
    assert_eq!(holes.len(), 5, "new words of a known row are told of the same hole");
}

#[tokio::test]
async fn what_the_office_closed_is_told_and_closed_at_its_own_time() {
    let (_folder, journal) = record().await;
    // all at one place: the first closed before the second was told
    let export = "case id,opened,lon,lat,depth_mm,status,closed date\n\
        a-1,2026-03-01 10:00,-28.4000,47.30000,80,Closed,2026-03-05 16:00\n\
        a-2,2026-03-10 10:00,-28.4000,47.30000,120,Open,\n\
        a-3,2026-03-11 10:00,-28.4000,47.30001,,Open,\n\
        a-4,2026-03-12,-28.4000,47.30000,,Completed,2026-03-12\n\
        a-5,,-28.4000,47.31000,,Rejected,\n";
    let (done, _) = imported(&journal, export, Said::default()).await;
    assert_eq!((done.added, done.closed, done.repeats, done.of_known_holes), (5, 3, 1, 0));
    assert_eq!(merges(&journal).await, [pair("a-2", "a-3")]);
    let events = journal.events_after(0, 100).await.unwrap();
    let closings: Vec<(String, String)> = events
        .iter()
        .filter_map(|recorded| match &recorded.event.happened {
            Happened::HoleDismissed { why, dealt_with, .. } => {
                assert_eq!(*dealt_with, !why.ends_with("Rejected"), "{why}");
                Some((recorded.event.device_time.to_string(), why.clone()))
            }
            _ => None,
        })
        .collect();
    let closing = |at: &str, word: &str| (at.to_owned(), format!("closed at the office: {word}"));
    let mut expected = [
        closing("2026-03-05T16:00:00Z", "Closed"),
        closing("2026-03-12T00:00:00Z", "Completed"),
        closing("2026-05-06T12:00:00Z", "Rejected"),
    ];
    let mut sorted = closings.clone();
    sorted.sort();
    expected.sort();
    assert_eq!(sorted, expected);
    let holes = journal.page(&journal::Query::all("hole", 100)).await.unwrap().rows;
    let states: Vec<(String, String, Option<f64>)> = holes
        .iter()
        .map(|row| match &row.known {
            model::record::known::Known::Hole(hole) => {
                let depth = hole.depth_mm.as_ref().map(|told| told.value);
                (hole.reports[0].reference.clone(), format!("{:?}", hole.state), depth)
            }
            other => panic!("{other:?}"),
        })
        .collect();
    let state = |name: &str, state: &str, depth| (name.to_owned(), state.to_owned(), depth);
    let mut sorted = states.clone();
    sorted.sort_by(|a, b| a.0.cmp(&b.0));
    assert_eq!(
        sorted,
        [
            state("a-1", "Dismissed", Some(80.0)),
            state("a-2", "Reported", Some(120.0)),
            state("a-3", "SameAsOther", None),
            state("a-4", "Dismissed", None),
            state("a-5", "Dismissed", None),
        ]
    );
    let head = journal.head().await.unwrap();
    imported(&journal, export, Said::default()).await;
    assert_eq!(journal.head().await.unwrap(), head, "again adds nothing");
    // closed since
    let later = export.replace("120,Open,", "120,Closed,2026-03-20");
    let (done, said) = imported(&journal, &later, Said::default()).await;
    assert_eq!((done.added, done.closed, done.held_open), (0, 3, 1));
    let held: Vec<_> = said.problems.iter().filter(|problem| problem.code == "import.closed.held_open").collect();
    assert_eq!(
        held.iter().map(|problem| (problem.at.line, problem.subject.as_str())).collect::<Vec<_>>(),
        [(3, "a-2")]
    );
    let states = hole_states(&journal).await;
    assert_eq!(states["a-2"], HoleState::Reported, "a-3 is open and the same as it, so somebody still has to mend it");
    assert_eq!(states["a-3"], HoleState::SameAsOther);
    // the other one as well
    let last = later.replace("47.30001,,Open,", "47.30001,,Closed,2026-03-21");
    let (done, _) = imported(&journal, &last, Said::default()).await;
    assert_eq!((done.closed, done.held_open), (5, 0));
    assert_eq!(hole_states(&journal).await["a-2"], HoleState::Dismissed);
}

#[tokio::test]
async fn what_the_office_opens_again_waits_again() {
    let (_folder, journal) = record().await;
    let closed = "case id,opened,lon,lat,status,closed date\n\
        a-1,2026-03-01 10:00,-28.4000,47.30000,Closed,2026-03-05 16:00\n\
        a-2,2026-03-01 10:00,-28.4000,47.31000,Closed,2026-03-05 16:00\n";
    imported(&journal, closed, Said::default()).await;
    assert_eq!(hole_states(&journal).await["a-1"], HoleState::Dismissed);
    let open = closed.replacen("Closed,2026-03-05 16:00", "Reopened,", 1);
    let (done, _) = imported(&journal, &open, Said::default()).await;
    assert_eq!((done.added, done.closed, done.reopened), (0, 1, 1));
    let states = hole_states(&journal).await;
    assert_eq!((states["a-1"], states["a-2"]), (HoleState::Reported, HoleState::Dismissed));
    let head = journal.head().await.unwrap();
    let (done, _) = imported(&journal, &open, Said::default()).await;
    assert_eq!((done.reopened, journal.head().await.unwrap()), (0, head), "again adds nothing");
    // an export that says nothing of how far the office is opens nothing
    let silent = "case id,opened,lon,lat\na-2,2026-03-01 10:00,-28.4000,47.31000\n";
    let (done, _) = imported(&journal, silent, Said::default()).await;
    assert_eq!((done.reopened, hole_states(&journal).await["a-2"]), (0, HoleState::Dismissed));
    let again = open.replacen("Reopened,", "Closed,2026-04-02", 1);
    imported(&journal, &again, Said::default()).await;
    assert_eq!(hole_states(&journal).await["a-1"], HoleState::Dismissed);
}

/// The state of each hole, by the reference it was told with.
async fn hole_states(journal: &Journal) -> BTreeMap<String, HoleState> {
    let rows = journal.page(&journal::Query::all("hole", 100)).await.unwrap().rows;
    rows.into_iter()
        .map(|row| match row.known {
            Known::Hole(hole) => (hole.reports[0].reference.clone(), hole.state),
            other => panic!("{other:?}"),
        })
        .collect()
}

#[tokio::test]
async fn an_import_that_was_stopped_goes_on_where_it_was() {
    let (_folder, journal) = record().await;
    let mut export = "case id,opened,lon,lat\n".to_owned();
    for row in 0..5_000 {
        let (lon, lat) = (-28.6 + 0.001 * f64::from(row % 100), 47.2 + 0.001 * f64::from(row / 100));
        let _ = writeln!(export, "{row},2026-03-01,{lon:.5},{lat:.5}");
    }
    let (part, _) = imported(&journal, &export, Said { stop_when_writing: true, ..Said::default() }).await;
    assert!(part.is_stopped && part.added > 0 && part.added < 5_000, "{part:?}");
    let (rest, _) = imported(&journal, &export, Said::default()).await;
    assert_eq!((rest.added + part.added, rest.known_before), (5_000, part.added));
    let (whole, _) = imported(&journal, &export, Said::default()).await;
    assert_eq!((whole.added, whole.known_before), (0, 5_000));
}

#[tokio::test]
async fn a_file_that_is_none_adds_nothing() {
    let (_folder, journal) = record().await;
    for export in ["", "{\"type\":", "a,b\n1,2\n", "\u{0}\u{1}"] {
        let (done, said) = imported(&journal, export, Said::default()).await;
        assert_eq!(done.added, 0, "{export:?}");
        assert!(!said.problems.is_empty(), "{export:?}");
    }
    assert_eq!(journal.head().await.unwrap().0, 0);
}
