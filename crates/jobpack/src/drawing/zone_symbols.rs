//! The symbols of a zone plan and their key.

use model::work_zone::DeviceKind;

use crate::svg::{Drawing, Type, stroke, text_width, weight};

const SMALL: f64 = 2.55;

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
            drawing.rect((x - 3.2, y - 2.3), (6.4, 4.6), &outline);
        }
        DeviceKind::FlaggerStation => {
            drawing.circle(at, 3.1, &outline);
            drawing.circle(at, 2.5, &stroke(weight::FINE));
        }
        DeviceKind::ShieldVehicle => {
            drawing.rect((x - 3.4, y - 2.3), (6.8, 4.6), &outline);
            drawing.rect((x - 2.8, y - 1.7), (5.6, 3.4), &stroke(weight::FINE));
        }
    }
    drawing.text((x, y + 1.05), number, Type::plain(2.9).bold().middle());
}

/// The key below a drawing; `base` is the base line, `right` its end.
pub fn legend(drawing: &mut Drawing, base: f64, right: f64) {
    let y = base;
    let words = Type::plain(SMALL);
    let mut x = 2.0;
    let mut entry = |drawing: &mut Drawing, text: &str, draw: &dyn Fn(&mut Drawing, f64), lead: f64| {
        draw(drawing, x);
        drawing.text((x + lead, y), text, words);
        x += lead + text_width(text, SMALL) + 4.0;
    };
    let outline = format!("fill=\"#fff\" {}", stroke(weight::LINE));
    entry(drawing, "sign", &|d, x| d.rect((x, y - 2.3), (3.6, 2.6), &outline), 4.6);
    entry(
        drawing,
        "flagger",
        &|d, x| {
            d.circle((x + 1.5, y - 1.0), 1.5, &outline);
            d.circle((x + 1.5, y - 1.0), 1.05, &stroke(weight::FINE));
        },
        4.0,
    );
    entry(drawing, "shield vehicle", &|d, x| vehicle_symbol(d, (x + 3.4, y - 1.0)), 7.6);
    entry(drawing, "cone", &|d, x| cone_symbol(d, (x + 1.0, y - 0.9)), 2.8);
    entry(drawing, "cut", &|d, x| d.rect((x, y - 1.9), (1.9, 1.9), "fill=\"#000\""), 2.9);
    entry(
        drawing,
        "closed beside the work",
        &|d, x| {
            let corners = [(x, y - 2.2), (x + 4.4, y - 2.2), (x + 4.4, y + 0.3), (x, y + 0.3)];
            d.hatch(&corners, 1.2, &stroke(0.14));
            d.path(&corners, true, &stroke(weight::FINE));
        },
        5.4,
    );
    entry(
        drawing,
        "length not drawn in full",
        &|d, x| {
            for shift in [0.6, 2.0] {
                d.line((x + shift - 0.4, y + 0.3), (x + shift + 0.4, y - 2.3), &stroke(weight::LINE));
            }
        },
        3.6,
    );
    drawing.text((right, y), "not to scale", words.end());
}
