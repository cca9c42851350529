//! Reading the record and what is known from it.

use jiff::Timestamp;
use model::record::event::{Event, Recorded};
use model::record::happened::{Position, Subject};
use model::record::known::Known;
use sqlx::any::AnyRow;
use sqlx::{AssertSqlSafe, Row as _};

use crate::append::damaged;
use crate::cell::{Cells, cell_of_row, cells};
use crate::chain::hexadecimal;
use crate::journal::{Journal, JournalError};
use crate::key::{Key, key, time};
use crate::rows::{places, sought};
use crate::store::Backend;

/// What to read of what is known.
#[derive(Debug, Clone, PartialEq)]
pub struct Query {
    /// Which: `hole`, `repair`, `zone`, `round` or `resurfacing`.
    pub what: &'static str,
    /// Only those in one of these states; empty: all.
    pub states: Vec<String>,
    /// Only those in this box, degrees: west, south, east, north. West of east across the 180th meridian is understood.
    pub within: Option<[f64; 4]>,
    /// Only those of which something was told from this time on and up to that one.
    pub told: (Option<Timestamp>, Option<Timestamp>),
    /// Only those that changed in the record after this position.
    pub changed_after: Option<u64>,
    /// Only those whose numbers lie between these, ends included. Numbers of version 7 are in the order of time.
    pub numbers: Option<[Subject; 2]>,
    /// Whether the highest number comes first.
    pub backwards: bool,
    /// How many at most.
    pub limit: u32,
    /// What to begin after: the last one's number on the page before.
    pub after: Option<Subject>,
    /// Whether to count all.
    pub count: bool,
}

/// How many are read at a time where all are.
const EACH: u32 = 1_000;

/// What is known of one subject, and when it changed last.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Which.
    pub subject: Subject,
    /// Position of the event after which it was worked out.
    pub position: u64,
    /// Where it is; a repair is where its hole is.
    pub place: Option<Position>,
    /// What is known.
    pub known: Known,
}

/// Where and when something is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    /// Box around all places, degrees: west, south, east, north. Not across the 180th meridian.
    pub within: Option<[f64; 4]>,
    /// When something was first told last.
    pub first_told: Option<Timestamp>,
    /// When something was last told.
    pub last_told: Option<Timestamp>,
}

/// A page of them.
#[derive(Debug, Clone, PartialEq)]
pub struct Page {
    /// In the order of their numbers, or the other way round.
    pub rows: Vec<Row>,
    /// How many there are in all, if asked for.
    pub matched: Option<u64>,
    /// Whether more follow.
    pub more: bool,
}

impl Query {
    /// All of a kind, a page of them.
    pub fn all(what: &'static str, limit: u32) -> Self {
        Self {
            what,
            states: Vec::new(),
            within: None,
            told: (None, None),
            changed_after: None,
            numbers: None,
            backwards: false,
            limit,
            after: None,
            count: false,
        }
    }
}

/// A value for a place in a statement.
enum Value {
    Text(String),
    Whole(i64),
    Real(f64),
    Bytes(Vec<u8>),
}

impl Journal {
    /// What is known of one subject.
    pub async fn known(&self, subject: Subject) -> Result<Option<Row>, JournalError> {
        let row = sqlx::query("SELECT subject, position, lon, lat, body FROM known WHERE subject = $1")
            .bind(key(subject).to_vec())
            .fetch_optional(&self.pool)
            .await?;
        row.map(|row| read_known(&row)).transpose()
    }

    /// What is known of several subjects, in no order; those of which nothing is known are left out.
    pub async fn known_of(&self, subjects: &[Subject]) -> Result<Vec<Row>, JournalError> {
        let keys: Vec<Key> = subjects.iter().map(|subject| key(*subject)).collect();
        let mut known = Vec::with_capacity(keys.len());
        for run in sought(&keys) {
            let sql = format!(
                "SELECT subject, position, lon, lat, body FROM known WHERE subject IN {}",
                places(self.backend, 1, run.len())
            );
            let mut query = sqlx::query(AssertSqlSafe(sql));
            for key in &run {
                query = query.bind(key.to_vec());
            }
            for row in query.fetch_all(&self.pool).await? {
                known.push(read_known(&row)?);
            }
        }
        Ok(known)
    }

