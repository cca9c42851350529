//! The broken scale along a work zone: true order, squeezed distances, room for every label.

/// A wish that two places stand at least so far apart on paper.
#[derive(Debug, Clone, Copy)]
pub struct Apart {
    /// Metres along, the smaller.
    pub from: f64,
    /// Metres along, the larger.
    pub to: f64,
    /// Millimetres on paper.
    pub paper: f64,
    /// Whether a true scale may come short of it: a label can stand aside.
    pub soft: bool,
}

/// Maps metres along the road to millimetres on paper, piece by piece.
#[derive(Debug, Clone)]
pub struct BrokenScale {
    /// Ascending metres with their place on paper, and whether the piece that starts here is broken.
    knots: Vec<(f64, f64, bool)>,
    truth: Truth,
    /// The largest scale of any piece, millimetres for a metre.
    largest: f64,
}

/// No piece without a break is longer than this on paper.
const PIECE_MAX: f64 = 24.0;
/// Shorter pieces are never marked as broken, metres.
const BREAK_FROM: f64 = 40.0;
/// A piece drawn smaller than this part of the largest scale in the drawing is marked as broken.
const SQUEEZED: f64 = 0.5;
/// Pieces shorter than this, metres, say nothing about the scale.
const SHORT_PIECE: f64 = 5.0;
/// A piece drawn smaller than this part of the core's scale is marked as broken.
const NEARLY: f64 = 0.98;
/// No piece outside a core to scale is longer than this on paper, but for its wishes.
const OUTSIDE_MAX: f64 = 12.0;
/// So much of a soft wish is enough for a drawing all to scale.
const SOFT: f64 = 0.5;
/// No larger scale is drawn, millimetres for a metre.
const SCALE_MAX: f64 = 10.0;
/// Places closer than this are one.
const SAME_PLACE: f64 = 0.05;

/// How far the drawing along the road is to scale.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Truth {
    /// Everywhere, millimetres for a metre.
    Whole(f64),
    /// Between the first cone and the last.
    Core(f64),
    /// Nowhere.
    None,
}

impl BrokenScale {
    /// Lays the places out between two margins on paper: all to scale where every wish can be met so, else the core to scale
    /// and what is before and after it squeezed, else each piece by its own.
    pub fn new(mut places: Vec<f64>, wishes: &[Apart], core: (f64, f64), left: f64, right: f64) -> Self {
        places.retain(|p| p.is_finite());
        places.extend(wishes.iter().flat_map(|w| [w.from, w.to]).filter(|p| p.is_finite()));
        places.sort_by(f64::total_cmp);
        places.dedup_by(|a, b| (*a - *b).abs() < SAME_PLACE);
        if places.is_empty() {
            places.push(0.0);
        }
        let gaps: Vec<f64> = places.windows(2).map(|w| w[1] - w[0]).collect();
        let room = right - left;
        let (widths, truth) = whole(&places, &gaps, wishes, room)
            .or_else(|| core_true(&places, &gaps, wishes, core, room))
            .unwrap_or_else(|| (by_its_own(&places, &gaps, wishes, room), Truth::None));
        let largest =
            widths.iter().zip(&gaps).filter(|(_, g)| **g >= SHORT_PIECE).map(|(w, g)| w / g).fold(0.0, f64::max);
        let squeezed = |index: usize| {
            let scale = widths[index] / gaps[index];
            match truth {
                Truth::Whole(_) => false,
                Truth::Core(core) => scale < core * NEARLY,
                Truth::None => gaps[index] > BREAK_FROM && scale < largest * SQUEEZED,
            }
        };
        let mut x = if widths.is_empty() { f64::midpoint(left, right) } else { left };
        let mut knots = Vec::with_capacity(places.len());
        for (index, place) in places.iter().enumerate() {
            knots.push((*place, x, index < gaps.len() && squeezed(index)));
            x += widths.get(index).copied().unwrap_or(0.0);
        }
        BrokenScale { knots, truth, largest }
    }

    /// How far it is to scale.
    pub fn truth(&self) -> Truth {
        self.truth
    }

    /// Where a place is on paper.
    pub fn x(&self, metres: f64) -> f64 {
        let knots = &self.knots;
        let index = knots.partition_point(|k| k.0 <= metres);
        if index == 0 {
            return knots[0].1;
        }
        let Some(next) = knots.get(index) else { return knots[index - 1].1 };
        let here = knots[index - 1];
        here.1 + (metres - here.0) / (next.0 - here.0) * (next.1 - here.1)
    }

