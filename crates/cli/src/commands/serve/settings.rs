//! What an agency sets for its server: `server.toml` in the data folder. Every key may be left out.

use std::num::NonZeroU32;
use std::path::Path;

use exchange::text_file::{Lines, as_text, read_bytes};
use jiff::SignedDuration;
use model::problem::{Locator, Problem, ProblemSeverity};
use serde::Deserialize;
use server::Settings;
use toml::Spanned;

/// The file's name.
pub(crate) const FILE: &str = "server.toml";

/// A whole number and where it stands.
type Number = Option<Spanned<i64>>;

#[derive(Deserialize, Default)]
#[serde(deny_unknown_fields, default)]
struct Written {
    sign_in: SignIn,
    keep: Keep,
    limits: Limits,
    reports: Reports,
}

#[derive(Deserialize, Default)]
#[serde(deny_unknown_fields, default)]
struct SignIn {
    session_hours: Number,
    device_days: Number,
    tries_per_minute: Number,
}

#[derive(Deserialize, Default)]
#[serde(deny_unknown_fields, default)]
struct Keep {
    contacts_days: Number,
}

#[derive(Deserialize, Default)]
#[serde(deny_unknown_fields, default)]
struct Limits {
    requests_per_second: Number,
    reports_per_minute: Number,
    clock_ahead_minutes: Number,
    batch_events: Number,
    batch_kilobytes: Number,
    photo_megabytes: Number,
    import_megabytes: Number,
}

#[derive(Deserialize, Default)]
#[serde(deny_unknown_fields, default)]
struct Reports {
    jurisdiction: Option<String>,
    agency: Option<String>,
    shows_words: Option<bool>,
}

/// Puts what the file in the folder says over the settings; without a file they stay.
///
/// # Errors
/// Everything that is wrong with the file, with line and column.
pub(crate) fn read(folder: &Path, settings: &mut Settings) -> Result<(), Vec<Problem>> {
    let path = folder.join(FILE);
    // A file that may not be looked at is told as such where it is read.
    if matches!(path.try_exists(), Ok(false)) {
        return Ok(());
    }
    let bytes = read_bytes(&path).map_err(|problem| vec![*problem])?;
    let file = path.display().to_string();
    let text = as_text(&file, &bytes).map_err(|problem| vec![*problem])?;
    put(&file, text.strip_prefix('\u{feff}').unwrap_or(text), settings)
}

fn put(file: &str, text: &str, settings: &mut Settings) -> Result<(), Vec<Problem>> {
    let lines = Lines::new(file, text.as_bytes());
    let written: Written = toml::from_str(text).map_err(|error| {
        let at = error.span().map_or_else(|| lines.whole(), |span| lines.locate(span.start));
        let wrong = error.message().trim().replace('\n', " ");
        vec![problem(at, wrong, "the keys of the handbook's page of the server, with whole numbers")]
    })?;
    let mut reading = Reading { lines, problems: Vec::new() };
    let Written { sign_in, keep, limits, reports } = written;
    let hour = SignedDuration::from_hours(1);
    reading.put(sign_in.session_hours, 1..=24 * 31, |hours| settings.session = hour * hours);
    reading.put(sign_in.device_days, 1..=3_660, |days| settings.device = hour * (24 * days));
    reading.put(sign_in.tries_per_minute, 1..=1_000, |tries| settings.tries_per_minute = count(tries));
    reading.put(keep.contacts_days, 1..=3_660, |days| settings.keep_contacts = hour * (24 * days));
    reading.put(limits.requests_per_second, 1..=1_000_000, |most| settings.requests_per_second = count(most));
    reading.put(limits.reports_per_minute, 1..=100_000, |most| settings.reports.per_minute = count(most));
    reading.put(limits.clock_ahead_minutes, 0..=60, |minutes| {
        settings.clock_tolerance = SignedDuration::from_mins(minutes.into());
    });
    let uploads = &mut settings.uploads;
    reading.put(limits.batch_events, 1..=10_000, |most| uploads.batch_events = most.unsigned_abs() as usize);
    reading.put(limits.batch_kilobytes, 64..=65_536, |most| uploads.batch_bytes = 1024 * most.unsigned_abs() as usize);
    reading.put(limits.photo_megabytes, 1..=1_000, |most| {
        uploads.photo_bytes = 1_000_000 * u64::from(most.unsigned_abs());
    });
    reading.put(limits.import_megabytes, 1..=4_000, |most| {
        uploads.import_bytes = 1_000_000 * u64::from(most.unsigned_abs());
    });
    settings.reports.jurisdiction = reports.jurisdiction.or(settings.reports.jurisdiction.take());
    settings.reports.agency = reports.agency.or(settings.reports.agency.take());
    settings.reports.shows_words = reports.shows_words.unwrap_or(settings.reports.shows_words);
    if reading.problems.is_empty() { Ok(()) } else { Err(reading.problems) }
}