    /// All that is known of a kind, one after the other; a page of it is in memory at a time.
    pub async fn each(&self, what: &'static str, told: &mut dyn FnMut(Known)) -> Result<(), JournalError> {
        let mut query = Query::all(what, EACH);
        loop {
            let page = self.page(&query).await?;
            query.after = page.rows.last().map(|row| row.subject);
            page.rows.into_iter().for_each(|row| told(row.known));
            if !page.more {
                return Ok(());
            }
        }
    }

    /// A page of what is known.
    pub async fn page(&self, query: &Query) -> Result<Page, JournalError> {
        let mut conditions = Conditions::of(query, self.backend);
        let table = if query.within.is_some() { self.backend.known_by_place() } else { "known" };
        let matched = if query.count {
            let sql = format!("SELECT COUNT(*) FROM {table} WHERE {}", conditions.words());
            let row = bound(sql, &conditions.values).fetch_one(&self.pool).await?;
            Some(row.get::<i64, _>(0).cast_unsigned())
        } else {
            None
        };
        if let Some(after) = query.after {
            let after = conditions.place(Value::Bytes(key(after).to_vec()));
            let beyond = if query.backwards { '<' } else { '>' };
            conditions.all.push(format!("subject {beyond} {after}"));
        }
        let sql = format!(
            "SELECT subject, position, lon, lat, body FROM {table} WHERE {} ORDER BY subject {} LIMIT {}",
            conditions.words(),
            if query.backwards { "DESC" } else { "ASC" },
            u64::from(query.limit) + 1
        );
        let mut rows = Vec::new();
        for row in bound(sql, &conditions.values).fetch_all(&self.pool).await? {
            rows.push(read_known(&row)?);
        }
        let more = rows.len() > query.limit as usize;
        rows.truncate(query.limit as usize);
        Ok(Page { rows, matched, more })
    }

    /// Those of a kind of which something was known once and, since after that position, nothing is any more; in the order of their
    /// numbers.
    pub async fn gone(&self, what: &str, after: u64) -> Result<Vec<Subject>, JournalError> {
        let rows = sqlx::query(
            "SELECT subject, position FROM gone WHERE what = $1 AND position > $2 \
             AND NOT EXISTS (SELECT 1 FROM known WHERE known.subject = gone.subject) ORDER BY subject",
        )
        .bind(what)
        .bind(after.cast_signed())
        .fetch_all(&self.pool)
        .await?;
        let read = |row: &AnyRow| {
            let subject = crate::key::subject(&row.get::<Vec<u8>, _>(0));
            subject.ok_or_else(|| damaged(row.get(1), "a subject of no kind"))
        };
        rows.iter().map(read).collect()
    }

    /// Where and when all of a kind are.
    pub async fn span(&self, what: &str) -> Result<Span, JournalError> {
        let row = sqlx::query(
            "SELECT MIN(lon), MIN(lat), MAX(lon), MAX(lat), MIN(last_told), MAX(last_told) FROM known WHERE what = $1",
        )
        .bind(what)
        .fetch_one(&self.pool)
        .await?;
        let side = |index: usize| row.get::<Option<f64>, _>(index);
        let told = |index: usize| row.get::<Option<i64>, _>(index).map(time);
        let within = match (side(0), side(1), side(2), side(3)) {
            (Some(west), Some(south), Some(east), Some(north)) => Some([west, south, east, north]),
            _ => None,
        };
        Ok(Span { within, first_told: told(4), last_told: told(5) })
    }

    /// Events from a position on, in the order in which they came in.
    pub async fn events_after(&self, position: u64, limit: u32) -> Result<Vec<Recorded>, JournalError> {
        let sql = format!(
            "SELECT position, body, server_time, digest FROM event WHERE position > $1 ORDER BY position LIMIT {limit}"
        );
        let rows = sqlx::query(AssertSqlSafe(sql)).bind(position.cast_signed()).fetch_all(&self.pool).await?;
        rows.iter().map(read_recorded).collect()
    }