    /// Middles of the broken pieces on paper, and of those of `stretches` (metres) that are squeezed on the whole, though each
    /// of their pieces is too short to be marked.
    pub fn breaks(&self, stretches: &[(f64, f64)]) -> Vec<f64> {
        let pieces = self.knots.windows(2).filter(|w| w[0].2).map(|w| f64::midpoint(w[0].1, w[1].1));
        let mut breaks: Vec<f64> = pieces.collect();
        for &(from, to) in stretches {
            let (left, right) = (self.x(from), self.x(to));
            let squeezed = to - from > BREAK_FROM && (right - left) / (to - from) < self.largest * SQUEEZED;
            if self.truth == Truth::None && squeezed && !breaks.iter().any(|x| (left..=right).contains(x)) {
                breaks.push(f64::midpoint(left, right));
            }
        }
        breaks
    }
}

/// Widths all to one scale; `None` where a wish can't be met so.
fn whole(places: &[f64], gaps: &[f64], wishes: &[Apart], room: f64) -> Option<(Vec<f64>, Truth)> {
    let total: f64 = gaps.iter().sum();
    let scale = room / total;
    let met = |wish: &Apart| {
        let width = span(places, wish, gaps.len()).map(|index| gaps[index]).sum::<f64>() * scale;
        width >= wish.paper * if wish.soft { SOFT } else { 1.0 }
    };
    let usable = total > 0.0 && scale <= SCALE_MAX && wishes.iter().all(met);
    usable.then(|| (gaps.iter().map(|gap| gap * scale).collect(), Truth::Whole(scale)))
}

/// Widths with the core to one scale; `None` where a wish inside it can't be met so.
fn core_true(places: &[f64], gaps: &[f64], wishes: &[Apart], core: (f64, f64), room: f64) -> Option<(Vec<f64>, Truth)> {
    let inside: Vec<bool> =
        places.windows(2).map(|w| w[0] >= core.0 - SAME_PLACE && w[1] <= core.1 + SAME_PLACE).collect();
    if !(inside.contains(&true) && inside.contains(&false)) {
        return None;
    }
    let widths_at = |scale: f64| -> Vec<f64> {
        let width = |(gap, inside): (&f64, &bool)| if *inside { gap * scale } else { (gap * scale).min(OUTSIDE_MAX) };
        let mut widths: Vec<f64> = gaps.iter().zip(&inside).map(width).collect();
        meet(&mut widths, places, gaps, wishes, |index| !inside[index]);
        widths
    };
    let scale = largest_scale(room, &|scale| widths_at(scale).iter().sum());
    let mut widths = widths_at(scale);
    let met = |wish: &Apart| {
        let mut span = span(places, wish, gaps.len());
        let width: f64 = span.clone().map(|index| widths[index]).sum();
        // What lies partly outside has been met out there.
        wish.soft || width >= wish.paper - 1e-6 || span.any(|index| !inside[index])
    };
    let total: f64 = widths.iter().sum();
    if total > room + 1e-6 || !wishes.iter().all(met) {
        return None;
    }
    // What is left over goes to the pieces outside, never to the core.
    let outside: f64 = widths.iter().zip(&inside).filter(|(_, inside)| !**inside).map(|(w, _)| w).sum();
    for (width, _) in widths.iter_mut().zip(&inside).filter(|(_, inside)| !**inside) {
        *width *= 1.0 + (room - total) / outside;
    }
    Some((widths, Truth::Core(scale)))
}

/// Widths with a scale for each piece, filling the room.
fn by_its_own(places: &[f64], gaps: &[f64], wishes: &[Apart], room: f64) -> Vec<f64> {
    let widths_at = |scale: f64| -> Vec<f64> {
        let mut widths: Vec<f64> = gaps.iter().map(|g| (g * scale).min(PIECE_MAX)).collect();
        meet(&mut widths, places, gaps, wishes, |_| true);
        widths
    };
    let mut widths = widths_at(largest_scale(room, &|scale| widths_at(scale).iter().sum()));
    let total: f64 = widths.iter().sum();
    if total > 0.0 {
        for width in &mut widths {
            *width *= room / total;
        }
    }
    widths
}

/// The largest scale, millimetres for a metre, that the room holds; the total width grows with it.
fn largest_scale(room: f64, total: &dyn Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = (1e-4, SCALE_MAX);
    for _ in 0..50 {
        let middle = f64::midpoint(low, high);
        if total(middle) > room { high = middle } else { low = middle }
    }
    low
}

/// Pieces that a wish spans.
fn span(places: &[f64], wish: &Apart, pieces: usize) -> std::ops::Range<usize> {
    let first = places.partition_point(|p| *p < wish.from - SAME_PLACE);
    let last = places.partition_point(|p| *p < wish.to - SAME_PLACE).min(pieces);
    first..last.max(first)
}

