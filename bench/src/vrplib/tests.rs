use proptest::prelude::*;

use super::read;

const SMALL: &str = "NAME : small\nTYPE : VRPTW\nDIMENSION : 3\nVEHICLES : 2\nCAPACITY : 10\nSERVICE_TIME : 9\n\
    EDGE_WEIGHT_TYPE : EUC_2D\nNODE_COORD_SECTION\n1 0 0\n2 3 4\n3 0 1\nDEMAND_SECTION\n1 0\n2 5\n3 6\n\
    TIME_WINDOW_SECTION\n1 0 100\n2 5 20\n3 0 50\nDEPOT_SECTION\n1\n-1\nEOF\n";

#[test]
fn a_small_file_is_read_in_tenths() {
    let problem = read(SMALL).expect("a sound file").problem;
    assert_eq!(problem.profiles[0].distance.get(0, 1), 50);
    assert_eq!(problem.profiles[0].distance.get(1, 2), 42, "cut off, not rounded");
    assert_eq!((problem.visits.len(), problem.vehicles[0].count), (2, 2));
    assert_eq!((problem.visits[0].windows[0].open, problem.visits[0].service[0]), (50, 90));
    assert_eq!(problem.vehicles[0].shift.close, 1000);
}

#[test]
fn damage_is_named_with_its_line() {
    for (from, to, says) in [
        ("TYPE : VRPTW", "TYPE : TSP", "line 2: the TYPE \"TSP\""),
        ("DIMENSION : 3", "DIMENSION : 4", "NODE_COORD_SECTION has 3 rows, not 4"),
        ("2 3 4", "2 3 x", "line 10: \"x\" in NODE_COORD_SECTION is not a number"),
        ("2 5 20", "2 30 20", "line 18: the window ends before it begins"),
        ("3 0 1\n", "4 0 1\n", "line 11: row 4 of NODE_COORD_SECTION where 3 is due"),
        ("CAPACITY : 10", "CAPACITY : -1", "line 5: CAPACITY is -1"),
        ("EUC_2D", "GEO", "only EUC_2D is read"),
        ("NAME : small", "COLOUR : red", "line 1: the key \"COLOUR\" is not known"),
        ("DEPOT_SECTION\n1\n", "DEPOT_SECTION\n2\n", "depots come first"),
    ] {
        let error = read(&SMALL.replacen(from, to, 1)).expect_err(says).to_string();
        assert!(error.contains(says), "{error} should say {says}");
    }
}

proptest! {
    #[test]
    fn damaged_files_never_panic(at in 0..SMALL.len(), with in "[ 0-9.:A-Z_\n-]{0,6}", cut in 0..20usize) {
        let end = (at + cut).min(SMALL.len());
        let _ = read(&format!("{}{with}{}", &SMALL[..at], &SMALL[end..]));
    }
}
