//! What every route works with.

use std::num::NonZeroU32;
use std::path::PathBuf;
use std::sync::Arc;

use governor::{DefaultKeyedRateLimiter, Quota, RateLimiter};
use intake::open311::Office;
use jiff::{SignedDuration, Timestamp};
use journal::people::{Pass, PassKind};
use journal::plan_files::PlanFile;
use journal::{Journal, JournalError};
use model::record::known::Known;
use tokio::sync::Mutex;

use crate::cutting::{CutAsked, CutShown};
use crate::metrics::Metrics;
use crate::reporting::Reporting;
use crate::reports::ReportSettings;
use crate::routes::books::KeptBooks;
use crate::routes::lasting::KeptReports;
use crate::secrets::{Secret, random};
use crate::shown::District;
use crate::weather::Weather;

/// What an agency sets.
#[derive(Debug, Clone)]
pub struct Settings {
    /// Address that links to this server begin with, without a slash at the end.
    pub address: String,
    /// Where the district lies, degrees: west, south, east, north; places outside are refused. `None`: anywhere.
    pub district: Option<[f64; 4]>,
    /// What is shown of the district besides the record.
    pub shown: District,
    /// Folder for photos.
    pub photos: PathBuf,
    /// How long somebody stays signed in.
    pub session: SignedDuration,
    /// How long a device stays known.
    pub device: SignedDuration,
    /// How long reporters' contact data is kept.
    pub keep_contacts: SignedDuration,
    /// How far in the future a device's time may lie: clocks differ.
    pub clock_tolerance: SignedDuration,
    /// Tries to sign in from one address, a minute.
    pub tries_per_minute: NonZeroU32,
    /// Requests from one address, a second.
    pub requests_per_second: NonZeroU32,
    /// Whether cookies go over encrypted connections only; off only for tests.
    pub secure_cookies: bool,
    /// Plans and imports worked on at a time in this process; none where others work on them.
    pub workers: usize,
    /// How reports of the public are taken.
    pub reports: ReportSettings,
    /// How much may be sent at once.
    pub uploads: UploadLimits,
}

/// How much may be sent at once.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct UploadLimits {
    /// Events of a batch.
    pub batch_events: usize,
    /// Bytes of a batch.
    pub batch_bytes: usize,
    /// Bytes of a photo.
    pub photo_bytes: u64,
    /// Bytes of an export to be imported.
    pub import_bytes: u64,
}

impl Default for UploadLimits {
    /// Common practice, no source.
    fn default() -> Self {
        Self { batch_events: 2_000, batch_bytes: 4 * 1024 * 1024, photo_bytes: 40_000_000, import_bytes: 400_000_000 }
    }
}

impl Default for Settings {
    /// Common practice, no source.
    fn default() -> Self {
        Self {
            address: "http://127.0.0.1:8080".to_owned(),
            district: None,
            shown: District::default(),
            photos: PathBuf::from("photos"),
            session: SignedDuration::from_hours(12),
            device: SignedDuration::from_hours(24 * 365),
            keep_contacts: SignedDuration::from_hours(24 * 180),
            clock_tolerance: SignedDuration::from_mins(5),
            tries_per_minute: NonZeroU32::new(10).unwrap_or(NonZeroU32::MIN),
            requests_per_second: NonZeroU32::new(500).unwrap_or(NonZeroU32::MIN),
            secure_cookies: true,
            workers: 1,
            reports: ReportSettings::default(),
            uploads: UploadLimits::default(),
        }
    }
}

/// Tells all that is known of rounds, then of repairs, one after the other: it need not fit into memory.
pub type EachKnown<'a> = dyn FnMut(&mut dyn FnMut(Known)) -> Result<(), String> + 'a;

/// Plans rounds and what else is the trade's; its stages are behind it.
pub trait Planner: Send + Sync {
    /// Plans what the input (JSON) asks for and gives the plan (JSON), or what is wrong in words.
    ///
    /// Tells how far it is, 0 to 1, with words; where that answers `false` nobody wants the plan any more. Gives the files of each
    /// round to `keep`; what that answers as wrong ends it. Does the same every time for the same input and record, so that it can
    /// begin anew when its process is gone.
    fn plan(
        &self,
        input: &str,
        record: &mut EachKnown,
        keep: &mut dyn FnMut(Vec<PlanFile>) -> Result<(), String>,
        progress: &mut dyn FnMut(f64, &str) -> bool,
    ) -> Result<String, String>;

