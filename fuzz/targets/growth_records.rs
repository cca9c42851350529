//! Records of holes surveyed and dug.
#![no_main]

use common::said_in_words;
use exchange::growth_records::read_growth_bytes;
use exchange::rules::{RuleKind, load_rules};
use libfuzzer_sys::fuzz_target;
use model::rules::repair::RepairRules;
use std::sync::LazyLock;

static RULES: LazyLock<RepairRules> =
    LazyLock::new(|| load_rules(RuleKind::Repair, "common-practice", None).expect("comes with the program"));

fuzz_target!(|bytes: &[u8]| {
    let read = read_growth_bytes("records", bytes, &RULES.growth, None);
    said_in_words(&read.problems);
    assert_eq!(read.rows, read.records.len() + read.refused_rows);
    for record in &read.records {
        assert!(record.surveyed.volume.value > 0.0 && record.dug.volume.value > 0.0);
    }
});
