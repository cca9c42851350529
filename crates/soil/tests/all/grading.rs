//! What the sieve analysis refuses, finds and says.

use model::problem::{Locator, Problem, ProblemSeverity};
use model::quantity::{InLength, InRatio, inches, kilograms, millimetres, percent};
use model::soil::{Fit, SieveAnalysis, SieveMark, SieveReading, SieveSample, Standing};
use proptest::prelude::*;
use soil::grading::find_sieve;
use soil::sieve_analysis;

use crate::support::{iowa, m147, near, soil_rules};

fn at(line: usize) -> Locator {
    Locator { file: "sieves.csv".into(), line, column: 1 }
}

/// Openings in millimetres with grams retained, one a line from line 2.
fn retained(rows: &[(f64, f64)], pan: Option<f64>) -> SieveSample {
    let row = |(index, &(mm, grams)): (usize, &(f64, f64))| {
        (SieveMark::Opening(millimetres(mm)), SieveReading::Retained(kilograms(grams / 1000.0)), at(index + 2))
    };
    let pan = pan.map(|grams| kilograms(grams / 1000.0));
    SieveSample { sieves: rows.iter().enumerate().map(row).collect(), pan, ..SieveSample::default() }
}

fn passing(rows: &[(f64, f64)]) -> SieveSample {
    let row = |(index, &(mm, share)): (usize, &(f64, f64))| {
        (SieveMark::Opening(millimetres(mm)), SieveReading::Passing(percent(share)), at(index + 2))
    };
    SieveSample { sieves: rows.iter().enumerate().map(row).collect(), ..SieveSample::default() }
}

fn worked(sample: &SieveSample) -> (SieveAnalysis, Vec<Problem>) {
    sieve_analysis(sample, &[m147(), iowa()], &soil_rules().sieving).unwrap()
}

fn fatal(sample: &SieveSample) -> Problem {
    let problems = sieve_analysis(sample, &[], &soil_rules().sieving).unwrap_err();
    problems.into_iter().find(|p| p.severity == ProblemSeverity::Fatal).expect("a fatal problem")
}

#[test]
fn sieves_are_found_by_number_opening_and_inch_name() {
    let rules = soil_rules().sieving;
    let found = |mark| find_sieve(mark, &rules).map(|s| (s.name, s.opening.in_millimetres()));
    assert_eq!(found(SieveMark::Number(200)), Some(("No. 200".into(), 0.075)));
    assert_eq!(found(SieveMark::Number(11)), None);
    for (inch, name, mm) in [(2.0, "2 in", 50.0), (1.5, "1 1/2 in", 37.5), (1.0, "1 in", 25.0), (0.375, "3/8 in", 9.5)]
    {
        assert_eq!(found(SieveMark::Opening(inches(inch))), Some((name.into(), mm)));
    }
    assert_eq!(found(SieveMark::Opening(millimetres(4.75))), Some(("No. 4".into(), 4.75)));
    // 2.5 % off is still that sieve, more is one of its own.
    assert_eq!(found(SieveMark::Opening(millimetres(2.04))), Some(("No. 10".into(), 2.0)));
    assert_eq!(found(SieveMark::Opening(millimetres(2.06))).unwrap().0, "2.06 mm");
    assert_eq!(found(SieveMark::Opening(millimetres(28.0))), Some(("28 mm".into(), 28.0)));
}