    /// All events about a subject, in the order in which they came in.
    pub async fn events_about(&self, subject: Subject) -> Result<Vec<Recorded>, JournalError> {
        let rows = sqlx::query(
            "SELECT e.position, e.body, e.server_time, e.digest FROM event_subject s JOIN event e ON e.position = s.position \
             WHERE s.subject = $1 ORDER BY e.position",
        )
        .bind(key(subject).to_vec())
        .fetch_all(&self.pool)
        .await?;
        rows.iter().map(read_recorded).collect()
    }

    /// The last position in the record and its digest, hexadecimal.
    pub async fn head(&self) -> Result<(u64, String), JournalError> {
        let row = sqlx::query("SELECT position, digest FROM head WHERE chain = 'event'").fetch_one(&self.pool).await?;
        Ok((row.get::<i64, _>(0).cast_unsigned(), hexadecimal(&row.get::<Vec<u8>, _>(1))))
    }
}

/// Conditions that all hold, and the values in them.
#[derive(Default)]
struct Conditions {
    all: Vec<String>,
    values: Vec<Value>,
}

impl Conditions {
    fn of(query: &Query, backend: Backend) -> Self {
        let mut it = Self::default();
        let what = it.place(Value::Text(query.what.to_owned()));
        it.all.push(format!("what = {what}"));
        if !query.states.is_empty() {
            let places: Vec<String> = query.states.iter().map(|state| it.place(Value::Text(state.clone()))).collect();
            it.all.push(format!("state IN ({})", places.join(", ")));
        }
        if let Some(within) = query.within {
            let cell = cell_of_row(backend);
            let condition = match cells(within) {
                // a list of none is no SQL; nothing is in a box upside down
                Cells::Few(few) if few.is_empty() => "1 = 0".to_owned(),
                Cells::Few(few) => format!("{cell} IN ({})", it.list(&few)),
                Cells::Between(first, last) => {
                    let [first, last] = [first, last].map(|cell| it.place(Value::Whole(cell)));
                    format!("{cell} >= {first} AND {cell} <= {last}")
                }
            };
            it.all.push(condition);
            let [west, south, east, north] = within;
            let joined = if west <= east { "AND" } else { "OR" };
            let [west, south, east, north] = [west, south, east, north].map(|degrees| it.place(Value::Real(degrees)));
            it.all.push(format!("lat >= {south} AND lat <= {north} AND (lon >= {west} {joined} lon <= {east})"));
        }
        if let Some(from) = query.told.0 {
            let from = it.place(Value::Whole(from.as_microsecond()));
            it.all.push(format!("last_told >= {from}"));
        }
        if let Some(to) = query.told.1 {
            let to = it.place(Value::Whole(to.as_microsecond()));
            it.all.push(format!("last_told <= {to}"));
        }
        if let Some(position) = query.changed_after {
            let position = it.place(Value::Whole(position.cast_signed()));
            it.all.push(format!("position > {position}"));
        }
        if let Some(ends) = query.numbers {
            let [first, last] = ends.map(|end| it.place(Value::Bytes(key(end).to_vec())));
            it.all.push(format!("subject >= {first} AND subject <= {last}"));
        }
        it
    }

    /// A list of numbers, the last several times, so that few different statements are made.
    fn list(&mut self, numbers: &[i64]) -> String {
        let places: Vec<String> = sought(numbers).flatten().map(|number| self.place(Value::Whole(number))).collect();
        places.join(", ")
    }

    fn place(&mut self, value: Value) -> String {
        self.values.push(value);
        format!("${}", self.values.len())
    }

    fn words(&self) -> String {
        self.all.join(" AND ")
    }
}

/// The statement with its values; its text is made of words of ours and places only.
fn bound(sql: String, values: &[Value]) -> sqlx::query::Query<'_, sqlx::Any, sqlx::any::AnyArguments> {
    let mut query = sqlx::query(AssertSqlSafe(sql));
    for value in values {
        query = match value {
            Value::Text(text) => query.bind(text.as_str()),
            Value::Whole(number) => query.bind(*number),
            Value::Real(number) => query.bind(*number),
            Value::Bytes(bytes) => query.bind(bytes.clone()),
        };
    }
    query
}