/// Widens the pieces that may be, so that the wishes come true.
fn meet(widths: &mut [f64], places: &[f64], gaps: &[f64], wishes: &[Apart], may: impl Fn(usize) -> bool) {
    for wish in wishes {
        let span = span(places, wish, widths.len());
        let now: f64 = widths[span.clone()].iter().sum();
        let elastic: f64 = span.clone().filter(|i| may(*i)).map(|i| gaps[i]).sum();
        if now >= wish.paper || elastic <= 0.0 {
            continue;
        }
        // What is missing is shared in proportion to the true distances.
        for index in span.filter(|i| may(*i)) {
            widths[index] += (wish.paper - now) * gaps[index] / elastic;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn apart(from: f64, to: f64, paper: f64) -> Apart {
        Apart { from, to, paper, soft: false }
    }

    #[test]
    fn order_is_kept_and_the_paper_filled() {
        let places = vec![0.0, 150.0, 300.0, 450.0, 465.0, 480.0, 520.0, 535.0];
        let wishes = [apart(480.0, 520.0, 15.0)];
        for core in [(450.0, 535.0), (480.0, 520.0), (900.0, 950.0)] {
            let scale = BrokenScale::new(places.clone(), &wishes, core, 10.0, 170.0);
            assert!((scale.x(0.0) - 10.0).abs() < 1e-6 && (scale.x(535.0) - 170.0).abs() < 1e-6, "{scale:?}");
            for pair in places.windows(2) {
                assert!(scale.x(pair[0]) < scale.x(pair[1]), "{pair:?}");
            }
            assert!(scale.x(520.0) - scale.x(480.0) >= 14.9);
        }
    }

    /// By hand: 200 m on 160 mm are 0.8 mm for a metre, and nothing is broken.
    #[test]
    fn what_has_room_is_to_scale() {
        let places = vec![0.0, 50.0, 100.0, 120.0, 200.0];
        let scale = BrokenScale::new(places, &[apart(100.0, 120.0, 16.0)], (100.0, 120.0), 10.0, 170.0);
        assert_eq!(scale.truth(), Truth::Whole(0.8));
        assert!((scale.x(120.0) - (10.0 + 96.0)).abs() < 1e-9);
        assert!(scale.breaks(&[]).is_empty());
    }

    /// A thousand metres of signs before forty of cones: the signs are squeezed, the cones are to scale.
    #[test]
    fn the_core_stays_true_where_the_rest_can_not() {
        let places = vec![-1000.0, -500.0, 0.0, 10.0, 30.0, 40.0, 540.0];
        let wishes = [apart(-1000.0, -500.0, 20.0), apart(-500.0, 0.0, 20.0), apart(10.0, 30.0, 15.0)];
        let scale = BrokenScale::new(places, &wishes, (0.0, 40.0), 10.0, 170.0);
        let Truth::Core(millimetres) = scale.truth() else { panic!("{scale:?}") };
        for (from, to) in [(0.0, 10.0), (10.0, 30.0), (30.0, 40.0)] {
            assert!((scale.x(to) - scale.x(from) - (to - from) * millimetres).abs() < 1e-6, "{from} to {to}");
        }
        assert_eq!(scale.breaks(&[]).len(), 3);
        assert!(scale.x(-500.0) - scale.x(-1000.0) >= 20.0 - 1e-9);
    }

    /// Three metres of work between tapers of two hundred: to scale it could not be seen.
    #[test]
    fn a_short_work_space_between_long_tapers_breaks_the_scale() {
        let places = vec![-1000.0, -200.0, 0.0, 3.0, 203.0, 900.0];
        let scale = BrokenScale::new(places, &[apart(0.0, 3.0, 9.0)], (-200.0, 203.0), 10.0, 170.0);
        assert_eq!(scale.truth(), Truth::None);
        assert!(scale.x(3.0) - scale.x(0.0) >= 8.5);
        assert!(!scale.breaks(&[]).is_empty());
    }

    /// By hand: cones every 10 m over 200 m get 9 mm, a sign 30 m off 20 mm.
    #[test]
    fn many_short_pieces_may_be_squeezed_together() {
        let mut places: Vec<f64> = (0..=20).map(|k| f64::from(k) * 10.0).collect();
        places.extend([-30.0, 203.0, 230.0, 260.0]);
        let signs = [(-30.0, 0.0), (200.0, 230.0), (230.0, 260.0)];
        let mut wishes: Vec<Apart> = signs.iter().map(|(from, to)| apart(*from, *to, 45.0)).collect();
        wishes.push(apart(200.0, 203.0, 9.0));
        let scale = BrokenScale::new(places, &wishes, (0.0, 203.0), 10.0, 170.0);
        assert_eq!(scale.truth(), Truth::None);
        assert!(scale.breaks(&[]).is_empty());
        let middle = f64::midpoint(scale.x(0.0), scale.x(200.0));
        assert_eq!(scale.breaks(&[(0.0, 200.0), (200.0, 203.0)]), [middle]);
    }

    #[test]
    fn one_place_stands_in_the_middle() {
        let scale = BrokenScale::new(vec![5.0, f64::NAN], &[], (5.0, 5.0), 0.0, 100.0);
        assert!((scale.x(5.0) - 50.0).abs() < 1e-9);
    }
}
