//! Two records compared by what is known from them.

use std::collections::{BTreeMap, BTreeSet};

use journal::{Journal, Query, fold};
use model::record::event::Event;
use model::record::happened::{Happened, Subject};
use model::record::known::Known;

/// All that is known, as text, by subject; read in pages of so many.
pub async fn everything(journal: &Journal, page: u32) -> BTreeMap<Subject, String> {
    let mut all = BTreeMap::new();
    for what in ["hole", "repair", "zone", "round", "resurfacing"] {
        let mut query = Query::all(what, page);
        query.count = true;
        let mut seen = 0;
        loop {
            let page = journal.page(&query).await.unwrap();
            seen += page.rows.len() as u64;
            query.after = page.rows.last().map(|row| row.subject);
            for row in page.rows {
                let text = format!("{:?} {}", row.place, serde_json::to_string(&row.known).unwrap());
                assert!(all.insert(row.subject, text).is_none(), "twice in the pages");
            }
            if !page.more {
                assert_eq!(page.matched, Some(seen));
                break;
            }
        }
    }
    all
}

/// The same from the events alone, without any store: the serial reference.
pub fn by_hand(events: &[Event]) -> BTreeMap<Subject, Known> {
    subjects(events).into_iter().filter_map(|subject| Some((subject, fold::known(subject, events)?))).collect()
}

/// What the events are about.
pub fn subjects(events: &[Event]) -> BTreeSet<Subject> {
    events
        .iter()
        .flat_map(|event| match &event.happened {
            Happened::Corrected { instead: Some(instead), .. } => instead.subjects(),
            other => other.subjects(),
        })
        .collect()
}
