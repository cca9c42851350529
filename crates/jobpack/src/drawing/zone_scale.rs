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
}

/// Maps metres along the road to millimetres on paper, piece by piece.
#[derive(Debug, Clone)]
pub struct BrokenScale {
    /// Ascending metres with their place on paper, and whether the piece that starts here is broken.
    knots: Vec<(f64, f64, bool)>,
}

/// No piece without a break is longer than this on paper.
const PIECE_MAX: f64 = 24.0;
/// Shorter pieces are never marked as broken, metres.
const BREAK_FROM: f64 = 40.0;
/// A piece drawn smaller than this part of the largest scale in the drawing is marked as broken.
const SQUEEZED: f64 = 0.5;
/// Pieces shorter than this, metres, say nothing about the scale.
const SHORT_PIECE: f64 = 5.0;
/// Places closer than this are one.
const SAME_PLACE: f64 = 0.05;

impl BrokenScale {
    /// Lays the places out between two margins on paper.
    pub fn new(mut places: Vec<f64>, wishes: &[Apart], left: f64, right: f64) -> Self {
        places.retain(|p| p.is_finite());
        places.extend(wishes.iter().flat_map(|w| [w.from, w.to]).filter(|p| p.is_finite()));
        places.sort_by(f64::total_cmp);
        places.dedup_by(|a, b| (*a - *b).abs() < SAME_PLACE);
        if places.is_empty() {
            places.push(0.0);
        }
        let gaps: Vec<f64> = places.windows(2).map(|w| w[1] - w[0]).collect();
        let widths_at = |scale: f64| widths(&places, &gaps, wishes, scale);
        let room = right - left;
        // Total width grows with the scale: bisect for the one that fills the paper.
        let (mut low, mut high) = (1e-4, 10.0);
        for _ in 0..50 {
            let middle = f64::midpoint(low, high);
            if widths_at(middle).iter().sum::<f64>() > room { high = middle } else { low = middle }
        }
        let widths = widths_at(low);
        let largest =
            widths.iter().zip(&gaps).filter(|(_, g)| **g >= SHORT_PIECE).map(|(w, g)| w / g).fold(0.0, f64::max);
        let total: f64 = widths.iter().sum();
        let stretch = if total > 0.0 { room / total } else { 1.0 };
        let mut x = if widths.is_empty() { f64::midpoint(left, right) } else { left };
        let mut knots = Vec::with_capacity(places.len());
        for (index, place) in places.iter().enumerate() {
            let broken = gaps.get(index).is_some_and(|g| *g > BREAK_FROM && widths[index] / g < largest * SQUEEZED);
            knots.push((*place, x, broken));
            x += widths.get(index).copied().unwrap_or(0.0) * stretch;
        }
        BrokenScale { knots }
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

    /// Middles of the broken pieces on paper.
    pub fn breaks(&self) -> Vec<f64> {
        self.knots.windows(2).filter(|w| w[0].2).map(|w| f64::midpoint(w[0].1, w[1].1)).collect()
    }
}

fn widths(places: &[f64], gaps: &[f64], wishes: &[Apart], scale: f64) -> Vec<f64> {
    let mut widths: Vec<f64> = gaps.iter().map(|g| (g * scale).min(PIECE_MAX)).collect();
    for wish in wishes {
        let first = places.partition_point(|p| *p < wish.from - SAME_PLACE);
        let last = places.partition_point(|p| *p < wish.to - SAME_PLACE).min(widths.len());
        if first >= last {
            continue;
        }
        let now: f64 = widths[first..last].iter().sum();
        if now >= wish.paper {
            continue;
        }
        // What is missing is shared in proportion to the true distances.
        let span: f64 = gaps[first..last].iter().sum();
        for index in first..last {
            widths[index] += (wish.paper - now) * gaps[index] / span;
        }
    }
    widths
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn order_is_kept_and_the_paper_filled() {
        let places = vec![0.0, 150.0, 300.0, 450.0, 465.0, 480.0, 520.0, 535.0];
        let wishes = [Apart { from: 480.0, to: 520.0, paper: 15.0 }];
        let scale = BrokenScale::new(places.clone(), &wishes, 10.0, 170.0);
        assert!((scale.x(0.0) - 10.0).abs() < 1e-9 && (scale.x(535.0) - 170.0).abs() < 1e-9);
        for pair in places.windows(2) {
            assert!(scale.x(pair[0]) < scale.x(pair[1]), "{pair:?}");
        }
        assert!(scale.x(520.0) - scale.x(480.0) >= 14.9);
    }

    #[test]
    fn one_place_stands_in_the_middle() {
        let scale = BrokenScale::new(vec![5.0, f64::NAN], &[], 0.0, 100.0);
        assert!((scale.x(5.0) - 50.0).abs() < 1e-9);
    }
}
