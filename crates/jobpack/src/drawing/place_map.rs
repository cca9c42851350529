//! Map of a zone's neighbourhood, a kilometre or two across: how to find the place.

use std::collections::BTreeMap;

use model::place::LonLat;
use model::plan::Plan;
use model::road::{RoadClass, RoadSection, Setting};

use super::frame::{Frame, Line, licence, licence_height, scale_bar};
use super::stop_number;
use crate::display::{Units, words_of};
use crate::flat::{metres_per_degree, to_flat};
use crate::svg::{Drawing, Type, clip, stroke, text_width};

const MAP: Frame = Frame { width: 58.0, height: 35.0 };
const LABEL: f64 = 2.3;
/// Metres across the map, at least; in open country a map without a junction helps nobody.
const ACROSS_RURAL_M: f64 = 2000.0;
const ACROSS_URBAN_M: f64 = 1200.0;
/// Metres across at most, to take in the nearer end of the section.
const ACROSS_MAX_M: f64 = 6000.0;
/// Names of roads at most.
const NAMES_MAX: usize = 7;
/// Room of the marks that names keep away from, millimetres.
const MARK_ROOM: f64 = 4.2;

/// Draws the roads around a site: its own section thick, the place marked, the roads nearby by name.
///
/// # Panics
/// If `site` is not an index into `plan.sites`.
pub fn place_map_svg(plan: &Plan, site: usize) -> String {
    let view = View::new(plan, site);
    let attribution = plan.road_attribution.as_deref();
    let mut drawing = Drawing::new(MAP.width, MAP.height + licence_height(attribution, MAP.width));
    MAP.ground(&mut drawing);
    let names = view.roads(&mut drawing);
    let mut taken =
        vec![(view.at(view.place), MARK_ROOM), ((MAP.width - 5.0, 6.0), 4.5), ((12.0, MAP.height - 3.0), 5.0)];
    taken.extend(view.chainage_start(&mut drawing));
    names_of_roads(&mut drawing, &names, &mut taken);
    view.mark(&mut drawing);
    let units = Units::of(&plan.district);
    MAP.north_arrow(&mut drawing, units);
    scale_bar(&mut drawing, units, view.scale, (2.5, MAP.height - 2.6));
    MAP.outline(&mut drawing);
    licence(&mut drawing, attribution, MAP);
    drawing.finish()
}

struct View<'a> {
    plan: &'a Plan,
    site: usize,
    place: LonLat,
    own: &'a RoadSection,
    scale: f64,
}

/// A road's name with its longest piece on paper.
struct Name {
    words: String,
    own: bool,
    run: Line,
    length: f64,
}

impl<'a> View<'a> {
    fn new(plan: &'a Plan, site: usize) -> Self {
        let planned = &plan.sites[site];
        let own = plan.network.section(planned.zone.section);
        let across = if own.setting == Setting::Urban { ACROSS_URBAN_M } else { ACROSS_RURAL_M };
        // So much that the nearer end of the section lies inside, whichever way it is.
        let ends = [own.line.first(), own.line.last()].into_iter().flatten();
        let wanted = |end: &LonLat| {
            let (east, north) = to_flat(planned.place, *end);
            (2.0 * east.abs()).max(2.0 * north.abs() * MAP.width / MAP.height) * 1.25
        };
        let nearer = ends.map(wanted).filter(|w| w.is_finite()).fold(f64::INFINITY, f64::min);
        let across = nearer.clamp(across, ACROSS_MAX_M);
        View { plan, site, place: planned.place, own, scale: MAP.width / across }
    }

    fn at(&self, place: LonLat) -> (f64, f64) {
        let (east, north) = to_flat(self.place, place);
        (MAP.width / 2.0 + east * self.scale, MAP.height / 2.0 - north * self.scale)
    }

    /// Draws all roads, the own section last, and gives the names that can be written.
    fn roads(&self, drawing: &mut Drawing) -> Vec<Name> {
        let mut names: BTreeMap<String, Name> = BTreeMap::new();
        let near = self.plan.network.sections.iter().filter(|s| s.id != self.own.id && self.reaches(s));
        for section in near.chain([self.own]) {
            let own = section.id == self.own.id;
            let line: Line =
                section.line.iter().map(|p| self.at(*p)).filter(|p| p.0.is_finite() && p.1.is_finite()).collect();
            let style = if own {
                stroke(1.3)
            } else {
                let width = if section.class <= RoadClass::Tertiary { 0.6 } else { 0.35 };
                format!("stroke=\"#777\" stroke-width=\"{width}\"")
            };
            for run in MAP.clipped(&line) {
                drawing.path(&run, false, &style);
                if section.name.is_empty() && section.number.is_empty() {
                    continue;
                }
                let name = Name { words: section.label(), own, length: length(&run), run };
                let better = |kept: &Name| (name.own, name.length) > (kept.own, kept.length);
                if names.get(&name.words).is_none_or(better) {
                    names.insert(name.words.clone(), name);
                }
            }
        }
        let mut names: Vec<Name> = names.into_values().collect();
        names.sort_by(|a, b| b.own.cmp(&a.own).then(b.length.total_cmp(&a.length)).then(a.words.cmp(&b.words)));
        names
    }

    /// Whether a section's box of degrees touches the map.
    fn reaches(&self, section: &RoadSection) -> bool {
        let (north, east) = metres_per_degree(self.place.lat);
        let half = |paper: f64, per_degree: f64| paper / 2.0 / self.scale / per_degree.max(1.0);
        let (reach_lon, reach_lat) = (half(MAP.width, east), half(MAP.height, north));
        let misses = |get: fn(&LonLat) -> f64, centre: f64, reach: f64| {
            section.line.iter().all(|p| get(p) < centre - reach) || section.line.iter().all(|p| get(p) > centre + reach)
        };
        !misses(|p| p.lon, self.place.lon, reach_lon) && !misses(|p| p.lat, self.place.lat, reach_lat)
    }

