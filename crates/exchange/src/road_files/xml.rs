//! The open map as XML, plain or gzip. Two passes: the ways first, so that only the places of nodes on roads are kept.

use std::path::Path;

use model::problem::Locator;
use quick_xml::Reader;
use quick_xml::escape::unescape;
use quick_xml::events::{BytesStart, Event};

use super::Reading;
use super::findings::guarded;
use super::input::{LineCounter, Opened, Ticker};
use super::open_map::{Ways, refuse_node};
use super::restrictions::{Member, MemberKind};

pub(super) fn read(path: &Path, reading: &mut Reading<'_>, ticker: &mut Ticker<'_>) {
    let size = std::fs::metadata(path).map_or(0, |data| data.len());
    let mut ways = Ways::default();
    let mut open = Open::default();
    let is_open_map = for_each_element(path, reading, ticker, true, &mut |element, at, reading| {
        first_pass(element, at, &mut open, &mut ways, reading);
    });
    if !is_open_map {
        return;
    }
    if reading.attribution.is_none() {
        reading.attribution = Some(reading.rules.open_map.attribution.value.clone());
    }
    ticker.pass_over(size);
    let mut nodes = ways.needed();
    for_each_element(path, reading, ticker, false, &mut |element, at, reading| {
        let Element::Opens(start) = element else { return };
        if start.name().as_ref() != b"node" {
            return;
        }
        let given = Given::of(start, at, reading, false);
        let Some(id) = given.number::<i64>("id") else { return };
        match (given.number::<f64>("lon"), given.number::<f64>("lat")) {
            (Some(lon), Some(lat)) => {
                if !nodes.take(id, lon, lat) {
                    refuse_node(reading, at.clone(), id, lon, lat);
                }
            }
            _ => nodes_place_unreadable(reading, at, id),
        }
    });
    ways.into_lines(&nodes, reading);
}

/// A relation that has been opened and not yet closed.
struct OpenRelation {
    id: i64,
    at: Locator,
    members: Vec<Member>,
    tags: Vec<(String, String)>,
    deleted: bool,
}

/// What has been opened and not yet closed.
#[derive(Default)]
struct Open {
    way: Option<OpenWay>,
    relation: Option<OpenRelation>,
}

/// A way that has been opened and not yet closed.
struct OpenWay {
    id: Option<i64>,
    at: Locator,
    nodes: Vec<i64>,
    tags: Vec<(String, String)>,
    deleted: bool,
}

/// What the parser came upon.
enum Element<'e> {
    /// A start tag, or an empty element (which closes at once).
    Opens(&'e BytesStart<'e>),
    /// An end.
    Closes(&'e [u8]),
}

fn first_pass(element: &Element<'_>, at: &Locator, open: &mut Open, ways: &mut Ways, reading: &mut Reading<'_>) {
    match element {
        Element::Opens(start) => match start.name().as_ref() {
            b"osm" => {
                let given = Given::of(start, at, reading, false);
                let words: Vec<&str> = ["copyright", "license"].into_iter().filter_map(|key| given.text(key)).collect();
                reading.attribution = (!words.is_empty()).then(|| words.join(", "));
            }
            b"way" => {
                let given = Given::of(start, at, reading, false);
                let deleted = given.text("visible") == Some("false") || given.text("action") == Some("delete");
                let id = given.number("id");
                if id.is_none() {
                    let wrong = "a way has no number".to_owned();
                    reading.findings.refuse(
                        "road.way.no_id",
                        at.clone(),
                        "",
                        wrong,
                        "a way with a whole number as its id",
                    );
                }
                open.way = Some(OpenWay { id, at: at.clone(), nodes: Vec::new(), tags: Vec::new(), deleted });
            }
            b"nd" => {
                if let Some(way) = &mut open.way {
                    let given = Given::of(start, at, reading, false);
                    // A reference that is no number finds no node, and is counted as missing.
                    way.nodes.push(given.number("ref").unwrap_or(i64::MIN));
                }
            }
            b"tag" => {
                let way = open.way.as_mut().map(|way| &mut way.tags);
                if let Some(tags) = way.or(open.relation.as_mut().map(|relation| &mut relation.tags)) {
                    let given = Given::of(start, at, reading, true);
                    if let (Some(key), Some(value)) = (given.text("k"), given.text("v")) {
                        tags.push((key.to_owned(), value.to_owned()));
                    }
                }
            }
            b"relation" => {
                let given = Given::of(start, at, reading, false);
                open.relation = given.number("id").map(|id| {
                    let deleted = given.text("visible") == Some("false") || given.text("action") == Some("delete");
                    OpenRelation { id, at: at.clone(), members: Vec::new(), tags: Vec::new(), deleted }
                });
            }
            b"member" => {
                if let Some(relation) = &mut open.relation {
                    let given = Given::of(start, at, reading, false);
                    let kind = match given.text("type") {
                        Some("node") => MemberKind::Node,
                        Some("way") => MemberKind::Way,
                        _ => MemberKind::Relation,
                    };
                    let role = given.text("role").unwrap_or_default().to_owned();
                    relation.members.push(Member { kind, id: given.number("ref").unwrap_or(i64::MIN), role });
                }
            }
            _ => {}
        },
        Element::Closes(b"way") => {
            if let Some(OpenWay { id: Some(id), at, nodes, tags, deleted: false }) = open.way.take() {
                let tags: Vec<(&str, &str)> = tags.iter().map(|(key, value)| (key.as_str(), value.as_str())).collect();
                ways.take(id, at, || nodes, &tags, reading);
            }
        }
        Element::Closes(b"relation") => {
            if let Some(OpenRelation { id, at, members, tags, deleted: false }) = open.relation.take() {
                let tags: Vec<(&str, &str)> = tags.iter().map(|(key, value)| (key.as_str(), value.as_str())).collect();
                ways.restrictions.take(id, &at, &members, &tags, reading);
            }
        }
        Element::Closes(_) => {}
    }
}

