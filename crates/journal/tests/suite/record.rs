//! The record on every store: nothing lost, nothing doubled, the same in whatever order it came.

use std::collections::{BTreeMap, BTreeSet};

use crate::common::Place;
use crate::common::compared::{by_hand, everything, subjects};
use crate::common::histories::{history, number, shuffled};
use jiff::Timestamp;
use journal::{Appended, Journal, JournalError, MOST_EVENTS_AT_ONCE, Query};
use model::record::event::Event;
use model::record::happened::{Happened, Position, Subject};
use model::record::known::{HoleState, Known};
use model::record::stretch::{Heading, LaneKind, LaneStatus, TrafficImpact, ZoneKind, ZoneLane};
use rand::{RngExt as _, SeedableRng as _};
use rand_pcg::Pcg64Mcg;
use uuid::Uuid;

fn now() -> Timestamp {
    "2026-05-06T12:00:00Z".parse().unwrap()
}

#[tokio::test]
async fn what_is_known_depends_on_which_events_there_are_not_on_their_order() {
    for seed in 0..12 {
        let mut random = Pcg64Mcg::seed_from_u64(seed);
        let events = history(&mut random, 60);
        let reference = by_hand(&events);
        let mut first = None;
        for place in Place::all().await {
            let journal = place.open().await;
            for batch in shuffled(&events, &mut random).chunks(7) {
                journal.append(batch.to_vec(), now()).await.unwrap();
            }
            let known = everything(&journal, 3).await;
            assert_eq!(known.keys().collect::<Vec<_>>(), reference.keys().collect::<Vec<_>>(), "seed {seed}");
            for (subject, text) in &known {
                let expected = serde_json::to_string(&reference[subject]).unwrap();
                assert!(text.ends_with(&expected), "seed {seed}, {subject:?}\n{text}\n{expected}");
            }
            let (position, _) = journal.head().await.unwrap();
            assert_eq!(position, events.len() as u64);
            assert_eq!(journal.make_anew().await.unwrap(), subjects(&events).len() as u64);
            let anew = everything(&journal, 3).await;
            assert_eq!(anew, known, "made anew, seed {seed}");
            assert_eq!(first.get_or_insert_with(|| known.clone()), &known, "one store is as the other");
            journal.close().await;
        }
    }
}

/// As a telephone keeps it: at each sync what changed since the last, and without what is gone.
async fn catch_up(journal: &Journal, copy: &mut BTreeMap<Subject, Known>, position: &mut u64) {
    for what in ["hole", "repair", "zone", "round", "resurfacing"] {
        let mut query = Query::all(what, 1_000);
        query.changed_after = Some(*position);
        copy.extend(journal.page(&query).await.unwrap().rows.into_iter().map(|row| (row.subject, row.known)));
        for subject in journal.gone(what, *position).await.unwrap() {
            copy.remove(&subject);
        }
    }
    *position = journal.head().await.unwrap().0;
}

#[tokio::test]
async fn whoever_keeps_a_copy_hears_of_what_came_and_what_went() {
    let mut went = 0;
    for seed in 0..5 {
        let mut random = Pcg64Mcg::seed_from_u64(seed);
        let mut events = history(&mut random, 40);
        // told by mistake and taken back; of every second, that too
        for index in 0..6 {
            let wrong = reported(&mut random, Position { lon: 7.0, lat: 47.0 });
            let mut event = wrong.id;
            events.push(wrong);
            for _ in 0..=index % 2 {
                let happened = Happened::Corrected { event, instead: None, why: "by mistake".into() };
                event = number(&mut random);
                events.push(Event { id: event, happened, ..events[0].clone() });
            }
        }
        for place in Place::all().await {
            let journal = place.open().await;
            let (mut copy, mut position) = (BTreeMap::new(), 0);
            for batch in shuffled(&events, &mut random).chunks(3) {
                journal.append(batch.to_vec(), now()).await.unwrap();
                catch_up(&journal, &mut copy, &mut position).await;
            }
            let told = by_hand(&events);
            assert_eq!(copy, told, "seed {seed}");
            for what in ["hole", "repair", "zone", "round", "resurfacing"] {
                let gone = journal.gone(what, 0).await.unwrap();
                assert!(gone.iter().all(|subject| !told.contains_key(subject)), "seed {seed}");
                went += gone.len();
            }
            journal.make_anew().await.unwrap();
            catch_up(&journal, &mut copy, &mut position).await;
            assert_eq!(copy, told, "made anew, seed {seed}");
            journal.close().await;
        }
    }
    assert!(went > 0, "nothing was ever gone");
}

