//! Masses retained to shares passing, and shares between the sieves used.

use model::figure::{Figure, Source, Why};
use model::problem::{Locator, Problem, ProblemSeverity};
use model::quantity::{InLength, InMass, InRatio, Length, Mass, Ratio, fraction};
use model::rules::soil::SievingRules;
use model::soil::{PassingPoint, SieveMark, SieveReading, SieveSample};

use super::sieves::{FoundSieve, find_sieve};
use crate::show;

/// Two openings this near to each other, as a share, are one sieve.
const SAME: f64 = 1e-6;

/// A share over a limit by no more than rounding is not over it.
const ROUNDING: f64 = 1e-9;

/// What a sample comes to.
pub struct Passed {
    /// Coarsest first.
    pub points: Vec<PassingPoint>,
    pub loss: Option<Figure<Ratio>>,
}

/// A sieve of the sample.
struct Row {
    sieve: FoundSieve,
    reading: SieveReading,
    at: Locator,
}

/// Shares passing each sieve used.
pub fn passed(sample: &SieveSample, rules: &SievingRules, problems: &mut Vec<Problem>) -> Result<Passed, Vec<Problem>> {
    let rows = rows(sample, rules, problems);
    if rows.is_empty() {
        problems.push(*fatal(Locator::default(), "no sieve can be used".into(), "write at least one sieve".into()));
        return Err(std::mem::take(problems));
    }
    let is_mass = |row: &&Row| matches!(row.reading, SieveReading::Retained(_));
    let masses = rows.iter().filter(is_mass).count();
    let lost = sample.sieves.len() - rows.len();
    let result = if masses > 0 && lost > 0 {
        // A mass that is not counted shifts every share below it, and most often the whole.
        let wrong = format!("{lost} of the sieves can't be used, so no share is known");
        Err(fatal(rows[0].at.clone(), wrong, "mend the rows that are refused".into()))
    } else if masses == 0 {
        Ok(Passed { points: rows.iter().map(as_given).collect(), loss: None })
    } else if masses == rows.len() {
        weighed(&rows, sample, rules, problems)
    } else {
        let at = rows[0].at.clone();
        Err(fatal(at, "some sieves have a mass and some a percentage".into(), "give all the one way".into()))
    };
    let passed = match result {
        Ok(passed) => passed,
        Err(problem) => {
            problems.push(*problem);
            return Err(std::mem::take(problems));
        }
    };
    let rise = passed
        .points
        .windows(2)
        .position(|pair| pair[1].passing.value.in_fraction() > pair[0].passing.value.in_fraction() + ROUNDING);
    if let Some(index) = rise {
        let (coarse, fine) = (&passed.points[index], &passed.points[index + 1]);
        let wrong = format!(
            "{} passes the {} sieve and more, {}, the finer {}",
            show::percent(coarse.passing.value),
            coarse.sieve,
            show::percent(fine.passing.value),
            fine.sieve
        );
        problems.push(*fatal(rows[index + 1].at.clone(), wrong, "look at both rows".into()));
        return Err(std::mem::take(problems));
    }
    Ok(passed)
}

/// The sample's sieves, coarsest first; unknown ones and repeated ones are left out with a problem.
fn rows(sample: &SieveSample, rules: &SievingRules, problems: &mut Vec<Problem>) -> Vec<Row> {
    let mut rows: Vec<Row> = Vec::new();
    for (mark, reading, at) in &sample.sieves {
        let refuse = |code, wrong: String, right: String| Problem {
            code,
            severity: ProblemSeverity::Refused,
            at: at.clone(),
            subject: String::new(),
            wrong,
            right,
        };
        let number = match reading {
            SieveReading::Retained(mass) => mass.in_kilograms(),
            SieveReading::Passing(share) => share.in_fraction(),
        };
        let most = if matches!(reading, SieveReading::Passing(_)) { 1.0 + ROUNDING } else { f64::MAX };
        if !(0.0..=most).contains(&number) {
            let right = "write a mass of zero or more, or a percentage from 0 to 100".into();
            problems.push(refuse("sieves.reading.impossible", format!("{number} can't be"), right));
            continue;
        }
        let Some(sieve) = find_sieve(*mark, rules) else {
            let right = "write the number as the sieve bears it, or its opening with a unit".into();
            problems.push(refuse("sieves.sieve.unknown", format!("no sieve is known as {}", words(*mark)), right));
            continue;
        };
        if rows.iter().any(|row| is_same(row.sieve.opening, sieve.opening)) {
            let wrong = format!("the {} sieve stands here a second time", sieve.name);
            problems.push(refuse("sieves.sieve.twice", wrong, "leave one out; the first is used".into()));
            continue;
        }
        rows.push(Row { sieve, reading: *reading, at: at.clone() });
    }
    rows.sort_by(|a, b| b.sieve.opening.in_metres().total_cmp(&a.sieve.opening.in_metres()));
    rows
}

/// As the sieve bears it.
fn words(mark: SieveMark) -> String {
    match mark {
        SieveMark::Number(number) => format!("No. {number}"),
        SieveMark::Opening(opening) => show::millimetres(opening),
    }
}

