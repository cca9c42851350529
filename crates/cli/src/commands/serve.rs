//! `lengthsman serve` and `lengthsman worker`: the record of a district, for office and phones.

mod cut;
mod district;
mod planner;
mod settings;
mod weather;

use std::fs::File;
use std::net::SocketAddr;
use std::sync::Arc;

use journal::Journal;
use journal::store::Location;
use server::{ReportSettings, Server, Settings, background, router};
use tokio::net::TcpListener;
use tokio::sync::watch;

use super::record::{RecordFlags, make_folder, now, run};
use crate::outcome::Outcome;
pub(crate) use district::{Shown, book_settings, district_bounds, shown};
use planner::DistrictPlanner;

#[derive(Debug, clap::Args)]
pub(crate) struct ServeArguments {
    #[command(flatten)]
    record: RecordFlags,
    /// Where to listen. Others than this machine reach it through a server in front that speaks HTTPS.
    #[arg(long, value_name = "ADDRESS", default_value = "127.0.0.1:8080")]
    listen: SocketAddr,
    /// Address that people and phones use, where it is another.
    #[arg(long, value_name = "URL")]
    address: Option<String>,
    /// Planning jobs worked on at a time; 0 where `lengthsman worker` works on them.
    #[arg(long, value_name = "N", default_value_t = 1)]
    workers: usize,
}

#[derive(Debug, clap::Args)]
pub(crate) struct WorkerArguments {
    #[command(flatten)]
    record: RecordFlags,
}

pub(crate) fn serve(arguments: &ServeArguments) -> Outcome {
    log();
    run(async {
        let listener = TcpListener::bind(arguments.listen)
            .await
            .map_err(|error| format!("can't listen at {}: {error}", arguments.listen))?;
        let listens = listener.local_addr().map_err(|error| error.to_string())?;
        let address = arguments.address.clone().unwrap_or_else(|| format!("http://{listens}"));
        let settings = Settings {
            address: address.trim_end_matches('/').to_owned(),
            // browsers keep the cookie from open connections, but for this machine itself
            secure_cookies: !(listens.ip().is_loopback() && address.starts_with("http://")),
            workers: arguments.workers,
            ..Settings::default()
        };
        let (server, _lock) = open(&arguments.record, settings).await?;
        if let Some(link) = server.set_up_link().await.map_err(|error| error.to_string())? {
            say!("nobody has an account yet; make the first one, within a day, at");
            say!("  {link}");
        }
        say!("listening at {listens}");
        let (stop, stopped) = watch::channel(false);
        let mut tasks = vec![tokio::spawn(background::forget(server.clone(), stopped.clone()))];
        for _ in 0..arguments.workers {
            tasks.push(tokio::spawn(background::work(server.clone(), stopped.clone())));
        }
        let service = router(server.clone()).into_make_service_with_connect_info::<SocketAddr>();
        let served = axum::serve(listener, service).with_graceful_shutdown(asked_to_stop()).await;
        let _ = stop.send(true);
        for task in tasks {
            let _ = task.await;
        }
        server.close().await;
        served.map_err(|error| error.to_string())
    })
}

pub(crate) fn worker(arguments: &WorkerArguments) -> Outcome {
    log();
    run(async {
        if arguments.record.store.is_none() {
            return Err(
                "a worker shares a PostgreSQL record: give --store; `serve` works on a file's jobs itself".into()
            );
        }
        let (server, _lock) = open(&arguments.record, Settings::default()).await?;
        let (stop, stopped) = watch::channel(false);
        let work = tokio::spawn(background::work(server.clone(), stopped));
        say!("working");
        asked_to_stop().await;
        let _ = stop.send(true);
        let _ = work.await;
        server.close().await;
        Ok(())
    })
}

/// Opens the record. A file is held by one program at a time, which the lock sees to.
async fn open(flags: &RecordFlags, settings: Settings) -> Result<(Server, Option<File>), String> {
    make_folder(&flags.data)?;
    let location = flags.location();
    let lock = if matches!(location, Location::File(_)) { Some(lock(flags)?) } else { None };
    let Shown { district, matching, units, network } = shown(&flags.data)?;
    let planner = DistrictPlanner::new(flags.data.join("district.toml"), network);
    let mut settings = Settings {
        photos: flags.photos(),
        district: district_bounds(&district),
        reports: ReportSettings { agency: Some(district.name.clone()), matching, units, ..ReportSettings::default() },
        shown: district,
        ..settings
    };
    settings::read(&flags.data, &mut settings).map_err(|problems| {
        crate::report::print(&problems);
        format!("{} can't be used", settings::FILE)
    })?;
    // Last: it brings the record to the program's form, and nothing may be wrong with the rest then.
    let journal = Journal::open(&location).await.map_err(|error| error.to_string())?;
    Ok((Server::new(journal, settings, Arc::new(planner), Arc::new(now)), lock))
}

fn lock(flags: &RecordFlags) -> Result<File, String> {
    let path = flags.data.join("serving.lock");
    let file = File::create(&path).map_err(|error| format!("{}: {error}", path.display()))?;
    file.try_lock().map_err(|_| format!("another program serves {} already", flags.data.display()))?;
    Ok(file)
}

/// Waits for Ctrl-C, or for the system to end the program.
async fn asked_to_stop() {
    let ended = async {
        #[cfg(unix)]
        if let Ok(mut signal) = tokio::signal::unix::signal(tokio::signal::unix::SignalKind::terminate()) {
            signal.recv().await;
            return;
        }
        std::future::pending::<()>().await;
    };
    tokio::select! {
        _ = tokio::signal::ctrl_c() => {}
        () = ended => {}
    }
    eprintln!("stopping");
}

/// What goes on, a JSON line each, on standard error.
fn log() {
    // a second call, in a test, changes nothing
    let _ = tracing_subscriber::fmt().json().with_writer(std::io::stderr).try_init();
}