    /// The weather to come and what it allows, where a forecast is there; what is wrong with it in words.
    fn weather(&self) -> Result<Weather, String>;

    /// Marks a hole out and works its repair out, or says in words why that can't be.
    fn cut(&self, asked: &CutAsked) -> Result<CutShown, String>;

    /// What reports need of the trade and the district, or what is wrong in words.
    fn reporting(&self) -> Result<Reporting<'_>, String>;
}

/// The server's state; cheap to clone.
#[derive(Clone)]
pub struct Server {
    pub(crate) journal: Journal,
    pub(crate) settings: Arc<Settings>,
    pub(crate) planner: Arc<dyn Planner>,
    clock: Arc<dyn Fn() -> Timestamp + Send + Sync>,
    pub(crate) sign_in_tries: Arc<DefaultKeyedRateLimiter<String>>,
    pub(crate) requests: Arc<DefaultKeyedRateLimiter<String>>,
    pub(crate) reports: Arc<Reports>,
    pub(crate) books: Arc<Mutex<KeptBooks>>,
    pub(crate) month_reports: Arc<Mutex<KeptReports>>,
    /// The whole record is read for one study at a time: each may need much memory and a core.
    pub(crate) one_study: Arc<Mutex<()>>,
    pub(crate) metrics: Arc<Metrics>,
}

/// What taking reports of the public needs.
pub(crate) struct Reports {
    pub office: Office,
    pub from_address: DefaultKeyedRateLimiter<String>,
    /// Goes into numbers that are made of what was sent and by whom, so that nobody finds out by trying who it was.
    pub secret: [u8; 32],
    /// Held from looking for the same hole until the report is in the record.
    pub one_at_a_time: Mutex<()>,
}

impl Server {
    /// A server over a record; the clock is passed in.
    pub fn new(
        journal: Journal,
        settings: Settings,
        planner: Arc<dyn Planner>,
        clock: Arc<dyn Fn() -> Timestamp + Send + Sync>,
    ) -> Self {
        let tries = Quota::per_minute(settings.tries_per_minute);
        let requests = Quota::per_second(settings.requests_per_second);
        let reports = Reports {
            office: settings.reports.office(settings.district, settings.shown.books.time_zone.clone()),
            from_address: RateLimiter::keyed(Quota::per_minute(settings.reports.per_minute)),
            secret: random(),
            one_at_a_time: Mutex::new(()),
        };
        Self {
            journal,
            reports: Arc::new(reports),
            books: Arc::default(),
            month_reports: Arc::default(),
            one_study: Arc::default(),
            settings: Arc::new(settings),
            planner,
            clock,
            sign_in_tries: Arc::new(RateLimiter::keyed(tries)),
            requests: Arc::new(RateLimiter::keyed(requests)),
            metrics: Arc::new(Metrics::default()),
        }
    }

    /// The time.
    pub fn now(&self) -> Timestamp {
        (self.clock)()
    }

    /// Ends the record's connections; what was acknowledged is on disk.
    pub async fn close(&self) {
        self.journal.close().await;
    }

    /// If nobody has an account yet: a link with which the first one is made. It works once, for a day; an older one no more.
    pub async fn set_up_link(&self) -> Result<Option<String>, JournalError> {
        if !self.journal.accounts().await?.is_empty() {
            return Ok(None);
        }
        let now = self.now();
        let secret = Secret::new();
        let ends_at = now.checked_add(SignedDuration::from_hours(24)).unwrap_or(now);
        let pass = Pass { kind: PassKind::SetUp, account: None, name: String::new(), ends_at };
        self.journal.end_passes_for(PassKind::SetUp).await?;
        self.journal.give_pass(&secret.digest(), &pass, now).await?;
        // behind a `#`, so that it is in no log of any server between
        Ok(Some(format!("{}/#set-up={}", self.settings.address, secret.text())))
    }
}