#[test]
fn an_untested_sieve_is_not_judged_but_read_off() {
    // Halfway between 4.75 and 1.18 on the logarithmic axis is 2.3675 mm: near 2.36 the share is halfway too.
    let (analysis, _) =
        worked(&passing(&[(25.0, 100.0), (19.0, 97.0), (12.5, 80.0), (4.75, 50.0), (1.18, 20.0), (0.075, 10.0)]));
    let check = analysis.checks.iter().find(|c| c.grading == "IM209-11").unwrap();
    assert_eq!(check.fit, Fit::NotDecided);
    let no_8 = check.sieves.iter().find(|s| s.sieve == "No. 8").unwrap();
    assert_eq!(no_8.standing, Standing::NotTested);
    let expected = 20.0 + 30.0 * (2.36_f64 / 1.18).ln() / (4.75_f64 / 1.18).ln();
    near(no_8.passing.unwrap().in_percent(), expected, 1e-9);
    assert_eq!(analysis.modulus.unwrap_err(), "the No. 10 sieve was not used; it takes No. 10, No. 40, No. 200");
    // M 147 asks for fines over 0.425 mm, which was not used.
    let m147 = analysis.checks.iter().find(|c| c.grading == "M147-C").unwrap();
    let fines = m147.fines.as_ref().unwrap();
    assert!(fines.share.is_none() && fines.is_kept.is_none());
}

#[test]
fn what_is_coarser_than_all_passed_needs_no_test() {
    let sample = passing(&[(9.5, 100.0), (4.75, 80.0), (2.0, 70.0), (0.425, 40.0), (0.075, 15.0)]);
    let (analysis, _) = worked(&sample);
    let e = analysis.checks.iter().find(|c| c.grading == "M147-E").unwrap();
    assert_eq!(e.fit, Fit::Fits);
    assert_eq!(e.sieves[0].passing.unwrap().in_percent(), 100.0);
    // Nothing passes the finer of a sieve that nothing passed.
    let sample = passing(&[(4.75, 100.0), (2.0, 0.0)]);
    let modulus = worked(&sample).0.modulus.unwrap();
    near(modulus.value, 3.0, 1e-12);
}

#[test]
fn limits_belong_to_the_inside_and_the_fines_rule_counts() {
    // M147-C at its limits: 50, 35, 25, 15, 5.
    let at_least = passing(&[(25.0, 100.0), (9.5, 50.0), (4.75, 35.0), (2.0, 25.0), (0.425, 15.0), (0.075, 5.0)]);
    let check =
        |sample: &SieveSample, name: &str| worked(sample).0.checks.into_iter().find(|c| c.grading == name).unwrap();
    assert_eq!(check(&at_least, "M147-C").fit, Fit::Fits);
    let at_most = passing(&[(25.0, 100.0), (9.5, 85.0), (4.75, 65.0), (2.0, 50.0), (0.425, 30.0), (0.075, 15.0)]);
    assert_eq!(check(&at_most, "M147-C").fit, Fit::Fits);
    // Just out by a tenth of a point on either side.
    let low = passing(&[(25.0, 100.0), (9.5, 49.9), (4.75, 35.0), (2.0, 25.0), (0.425, 15.0), (0.075, 5.0)]);
    let verdict = check(&low, "M147-C");
    assert_eq!(verdict.fit, Fit::Misses);
    let Standing::Below(by) = verdict.sieves[1].standing else { panic!("{:?}", verdict.sieves[1]) };
    near(by.in_percent(), 0.1, 1e-9);
    // Inside everywhere, but 12 of 16 is more than two thirds.
    let fine = passing(&[(25.0, 100.0), (9.5, 60.0), (4.75, 45.0), (2.0, 35.0), (0.425, 16.0), (0.075, 12.0)]);
    let verdict = check(&fine, "M147-C");
    assert_eq!(verdict.fit, Fit::Misses);
    assert_eq!(verdict.miss.in_fraction(), 0.0);
    let fines = verdict.fines.unwrap();
    assert_eq!((fines.is_kept, fines.sieves), (Some(false), ["No. 200".to_owned(), "No. 40".to_owned()]));
    near(fines.share.unwrap().value, 0.75, 1e-12);
    let kept = passing(&[(25.0, 100.0), (9.5, 60.0), (4.75, 45.0), (2.0, 35.0), (0.425, 15.0), (0.075, 10.0)]);
    assert_eq!(check(&kept, "M147-C").fines.unwrap().is_kept, Some(true));
}

