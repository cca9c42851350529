//! The languages.

/// A language that the catalogue has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[allow(missing_docs)] // the names are the definition
pub enum Language {
    #[default]
    English,
    Spanish,
    French,
    Portuguese,
    Arabic,
}

impl Language {
    /// All of them.
    pub const ALL: [Language; 5] =
        [Language::English, Language::Spanish, Language::French, Language::Portuguese, Language::Arabic];

    /// Its code (ISO 639-1), as the district file has it and as its folder of the catalogue is called.
    pub const fn code(self) -> &'static str {
        match self {
            Language::English => "en",
            Language::Spanish => "es",
            Language::French => "fr",
            Language::Portuguese => "pt",
            Language::Arabic => "ar",
        }
    }

    /// The language of a code.
    pub fn of_code(code: &str) -> Option<Self> {
        Language::ALL.into_iter().find(|language| language.code() == code)
    }

    /// The language of a locale as the environment gives it, such as `fr_CA.UTF-8`.
    pub fn of_locale(locale: &str) -> Option<Self> {
        let code = locale.split(['_', '-', '.', '@']).next().unwrap_or_default();
        Language::of_code(&code.to_ascii_lowercase())
    }

    /// Whether it is read from right to left.
    pub const fn is_right_to_left(self) -> bool {
        matches!(self, Language::Arabic)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn locales_of_the_environment_are_understood() {
        for (locale, language) in [
            ("es_MX.UTF-8", Some(Language::Spanish)),
            ("fr", Some(Language::French)),
            ("pt-BR", Some(Language::Portuguese)),
            ("ar_EG@numbers=latn", Some(Language::Arabic)),
            ("EN_us", Some(Language::English)),
            ("C", None),
            ("C.UTF-8", None),
            ("POSIX", None),
            ("", None),
            ("de_AT.UTF-8", None),
        ] {
            assert_eq!(Language::of_locale(locale), language, "{locale}");
        }
    }
}
