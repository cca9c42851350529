//! Which cuts share a zone, drawn by hand. The gap and the longest work space are common practice, no source.

mod common;

use common::rules;
use model::place::{Side, Travel};
use model::quantity::metres;
use model::road::SectionId;
use workzone::{LaneCut, share};

fn cut(from: f64, to: f64) -> LaneCut {
    LaneCut {
        section: SectionId(0),
        travel: Travel::Forward,
        side: Side::Right,
        shoulder_only: false,
        from: metres(from),
        to: metres(to),
    }
}

#[test]
fn a_gap_of_200_ft_joins_and_a_little_more_parts() {
    // 200 ft are 60.96 m.
    assert_eq!(share(&[cut(0.0, 2.0), cut(62.95, 64.0)], &rules()), [vec![0, 1]]);
    assert_eq!(share(&[cut(0.0, 2.0), cut(62.97, 64.0)], &rules()), [vec![0], vec![1]]);
}

#[test]
fn the_gap_counts_from_the_furthest_end_so_far() {
    assert_eq!(share(&[cut(0.0, 100.0), cut(10.0, 12.0), cut(150.0, 151.0)], &rules()), [vec![0, 1, 2]]);
}

#[test]
fn a_work_space_is_at_most_1320_ft() {
    let cuts: Vec<LaneCut> = (0..12).map(|i| cut(f64::from(i) * 50.0, f64::from(i) * 50.0 + 1.0)).collect();
    // 1320 ft are 402 m; 0 to 451 m would be 451 m: the tenth starts a new one.
    assert_eq!(share(&cuts, &rules()), [(0..9).collect::<Vec<_>>(), (9..12).collect()]);
}

#[test]
fn a_cut_longer_than_a_work_space_takes_no_company() {
    assert_eq!(share(&[cut(0.0, 403.0), cut(10.0, 12.0)], &rules()), [vec![0], vec![1]]);
}

#[test]
fn order_of_input_is_kept_out_of_it_and_lanes_apart() {
    let mut other = cut(1.0, 2.0);
    (other.travel, other.side) = (Travel::Backward, Side::Left);
    let mut shoulder = cut(1.0, 2.0);
    shoulder.shoulder_only = true;
    assert_eq!(share(&[cut(30.0, 31.0), other, cut(0.0, 1.0), shoulder], &rules()), [vec![2, 0], vec![3], vec![1]]);
}

#[test]
fn a_chainage_that_is_not_a_number_stands_alone() {
    let cuts = [cut(f64::NAN, 1.0), cut(0.0, 1.0), cut(f64::NAN, f64::NAN), cut(5.0, f64::INFINITY), cut(2.0, 3.0)];
    assert_eq!(share(&cuts, &rules()), [vec![1, 4], vec![0], vec![2], vec![3]]);
    assert!(share(&[], &rules()).is_empty());
}
