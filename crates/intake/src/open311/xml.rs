//! The standard's XML: elements with text or elements in them, no attributes, no namespaces.

use model::problem::Locator;
use quick_xml::Reader;
use quick_xml::escape::escape;
use quick_xml::events::{BytesRef, Event};
use serde_json::{Map, Value};

use super::wire::ReadFault;

/// Elements inside each other; the standard needs five.
const DEPTH_MAX: usize = 16;

/// Elements that hold a list.
const LISTS: [&str; 5] = ["services", "service_requests", "attributes", "values", "errors"];

/// An element to be written.
pub struct Element {
    pub name: &'static str,
    pub content: Content,
}

/// What is in an element.
pub enum Content {
    Text(String),
    Elements(Vec<Element>),
}

/// An element with text.
pub fn leaf(name: &'static str, text: &(impl ToString + ?Sized)) -> Element {
    Element { name, content: Content::Text(text.to_string()) }
}

/// An element with elements.
pub fn element(name: &'static str, elements: Vec<Element>) -> Element {
    Element { name, content: Content::Elements(elements) }
}

/// A whole document.
pub fn write(root: &Element) -> String {
    let mut text = String::from("<?xml version=\"1.0\" encoding=\"utf-8\"?>\n");
    write_element(root, 0, &mut text);
    text
}

fn write_element(element: &Element, depth: usize, text: &mut String) {
    let name = element.name;
    text.extend(std::iter::repeat_n("    ", depth));
    match &element.content {
        Content::Text(content) => {
            let content: String =
                content.chars().map(|c| if is_xml(c) { c } else { char::REPLACEMENT_CHARACTER }).collect();
            text.extend(["<", name, ">", escape(content.as_str()).as_ref(), "</", name, ">\n"]);
        }
        Content::Elements(elements) => {
            text.extend(["<", name, ">\n"]);
            for inner in elements {
                write_element(inner, depth + 1, text);
            }
            text.extend(std::iter::repeat_n("    ", depth));
            text.extend(["</", name, ">\n"]);
        }
    }
}

/// Whether a character may stand in an XML 1.0 document (production 2, `Char`).
fn is_xml(character: char) -> bool {
    matches!(character, '\t' | '\n' | '\r' | '\u{20}'..='\u{D7FF}' | '\u{E000}'..='\u{FFFD}' | '\u{10000}'..)
}

/// An element while it is read.
struct Open {
    name: String,
    text: String,
    inner: Vec<(String, Value)>,
}

/// Reads a document whose outermost element is `root`: lists become arrays, other elements objects, text is trimmed, an empty
/// element is null.
pub fn read(bytes: &[u8], root: &str) -> Result<Value, ReadFault> {
    let text = std::str::from_utf8(bytes).map_err(|error| {
        let wrong = format!("byte {} is not UTF-8", error.valid_up_to() + 1);
        fault(bytes, error.valid_up_to(), wrong, "XML in UTF-8")
    })?;
    let mut reader = Reader::from_str(text);
    let mut open: Vec<Open> = Vec::new();
    loop {
        let before = usize::try_from(reader.buffer_position()).unwrap_or(usize::MAX);
        let wrong = |wrong: String, right: &str| Err(fault(bytes, before, wrong, right));
        let event = match reader.read_event() {
            Ok(event) => event,
            Err(error) => {
                let at = usize::try_from(reader.error_position()).unwrap_or(usize::MAX);
                return Err(fault(bytes, at, format!("this is not XML: {error}"), "elements that are closed again"));
            }
        };
        let closed = match event {
            Event::Start(start) | Event::Empty(start) if open.len() >= DEPTH_MAX => {
                let name = String::from_utf8_lossy(start.name().as_ref()).into_owned();
                return wrong(
                    format!("`{name}` lies deeper than {DEPTH_MAX} elements"),
                    "the elements of GeoReport v2",
                );
            }
            Event::Start(start) => {
                open.push(Open::new(start.name().as_ref()));
                None
            }
            Event::Empty(start) => Some(Open::new(start.name().as_ref())),
            Event::End(_) => open.pop(),
            Event::Text(text) => match (open.last_mut(), text.decode()) {
                (Some(inside), Ok(text)) => {
                    inside.text.push_str(&text);
                    None
                }
                (None, Ok(text)) if text.trim_matches(['\u{FEFF}', ' ', '\n', '\r', '\t']).is_empty() => None,
                _ => return wrong("text stands outside of every element".into(), "one outermost element"),
            },
            Event::CData(data) => {
                if let (Some(inside), Ok(text)) = (open.last_mut(), data.decode()) {
                    inside.text.push_str(&text);
                }
                None
            }
            Event::GeneralRef(reference) => match (open.last_mut(), character(&reference)) {
                (Some(inside), Some(character)) => {
                    inside.text.push(character);
                    None
                }
                _ => {
                    return wrong(
                        "a reference to something that is not known".into(),
                        "&lt; &gt; &amp; &quot; &apos; or a number",
                    );
                }
            },
            Event::DocType(_) => return wrong("a document type is declared".into(), "leave it out"),
            Event::Eof if open.is_empty() => return wrong("there is no element".into(), &format!("<{root}>")),
            Event::Eof => return wrong("an element is not closed".into(), "close it"),
            Event::Comment(_) | Event::Decl(_) | Event::PI(_) => None,
        };
        let Some(closed) = closed else { continue };
        let name = closed.name.clone();
        let value = closed.value().map_err(|twice| {
            fault(bytes, before, format!("`{twice}` stands twice in `{name}`"), "each element once")
        })?;
        match open.last_mut() {
            Some(outer) => outer.inner.push((name, value)),
            None if name == root => return Ok(value),
            None => return wrong(format!("the outermost element is `{name}`"), &format!("<{root}>")),
        }
    }
}

impl Open {
    fn new(name: &[u8]) -> Self {
        Open { name: String::from_utf8_lossy(name).into_owned(), text: String::new(), inner: Vec::new() }
    }

    /// Its value, or the name of an element that is there twice.
    fn value(self) -> Result<Value, String> {
        if LISTS.contains(&self.name.as_str()) {
            return Ok(Value::Array(self.inner.into_iter().map(|(_, value)| value).collect()));
        }
        if self.inner.is_empty() {
            let text = self.text.trim();
            return Ok(if text.is_empty() { Value::Null } else { Value::String(text.to_owned()) });
        }
        let mut fields = Map::new();
        for (name, value) in self.inner {
            if fields.insert(name.clone(), value).is_some() {
                return Err(name);
            }
        }
        Ok(Value::Object(fields))
    }
}

/// The character a reference stands for.
fn character(reference: &BytesRef) -> Option<char> {
    if let Ok(Some(character)) = reference.resolve_char_ref() {
        return Some(character).filter(|character| is_xml(*character));
    }
    match reference.decode().ok()?.as_ref() {
        "lt" => Some('<'),
        "gt" => Some('>'),
        "amp" => Some('&'),
        "quot" => Some('"'),
        "apos" => Some('\''),
        _ => None,
    }
}

fn fault(bytes: &[u8], offset: usize, wrong: String, right: &str) -> ReadFault {
    let Locator { line, column, .. } = exchange::text_file::Lines::new("", bytes).locate(offset);
    ReadFault { line, column, wrong, right: right.to_owned() }
}
