//! `lengthsman repair` on the command line.

mod common;

use common::{lengthsman, parts};

const HOLE: [&str; 7] = ["repair", "--length", "1.2m", "--width", "0.9m", "--depth", "220mm"];

#[test]
fn the_working_is_printed_when_asked_for() {
    let (code, plain, _) = parts(&lengthsman(&HOLE));
    assert_eq!(code, 0);
    assert!(plain.contains("fill, compacted") && plain.contains(" m3"), "{plain}");
    assert!(!plain.contains("V = A * D") && !plain.contains("rest on"), "{plain}");
    let (code, why, _) = parts(&lengthsman(&[&HOLE[..], &["--why"]].concat()));
    assert_eq!(code, 0);
    for part in
        ["V = A * D + c * A / 2", "D = 0.220 m", "source: common practice, no source", "rest on common practice"]
    {
        assert!(why.contains(part), "{part}: {why}");
    }
}
