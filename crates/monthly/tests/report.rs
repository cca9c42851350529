//! The report of the invented district's June 2026, and of a record in which nothing is.

use std::path::PathBuf;
use std::sync::atomic::{AtomicUsize, Ordering};

use jiff::civil::{Date, date};
use jiff::tz::TimeZone;
use journal::Journal;
use journal::store::Location;
use lasting::from_record::{
    HoleJudge, JudgedHole, KeptSection, RecordTaken, RoadPlace, RoadPlaces, RoadStretch, ToldHole,
};
use lasting::patch_lives::{OnRoad, Study};
use lasting::resurfaced::Resurfaced;
use ledger::{Books, Period, Settings, books};
use model::district::{Paper, UnitSystem};
use model::month_report::{LastsGroup, MonthReport};
use model::place::Side;
use model::record::event::Event;
use model::record::happened::Position;
use model::record::known::KnownHole;
use model::rules::lasting::LastingRules;
use monthly::{CellKind, MonthCell, MonthFacts, MonthTable, html, month_report, month_tables, sheet};
use parquet::file::reader::{FileReader, SerializedFileReader};
use parquet::record::Field;
use words::{Language, Words};

const MONTH: Date = date(2026, 6, 1);
const ENGLISH: Words = Words(Language::English);

/// The island as if it had one long road from west to east: what snapping does is another crate's business.
struct OneRoad;

const WEST: f64 = -28.6;
const M_PER_DEGREE: f64 = 75_000.0;

impl RoadPlaces for OneRoad {
    fn at(&self, position: Position) -> Option<RoadPlace> {
        let on = OnRoad { road: "1".into(), chainage_m: (position.lon - WEST) * M_PER_DEGREE, side: Side::Left };
        Some(RoadPlace { on, name: "Long Road".into(), class: "tertiary".into(), vehicles_per_day: Some(800.0) })
    }

    fn between(&self, from: Position, to: Position, _: &str) -> Vec<RoadStretch> {
        let (a, b) = ((from.lon - WEST) * M_PER_DEGREE, (to.lon - WEST) * M_PER_DEGREE);
        vec![RoadStretch { road: "1".into(), stretch_m: (a.min(b), a.max(b)), forward: a <= b }]
    }

    fn all(&self) -> Vec<KeptSection> {
        vec![KeptSection { key: "1".into(), name: "Long Road".into(), length_m: 0.4 * M_PER_DEGREE, width_m: 6.0 }]
    }
}

/// Risk is depth: enough to see that what is judged comes through.
struct ByDepth;

impl HoleJudge for ByDepth {
    fn judge(&self, hole: &KnownHole, on: Date) -> Option<JudgedHole> {
        let depth = hole.depth_mm.as_ref()?.value;
        let severity = if depth > 100.0 { "high" } else { "low" }.to_owned();
        Some(JudgedHole { risk: depth, severity, due: Some(on.yesterday().unwrap()), sentence: String::new() })
    }
}

struct Read {
    study: Study,
    holes: Vec<ToldHole>,
    month: Books,
    year: Books,
    rules: LastingRules,
}

fn rules() -> LastingRules {
    let path = testkit::in_repository("rules/lasting/common-practice.toml");
    toml::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}

