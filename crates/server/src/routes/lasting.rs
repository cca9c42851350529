//! What lasts here, and the report of a month.

use std::collections::VecDeque;
use std::sync::Arc;

use axum::extract::State;
use axum::http::{HeaderMap, HeaderValue, header};
use axum::response::Response;
use jiff::civil::Date;
use lasting::effects::{AGES_DAYS, BetweenLooks, Effects, between_looks, effects, log_rank_within};
use lasting::groups::{WhatLasts, what_lasts};
use lasting::log_rank::LogRank;
use lasting::patch_lives::{Property, patch_lives, rows_by};
use model::month_report::MonthReport;
use serde::{Deserialize, Serialize};
use tokio::runtime::Handle;
use utoipa::IntoParams;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;
use words::{Language, Words};

use crate::access::Who;
use crate::answer;
use crate::body::{InPath, InQuery};
use crate::problem::Problem;
use crate::reporting::{Reporting, end_of, read_month, study};
use crate::state::Server;

pub(super) fn routes() -> OpenApiRouter<Server> {
    OpenApiRouter::new().routes(routes!(lasting)).routes(routes!(report))
}

/// By what, and until when.
#[derive(Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct Asked {
    /// What repairs are grouped by: `crew`, `material`, `binder`, `layers`, `moisture`, `wetness`, `surface`, `weather`,
    /// `temperature`, `month`, `season`, `road`, `road-class`, `traffic`, `drainage` or `rules`; without it, by crew.
    by: Option<String>,
    /// Compare groups within those of this property too, so that its own differences do not count.
    within: Option<String>,
    /// Properties held together, between commas: what goes with short lives where the others are alike.
    factors: Option<String>,
    /// Last day of the study; without it, now.
    #[param(value_type = Option<String>)]
    until: Option<Date>,
}

/// In what words.
#[derive(Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct InWords {
    /// Language of the PDF or page: `en`, `es`, `fr`, `pt` or `ar`; without it, the district's.
    language: Option<String>,
}

/// What lasts, grouped.
#[derive(Serialize)]
struct Lasts {
    /// What the groups are of.
    by: &'static str,
    /// What durations are counted in.
    unit: &'static str,
    /// When the study was made.
    at: jiff::Timestamp,
    /// Repairs that were begun and have no life yet.
    not_opened: u64,
    /// The test within another property; absent: not asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    within: Option<Within>,
    /// What properties go with, held together; absent: not asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    effects: Option<Effects>,
    /// By group, what lasts longer where failures are only known to lie between two looks; none: no failure was found at a look.
    between_looks: Vec<BetweenLooks>,
    /// Resurfacings that lie on no road of ours: the lives of repairs under them are not cut short.
    resurfaced_nowhere: u64,
    #[serde(flatten)]
    found: WhatLasts,
}

/// Groups compared within those of another property.
#[derive(Serialize)]
struct Within {
    /// Which.
    property: &'static str,
    /// The test; nothing: nothing can be compared.
    log_rank: Option<LogRank>,
}

/// Which repairs last: curves of groups, mean lives, whether they differ, in words.
#[utoipa::path(get, path = "/api/lasting", params(Asked), responses((status = 200, description = "`groups` (name, n, failures, too_few, times, survival, lower, upper, median), `log_rank`, `verdict`, `restricted_means`, `pairs`, `words`; `within`, `effects` where asked for; `between_looks`", body = Object)),
    extensions(("x-roles" = json!(["storekeeper", "engineer", "auditor"]))))]
async fn lasting(
    State(server): State<Server>,
    headers: HeaderMap,
    InQuery(asked): InQuery<Asked>,
) -> Result<Response, Problem> {
    let words = Property::ALL.map(Property::word).join(", ");
    let property = |what: &str, word: &str| {
        Property::of(word).ok_or_else(|| Problem::unusable(format!("{what} is one of {words}")))
    };
    let by = property("by", asked.by.as_deref().unwrap_or("crew"))?;
    let within = asked.within.as_deref().map(|word| property("within", word)).transpose()?;
    let factors = asked.factors.as_deref().unwrap_or_default().split(',').filter(|word| !word.is_empty());
    let factors: Vec<Property> =
        factors.map(|word| property("each of the factors", word)).collect::<Result<_, Problem>>()?;
    let zone = server.settings.shown.books.time_zone.clone();
    let now = server.now();
    let at = asked.until.map_or(now, |day| end_of(day, &zone).min(now));
    let _one = server.one_study.clone().lock_owned().await;
    let lasts = aside(server, move |server, handle| {
        let reporting = reporting(server)?;
        let studied = handle.block_on(study(&server.journal, &reporting, &zone, at, None))?;
        let lives = patch_lives(&studied.study);
        let found = what_lasts(&rows_by(&lives, by), "days", &reporting.rules).map_err(|error| {
            tracing::error!(%error, "lives of the record could not be counted");
            Problem::ours()
        })?;
        let held = (!factors.is_empty()).then(|| effects(&lives, &factors, &reporting.rules)).transpose();
        Ok(Lasts {
            by: by.word(),
            unit: "days",
            at,
            not_opened: studied.not_opened,
            resurfaced_nowhere: studied.resurfaced_nowhere,
            within: within
                .map(|within| Within { property: within.word(), log_rank: log_rank_within(&lives, by, within) }),
            effects: held.map_err(|error| Problem::unusable(format!("other factors: {error}")))?,
            between_looks: between_looks(&lives, by, &AGES_DAYS),
            found,
        })
    })
    .await?;
    answer::json(&headers, &lasts)
}