#[test]
fn the_nearest_grading_comes_first() {
    let (analysis, _) = worked(&passing(&[
        (50.0, 100.0),
        (25.0, 85.0),
        (9.5, 41.0),
        (4.75, 31.0),
        (2.0, 20.0),
        (0.425, 14.0),
        (0.075, 4.0),
    ]));
    // Inside B on all but 0.425 (14 of 15) and 0.075 (4 of 5); A allows all of it, whatever passes 25 mm.
    assert_eq!(analysis.checks[0].grading, "M147-A");
    let rank: Vec<u8> = analysis.checks.iter().map(|c| c.fit.rank()).collect();
    assert!(rank.is_sorted(), "{rank:?}");
    let b = analysis.checks.iter().find(|c| c.grading == "M147-B").unwrap();
    near(b.miss.in_percent(), 2.0, 1e-9);
    assert_eq!((Fit::Fits.words(), Fit::NotDecided.words(), Fit::Misses.words()), ("fits", "not decided", "misses"));
}

#[test]
fn shares_rest_on_the_whole_sample_and_a_loss_is_told() {
    let mut sample = retained(&[(4.75, 400.0), (0.075, 500.0)], Some(90.0));
    sample.total = Some(kilograms(1.0));
    let (analysis, problems) = worked(&sample);
    near(analysis.points[0].passing.value.in_percent(), 60.0, 1e-9);
    near(analysis.points[1].passing.value.in_percent(), 10.0, 1e-9);
    near(analysis.loss.unwrap().value.in_percent(), 1.0, 1e-9);
    assert_eq!((problems.len(), problems[0].code, problems[0].severity), (1, "sieves.loss", ProblemSeverity::Warning));
    // At the limit of 0.3 % nothing is said.
    sample.pan = Some(kilograms(0.097));
    assert!(worked(&sample).1.is_empty());
    // Fines washed out belong to the whole.
    let mut washed = retained(&[(4.75, 400.0), (0.075, 500.0)], Some(20.0));
    washed.washed = Some(kilograms(0.080));
    near(worked(&washed).0.points[1].passing.value.in_percent(), 10.0, 1e-9);
}

#[test]
fn samples_that_cannot_be_worked_out_say_why() {
    let no_whole = fatal(&retained(&[(4.75, 400.0), (0.075, 500.0)], None));
    assert_eq!((no_whole.code, no_whole.at.line), ("sieves.sample.unusable", 2));
    assert!(no_whole.right.contains("`pan`") && no_whole.right.contains("`total`"));
    let mut too_much = retained(&[(4.75, 400.0), (0.075, 650.0)], None);
    too_much.total = Some(kilograms(1.0));
    assert!(fatal(&too_much).wrong.contains("the sieves hold 1050.0 g and the whole sample 1000.0 g"));
    let rising = fatal(&passing(&[(4.75, 50.0), (2.0, 55.0), (0.075, 5.0)]));
    assert_eq!(rising.wrong, "50.00 % passes the No. 4 sieve and more, 55.00 %, the finer No. 10");
    assert_eq!(rising.at.line, 3);
    let mut mixed = passing(&[(4.75, 50.0)]);
    mixed.sieves.extend(retained(&[(2.0, 100.0)], None).sieves);
    assert!(fatal(&mixed).wrong.starts_with("some sieves have a mass"));
    assert!(fatal(&SieveSample::default()).wrong.starts_with("no sieve"));
    assert!(fatal(&retained(&[(4.75, 0.0)], Some(0.0))).wrong.contains("whole sample 0.0 g"));
}