#[tokio::test]
async fn sent_twice_is_the_same_as_once_and_another_event_of_a_number_is_not_taken() {
    for place in Place::all().await {
        let journal = place.open().await;
        let mut random = Pcg64Mcg::seed_from_u64(3);
        let events = history(&mut random, 3);
        let first = journal.append(events.clone(), now()).await.unwrap();
        assert_eq!(first, (1..=3).map(|position| Appended::Recorded { position }).collect::<Vec<_>>());
        let again = journal.append(events.clone(), now()).await.unwrap();
        assert_eq!(again, (1..=3).map(|position| Appended::KnownBefore { position }).collect::<Vec<_>>());
        let mut other = events[1].clone();
        other.actor = "somebody else".into();
        assert_eq!(
            journal.append(vec![other.clone()], now()).await.unwrap(),
            [Appended::OtherOfThatNumber { position: 2 }]
        );
        let mut new = history(&mut random, 1);
        new.push(new[0].clone());
        let twice = journal.append(new, now()).await.unwrap();
        assert_eq!(twice, [Appended::Recorded { position: 4 }, Appended::KnownBefore { position: 4 }]);
        let kept = journal.events_after(0, 100).await.unwrap();
        assert_eq!(kept.len(), 4);
        assert_eq!(kept[1].event, events[1]);
        assert!(journal.append(Vec::new(), now()).await.unwrap().is_empty());
        let too_many = vec![events[0].clone(); MOST_EVENTS_AT_ONCE + 1];
        assert!(matches!(journal.append(too_many, now()).await, Err(JournalError::TooMany(_))));
    }
}

#[tokio::test]
async fn batches_sent_at_one_time_all_arrive_once_and_the_chain_holds() {
    for place in Place::all().await {
        // two writers on one record, as of two servers
        let journals = [place.open().await, place.open().await];
        let mut tasks = Vec::new();
        for sender in 0..20_u64 {
            let journal = journals[(sender % 2) as usize].clone();
            tasks.push(tokio::spawn(async move {
                let mut random = Pcg64Mcg::seed_from_u64(100 + sender);
                for _ in 0..5 {
                    let answers = journal.append(history(&mut random, 10), now()).await.unwrap();
                    assert!(answers.iter().all(|answer| matches!(answer, Appended::Recorded { .. })));
                }
            }));
        }
        let mut sent = 0;
        for task in tasks {
            task.await.unwrap();
        }
        let events = journals[0].events_after(0, 10_000).await.unwrap();
        for (index, event) in events.iter().enumerate() {
            assert_eq!(event.position, index as u64 + 1, "no gaps");
            sent += 1;
        }
        let ids: BTreeSet<Uuid> = events.iter().map(|recorded| recorded.event.id).collect();
        assert_eq!(ids.len(), sent);
        let (position, digest) = journals[0].follow_events().await.unwrap().unwrap();
        assert_eq!((position, journal::chain::hexadecimal(&digest)), journals[1].head().await.unwrap());
    }
}

#[tokio::test]
async fn a_changed_event_breaks_the_chain() {
    for place in Place::all().await {
        let journal = place.open().await;
        journal.append(history(&mut Pcg64Mcg::seed_from_u64(5), 20), now()).await.unwrap();
        assert!(journal.follow_events().await.unwrap().is_ok());
        sqlx::query("UPDATE event SET body = replace(body, 'mara', 'nils') WHERE position = 7")
            .execute(journal.pool())
            .await
            .unwrap();
        assert_eq!(journal.follow_events().await.unwrap().unwrap_err().position, 7);
        sqlx::query("DELETE FROM event WHERE position >= 7").execute(journal.pool()).await.unwrap();
        assert_eq!(journal.follow_events().await.unwrap().unwrap_err().position, 7, "cut off at the end");
    }
}

fn reported(random: &mut Pcg64Mcg, position: Position) -> Event {
    let mut event = history(random, 1).remove(0);
    event.happened = Happened::HoleReported {
        hole: number(random),
        position,
        size: model::record::happened::HoleSize::default(),
        seen: None,
        note: String::new(),
        source: String::new(),
        reference: String::new(),
        contact: None,
    };
    event
}

