//! The books of a period: stock, cost, planned against actual, what to order; as JSON, CSV, or a workbook.

use std::collections::VecDeque;
use std::sync::Arc;

use axum::extract::State;
use axum::http::{HeaderMap, HeaderValue, header};
use axum::response::Response;
use jiff::civil::Date;
use ledger::{Books, Period, Table, books};
use serde::Deserialize;
use utoipa::IntoParams;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::access::Who;
use crate::answer;
use crate::body::{InPath, InQuery};
use crate::problem::Problem;
use crate::state::Server;

pub(super) fn routes() -> OpenApiRouter<Server> {
    OpenApiRouter::new().routes(routes!(shown)).routes(routes!(file))
}

/// Which days.
#[derive(Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct Days {
    /// First day; without it the first of this month.
    #[param(value_type = Option<String>)]
    from: Option<Date>,
    /// Last day; without it today.
    #[param(value_type = Option<String>)]
    to: Option<Date>,
}

/// The books of a period.
#[utoipa::path(get, path = "/api/books", params(Days), responses((status = 200, description = "Stock, cost, planned against actual, orders, findings", body = Object)),
    extensions(("x-roles" = json!(["storekeeper", "engineer", "auditor"]))))]
async fn shown(
    State(server): State<Server>,
    headers: HeaderMap,
    InQuery(days): InQuery<Days>,
) -> Result<Response, Problem> {
    answer::json(&headers, &*made(&server, &days).await?)
}

/// A table of the books as CSV, or all of them as a workbook.
#[utoipa::path(get, path = "/api/books/{file}", params(("file" = String, Path,
        description = "`books.xlsx`, or `moves.csv`, `balances.csv`, `totals.csv`, `costs.csv`, `planned.csv`, `lots.csv`, `orders.csv`, `findings.csv`"), Days),
    responses((status = 200, description = "The file", content_type = "text/csv", body = String), (status = 404, description = "No such table", body = Problem)),
    extensions(("x-roles" = json!(["storekeeper", "engineer", "auditor"]))))]
async fn file(
    State(server): State<Server>,
    who: Who,
    headers: HeaderMap,
    InPath(name): InPath<String>,
    InQuery(days): InQuery<Days>,
) -> Result<Response, Problem> {
    let table = match name.as_str() {
        "books.xlsx" => None,
        "moves.csv" => Some(Table::Moves),
        "balances.csv" => Some(Table::Balances),
        "totals.csv" => Some(Table::Totals),
        "costs.csv" => Some(Table::Costs),
        "planned.csv" => Some(Table::PlannedAgainstActual),
        "lots.csv" => Some(Table::Lots),
        "orders.csv" => Some(Table::Orders),
        "findings.csv" => Some(Table::Findings),
        _ => return Err(Problem::not_found("books.xlsx, or the name of a table with .csv behind it")),
    };
    let books = made(&server, &days).await?;
    let (media_type, bytes) = if let Some(table) = table {
        ("text/csv; charset=utf-8", books.csv(table).into_bytes())
    } else {
        let workbook = books.workbook().map_err(|error| {
            tracing::error!(%error, "a workbook could not be written");
            Problem::ours()
        })?;
        ("application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", workbook)
    };
    server.note(&who, "export", &name, true).await?;
    let mut response = answer::kept(&headers, media_type, bytes);
    if let Ok(disposition) = HeaderValue::from_str(&format!("attachment; filename=\"{name}\"")) {
        response.headers_mut().insert(header::CONTENT_DISPOSITION, disposition);
    }
    Ok(response)
}

async fn made(server: &Server, days: &Days) -> Result<Arc<Books>, Problem> {
    let of_district = &server.settings.shown.books;
    let today = of_district.time_zone.to_datetime(server.now()).date();
    let to = days.to.unwrap_or(today);
    let period = Period { from: days.from.unwrap_or_else(|| to.first_of_month()), to };
    if period.from > period.to {
        return Err(Problem::unusable("from is not after to"));
    }
    if period.from.year() < 1970 || period.to.year() > 2150 {
        return Err(Problem::unusable("days lie in the years 1970 to 2150"));
    }
    let (last, _) = server.journal.head().await?;
    if let Some(kept) = server.books.lock().await.of(period, last) {
        return Ok(kept);
    }
    let settings = ledger::Settings { period, ..of_district.clone() };
    let (events, after) = server.journal.all_events().await?;
    // a long piece of work that answers to nobody else meanwhile
    let made = tokio::task::spawn_blocking(move || books(&events, &settings)).await.map_err(|_| Problem::ours())?;
    let made = Arc::new(made);
    server.books.lock().await.keep(period, after, Arc::clone(&made));
    Ok(made)
}

/// Books made last: whoever looks at a month takes its tables one after the other, and nothing has happened between.
#[derive(Default)]
pub(crate) struct KeptBooks {
    /// With the last event in them, oldest first.
    books: VecDeque<(Period, u64, Arc<Books>)>,
}

impl KeptBooks {
    /// Periods that are looked at side by side.
    const MOST: usize = 3;

    fn of(&self, period: Period, last: u64) -> Option<Arc<Books>> {
        let kept = self.books.iter().find(|(of, up_to, _)| *of == period && *up_to == last);
        kept.map(|(_, _, books)| Arc::clone(books))
    }

    fn keep(&mut self, period: Period, last: u64, books: Arc<Books>) {
        self.books.retain(|(of, ..)| *of != period);
        if self.books.len() >= Self::MOST {
            self.books.pop_front();
        }
        self.books.push_back((period, last, books));
    }
}
