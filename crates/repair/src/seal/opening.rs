//! When a fresh seal may be opened to traffic, how fast, and when it is swept.

use model::district::BinderKind;
use model::figure::{Figure, Why};
use model::quantity::{Time, hours, kilometres_per_hour, minutes};
use model::repair::Opening;
use model::rules::repair::{OpenAfter, OpeningPractice, OpeningRules};

/// Opening for one kind of binder on a surface that warm, °C.
pub fn opening(kind: BinderKind, surface_c: f64, rules: &OpeningRules) -> Opening {
    let practice = practice(kind, rules);
    let rows = &practice.open_after;
    let (word, first) = match kind {
        BinderKind::Cutback => ("cutback", "solvent must have left enough for the stone to hold"),
        BinderKind::Emulsion => ("emulsion", "it must have broken: brown turns black"),
    };
    let open_why =
        Why::new(format!("waiting time by binder and temperature of the surface; {first}"), rows.source.clone())
            .with("binder", word)
            .with("surface", format!("{surface_c} °C"));
    let why = |rule: &str, source: &model::figure::Source| Why::new(rule, source.clone()).with("binder", word);
    let (speed, slow) = (&practice.speed_km_per_h, &practice.slow_for_h);
    let (sweep, again) = (&practice.sweep_after_h, &practice.sweep_again_after_h);
    Opening {
        open_after: Figure::exact(open_after(surface_c, &rows.value), open_why),
        by_temperature: rows.value.iter().map(|row| (row.from_c, minutes(row.minutes))).collect(),
        speed: Figure::exact(kilometres_per_hour(speed.value), why("greatest speed at first, signed", &speed.source)),
        slow_for: Figure::exact(hours(slow.value), why("so long is that speed signed", &slow.source)),
        sweep_after: Figure::exact(
            hours(sweep.value),
            why("loose stone is swept off, from the last stone on", &sweep.source),
        ),
        sweep_again_after: Figure::exact(hours(again.value), why("and what traffic has loosened", &again.source)),
    }
}

/// The warmest row that is not warmer than the surface; below all of them the first, which is the longest.
pub fn open_after(surface_c: f64, rows: &[OpenAfter]) -> Time {
    let row = rows.iter().rev().find(|row| row.from_c <= surface_c).or(rows.first());
    minutes(row.map_or(0.0, |row| row.minutes))
}

pub(crate) fn practice(kind: BinderKind, rules: &OpeningRules) -> &OpeningPractice {
    match kind {
        BinderKind::Cutback => &rules.cutback,
        BinderKind::Emulsion => &rules.emulsion,
    }
}
