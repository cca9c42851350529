//! Words in the reader's language, from the catalogue in `locales/` that web app, paper and command share (Project Fluent).
//!
//! [`Words`] says a message by its key, with what stands in it; numbers get the language's decimal sign. What is said of a
//! hole or a layout is worked out elsewhere: here is wording only.

mod catalogue;
pub mod direction;
mod language;
mod number;

pub use language::Language;

use std::borrow::Cow;

use fluent_bundle::{FluentArgs, FluentValue};

use catalogue::Bundle;

/// The words of one language; as cheap to hand around as a number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Words(pub Language);

/// What stands in a message: a count, which also chooses between one and many, or a text.
#[derive(Debug, Clone, PartialEq)]
pub struct Value<'a>(FluentValue<'a>);

impl<'a> From<&'a str> for Value<'a> {
    fn from(text: &'a str) -> Self {
        Value(FluentValue::String(Cow::Borrowed(text)))
    }
}

impl<'a> From<&'a String> for Value<'a> {
    fn from(text: &'a String) -> Self {
        Value::from(text.as_str())
    }
}

impl From<String> for Value<'_> {
    fn from(text: String) -> Self {
        Value(FluentValue::String(Cow::Owned(text)))
    }
}

impl From<usize> for Value<'_> {
    fn from(count: usize) -> Self {
        Value(FluentValue::from(count))
    }
}

impl From<u32> for Value<'_> {
    fn from(count: u32) -> Self {
        Value(FluentValue::from(count))
    }
}

impl Words {
    /// The language.
    pub fn language(self) -> Language {
        self.0
    }

    /// A message without variables.
    pub fn say(self, key: &str) -> String {
        self.message(key, None).unwrap_or_else(|| unknown(key))
    }

    /// A message and what stands in it: `words.say_with("holes-waiting", [("count", 3_usize.into())])`.
    pub fn say_with<const N: usize>(self, key: &str, values: [(&str, Value); N]) -> String {
        let args: FluentArgs = values.into_iter().map(|(name, Value(value))| (name, value)).collect();
        self.message(key, Some(&args)).unwrap_or_else(|| unknown(key))
    }

    /// A text of our rule data in the language; `None` for a text that a district brought itself.
    pub fn of_rule(self, text: &str) -> Option<String> {
        self.message(catalogue::rule_key(text)?, None)
    }

    /// A number as it is written in Rust (`-1234.50`), with the language's decimal sign, in Latin digits, without grouping.
    pub fn number(self, plain: &str) -> String {
        number::written(self.0, plain)
    }

    /// What is missing is said in English, which the tests of the catalogue do not let come to pass.
    fn message(self, key: &str, args: Option<&FluentArgs>) -> Option<String> {
        let said = |bundle: &'static Bundle| {
            let pattern = bundle.get_message(key)?.value()?;
            let mut errors = Vec::new();
            let text = bundle.format_pattern(pattern, args, &mut errors).into_owned();
            debug_assert!(errors.is_empty(), "message {key}: {errors:?}");
            Some(text)
        };
        said(catalogue::bundle(self.0)).or_else(|| said(catalogue::bundle(Language::English)))
    }
}

fn unknown(key: &str) -> String {
    debug_assert!(false, "no message {key}");
    key.to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_count_chooses_between_one_and_many() {
        let holes = |language, count: usize| Words(language).say_with("sheet-holes", [("count", count.into())]);
        assert_eq!(holes(Language::English, 1), "1 hole");
        assert_eq!(holes(Language::English, 2), "2 holes");
        assert_eq!(holes(Language::French, 0), "0 nid-de-poule");
        // Arabic tells one, two, few (3 to 10), many (11 to 99) and other apart (CLDR plural rules).
        let arabic: std::collections::BTreeSet<String> =
            [1, 2, 3, 11, 100].map(|count| holes(Language::Arabic, count).replace(char::is_numeric, "")).into();
        assert!(arabic.len() >= 4, "{arabic:?}");
    }

    #[test]
    fn what_the_catalogue_lacks_is_not_made_up() {
        assert_eq!(Words(Language::French).of_rule("A layout that somebody brought"), None);
    }
}
