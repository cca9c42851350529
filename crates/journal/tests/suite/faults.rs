//! What goes wrong under a record: its process killed, its disk full or read-only, its database gone for a while. Nothing that
//! was acknowledged may be lost, nothing may be there twice, and no batch half.

use std::collections::{BTreeMap, BTreeSet};
use std::io::{BufRead as _, BufReader, Write as _};
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use crate::common::Place;
use crate::common::compared::everything;
use crate::common::histories::history;
use jiff::Timestamp;
use journal::store::Location;
use journal::{Appended, Journal};
use model::record::event::Event;
use rand::{RngExt as _, SeedableRng as _};
use rand_pcg::Pcg64Mcg;
use sqlx::{Connection as _, PgConnection};
use tempfile::TempDir;
use uuid::Uuid;

/// Environment variable: how many records are written with kills, of 1,000 batches each, on each store.
const ROUNDS: &str = "LENGTHSMAN_TEST_KILL_ROUNDS";

const SENDER: &str = env!("CARGO_BIN_EXE_journal-sender");

const BATCHES: usize = 1_000;
const EVENTS_IN_BATCH: usize = 10;

/// Acknowledgements between two kills at most; a thousand batches are killed at five or six times.
const MOST_BETWEEN_KILLS: usize = 400;

fn batches(random: &mut Pcg64Mcg, count: usize) -> Vec<Vec<Event>> {
    (0..count).map(|_| history(random, EVENTS_IN_BATCH)).collect()
}

/// All events of a record by number, after following its chain.
async fn kept(journal: &Journal) -> BTreeMap<Uuid, Event> {
    let (last, _) = journal.follow_events().await.unwrap().expect("the chain holds");
    let mut all = BTreeMap::new();
    let mut position = 0;
    loop {
        let some = journal.events_after(position, 1_000).await.unwrap();
        if some.is_empty() {
            assert_eq!(position, last, "the head is the last event");
            return all;
        }
        for recorded in some {
            position += 1;
            assert_eq!(recorded.position, position, "no gaps");
            assert!(all.insert(recorded.event.id, recorded.event).is_none(), "no event twice");
        }
    }
}

/// Every acknowledged batch is there as it was sent, every other wholly or not at all.
fn hold_against(kept: &BTreeMap<Uuid, Event>, batches: &[Vec<Event>], acknowledged: &BTreeSet<usize>) {
    let mut found = 0;
    for (number, batch) in batches.iter().enumerate() {
        let there = batch.iter().filter(|event| kept.get(&event.id) == Some(event)).count();
        assert!(there == batch.len() || !acknowledged.contains(&number), "batch {number} was acknowledged and is lost");
        assert!(there == batch.len() || there == 0, "batch {number} is there half");
        found += there;
    }
    assert_eq!(found, kept.len(), "nothing else");
}

/// A process that appends, see the folder `sender`.
struct Sender {
    process: Child,
    /// Numbers of the batches that it was told to append, in the order of its lines.
    told: Vec<usize>,
}

impl Sender {
    /// Starts it and tells it batches by their numbers.
    fn start(location: &Location, batches: &[Vec<Event>], told: Vec<usize>) -> Self {
        let mut command = Command::new(SENDER);
        match location {
            Location::File(path) => command.arg(path),
            Location::Server(url) => command.arg(url),
        };
        let mut process = command.stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().unwrap();
        let lines: Vec<String> = told.iter().map(|number| serde_json::to_string(&batches[*number]).unwrap()).collect();
        let mut input = process.stdin.take().unwrap();
        // a killed process reads no more
        std::thread::spawn(move || lines.iter().try_for_each(|line| writeln!(input, "{line}")));
        Self { process, told }
    }

    /// Reads what became of the batches, each line as it comes, to the end of the process.
    fn listen(mut self, mut heard: impl FnMut(&mut Child, usize, bool)) {
        let output = BufReader::new(self.process.stdout.take().unwrap());
        for line in output.lines().map_while(Result::ok) {
            let mut words = line.splitn(3, ' ');
            let kept = words.next() == Some("kept");
            // the last line of a killed process may be cut off: then nobody was told
            if let Some(number) = words.next().and_then(|number| number.parse::<usize>().ok()) {
                heard(&mut self.process, self.told[number], kept);
            }
        }
        self.process.wait().unwrap();
    }
}

/// Appends all batches in processes that are killed, as with `kill -9`, after a random count of acknowledgements and a moment more. Gives the
/// count of kills.
async fn write_with_kills(place: &Place, batches: &[Vec<Event>], random: &mut Pcg64Mcg) -> usize {
    let mut acknowledged = BTreeSet::new();
    let mut kills = 0;
    while acknowledged.len() < batches.len() {
        let open: Vec<usize> = (0..batches.len()).filter(|number| !acknowledged.contains(number)).collect();
        let kill_after = random.random_range(1..=MOST_BETWEEN_KILLS);
        let moment = Duration::from_micros(random.random_range(0..3_000));
        let mut count = 0;
        let before = acknowledged.len();
        Sender::start(&place.location, batches, open).listen(|process, number, kept| {
            assert!(kept, "batch {number} was refused");
            acknowledged.insert(number);
            count += 1;
            if count == kill_after {
                std::thread::sleep(moment);
                process.kill().unwrap();
                kills += 1;
            }
        });
        assert!(acknowledged.len() > before, "it goes on after a kill");
        let journal = place.open().await;
        hold_against(&kept(&journal).await, batches, &acknowledged);
        journal.close().await;
    }
    kills
}

