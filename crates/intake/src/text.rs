//! Text that strangers send: how long it may be and which characters it may hold.
//!
//! Text is kept as it was written. HTML or SQL in it is text like any other: it is escaped where an answer is written, and
//! nothing here builds a query. What could steer a terminal, a page or the reading order is refused.

use thiserror::Error;

/// Why a text can't be taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum TextFault {
    /// Longer than the field takes.
    #[error("is {length} characters long; at most {most} are taken")]
    TooLong {
        /// Its length, characters.
        length: usize,
        /// The most that is taken.
        most: usize,
    },
    /// A character that is no text.
    #[error("holds a control character, U+{code:04X}; leave it out")]
    Control {
        /// Its number.
        code: u32,
    },
    /// Bytes that are no UTF-8, or the character that stands for such.
    #[error("is not UTF-8 text; send it in UTF-8")]
    NotUtf8,
}

/// Takes a text of one line: blanks around it go, a line break is refused.
///
/// # Errors
/// Too long, or a character that is no text.
pub fn one_line(text: &str, most: usize) -> Result<String, TextFault> {
    let text = text.trim();
    checked(text, most, |_| false)?;
    Ok(text.to_owned())
}

/// Takes a text of several lines: blanks around it go, every line ends with `\n`.
///
/// # Errors
/// Too long, or a character that is no text.
pub fn several_lines(text: &str, most: usize) -> Result<String, TextFault> {
    let text = text.trim();
    checked(text, most, |character| matches!(character, '\n' | '\r' | '\t'))?;
    Ok(text.replace("\r\n", "\n").replace('\r', "\n"))
}

fn checked(text: &str, most: usize, is_allowed: fn(char) -> bool) -> Result<(), TextFault> {
    // A text of no more bytes has no more characters.
    if text.len() > most {
        let length = text.chars().count();
        if length > most {
            return Err(TextFault::TooLong { length, most });
        }
    }
    for character in text.chars() {
        if character == char::REPLACEMENT_CHARACTER {
            return Err(TextFault::NotUtf8);
        }
        if is_steering(character) && !is_allowed(character) {
            return Err(TextFault::Control { code: u32::from(character) });
        }
    }
    Ok(())
}

/// Control characters, those that turn the reading order round, and those that no XML file may hold.
pub(crate) fn is_steering(character: char) -> bool {
    character.is_control()
        || matches!(character, '\u{2028}'..='\u{202E}' | '\u{2066}'..='\u{2069}' | '\u{FEFF}' | '\u{FFFE}' | '\u{FFFF}')
}

/// At most `most` characters of a text that is not ours, for a message; what steers is shown as its number.
pub(crate) fn quoted(text: &str, most: usize) -> String {
    let mut shown = String::from("`");
    for (index, character) in text.chars().enumerate() {
        if index == most {
            shown.push('…');
            break;
        }
        if is_steering(character) {
            shown.extend(character.escape_unicode());
        } else {
            shown.push(character);
        }
    }
    shown.push('`');
    shown
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_text_is_kept_and_what_steers_is_refused() {
        assert_eq!(one_line("  <b>'; DROP TABLE holes; --</b> ", 40), Ok("<b>'; DROP TABLE holes; --</b>".into()));
        assert_eq!(several_lines("one\r\ntwo\rthree", 40), Ok("one\ntwo\nthree".into()));
        assert_eq!(one_line("one\ntwo", 40), Err(TextFault::Control { code: 0xA }));
        assert_eq!(one_line("a\u{1b}[2J", 40), Err(TextFault::Control { code: 0x1B }));
        assert_eq!(several_lines("a\u{202e}b", 40), Err(TextFault::Control { code: 0x202E }));
        assert_eq!(one_line("äöüß", 4), Ok("äöüß".into()));
        assert_eq!(one_line("äöüßé", 4), Err(TextFault::TooLong { length: 5, most: 4 }));
        assert_eq!(one_line("a\u{fffd}", 4), Err(TextFault::NotUtf8));
        assert_eq!(quoted("a\u{1b}bcd", 3), "`a\\u{1b}b…`");
    }
}
