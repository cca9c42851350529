//! The catalogue is one: what the program asks for is there in every language with the same variables, nothing was left in
//! English, nothing is there that nobody asks for.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};
use words::{Language, Words};

/// The files that paper and command read; those of the web app have a test of their own there.
const FILES: [&str; 5] = ["sheet.ftl", "drawing.ftl", "rules.ftl", "command.ftl", "report.ftl"];
/// What begins so is asked for by key.
const PREFIXES: [&str; 8] = ["command-", "sheet-", "drawing-", "report-", "unit-", "day-", "month-", "wind-"];

#[derive(Debug, PartialEq)]
struct Said {
    variables: BTreeSet<String>,
    /// Letters outside of the braces, of all variants.
    letters: String,
}

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// Messages of a file; what can't be parsed or stands there twice fails here.
fn read(language: Language, file: &str) -> BTreeMap<String, Said> {
    let path = root().join("locales").join(language.code()).join(file);
    let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    let resource = fluent_syntax::parser::parse(text.as_str())
        .unwrap_or_else(|(_, errors)| panic!("{}: {errors:?}", path.display()));
    let mut messages = BTreeMap::new();
    for entry in &resource.body {
        let Entry::Message(message) = entry else { continue };
        let mut said = Said { variables: BTreeSet::new(), letters: String::new() };
        collect(message.value.as_ref().expect("every message says something"), &mut said);
        let twice = messages.insert(message.id.name.to_owned(), said);
        assert!(twice.is_none(), "{} has {} twice", path.display(), message.id.name);
    }
    messages
}

fn collect(pattern: &Pattern<&str>, said: &mut Said) {
    for element in &pattern.elements {
        match element {
            PatternElement::TextElement { value } => said.letters.extend(value.chars().filter(|c| c.is_alphabetic())),
            PatternElement::Placeable { expression: Expression::Inline(inline) } => variable(inline, said),
            PatternElement::Placeable { expression: Expression::Select { selector, variants } } => {
                variable(selector, said);
                for variant in variants {
                    collect(&variant.value, said);
                }
            }
        }
    }
}

fn variable(inline: &InlineExpression<&str>, said: &mut Said) {
    if let InlineExpression::VariableReference { id } = inline {
        said.variables.insert(id.name.to_owned());
    }
}

#[test]
fn every_language_has_the_same_messages_with_the_same_variables() {
    for file in FILES {
        let english = read(Language::English, file);
        assert!(english.len() > 20, "{file}");
        for language in Language::ALL {
            let other = read(language, file);
            let keys = |of: &BTreeMap<String, Said>| of.keys().cloned().collect::<BTreeSet<_>>();
            let (ours, theirs) = (keys(&english), keys(&other));
            assert!(
                ours == theirs,
                "{file}, {language:?}: {:?}",
                ours.symmetric_difference(&theirs).collect::<Vec<_>>()
            );
            for (key, said) in &english {
                assert_eq!(said.variables, other[key].variables, "{file}, {language:?}: {key}");
            }
        }
    }
}

#[test]
fn nothing_was_left_in_english() {
    for file in FILES {
        let english = read(Language::English, file);
        for language in Language::ALL.into_iter().filter(|language| *language != Language::English) {
            let other = read(language, file);
            let left =
                english.iter().filter(|(key, said)| said.letters.len() > 12 && other[*key].letters == said.letters);
            let left: Vec<&String> = left.map(|(key, _)| key).collect();
            assert!(left.is_empty(), "{file}, {language:?}: {left:?}");
        }
    }
}

#[test]
fn what_the_program_asks_for_is_there_and_nothing_else() {
    let mut asked = BTreeSet::new();
    for folder in ["crates/jobpack/src", "crates/jobpack/templates", "crates/monthly/src", "crates/cli/src"] {
        for text in sources(&root().join(folder)) {
            // Every string that looks like a key is one.
            let strings = text
                .split('"')
                .map(|part| part.trim_start_matches('#'))
                .filter(|part| PREFIXES.iter().any(|prefix| part.starts_with(prefix)));
            let is_key = |part: &&str| {
                part.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-') && !part.ends_with('-')
            };
            asked.extend(strings.filter(is_key).map(str::to_owned));
        }
    }
    let known: BTreeSet<String> = FILES
        .iter()
        .filter(|file| **file != "rules.ftl")
        .flat_map(|file| read(Language::English, file).into_keys())
        .collect();
    let missing: Vec<&String> = asked.difference(&known).collect();
    assert!(missing.is_empty(), "asked for and not there: {missing:?}");
    let unused: Vec<&String> = known.difference(&asked).collect();
    assert!(unused.is_empty(), "there and not asked for: {unused:?}");
}

/// What is said of rule data by their text: each text is one that a rule file or a stage has, word for word.
#[test]
fn texts_of_rules_are_those_of_the_rules() {
    let mut data = String::new();
    for folder in ["rules", "crates"] {
        for text in sources(&root().join(folder)) {
            data.push_str(&text);
        }
    }
    let english = std::fs::read_to_string(root().join("locales/en/rules.ftl")).expect("it is there");
    let texts = english.lines().filter(|line| !line.starts_with('#')).filter_map(|line| line.split_once(" = "));
    let unknown: Vec<&str> =
        texts.map(|(_, text)| text).filter(|text| !data.contains(&format!("\"{text}\""))).collect();
    assert!(unknown.is_empty(), "no rule says so: {unknown:?}");
}

/// Cautions, layouts, signs and classes of duration of our rule sets are said in every language.
#[test]
fn what_rules_show_is_said_in_every_language() {
    let mut shown = Vec::new();
    for folder in ["rules/traffic", "rules/repair"] {
        for text in sources(&root().join(folder)) {
            let mut table = "";
            for line in text.lines() {
                if line.starts_with('[') {
                    table = line.trim_matches(['[', ']']);
                }
                let quoted = |field: &str| {
                    let rest = line.split_once(&format!("{field} = \""))?.1;
                    rest.split_once('"').map(|(text, _)| text.to_owned())
                };
                if table.starts_with("caution.") {
                    shown.extend(quoted("value"));
                }
                if table == "duration.names" && line.starts_with("value = {") {
                    shown.extend(line.split('"').skip(1).step_by(2).map(str::to_owned));
                }
                if table.starts_with("layouts.") {
                    shown.extend(quoted("name"));
                }
            }
        }
    }
    assert!(shown.len() > 45, "{}", shown.len());
    for text in shown {
        assert!(Words(Language::Spanish).of_rule(&text).is_some(), "not said: {text}");
    }
}

/// Rust, Typst and TOML files of a folder.
fn sources(folder: &Path) -> Vec<String> {
    let mut texts = Vec::new();
    for entry in std::fs::read_dir(folder).into_iter().flatten().flatten() {
        let path = entry.path();
        if path.is_dir() {
            texts.extend(sources(&path));
        } else if path.extension().is_some_and(|end| end == "rs" || end == "typ" || end == "toml") {
            texts.extend(std::fs::read_to_string(&path));
        }
    }
    texts
}
