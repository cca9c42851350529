//! Where the road leads to, where north is, and the drawing in words.

use model::place::Travel;
use model::work_zone::DeviceKind;

use super::{SMALL, Sheet, WIDTH, ZonePicture};
use crate::display::Units;
use crate::printable::printable;
use crate::svg::{Area, Drawing, Type, clip, stroke, weight};

/// Height of the line at the top.
const HEADER: f64 = 7.8;
/// Room for the name of each end.
const END_ROOM: f64 = 74.0;

/// Height of the header; nothing where it has nothing to say.
pub fn header_height(picture: &ZonePicture) -> f64 {
    if picture.ends.is_some() || north(picture).is_some() { HEADER } else { 1.0 }
}

/// Which way north is on paper (right, down), if it is known.
fn north(picture: &ZonePicture) -> Option<(f64, f64)> {
    let azimuth = picture.azimuth_deg.filter(|a| a.is_finite())?;
    let azimuth = if picture.zone.travel == Travel::Backward { azimuth + 180.0 } else { azimuth };
    // To the right of the paper is where the worked lane's traffic goes.
    let (sin, cos) = azimuth.to_radians().sin_cos();
    Some((cos, -sin))
}

impl Sheet<'_> {
    /// The ends of the road and the north arrow.
    pub fn header(&self, drawing: &mut Drawing) {
        if let Some((from, to)) = self.picture.ends {
            let (left, right) = if self.sign > 0.0 { (from, to) } else { (to, from) };
            let y = 4.6;
            for (words, x, out) in [(left, 2.0, -1.0), (right, WIDTH - 2.0, 1.0)] {
                if words.is_empty() {
                    continue;
                }
                drawing.line((x - out * 4.4, y - 1.0), (x - out * 1.5, y - 1.0), &stroke(weight::LINE));
                drawing.arrow_head((x, y - 1.0), (out, 0.0), 2.2);
                let to = self.units.words.say_with("drawing-to-place", [("place", printable(words).as_ref().into())]);
                let words = clip(&to, SMALL.size, END_ROOM);
                drawing.text((x - out * 5.4, y), &words, if out < 0.0 { SMALL } else { SMALL.end() });
            }
        }
        if let Some((right, down)) = north(self.picture) {
            let centre = (WIDTH / 2.0 - 2.0, 4.0);
            let tip = (centre.0 + right * 3.4, centre.1 + down * 3.4);
            let side = (-down, right);
            let tail = |part: f64| (centre.0 - right * 2.6 + side.0 * part, centre.1 - down * 2.6 + side.1 * part);
            let notch = (centre.0 - right * 1.4, centre.1 - down * 1.4);
            drawing.path(&[tip, tail(1.5), notch, tail(-1.5)], true, "fill=\"#000\"");
            drawing.take(Area { x: (centre.0 - 3.5, centre.0 + 3.5), y: (centre.1 - 3.5, centre.1 + 3.5) });
            drawing.text(
                (centre.0 + 4.4, centre.1 + 1.1),
                &self.units.words.say("drawing-north"),
                Type::plain(3.1).bold(),
            );
        }
    }
}

/// The drawing for those who hear it.
pub fn description(picture: &ZonePicture) -> String {
    let zone = picture.zone;
    let units = Units::new(picture.units, picture.words);
    let devices: Vec<String> = [
        (DeviceKind::Sign, "drawing-signs-counted"),
        (DeviceKind::Cone, "sheet-cones-counted"),
        (DeviceKind::FlaggerStation, "drawing-flaggers-counted"),
        (DeviceKind::ShieldVehicle, "drawing-shield-vehicles-counted"),
    ]
    .into_iter()
    .map(|(kind, message)| (zone.devices.iter().filter(|d| d.kind == kind).count(), message))
    .filter(|(count, _)| *count > 0)
    .map(|(count, message)| units.counted(message, count))
    .collect();
    let devices = if devices.is_empty() { units.words.say("drawing-no-devices") } else { units.list(&devices) };
    let layout = units.rule_text(&zone.layout_name);
    units.words.say_with(
        "drawing-description",
        [
            ("layout", printable(layout.trim_end_matches('.')).as_ref().into()),
            ("devices", devices.into()),
            ("length", units.along((zone.work_to - zone.work_from).abs()).into()),
            ("width", units.width(zone.open_width.value).into()),
        ],
    )
}
