//! Invented holes, one in each state.

#![allow(dead_code)] // each test file uses its own part

use jiff::Timestamp;
use jiff::civil::date;
use model::record::happened::Position;
use model::record::known::{HoleState, KnownHole, KnownReport};
use model::record::told::{Teller, Told};
use uuid::Uuid;

pub fn number(n: u128) -> Uuid {
    Uuid::from_u128(0x0198_0000_0000_7000_8000_0000_0000_0000 + n)
}

pub fn teller(minute: i64) -> Teller {
    let at = Timestamp::from_second(1_795_000_000 + 60 * minute).expect("a moment");
    Teller { event: number(1000), actor: "public".into(), device: "web".into(), at }
}

pub fn told<T>(value: T) -> Told<T> {
    Told { value, by: teller(5), otherwise: Vec::new() }
}

pub fn hole(n: u128, state: HoleState) -> KnownHole {
    let report = KnownReport {
        by: teller(0),
        note: "Deep, near the <gate>".into(),
        source: "public".into(),
        reference: String::new(),
        contact: None,
    };
    KnownHole {
        hole: number(n),
        state,
        position: Some(told(Position { lon: -28.4123, lat: 47.3125 })),
        length_mm: None,
        width_mm: None,
        depth_mm: None,
        lane_position: None,
        wetness: None,
        seen: Some(date(2026, 11, 18)),
        reports: vec![report],
        same_as: None,
        merged: Vec::new(),
        dismissed: None,
        dealt_with: false,
        resurfaced: None,
        repairs: Vec::new(),
        photos: Vec::new(),
        last_told: teller(n as i64).at,
    }
}

/// 1 to 4: told, planned, begun, mended; 5 dismissed; 6 the same as 4; 7 the same as 6; 8 and 9 each other; 10 as one that is not
/// there.
pub fn all() -> Vec<KnownHole> {
    let same = |n, other| KnownHole { same_as: Some(told(number(other))), ..hole(n, HoleState::SameAsOther) };
    vec![
        hole(1, HoleState::Reported),
        hole(2, HoleState::Planned),
        hole(3, HoleState::Begun),
        hole(4, HoleState::Mended),
        KnownHole {
            dismissed: Some(told("a manhole of the waterworks & theirs to mend".into())),
            ..hole(5, HoleState::Dismissed)
        },
        same(6, 4),
        same(7, 6),
        same(8, 9),
        same(9, 8),
        same(10, 99),
    ]
}

pub fn find(id: Uuid) -> Option<KnownHole> {
    all().into_iter().find(|hole| hole.hole == id)
}
