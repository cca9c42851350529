//! Values as programs really send them: codes as numbers, numbers as text, nothing as null or an empty text.

use serde::{Deserialize, Deserializer, de};
use serde_json::Value;

/// Text; numbers and truth values as they are written.
pub fn text<'de, D: Deserializer<'de>>(from: D) -> Result<String, D::Error> {
    optional_text(from)?.ok_or_else(|| de::Error::custom("nothing stands where a text is needed"))
}

/// Text, or nothing.
pub fn optional_text<'de, D: Deserializer<'de>>(from: D) -> Result<Option<String>, D::Error> {
    match Value::deserialize(from)? {
        Value::Null => Ok(None),
        Value::String(text) => Ok(Some(text).filter(|text| !text.trim().is_empty())),
        Value::Number(number) => Ok(Some(number.to_string())),
        Value::Bool(value) => Ok(Some(value.to_string())),
        _ => Err(de::Error::custom("a list or an object stands where a text is right")),
    }
}

/// A finite number, or nothing.
pub fn optional_number<'de, D: Deserializer<'de>>(from: D) -> Result<Option<f64>, D::Error> {
    let Some(text) = optional_text(from)? else { return Ok(None) };
    let number = text.trim().parse().ok().filter(|number: &f64| number.is_finite());
    number.map(Some).ok_or_else(|| de::Error::custom("a text that is no number stands where a number is right"))
}

/// A whole number, or nothing.
pub fn optional_whole<'de, D: Deserializer<'de>>(from: D) -> Result<Option<i64>, D::Error> {
    let Some(text) = optional_text(from)? else { return Ok(None) };
    text.trim().parse().map(Some).map_err(|_| de::Error::custom("what is no whole number stands where one is right"))
}

/// A code of an error: a whole number from 0 to 65535.
pub fn code<'de, D: Deserializer<'de>>(from: D) -> Result<u16, D::Error> {
    text(from)?.trim().parse().map_err(|_| de::Error::custom("a code is a whole number, e.g. 404"))
}

/// True or false.
pub fn flag<'de, D: Deserializer<'de>>(from: D) -> Result<bool, D::Error> {
    match text(from)?.trim() {
        "true" | "1" => Ok(true),
        "false" | "0" => Ok(false),
        _ => Err(de::Error::custom("write true or false")),
    }
}

/// A list; nothing is an empty one.
pub fn list<'de, T: Deserialize<'de>, D: Deserializer<'de>>(from: D) -> Result<Vec<T>, D::Error> {
    Option::<Vec<T>>::deserialize(from).map(Option::unwrap_or_default)
}
