//! The symbols of a zone plan and their key.

use model::work_zone::DeviceKind;

use super::scale::Truth;
use super::{SMALL, Sheet, WIDTH, labels};
use crate::drawing::frame::scale_bar;
use crate::svg::{Area, Drawing, Type, stroke, weight};

/// Width and height of a numbered symbol.
pub const SYMBOL: (f64, f64) = (6.8, 5.6);
/// From entry to entry of the key, and from line to line.
const ENTRY_GAP: f64 = 3.6;
const KEY_LINE: f64 = 4.6;

/// A cone, seen from the side.
pub fn cone_symbol(drawing: &mut Drawing, at: (f64, f64)) {
    let (x, y) = at;
    drawing.path(&[(x - 0.75, y + 0.7), (x, y - 0.95), (x + 0.75, y + 0.7)], true, "fill=\"#000\"");
}

/// A vehicle, seen from above.
pub fn vehicle_symbol(drawing: &mut Drawing, at: (f64, f64)) {
    let (x, y) = at;
    drawing.rect((x - 3.2, y - 1.5), (6.4, 3.0), &format!("fill=\"#fff\" {}", stroke(weight::LINE)));
    drawing.line((x + 1.4, y - 1.5), (x + 1.4, y + 1.5), &stroke(weight::FINE));
    drawing.circle((x - 2.0, y), 0.6, "fill=\"#000\"");
}

/// A numbered station of a sign, a flagger or a vehicle.
pub fn station_symbol(drawing: &mut Drawing, kind: DeviceKind, at: (f64, f64), number: &str) {
    let (x, y) = at;
    let outline = format!("fill=\"#fff\" {}", stroke(weight::LINE));
    match kind {
        DeviceKind::Sign | DeviceKind::Cone => {
            drawing.rect((x - 3.2, y - 2.4), (6.4, 4.8), &outline);
        }
        DeviceKind::FlaggerStation => {
            drawing.circle(at, 2.8, &outline);
            drawing.circle(at, 2.3, &stroke(weight::FINE));
        }
        DeviceKind::ShieldVehicle => {
            drawing.rect((x - 3.4, y - 2.4), (6.8, 4.8), &outline);
            drawing.rect((x - 2.8, y - 1.8), (5.6, 3.6), &stroke(weight::FINE));
        }
    }
    drawing.text((x, y + 1.05), number, Type::plain(2.9).bold().middle());
    let (w, h) = (SYMBOL.0 / 2.0, SYMBOL.1 / 2.0);
    drawing.take(Area { x: (x - w, x + w), y: (y - h, y + h) });
}

/// On a symbol: it does not stand where the rule alone would put it.
pub fn moved_mark(drawing: &mut Drawing, symbol: (f64, f64)) {
    let (x, y) = (symbol.0 - 3.2, symbol.1 - 2.4);
    drawing.path(&[(x, y), (x + 2.2, y), (x, y + 2.2)], true, "fill=\"#000\"");
}

/// Draws an entry's symbol with its left end and middle height at a point.
type Mark = fn(&mut Drawing, (f64, f64));

impl Sheet<'_> {
    /// The key to what is drawn, and how far it is to scale; gives where it ends down the paper.
    pub fn key(&self, drawing: &mut Drawing, from: f64) -> f64 {
        let (mut x, mut y) = (2.0, from + 3.0);
        for (words, mark, lead) in self.entries() {
            let words = self.units.words.say(words);
            let width = lead + SMALL.width(&words);
            if x + width > WIDTH - 2.0 {
                x = 2.0;
                y += KEY_LINE;
            }
            mark(drawing, (x, y));
            drawing.text((x + lead, y + 1.05), &words, SMALL);
            x += width + ENTRY_GAP;
        }
        self.scale_words(drawing, (x, y))
    }

    fn entries(&self) -> Vec<(&'static str, Mark, f64)> {
        let has = |kind: DeviceKind| self.zone.devices.iter().any(|d| d.kind == kind);
        let mut entries: Vec<(&'static str, Mark, f64)> = Vec::new();
        if has(DeviceKind::Sign) {
            entries.push(("drawing-sign", |d, (x, y)| d.rect((x, y - 1.4), (3.8, 2.8), &outline()), 4.8));
        }
        if has(DeviceKind::FlaggerStation) {
            let mark: Mark = |d, (x, y)| {
                d.circle((x + 1.6, y), 1.6, &outline());
                d.circle((x + 1.6, y), 1.15, &stroke(weight::FINE));
            };
            entries.push(("drawing-flagger", mark, 4.2));
        }
        if has(DeviceKind::ShieldVehicle) {
            entries.push(("drawing-shield-vehicle", |d, (x, y)| vehicle_symbol(d, (x + 3.2, y)), 7.4));
        }
        if has(DeviceKind::Cone) {
            entries.push(("drawing-cone", |d, (x, y)| cone_symbol(d, (x + 0.8, y)), 2.6));
        }
        if labels::moved(self.zone) {
            let mark: Mark = |d, (x, y)| {
                d.rect((x, y - 1.4), (3.8, 2.8), &outline());
                d.path(&[(x, y - 1.4), (x + 1.7, y - 1.4), (x, y + 0.3)], true, "fill=\"#000\"");
            };
            entries.push(("drawing-moved", mark, 4.8));
        }
        if !self.picture.cuts.is_empty() {
            entries.push(("drawing-cut", |d, (x, y)| d.rect((x, y - 0.95), (1.9, 1.9), "fill=\"#000\""), 2.9));
        }
        let closed: Mark = |d, (x, y)| {
            let corners = [(x, y - 1.3), (x + 4.6, y - 1.3), (x + 4.6, y + 1.3), (x, y + 1.3)];
            d.hatch(&corners, 1.2, &stroke(0.14));
            d.path(&corners, true, &stroke(weight::FINE));
        };
        entries.push(("drawing-closed", closed, 5.6));
        if !self.broken().is_empty() {
            let mark: Mark = |d, (x, y)| {
                for shift in [0.6, 2.0] {
                    d.line((x + shift - 0.4, y + 1.3), (x + shift + 0.4, y - 1.3), &stroke(weight::LINE));
                }
            };
            entries.push(("drawing-broken-length", mark, 3.6));
        }
        entries
    }

    /// What the scale holds for, after the key's last entry or below it.
    fn scale_words(&self, drawing: &mut Drawing, (x, y): (f64, f64)) -> f64 {
        let (words, bar) = match self.scale.truth() {
            Truth::Whole(scale) => ("drawing-scale-whole", Some(scale)),
            Truth::Core(scale) => ("drawing-scale-core", Some(scale)),
            Truth::None => ("drawing-scale-none", None),
        };
        let words = self.units.words.say(words);
        let width = SMALL.width(&words);
        let y = if x + width > WIDTH - 2.0 { y + KEY_LINE } else { y };
        drawing.text((WIDTH - 2.0, y + 1.05), &words, SMALL.end());
        let Some(scale) = bar else { return y + 2.0 };
        scale_bar(drawing, self.units, scale, (2.5, y + 5.6));
        y + 7.2
    }
}

fn outline() -> String {
    format!("fill=\"#fff\" {}", stroke(weight::LINE))
}