/// Held against a look at every place there is.
#[tokio::test]
async fn a_box_holds_what_lies_in_it() {
    for place in Place::all().await {
        let journal = place.open().await;
        let mut random = Pcg64Mcg::seed_from_u64(11);
        // on edges of cells as well, and around the 180th meridian
        let places: Vec<Position> = (0..200)
            .map(|count| match count % 4 {
                0 => Position { lon: random.random_range(6.9..7.1), lat: random.random_range(46.9..47.1) },
                1 => Position { lon: 7.0 + f64::from(count) / 20.0, lat: 47.0 - f64::from(count) / 40.0 },
                2 => Position { lon: random.random_range(-180.0..=180.0), lat: random.random_range(-90.0..=90.0) },
                _ => {
                    Position { lon: if count % 8 == 3 { 180.0 } else { -180.0 }, lat: random.random_range(46.0..48.0) }
                }
            })
            .collect();
        let events = places.iter().map(|place| reported(&mut random, *place)).collect();
        journal.append(events, now()).await.unwrap();
        for size in [0.0, 0.001, 0.05, 0.5, 3.0, 60.0, 180.0] {
            for middle in &places[..24] {
                let around = |degrees: f64| if degrees > 180.0 { degrees - 360.0 } else { degrees };
                let west = if middle.lon - size < -180.0 { middle.lon - size + 360.0 } else { middle.lon - size };
                let (east, south, north) = (around(middle.lon + size), middle.lat - size / 2.0, middle.lat + size);
                let query = Query { within: Some([west, south, east, north]), ..Query::all("hole", 1_000) };
                let mut found: Vec<(f64, f64)> =
                    journal.page(&query).await.unwrap().rows.iter().map(|row| at(row.place.unwrap())).collect();
                let lies_in = |place: &Position| {
                    let is_between = place.lon >= west && place.lon <= east;
                    let is_outside = place.lon >= west || place.lon <= east;
                    (if west <= east { is_between } else { is_outside }) && place.lat >= south && place.lat <= north
                };
                let mut expected: Vec<(f64, f64)> = places.iter().copied().filter(lies_in).map(at).collect();
                for list in [&mut found, &mut expected] {
                    list.sort_by(|a, b| a.partial_cmp(b).unwrap());
                }
                assert_eq!(found, expected, "{size} degrees around {middle:?}");
            }
        }
    }
}

fn at(place: Position) -> (f64, f64) {
    (place.lon, place.lat)
}

#[tokio::test]
async fn pages_know_place_state_time_and_change() {
    for place in Place::all().await {
        let journal = place.open().await;
        let mut random = Pcg64Mcg::seed_from_u64(9);
        // far east and far west of the 180th meridian, and one at home
        let places = [(179.5, -17.0), (-179.5, -17.0), (7.0, 47.0)];
        let mut holes = Vec::new();
        for (lon, lat) in places {
            let event = reported(&mut random, Position { lon, lat });
            holes.push(event.happened.subjects()[0].id());
            journal.append(vec![event], now()).await.unwrap();
        }
        let found = async |change: &dyn Fn(&mut Query)| {
            let mut query = Query::all("hole", 10);
            change(&mut query);
            let rows = journal.page(&query).await.unwrap().rows;
            let mut found: Vec<usize> =
                rows.iter().map(|row| holes.iter().position(|hole| *hole == row.subject.id()).unwrap()).collect();
            found.sort_unstable();
            found
        };
        assert_eq!(found(&|_| ()).await, [0, 1, 2]);
        assert_eq!(found(&|query| query.within = Some([179.0, -18.0, -179.0, -16.0])).await, [0, 1]);
        assert_eq!(found(&|query| query.within = Some([-180.0, -18.0, 0.0, 90.0])).await, [1]);
        assert_eq!(found(&|query| query.changed_after = Some(1)).await, [1, 2]);
        assert_eq!(found(&|query| query.states = vec!["planned".into(), "reported".into()]).await, [0, 1, 2]);
        assert_eq!(found(&|query| query.states = vec!["mended'; --".into()]).await, Vec::<usize>::new());
        assert_eq!(found(&|query| query.told = (Some(now()), None)).await, Vec::<usize>::new());
        assert_eq!(found(&|query| query.told = (None, Some(now()))).await, [0, 1, 2]);
        let known = journal.known(Subject::Hole(holes[2])).await.unwrap().unwrap();
        assert!(matches!(known.known, Known::Hole(hole) if hole.state == HoleState::Reported));
        assert_eq!(journal.events_about(Subject::Hole(holes[1])).await.unwrap().len(), 1);
        assert!(journal.known(Subject::Zone(holes[2])).await.unwrap().is_none());

        let mut sorted: Vec<Subject> = holes.iter().map(|hole| Subject::Hole(*hole)).collect();
        sorted.sort_unstable();
        let mut query = Query::all("hole", 1);
        query.backwards = true;
        query.numbers = Some([sorted[0], sorted[1]]);
        let mut walked = Vec::new();
        loop {
            let page = journal.page(&query).await.unwrap();
            query.after = page.rows.last().map(|row| row.subject);
            walked.extend(query.after);
            if !page.more {
                break;
            }
        }
        assert_eq!(walked, [sorted[1], sorted[0]]);
        let asked = [sorted[2], Subject::Hole(Uuid::nil()), sorted[0], Subject::Zone(holes[0])];
        let mut known: Vec<Subject> = journal.known_of(&asked).await.unwrap().iter().map(|row| row.subject).collect();
        known.sort_unstable();
        assert_eq!(known, [sorted[0], sorted[2]]);
    }
}

