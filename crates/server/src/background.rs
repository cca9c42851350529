//! What goes on without being asked: jobs that were asked for, and forgetting what is over.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

use jiff::SignedDuration;
use journal::JournalError;
use journal::jobs::Job;
use journal::plan_files::PlanFile;
use model::record::known::Known;
use tokio::runtime::Handle;
use tokio::sync::watch;

use crate::import;
use crate::state::Server;

/// How long a worker may be silent before another takes its job.
const HOLD: SignedDuration = SignedDuration::from_secs(30);

/// How often a worker tells that it is there.
const TELL: Duration = Duration::from_secs(5);

/// How often an idle worker looks for work.
const LOOK: Duration = Duration::from_millis(500);

/// How long what was sent stays that nobody works on.
const UPLOADS: SignedDuration = SignedDuration::from_hours(24);

/// How long what was refused stays: whoever sent it has noticed by then.
const REFUSED: SignedDuration = SignedDuration::from_hours(24 * 400);

/// How long the files of a plan stay that nobody took.
pub(crate) const NOT_TAKEN: SignedDuration = SignedDuration::from_hours(24 * 7);

/// How often what is over is forgotten.
const FORGET: Duration = Duration::from_hours(1);

/// Works on jobs, one after the other, until told to stop; what is being worked on then is taken up by another or at
/// the next start.
pub async fn work(server: Server, mut stop: watch::Receiver<bool>) {
    loop {
        let job = match server.journal.take_job(server.now(), HOLD).await {
            Ok(job) => job,
            Err(error) => {
                tracing::error!(%error, "no job could be taken");
                None
            }
        };
        let Some(job) = job else {
            tokio::select! {
                () = tokio::time::sleep(LOOK) => continue,
                () = told_to(&mut stop) => return,
            }
        };
        let wanted = Arc::new(AtomicBool::new(true));
        let (tell, told) = watch::channel((0.0, String::new()));
        let still_wanted = Arc::clone(&wanted);
        let (own, runtime, what) = (server.clone(), Handle::current(), job.clone());
        let mut working = tokio::task::spawn_blocking(move || {
            let mut progress = |progress: f64, words: &str| {
                let _ = tell.send((progress, words.to_owned()));
                still_wanted.load(Ordering::Relaxed)
            };
            if what.kind == import::job::KIND {
                import::job::work(&own, &runtime, &what, &mut progress)
            } else {
                plan(&own, &runtime, &what, &mut progress)
            }
        });
        let outcome = loop {
            tokio::select! {
                outcome = &mut working => break Some(outcome),
                () = tokio::time::sleep(TELL.min(LOOK * 2)) => {
                    let (progress, words) = told.borrow().clone();
                    match server.journal.hold_job(job.id, progress, &words, server.now(), HOLD).await {
                        Ok(true) => {}
                        // somebody stopped it
                        Ok(false) => wanted.store(false, Ordering::Relaxed),
                        Err(error) => tracing::error!(%error, "a job's progress could not be written"),
                    }
                }
                () = told_to(&mut stop) => {
                    wanted.store(false, Ordering::Relaxed);
                    break None;
                }
            }
        };
        let Some(outcome) = outcome else { return };
        let outcome = outcome.unwrap_or_else(|_| Err("the program broke down on this; it is in the log".to_owned()));
        let outcome = outcome.as_deref().map_err(String::as_str);
        if let Err(error) = server.journal.end_job(job.id, outcome, server.now()).await {
            tracing::error!(%error, "a job's end could not be written");
            continue;
        }
        if let Err(error) = server.journal.forget_upload(job.id).await {
            tracing::error!(%error, "what a job worked on could not be thrown away");
        }
    }
}

/// Plans; the files of each round are kept as they are made.
fn plan(
    server: &Server,
    runtime: &Handle,
    job: &Job,
    progress: &mut dyn FnMut(f64, &str) -> bool,
) -> Result<String, String> {
    let told = |error: JournalError| {
        tracing::error!(%error, "files of a plan could not be kept");
        "the files of the rounds could not be kept; ask for the plan again".to_owned()
    };
    runtime.block_on(server.journal.forget_files_of_plan(job.id)).map_err(told)?;
    let mut keep = |files: Vec<PlanFile>| {
        runtime.block_on(server.journal.keep_plan_files(job.id, files, server.now())).map_err(told)
    };
    let mut record = |take: &mut dyn FnMut(Known)| {
        ["round", "repair"].into_iter().try_for_each(|what| {
            runtime.block_on(server.journal.each(what, take)).map_err(|error| {
                tracing::error!(%error, "the record could not be read for a plan");
                "the record could not be read; ask for the plan again".to_owned()
            })
        })
    };
    server.planner.plan(&job.input, &mut record, &mut keep, progress)
}

/// Forgets contacts, passes, uploads, refused events and files of plans whose time is over, now and every hour.
pub async fn forget(server: Server, mut stop: watch::Receiver<bool>) {
    loop {
        let now = server.now();
        match (server.journal.forget_contacts(now).await, server.journal.forget_ended_passes(now).await) {
            (Ok(contacts), Ok(passes)) => tracing::info!(contacts, passes, "forgotten what was over"),
            (Err(error), _) | (_, Err(error)) => tracing::error!(%error, "what is over could not be forgotten"),
        }
        if let Err(error) = server.journal.forget_uploads(now.checked_sub(UPLOADS).unwrap_or(now)).await {
            tracing::error!(%error, "what nobody works on could not be thrown away");
        }
        if let Err(error) = server.journal.forget_refused(now.checked_sub(REFUSED).unwrap_or(now)).await {
            tracing::error!(%error, "what was refused long ago could not be forgotten");
        }
        if let Err(error) = server.journal.forget_plan_files(now.checked_sub(NOT_TAKEN).unwrap_or(now)).await {
            tracing::error!(%error, "files of plans that nobody took could not be thrown away");
        }
        server.requests.retain_recent();
        server.sign_in_tries.retain_recent();
        server.reports.from_address.retain_recent();
        tokio::select! {
            () = tokio::time::sleep(FORGET) => {}
            () = told_to(&mut stop) => return,
        }
    }
}

/// Waits until told to stop.
async fn told_to(stop: &mut watch::Receiver<bool>) {
    // nobody there any more to tell it: stop as well
    let _ = stop.wait_for(|stop| *stop).await;
}
