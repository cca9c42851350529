//! Laboratory compaction test (Proctor): specimens to maximum dry density and optimum moisture.
//!
//! The order of the work is the order of [`compaction_test`].

use model::figure::{Figure, Source, Spread, Why};
use model::problem::{Problem, ProblemSeverity};
use model::quantity::{
    InMass, InMassDensity, InRatio, InVolume, MassDensity, Ratio, fraction, kilograms_per_cubic_metre,
};
use model::rules::soil::CompactionTestRules;
use model::soil::{
    CompactionFit, CompactionPoint, CompactionReading, CompactionTest, Curve, DensityReading, FitDegree, PointFate,
};
use statrs::distribution::{ContinuousCDF, StudentsT};

use crate::least_squares::{Peak, Polynomial};
use crate::show;
use crate::voids::{density_at_saturation, dry_density, saturation};

/// Which curve to fit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum DegreeChoice {
    /// The cubic where it serves, else the parabola.
    #[default]
    WhicheverServes,
    /// That one.
    Only(FitDegree),
}

/// Least specimens, and least different moistures, for any curve.
const POINTS_LEAST: usize = 3;
/// Pieces a curve is drawn in.
const PIECES: u32 = 60;
/// How far beyond the moistures tested the lines of saturation are drawn, as a share of their range.
const BEYOND: f64 = 0.12;

/// Works out a compaction test. `specific_gravity` is that of the particles, where measured.
///
/// A specimen that lies above the zero air voids line, or whose values can't be, is left out and told in the problems.
/// Never panics, whatever the readings.
pub fn compaction_test(
    readings: &[CompactionReading],
    specific_gravity: Option<f64>,
    choice: DegreeChoice,
    rules: &CompactionTestRules,
) -> (CompactionTest, Vec<Problem>) {
    let gravity = specific_gravity_figure(specific_gravity, rules);
    let bound = Bound { gravity: gravity.value, water: rules.water_density_kg_per_m3.value };
    let mut problems = Vec::new();
    let mut points: Vec<CompactionPoint> =
        readings.iter().filter_map(|reading| point(reading, &bound, &mut problems)).collect();
    points.sort_by(|a, b| a.moisture.in_fraction().total_cmp(&b.moisture.in_fraction()));
    problems.extend(points.iter().filter_map(|point| above_bound(point, bound.gravity, specific_gravity.is_some())));
    let fit = fitted(&points, &bound, specific_gravity.is_some(), choice, rules);
    let (low, high) = drawn_range(&points);
    let line = |share: f64| bound.line(low, high, share);
    let test = CompactionTest {
        fit,
        zero_air_voids: line(1.0),
        part_saturation: rules.part_saturation.value.iter().map(|share| line(*share)).collect(),
        specific_gravity: gravity,
        points,
    };
    (test, problems)
}

/// Particles and water: what bounds the density.
struct Bound {
    gravity: f64,
    water: f64,
}

impl Bound {
    fn zero_air_voids(&self, moisture: f64) -> f64 {
        density_at_saturation(moisture, self.gravity, self.water, 1.0)
    }

    fn line(&self, low: f64, high: f64, share: f64) -> Curve {
        let density = |w: f64| density_at_saturation(w, self.gravity, self.water, share);
        Curve { saturation: Some(fraction(share)), points: sampled(low, high, density) }
    }
}

fn specific_gravity_figure(measured: Option<f64>, rules: &CompactionTestRules) -> Figure<f64> {
    let rule = &rules.specific_gravity;
    measured.map_or_else(
        || Figure::exact(rule.value, Why::new("Gs taken, not measured", rule.source.clone())),
        |value| Figure::exact(value, Why::new("Gs as measured", Source::agency("given"))),
    )
}

