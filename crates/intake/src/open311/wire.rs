//! Answers as bytes: JSON and XML.
//!
//! JSON is written so that no page can be made of it: `<`, `>` and `&` are escaped. XML is escaped as XML is, and a character that
//! no XML file may hold is written as U+FFFD.

use std::io;

use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::ser::Formatter;
use thiserror::Error;

use super::answers::{
    AttributeType, AttributeValue, Created, RequestStatus, Service, ServiceAttribute, ServiceDefinition, ServiceKind,
    ServiceRequest, TokenNumber,
};
use super::refusal::Fault;
use super::xml::{self, Element, element, leaf};

/// The form of an answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[allow(missing_docs)] // the words are the definition
pub enum Format {
    Json,
    Xml,
}

/// An answer that can't be read.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("line {line}, column {column}: {wrong}; {right}")]
pub struct ReadFault {
    /// Line, from 1; 0 where it is not known.
    pub line: usize,
    /// Column, from 1; 0 where it is not known.
    pub column: usize,
    /// What was wrong.
    pub wrong: String,
    /// What would be right.
    pub right: String,
}

/// An answer of the standard.
pub trait Answer: Serialize + DeserializeOwned {
    /// Name of its outermost XML element.
    const ROOT: &'static str;

    /// What is in that element.
    fn elements(&self) -> Vec<Element>;
}

/// What a list of answers holds.
pub trait Item: Serialize + DeserializeOwned {
    /// Name of the list's XML element.
    const LIST: &'static str;
    /// Name of its own.
    const NAME: &'static str;

    /// What is in it, in the standard's order.
    fn fields(&self) -> Vec<Element>;
}

impl Format {
    /// The format that a path ends with, and the path without: `services.xml`.
    pub fn of_path(path: &str) -> Option<(&str, Format)> {
        let json = path.strip_suffix(".json").map(|rest| (rest, Format::Json));
        json.or_else(|| path.strip_suffix(".xml").map(|rest| (rest, Format::Xml)))
    }

    /// The content type of the answer.
    pub fn content_type(self) -> &'static str {
        match self {
            Format::Json => "application/json; charset=utf-8",
            Format::Xml => "text/xml; charset=utf-8",
        }
    }
}

/// Writes an answer.
pub fn write<A: Answer>(answer: &A, format: Format) -> String {
    match format {
        Format::Json => {
            let mut bytes = Vec::new();
            let mut serializer = serde_json::Serializer::with_formatter(&mut bytes, NoMarkup);
            // Only a map with keys that are no text can't be written, and the answers have none.
            answer.serialize(&mut serializer).expect("answers are JSON");
            String::from_utf8(bytes).expect("JSON is UTF-8")
        }
        Format::Xml => xml::write(&Element { name: A::ROOT, content: xml::Content::Elements(answer.elements()) }),
    }
}

/// Reads an answer.
///
/// # Errors
/// The first thing that is wrong with it, with its line and column.
pub fn read<A: Answer>(bytes: &[u8], format: Format) -> Result<A, ReadFault> {
    match format {
        Format::Json => serde_json::from_slice(bytes).map_err(|error| json_fault(&error)),
        Format::Xml => {
            let value = xml::read(bytes, A::ROOT)?;
            serde_json::from_value(value).map_err(|error| ReadFault {
                line: 0,
                column: 0,
                wrong: format!("the XML is not an answer of this kind: {error}"),
                right: "the elements of GeoReport v2".into(),
            })
        }
    }
}

fn json_fault(error: &serde_json::Error) -> ReadFault {
    let message = error.to_string();
    let wrong = message.split(" at line ").next().unwrap_or_default().to_owned();
    let right = if wrong == "invalid number" {
        "JSON knows no number that begins with 0: write a code as text, \"001\""
    } else if error.is_data() {
        "the fields of GeoReport v2"
    } else {
        "JSON by RFC 8259"
    };
    ReadFault { line: error.line(), column: error.column(), wrong, right: right.into() }
}

/// Compact JSON in which no markup can stand.
struct NoMarkup;

impl Formatter for NoMarkup {
    fn write_string_fragment<W: ?Sized + io::Write>(&mut self, writer: &mut W, fragment: &str) -> io::Result<()> {
        let mut rest = fragment;
        while let Some(at) = rest.find(['<', '>', '&']) {
            writer.write_all(&rest.as_bytes()[..at])?;
            write!(writer, "\\u{:04x}", rest.as_bytes()[at])?;
            rest = &rest[at + 1..];
        }
        writer.write_all(rest.as_bytes())
    }
}

impl<I: Item> Answer for Vec<I> {
    const ROOT: &'static str = I::LIST;

