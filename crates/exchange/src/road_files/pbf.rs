//! The open map as PBF. Two passes: ways and restrictions first, so that only the places of nodes on roads are kept.

use std::collections::BTreeSet;
use std::fs::File;
use std::io::BufReader;
use std::path::Path;

use osmpbf::{BlobDecode, BlobReader, PrimitiveBlock, RelMemberType, Relation, Way};

use super::Reading;
use super::findings::guarded;
use super::input::{CountingReader, Ticker};
use super::open_map::{Ways, refuse_node};
use super::restrictions::{Member, MemberKind, is_restriction};

/// Features a reader must understand to read the file; these two are all that road ways need.
const UNDERSTOOD: [&str; 2] = ["OsmSchema-V0.6", "DenseNodes"];

pub(super) fn read(path: &Path, reading: &mut Reading<'_>, ticker: &mut Ticker<'_>) {
    let size = std::fs::metadata(path).map_or(0, |data| data.len());
    reading.attribution = Some(reading.rules.open_map.attribution.value.clone());

    let mut ways = Ways::default();
    let mut without_nodes = BTreeSet::new();
    if !for_each_block(path, reading, ticker, true, &mut |block, index, reading| {
        let mut has_nodes = false;
        for group in block.groups() {
            has_nodes |= group.nodes().next().is_some() || group.dense_nodes().next().is_some();
            for way in group.ways() {
                take_way(&way, &mut ways, reading);
            }
            for relation in group.relations() {
                take_relation(&relation, &mut ways, reading);
            }
        }
        if !has_nodes {
            without_nodes.insert(index);
        }
    }) {
        return;
    }
    ticker.pass_over(size);

    let mut nodes = ways.needed();
    for_each_block(path, reading, ticker, false, &mut |block, index, reading| {
        if without_nodes.contains(&index) {
            return;
        }
        let mut take = |id: i64, lon: f64, lat: f64| {
            if !nodes.take(id, lon, lat) {
                let at = reading.findings.at(0, 0);
                refuse_node(reading, at, id, lon, lat);
            }
        };
        for group in block.groups() {
            group.nodes().for_each(|node| take(node.id(), node.lon(), node.lat()));
            group.dense_nodes().for_each(|node| take(node.id(), node.lon(), node.lat()));
        }
    });
    ways.into_lines(&nodes, reading);
}

fn take_way(way: &Way<'_>, ways: &mut Ways, reading: &mut Reading<'_>) {
    let at = reading.findings.at(0, 0);
    let subject = format!("way {}", way.id());
    let strings = way.raw_stringtable();
    let mut broken = false;
    let mut text = |index: u32| match strings.get(index as usize) {
        None => {
            broken = true;
            String::new()
        }
        Some(bytes) => {
            let text = String::from_utf8_lossy(bytes);
            if text.contains('\u{FFFD}') {
                not_utf8(reading, &subject, &text);
            }
            text.into_owned()
        }
    };
    let tags: Vec<(String, String)> = way.raw_tags().map(|(key, value)| (text(key), text(value))).collect();
    if broken {
        let wrong = "a tag points outside the block's table of texts".to_owned();
        reading.findings.refuse("road.pbf.broken", at, &subject, wrong, "an undamaged file");
        return;
    }
    let tags: Vec<(&str, &str)> = tags.iter().map(|(key, value)| (key.as_str(), value.as_str())).collect();
    let nodes = || {
        // Node numbers are stored as differences. In a damaged file they run over; such numbers find no node.
        let sum = |last: &mut i64, step: &i64| {
            *last = last.wrapping_add(*step);
            Some(*last)
        };
        way.raw_refs().iter().scan(0, sum).collect()
    };
    ways.take(way.id(), at, nodes, &tags, reading);
}

