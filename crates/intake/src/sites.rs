//! Fills a minute apart at one spot: several holes of one site, mended at one stop of a crew.

use jiff::Timestamp;
use model::record::happened::Position;
use model::rules::matching::OneStop;

use crate::ground::metres_between;

/// A hole that was filled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fill {
    /// Where.
    pub position: Position,
    /// When.
    pub at: Timestamp,
}

/// Several fills that were made at one stop, or a single one.
#[derive(Debug, Clone, PartialEq)]
pub struct Site {
    /// Its fills, as indexes into the rows, in the order of time.
    pub fills: Vec<usize>,
    /// Why they are one site.
    pub why: String,
}

/// Groups fills into sites; every fill is in exactly one. A fill belongs to a site when it was made no longer than the rule's
/// minutes after the site's last, and no fill of the site is further from it than the rule's metres; of several sites the
/// one whose last fill is nearest. Fills of one moment go by place, so that the order of the rows does not matter.
pub fn sites_of(rows: &[Fill], rules: &OneStop) -> Vec<Site> {
    let mut order: Vec<usize> = (0..rows.len()).collect();
    order.sort_by(|&a, &b| {
        let (a, b) = (&rows[a], &rows[b]);
        let place = |fill: &Fill| (fill.position.lat, fill.position.lon);
        let (of_a, of_b) = (place(a), place(b));
        a.at.cmp(&b.at).then(of_a.0.total_cmp(&of_b.0)).then(of_a.1.total_cmp(&of_b.1))
    });
    let mut sites: Vec<Vec<usize>> = Vec::new();
    // Sites that a fill may still join.
    let mut open: Vec<usize> = Vec::new();
    for index in order {
        let fill = &rows[index];
        let last = |site: usize| sites[site].last().map_or(index, |last| *last);
        open.retain(|&site| minutes(rows[last(site)].at, fill.at) <= rules.within_min.value);
        let is_near = |&&site: &&usize| {
            let near = |&other: &usize| metres_between(rows[other].position, fill.position) <= rules.within_m.value;
            sites[site].iter().all(near)
        };
        let distance = |site: usize| metres_between(rows[last(site)].position, fill.position);
        let nearest =
            open.iter().filter(is_near).min_by(|&&a, &&b| distance(a).total_cmp(&distance(b)).then(a.cmp(&b)));
        if let Some(site) = nearest.copied() {
            sites[site].push(index);
        } else {
            open.push(sites.len());
            sites.push(vec![index]);
        }
    }
    sites.into_iter().map(|fills| Site { why: why(&fills, rows, rules), fills }).collect()
}

fn minutes(from: Timestamp, to: Timestamp) -> f64 {
    to.duration_since(from).as_secs_f64() / 60.0
}

fn why(fills: &[usize], rows: &[Fill], rules: &OneStop) -> String {
    let [first, .., last] = fills else { return "filled alone: no other fill near it in place and time".into() };
    let gap = fills.windows(2).map(|pair| minutes(rows[pair[0]].at, rows[pair[1]].at)).fold(0.0, f64::max);
    let pairs = fills.iter().enumerate().flat_map(|(index, a)| fills[index + 1..].iter().map(move |b| (*a, *b)));
    let apart = pairs.map(|(a, b)| metres_between(rows[a].position, rows[b].position)).fold(0.0, f64::max);
    let time = minutes(rows[*first].at, rows[*last].at);
    format!(
        "{} holes of one stop: filled within {time:.0} min, each at most {gap:.0} min after the one before (rule: {:.0} min), no two \
         further apart than {apart:.1} m (rule: {:.0} m)",
        fills.len(),
        rules.within_min.value,
        rules.within_m.value
    )
}
