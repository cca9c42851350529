//! A report as it is posted: `application/x-www-form-urlencoded`, by the standard.

use model::record::happened::Position;

use super::Office;
use super::refusal::{Fault, Refusal};
use super::service::HoleChoice;
use crate::place::{PlaceFault, believed};
use crate::text::{TextFault, one_line, quoted, several_lines};

/// The largest body that is read, bytes: the fields at their longest, each character as nine.
pub const BODY_MAX: usize = 64 * 1024;

/// Fields of one report, more are refused.
const FIELDS_MAX: usize = 100;

/// The longest text of a field, characters. The description is the standard's schema's, the email address RFC 5321's (section
/// 4.5.3.1.3, less the brackets); the others common practice, no source.
const LONGEST: [(&str, usize); 15] = [
    ("jurisdiction_id", 200),
    ("service_code", 200),
    ("lat", 40),
    ("long", 40),
    ("address_string", 500),
    ("address_id", 200),
    ("email", 254),
    ("device_id", 200),
    ("account_id", 200),
    ("first_name", 100),
    ("last_name", 100),
    ("phone", 50),
    ("description", 4000),
    ("media_url", 2000),
    ("api_key", 200),
];

/// The longest code of an attribute and the longest answer to it, characters.
const ATTRIBUTE_MAX: (usize, usize) = (100, 1000);

/// A report that can be taken.
#[derive(Clone, PartialEq)]
pub struct Posted {
    /// Where.
    pub position: Position,
    /// Where, in the reporter's words.
    pub address: String,
    /// Where, by a number of the office.
    pub address_id: String,
    /// In the reporter's words.
    pub description: String,
    /// Where a picture is. Nothing is fetched from there.
    pub media_url: String,
    /// The answers that were chosen.
    pub choices: Vec<HoleChoice>,
    /// Answers to questions that the service does not ask: code and text.
    pub other_answers: Vec<(String, String)>,
    /// The reporter's first and last name.
    pub name: String,
    /// The reporter's address for electronic mail.
    pub email: String,
    /// The reporter's telephone number.
    pub phone: String,
    /// The reporter's account.
    pub account: String,
    /// The reporter's device.
    pub device: String,
}

/// Without what is personal, so that no log holds it.
impl std::fmt::Debug for Posted {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Posted").field("position", &self.position).finish_non_exhaustive()
    }
}

/// Reads a report. `is_key` says whether a report with that `api_key` is taken.
///
/// # Errors
/// 403 for the key; 404 for a jurisdiction or service that is not here; 400 with everything else that is wrong, at once.
pub fn read_form(body: &[u8], office: &Office, is_key: &dyn Fn(Option<&str>) -> bool) -> Result<Posted, Refusal> {
    if body.len() > BODY_MAX {
        return Err(Refusal::bad(format!("the report has {} bytes; at most {BODY_MAX} are taken", body.len())));
    }
    let mut form = Form::default();
    for (count, (name, value)) in form_urlencoded::parse(body).enumerate() {
        if count == FIELDS_MAX {
            return Err(Refusal::bad(format!("the report has more than {FIELDS_MAX} fields")));
        }
        form.take(&name, &value);
    }
    if !is_key(form.told("api_key")) {
        return Err(Refusal::key());
    }
    jurisdiction(form.told("jurisdiction_id"), office)?;
    match form.told("service_code") {
        None if !form.has_fault("service_code") => form.fault("service_code is missing"),
        Some(code) if code != office.service.code => return Err(no_service(code)),
        _ => {}
    }
    let position = form.position(office);
    let (choices, other_answers) = form.answers(office);
    let media_url = form.text("media_url");
    if !media_url.is_empty() && !["http://", "https://"].iter().any(|scheme| media_url.starts_with(scheme)) {
        form.fault("media_url must begin with https:// or http://");
    }
    let email = form.text("email");
    // Whether it exists only a letter can tell.
    let is_address =
        email.split_once('@').is_some_and(|(to, at)| !to.is_empty() && !at.is_empty() && !email.contains(' '));
    if !email.is_empty() && !is_address {
        form.fault("email is no address: write name@place");
    }
    if let Some(refusal) = Refusal::of(std::mem::take(&mut form.faults)) {
        return Err(refusal);
    }
    let position = position.ok_or_else(|| Refusal::bad("lat and long are missing"))?;
    Ok(Posted {
        position,
        address: form.text("address_string"),
        address_id: form.text("address_id"),
        description: form.text("description"),
        media_url,
        choices,
        other_answers,
        name: format!("{} {}", form.text("first_name"), form.text("last_name")).trim().to_owned(),
        email,
        phone: form.text("phone"),
        account: form.text("account_id"),
        device: form.text("device_id"),
    })
}

/// Whether the office is the one that is meant.
pub(super) fn jurisdiction(told: Option<&str>, office: &Office) -> Result<(), Refusal> {
    match (told, &office.jurisdiction) {
        (Some(told), Some(own)) if told != own => {
            Err(Refusal::not_found(format!("jurisdiction_id {} is not here", quoted(told, 40))))
        }
        _ => Ok(()),
    }
}

