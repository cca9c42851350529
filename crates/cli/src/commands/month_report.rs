//! `lengthsman report`: a district's month from its record.

use std::path::{Path, PathBuf};

use jiff::Timestamp;
use jiff::civil::Date;
use model::month_report::MonthReport;
use model::problem::Problem;
use monthly::{MonthTable, html, sheet};
use server::reporting::{MonthRead, read_month};
use words::{Language, Words};

use super::record::{RecordFlags, make_folder, now, run as run_record};
use super::road_places::RecordDistrict;
use super::serve::book_settings;
use crate::outcome::Outcome;
use crate::progress::Progress;
use crate::report;
use crate::show::print_json;

#[derive(Debug, clap::Args)]
#[command(
    after_help = "Writes PDF and HTML beside each other, named by the month. What the record does not tell is said in the report. Whether a road is \
patched on or renewed is the road engineer's decision."
)]
pub(crate) struct Arguments {
    #[command(flatten)]
    record: RecordFlags,
    /// The month, e.g. 2026-06.
    #[arg(long, value_name = "YEAR-MONTH", value_parser = month)]
    month: Date,
    /// Folder to write into.
    #[arg(long, value_name = "FOLDER", required_unless_present_any = ["json", "tables"])]
    out: Option<PathBuf>,
    /// Folder for the tables behind it, CSV and Parquet, with a table of their columns.
    #[arg(long, value_name = "FOLDER")]
    tables: Option<PathBuf>,
    /// Print the report's figures as JSON.
    #[arg(long)]
    json: bool,
    /// Language of PDF and HTML, in place of the district's: en, es, fr, pt or ar.
    #[arg(long, value_name = "CODE", value_parser = crate::input::language)]
    language: Option<Language>,
}

/// The first day of a month.
pub(super) fn month(text: &str) -> Result<Date, String> {
    let wrong = || "write year and month, e.g. 2026-06".to_owned();
    if text.len() != 7 {
        return Err(wrong());
    }
    crate::input::day(&format!("{text}-01")).map_err(|_| wrong())
}

pub(crate) fn run(arguments: &Arguments) -> Outcome {
    run_record(async {
        let (report, tables, language) = Box::pin(made(arguments)).await?;
        if arguments.json {
            print_json(&serde_json::to_value(&report).unwrap_or_default());
        }
        if let Some(folder) = &arguments.out {
            make_folder(folder)?;
            let name = report.month.strftime("%Y-%m").to_string();
            let words = sheet(&report, Words(arguments.language.unwrap_or(language)));
            let pdf = jobpack::month_report_pdf(&words, report.until).map_err(|error| error.to_string())?;
            write(&folder.join(format!("{name}.pdf")), &pdf)?;
            write(&folder.join(format!("{name}.html")), html(&words).as_bytes())?;
        }
        if let Some(folder) = &arguments.tables {
            make_folder(folder)?;
            for table in &tables {
                write(&folder.join(format!("{}.csv", table.name)), table.csv().as_bytes())?;
                let parquet = table.parquet().map_err(|error| error.to_string())?;
                write(&folder.join(format!("{}.parquet", table.name)), &parquet)?;
            }
        }
        Ok(())
    })
}

async fn made(arguments: &Arguments) -> Result<(MonthReport, Vec<MonthTable>, Language), String> {
    let (read, language) = Box::pin(read(&arguments.record, Some(arguments.month), now())).await?;
    let (report, tables) = read.report_and_tables();
    Ok((report, tables, language))
}

/// All that a month's report is made of, and the district's language; without a month, that of `now`.
pub(super) async fn read(
    record: &RecordFlags,
    month: Option<Date>,
    now: Timestamp,
) -> Result<(MonthRead, Language), String> {
    let told = |problems: Vec<Problem>| {
        report::print(&problems);
        "the district can't be read".to_owned()
    };
    let mut progress = Progress::new();
    let journal = record.open().await?;
    let district = RecordDistrict::of_folder(&record.data, &mut progress).map_err(told)?;
    let Some(setting) = &district.setting else {
        return Err(format!("put the district file at {}", record.data.join("district.toml").display()));
    };
    let today = district.zone.to_datetime(now).date();
    let month = month.unwrap_or(today.first_of_month());
    if month > today {
        return Err(format!("{} has not begun", month.strftime("%Y-%m")));
    }
    let reporting = district.reporting(&record.data).map_err(told)?;
    let settings = book_settings(&setting.district, &record.data).map_err(told)?;
    progress.at("reading the record", 0.0);
    let read = read_month(&journal, &reporting, &setting.district.name, &settings, month, now).await;
    progress.done();
    let language = Language::of_code(&setting.district.language).unwrap_or_default();
    Ok((read.map_err(|error| error.to_string())?, language))
}

fn write(path: &Path, content: &[u8]) -> Result<(), String> {
    std::fs::write(path, content).map_err(|error| format!("{}: {error}", path.display()))?;
    eprintln!("written: {}", path.display());
    Ok(())
}
