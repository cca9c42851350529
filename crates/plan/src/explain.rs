//! Why each site of a work plan is where it is, in words.

use jiff::civil::Date;
use model::plan::{Explained, OtherWay, WorkPlan};
use model::round::LeftOutReason;
use rounds::{Alternative, SearchSettings};

/// Says for each site what the next best way with it would cost; with `iterations`, also what one more crew, hour or cubic
/// metre would bring, each by so many steps of searching again; of a plan that was searched in parts that is not said.
pub fn explain(
    work: &WorkPlan,
    iterations: Option<u32>,
    seed: u64,
    progress: &mut dyn FnMut(f64) -> bool,
) -> Explained {
    let sites = (0..work.sites.len()).map(|site| other_way(work, site)).collect();
    let whole = work.problem.driving.iter().all(|driving| driving.among.is_none());
    let more = iterations.filter(|_| whole).map(|iterations| {
        let settings = SearchSettings { seed, iterations };
        let all = f64::from(iterations.max(1));
        rounds::what_more_brings(&work.problem, &work.programme, &settings, &mut |done, _| {
            progress(f64::from(done) / all)
        })
    });
    Explained { sites, more: more.unwrap_or_default() }
}

fn other_way(work: &WorkPlan, site: usize) -> OtherWay {
    let round = work.programme.rounds.iter().find(|round| round.sites().any(|other| other == site));
    let shift = round.map(|round| &work.problem.shifts[round.shift]);
    let ways = rounds::alternatives(&work.problem, &work.programme, site);
    let asked = work.pins.iter().any(|pin| pin.holes.iter().any(|hole| work.sites[site].holes.contains(hole)));
    let words = if asked && (shift.is_some() || is_left_out_as_asked(work, site)) {
        "as asked".to_owned()
    } else if shift.is_some() {
        mended(work, &ways)
    } else {
        left(work, site, &ways)
    };
    OtherWay { date: shift.and_then(|shift| date(work, shift.day)), crew: shift.map(|shift| shift.crew), words }
}

fn mended(work: &WorkPlan, ways: &[Alternative]) -> String {
    let currency = &work.district.prices.currency;
    let Some(next) = ways.first() else { return "no other round has room for it".into() };
    let what = match next.shift {
        Some(shift) => format!("the next best is {}", in_shift(work, shift)),
        None => "the next best is to leave it".into(),
    };
    format!("{what}, for {:.0} {currency} more", next.costs_more.max(0.0))
}

fn left(work: &WorkPlan, site: usize, ways: &[Alternative]) -> String {
    let currency = &work.district.prices.currency;
    if let Some(next) = ways.iter().find(|way| way.shift.is_some()) {
        let shift = next.shift.map(|shift| in_shift(work, shift)).unwrap_or_default();
        return format!("it would cost {:.0} {currency} more than leaving it, {shift}", next.costs_more.max(0.0));
    }
    let reason = work.programme.left_out.iter().find(|(left, _)| *left == site).map(|(_, reason)| *reason);
    match reason {
        Some(LeftOutReason::LessUrgent) => {
            "every round is full of what takes more risk off the road for its time".into()
        }
        _ => "no round could do it, see the holes left out".into(),
    }
}

fn is_left_out_as_asked(work: &WorkPlan, site: usize) -> bool {
    work.programme.left_out.contains(&(site, LeftOutReason::AsAsked))
}

fn in_shift(work: &WorkPlan, shift: usize) -> String {
    let shift = &work.problem.shifts[shift];
    // Crews beyond the district's are those of a trial.
    let crew = work.district.of_crew(shift.crew).crew.name;
    match date(work, shift.day) {
        Some(date) => format!("by {crew} on {date}"),
        None => format!("by {crew}"),
    }
}

fn date(work: &WorkPlan, day: u32) -> Option<Date> {
    work.first_day.checked_add(jiff::Span::new().days(i64::from(day))).ok()
}
