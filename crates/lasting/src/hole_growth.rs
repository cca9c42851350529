//! How holes grow: their size between two sightings, and, before there are any, published relations of a surface's decay.

use serde::Serialize;

/// A hole seen twice.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SizedTwice {
    /// Years between.
    pub years: f64,
    /// Size then over size before: area or volume, the same for all.
    pub ratio: f64,
}

/// What is believed of `ln` of the growth in size: it drifts with time, and strays from that with the root of it. The belief
/// about drift and straying is normal-inverse-gamma, as about growth on cutting, each sighting weighing by its time.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct SizeBelief {
    /// `ln` of the growth in a year.
    pub drift: f64,
    /// How many years of watching that counts as.
    pub years: f64,
    /// Straying of one year, a standard deviation.
    pub straying: f64,
    /// How many sightings that counts as.
    pub sightings: f64,
}

impl SizeBelief {
    /// The belief after sightings; those without time between or with a size that is none are passed over.
    #[must_use]
    pub fn after(self, seen: &[SizedTwice]) -> Self {
        let usable = seen.iter().filter(|twice| {
            twice.years > 0.0 && twice.years.is_finite() && twice.ratio > 0.0 && twice.ratio.is_finite()
        });
        let (mut count, mut time, mut sum, mut squares) = (0.0, 0.0, 0.0, 0.0);
        for twice in usable {
            let log = twice.ratio.ln();
            count += 1.0;
            time += twice.years;
            sum += log;
            squares += log * log / twice.years;
        }
        if count == 0.0 {
            return self;
        }
        let years = self.years + time;
        let drift = (self.years * self.drift + sum) / years;
        let sightings = self.sightings + count;
        let scatter =
            self.sightings * self.straying.powi(2) + squares + self.years * self.drift.powi(2) - years * drift.powi(2);
        SizeBelief { drift, years, straying: (scatter.max(0.0) / sightings).sqrt(), sightings }
    }

    /// How many times as large a hole is after so many years, at a probability.
    pub fn growth(&self, years: f64, p: f64) -> f64 {
        let scale = self.straying * (years + years * years / self.years).sqrt();
        (self.drift * years + scale * belief::student_quantile(p, self.sightings)).exp()
    }
}

/// State of a surface, for the published relations of its decay.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SurfaceState {
    /// Thickness of the seal, mm.
    pub seal_mm: f64,
    /// Traffic: million standard axles a lane and year.
    pub million_axles: f64,
    /// Modified structural number of the pavement.
    pub structural_number: f64,
    /// Rain, metres a month.
    pub rain_m_per_month: f64,
    /// 0 for good construction, 1 for faulty.
    pub faulty: f64,
    /// Wide cracks, per cent of the area.
    pub cracked: f64,
    /// Ravelled, per cent of the area.
    pub ravelled: f64,
    /// Potholes now, per cent of the area.
    pub potholed: f64,
}

/// Growth of the potholed part in a year, per cent of the area.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PotholeGrowth {
    /// From wide cracks.
    pub from_cracks: f64,
    /// From ravelling.
    pub from_ravelling: f64,
    /// Holes that grow.
    pub enlarging: f64,
}

impl PotholeGrowth {
    /// All together, capped.
    pub fn total(&self) -> f64 {
        (self.from_cracks + self.from_ravelling + self.enlarging).min(10.0)
    }
}

impl SurfaceState {
    /// Years from the first wide cracks to the first pothole, granular base.
    pub fn years_to_first_pothole(&self) -> f64 {
        (2.0 + 0.04 * self.seal_mm - 0.5 * self.million_axles).max(2.0)
    }

    /// Growth in the next year, granular base. Cracks count from 20 % on, ravelling from 30 %.
    pub fn growth(&self) -> PotholeGrowth {
        let unit = (1.0 + self.faulty) * (self.million_axles / self.structural_number) / (2.7 * self.seal_mm);
        let granular = (2.0 - 0.02 * self.seal_mm).max(0.3);
        let runs = |part: f64, least: f64| if part > least { part } else { 0.0 };
        PotholeGrowth {
            from_cracks: (2.0 * runs(self.cracked, 20.0) * unit).min(6.0),
            from_ravelling: (0.4 * runs(self.ravelled, 30.0) * unit).min(6.0),
            enlarging: (self.potholed * granular * self.million_axles * (self.rain_m_per_month + 0.1)).min(10.0),
        }
    }
}
