//! Which way a line runs, settled where it is set: numbers, chainages and names from left to right inside of Arabic, Arabic
//! names inside of other languages, so that no text reorders what stands beside it.
//!
//! The controls stand in the text only from here on. Print writes those in text from outside as codes before, so nobody can
//! close or open one; a page isolates each cell and paragraph by itself.

use std::borrow::Cow;

const LEFT_TO_RIGHT_MARK: char = '\u{200e}';
const RIGHT_TO_LEFT_ISOLATE: char = '\u{2067}';
const END_OF_ISOLATE: char = '\u{2069}';
const RIGHT_TO_LEFT_EMBEDDING: char = '\u{202b}';
const END_OF_EMBEDDING: char = '\u{202c}';

/// Letters that run from right to left, of those that the type of printed pages has.
pub fn is_right_to_left(c: char) -> bool {
    matches!(c, '\u{600}'..='\u{65f}' | '\u{66a}'..='\u{6ef}' | '\u{6fa}'..='\u{6ff}' | '\u{750}'..='\u{77f}')
}

/// A text for a paragraph whose direction is known.
pub fn in_paragraph(text: &str, right_to_left: bool) -> Cow<'_, str> {
    if right_to_left { fenced(text) } else { isolated(text) }
}

/// A text that stands alone on a drawing: it runs as its first letter does.
pub fn alone(text: &str) -> Cow<'_, str> {
    match text.chars().find(|c| c.is_alphabetic()) {
        Some(first) if is_right_to_left(first) => {
            Cow::Owned(format!("{RIGHT_TO_LEFT_EMBEDDING}{}{END_OF_EMBEDDING}", fenced(text)))
        }
        _ => isolated(text),
    }
}

/// In a line from right to left: what is made of digits and signs keeps its own order, `1+234` and `-28.4` as much as `H-12`.
fn fenced(text: &str) -> Cow<'_, str> {
    if !text.contains(|c: char| c.is_ascii_digit()) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len() + 16);
    for (index, word) in text.split(' ').enumerate() {
        if index > 0 {
            out.push(' ');
        }
        let core = word.trim_matches(['(', ')', '[', ']', '،', ',', ':', ';', '؛', '.', '؟', '?', '…', '×']);
        let is_number = core.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | ','));
        if is_number || !core.contains(|c: char| c.is_ascii_digit()) || core.contains(is_right_to_left) {
            out.push_str(word);
            continue;
        }
        let (before, after) = word.split_once(core).unwrap_or((word, ""));
        out.push_str(before);
        out.extend([LEFT_TO_RIGHT_MARK]);
        out.push_str(core);
        out.extend([LEFT_TO_RIGHT_MARK]);
        out.push_str(after);
    }
    Cow::Owned(out)
}

/// In a line from left to right: words that run the other way move nothing around them.
fn isolated(text: &str) -> Cow<'_, str> {
    if !text.contains(is_right_to_left) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len() + 16);
    let mut rest = text;
    while let Some(start) = rest.find(is_right_to_left) {
        let (before, run) = rest.split_at(start);
        let past = run.find(|c: char| !is_right_to_left(c) && c != ' ').unwrap_or(run.len());
        let end = run[..past].trim_end_matches(' ').len();
        out.push_str(before);
        out.push(RIGHT_TO_LEFT_ISOLATE);
        out.push_str(&run[..end]);
        out.push(END_OF_ISOLATE);
        rest = &run[end..];
    }
    out.push_str(rest);
    Cow::Owned(out)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_keep_their_order_inside_of_arabic() {
        // What the Unicode algorithm (UAX #9) would turn round: signs between digits, and words of Latin letters and digits.
        for (text, set) in [
            ("المسافة 1+234", "المسافة \u{200e}1+234\u{200e}"),
            ("47.3, -28.4", "47.3, \u{200e}-28.4\u{200e}"),
            ("(H-12)", "(\u{200e}H-12\u{200e})"),
            ("104 م", "104 م"),
            ("3 أيام", "3 أيام"),
            ("حفرة", "حفرة"),
        ] {
            assert_eq!(in_paragraph(text, true), set);
        }
    }

    #[test]
    fn an_arabic_name_moves_nothing_around_it() {
        assert_eq!(in_paragraph("H-1, Sedge Lane", false), "H-1, Sedge Lane");
        assert_eq!(in_paragraph("شارع البحر 12, 30 m", false), "\u{2067}شارع البحر\u{2069} 12, 30 m");
        assert_eq!(alone("104 م"), "\u{202b}104 م\u{202c}");
        assert_eq!(alone("12 m"), "12 m");
    }
}
