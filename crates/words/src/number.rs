//! Numbers by CLDR: the decimal sign of the language, always in Latin digits, as tapes and scales have them.

use std::str::FromStr;
use std::sync::LazyLock;

use fixed_decimal::Decimal;
use icu_decimal::DecimalFormatter;
use icu_decimal::options::DecimalFormatterOptions;
use icu_locale_core::{Locale, locale};

use crate::Language;

/// A number as Rust writes it, with the decimal sign of the language; what is no number stays as it is.
pub fn written(language: Language, plain: &str) -> String {
    if Decimal::from_str(plain).is_ok() { plain.replace('.', decimal_sign(language)) } else { plain.to_owned() }
}

/// Looked up once: the library's formatter can't be shared by threads, and nothing is grouped here.
fn decimal_sign(language: Language) -> &'static str {
    static SIGNS: [LazyLock<String>; 5] = [
        LazyLock::new(|| looked_up(locale!("en"))),
        LazyLock::new(|| looked_up(locale!("es"))),
        LazyLock::new(|| looked_up(locale!("fr"))),
        LazyLock::new(|| looked_up(locale!("pt"))),
        LazyLock::new(|| looked_up(locale!("ar-u-nu-latn"))),
    ];
    &SIGNS[language as usize]
}

/// What stands between the digits of a half.
fn looked_up(locale: Locale) -> String {
    let half = Decimal::from_str("0.5").ok();
    let written = half.zip(DecimalFormatter::try_new(locale.into(), DecimalFormatterOptions::default()).ok());
    written.map_or_else(|| ".".to_owned(), |(half, by)| by.format(&half).to_string().replace(['0', '5'], ""))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_have_the_decimal_sign_of_their_language() {
        // Decimal signs: CLDR, numbering system `latn`.
        for (language, half, thousands) in [
            (Language::English, "0.50", "-1234.5"),
            (Language::Spanish, "0,50", "-1234,5"),
            (Language::French, "0,50", "-1234,5"),
            (Language::Portuguese, "0,50", "-1234,5"),
            (Language::Arabic, "0.50", "-1234.5"),
        ] {
            assert_eq!(written(language, "0.50"), half);
            assert_eq!(written(language, "-1234.5"), thousands);
            assert_eq!(written(language, "–"), "–");
        }
    }
}
