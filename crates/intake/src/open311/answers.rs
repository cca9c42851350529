//! The answers of the standard. What they are named and whether they may be absent is the standard's; absent is `null` in JSON
//! and an empty element in XML. Reading is lenient ([`lenient`]), since offices write codes as numbers and numbers as text.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::lenient;

/// A service that reports are taken for.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Service {
    /// Its code in reports.
    #[serde(deserialize_with = "lenient::text")]
    pub service_code: String,
    /// Its name for people.
    #[serde(deserialize_with = "lenient::text")]
    pub service_name: String,
    /// What it is for.
    #[serde(default, deserialize_with = "lenient::optional_text")]
    pub description: Option<String>,
    /// Whether it has a [`ServiceDefinition`].
    #[serde(deserialize_with = "lenient::flag")]
    pub metadata: bool,
    /// Whether a report is answered with its number at once.
    #[serde(rename = "type")]
    pub kind: ServiceKind,
    /// Words to find it by, parted by commas.
    #[serde(default, deserialize_with = "lenient::optional_text")]
    pub keywords: Option<String>,
    /// What it is listed under.
    #[serde(default, deserialize_with = "lenient::optional_text")]
    pub group: Option<String>,
}

/// When a report has its number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum ServiceKind {
    /// At once.
    Realtime,
    /// Later; until then it has a token.
    Batch,
    /// Never.
    Blackbox,
}

/// What else is asked of a reporter.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ServiceDefinition {
    /// Of which service.
    #[serde(deserialize_with = "lenient::text")]
    pub service_code: String,
    /// The questions.
    #[serde(default, deserialize_with = "lenient::list")]
    pub attributes: Vec<ServiceAttribute>,
}

/// One question.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ServiceAttribute {
    /// Whether it is a question at all and not only a remark.
    #[serde(deserialize_with = "lenient::flag")]
    pub variable: bool,
    /// Its code in reports.
    #[serde(deserialize_with = "lenient::text")]
    pub code: String,
    /// What is answered.
    pub datatype: AttributeType,
    /// Whether it must be answered.
    #[serde(deserialize_with = "lenient::flag")]
    pub required: bool,
    /// How to answer it.
    #[serde(default, deserialize_with = "lenient::optional_text")]
    pub datatype_description: Option<String>,
    /// Its place among the questions, from 1.
    #[serde(default, deserialize_with = "lenient::optional_whole")]
    pub order: Option<i64>,
    /// The question.
    #[serde(default, deserialize_with = "lenient::optional_text")]
    pub description: Option<String>,
    /// The answers to choose from.
    #[serde(default, deserialize_with = "lenient::list")]
    pub values: Vec<AttributeValue>,
}

/// What kind of answer a question takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
#[allow(missing_docs)] // the standard's words
pub enum AttributeType {
    String,
    Number,
    Datetime,
    Text,
    Singlevaluelist,
    Multivaluelist,
}

/// One answer to choose.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct AttributeValue {
    /// Its code in reports.
    #[serde(deserialize_with = "lenient::text")]
    pub key: String,
    /// Its words.
    #[serde(deserialize_with = "lenient::text")]
    pub name: String,
}

/// A report and what became of it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ServiceRequest {
    /// Its number.
    #[serde(deserialize_with = "lenient::text")]
    pub service_request_id: String,
    /// Open or closed.
    pub status: RequestStatus,
    /// Why, in words.
    #[serde(default, deserialize_with = "lenient::optional_text")]
    pub status_notes: Option<String>,
    /// Name of the service.
    #[serde(default, deserialize_with = "lenient::optional_text")]
    pub service_name: Option<String>,
    /// Code of the service.
    #[serde(deserialize_with = "lenient::text")]
    pub service_code: String,
    /// The reporter's words.
    #[serde(default, deserialize_with = "lenient::optional_text")]
    pub description: Option<String>,
    /// Who sees to it.
    #[serde(default, deserialize_with = "lenient::optional_text")]
    pub agency_responsible: Option<String>,
    /// What will be done.
    #[serde(default, deserialize_with = "lenient::optional_text")]
    pub service_notice: Option<String>,
    /// When it was told, RFC 3339.
    #[serde(deserialize_with = "lenient::text")]
    pub requested_datetime: String,
    /// When something last changed, RFC 3339.
    #[serde(default, deserialize_with = "lenient::optional_text")]
    pub updated_datetime: Option<String>,
    /// By when it is expected to be done, RFC 3339.
    #[serde(default, deserialize_with = "lenient::optional_text")]
    pub expected_datetime: Option<String>,
    /// Where, in words.
    #[serde(default, deserialize_with = "lenient::optional_text")]
    pub address: Option<String>,
    /// Where, by a number of the office.
    #[serde(default, deserialize_with = "lenient::optional_text")]
    pub address_id: Option<String>,
    /// Postal code.
    #[serde(default, deserialize_with = "lenient::optional_text")]
    pub zipcode: Option<String>,
    /// Degrees north, WGS 84.
    #[serde(default, deserialize_with = "lenient::optional_number")]
    pub lat: Option<f64>,
    /// Degrees east, WGS 84.
    #[serde(default, deserialize_with = "lenient::optional_number")]
    pub long: Option<f64>,
    /// Where a picture is.
    #[serde(default, deserialize_with = "lenient::optional_text")]
    pub media_url: Option<String>,
}

/// Whether something is still to be done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
#[allow(missing_docs)] // the standard's words
pub enum RequestStatus {
    Open,
    Closed,
}

/// The answer to a report.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Created {
    /// Its number; absent where it has only a token yet.
    #[serde(default, deserialize_with = "lenient::optional_text", skip_serializing_if = "Option::is_none")]
    pub service_request_id: Option<String>,
    /// What to ask for its number with.
    #[serde(default, deserialize_with = "lenient::optional_text", skip_serializing_if = "Option::is_none")]
    pub token: Option<String>,
    /// What will be done.
    #[serde(default, deserialize_with = "lenient::optional_text")]
    pub service_notice: Option<String>,
    /// The reporter's account.
    #[serde(default, deserialize_with = "lenient::optional_text")]
    pub account_id: Option<String>,
}

/// The number that belongs to a token.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct TokenNumber {
    /// The number of the report; absent where it has none yet.
    #[serde(default, deserialize_with = "lenient::optional_text")]
    pub service_request_id: Option<String>,
    /// The token.
    #[serde(deserialize_with = "lenient::text")]
    pub token: String,
}
