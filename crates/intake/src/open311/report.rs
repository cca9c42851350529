//! A posted report as an event of the record, the reporter apart from it, and the answer to the reporter.

use jiff::civil::Date;
use model::record::happened::Happened;
use uuid::Uuid;

use super::Office;
use super::answers::{Created, TokenNumber};
use super::form::Posted;
use super::service::HoleService;
use crate::contact::Contact;

/// The word for the source of what the public tells, as in the matching rules.
pub const SOURCE: &str = "public";

/// Numbers of a new report, made by the caller.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NewNumbers {
    /// The hole's.
    pub hole: Uuid,
    /// The reporter's in the book of contacts.
    pub contact: Uuid,
}

/// What a report comes to.
#[derive(Debug, Clone, PartialEq)]
pub struct Taken {
    /// For the record.
    pub happened: Happened,
    /// For the book of contacts; `None` where the reporter told nothing.
    pub contact: Option<Contact>,
}

/// Makes a report an event. `today` is the day in the district's time.
pub fn taken(posted: &Posted, numbers: NewNumbers, today: Date) -> Taken {
    let contact = Contact {
        contact: numbers.contact,
        name: posted.name.clone(),
        email: posted.email.clone(),
        phone: posted.phone.clone(),
        account: posted.account.clone(),
        device: posted.device.clone(),
    };
    let contact = Some(contact).filter(|contact| !contact.is_empty());
    let happened = Happened::HoleReported {
        hole: numbers.hole,
        position: posted.position,
        size: HoleService::size_of(&posted.choices),
        seen: Some(today),
        note: note(posted),
        source: SOURCE.into(),
        reference: String::new(),
        contact: contact.as_ref().map(|contact| contact.contact),
    };
    Taken { happened, contact }
}

/// All that was told and has no field of its own, a line each.
fn note(posted: &Posted) -> String {
    let titled = |title: &str, text: &str| (!text.is_empty()).then(|| format!("{title}: {text}"));
    let description = Some(posted.description.clone()).filter(|text| !text.is_empty());
    let others = posted.other_answers.iter().map(|(code, text)| format!("{code}: {text}"));
    let lines = [titled("At", &posted.address), titled("Address number", &posted.address_id)];
    let lines = description.into_iter().chain(lines.into_iter().flatten()).chain(others);
    lines.chain(titled("Picture", &posted.media_url)).collect::<Vec<_>>().join("\n")
}

/// The answer: the number to ask with.
pub fn created(hole: Uuid, office: &Office) -> Vec<Created> {
    let notice = office.service.notice.clone();
    let number = Some(hole.to_string());
    vec![Created { service_request_id: number, token: None, service_notice: Some(notice), account_id: None }]
}

/// The answer to a token: every report has its number at once, so that a token is the number.
pub fn of_token(hole: Uuid) -> Vec<TokenNumber> {
    vec![TokenNumber { service_request_id: Some(hole.to_string()), token: hole.to_string() }]
}