/// Long work on a thread of its own, reading included: placing thousands of holes on roads would keep others waiting.
async fn aside<T: Send + 'static>(
    server: Server,
    work: impl FnOnce(&Server, &Handle) -> Result<T, Problem> + Send + 'static,
) -> Result<T, Problem> {
    let handle = Handle::current();
    tokio::task::spawn_blocking(move || work(&server, &handle)).await.map_err(|_| Problem::ours())?
}

/// The report of a district's month: its figures as JSON, or to be read as PDF or HTML.
#[utoipa::path(get, path = "/api/reports/{file}", params(("file" = String, Path, description = "The month, e.g. `2026-06`, with `.pdf` or `.html` behind it for reading"), InWords),
    responses((status = 200, description = "What was done, cost, stock, risk left, what lasts, where patching nears its end", body = Object), (status = 404, description = "No such report", body = Problem)),
    extensions(("x-roles" = json!(["storekeeper", "engineer", "auditor"]))))]
async fn report(
    State(server): State<Server>,
    who: Who,
    headers: HeaderMap,
    InPath(name): InPath<String>,
    InQuery(asked): InQuery<InWords>,
) -> Result<Response, Problem> {
    let language = language(&server, asked.language.as_deref())?;
    let no_such = || Problem::not_found("a month such as 2026-06, with .pdf or .html behind it or without");
    let (month, kind) = name.split_once('.').map_or((name.as_str(), ""), |(month, kind)| (month, kind));
    let first =
        Some(month).filter(|month| month.len() == 7).and_then(|month| format!("{month}-01").parse::<Date>().ok());
    let first = first.filter(|first| (1970..=2150).contains(&first.year()) && ["", "pdf", "html"].contains(&kind));
    let report = made(&server, first.ok_or_else(no_such)?).await?;
    if kind.is_empty() {
        return answer::json(&headers, &*report);
    }
    let print = reporting(&server)?.print;
    let pdf = kind == "pdf";
    let written = move || {
        let sheet = monthly::sheet(&report, Words(language));
        if pdf { print(&sheet, report.until) } else { Ok(monthly::html(&sheet).into_bytes()) }
    };
    let bytes = tokio::task::spawn_blocking(written).await.map_err(|_| Problem::ours())?.map_err(|error| {
        tracing::error!(%error, "a report could not be printed");
        Problem::ours()
    })?;
    server.note(&who, "export", &name, true).await?;
    let media_type = if pdf { "application/pdf" } else { "text/html; charset=utf-8" };
    let mut response = answer::kept(&headers, media_type, bytes);
    if pdf && let Ok(disposition) = HeaderValue::from_str(&format!("inline; filename=\"{name}\"")) {
        response.headers_mut().insert(header::CONTENT_DISPOSITION, disposition);
    }
    Ok(response)
}

/// The language that is asked for, else the district's.
fn language(server: &Server, asked: Option<&str>) -> Result<Language, Problem> {
    let known = || Language::ALL.map(Language::code).join(", ");
    if let Some(code) = asked {
        return Language::of_code(code).ok_or_else(|| Problem::unusable(format!("language is one of {}", known())));
    }
    let file = server.settings.shown.file.as_ref();
    Ok(file.and_then(|file| Language::of_code(&file.language)).unwrap_or_default())
}

fn reporting(server: &Server) -> Result<Reporting<'_>, Problem> {
    server.planner.reporting().map_err(Problem::unusable)
}

async fn made(server: &Server, month: Date) -> Result<Arc<MonthReport>, Problem> {
    let now = server.now();
    let shown = &server.settings.shown;
    let today = shown.books.time_zone.to_datetime(now).date();
    if month > today {
        return Err(Problem::unusable("a month that has begun"));
    }
    // whoever waits for the same month finds it made
    let _one = server.one_study.lock().await;
    let (last, _) = server.journal.head().await?;
    if let Some(kept) = server.month_reports.lock().await.of(month, today, last) {
        return Ok(kept);
    }
    let report = aside(server.clone(), move |server, handle| {
        let shown = &server.settings.shown;
        let reporting = reporting(server)?;
        let read = read_month(&server.journal, &reporting, &shown.name, &shown.books, month, now);
        Ok(handle.block_on(read)?.report())
    });
    let report = Arc::new(report.await?);
    server.month_reports.lock().await.keep(today, Arc::clone(&report));
    Ok(report)
}

/// Reports made last: whoever looks at a month wants its page and its paper, and nothing has happened between.
#[derive(Default)]
pub(crate) struct KeptReports {
    /// With the day on which each was made, oldest first.
    reports: VecDeque<(Date, Arc<MonthReport>)>,
}

impl KeptReports {
    const MOST: usize = 3;

    fn of(&self, month: Date, today: Date, last: u64) -> Option<Arc<MonthReport>> {
        let kept =
            self.reports.iter().find(|(on, report)| report.month == month && *on == today && report.made_from == last);
        kept.map(|(_, report)| Arc::clone(report))
    }

    fn keep(&mut self, today: Date, report: Arc<MonthReport>) {
        self.reports.retain(|(_, kept)| kept.month != report.month);
        if self.reports.len() >= Self::MOST {
            self.reports.pop_front();
        }
        self.reports.push_back((today, report));
    }
}