#[tokio::test]
async fn killed_at_any_moment_nothing_acknowledged_is_lost_and_nothing_doubled() {
    let rounds = std::env::var(ROUNDS).ok().and_then(|rounds| rounds.parse().ok()).unwrap_or(1);
    for round in 0..rounds {
        let mut random = Pcg64Mcg::seed_from_u64(7_000 + round);
        let batches = batches(&mut random, BATCHES);
        for place in Place::all().await {
            let kills = write_with_kills(&place, &batches, &mut random).await;
            let journal = place.open().await;
            let known = everything(&journal, 1_000).await;
            journal.make_anew().await.unwrap();
            assert!(everything(&journal, 1_000).await == known, "what is known is that of the events");
            eprintln!("round {round}: {kills} kills, {} events kept once", kept(&journal).await.len());
            assert!(kills > 0, "it was killed");
            journal.close().await;
        }
    }
}

/// Appends batch after batch until one is refused, makes room, and appends the rest.
async fn fill_up(journal: &Journal, batches: &[Vec<Event>], make_room: impl FnOnce()) {
    let mut make_room = Some(make_room);
    let mut acknowledged = BTreeSet::new();
    for (number, batch) in batches.iter().enumerate() {
        if let Err(error) = journal.append(batch.clone(), Timestamp::UNIX_EPOCH).await {
            assert!(error.to_string().contains("full"), "{error}");
            hold_against(&kept(journal).await, batches, &acknowledged);
            let Some(make_room) = make_room.take() else { panic!("refused though there is room again: {error}") };
            make_room();
            let again = journal.append(batch.clone(), Timestamp::UNIX_EPOCH).await.unwrap();
            assert!(matches!(again[0], Appended::Recorded { .. }), "nothing of it was stored before");
        }
        acknowledged.insert(number);
    }
    assert!(make_room.is_none(), "the disk was full");
    hold_against(&kept(journal).await, batches, &acknowledged);
}

/// A small file system of its own; `None` where we may not mount one.
struct SmallDisk(TempDir);

impl SmallDisk {
    fn mount() -> Option<Self> {
        let disk = Self(TempDir::new().unwrap());
        let mounted = disk.call("mount", &["-t", "tmpfs", "-o", "size=4m", "tmpfs"]);
        if !mounted {
            eprintln!("skipped on a small disk: mounting one is not allowed here");
        }
        mounted.then_some(disk)
    }

    fn remount(&self, options: &str) {
        assert!(self.call("mount", &["-o", &format!("remount,{options}")]), "remount,{options}");
    }

    fn call(&self, program: &str, arguments: &[&str]) -> bool {
        let output = Command::new(program).args(arguments).arg(self.0.path()).output();
        output.is_ok_and(|output| output.status.success())
    }
}

impl Drop for SmallDisk {
    fn drop(&mut self) {
        self.call("umount", &["--lazy"]);
    }
}

#[tokio::test]
async fn a_full_disk_is_an_error_and_with_room_again_it_goes_on() {
    let Some(disk) = SmallDisk::mount() else { return };
    let journal = Journal::open(&Location::in_folder(disk.0.path())).await.unwrap();
    let batches = batches(&mut Pcg64Mcg::seed_from_u64(1), 300);
    fill_up(&journal, &batches, || disk.remount("size=256m")).await;
    journal.close().await;
}