/// An event of a row that begins with position and body.
pub(crate) fn read_event(row: &AnyRow) -> Result<(i64, Event), JournalError> {
    let position: i64 = row.get(0);
    let body: &str = row.get(1);
    let event = serde_json::from_str(body).map_err(|error| damaged(position, &error.to_string()))?;
    Ok((position, event))
}

fn read_recorded(row: &AnyRow) -> Result<Recorded, JournalError> {
    let (position, event) = read_event(row)?;
    Ok(Recorded {
        position: position.cast_unsigned(),
        server_time: time(row.get(2)),
        digest: hexadecimal(&row.get::<Vec<u8>, _>(3)),
        event,
    })
}

fn read_known(row: &AnyRow) -> Result<Row, JournalError> {
    let position: i64 = row.get(1);
    let subject =
        crate::key::subject(&row.get::<Vec<u8>, _>(0)).ok_or_else(|| damaged(position, "a subject of no kind"))?;
    let body: &str = row.get(4);
    let known = serde_json::from_str(body).map_err(|error| damaged(position, &error.to_string()))?;
    let place = match (row.get::<Option<f64>, _>(2), row.get::<Option<f64>, _>(3)) {
        (Some(lon), Some(lat)) => Some(Position { lon, lat }),
        _ => None,
    };
    Ok(Row { subject, position: position.cast_unsigned(), place, known })
}

/// What the database can look for.
pub(crate) struct Columns {
    pub what: &'static str,
    pub state: String,
    pub place: Option<Position>,
    pub last_told: Timestamp,
}

pub(crate) fn in_columns(known: &Known) -> Columns {
    match known {
        Known::Hole(hole) => Columns {
            what: "hole",
            state: word(&hole.state),
            place: hole.position.as_ref().map(|told| told.value),
            last_told: hole.last_told,
        },
        Known::Repair(repair) => {
            Columns { what: "repair", state: word(&repair.state), place: repair.position, last_told: repair.last_told }
        }
        Known::Zone(zone) => Columns {
            what: "zone",
            state: if zone.closed.is_some() { "closed" } else { "open" }.to_owned(),
            place: zone.position.as_ref().map(|told| told.value),
            last_told: zone.last_told,
        },
        Known::Round(round) => Columns {
            what: "round",
            // days can be looked for like states
            state: round.date.as_ref().map_or_else(String::new, |told| told.value.to_string()),
            place: None,
            last_told: round.last_told,
        },
        Known::Resurfacing(resurfacing) => Columns {
            what: "resurfacing",
            // days can be looked for like states
            state: resurfacing.date.value.to_string(),
            place: Some(resurfacing.from.value),
            last_told: resurfacing.last_told,
        },
    }
}

/// The word that a state is written as.
fn word(state: &impl serde::Serialize) -> String {
    serde_json::to_value(state).ok().and_then(|value| value.as_str().map(str::to_owned)).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::store::Location;

    /// Else every look at a map would go through all that is known.
    #[tokio::test]
    async fn a_box_is_looked_up_by_its_cells() {
        let folder = tempfile::TempDir::new().unwrap();
        let journal = Journal::open(&Location::in_folder(folder.path())).await.unwrap();
        for within in [[7.0, 47.0, 7.001, 47.001], [179.99, 47.0, -179.99, 47.1], [0.0, 40.0, 20.0, 50.0]] {
            let query = Query { within: Some(within), ..Query::all("hole", 10) };
            let conditions = Conditions::of(&query, journal.backend);
            let (table, words) = (journal.backend.known_by_place(), conditions.words());
            let sql = format!("EXPLAIN QUERY PLAN SELECT body FROM {table} WHERE {words} ORDER BY subject");
            let plan = bound(sql, &conditions.values).fetch_all(&journal.pool).await.unwrap();
            let plan: Vec<String> = plan.iter().map(|row| row.get("detail")).collect();
            assert!(plan[0].contains("known_by_cell (what=? AND <expr>"), "{plan:?}");
        }
    }
}