/// There is no such service.
pub(super) fn no_service(code: &str) -> Refusal {
    Refusal::not_found(format!("service_code {} is not here; GET services lists those that are", quoted(code, 40)))
}

#[derive(Default)]
struct Form {
    /// Name and text of what was told.
    fields: Vec<(&'static str, String)>,
    /// Code and text of each `attribute[...]`.
    attributes: Vec<(String, String)>,
    /// Fields that were told but can't be taken.
    wrong: Vec<&'static str>,
    faults: Vec<Fault>,
}

impl Form {
    fn take(&mut self, name: &str, value: &str) {
        if let Some(rest) = name.strip_prefix("attribute[") {
            let Some((code, "" | "[]")) = rest.split_once(']') else {
                self.fault(format!("{} is no field: write attribute[CODE]", quoted(name, 60)));
                return;
            };
            match (one_line(code, ATTRIBUTE_MAX.0), several_lines(value, ATTRIBUTE_MAX.1)) {
                (Ok(code), Ok(text)) if !text.is_empty() => self.attributes.push((code, text)),
                (Ok(_), Ok(_)) => {}
                (Err(fault), _) => self.fault(format!("the code of an attribute {fault}")),
                (_, Err(fault)) => self.fault(format!("attribute[{code}] {fault}")),
            }
            return;
        }
        // What else programs send along is not needed.
        let Some((name, most)) = LONGEST.into_iter().find(|(known, _)| *known == name) else { return };
        let read: Result<String, TextFault> =
            if name == "description" { several_lines(value, most) } else { one_line(value, most) };
        match read {
            Ok(text) if text.is_empty() => {}
            Ok(_) if self.told(name).is_some() => self.fault(format!("{name} stands twice: send it once")),
            Ok(text) => self.fields.push((name, text)),
            Err(fault) => {
                self.wrong.push(name);
                self.fault(format!("{name} {fault}"));
            }
        }
    }

    fn fault(&mut self, description: impl Into<String>) {
        self.faults.push(Fault::bad(description));
    }

    fn has_fault(&self, name: &str) -> bool {
        self.wrong.contains(&name)
    }

    fn told(&self, name: &str) -> Option<&str> {
        self.fields.iter().find(|(known, _)| *known == name).map(|(_, text)| text.as_str())
    }

    fn text(&self, name: &str) -> String {
        self.told(name).unwrap_or_default().to_owned()
    }

    fn position(&mut self, office: &Office) -> Option<Position> {
        let (lat, long) = (self.told("lat").map(str::to_owned), self.told("long").map(str::to_owned));
        let (Some(lat), Some(long)) = (&lat, &long) else {
            if !self.has_fault("lat") && !self.has_fault("long") {
                let has_address = self.told("address_string").or(self.told("address_id")).is_some();
                self.fault(match (lat, long) {
                    (None, None) if has_address => {
                        "lat and long are missing: this office has no list of addresses; send the place as degrees (WGS 84)"
                    }
                    (None, None) => "lat and long are missing: send the place of the hole as degrees (WGS 84)",
                    (None, Some(_)) => "lat is missing",
                    _ => "long is missing",
                });
            }
            return None;
        };
        let number = |text: &str| text.parse::<f64>().ok().filter(|number| number.is_finite());
        let (Some(lat), Some(lon)) = (number(lat), number(long)) else {
            for (name, text) in [("lat", lat), ("long", long)] {
                if number(text).is_none() {
                    self.fault(format!("{name} {} is not a finite number", quoted(text, 40)));
                }
            }
            return None;
        };
        let place = Position { lon, lat };
        let is_believed = believed(place, office.district.bounds.as_ref());
        if let Err(fault) = is_believed {
            let (wrong, right) = fault.words(place);
            let is_elsewhere = fault == PlaceFault::Outside;
            self.fault(if is_elsewhere {
                format!("lat and long: {wrong}; this office mends only there")
            } else {
                format!("lat and long: {wrong}; {right}")
            });
        }
        is_believed.ok()
    }

    /// The answers that the service asks for, and the others.
    fn answers(&mut self, office: &Office) -> (Vec<HoleChoice>, Vec<(String, String)>) {
        let (mut choices, mut others, mut answered) = (Vec::new(), Vec::new(), Vec::new());
        for (code, text) in std::mem::take(&mut self.attributes) {
            let Some(question) = office.service.attributes.iter().find(|question| question.code == code) else {
                others.push((code, text));
                continue;
            };
            if answered.contains(&code) {
                self.fault(format!("attribute[{code}] stands twice: choose one answer"));
            } else if let Some(choice) = question.values.iter().find(|choice| choice.key == text) {
                choices.push(choice.clone());
            } else {
                let keys: Vec<&str> = question.values.iter().map(|choice| choice.key.as_str()).collect();
                self.fault(format!(
                    "attribute[{code}] {} is no answer; one of: {}",
                    quoted(&text, 40),
                    keys.join(", ")
                ));
            }
            answered.push(code);
        }
        (choices, others)
    }
}