/// One specimen worked out; `None`, with a problem, where its values can't be.
fn point(reading: &CompactionReading, bound: &Bound, problems: &mut Vec<Problem>) -> Option<CompactionPoint> {
    let moisture = reading.moisture.in_fraction();
    let density = match reading.density {
        DensityReading::Dry(dry) => dry.in_kilograms_per_cubic_metre(),
        DensityReading::Wet(wet) => dry_density(wet.in_kilograms_per_cubic_metre(), moisture),
        DensityReading::Mould { full, empty, volume } => {
            let wet = (full - empty).in_kilograms() / volume.in_cubic_metres();
            dry_density(wet, moisture)
        }
    };
    let is_possible = moisture.is_finite() && moisture >= 0.0 && density.is_finite() && density > 0.0;
    if !is_possible {
        problems.push(Problem {
            code: "proctor.point.impossible",
            severity: ProblemSeverity::Refused,
            at: reading.from.clone(),
            subject: String::new(),
            wrong: format!("moisture {} and dry density {density:.0} kg/m3 can't be", show::percent(reading.moisture)),
            right: "a moisture of zero or more, and a mould heavier full than empty".into(),
        });
        return None;
    }
    let limit = bound.zero_air_voids(moisture);
    let fate = if density > limit { PointFate::AboveZeroAirVoids } else { PointFate::Used };
    Some(CompactionPoint {
        moisture: reading.moisture,
        dry_density: kilograms_per_cubic_metre(density),
        zero_air_voids: kilograms_per_cubic_metre(limit),
        fate,
        from: reading.from.clone(),
    })
}

fn above_bound(point: &CompactionPoint, gravity: f64, is_measured: bool) -> Option<Problem> {
    let measure = if is_measured { "" } else { ", or give the measured specific gravity if it is higher" };
    (point.fate == PointFate::AboveZeroAirVoids).then(|| Problem {
        code: "proctor.point.above_zero_air_voids",
        severity: ProblemSeverity::Refused,
        at: point.from.clone(),
        subject: show::percent(point.moisture),
        wrong: format!(
            "dry density {} is above the zero air voids line, {} at that moisture for specific gravity {}",
            show::density(point.dry_density),
            show::density(point.zero_air_voids),
            show::trimmed(gravity, 3)
        ),
        right: format!("look at the weighings, the mould's volume and the moisture{measure}"),
    })
}

/// The curve and its peak, or why there is none.
fn fitted(
    points: &[CompactionPoint],
    bound: &Bound,
    is_gravity_measured: bool,
    choice: DegreeChoice,
    rules: &CompactionTestRules,
) -> Result<CompactionFit, String> {
    let used: Vec<(f64, f64)> = points
        .iter()
        .filter(|point| point.fate == PointFate::Used)
        .map(|point| (point.moisture.in_fraction(), point.dry_density.in_kilograms_per_cubic_metre()))
        .collect();
    let mut moistures: Vec<f64> = used.iter().map(|p| p.0).collect();
    moistures.dedup();
    if moistures.len() < POINTS_LEAST {
        return Err(format!(
            "{} moistures can be used and {POINTS_LEAST} are the least for a curve: test more specimens, drier and \
             wetter than the densest",
            moistures.len()
        ));
    }
    let (curve, peak, degree, degree_reason) = match choice {
        DegreeChoice::Only(degree) => {
            let (curve, peak) = served(&used, degree)?;
            (curve, peak, degree, "as asked for".to_owned())
        }
        DegreeChoice::WhicheverServes => whichever_serves(&used, rules)?,
    };
    Ok(Peaked { used: &used, curve, peak, degree, degree_reason }.fit(bound, is_gravity_measured, rules))
}

/// The cubic where it serves, else the parabola, and why.
fn whichever_serves(
    used: &[(f64, f64)],
    rules: &CompactionTestRules,
) -> Result<(Polynomial, Peak, FitDegree, String), String> {
    let least = rules.cubic_from_points.value;
    let parabola = |reason: String| {
        let (curve, peak) = served(used, FitDegree::Parabola)?;
        Ok((curve, peak, FitDegree::Parabola, reason))
    };
    if used.len() < least as usize {
        return parabola(format!("{} specimens; a cubic takes {least} or more", used.len()));
    }
    match served(used, FitDegree::Cubic) {
        Ok((curve, peak)) => {
            let reason = format!("{} specimens, and the cubic's peak lies among them", used.len());
            Ok((curve, peak, FitDegree::Cubic, reason))
        }
        Err(why) => parabola(format!("the cubic does not serve: {why}")),
    }
}

