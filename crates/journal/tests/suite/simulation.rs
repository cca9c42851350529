//! 200 phones on a bad network against one record: cut off for hours, messages lost, late, twice and out of order, clocks wrong. In the end
//! all is known that a serial run of the same events knows.

use std::collections::BTreeMap;

use crate::common::Place;
use crate::common::compared::{by_hand, everything};
use crate::common::histories::history;
use futures_util::future::join_all;
use jiff::{SignedDuration, Timestamp};
use journal::{Appended, Journal};
use model::record::event::Event;
use rand::{RngExt as _, SeedableRng as _};
use rand_pcg::Pcg64Mcg;

const PHONES: usize = 200;

/// Stretches of road on which several phones tell of the same holes, repairs, zones and rounds.
const STRETCHES: usize = 30;
const EVENTS_ON_STRETCH: usize = 30;

/// A step of the network is a minute; messages are under way for up to two hours.
const MOST_STEPS_UNDER_WAY: u64 = 120;

struct Phone {
    name: String,
    /// How far its clock is ahead.
    ahead: SignedDuration,
    /// Whether it knows that from the server.
    knows: bool,
    /// Events and when it can tell them, in the order of its day; acknowledged ones are taken out.
    untold: Vec<(u64, Event)>,
    /// Steps in which it has no network, from and to.
    cut_off: Vec<(u64, u64)>,
    /// When it sends next.
    sends_at: u64,
}

impl Phone {
    fn new(number: usize, random: &mut Pcg64Mcg) -> Self {
        // from a day behind to a day ahead; most are nearly right
        let most = if random.random_bool(0.2) { 86_400_000 } else { 60_000 };
        let ahead = SignedDuration::from_millis(random.random_range(-most..=most));
        let cut_off = (0..3).map(|_| {
            let from = random.random_range(0..1_500);
            (from, from + random.random_range(30..600))
        });
        Self {
            name: format!("phone-{number}"),
            ahead,
            cut_off: cut_off.collect(),
            knows: random.random_bool(0.7),
            untold: Vec::new(),
            sends_at: 0,
        }
    }

    /// The event as this phone writes it down.
    fn write_down(&mut self, step: u64, mut event: Event) {
        let truly = event.happened_at();
        event.device.clone_from(&self.name);
        event.device_time = truly.checked_add(self.ahead).unwrap();
        event.clock_ahead_ms = if self.knows { self.ahead.as_millis() as i64 } else { 0 };
        self.untold.push((step, event));
    }

    fn has_network(&self, step: u64) -> bool {
        !self.cut_off.iter().any(|(from, to)| (*from..*to).contains(&step))
    }

    /// What it would send now: some of what it has not heard of, not always the oldest first.
    fn batch(&self, step: u64, random: &mut Pcg64Mcg) -> Vec<Event> {
        let ready: Vec<&Event> = self.untold.iter().filter(|(at, _)| *at <= step).map(|(_, event)| event).collect();
        if ready.is_empty() {
            return Vec::new();
        }
        let from = random.random_range(0..ready.len());
        let count = random.random_range(1..=20);
        ready.into_iter().cycle().skip(from).take(count.min(self.untold.len())).cloned().collect()
    }
}

/// The serial run's input: all events as the phones wrote them down.
fn phones(random: &mut Pcg64Mcg) -> (Vec<Phone>, Vec<Event>) {
    let mut phones: Vec<Phone> = (0..PHONES).map(|number| Phone::new(number, random)).collect();
    for _ in 0..STRETCHES {
        // a handful of phones on each stretch
        let here: Vec<usize> = (0..8).map(|_| random.random_range(0..PHONES)).collect();
        for (step, event) in (0..).step_by(30).zip(history(random, EVENTS_ON_STRETCH)) {
            phones[here[random.random_range(0..here.len())]].write_down(step, event);
        }
    }
    let all = phones.iter().flat_map(|phone| phone.untold.iter().map(|(_, event)| event.clone())).collect();
    (phones, all)
}

/// What the network did, so that a test can see that it did it.
#[derive(Debug, Default)]
struct Seen {
    lost: usize,
    answers_lost: usize,
    twice: usize,
    known_before: usize,
    cut_off: usize,
}

