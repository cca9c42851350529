//! Sight along a road: how far one sees before a bend or a crest hides what stands there.
//!
//! Across, the line of sight must stay within the strip that is known to be clear: seal, shoulder, and a width beside
//! them. Over crests it must stay above the profile, where heights are given. Both are worked out on the road's line as
//! it is; what grows or stands beside it is not on any map.

use model::figure::{Figure, Source, Spread, Why};
use model::place::Travel;
use model::quantity::{InLength, Length, metres};
use model::road_around::RoadAxis;

use crate::profile::Profile;

/// How one looks.
#[derive(Debug, Clone, PartialEq)]
pub struct Look {
    /// Height of the eye above the road.
    pub eye_height: Length,
    /// Eye across from the centre line, positive to the right of increasing chainage.
    pub eye_across: Length,
    /// Height above the road of what is to be seen.
    pub object_height: Length,
    /// Its place across.
    pub object_across: Length,
    /// Not looked further than this.
    pub most: Length,
    /// The distance is worked out in steps of this, rounded down.
    pub step: Length,
    /// Where these values are from.
    pub source: Source,
}

/// What ends the sight.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SightEnd {
    /// Nothing: it reaches as far as was looked.
    AsFarAsLooked,
    /// A bend: the line of sight leaves the clear strip.
    Bend,
    /// A crest.
    Crest,
    /// The known road.
    RoadEnds,
}

/// How far one sees.
#[derive(Debug, Clone, PartialEq)]
pub struct Sight {
    /// The distance along the road, with what the heights' error makes of it where a profile was looked at.
    pub distance: Figure<Length>,
    /// What ends it.
    pub ends_by: SightEnd,
    /// Whether heights were known all the way.
    pub profile_known: bool,
}

/// A road made ready to be looked along.
#[derive(Debug, Clone)]
pub struct SightRoad {
    chainages: Vec<f64>,
    /// East and north, metres.
    points: Vec<(f64, f64)>,
    /// Half the width that is clear at each point.
    clear: Vec<f64>,
    profile: Option<Profile>,
    /// What is left of the heights' error, metres, and the length over which they are smoothed.
    height_error: f64,
    window: f64,
}

/// What is known of the heights along a road.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ground {
    /// The profile is sampled this often.
    pub step: Length,
    /// And smoothed over this length.
    pub window: Length,
    /// One in ten heights is further off than this on either side after smoothing, against heights a window away.
    pub error: Length,
}

impl SightRoad {
    /// Makes an axis ready. `beside` is the width beyond the shoulder through which one sees. `None` for an axis without
    /// a line.
    pub fn of(axis: &RoadAxis, beside: Length, ground: Ground) -> Option<SightRoad> {
        if axis.points.len() < 2 {
            return None;
        }
        let beside = beside.in_metres().max(0.0);
        let clear_at = |chainage: Length| {
            let here = axis.pieces.iter().filter(|piece| piece.from <= chainage && chainage <= piece.to);
            let half = |width: f64| if width.is_finite() { width.max(0.0) } else { 0.0 };
            // Where two pieces meet the narrower counts.
            here.map(|piece| half(piece.width.in_metres()) / 2.0 + half(piece.shoulder.in_metres()) + beside)
                .fold(f64::INFINITY, f64::min)
        };
        let window = ground.window.in_metres();
        Some(SightRoad {
            chainages: axis.points.iter().map(|point| point.chainage.in_metres()).collect(),
            points: axis.points.iter().map(|point| (point.east_m, point.north_m)).collect(),
            clear: axis
                .points
                .iter()
                .map(|point| clear_at(point.chainage))
                .map(|c| if c.is_finite() { c } else { beside })
                .collect(),
            profile: Profile::of(axis, ground.step.in_metres(), window),
            height_error: ground.error.in_metres().max(0.0),
            window: window.max(f64::MIN_POSITIVE),
        })
    }

    /// Whether any heights are known.
    pub fn has_heights(&self) -> bool {
        self.profile.is_some()
    }

    /// How far a driver at a chainage sees ahead.
    pub fn ahead(&self, eye: Length, travel: Travel, look: &Look) -> Sight {
        self.look_along(eye, if travel == Travel::Forward { 1.0 } else { -1.0 }, look, true)
    }

    /// From how far what stands at a chainage is seen, without a break, by the traffic that comes to it.
    pub fn seen(&self, object: Length, travel: Travel, look: &Look) -> Sight {
        self.look_along(object, if travel == Travel::Forward { -1.0 } else { 1.0 }, look, false)
    }