/// A curve with a peak among the specimens, or why there is none.
fn served(used: &[(f64, f64)], degree: FitDegree) -> Result<(Polynomial, Peak), String> {
    let power = match degree {
        FitDegree::Parabola => 2,
        FitDegree::Cubic => 3,
    };
    let curve = Polynomial::fit(used, power).ok_or_else(|| {
        format!("{} specimens don't fix a {}: test more, at different moistures", used.len(), degree.word())
    })?;
    let (low, high) = range(used.iter().map(|p| p.0));
    let rises = curve.at(high) > curve.at(low);
    let more = if rises { "wetter than the wettest" } else { "drier than the driest" };
    let Some(peak) = curve.peak() else {
        return Err(format!("the {} has no peak: test specimens {more}", degree.word()));
    };
    if !(low..=high).contains(&peak.at) {
        let more = if peak.at > high { "wetter than the wettest" } else { "drier than the driest" };
        return Err(format!(
            "the {} peaks at {}, outside the moistures tested ({} to {}): the peak is not found; test specimens {more}",
            degree.word(),
            show::percent(fraction(peak.at)),
            show::percent(fraction(low)),
            show::percent(fraction(high))
        ));
    }
    // A cubic may turn up again behind its peak.
    if curve.at(low).max(curve.at(high)) > peak.value {
        return Err(format!("the {} rises above its peak at the ends: test specimens {more}", degree.word()));
    }
    Ok((curve, peak))
}

/// A curve with its peak, ready to give figures.
struct Peaked<'a> {
    used: &'a [(f64, f64)],
    curve: Polynomial,
    peak: Peak,
    degree: FitDegree,
    degree_reason: String,
}

