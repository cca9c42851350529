//! What a work zone is taken to cost, and what several cuts save that share one.

use model::figure::{Figure, Source, Why};
use model::quantity::{InLength, InTime, InVelocity, Length, Time, metres, seconds};
use model::rules::planning::SharingRules;
use model::rules::traffic::TrafficRules;
use model::sharing::Sharing;
use model::work_zone::{WorkZone, ZonePartKind};

use crate::text::{joined, tidy};

/// Moving from cut to cut inside one zone: the free stretches between them at walking pace, since people and plant go along
/// the lane. `cuts` are chainages, smaller first, by their start.
pub fn between_cuts(cuts: &[(Length, Length)], rules: &TrafficRules) -> Figure<Time> {
    let mut furthest: Option<f64> = None;
    let mut free = 0.0;
    for (from, to) in cuts {
        let gap = furthest.map_or(0.0, |end| from.in_metres() - end);
        free += if gap > 0.0 { gap } else { 0.0 };
        furthest = Some(furthest.map_or(to.in_metres(), |end| end.max(to.in_metres())));
    }
    let pace = &rules.effort.walking_speed;
    let why = Why::new("t = free/v_w", pace.source.clone())
        .with("free", format!("{} m", tidy(free)))
        .with("v_w", format!("{} {}", pace.value, rules.units.speed.symbol()));
    Figure::exact(seconds(free / rules.units.velocity(pace.value).in_metres_per_second()), why)
}

/// Price of a zone beyond the work itself, which costs the same in one zone or in several: minutes of the crew, devices
/// put out, and closed road for as long as it is closed.
///
/// `work` is the time at the cuts, `between` that of moving from one to the next.
pub fn zone_price(zone: &WorkZone, work: Time, between: Time, prices: &SharingRules) -> Figure<f64> {
    let control = (zone.set_up.value + zone.take_in.value).in_minutes();
    let moving = between.in_minutes();
    let devices = zone.devices.len() as f64;
    let closed = closed_length(zone).in_metres();
    let hours = (zone.set_up.value + work + between + zone.take_in.value).in_hours();
    let SharingRules { crew_minute, device, closed_metre_hour } = prices;
    let price =
        crew_minute.value * (control + moving) + device.value * devices + closed_metre_hour.value * closed * hours;
    let why = Why::new(
        "C = p_m (t_c + t_b) + p_d n + p_l l T",
        joined(&[&crew_minute.source, &device.source, &closed_metre_hour.source]),
    )
    .with("p_m", crew_minute.value)
    .with("t_c", format!("{} min", tidy(control)))
    .with("t_b", format!("{} min", tidy(moving)))
    .with("p_d", device.value)
    .with("n", zone.devices.len())
    .with("p_l", closed_metre_hour.value)
    .with("l", format!("{} m", tidy(closed)))
    .with("T", format!("{} h", tidy(hours)));
    Figure::exact(price, why)
}

/// From the head of the taper to the end of the closure.
fn closed_length(zone: &WorkZone) -> Length {
    let closed = zone.parts.iter().filter(|part| part.kind != ZonePartKind::AdvanceWarning);
    metres(closed.map(|part| part.length.value.in_metres()).sum())
}

/// What it saves that `shared` stands instead of a zone for each cut, `alone`; `None` where there is one cut.
pub fn sharing(shared: &WorkZone, alone: &[&WorkZone], between: Figure<Time>) -> Option<Sharing> {
    if alone.len() < 2 {
        return None;
    }
    let control = |zone: &WorkZone| (zone.set_up.value + zone.take_in.value).in_seconds();
    let apart: f64 = alone.iter().map(|zone| control(zone)).sum();
    let together = control(shared);
    let minutes = |seconds: f64| format!("{} min", tidy(seconds / 60.0));
    let time = Why::new("saved = sum(t_alone) - t_shared - t_b", shared.set_up.why.source.clone())
        .with("sum(t_alone)", minutes(apart))
        .with("t_shared", minutes(together))
        .with("t_b", minutes(between.value.in_seconds()));
    let count = |zone: &WorkZone| i64::try_from(zone.devices.len()).unwrap_or(i64::MAX);
    let (many, one) = (alone.iter().map(|zone| count(zone)).fold(0, i64::saturating_add), count(shared));
    let devices = Why::new("saved = sum(n_alone) - n_shared", Source::definition())
        .with("sum(n_alone)", many)
        .with("n_shared", one);
    Some(Sharing {
        cuts: alone.len() as u32,
        holes: shared.holes.len() as u32,
        time_saved: Figure::exact(seconds(apart - together - between.value.in_seconds()), time),
        devices_saved: Figure::exact(many - one, devices),
        between,
    })
}