    /// Looks from a fixed end outward: `eye_fixed` says which end it is.
    fn look_along(&self, fixed: Length, sign: f64, look: &Look, eye_fixed: bool) -> Sight {
        let (fixed, most, step) = (fixed.in_metres(), look.most.in_metres(), look.step.in_metres());
        let room = if sign > 0.0 { self.last() - fixed } else { fixed - self.first() };
        let usable = fixed.is_finite() && room > 0.0 && step > 0.0 && most > 0.0;
        // Pessimistic, as it stands, optimistic.
        let mut reached = [0.0; 3];
        let mut open = [usable; 3];
        let mut ends_by = if usable { SightEnd::AsFarAsLooked } else { SightEnd::RoadEnds };
        let mut profile_known = self.profile.is_some();
        let mut distance = 0.0;
        while open.contains(&true) && distance < most {
            distance = (distance + step).min(most);
            let beyond = distance > room;
            let moving = fixed + sign * distance;
            let (eye, object) = if eye_fixed { (fixed, moving) } else { (moving, fixed) };
            let bend = !beyond && self.hidden_by_bend(eye, object, look);
            let over = if beyond { Some([false; 3]) } else { self.hidden_by_crest(eye, object, look) };
            profile_known &= over.is_some();
            for (index, crest) in over.unwrap_or([false; 3]).into_iter().enumerate() {
                if !open[index] {
                    continue;
                }
                if beyond || bend || crest {
                    open[index] = false;
                    if index == 1 {
                        ends_by = match (beyond, bend) {
                            (true, _) => SightEnd::RoadEnds,
                            (_, true) => SightEnd::Bend,
                            _ => SightEnd::Crest,
                        };
                    }
                    if beyond {
                        reached[index] = room;
                    }
                } else {
                    reached[index] = distance;
                }
            }
        }
        let why = Why::new(
            "the greatest distance at which the line of sight stays in the clear strip and above the profile",
            look.source.clone(),
        )
        .with("eye", format!("{:.2} m high", look.eye_height.in_metres()))
        .with("object", format!("{:.2} m high", look.object_height.in_metres()))
        .with("step", format!("{step} m"))
        .with("ends by", ends_by.words())
        .with("heights", if profile_known { "known" } else { "not known: crests not looked at" });
        let [p10, p50, p90] = reached.map(metres);
        let distance = if self.profile.is_some() {
            Figure::spread(p50, Spread { p10, p50, p90 }, why)
        } else {
            Figure::exact(p50, why)
        };
        Sight { distance, ends_by, profile_known }
    }

    /// Whether some point of the road between lies further from the line of sight than the road is clear there. Where none
    /// does, the whole line lies in the clear strip, since the feet of the road's points cover it from end to end.
    fn hidden_by_bend(&self, eye: f64, object: f64, look: &Look) -> bool {
        let (from, to) =
            (self.beside(eye, look.eye_across.in_metres()), self.beside(object, look.object_across.in_metres()));
        let (low, high) = (eye.min(object), eye.max(object));
        let first = self.chainages.partition_point(|chainage| *chainage <= low);
        (first..self.chainages.len())
            .take_while(|&index| self.chainages[index] < high)
            .any(|index| from_segment(self.points[index], from, to) > self.clear[index])
    }

    /// Whether the profile between rises above the line of sight: if it is higher by the heights' error, as it stands, and
    /// if it is lower. `None` where heights are not known all the way.
    fn hidden_by_crest(&self, eye: f64, object: f64, look: &Look) -> Option<[bool; 3]> {
        let profile = self.profile.as_ref()?;
        let eye_level = profile.at(eye)? + look.eye_height.in_metres();
        let object_level = profile.at(object)? + look.object_height.in_metres();
        let mut hidden = [false; 3];
        for (chainage, ground) in profile.between(eye.min(object), eye.max(object)) {
            let ground = ground?;
            let share = (chainage - eye) / (object - eye);
            let line = eye_level + share * (object_level - eye_level);
            // Heights near each other err alike: what counts is the difference to the nearer end.
            let nearer = (chainage - eye).abs().min((object - chainage).abs());
            let error = self.height_error * (nearer / self.window).min(1.0);
            for (index, error) in [error, 0.0, -error].into_iter().enumerate() {
                hidden[index] |= ground + error > line;
            }
        }
        Some(hidden)
    }

    /// The place at a chainage, so far to the right of the road.
    fn beside(&self, chainage: f64, across: f64) -> (f64, f64) {
        let after = self.chainages.partition_point(|c| *c <= chainage);
        let index = after.saturating_sub(1).min(self.chainages.len() - 2);
        let (a, b) = (self.points[index], self.points[index + 1]);
        let length = self.chainages[index + 1] - self.chainages[index];
        let along = ((b.0 - a.0) / length, (b.1 - a.1) / length);
        let way = chainage - self.chainages[index];
        // East, north: right of (e, n) is (n, -e).
        (a.0 + way * along.0 + across * along.1, a.1 + way * along.1 - across * along.0)
    }

    fn first(&self) -> f64 {
        self.chainages[0]
    }

    fn last(&self) -> f64 {
        self.chainages[self.chainages.len() - 1]
    }
}

impl SightEnd {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            SightEnd::AsFarAsLooked => "nothing, as far as was looked",
            SightEnd::Bend => "a bend",
            SightEnd::Crest => "a crest",
            SightEnd::RoadEnds => "the end of the known road",
        }
    }
}

/// Distance of a point from a segment.
fn from_segment(point: (f64, f64), from: (f64, f64), to: (f64, f64)) -> f64 {
    let (along, off) = ((to.0 - from.0, to.1 - from.1), (point.0 - from.0, point.1 - from.1));
    let length2 = along.0 * along.0 + along.1 * along.1;
    let share = if length2 > 0.0 { ((off.0 * along.0 + off.1 * along.1) / length2).clamp(0.0, 1.0) } else { 0.0 };
    (off.0 - share * along.0).hypot(off.1 - share * along.1)
}