#[test]
fn bad_rows_are_left_out_each_with_its_place() {
    let mut sample = passing(&[(4.75, 50.0), (4.76, 50.0), (2.0, 101.0), (1.18, -1.0), (0.6, f64::NAN)]);
    sample.sieves.push((SieveMark::Number(11), SieveReading::Passing(percent(5.0)), at(7)));
    let (analysis, problems) = worked(&sample);
    assert_eq!(analysis.points.len(), 1);
    let told: Vec<(&str, usize)> = problems.iter().map(|p| (p.code, p.at.line)).collect();
    assert_eq!(
        told,
        [
            ("sieves.sieve.twice", 3),
            ("sieves.reading.impossible", 4),
            ("sieves.reading.impossible", 5),
            ("sieves.reading.impossible", 6),
            ("sieves.sieve.unknown", 7)
        ]
    );
}

/// A mass that is left out would shift the shares of all sieves.
#[test]
fn a_sheet_of_masses_is_used_whole_or_not_at_all() {
    let whole = retained(&[(9.5, 300.0), (4.75, 200.0), (0.075, 400.0)], Some(100.0));
    near(worked(&whole).0.points[1].passing.value.in_percent(), 50.0, 1e-9);
    for lost in [
        (SieveMark::Number(11), SieveReading::Retained(kilograms(0.1)), at(9)),
        (SieveMark::Number(4), SieveReading::Retained(kilograms(0.1)), at(9)),
        (SieveMark::Number(10), SieveReading::Retained(kilograms(-0.1)), at(9)),
    ] {
        let mut sample = whole.clone();
        sample.sieves.push(lost);
        let told = fatal(&sample);
        assert_eq!((told.code, told.at.line), ("sieves.sample.unusable", 2));
        assert_eq!(told.wrong, "1 of the sieves can't be used, so no share is known");
    }
}

#[test]
fn an_unknown_sieve_is_named_as_it_was_written() {
    let mut sample = passing(&[(4.75, 50.0)]);
    sample.sieves.push((SieveMark::Number(11), SieveReading::Passing(percent(5.0)), at(3)));
    assert_eq!(worked(&sample).1[0].wrong, "no sieve is known as No. 11");
}

#[test]
fn more_mass_than_there_was_is_told_as_gained() {
    let mut sample = retained(&[(4.75, 400.0), (0.075, 500.0)], Some(110.0));
    sample.total = Some(kilograms(1.0));
    assert_eq!(worked(&sample).1[0].wrong, "1.00 % of the mass was gained in sieving; 0.30 % is the most allowed");
    sample.total = Some(kilograms(1.02));
    assert_eq!(worked(&sample).1[0].wrong, "0.98 % of the mass was lost in sieving; 0.30 % is the most allowed");
}

proptest! {
    /// What stays on the sieves and in the pan is the sample: retained shares and the last share passing add up.
    #[test]
    fn mass_is_kept(masses in prop::collection::vec(0.0..900.0_f64, 5), pan in 1.0..500.0_f64) {
        let openings = [25.0, 9.5, 4.75, 0.425, 0.075];
        let rows: Vec<(f64, f64)> = openings.into_iter().zip(masses.iter().copied()).collect();
        let (analysis, _) = worked(&retained(&rows, Some(pan)));
        let total: f64 = masses.iter().sum::<f64>() + pan;
        let shares: Vec<f64> = analysis.points.iter().map(|p| p.passing.value.in_fraction()).collect();
        prop_assert!((shares[4] * total - pan).abs() < 1e-6);
        let mut before = 1.0;
        for (share, mass) in shares.iter().zip(&masses) {
            prop_assert!(((before - share) * total - mass).abs() < 1e-6);
            before = *share;
        }
    }

    /// The order of the rows does not matter.
    #[test]
    fn order_of_rows_does_not_matter(turn in 0..5usize) {
        let rows = [(25.0, 100.0), (9.5, 62.0), (4.75, 45.0), (2.0, 30.0), (0.075, 7.0)];
        let mut turned = passing(&rows);
        turned.sieves.rotate_left(turn);
        let shares = |s: &SieveSample| worked(s).0.points.iter().map(|p| p.passing.value.in_percent()).collect::<Vec<_>>();
        prop_assert_eq!(shares(&turned), shares(&passing(&rows)));
    }
}
