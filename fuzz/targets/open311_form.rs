//! Reports and questions of Open311.
#![no_main]

use intake::open311::Office;
use intake::open311::form::read_form;
use intake::open311::query::{Asked, read_query};
use intake::open311::report::{NewNumbers, taken};
use intake::open311::service::HoleService;
use intake::open311::wire::Format;
use intake::place::{Bounds, District};
use jiff::civil::date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use libfuzzer_sys::fuzz_target;
use model::record::happened::Happened;
use uuid::Uuid;

thread_local! { static OFFICE: Office = Office {
    jurisdiction: None,
    agency: None,
    service: HoleService::shipped(),
    district: District {
        bounds: Some(Bounds { west: -28.7, south: 47.1, east: -28.1, north: 47.5 }),
        zone: TimeZone::UTC,
    },
    shows_words: false,
} }

fuzz_target!(|bytes: &[u8]| {
    OFFICE.with(|office| {
        match read_form(bytes, office, &|_| true) {
            Ok(posted) => {
                let numbers = NewNumbers { hole: Uuid::from_u128(1), contact: Uuid::from_u128(2) };
                let taken = taken(&posted, numbers, date(2026, 6, 9));
                let Happened::HoleReported { note, .. } = taken.happened else { unreachable!("a report is of a hole") };
                assert!(
                    note.chars().all(|c| !c.is_control() || c == '\n' || c == '\t'),
                    "{note:?} got into the record"
                );
            }
            Err(refusal) => {
                assert!((400..500).contains(&refusal.status()));
                assert!(refusal.faults().iter().all(|fault| !fault.description.is_empty()));
                assert!(!refusal.write(Format::Json).contains('<'));
            }
        }
        if let Ok(query) = std::str::from_utf8(bytes)
            && let Ok(Asked::Told { from, until, .. }) = read_query(query, office, Timestamp::UNIX_EPOCH)
        {
            assert!(from <= until && until.duration_since(from) <= SignedDuration::from_hours(90 * 24));
        }
    });
});