fn take_relation(relation: &Relation<'_>, ways: &mut Ways, reading: &mut Reading<'_>) {
    let strings = relation.raw_stringtable();
    let text = |index: u32| strings.get(index as usize).map(|bytes| String::from_utf8_lossy(bytes));
    let tags: Option<Vec<_>> = relation.raw_tags().map(|(key, value)| Some((text(key)?, text(value)?))).collect();
    let tags = tags.unwrap_or_default();
    let tags: Vec<(&str, &str)> = tags.iter().map(|(key, value)| (key.as_ref(), value.as_ref())).collect();
    if !is_restriction(&tags) {
        return;
    }
    // Member numbers are stored as differences, which the library adds up; in a damaged file they run over.
    let members = guarded(|| {
        relation
            .members()
            .map(|member| Member {
                kind: match member.member_type {
                    RelMemberType::Node => MemberKind::Node,
                    RelMemberType::Way => MemberKind::Way,
                    RelMemberType::Relation => MemberKind::Relation,
                },
                id: member.member_id,
                role: member.role().unwrap_or_default().to_owned(),
            })
            .collect::<Vec<_>>()
    });
    let at = reading.findings.at(0, 0);
    ways.restrictions.take(relation.id(), &at, &members.unwrap_or_default(), &tags, reading);
}

fn not_utf8(reading: &mut Reading<'_>, subject: &str, shown: &str) {
    let at = reading.findings.at(0, 0);
    let wrong = format!("the text {shown:?} is not UTF-8");
    reading.findings.warn(
        "road.text.not_utf8",
        at,
        subject,
        wrong,
        "text in UTF-8; the unreadable letters are replaced",
    );
}

/// What is done with each block: the block, its number among the data blocks, the state of the reading.
type EachBlock<'b, 'r> = dyn FnMut(&PrimitiveBlock, usize, &mut Reading<'r>) + 'b;

/// Goes through the blocks of the file; a block that can't be decoded is reported (on the first pass) and skipped.
/// `false`: the file needs something this reader does not understand.
fn for_each_block<'r>(
    path: &Path,
    reading: &mut Reading<'r>,
    ticker: &mut Ticker<'_>,
    first_pass: bool,
    each: &mut EachBlock<'_, 'r>,
) -> bool {
    let file = match File::open(path) {
        Ok(file) => file,
        Err(error) => {
            reading.cannot_open(&error);
            return false;
        }
    };
    let size = file.metadata().map_or(0, |data| data.len());
    let (counting, read) = CountingReader::new(BufReader::with_capacity(1 << 16, file));
    let mut blobs = BlobReader::new(counting);
    let mut index = 0;
    loop {
        let offset = read.get();
        ticker.at(offset);
        let blob = match guarded(|| blobs.next()) {
            Ok(Some(Ok(blob))) => blob,
            Ok(None) if read.get() == offset && offset == size => return true,
            Ok(None) => {
                break_off(reading, first_pass, offset, "the file ends in the middle of a block");
                return true;
            }
            Ok(Some(Err(error))) => {
                break_off(reading, first_pass, offset, &error.to_string());
                return true;
            }
            Err(panic) => {
                break_off(reading, first_pass, offset, &panic);
                return true;
            }
        };
        let outcome = guarded(|| match blob.decode().map_err(|error| error.to_string())? {
            BlobDecode::OsmHeader(header) => {
                let strange = header.required_features().iter().find(|name| !UNDERSTOOD.contains(&name.as_str()));
                Ok(strange.cloned())
            }
            BlobDecode::OsmData(block) => {
                each(&block, index, reading);
                Ok(None)
            }
            BlobDecode::Unknown(_) => Ok(None),
        });
        index += usize::from(matches!(blob.get_type(), osmpbf::BlobType::OsmData));
        match outcome.and_then(|inner| inner) {
            Ok(Some(feature)) => {
                let wrong = format!("the file needs the feature {feature:?}, which this reader does not know");
                reading.findings.fatal("road.pbf.feature", wrong, "a plain extract without history");
                return false;
            }
            Err(error) if first_pass => {
                let at = reading.findings.at(0, 0);
                reading.findings.refuse(
                    "road.pbf.broken",
                    at,
                    "",
                    format!("the block at byte {offset} can't be decoded: {error}"),
                    "an undamaged file: fetch it again; the other blocks are used",
                );
            }
            Ok(None) | Err(_) => {}
        }
    }
}

fn break_off(reading: &mut Reading<'_>, first_pass: bool, offset: u64, why: &str) {
    if first_pass {
        let at = reading.findings.at(0, 0);
        reading.findings.refuse(
            "road.pbf.broken",
            at,
            "",
            format!("the file breaks off at byte {offset}: {why}"),
            "a whole, undamaged file: fetch it again; what comes before the break is used",
        );
    }
}
