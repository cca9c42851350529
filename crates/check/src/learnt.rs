//! Each repair is worked out with the factors that the plan says the record teaches of its road and crew, and none goes
//! beyond its limits.

use model::learnt::{FactorOf, Factored, LearntFactor, LearntRoad};
use model::plan::{Plan, PlannedJob};

use crate::Breaches;

pub(crate) fn check(plan: &Plan, breaches: &mut Breaches) {
    for (index, factor) in plan.learnt.factors.iter().enumerate() {
        sound(factor, breaches);
        let again =
            plan.learnt.factors[..index].iter().any(|other| (other.what, &other.of) == (factor.what, &factor.of));
        breaches.require(!again, "learnt.twice", || format!("{:?} of {:?}", factor.what, factor.of));
    }
    for job in &plan.jobs {
        taken(plan, job, breaches);
    }
}

/// The factor is what is believed, no further than the limits, and was learnt from something.
fn sound(factor: &LearntFactor, breaches: &mut Breaches) {
    let (least, most) = factor.limits;
    let name = || format!("{:?} of {:?}", factor.what, factor.of);
    let within = factor.factor > 0.0 && least <= factor.factor && factor.factor <= most;
    breaches.require(within, "learnt.limits", || format!("{}: {} beyond {least} to {most}", name(), factor.factor));
    for believed in [&factor.prior, &factor.believed] {
        let ordered = 0.0 < believed.p10 && believed.p10 <= believed.median && believed.median <= believed.p90;
        breaches.require(ordered, "learnt.spread", || format!("{}: {believed:?}", name()));
    }
    let nearest = factor.believed.median.max(least).min(most);
    breaches.require((factor.factor - nearest).abs() <= 1e-9 * nearest, "learnt.factor", || {
        format!("{}: {} where {} is believed", name(), factor.factor, factor.believed.median)
    });
    breaches.require(factor.records > 0 && !factor.words.is_empty(), "learnt.why", name);
}

/// What the job holds is what counts for it: its road's or crew's own factor, else that of the kind of road, else the
/// district's, else none.
fn taken(plan: &Plan, job: &PlannedJob, breaches: &mut Breaches) {
    let Some(site) = plan.sites.get(job.site) else { return };
    let road = LearntRoad::of(plan.network.section(site.zone.section));
    for what in Factored::ALL {
        let mut own = vec![FactorOf::Crew(plan.district.crew.name.clone())];
        if what != Factored::Time {
            own = vec![FactorOf::Road(road.clone())];
            own.extend(road.kind.map(FactorOf::Kind));
        }
        own.push(FactorOf::District);
        let of =
            |wanted: &FactorOf| plan.learnt.factors.iter().find(|learnt| learnt.what == what && learnt.of == *wanted);
        let counts = own.iter().find_map(of).map_or(1.0, |learnt| learnt.factor);
        let held = job.factors.of(what);
        breaches.require((held - counts).abs() <= 1e-9 * counts, "learnt.taken", || {
            format!("{}: {} {held} where {counts} counts", road.name, what.word())
        });
    }
}
