//! What goes on without being asked: planning jobs, and forgetting what is over.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

use jiff::SignedDuration;
use tokio::sync::watch;

use crate::state::Server;

/// How long a worker may be silent before another takes its job.
const HOLD: SignedDuration = SignedDuration::from_secs(30);

/// How often a worker tells that it is there.
const TELL: Duration = Duration::from_secs(5);

/// How often an idle worker looks for work.
const LOOK: Duration = Duration::from_millis(500);

/// How often what is over is forgotten.
const FORGET: Duration = Duration::from_hours(1);

/// Works on planning jobs, one after the other, until told to stop; what is being worked on then is taken up by another or at
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
        let planner = Arc::clone(&server.planner);
        let still_wanted = Arc::clone(&wanted);
        let input = job.input.clone();
        let mut working = tokio::task::spawn_blocking(move || {
            planner.plan(&input, &mut |progress, words| {
                let _ = tell.send((progress, words.to_owned()));
                still_wanted.load(Ordering::Relaxed)
            })
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
        let outcome = outcome.unwrap_or_else(|_| Err("the planner broke down on this; it is in the log".to_owned()));
        let outcome = outcome.as_deref().map_err(String::as_str);
        if let Err(error) = server.journal.end_job(job.id, outcome, server.now()).await {
            tracing::error!(%error, "a job's end could not be written");
        }
    }
}

/// Forgets contacts and passes whose time is over, now and every hour.
pub async fn forget(server: Server, mut stop: watch::Receiver<bool>) {
    loop {
        let now = server.now();
        match (server.journal.forget_contacts(now).await, server.journal.forget_ended_passes(now).await) {
            (Ok(contacts), Ok(passes)) => tracing::info!(contacts, passes, "forgotten what was over"),
            (Err(error), _) | (_, Err(error)) => tracing::error!(%error, "what is over could not be forgotten"),
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