struct Reading<'t> {
    lines: Lines<'t>,
    problems: Vec<Problem>,
}

impl Reading<'_> {
    /// Puts a number where it belongs, or says what is wrong with it.
    fn put(&mut self, number: Number, believed: std::ops::RangeInclusive<i32>, put: impl FnOnce(i32)) {
        let Some(number) = number else { return };
        if let Some(value) = i32::try_from(*number.get_ref()).ok().filter(|value| believed.contains(value)) {
            put(value);
        } else {
            let at = self.lines.locate(number.span().start);
            let wrong = format!("{} is too small or too large", number.get_ref());
            self.problems.push(problem(at, wrong, &format!("{} to {}", believed.start(), believed.end())));
        }
    }
}

/// Of a number that is known to be more than nothing.
fn count(number: i32) -> NonZeroU32 {
    NonZeroU32::new(number.unsigned_abs()).unwrap_or(NonZeroU32::MIN)
}

fn problem(at: Locator, wrong: String, right: &str) -> Problem {
    Problem {
        code: "server.settings",
        severity: ProblemSeverity::Fatal,
        at,
        subject: String::new(),
        wrong,
        right: right.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_counts_and_the_rest_stays() {
        let mut settings = Settings::default();
        let text = "[sign_in]\ndevice_days = 30\n[limits]\nimport_megabytes = 5\nbatch_kilobytes = 100\nclock_ahead_minutes = 0\n\
                    [keep]\ncontacts_days = 10\n[reports]\nagency = \"Alder Ridge\"\n";
        put("server.toml", text, &mut settings).unwrap();
        assert_eq!(settings.device, SignedDuration::from_hours(24 * 30));
        assert_eq!(settings.keep_contacts, SignedDuration::from_hours(240));
        assert_eq!(settings.clock_tolerance, SignedDuration::ZERO);
        assert_eq!((settings.uploads.import_bytes, settings.uploads.batch_bytes), (5_000_000, 102_400));
        assert_eq!(settings.reports.agency.as_deref(), Some("Alder Ridge"));
        let usual = Settings::default();
        assert_eq!(settings.session, usual.session);
        assert_eq!(settings.uploads.batch_events, usual.uploads.batch_events);
        assert_eq!(
            (settings.tries_per_minute, settings.requests_per_second),
            (usual.tries_per_minute, usual.requests_per_second)
        );
    }

    #[test]
    fn what_is_wrong_is_said_with_line_and_column() {
        let said = |text: &str| -> Vec<(usize, usize, String)> {
            let problems = put("server.toml", text, &mut Settings::default()).unwrap_err();
            problems.into_iter().map(|found| (found.at.line, found.at.column, found.wrong)).collect()
        };
        let both = said("[sign_in]\nsession_hours = 0\n\n[limits]\nphoto_megabytes =   99999999999\n");
        assert_eq!(both.len(), 2, "all at once");
        assert_eq!((both[0].0, both[0].1, both[1].0, both[1].1), (2, 17, 5, 21));
        for (text, line, words) in [
            ("[sign_in]\nsesion_hours = 3\n", 2, "sesion_hours"),
            ("[limits]\nbatch_events = \"many\"\n", 2, "invalid type"),
            ("[keep]\ncontacts_days = 1.5\n", 2, "invalid type"),
            ("[keep\n", 1, ""),
        ] {
            let found = said(text);
            assert!(found[0].0 == line && found[0].1 > 0 && found[0].2.contains(words), "{text}: {found:?}");
        }
    }
}