fn nodes_place_unreadable(reading: &mut Reading<'_>, at: &Locator, id: i64) {
    let subject = format!("node {id}");
    let wrong = "longitude or latitude is missing or no number".to_owned();
    reading.findings.refuse("road.node.unreadable", at.clone(), &subject, wrong, "lon=\"...\" lat=\"...\" in degrees");
}

/// The attributes of one element as text.
struct Given(Vec<(String, String)>);

impl Given {
    fn of(start: &BytesStart<'_>, at: &Locator, reading: &mut Reading<'_>, shown_to_people: bool) -> Self {
        let mut given = Vec::new();
        for attribute in start.attributes() {
            let attribute = match attribute {
                Ok(attribute) => attribute,
                Err(error) => {
                    let wrong = format!("an attribute can't be read: {error}");
                    reading.findings.warn(
                        "road.xml.attribute",
                        at.clone(),
                        "",
                        wrong,
                        "attributes written name=\"value\", each once",
                    );
                    continue;
                }
            };
            let raw = String::from_utf8_lossy(&attribute.value);
            if shown_to_people && raw.contains('\u{FFFD}') {
                let wrong = format!("the text {raw:?} is not UTF-8");
                let right = "text in UTF-8; the unreadable letters are replaced";
                reading.findings.warn("road.text.not_utf8", at.clone(), "", wrong, right);
            }
            let value = unescape(&raw).map_or_else(|_| raw.to_string(), std::borrow::Cow::into_owned);
            given.push((String::from_utf8_lossy(attribute.key.as_ref()).into_owned(), value));
        }
        Given(given)
    }

    fn text(&self, name: &str) -> Option<&str> {
        self.0.iter().find(|(key, _)| key == name).map(|(_, value)| value.as_str())
    }

    fn number<N: std::str::FromStr>(&self, name: &str) -> Option<N> {
        self.text(name)?.trim().parse().ok()
    }
}

/// What is done with each element: the element, where it stands, the state of the reading.
type EachElement<'e, 'r> = dyn FnMut(&Element<'_>, &Locator, &mut Reading<'r>) + 'e;

/// Goes through the elements up to the end or the first break, which is reported on the first pass. `false`: the file
/// is not an open-map file.
fn for_each_element<'r>(
    path: &Path,
    reading: &mut Reading<'r>,
    ticker: &mut Ticker<'_>,
    first_pass: bool,
    each: &mut EachElement<'_, 'r>,
) -> bool {
    let opened = match Opened::new(path) {
        Ok(opened) => opened,
        Err(error) => {
            reading.cannot_open(&error);
            return false;
        }
    };
    let (counter, place) = LineCounter::new(opened.reader);
    let mut parser = Reader::from_reader(counter);
    let mut buffer = Vec::new();
    let mut depth = 0_usize;
    let mut root_seen = false;
    loop {
        ticker.at(opened.read.get());
        let (line, column) = place.get();
        let at = reading.findings.at(line, column);
        buffer.clear();
        let event = match guarded(|| parser.read_event_into(&mut buffer)) {
            Ok(Ok(event)) => event,
            Ok(Err(error)) => return break_off(reading, first_pass, at, &error.to_string(), root_seen),
            Err(panic) => return break_off(reading, first_pass, at, &panic, root_seen),
        };
        match event {
            Event::Start(start) => {
                if !root_seen && !root_is_open_map(&start, at.clone(), reading) {
                    return false;
                }
                root_seen = true;
                depth += 1;
                each(&Element::Opens(&start), &at, reading);
            }
            Event::Empty(start) => {
                if !root_seen && !root_is_open_map(&start, at.clone(), reading) {
                    return false;
                }
                root_seen = true;
                each(&Element::Opens(&start), &at, reading);
                each(&Element::Closes(start.name().as_ref()), &at, reading);
            }
            Event::End(end) => {
                depth = depth.saturating_sub(1);
                each(&Element::Closes(end.name().as_ref()), &at, reading);
            }
            Event::Eof if depth > 0 || !root_seen => {
                return break_off(
                    reading,
                    first_pass,
                    at,
                    "the file ends before its last element is closed",
                    root_seen,
                );
            }
            Event::Eof => return true,
            _ => {}
        }
    }
}

fn root_is_open_map(start: &BytesStart<'_>, at: Locator, reading: &mut Reading<'_>) -> bool {
    let is = start.name().as_ref() == b"osm";
    if !is {
        let root = String::from_utf8_lossy(start.name().as_ref()).into_owned();
        let wrong = format!("the root element is <{root}>");
        reading.findings.refuse("road.xml.root", at, "", wrong, "an OpenStreetMap file, whose root element is <osm>");
    }
    is
}

fn break_off(reading: &mut Reading<'_>, first_pass: bool, at: Locator, why: &str, root_seen: bool) -> bool {
    if first_pass {
        reading.findings.refuse(
            "road.xml.broken",
            at,
            "",
            format!("the file breaks off here: {why}"),
            "a whole, well-formed file; the ways that end before the break are used",
        );
    }
    root_seen
}
