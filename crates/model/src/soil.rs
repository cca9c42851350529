//! What tests of the base say: compaction test, field density, grading.

mod compaction;
mod field_density;
mod grading;

pub use compaction::{
    CompactionFit, CompactionPoint, CompactionReading, CompactionTest, Curve, DensityReading, FitDegree, PointFate,
};
pub use field_density::{FieldDensity, FieldDensityReading, Verdict};
pub use grading::{
    FinesVerdict, Fit, GradingCheck, PassingPoint, SieveAnalysis, SieveMark, SieveReading, SieveSample, SieveVerdict,
    Standing,
};
