//! What a client asks of a collection.

mod bounds;
mod time;

use serde_json::{Number, Value};

pub use time::Interval;

use crate::collection::{Collection, Property, PropertyKind};
use crate::crs::Crs;
use crate::lon_lat_box::LonLatBox;
use crate::refusal::{BadParameter, Refusal};

/// Features on a page where the client does not say how many.
pub const LIMIT_DEFAULT: usize = 100;
/// Features on a page at most; a greater `limit` means this one.
pub const LIMIT_MOST: usize = 10_000;
/// Longest cursor, bytes. Ours are numbers of features.
const CURSOR_MOST: usize = 200;
/// More parameters than this are no question but an attack.
const PARAMETERS_MOST: usize = 100;

/// What a client asks of a collection, read and checked.
#[derive(Debug, Clone, PartialEq)]
pub struct FeatureQuery {
    /// Features that touch this box. Where the client gave it in a grid, the box around the client's.
    pub bounds: Option<LonLatBox>,
    /// Features whose time meets this one.
    pub time: Option<Interval>,
    /// Features whose properties have these values, all of them.
    pub filters: Vec<Filter>,
    /// Features on a page at most, 1 to [`LIMIT_MOST`].
    pub limit: usize,
    /// Where the page begins: what [`crate::Page::next`] of the page before said.
    pub cursor: Option<String>,
    /// The system that coordinates are wanted in.
    pub crs: Crs,
    /// The parameters as given, without the cursor, for links to other pages.
    pub(crate) given: Vec<(String, String)>,
}

/// A property must have this value.
#[derive(Debug, Clone, PartialEq)]
pub struct Filter {
    /// Its name.
    pub property: &'static str,
    /// The value.
    pub value: Value,
}

impl FeatureQuery {
    /// Reads the part of an address behind the `?`.
    ///
    /// # Errors
    /// [`Refusal::BadParameters`] with every parameter that is not known or can't be used.
    pub fn read(collection: Collection, query: &str, offered: &[Crs]) -> Result<FeatureQuery, Refusal> {
        let mut parameters = Parameters::read(query)?;
        let crs = parameters.take("crs", |text| crs_of(text, offered)).unwrap_or(Crs::Crs84);
        let bounds_crs = parameters.take("bbox-crs", |text| crs_of(text, offered)).unwrap_or(Crs::Crs84);
        let bounds = parameters.take("bbox", |text| bounds::read(text, bounds_crs));
        let time = parameters.take("datetime", time::read);
        let limit = parameters.take("limit", limit).unwrap_or(LIMIT_DEFAULT);
        let cursor = parameters.take("cursor", cursor).flatten();
        let mut filters = Vec::new();
        for property in collection.properties().iter().filter(|property| property.filter) {
            if let Some(value) = parameters.take(property.name, |text| value_of(property, text)) {
                filters.push(Filter { property: property.name, value });
            }
        }
        let known = collection.properties().iter().filter(|p| p.filter).map(|p| p.name);
        let known: Vec<&str> =
            ["bbox", "bbox-crs", "crs", "datetime", "limit", "cursor"].into_iter().chain(known).collect();
        let mut given = parameters.finish(&known)?;
        given.retain(|(name, _)| name != "cursor");
        Ok(FeatureQuery { bounds, time, filters, limit, cursor, crs, given })
    }
}

/// Reads the part behind the `?` where only the system of coordinates may be said.
pub(crate) fn read_crs(query: &str, offered: &[Crs]) -> Result<Crs, Refusal> {
    let mut parameters = Parameters::read(query)?;
    let crs = parameters.take("crs", |text| crs_of(text, offered)).unwrap_or(Crs::Crs84);
    parameters.finish(&["crs"])?;
    Ok(crs)
}

/// Reads the part behind the `?` where nothing may be said.
pub(crate) fn read_nothing(query: &str) -> Result<(), Refusal> {
    Parameters::read(query)?.finish(&[]).map(|_| ())
}

/// What a reader of one value says when it can't be used: what was wrong, what would be right.
type Wrong = (String, String);

/// Parameters of a request, each taken once; what is left is not known.
struct Parameters {
    given: Vec<(String, String)>,
    left: Vec<(String, String)>,
    bad: Vec<BadParameter>,
}