    fn elements(&self) -> Vec<Element> {
        self.iter().map(|item| element(I::NAME, item.fields())).collect()
    }
}

impl Answer for ServiceDefinition {
    const ROOT: &'static str = "service_definition";

    fn elements(&self) -> Vec<Element> {
        let attributes = self.attributes.iter().map(|attribute| element("attribute", attribute.fields())).collect();
        vec![leaf("service_code", &self.service_code), element("attributes", attributes)]
    }
}

impl ServiceAttribute {
    fn fields(&self) -> Vec<Element> {
        let values = self.values.iter().map(|value| element("value", value.fields())).collect();
        vec![
            leaf("variable", &self.variable),
            leaf("code", &self.code),
            leaf("datatype", self.datatype.word()),
            leaf("required", &self.required),
            optional("datatype_description", self.datatype_description.as_ref()),
            optional("order", self.order.as_ref()),
            optional("description", self.description.as_ref()),
            element("values", values),
        ]
    }
}

impl AttributeValue {
    fn fields(&self) -> Vec<Element> {
        vec![leaf("key", &self.key), leaf("name", &self.name)]
    }
}

impl Item for Service {
    const LIST: &'static str = "services";
    const NAME: &'static str = "service";

    fn fields(&self) -> Vec<Element> {
        vec![
            leaf("service_code", &self.service_code),
            leaf("service_name", &self.service_name),
            optional("description", self.description.as_ref()),
            leaf("metadata", &self.metadata),
            leaf("type", self.kind.word()),
            optional("keywords", self.keywords.as_ref()),
            optional("group", self.group.as_ref()),
        ]
    }
}

impl Item for ServiceRequest {
    const LIST: &'static str = "service_requests";
    const NAME: &'static str = "request";

    fn fields(&self) -> Vec<Element> {
        vec![
            leaf("service_request_id", &self.service_request_id),
            leaf("status", self.status.word()),
            optional("status_notes", self.status_notes.as_ref()),
            optional("service_name", self.service_name.as_ref()),
            leaf("service_code", &self.service_code),
            optional("description", self.description.as_ref()),
            optional("agency_responsible", self.agency_responsible.as_ref()),
            optional("service_notice", self.service_notice.as_ref()),
            leaf("requested_datetime", &self.requested_datetime),
            optional("updated_datetime", self.updated_datetime.as_ref()),
            optional("expected_datetime", self.expected_datetime.as_ref()),
            optional("address", self.address.as_ref()),
            optional("address_id", self.address_id.as_ref()),
            optional("zipcode", self.zipcode.as_ref()),
            optional("lat", self.lat.as_ref()),
            optional("long", self.long.as_ref()),
            optional("media_url", self.media_url.as_ref()),
        ]
    }
}

impl Item for Created {
    const LIST: &'static str = "service_requests";
    const NAME: &'static str = "request";

    fn fields(&self) -> Vec<Element> {
        let id = self.service_request_id.as_ref().map(|id| leaf("service_request_id", id));
        let token = self.token.as_ref().map(|token| leaf("token", token));
        let notice = optional("service_notice", self.service_notice.as_ref());
        let account = optional("account_id", self.account_id.as_ref());
        id.into_iter().chain(token).chain([notice, account]).collect()
    }
}

impl Item for TokenNumber {
    const LIST: &'static str = "service_requests";
    const NAME: &'static str = "request";

    fn fields(&self) -> Vec<Element> {
        vec![optional("service_request_id", self.service_request_id.as_ref()), leaf("token", &self.token)]
    }
}

impl Item for Fault {
    const LIST: &'static str = "errors";
    const NAME: &'static str = "error";

    fn fields(&self) -> Vec<Element> {
        vec![leaf("code", &self.code), leaf("description", &self.description)]
    }
}

fn optional(name: &'static str, value: Option<&impl ToString>) -> Element {
    leaf(name, &value.map(ToString::to_string).unwrap_or_default())
}

impl ServiceKind {
    fn word(self) -> &'static str {
        match self {
            ServiceKind::Realtime => "realtime",
            ServiceKind::Batch => "batch",
            ServiceKind::Blackbox => "blackbox",
        }
    }
}

impl RequestStatus {
    /// The standard's word.
    pub fn word(self) -> &'static str {
        match self {
            RequestStatus::Open => "open",
            RequestStatus::Closed => "closed",
        }
    }
}

impl AttributeType {
    fn word(self) -> &'static str {
        match self {
            AttributeType::String => "string",
            AttributeType::Number => "number",
            AttributeType::Datetime => "datetime",
            AttributeType::Text => "text",
            AttributeType::Singlevaluelist => "singlevaluelist",
            AttributeType::Multivaluelist => "multivaluelist",
        }
    }
}
