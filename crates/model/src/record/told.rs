//! A value that people told: the one that counts, and what others told of the same.

use jiff::Timestamp;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use uuid::Uuid;

/// A value with who told it; where people told different values, all of them.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Told<T> {
    /// The value that counts: the last one told.
    pub value: T,
    /// Who told it.
    pub by: Teller,
    /// What was told otherwise on another device, the last first. Not empty: somebody has to look.
    pub otherwise: Vec<ToldOtherwise<T>>,
}

/// A value that another device told and that does not count.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ToldOtherwise<T> {
    /// The value.
    pub value: T,
    /// Who told it.
    pub by: Teller,
}

/// Who told something, and when.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Teller {
    /// The event it was told in.
    pub event: Uuid,
    /// Account of the person.
    pub actor: String,
    /// The device.
    pub device: String,
    /// When, by the server's clock as well as that is known.
    #[schemars(with = "String", extend("format" = "date-time"))]
    pub at: Timestamp,
}

/// Takes in a value told later than what is there.
///
/// A device that tells again corrects itself; another device that tells another value is kept beside it. The same value told
/// again changes nothing, so that who told it first stays.
pub fn tell<T: PartialEq + Clone>(place: &mut Option<Told<T>>, value: &T, by: &Teller) {
    let Some(told) = place else {
        *place = Some(Told { value: value.clone(), by: by.clone(), otherwise: Vec::new() });
        return;
    };
    told.otherwise.retain(|other| other.by.device != by.device);
    if told.value == *value {
        return;
    }
    let before = std::mem::replace(&mut told.value, value.clone());
    let teller = std::mem::replace(&mut told.by, by.clone());
    if teller.device != by.device {
        told.otherwise.insert(0, ToldOtherwise { value: before, by: teller });
    }
    told.otherwise.retain(|other| other.value != *value);
}
