//! Appends the batches that it is told to and says what became of each: for tests that kill it half-way.
//!
//! `journal-sender PLACE`, a file or a URL `postgres://...`. A line in is a JSON array of events; a line out is `kept NUMBER`
//! or `refused NUMBER WHY`, lines in counted from 0. Sixteen batches are under way at once, as from many phones.

use std::io::stdin;
use std::process::ExitCode;
use std::sync::Arc;

use jiff::Timestamp;
use journal::Journal;
use journal::store::Location;
use model::record::event::Event;
use tokio::runtime::Runtime;
use tokio::sync::Semaphore;

const UNDER_WAY: u32 = 16;

fn main() -> ExitCode {
    let place = std::env::args().nth(1).unwrap_or_default();
    let location =
        if place.starts_with("postgres://") { Location::Server(place) } else { Location::File(place.into()) };
    let runtime = Runtime::new().expect("a runtime");
    let journal = match runtime.block_on(Journal::open(&location)) {
        Ok(journal) => journal,
        Err(error) => {
            eprintln!("{error}");
            return ExitCode::FAILURE;
        }
    };
    let under_way = Arc::new(Semaphore::new(UNDER_WAY as usize));
    for (number, line) in stdin().lines().map_while(Result::ok).enumerate() {
        let events: Vec<Event> = serde_json::from_str(&line).expect("a batch of events");
        let place = runtime.block_on(under_way.clone().acquire_owned()).expect("never closed");
        let journal = journal.clone();
        runtime.spawn(async move {
            match journal.append(events, Timestamp::UNIX_EPOCH).await {
                Ok(_) => println!("kept {number}"),
                Err(error) => println!("refused {number} {error}"),
            }
            drop(place);
        });
    }
    let _all = runtime.block_on(under_way.acquire_many(UNDER_WAY)).expect("never closed");
    ExitCode::SUCCESS
}
