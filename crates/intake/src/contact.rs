//! Who told of a hole and how to reach them: personal data, kept apart from the record and forgotten in time.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use uuid::Uuid;

/// A reporter. An event names it by its number only.
#[derive(Clone, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
pub struct Contact {
    /// Its number in the book of contacts.
    pub contact: Uuid,
    /// First and last name.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// Address for electronic mail.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub email: String,
    /// Telephone number as told.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub phone: String,
    /// Account at the office or program it was told through.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub account: String,
    /// Device it was told on.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub device: String,
}

impl Contact {
    /// Whether nothing is told by which anybody could be reached or known.
    pub fn is_empty(&self) -> bool {
        [&self.name, &self.email, &self.phone, &self.account, &self.device].into_iter().all(String::is_empty)
    }
}

/// Shows the number alone, so that no log holds personal data.
impl std::fmt::Debug for Contact {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Contact").field("contact", &self.contact).finish_non_exhaustive()
    }
}