    /// Marks where the section's chainage counts from, if that is on the map.
    fn chainage_start(&self, drawing: &mut Drawing) -> Vec<((f64, f64), f64)> {
        let words = words_of(&self.plan.district).say("drawing-chainage-0");
        let Some(start) = self.own.line.first() else { return Vec::new() };
        let at = self.at(*start);
        let site = self.at(self.place);
        if !MAP.holds(at) || (at.0 - site.0).hypot(at.1 - site.1) < 4.0 {
            return Vec::new();
        }
        drawing.circle(at, 1.1, &format!("fill=\"#fff\" {}", stroke(0.4)));
        let right = at.0 < MAP.width - 14.0;
        let text = if right { Type::plain(LABEL).rim() } else { Type::plain(LABEL).end().rim() };
        let lead = if right { 1.8 } else { -1.8 };
        drawing.text((at.0 + lead, at.1 + 2.6), &words, text);
        let width = text_width(&words, LABEL);
        let mut taken = beads((at.0 + lead.signum() * (1.8 + width / 2.0), at.1 + 2.6), 0.0, width);
        taken.push((at, 1.4));
        taken
    }

    fn mark(&self, drawing: &mut Drawing) {
        let at = self.at(self.place);
        drawing.circle(at, 2.7, "fill=\"#fff\" stroke=\"#fff\" stroke-width=\"1.4\"");
        drawing.circle(at, 2.7, &format!("fill=\"#fff\" {}", stroke(0.7)));
        let number = stop_number(self.plan, self.site).map_or_else(|| "×".to_owned(), |n| n.to_string());
        drawing.text((at.0, at.1 + 1.05), &number, Type::plain(2.9).bold().middle());
    }
}

/// Writes names along their roads where they cover no mark and no other name; the own road first, then the longest.
fn names_of_roads(drawing: &mut Drawing, names: &[Name], taken: &mut Vec<((f64, f64), f64)>) {
    let mut written = 0;
    for name in names {
        if written >= NAMES_MAX {
            return;
        }
        let words = clip(&name.words, LABEL, 34.0);
        let width = text_width(&words, LABEL) * if name.own { 1.08 } else { 1.0 };
        let Some((at, angle)) = place_for(&name.run, width, taken) else { continue };
        let how = Type::plain(LABEL).middle().rim().turned(angle);
        drawing.text(at, &words, if name.own { how.bold() } else { how });
        taken.extend(beads(at, angle, width));
        written += 1;
    }
}

/// A free place along a line for a text of that width: the point under its middle, and its turn.
fn place_for(run: &[(f64, f64)], width: f64, taken: &[((f64, f64), f64)]) -> Option<((f64, f64), f64)> {
    let total = length(run);
    for part in [0.5, 0.35, 0.65, 0.25, 0.75, 0.15, 0.85] {
        let (middle, direction) = point_along(run, total * part)?;
        let mut angle = direction.1.atan2(direction.0).to_degrees();
        if angle > 90.0 {
            angle -= 180.0;
        } else if angle <= -90.0 {
            angle += 180.0;
        }
        let (sin, cos) = angle.to_radians().sin_cos();
        for lift in [1.1, -2.6] {
            let at = (middle.0 + sin * lift, middle.1 - cos * lift);
            let ends = [-0.5, 0.5].map(|half| (at.0 + cos * width * half, at.1 + sin * width * half));
            let fits = ends.iter().all(|e| MAP.holds(*e));
            let free = beads(at, angle, width).iter().all(|(bead, room)| {
                taken.iter().all(|(other, far)| (bead.0 - other.0).hypot(bead.1 - other.1) > room + far)
            });
            if fits && free {
                return Some((at, angle));
            }
        }
    }
    None
}

/// Circles that cover a text.
fn beads(at: (f64, f64), angle: f64, width: f64) -> Vec<((f64, f64), f64)> {
    let (sin, cos) = angle.to_radians().sin_cos();
    let count = (width / LABEL).ceil().max(1.0) as usize;
    (0..=count)
        .map(|k| {
            let along = width * (k as f64 / count as f64 - 0.5);
            ((at.0 + cos * along + sin * LABEL * 0.35, at.1 + sin * along - cos * LABEL * 0.35), LABEL * 0.55)
        })
        .collect()
}

fn length(run: &[(f64, f64)]) -> f64 {
    run.windows(2).map(|w| (w[1].0 - w[0].0).hypot(w[1].1 - w[0].1)).sum()
}

/// The point at a distance along a line, and the direction there.
fn point_along(run: &[(f64, f64)], mut distance: f64) -> Option<((f64, f64), (f64, f64))> {
    for pair in run.windows(2) {
        let direction = (pair[1].0 - pair[0].0, pair[1].1 - pair[0].1);
        let piece = direction.0.hypot(direction.1);
        if distance <= piece && piece > 0.0 {
            let t = distance / piece;
            return Some(((pair[0].0 + direction.0 * t, pair[0].1 + direction.1 * t), direction));
        }
        distance -= piece;
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_keeps_away_from_marks() {
        let run = [(2.0, 20.0), (56.0, 20.0)];
        let (at, angle) = place_for(&run, 12.0, &[]).expect("room");
        assert!((at.0 - 29.0).abs() < 1e-9 && at.1 < 20.0 && angle.abs() < 1e-9);
        let (moved, _) = place_for(&run, 12.0, &[((29.0, 20.0), 4.0)]).expect("room beside the mark");
        assert!((moved.0 - 29.0).abs() > 8.0, "{moved:?}");
        assert!(place_for(&run, 60.0, &[]).is_none());
    }
}
