//! Tasks on several threads; what comes out does not depend on how many.

use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::mpsc;

/// How a task tells of its steps and cost; `false`: it is to stop.
pub(crate) type Tell<'a> = &'a mut dyn FnMut(u32, f64) -> bool;

enum Message<R> {
    Told(usize, u32, f64),
    Done(usize, R),
}

/// Results of the tasks 0 to `count - 1`, in this order. `hear` is called on the caller's thread with the task, its steps
/// and its cost; it stops all tasks by returning `false`.
pub(crate) fn run<R: Send>(
    threads: usize,
    count: usize,
    work: &(dyn Fn(usize, Tell<'_>) -> R + Sync),
    hear: &mut dyn FnMut(usize, u32, f64) -> bool,
) -> Vec<R> {
    let mut results: Vec<Option<R>> = (0..count).map(|_| None).collect();
    let (next, stop) = (AtomicUsize::new(0), AtomicBool::new(false));
    let (sender, receiver) = mpsc::channel();
    std::thread::scope(|scope| {
        for _ in 0..threads.clamp(1, count.max(1)) {
            let (sender, next, stop) = (sender.clone(), &next, &stop);
            scope.spawn(move || {
                loop {
                    let task = next.fetch_add(1, Ordering::Relaxed);
                    if task >= count {
                        break;
                    }
                    let result = work(task, &mut |steps, cost| {
                        // Whoever listens outlives the threads.
                        let _ = sender.send(Message::Told(task, steps, cost));
                        !stop.load(Ordering::Relaxed)
                    });
                    let _ = sender.send(Message::Done(task, result));
                }
            });
        }
        drop(sender);
        for message in receiver {
            match message {
                Message::Told(task, steps, cost) => {
                    if !hear(task, steps, cost) {
                        stop.store(true, Ordering::Relaxed);
                    }
                }
                Message::Done(task, result) => results[task] = Some(result),
            }
        }
    });
    results.into_iter().flatten().collect()
}