impl Parameters {
    fn read(query: &str) -> Result<Parameters, Refusal> {
        let given: Vec<(String, String)> =
            form_urlencoded::parse(query.as_bytes()).into_owned().take(PARAMETERS_MOST + 1).collect();
        if given.len() > PARAMETERS_MOST {
            let wrong = format!("more than {PARAMETERS_MOST} parameters");
            let right = "say each once".to_owned();
            return Err(Refusal::BadParameters(vec![BadParameter { name: String::new(), wrong, right }]));
        }
        Ok(Parameters { left: given.clone(), given, bad: Vec::new() })
    }

    fn take<T>(&mut self, name: &str, read: impl FnOnce(&str) -> Result<T, Wrong>) -> Option<T> {
        let (own, left): (Vec<_>, Vec<_>) =
            std::mem::take(&mut self.left).into_iter().partition(|(own, _)| own == name);
        self.left = left;
        let outcome = match own.as_slice() {
            [] => return None,
            [(_, text)] => read(text),
            _ => Err(("it is given more than once".to_owned(), "give it once".to_owned())),
        };
        outcome.map_err(|(wrong, right)| self.bad.push(BadParameter { name: name.to_owned(), wrong, right })).ok()
    }

    /// The parameters as given, where all of them were known and could be used.
    fn finish(self, known: &[&str]) -> Result<Vec<(String, String)>, Refusal> {
        let mut bad = self.bad;
        for (name, _) in self.left {
            let right = if known.is_empty() {
                "nothing can be asked for here".to_owned()
            } else {
                format!("known here are {}", known.join(", "))
            };
            bad.push(BadParameter { name, wrong: "there is no such parameter".to_owned(), right });
        }
        if bad.is_empty() { Ok(self.given) } else { Err(Refusal::BadParameters(bad)) }
    }
}

fn crs_of(text: &str, offered: &[Crs]) -> Result<Crs, Wrong> {
    let right = || {
        let names: Vec<String> = offered.iter().map(|crs| crs.uri()).collect();
        format!("offered are {}", names.join(", "))
    };
    offered
        .iter()
        .copied()
        .find(|crs| crs.uri() == text)
        .ok_or_else(|| (format!("{text:?} is none of the coordinate reference systems of this collection"), right()))
}

fn limit(text: &str) -> Result<usize, Wrong> {
    let digits = !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    // A number that is too large for the machine is greater than the greatest as well.
    let limit = if digits { text.parse().unwrap_or(LIMIT_MOST) } else { 0 };
    if limit == 0 {
        return Err((
            format!("{text:?} is no number of features"),
            format!("1 to {LIMIT_MOST}; more means {LIMIT_MOST}"),
        ));
    }
    Ok(limit.min(LIMIT_MOST))
}

fn cursor(text: &str) -> Result<Option<String>, Wrong> {
    if text.len() > CURSOR_MOST || text.chars().any(char::is_control) {
        return Err(("it does not come from here".to_owned(), "follow the links `next` and `prev`".to_owned()));
    }
    Ok(Some(text.to_owned()).filter(|text| !text.is_empty()))
}

fn value_of(property: &Property, text: &str) -> Result<Value, Wrong> {
    let wrong = |what: &str, right: &str| (format!("{text:?} is no {what}"), right.to_owned());
    match property.kind {
        PropertyKind::Text | PropertyKind::TextList => Ok(text.into()),
        PropertyKind::Integer => {
            text.parse::<i64>().map(Value::from).map_err(|_| wrong("whole number", "digits, as in 2"))
        }
        PropertyKind::Number => {
            let number = text.parse::<f64>().ok().and_then(Number::from_f64);
            number.map(Value::Number).ok_or_else(|| wrong("number", "digits with a point, as in 2.5"))
        }
        PropertyKind::Boolean => {
            text.parse::<bool>().map(Value::from).map_err(|_| wrong("truth value", "true or false"))
        }
        PropertyKind::Date => time::date(text)
            .map(|date| date.to_string().into())
            .ok_or_else(|| wrong("day", "year-month-day, as in 2026-06-09")),
        PropertyKind::DateTime => time::moment(text)
            .map(|time| crate::feature::utc(time).into())
            .ok_or_else(|| wrong("moment", "as RFC 3339 has it: 2026-06-09T07:15:00Z")),
    }
}
