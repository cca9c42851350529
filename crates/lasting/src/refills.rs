//! Lives from nothing but places and times of fills, as a city's list of filled holes has them: filled again at the same place
//! means that the fill before failed.

use std::collections::HashMap;

use crate::life_table::LifeError;

/// Length of a degree of latitude, m (from memory: mean of the ellipsoid).
const DEGREE_M: f64 = 111_195.0;

/// One fill.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fill {
    /// Degrees east.
    pub lon: f64,
    /// Degrees north.
    pub lat: f64,
    /// When, days from any begin.
    pub day: f64,
}

/// When fills are one repair, and when one is another's failure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RefillRules {
    /// How near is the same place, m.
    pub same_place_m: f64,
    /// Fills of a place so soon after the last one belong to the same repair, days.
    pub same_repair_days: f64,
    /// How long a repair is watched at most, days.
    pub watched_days: f64,
}

/// The life of a repair of one or several fills.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RefillLife {
    /// Its first fill, by its place in the list.
    pub fill: usize,
    /// How many fills it is made of.
    pub fills: usize,
    /// From its last fill to the fill after it, or to when it was last watched.
    pub days: f64,
    /// Whether it was filled again.
    pub failed: bool,
}

struct Open {
    first: usize,
    fills: usize,
    last_day: f64,
}

/// Lives of fills until the last day of the list; in the order in which they began. Fills without place or time are passed over.
pub fn refill_lives(fills: &[Fill], rules: RefillRules, last_day: f64) -> Result<Vec<RefillLife>, LifeError> {
    let known = |fill: &Fill| fill.lon.is_finite() && fill.lat.is_finite();
    if let Some(row) = fills.iter().position(|fill| known(fill) && (fill.day.is_nan() || fill.day > last_day)) {
        return Err(LifeError::Duration { row, duration: last_day - fills[row].day });
    }
    let mut order: Vec<usize> = (0..fills.len()).filter(|at| known(&fills[*at])).collect();
    order.sort_by(|a, b| fills[*a].day.total_cmp(&fills[*b].day).then(a.cmp(b)));
    let grid = Grid::of(fills.iter().filter(|fill| known(fill)), rules.same_place_m);
    let mut open: HashMap<(i64, i64), Vec<Open>> = HashMap::new();
    let mut lives = Vec::new();
    for at in order {
        let fill = &fills[at];
        let cell = grid.cell(fill);
        let nearest = Grid::around(cell).into_iter().filter_map(|cell| {
            let near = open.get(&cell)?.iter().enumerate().map(|(i, site)| (metres(fill, &fills[site.first]), cell, i));
            near.filter(|(away, ..)| *away <= rules.same_place_m).min_by(|a, b| a.0.total_cmp(&b.0))
        });
        if let Some((_, cell, index)) = nearest.min_by(|a, b| a.0.total_cmp(&b.0)) {
            let sites = open.entry(cell).or_default();
            if fill.day - sites[index].last_day <= rules.same_repair_days {
                sites[index].last_day = fill.day;
                sites[index].fills += 1;
                continue;
            }
            let site = sites.swap_remove(index);
            lives.push(ended(&site, fill.day, true, rules));
        }
        open.entry(cell).or_default().push(Open { first: at, fills: 1, last_day: fill.day });
    }
    lives.extend(open.into_values().flatten().map(|site| ended(&site, last_day, false, rules)));
    lives.sort_by(|a, b| fills[a.fill].day.total_cmp(&fills[b.fill].day).then(a.fill.cmp(&b.fill)));
    Ok(lives)
}

fn ended(site: &Open, day: f64, failed: bool, rules: RefillRules) -> RefillLife {
    let days = day - site.last_day;
    let failed = failed && days <= rules.watched_days;
    RefillLife { fill: site.first, fills: site.fills, days: days.min(rules.watched_days), failed }
}

/// Squares as large as what is the same place: whatever is near lies in one of nine.
struct Grid {
    cell_m: f64,
    /// Length of a degree of longitude where it is shortest, against one of latitude.
    shrink: f64,
}

impl Grid {
    fn of<'f>(fills: impl Iterator<Item = &'f Fill>, near_m: f64) -> Self {
        let shrink = fills.map(|fill| fill.lat.to_radians().cos()).fold(1.0, f64::min);
        Grid { cell_m: near_m.max(0.1) * 1.001, shrink }
    }

    fn cell(&self, fill: &Fill) -> (i64, i64) {
        let (x, y) = (fill.lon * DEGREE_M * self.shrink, fill.lat * DEGREE_M);
        ((x / self.cell_m).floor() as i64, (y / self.cell_m).floor() as i64)
    }

    fn around((x, y): (i64, i64)) -> Vec<(i64, i64)> {
        (-1..=1).flat_map(|i| (-1..=1).map(move |j| (x + i, y + j))).collect()
    }
}

fn metres(a: &Fill, b: &Fill) -> f64 {
    let shrink = f64::midpoint(a.lat, b.lat).to_radians().cos();
    ((a.lon - b.lon) * shrink).hypot(a.lat - b.lat) * DEGREE_M
}
