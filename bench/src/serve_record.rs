//! `bench serve-record --folder FOLDER`: a server on a record there, for a load tool on the same machine; `server_load.sh` drives it.
//! The limit on requests of one address is set high, since all come from one; all else is as `lengthsman serve` has it, but for
//! planning, which it can't. Prints the link of the first start, then what it listens at; ends with Ctrl-C.

use std::fs::File;
use std::net::SocketAddr;
use std::num::NonZeroU32;
use std::path::Path;
use std::sync::{Arc, Mutex};

use jiff::Timestamp;
use journal::Journal;
use journal::store::Location;
use server::reporting::Reporting;
use server::{CutAsked, CutShown, EachKnown, PlanFile, Planner, Server, Settings, Weather, router};
use tokio::net::TcpListener;

pub const USAGE: &str = "serve-record [--folder FOLDER] [--store postgres://...] [--listen 127.0.0.1:0]";

const REQUESTS_PER_SECOND: u32 = 1_000_000;

/// Runs the command; an error is a sentence for the reader.
pub fn run(arguments: impl Iterator<Item = String>) -> Result<(), String> {
    let (mut folder, mut store, mut listen) = (".".to_owned(), None, SocketAddr::from(([127, 0, 0, 1], 0)));
    let given: Vec<String> = arguments.collect();
    let parsed = (|| {
        let mut given = given.iter();
        while let Some(name) = given.next() {
            match name.as_str() {
                "--folder" => folder.clone_from(given.next()?),
                "--store" => store = Some(given.next()?.clone()),
                "--listen" => listen = given.next()?.parse().ok()?,
                _ => return None,
            }
        }
        Some(())
    })();
    parsed.ok_or_else(|| format!("usage: bench {USAGE}"))?;
    let folder = Path::new(&folder);
    let log = File::create(folder.join("requests.log")).map_err(|error| format!("requests.log: {error}"))?;
    tracing_subscriber::fmt().json().with_writer(Mutex::new(log)).init();
    let location = store.map_or_else(|| Location::in_folder(folder), Location::Server);
    let runtime = tokio::runtime::Runtime::new().map_err(|error| error.to_string())?;
    runtime.block_on(async {
        let listener = TcpListener::bind(listen).await.map_err(|error| format!("can't listen at {listen}: {error}"))?;
        let listens = listener.local_addr().map_err(|error| error.to_string())?;
        let settings = Settings {
            address: format!("http://{listens}"),
            photos: folder.join("photos"),
            secure_cookies: false,
            requests_per_second: NonZeroU32::new(REQUESTS_PER_SECOND).unwrap_or(NonZeroU32::MAX),
            ..Settings::default()
        };
        let journal = Journal::open(&location).await.map_err(|error| error.to_string())?;
        let server = Server::new(journal, settings, Arc::new(NoPlans), Arc::new(clock));
        if let Some(link) = server.set_up_link().await.map_err(|error| error.to_string())? {
            println!("{link}");
        }
        println!("listening at {listens}");
        let service = router(server.clone()).into_make_service_with_connect_info::<SocketAddr>();
        let stop = async {
            let _ = tokio::signal::ctrl_c().await;
        };
        let served = axum::serve(listener, service).with_graceful_shutdown(stop).await;
        server.close().await;
        served.map_err(|error| error.to_string())
    })
}

const NOTHING: &str = "this server is for measuring the record; it plans nothing";

/// Plans nothing.
struct NoPlans;

impl Planner for NoPlans {
    fn plan(
        &self,
        _: &str,
        _: &mut EachKnown,
        _: &mut dyn FnMut(Vec<PlanFile>) -> Result<(), String>,
        _: &mut dyn FnMut(f64, &str) -> bool,
    ) -> Result<String, String> {
        Err(NOTHING.to_owned())
    }

    fn reporting(&self) -> Result<Reporting<'_>, String> {
        Err(NOTHING.to_owned())
    }

    fn weather(&self) -> Result<Weather, String> {
        Err(NOTHING.to_owned())
    }

    fn cut(&self, _: &CutAsked) -> Result<CutShown, String> {
        Err(NOTHING.to_owned())
    }
}

#[expect(clippy::disallowed_methods, reason = "a server tells the time")]
fn clock() -> Timestamp {
    Timestamp::now()
}