/// Needs no rights: the process may write no longer files, and is then allowed to.
#[tokio::test]
async fn a_file_that_may_not_grow_is_an_error_and_goes_on_when_it_may() {
    if !Command::new("prlimit").arg("--version").output().is_ok_and(|output| output.status.success()) {
        eprintln!("skipped: prlimit is not here");
        return;
    }
    let place = Place::file();
    let mut random = Pcg64Mcg::seed_from_u64(2);
    let batches = batches(&mut random, 400);
    // without the signal, writing past the limit is an error of the call; blocks of 1,024 bytes
    let mut limited = Command::new("bash");
    limited.args(["-c", "trap '' XFSZ; ulimit -S -f 1024; exec \"$0\" \"$1\"", SENDER]);
    let Location::File(path) = &place.location else { unreachable!("a file") };
    let mut process = limited.arg(path).stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().unwrap();
    let (mut input, output) = (process.stdin.take().unwrap(), process.stdout.take().unwrap());
    let mut lines = BufReader::new(output).lines();
    let mut acknowledged = BTreeSet::new();
    let mut lifted_at = None;
    // one after the other, so that it is known which were sent when
    for (number, batch) in batches.iter().enumerate() {
        writeln!(input, "{}", serde_json::to_string(batch).unwrap()).unwrap();
        let line = lines.next().expect("an answer").unwrap();
        if line.starts_with("kept") {
            acknowledged.insert(number);
        } else if lifted_at.is_none() {
            let mut lift = Command::new("prlimit");
            lift.args(["--fsize=unlimited:", "--pid", &process.id().to_string()]);
            assert!(lift.status().unwrap().success());
            lifted_at = Some(number);
        } else {
            panic!("refused though it may write again: {line}");
        }
    }
    drop(input);
    process.wait().unwrap();
    let lifted_at = lifted_at.expect("the limit was met");
    assert_eq!(acknowledged.len(), batches.len() - 1, "all but number {lifted_at}");
    let journal = place.open().await;
    hold_against(&kept(&journal).await, &batches, &acknowledged);
    for batch in &batches {
        journal.append(batch.clone(), Timestamp::UNIX_EPOCH).await.unwrap();
    }
    hold_against(&kept(&journal).await, &batches, &(0..batches.len()).collect());
}

#[tokio::test]
async fn a_read_only_disk_is_an_error_and_the_record_is_whole_after_it() {
    let Some(disk) = SmallDisk::mount() else { return };
    disk.remount("ro");
    let location = Location::in_folder(disk.0.path());
    let error = Journal::open(&location).await.unwrap_err();
    assert!(error.to_string().contains("unable to open"), "{error}");
    disk.remount("rw");
    let batches = batches(&mut Pcg64Mcg::seed_from_u64(3), 20);
    let journal = Journal::open(&location).await.unwrap();
    for batch in &batches[..10] {
        journal.append(batch.clone(), Timestamp::UNIX_EPOCH).await.unwrap();
    }
    journal.close().await;
    disk.remount("ro");
    // it may open for reading
    if let Ok(journal) = Journal::open(&location).await {
        assert!(journal.append(batches[10].clone(), Timestamp::UNIX_EPOCH).await.is_err());
        journal.close().await;
    }
    disk.remount("rw");
    let journal = Journal::open(&location).await.unwrap();
    hold_against(&kept(&journal).await, &batches, &(0..10).collect());
    for batch in &batches {
        journal.append(batch.clone(), Timestamp::UNIX_EPOCH).await.unwrap();
    }
    hold_against(&kept(&journal).await, &batches, &(0..20).collect());
    journal.close().await;
}

/// As when the database restarts: every connection of it is ended, again and again.
#[tokio::test]
async fn connections_ended_under_load_lose_nothing_that_was_acknowledged() {
    let Some(place) = Place::server().await else { return };
    let Location::Server(url) = &place.location else { unreachable!("a server") };
    let mut other = PgConnection::connect(url).await.unwrap();
    let journal = place.open().await;
    let batches = batches(&mut Pcg64Mcg::seed_from_u64(4), 400);
    let mut senders = Vec::new();
    for mine in 0..8_usize {
        let journal = journal.clone();
        let batches = batches.clone();
        senders.push(tokio::spawn(async move {
            let mut acknowledged = BTreeSet::new();
            for (number, batch) in batches.into_iter().enumerate().filter(|(number, _)| number % 8 == mine) {
                if journal.append(batch, Timestamp::UNIX_EPOCH).await.is_ok() {
                    acknowledged.insert(number);
                }
            }
            acknowledged
        }));
    }
    let mut ended = 0;
    while senders.iter().any(|sender| !sender.is_finished()) {
        let sql = "SELECT count(pg_terminate_backend(pid)) FROM pg_stat_activity \
                   WHERE datname = current_database() AND pid <> pg_backend_pid()";
        ended += sqlx::query_scalar::<_, i64>(sql).fetch_one(&mut other).await.unwrap();
        tokio::time::sleep(Duration::from_millis(30)).await;
    }
    let mut acknowledged = BTreeSet::new();
    for sender in senders {
        acknowledged.extend(sender.await.unwrap());
    }
    assert!(ended > 0 && !acknowledged.is_empty(), "{ended} ended, {} acknowledged", acknowledged.len());
    eprintln!("{ended} connections ended, {} of {} batches acknowledged", acknowledged.len(), batches.len());
    hold_against(&kept(&journal).await, &batches, &acknowledged);
    // what was not acknowledged is sent again, as a phone does
    for batch in &batches {
        journal.append(batch.clone(), Timestamp::UNIX_EPOCH).await.unwrap();
    }
    hold_against(&kept(&journal).await, &batches, &(0..batches.len()).collect());
    let known = everything(&journal, 1_000).await;
    journal.make_anew().await.unwrap();
    assert!(everything(&journal, 1_000).await == known, "what is known is that of the events");
    journal.close().await;
}
