//! What an agency sets for reports of the public.

use std::num::NonZeroU32;

use exchange::rules::{RuleKind, load_rules};
use intake::open311::Office;
use intake::open311::service::HoleService;
use intake::place::{Bounds, District};
use jiff::tz::TimeZone;
use journal::chain::{Digest, sha256};
use model::district::UnitSystem;
use model::rules::matching::MatchingRules;

/// How reports of the public are taken and answered.
#[derive(Debug, Clone)]
pub struct ReportSettings {
    /// The office's identifier for programs that serve several; `None` takes any.
    pub jurisdiction: Option<String>,
    /// Who mends, as reporters are told.
    pub agency: Option<String>,
    /// The service that is offered.
    pub service: HoleService,
    /// Whether answers to everybody show the reporter's words. They may name people: better not.
    pub shows_words: bool,
    /// Digests of keys with which reports are taken ([`ReportSettings::key`]); none: everybody's are.
    pub keys: Vec<Digest>,
    /// Reports from one address, a minute.
    pub per_minute: NonZeroU32,
    /// Which reports are of one hole.
    pub matching: MatchingRules,
    /// Units of the words that say why.
    pub units: UnitSystem,
}

impl Default for ReportSettings {
    /// The shipped service and rules; numbers are common practice, no source.
    fn default() -> Self {
        Self {
            jurisdiction: None,
            agency: None,
            service: HoleService::shipped(),
            shows_words: false,
            keys: Vec::new(),
            per_minute: NonZeroU32::new(20).unwrap_or(NonZeroU32::MIN),
            matching: load_rules(RuleKind::Matching, "common-practice", None)
                .expect("the shipped rules can be read: a test does"),
            units: UnitSystem::Si,
        }
    }
}

impl ReportSettings {
    /// What is kept of a key.
    pub fn key(key: &str) -> Digest {
        sha256(key.as_bytes())
    }

    /// The office that answers, for a district and its time; the district as the settings have it: west, south, east, north.
    pub(crate) fn office(&self, district: Option<[f64; 4]>, zone: TimeZone) -> Office {
        let bounds = district.map(|[west, south, east, north]| Bounds { west, south, east, north });
        Office {
            jurisdiction: self.jurisdiction.clone(),
            agency: self.agency.clone(),
            service: self.service.clone(),
            district: District { bounds, zone },
            shows_words: self.shows_words,
        }
    }
}