fn as_given(row: &Row) -> PassingPoint {
    let passing = match row.reading {
        SieveReading::Passing(share) => share,
        SieveReading::Retained(_) => fraction(f64::NAN),
    };
    let why = Why::new("P as given", Source::agency("given"));
    PassingPoint { sieve: row.sieve.name.clone(), opening: row.sieve.opening, passing: Figure::exact(passing, why) }
}

/// Shares from masses: `P = 100 (1 - sum retained / M)`, `M` the dry mass before sieving, else what was found again.
fn weighed(
    rows: &[Row],
    sample: &SieveSample,
    rules: &SievingRules,
    problems: &mut Vec<Problem>,
) -> Result<Passed, Box<Problem>> {
    let mass = |row: &Row| match row.reading {
        SieveReading::Retained(mass) => mass.in_kilograms(),
        SieveReading::Passing(_) => 0.0,
    };
    let retained: f64 = rows.iter().map(mass).sum();
    let kilograms = |mass: Option<Mass>| mass.map(InMass::in_kilograms);
    let below = kilograms(sample.pan).map(|pan| pan + kilograms(sample.washed).unwrap_or(0.0));
    let found = below.map(|below| retained + below);
    let at = rows[0].at.clone();
    let loss = loss(found, kilograms(sample.total), rules);
    if let Some(loss) = loss.as_ref().filter(|loss| loss.value.in_fraction().abs() > rules.loss_most.value + ROUNDING) {
        problems.push(Problem {
            code: "sieves.loss",
            severity: ProblemSeverity::Warning,
            at: at.clone(),
            subject: String::new(),
            wrong: format!(
                "{} of the mass was {} in sieving; {} is the most allowed",
                show::percent(fraction(loss.value.in_fraction().abs())),
                if loss.value.in_fraction() < 0.0 { "gained" } else { "lost" },
                show::percent(fraction(rules.loss_most.value))
            ),
            right: "weigh again, or sieve another sample".into(),
        });
    }
    let total = kilograms(sample.total).or(found).ok_or_else(|| {
        let wrong = "neither the pan nor the whole sample was weighed, so no share is known".into();
        fatal(at.clone(), wrong, "add a row `pan`, or a row `total` with the dry mass before sieving".into())
    })?;
    if !(total.is_finite() && total > 0.0 && retained <= total * (1.0 + rules.loss_most.value)) {
        let wrong = format!("the sieves hold {:.1} g and the whole sample {:.1} g", 1000.0 * retained, 1000.0 * total);
        return Err(fatal(at, wrong, "look at the weighings".into()));
    }
    let mut above = 0.0;
    let point = |row: &Row| {
        above += mass(row);
        let why = Why::new("P = 1 - sum of retained / M", Source::definition())
            .with("retained so far", format!("{:.1} g", 1000.0 * above))
            .with("M", format!("{:.1} g", 1000.0 * total));
        PassingPoint {
            sieve: row.sieve.name.clone(),
            opening: row.sieve.opening,
            passing: Figure::exact(fraction((1.0 - above / total).max(0.0)), why),
        }
    };
    Ok(Passed { points: rows.iter().map(point).collect(), loss })
}

/// What got lost: `(M - found) / M`; below zero where more was found than there was.
fn loss(found: Option<f64>, total: Option<f64>, rules: &SievingRules) -> Option<Figure<Ratio>> {
    let (found, total) = found.zip(total).filter(|(_, total)| *total > 0.0)?;
    let why = Why::new("(M - found again) / M", rules.loss_most.source.clone())
        .with("M", format!("{:.1} g", 1000.0 * total))
        .with("found again", format!("{:.1} g", 1000.0 * found));
    Some(Figure::exact(fraction((total - found) / total), why))
}

/// The share passing a sieve that was used, or that follows without: all passes what is coarser than a sieve that all
/// passed, and nothing passes what is finer than a sieve that nothing passed.
pub fn at_sieve(points: &[PassingPoint], opening: Length) -> Option<Ratio> {
    let own = points.iter().find(|point| is_same(point.opening, opening));
    let all = |point: &&PassingPoint| point.opening < opening && point.passing.value.in_fraction() >= 1.0 - ROUNDING;
    let none = |point: &&PassingPoint| point.opening > opening && point.passing.value.in_fraction() <= ROUNDING;
    own.or_else(|| points.iter().find(all)).or_else(|| points.iter().find(none)).map(|point| point.passing.value)
}

/// The share passing between two sieves used, straight on the paper with the logarithmic axis.
pub fn between(points: &[PassingPoint], opening: Length) -> Option<Ratio> {
    let pair = points.windows(2).find(|pair| pair[0].opening >= opening && pair[1].opening <= opening)?;
    let log = |length: Length| length.in_millimetres().ln();
    let share = (log(opening) - log(pair[1].opening)) / (log(pair[0].opening) - log(pair[1].opening));
    let (coarse, fine) = (pair[0].passing.value.in_fraction(), pair[1].passing.value.in_fraction());
    Some(fraction(fine + share * (coarse - fine)))
}

fn is_same(a: Length, b: Length) -> bool {
    (a.in_metres() - b.in_metres()).abs() <= SAME * b.in_metres()
}

fn fatal(at: Locator, wrong: String, right: String) -> Box<Problem> {
    let severity = ProblemSeverity::Fatal;
    Box::new(Problem { code: "sieves.sample.unusable", severity, at, subject: String::new(), wrong, right })
}