async fn read(events: Vec<Event>) -> Read {
    static FOLDERS: AtomicUsize = AtomicUsize::new(0);
    let number = FOLDERS.fetch_add(1, Ordering::Relaxed);
    let folder: PathBuf = std::env::temp_dir().join(format!("monthly-{}-{number}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let journal = Journal::open(&Location::in_folder(&folder)).await.unwrap();
    let at = "2026-07-01T00:00:00Z".parse().unwrap();
    for batch in events.chunks(2_000) {
        journal.append(batch.to_vec(), at).await.unwrap();
    }
    let zone = TimeZone::UTC;
    let mut taken =
        RecordTaken::new(Some(&OneRoad), &zone).judged_by(&ByDepth, MONTH.last_of_month()).sealed_from(Some(10.0));
    for what in RecordTaken::ORDER {
        journal.each_known(what, &mut |known| taken.take(known)).await.unwrap();
    }
    journal.close().await;
    std::fs::remove_dir_all(&folder).unwrap();
    let rules = rules();
    let (study, holes) = taken.study(at, &rules);
    let of = |from: Date| {
        let mut settings = Settings::new(Period { from, to: MONTH.last_of_month() }, zone.clone());
        settings.prices.labour_per_h = 50.into();
        settings.depot = "Tern Yard".into();
        for (kind, name) in [
            ("base", "crushed rock 0/20, Gannet pit"),
            ("binder", "CRS-2"),
            ("cover_stone", "chippings 10 mm, Gannet pit"),
        ] {
            settings.usual.insert(serde_json::from_value(kind.into()).unwrap(), name.into());
        }
        books(&events, &settings)
    };
    let (month, year) = (of(MONTH), of(date(2025, 7, 1)));
    Read { study, holes, month, year, rules }
}

fn with_facts<T>(read: &Read, units: UnitSystem, work: impl Fn(&MonthFacts) -> T) -> T {
    work(&MonthFacts {
        district: "Hollowmere <Reach> & co",
        month: MONTH,
        today: date(2026, 8, 1),
        zone: &TimeZone::UTC,
        units,
        paper: Paper::A4,
        study: &read.study,
        holes: &read.holes,
        resurfaced_nowhere: 0,
        sections: &OneRoad.all(),
        books: &read.month,
        year: &read.year,
        made_from: 7,
        rules: &read.rules,
    })
}

fn invented() -> Vec<Event> {
    testkit::invented_record().into_iter().map(|event| serde_json::from_value(event).unwrap()).collect()
}

#[tokio::test]
async fn figures_add_up_and_are_those_of_the_record() {
    let events = invented();
    // counted from the events, past all that is tested
    let opened = events.iter().filter(|event| {
        let value = serde_json::to_value(event).unwrap();
        value["happened"]["kind"] == "opened_to_traffic"
            && value["device_time"].as_str().unwrap().starts_with("2026-06")
    });
    let opened = opened.count();
    let told = events.iter().filter(|event| {
        let value = serde_json::to_value(event).unwrap();
        value["happened"]["kind"] == "hole_reported" && value["device_time"].as_str().unwrap().starts_with("2026-06")
    });
    let told = told.count();
    let read = read(events).await;
    let report = with_facts(&read, UnitSystem::Si, month_report);
    assert!(opened > 10 && told > 3, "{opened} {told}");
    assert_eq!(report.done.repairs, opened);
    assert_eq!(report.done.with_area, opened, "also of those cut in May or looked at in July");
    assert_eq!(report.done.roads.iter().map(|road| road.repairs).sum::<usize>(), opened);
    let last = report.arrivals.last().unwrap();
    assert_eq!((last.month.as_str(), last.told as usize, last.mended as usize), ("2026-06", told, opened));
    let parts: f64 = report.cost.parts.iter().map(|part| part.money).sum();
    assert!((parts - report.cost.total).abs() < 1e-6 && report.cost.total > 0.0, "{parts}");
    for line in &report.stock {
        let closing = line.opening + line.bought - line.used - line.wasted + line.found;
        assert!((closing - line.closing).abs() < 1e-9, "{line:?}");
    }
    assert_eq!(report.stock.len(), 5, "two kinds of base, cover stone, binder, and water that nobody booked in");
    let (left, judged) = (&report.left, report.left.by_severity.iter().map(|(_, count)| count).sum::<usize>());
    assert!(left.open >= left.judged && left.judged == judged && left.overdue == left.judged, "{left:?}");
    assert!(left.worst.windows(2).all(|pair| pair[0].risk >= pair[1].risk));
    assert!(!report.stop.first.is_empty() && report.stop.first.len() <= 10);
    let ratio = |line: &model::month_report::StopLine| line.renew_now[0] / line.patch_on[0];
    assert!(report.stop.all.windows(2).all(|pair| ratio(&pair[0]) <= ratio(&pair[1])));
    let crews = report.lasts.parts.iter().find(|part| part.by == "crew").unwrap();
    assert_eq!(crews.groups.iter().map(|group| group.n as usize).sum::<usize>(), report.lasts.lives);
    let again = with_facts(&read, UnitSystem::Si, month_report);
    assert_eq!(report, again, "the same record, the same report");
}

#[tokio::test]
async fn the_page_asks_nobody_and_runs_nothing() {
    let read = read(invented()).await;
    for units in [UnitSystem::Si, UnitSystem::UsCustomary] {
        let page = html(&sheet(&with_facts(&read, units, month_report), ENGLISH));
        assert!(page.contains("Hollowmere &lt;Reach&gt; &amp; co"), "names are no markup");
        assert!(page.contains("The road engineer decides."));
        for never in ["<script", "href=", "src=", "url(", "@import", "NaN", "inf "] {
            assert!(!page.contains(never), "{never}");
        }
        let addresses = page.matches("http").count();
        assert_eq!(addresses, page.matches("xmlns=\"http://www.w3.org/2000/svg\"").count());
        let (own, other) = if units == UnitSystem::Si { (" m²", " ft²") } else { (" ft²", " m²<") };
        assert!(page.contains(own) && !page.contains(other), "{units:?}");
    }
}

/// A stretch that got a new surface halfway: what was seen before does not tell what the new one bears.
#[tokio::test]
async fn under_a_new_surface_holes_and_time_count_anew() {
    let mut read = read(invented()).await;
    let before = with_facts(&read, UnitSystem::Si, month_report).stop.all;
    let worst = before.iter().max_by_key(|line| line.holes_seen).unwrap();
    let at = "2025-09-30T23:59:59Z".parse().unwrap();
    let on_it = |hole: &&ToldHole| {
        let place = hole.place.as_ref().unwrap();
        hole.counts() && (worst.from_m..worst.to_m).contains(&place.chainage_m)
    };
    let since = read.holes.iter().filter(on_it).filter(|hole| hole.told.is_some_and(|told| told > at)).count();
    let stretch_m = (worst.from_m, worst.to_m);
    read.study.resurfaced.push(Resurfaced { road: "1".into(), stretch_m, side: None, at });
    let after = with_facts(&read, UnitSystem::Si, month_report).stop.all;
    let same = |line: &&model::month_report::StopLine| line.from_m.to_bits() == worst.from_m.to_bits();
    let seen = after.iter().find(same).map_or(0, |line| line.holes_seen);
    assert!(worst.holes_seen > seen && seen as usize <= since, "{} {seen} {since}", worst.holes_seen);
    // beside it, the failure of a repair that lies under the new surface may be a new hole now; further off nothing changes
    let elsewhere = |lines: &[model::month_report::StopLine]| {
        let beside = |line: &&model::month_report::StopLine| {
            (line.from_m - worst.to_m).abs() < 1.0 || (line.to_m - worst.from_m).abs() < 1.0
        };
        let lines = lines.iter().filter(|line| !same(line) && !beside(line));
        lines.map(|line| (line.from_m.to_bits(), line.holes_seen)).collect::<std::collections::BTreeMap<_, _>>()
    };
    assert_eq!(elsewhere(&before), elsewhere(&after));
    // the whole road anew on the last day: nothing is known of it any more
    let at = "2026-06-30T23:59:59Z".parse().unwrap();
    read.study.resurfaced = vec![Resurfaced { road: "1".into(), stretch_m: (-1.0, 1e9), side: None, at }];
    let report = with_facts(&read, UnitSystem::Si, month_report);
    assert!(report.stop.nothing.contains("No new hole"), "{}", report.stop.nothing);
}

/// What is read of a page: no markup, no style, no drawing but its words.
fn read_of(page: &str) -> String {
    let (_, body) = page.split_once("</style>").unwrap();
    let mut text = String::new();
    for piece in body.split('<') {
        let (tag, words) = piece.split_once('>').unwrap_or(("", piece));
        // words of one cell don't run into those of the next
        text.push_str(if tag.starts_with(['/', '!']) { " " } else { "\n" });
        text.push_str(words);
    }
    text
}

fn page_in(read: &Read, units: UnitSystem, language: Language) -> String {
    html(&sheet(&with_facts(read, units, month_report), Words(language)))
}

#[tokio::test]
async fn the_report_in_spanish() {
    let read = read(invented()).await;
    let report = with_facts(&read, UnitSystem::Si, month_report);
    let mut sheet = sheet(&report, Words(Language::Spanish));
    sheet.footer = sheet.footer.replace(env!("CARGO_PKG_VERSION"), "VERSION");
    for plot in sheet.sections.iter_mut().flat_map(|section| &mut section.plots) {
        assert!(plot.svg.starts_with("<svg"));
        plot.svg.clear();
    }
    insta::assert_debug_snapshot!(sheet);
}

/// Words that every part of the English page has and none of another language's may have.
const ENGLISH_WORDS: [&str; 33] = [
    "the", "and", "of", "repairs", "repair", "holes", "hole", "was", "what", "cost", "cover", "stone", "water",
    "binder", "days", "day", "months", "road", "failed", "failures", "not", "known", "years", "renewed", "by", "with",
    "June", "summer", "March", "low", "high", "wet", "damp",
];

#[tokio::test]
async fn nothing_is_left_in_english_in_another_language() {
    let read = read(invented()).await;
    let of = |language| read_of(&page_in(&read, UnitSystem::UsCustomary, language));
    let found = |text: &str| -> Vec<&str> {
        let words: Vec<&str> = text.split(|c: char| !c.is_alphabetic()).collect();
        ENGLISH_WORDS.into_iter().filter(|word| words.contains(word)).collect()
    };
    let english = of(Language::English);
    assert!(found(&english).len() > 25, "{:?}", found(&english));
    for language in Language::ALL.into_iter().filter(|language| *language != Language::English) {
        let mut text = of(language);
        // names of the district, and of pages of the handbook
        for name in
            ["crushed rock 0/20, Gannet pit", "chippings 10 mm, Gannet pit", "stock-and-cost", "planned-and-actual"]
        {
            text = text.replace(name, "");
        }
        let left = found(&text.replace("risk-and-due", "").replace("hole-arrival", ""));
        assert!(left.is_empty(), "{language:?}: {left:?}");
    }
}

#[tokio::test]
async fn the_arabic_page_runs_from_right_to_left() {
    let read = read(invented()).await;
    let page = page_in(&read, UnitSystem::Si, Language::Arabic);
    assert!(page.contains("<html lang=\"ar\" dir=\"rtl\">"));
    assert_eq!(page.matches("<svg").count(), page.matches("direction=\"ltr\"").count(), "axes run as numbers do");
    // a spread keeps its order: what is made of digits and signs stands between marks
    assert!(page.contains("\u{200e}"));
    let english = page_in(&read, UnitSystem::Si, Language::English);
    assert!(english.contains("<html lang=\"en\" dir=\"ltr\">") && !english.contains('\u{200e}'));
    for language in Language::ALL {
        let page = page_in(&read, UnitSystem::Si, language);
        let digits = |text: &str| text.chars().filter(char::is_ascii_digit).count();
        assert!(digits(&read_of(&page)) > 500, "{language:?}");
    }
}

/// Every word that a study of lives has for a group that is no name is said in every language.
#[tokio::test]
async fn groups_of_every_property_are_said_in_the_language() {
    let read = read(invented()).await;
    let mut report = with_facts(&read, UnitSystem::Si, month_report);
    let example = report.lasts.parts.first().cloned().unwrap();
    let words = [
        ("wetness", vec!["dry", "damp", "wet", "seepage", "pumping", "not known"]),
        ("moisture", vec!["falls apart", "keeps its shape", "oozes"]),
        ("surface", vec!["dry surface", "wet surface"]),
        ("season", vec!["March to May", "June to August", "September to November", "December to February"]),
        ("month", vec!["month 06"]),
        ("drainage", vec!["ditch works", "ditch blocked", "kerb and gully", "gully blocked"]),
        ("drainage", vec!["verge higher than the road", "no drainage", "standing water"]),
        ("weather", vec!["dry weather", "dew, fog or drizzle", "rain within a day", "frost by night"]),
        ("temperature", vec!["under 5 °C", "5 to 15 °C", "25 °C and more"]),
        ("layers", vec!["1 layer", "2 layers"]),
        ("traffic", vec!["under 200 a day", "200 to 1000 a day", "4000 a day and more"]),
        ("rules", vec!["by the rules", "not by the rules"]),
        ("road-class", vec!["tertiary", "unclassified", "residential"]),
    ];
    let group = example.groups[0].clone();
    report.lasts.parts = words
        .iter()
        .map(|(by, names)| {
            let mut part = example.clone();
            part.by = (*by).to_owned();
            part.groups = names.iter().map(|name| LastsGroup { name: (*name).to_owned(), ..group.clone() }).collect();
            part
        })
        .collect();
    for language in [Language::Spanish, Language::Arabic] {
        let sheet = sheet(&report, Words(language));
        let rows = &sheet.sections.iter().find_map(|section| section.tables.iter().find(|t| t.wide == 1)).unwrap().rows;
        let said: Vec<&str> = rows.iter().map(|row| row[1].as_str()).collect();
        let own: Vec<&str> = words.iter().flat_map(|(_, names)| names.iter().copied()).collect();
        assert_eq!(said.len(), own.len());
        for (said, own) in said.iter().zip(&own) {
            assert!(said != own && !said.contains("layer") && !said.contains("day"), "{language:?}: {own} is {said}");
        }
    }
}

#[tokio::test]
async fn a_record_in_which_nothing_is_says_so() {
    let read = read(Vec::new()).await;
    let report = with_facts(&read, UnitSystem::Si, month_report);
    assert_eq!((report.done.repairs, report.left.open, report.cost.total), (0, 0, 0.0));
    assert!(report.stop.nothing.contains("Less than a quarter of a year"), "{}", report.stop.nothing);
    let page = html(&sheet(&report, ENGLISH));
    assert!(
        page.contains("Nothing was held or moved.") && page.contains("nothing yet by which repairs could be compared")
    );
    assert!(!page.contains("NaN"));
}

#[tokio::test]
async fn tables_read_back_are_what_was_written() {
    let read = read(invented()).await;
    let (report, tables): (MonthReport, Vec<MonthTable>) = with_facts(&read, UnitSystem::Si, |facts| {
        let report = month_report(facts);
        let tables = month_tables(facts, &report);
        (report, tables)
    });
    let names: Vec<&str> = tables.iter().map(|table| table.name).collect();
    assert_eq!(names, ["lives", "arrivals", "costs", "stop_patching", "columns"]);
    assert_eq!(tables[0].rows.len(), report.lasts.lives);
    let described: usize = tables[..4].iter().map(|table| table.columns.len()).sum();
    assert_eq!(tables[4].rows.len(), described, "every column is described");
    let roads = |table: &MonthTable| -> std::collections::BTreeSet<String> {
        let road = table.columns.iter().position(|column| column.name == "road").unwrap();
        table.rows.iter().map(|row| format!("{:?}", row[road])).collect()
    };
    let mut of_costs = roads(&tables[2]);
    // what was booked on no repair is of no road
    of_costs.remove("Nothing");
    assert!(of_costs.is_subset(&roads(&tables[1])), "costs and arrivals name roads alike: {of_costs:?}");
    for table in &tables {
        assert!(!table.rows.is_empty(), "{}", table.name);
        let bytes = table.parquet().unwrap();
        assert_eq!(bytes, table.parquet().unwrap(), "the same bytes");
        let reader = SerializedFileReader::new(parquet_bytes(bytes.clone())).unwrap();
        let rows: Vec<Vec<MonthCell>> = reader
            .get_row_iter(None)
            .unwrap()
            .map(|row| row.unwrap().get_column_iter().map(|(_, field)| cell(field)).collect())
            .collect();
        assert_eq!(rows, table.rows, "{}", table.name);
        let csv = table.csv();
        let mut lines = csv::Reader::from_reader(csv.as_bytes());
        let heads: Vec<&str> = table.columns.iter().map(|column| column.name).collect();
        assert_eq!(lines.headers().unwrap().iter().collect::<Vec<_>>(), heads);
        for (line, row) in lines.records().zip(&table.rows) {
            for ((text, cell), column) in line.unwrap().iter().zip(row).zip(&table.columns) {
                let same = match (column.kind, cell) {
                    (_, MonthCell::Nothing) => text.is_empty(),
                    (CellKind::Number, MonthCell::Number(number)) => text.parse::<f64>().unwrap() == *number,
                    (CellKind::Whole, MonthCell::Whole(whole)) => text.parse::<i64>().unwrap() == *whole,
                    (CellKind::YesNo, MonthCell::YesNo(yes)) => text.parse::<bool>().unwrap() == *yes,
                    (CellKind::Text, MonthCell::Text(words)) => text == words,
                    _ => false,
                };
                assert!(same, "{} {}: {text} {cell:?}", table.name, column.name);
            }
        }
        by_another_reader(table, &bytes);
    }
}

fn parquet_bytes(bytes: Vec<u8>) -> bytes::Bytes {
    bytes.into()
}

fn cell(field: &Field) -> MonthCell {
    match field {
        Field::Null => MonthCell::Nothing,
        Field::Str(text) => MonthCell::Text(text.clone()),
        Field::Double(number) => MonthCell::Number(*number),
        Field::Long(whole) => MonthCell::Whole(*whole),
        Field::Bool(yes) => MonthCell::YesNo(*yes),
        other => panic!("{other:?}"),
    }
}

/// Read with `pyarrow`, where Python has it: columns, rows and how many cells are empty.
fn by_another_reader(table: &MonthTable, bytes: &[u8]) {
    let has = std::process::Command::new("python3").args(["-c", "import pyarrow.parquet"]).output();
    if !has.is_ok_and(|output| output.status.success()) {
        println!("skipped: Python has no pyarrow, so no other program reads the Parquet file");
        return;
    }
    let file = std::env::temp_dir().join(format!("monthly-{}-{}.parquet", table.name, std::process::id()));
    std::fs::write(&file, bytes).unwrap();
    let script = "import sys, pyarrow.parquet as p; t = p.read_table(sys.argv[1]); print(t.num_rows, t.num_columns, sum(c.null_count for c in t.columns))";
    let output = std::process::Command::new("python3").args(["-c", script]).arg(&file).output().unwrap();
    std::fs::remove_file(&file).unwrap();
    let empty = table.rows.iter().flatten().filter(|cell| **cell == MonthCell::Nothing).count();
    let expected = format!("{} {} {empty}", table.rows.len(), table.columns.len());
    assert_eq!(String::from_utf8_lossy(&output.stdout).trim(), expected, "{}", String::from_utf8_lossy(&output.stderr));
}
