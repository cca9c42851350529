//! The load as a table: one row for each trip and container.

use model::plan::Plan;
use model::quantity::{InMass, InVolume};

/// Writes the loads as CSV (RFC 4180): a heading, then one row for each trip and container, in order. Volumes in cubic
/// metres and masses in kilograms, whatever the district's display units are.
pub fn load_csv(plan: &Plan) -> String {
    let mut out = String::from(
        "trip,container,content,volume_m3,mass_kg,room_m3,mass_aboard_max_kg,base_and_spoil_max_m3,signs,cones\r\n",
    );
    for (index, load) in plan.loads.iter().enumerate() {
        for line in &load.lines {
            let cells = [
                (index + 1).to_string(),
                cell(&line.container),
                cell(&line.content),
                format!("{:.4}", line.volume.in_cubic_metres()),
                format!("{:.1}", line.mass.in_kilograms()),
                format!("{:.4}", line.room.in_cubic_metres()),
                format!("{:.1}", load.mass_max.in_kilograms()),
                format!("{:.4}", load.body_volume_max.in_cubic_metres()),
                load.signs.to_string(),
                load.cones.to_string(),
            ];
            out.push_str(&cells.join(","));
            out.push_str("\r\n");
        }
    }
    out
}

/// Quoted where it must be. A leading `=`, `+`, `-` or `@` gets an apostrophe, else a spreadsheet would run it.
fn cell(text: &str) -> String {
    let text = if text.starts_with(['=', '+', '-', '@', '\t', '\r']) { format!("'{text}") } else { text.to_owned() };
    if text.contains([',', '"', '\n', '\r']) { format!("\"{}\"", text.replace('"', "\"\"")) } else { text }
}
