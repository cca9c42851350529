//! Text from outside, made fit for print: what the pack's type can't show stands as a visible code, so that no two names
//! look alike and none reorders or covers what stands beside it.

use std::borrow::Cow;
use std::fmt::Write;

use crate::fonts;
use words::direction::in_paragraph;

/// Combining marks on one letter before they are written as codes; more would run into the lines above and below.
const MARKS_MAX: usize = 2;
/// Letters in a row before a line may break between them.
const UNBROKEN_MAX: usize = 24;
/// A place where a line may break, without a mark.
const BREAK: char = '\u{200b}';

/// The text with every character that would not be seen (controls of direction, joiners, characters the type lacks) as a
/// code such as `<U+202E>`. Line ends and tabs become spaces. Doing it twice changes nothing.
pub fn printable(text: &str) -> Cow<'_, str> {
    if text.bytes().all(|b| (b' '..=b'~').contains(&b)) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len() + 16);
    let mut marks = 0;
    for c in text.chars() {
        marks = if is_mark(c) { marks + 1 } else { 0 };
        match c {
            '\t' | '\n' | '\r' | '\u{2028}' | '\u{2029}' => out.push(' '),
            c if marks <= MARKS_MAX && !is_unseen(c) && fonts::covers(c) => out.push(c),
            c => {
                let _ = write!(out, "<U+{:04X}>", c as u32);
            }
        }
    }
    Cow::Owned(out)
}

/// The printable text, with places to break in words longer than a column can hold.
pub fn breakable(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 8);
    let mut unbroken = 0;
    for c in printable(text).chars() {
        unbroken = if matches!(c, ' ' | '-' | '–' | '—' | '/') { 0 } else { unbroken + 1 };
        if unbroken > UNBROKEN_MAX && !is_mark(c) {
            out.push(BREAK);
            unbroken = 1;
        }
        out.push(c);
    }
    out
}

/// Cuts a text to a number of characters, with an ellipsis; between words where that costs less than a third of it.
pub fn shorten(text: &str, most: usize) -> String {
    let text = printable(text);
    if text.chars().count() <= most {
        return text.into_owned();
    }
    let cut: String = text.chars().take(most.saturating_sub(1)).collect();
    let kept = match cut.rfind([' ', ',', ';']) {
        Some(end) if cut[..end].chars().count() * 3 >= most * 2 => &cut[..end],
        _ => &cut,
    };
    format!("{}…", kept.trim_end_matches([' ', ',', ';', '+', '-', '*', '/', '=', '(']))
}

/// Cuts a name in its middle: lists of ids often begin alike and differ at the end.
pub fn shorten_name(name: &str, most: usize) -> String {
    let name = printable(name);
    let count = name.chars().count();
    if count <= most {
        return name.into_owned();
    }
    let tail = most / 2;
    let head = most.saturating_sub(tail + 1);
    name.chars().take(head).chain(['…']).chain(name.chars().skip(count - tail)).collect()
}

/// Fields that tell the typesetter what to do, and are read by nobody else.
const NOT_READ: [&str; 8] =
    ["paper", "units", "language", "drawing", "map", "cut_drawing", "section_drawing", "pattern_drawing"];

/// Makes every text in a value breakable, and ready for lines of that direction.
pub fn make_breakable(value: &mut serde_json::Value, right_to_left: bool) {
    match value {
        serde_json::Value::String(text) => *text = in_paragraph(&breakable(text), right_to_left).into_owned(),
        serde_json::Value::Array(items) => items.iter_mut().for_each(|item| make_breakable(item, right_to_left)),
        serde_json::Value::Object(fields) => fields
            .iter_mut()
            .filter(|(name, _)| !NOT_READ.contains(&name.as_str()))
            .for_each(|(_, field)| make_breakable(field, right_to_left)),
        _ => {}
    }
}

fn is_mark(c: char) -> bool {
    matches!(c, '\u{300}'..='\u{36f}' | '\u{483}'..='\u{489}' | '\u{610}'..='\u{61a}' | '\u{64b}'..='\u{65f}' | '\u{670}'
        | '\u{6d6}'..='\u{6dc}' | '\u{6df}'..='\u{6e4}' | '\u{6e7}'..='\u{6e8}' | '\u{6ea}'..='\u{6ed}' | '\u{1ab0}'..='\u{1aff}' | '\u{1dc0}'..='\u{1dff}'
        | '\u{20d0}'..='\u{20ff}' | '\u{fe20}'..='\u{fe2f}')
}

/// Characters without a shape of their own: a font may list them and still show nothing.
fn is_unseen(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{ad}' | '\u{34f}' | '\u{600}'..='\u{605}' | '\u{61c}' | '\u{6dd}' | '\u{115f}'..='\u{1160}' | '\u{17b4}'..='\u{17b5}'
            | '\u{180b}'..='\u{180f}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}'
            | '\u{3164}' | '\u{fe00}'..='\u{fe0f}' | '\u{feff}' | '\u{ffa0}' | '\u{fff0}'..='\u{fffb}'
            | '\u{fffe}'..='\u{ffff}' | '\u{e0000}'..='\u{e0fff}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_can_not_be_seen_is_written_as_a_code() {
        for (text, shown) in [
            ("H-001", "H-001"),
            ("Öster väg, Łódź, Ωμέγα, Дорога ½ m²", "Öster väg, Łódź, Ωμέγα, Дорога ½ m²"),
            ("A\u{202e}321", "A<U+202E>321"),
            ("\u{2066}x\u{2069}", "<U+2066>x<U+2069>"),
            ("🚧1", "<U+1F6A7>1"),
            ("道", "<U+9053>"),
            ("א", "<U+05D0>"),
            ("شارع البحر", "شارع البحر"),
            ("\u{fe8e}", "<U+FE8E>"),
            ("A\u{200b}1", "A<U+200B>1"),
            ("a\tb\nc", "a b c"),
            ("a\u{301}\u{301}\u{301}", "a\u{301}\u{301}<U+0301>"),
        ] {
            assert_eq!(printable(text), shown);
            assert_eq!(printable(&printable(text)), shown);
        }
    }

    #[test]
    fn long_words_can_break_and_nothing_is_lost() {
        let long = "x".repeat(300);
        let broken = breakable(&long);
        assert!(broken.split(BREAK).all(|part| part.chars().count() <= UNBROKEN_MAX));
        assert_eq!(broken.replace(BREAK, ""), long);
        assert_eq!(breakable("short words stay"), "short words stay");
    }

    #[test]
    fn words_are_not_cut_in_the_middle() {
        assert_eq!(shorten("R is the residue, S stands for stone", 22), "R is the residue, S…");
        assert_eq!(shorten("abcdefghijkl", 6), "abcde…");
        assert_eq!(shorten("short", 6), "short");
        assert_eq!(shorten_name("district-7-000123", 10), "dist…00123");
    }
}
