//! A progress bar that shows itself only when the work takes longer than a second.

use indicatif::{ProgressBar, ProgressStyle};

/// The bar.
pub(crate) struct Progress {
    bar: ProgressBar,
    started: std::time::Instant,
}

const STEPS: u64 = 1000;

impl Progress {
    #[expect(clippy::disallowed_methods, reason = "only decides whether the bar is shown; no result depends on it")]
    pub(crate) fn new() -> Self {
        let bar = ProgressBar::hidden();
        bar.set_length(STEPS);
        let style = ProgressStyle::with_template("{msg:28} [{bar:40}] {percent:>3} %");
        bar.set_style(style.map_or_else(|_| ProgressStyle::default_bar(), |style| style.progress_chars("=> ")));
        Progress { bar, started: std::time::Instant::now() }
    }

    /// Says what is being done and how much of it is done, 0 to 1.
    pub(crate) fn at(&mut self, what: &str, done: f64) {
        if self.bar.is_hidden() && self.started.elapsed().as_secs_f64() > 1.0 {
            self.bar.set_draw_target(indicatif::ProgressDrawTarget::stderr());
        }
        self.bar.set_message(what.to_owned());
        self.bar.set_position((done.clamp(0.0, 1.0) * STEPS as f64) as u64);
    }

    pub(crate) fn done(&self) {
        self.bar.finish_and_clear();
    }
}