impl Peaked<'_> {
    fn fit(self, bound: &Bound, is_gravity_measured: bool, rules: &CompactionTestRules) -> CompactionFit {
        let maximum = kilograms_per_cubic_metre(self.peak.value);
        let optimum = fraction(self.peak.at);
        let full = saturation(self.peak.at, self.peak.value, bound.gravity, bound.water);
        let saturation_why = Why::new("S = w * Gs / e, e = Gs * rho_w / rho_d - 1", Source::definition())
            .with("w", show::percent(optimum))
            .with("rho_d", show::density(maximum))
            .with("Gs", show::trimmed(bound.gravity, 3))
            .with("rho_w", format!("{} kg/m3", show::trimmed(bound.water, 1)));
        let (low, high) = range(self.used.iter().map(|p| p.0));
        CompactionFit {
            degree: self.degree,
            maximum_dry_density: Figure {
                value: maximum,
                spread: self.spread(self.peak.value, self.peak.value_error).map(|s| s.of(kilograms_per_cubic_metre)),
                why: self.why("MDD = f(OMC)", bound),
            },
            optimum_moisture: Figure {
                value: optimum,
                spread: self.spread(self.peak.at, self.peak.at_error).map(|s| s.of(fraction)),
                why: self.why("OMC: f'(w) = 0, f''(w) < 0", bound),
            },
            saturation: Figure::exact(fraction(full), saturation_why),
            scatter: self.curve.scatter().map(kilograms_per_cubic_metre),
            degrees_of_freedom: self.curve.degrees_of_freedom(),
            curve: Curve { saturation: None, points: sampled(low, high, |w| self.curve.at(w)) },
            remarks: self.remarks(bound, is_gravity_measured, rules),
            degree_reason: self.degree_reason,
        }
    }

    /// Quantiles by Student's t on what the specimens scatter about the curve.
    fn spread(&self, value: f64, error: Option<f64>) -> Option<Quantiles> {
        let t = student_p90(self.curve.degrees_of_freedom())?;
        let off = t * error?;
        Some(Quantiles { p10: (value - off).max(0.0), p50: value, p90: value + off })
    }

    fn why(&self, rule: &str, bound: &Bound) -> Why {
        // Per cent and kg/m3, as a laboratory sheet has them.
        let constants = self.curve.plain_constants();
        let powers = ["", " w", " w^2", " w^3"];
        let terms: Vec<String> = constants
            .iter()
            .zip(powers)
            .enumerate()
            .map(|(k, (c, power))| format!("{:+.6}{power}", c / 100.0_f64.powi(i32::try_from(k).unwrap_or(0))))
            .collect();
        let mut why = Why::new(rule, Source::definition())
            .with("f, least squares, w in %", terms.join(" "))
            .with("curve", format!("{} ({})", self.degree.word(), self.degree_reason))
            .with("specimens", self.used.len())
            .with("Gs", show::trimmed(bound.gravity, 3));
        if let (Some(scatter), Some(t)) = (self.curve.scatter(), student_p90(self.curve.degrees_of_freedom())) {
            why = why
                .with("scatter about the curve", show::density(kilograms_per_cubic_metre(scatter)))
                .with("P10, P90", format!("delta method, {t:.3} standard errors (Student's t)"));
        }
        why
    }

    fn remarks(&self, bound: &Bound, is_gravity_measured: bool, rules: &CompactionTestRules) -> Vec<String> {
        let mut remarks = Vec::new();
        let spare = self.curve.degrees_of_freedom();
        if spare == 0 {
            remarks.push(format!(
                "{} specimens fix the {} with none to spare: no spread can be told; test two more",
                self.used.len(),
                self.degree.word()
            ));
        } else if spare == 1 {
            remarks.push(format!(
                "{} specimens leave one to spare over the {}: the spread is wide because it rests on that one alone",
                self.used.len(),
                self.degree.word()
            ));
        }
        let drier = self.used.iter().filter(|p| p.0 < self.peak.at).count();
        for (count, side) in [(drier, "dry"), (self.used.len() - drier, "wet")] {
            if count < 2 {
                remarks.push(format!("only {count} specimen on the {side} side of the peak: two would hold it"));
            }
        }
        let densest = self.used.iter().fold(0.0_f64, |most, p| most.max(p.1));
        if densest > self.peak.value * (1.0 + rules.blunt_share.value) {
            remarks.push(format!(
                "the densest specimen, {}, lies {} above the curve's peak: the curve is too blunt for these specimens; \
                 test more near the peak",
                show::density(kilograms_per_cubic_metre(densest)),
                show::density(kilograms_per_cubic_metre(densest - self.peak.value))
            ));
        }
        let limit = bound.zero_air_voids(self.peak.at);
        if self.peak.value > limit {
            remarks.push(format!(
                "the peak lies above the zero air voids line ({}), where nothing can be: don't use it; look at the \
                 specimens and the specific gravity",
                show::density(kilograms_per_cubic_metre(limit))
            ));
        }
        if !is_gravity_measured {
            remarks
                .push(format!("the specific gravity was not measured; {} is taken", show::trimmed(bound.gravity, 3)));
        }
        remarks
    }
}

/// Quantiles as bare numbers.
struct Quantiles {
    p10: f64,
    p50: f64,
    p90: f64,
}

impl Quantiles {
    fn of<Q>(&self, quantity: fn(f64) -> Q) -> Spread<Q> {
        Spread { p10: quantity(self.p10), p50: quantity(self.p50), p90: quantity(self.p90) }
    }
}

/// Ninety-per-cent quantile of Student's t; `None` without a degree of freedom.
fn student_p90(degrees_of_freedom: usize) -> Option<f64> {
    let student = StudentsT::new(0.0, 1.0, degrees_of_freedom as f64).ok()?;
    Some(student.inverse_cdf(0.9))
}

/// The moistures that the lines of saturation are drawn over.
fn drawn_range(points: &[CompactionPoint]) -> (f64, f64) {
    if points.is_empty() {
        return (0.0, 0.0);
    }
    let (low, high) = range(points.iter().map(|point| point.moisture.in_fraction()));
    let more = BEYOND * (high - low);
    ((low - more).max(0.0), high + more)
}

fn range(values: impl Iterator<Item = f64>) -> (f64, f64) {
    values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| (low.min(value), high.max(value)))
}

fn sampled(low: f64, high: f64, height: impl Fn(f64) -> f64) -> Vec<(Ratio, MassDensity)> {
    let place = |piece: u32| low + (high - low) * f64::from(piece) / f64::from(PIECES);
    (0..=PIECES).map(place).map(|w| (fraction(w), kilograms_per_cubic_metre(height(w)))).collect()
}