#[test]
fn words_are_the_standards() {
    let words = [
        serde_json::to_string(&Heading::Northbound),
        serde_json::to_string(&TrafficImpact::SomeLanesClosedMergeLeft),
        serde_json::to_string(&ZoneKind::PlannedMovingArea),
        serde_json::to_string(&LaneStatus::AlternatingFlow),
    ];
    let words: Vec<String> = words.into_iter().map(Result::unwrap).collect();
    assert_eq!(
        words,
        ["\"northbound\"", "\"some-lanes-closed-merge-left\"", "\"planned-moving-area\"", "\"alternating-flow\""]
    );
    let lane: ZoneLane = serde_json::from_str(r#"{"order":1,"type":"shoulder","status":"closed"}"#).unwrap();
    assert_eq!((lane.kind, lane.status), (LaneKind::Shoulder, LaneStatus::Closed));
}

/// Told before the fields were there, written as it was; and told with them.
#[test]
fn events_of_before_say_nothing_of_base_weather_and_drainage() {
    let repair = "0196a3f0-0000-7000-8000-000000000001";
    for (old, more) in [
        (format!(r#"{{"kind":"hole_cut","repair":"{repair}","holes":[]}}"#), r#""drainage":"high_verge""#),
        (format!(r#"{{"kind":"layer_placed","repair":"{repair}","layer":1}}"#), r#""base":"pit run""#),
        (
            format!(r#"{{"kind":"sealed","repair":"{repair}"}}"#),
            r#""weather":"rain_within_a_day","air_temperature_c":11.5"#,
        ),
    ] {
        let told = old.replacen('}', &format!(",{more}}}"), 1);
        for text in [&old, &told] {
            let read: Happened = serde_json::from_str(text).unwrap();
            let written = serde_json::to_value(&read).unwrap();
            assert_eq!(written, serde_json::from_str::<serde_json::Value>(text).unwrap(), "written as it was");
        }
    }
}

#[test]
fn an_event_of_before_has_no_stretches() {
    let old = r#"{"kind":"zone_opened","zone":"0196a3f0-0000-7000-8000-000000000001","holes":[],"position":{"lon":1.5,"lat":2.5}}"#;
    let read: Happened = serde_json::from_str(old).unwrap();
    let written: serde_json::Value = serde_json::to_value(&read).unwrap();
    assert_eq!(written, serde_json::from_str::<serde_json::Value>(old).unwrap(), "written as it was");
    let told: Happened = serde_json::from_str(&old.replace(
        "\"holes\"",
        r#""stretches":[{"line":[{"lon":1.5,"lat":2.5},{"lon":1.6,"lat":2.5}],"heading":"eastbound"}],"holes""#,
    ))
    .unwrap();
    let Happened::ZoneOpened { stretches, .. } = &told else { panic!("{told:?}") };
    assert_eq!((stretches[0].heading, stretches[0].impact), (Heading::Eastbound, TrafficImpact::Unknown));
    let again: Happened = serde_json::from_str(&serde_json::to_string(&told).unwrap()).unwrap();
    assert_eq!(again, told);
}
