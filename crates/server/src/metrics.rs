//! Counts for whoever watches the server, in the text form that Prometheus reads.

use prometheus::{HistogramOpts, HistogramVec, IntCounter, Registry, TextEncoder};

/// Seconds: from what a phone doesn't notice to what everybody does.
const BUCKETS: [f64; 8] = [0.002, 0.005, 0.01, 0.025, 0.05, 0.1, 0.5, 2.0];

/// What is counted. Never by person.
pub struct Metrics {
    registry: Registry,
    /// Seconds a request took, by route and status.
    pub requests: HistogramVec,
    /// Events taken in.
    pub events: IntCounter,
    /// Events that were refused.
    pub refused: IntCounter,
}

impl Default for Metrics {
    fn default() -> Self {
        let registry = Registry::new();
        let options =
            HistogramOpts::new("lengthsman_request_seconds", "Seconds that requests took").buckets(BUCKETS.to_vec());
        // names and help above are plain words, which is all that can be wrong with them
        let requests = HistogramVec::new(options, &["method", "route", "status"]).expect("valid names");
        let events = IntCounter::new("lengthsman_events_total", "Events taken into the record").expect("valid names");
        let refused =
            IntCounter::new("lengthsman_events_refused_total", "Events that could not be taken").expect("valid names");
        for collector in [
            Box::new(requests.clone()) as Box<dyn prometheus::core::Collector>,
            Box::new(events.clone()),
            Box::new(refused.clone()),
        ] {
            let _ = registry.register(collector);
        }
        Self { registry, requests, events, refused }
    }
}

impl Metrics {
    /// All counts as text.
    pub fn text(&self) -> String {
        TextEncoder::new().encode_to_string(&self.registry.gather()).unwrap_or_default()
    }
}