/// Lets the phones tell all they have. Gives what the network did.
async fn run(journal: &Journal, mut phones: Vec<Phone>, random: &mut Pcg64Mcg) -> Seen {
    let begin: Timestamp = "2026-05-04T06:00:00Z".parse().unwrap();
    let mut seen = Seen::default();
    // by the step in which they arrive
    let mut under_way: BTreeMap<u64, Vec<(usize, Vec<Event>)>> = BTreeMap::new();
    let mut answers: BTreeMap<u64, Vec<(usize, Vec<Event>)>> = BTreeMap::new();
    let mut step = 0;
    while phones.iter().any(|phone| !phone.untold.is_empty()) {
        assert!(step < 100_000, "the phones never come to an end");
        for (number, phone) in phones.iter_mut().enumerate() {
            if phone.untold.is_empty() || step < phone.sends_at {
                continue;
            }
            phone.sends_at = step + random.random_range(20..120);
            if !phone.has_network(step) {
                seen.cut_off += 1;
                continue;
            }
            let batch = phone.batch(step, random);
            if batch.is_empty() {
                continue;
            }
            if random.random_bool(0.2) {
                seen.lost += 1;
                continue;
            }
            let copies = if random.random_bool(0.2) { 2 } else { 1 };
            seen.twice += copies - 1;
            for _ in 0..copies {
                let arrives = step + random.random_range(0..MOST_STEPS_UNDER_WAY);
                under_way.entry(arrives).or_default().push((number, batch.clone()));
            }
        }
        // what arrives in one step is written together
        let now = begin + SignedDuration::from_mins(step.cast_signed());
        let arrived = under_way.remove(&step).unwrap_or_default();
        let became = join_all(arrived.iter().map(|(_, batch)| journal.append(batch.clone(), now))).await;
        for ((number, batch), became) in arrived.into_iter().zip(became) {
            let became = became.unwrap();
            assert!(!became.iter().any(|became| matches!(became, Appended::OtherOfThatNumber { .. })));
            seen.known_before += became.iter().filter(|became| matches!(became, Appended::KnownBefore { .. })).count();
            if random.random_bool(0.2) || !phones[number].has_network(step) {
                seen.answers_lost += 1;
            } else {
                answers.entry(step + random.random_range(0..MOST_STEPS_UNDER_WAY)).or_default().push((number, batch));
            }
        }
        for (number, batch) in answers.remove(&step).unwrap_or_default() {
            phones[number].untold.retain(|(_, event)| !batch.contains(event));
        }
        step += 1;
    }
    // late copies come after everybody thinks it is over
    for (number, batch) in under_way.into_values().flatten() {
        let became = journal.append(batch, begin + SignedDuration::from_hours(24 * 90)).await.unwrap();
        assert!(became.iter().all(|became| matches!(became, Appended::KnownBefore { .. })), "phone {number}");
        seen.twice += 1;
    }
    seen
}

#[tokio::test]
async fn two_hundred_phones_come_to_what_a_serial_run_knows() {
    for seed in 0..2 {
        let (_, mut events) = phones(&mut Pcg64Mcg::seed_from_u64(seed));
        // serial: in the order of what they say of their times, one batch after the other, on a network without faults
        events.sort_by_key(Event::order);
        let serial = Place::file();
        let serial_journal = serial.open().await;
        for batch in events.chunks(100) {
            serial_journal.append(batch.to_vec(), Timestamp::UNIX_EPOCH).await.unwrap();
        }
        let expected = everything(&serial_journal, 1_000).await;
        for (subject, known) in by_hand(&events) {
            assert!(expected[&subject].ends_with(&serde_json::to_string(&known).unwrap()), "{subject:?}");
        }
        for place in Place::all().await {
            let mut random = Pcg64Mcg::seed_from_u64(seed);
            let (phones, _) = phones(&mut random);
            let journal = place.open().await;
            let seen = run(&journal, phones, &mut random).await;
            eprintln!("seed {seed}: {seen:?}");
            for count in [seen.lost, seen.answers_lost, seen.twice, seen.known_before, seen.cut_off] {
                assert!(count > 50, "the network was too good: {seen:?}");
            }
            let (position, _) = journal.follow_events().await.unwrap().expect("the chain holds");
            assert_eq!(position, events.len() as u64, "seed {seed}: each once");
            let known = everything(&journal, 1_000).await;
            assert_eq!(known.len(), expected.len());
            for (subject, text) in &expected {
                assert_eq!(known.get(subject), Some(text), "seed {seed}");
            }
            journal.close().await;
        }
    }
}
