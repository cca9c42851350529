//! The messages, read once when a language is first spoken.

use std::collections::HashMap;
use std::sync::LazyLock;

use fluent_bundle::FluentResource;
use unic_langid::{LanguageIdentifier, langid};

use crate::Language;

pub type Bundle = fluent_bundle::concurrent::FluentBundle<FluentResource>;

/// The files of the catalogue that paper and command read; the web app has its own beside them.
macro_rules! files {
    ($code:literal) => {
        [
            include_str!(concat!("../../../locales/", $code, "/sheet.ftl")),
            include_str!(concat!("../../../locales/", $code, "/drawing.ftl")),
            include_str!(concat!("../../../locales/", $code, "/rules.ftl")),
            include_str!(concat!("../../../locales/", $code, "/command.ftl")),
            include_str!(concat!("../../../locales/", $code, "/report.ftl")),
        ]
    };
}

pub fn bundle(language: Language) -> &'static Bundle {
    static BUNDLES: [LazyLock<Bundle>; 5] = [
        LazyLock::new(|| read(langid!("en"), &files!("en"))),
        LazyLock::new(|| read(langid!("es"), &files!("es"))),
        LazyLock::new(|| read(langid!("fr"), &files!("fr"))),
        LazyLock::new(|| read(langid!("pt"), &files!("pt"))),
        LazyLock::new(|| read(langid!("ar"), &files!("ar"))),
    ];
    &BUNDLES[language as usize]
}

fn read(language: LanguageIdentifier, files: &[&str]) -> Bundle {
    let mut bundle = Bundle::new_concurrent(vec![language]);
    // What is written from left to right in an Arabic line is set apart where it is printed, since the same text is also cut
    // and measured before.
    bundle.set_use_isolating(false);
    for text in files {
        // The tests read every file; what could be read of a damaged one is better than nothing.
        let resource = FluentResource::try_new((*text).to_owned()).unwrap_or_else(|(read, _)| read);
        bundle.add_resource_overriding(resource);
    }
    bundle
}

/// The key of a text that our rule data have: its English message is that text.
pub fn rule_key(text: &str) -> Option<&'static str> {
    static KEYS: LazyLock<HashMap<&str, &str>> = LazyLock::new(|| {
        let rules: &str = include_str!("../../../locales/en/rules.ftl");
        // One line each, without variables, as the tests make sure of.
        rules
            .lines()
            .filter(|line| !line.starts_with('#'))
            .filter_map(|line| line.split_once(" = "))
            .map(|(key, text)| (text, key))
            .collect()
    });
    KEYS.get(text).copied()
}
