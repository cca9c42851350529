//! What the authorised person is told of the zone on its road.

use model::quantity::InLength;
use model::road_around::{AxisEnd, SideRoad};
use model::work_zone::{Device, DeviceKind};

use super::Road;
use super::approach::Approach;
use super::joining;
use crate::text::metres_2;

/// So many roads are named; more are counted.
const NAMED_MOST: usize = 4;

/// What was found, gathered while the devices are placed.
#[derive(Debug, Default)]
pub(crate) struct Said {
    /// One sentence for each finding, in the order found.
    findings: Vec<String>,
    /// Signs on roads that join.
    joining: Vec<String>,
    /// Roads that join and get no sign.
    unsigned: Vec<String>,
}

impl Said {
    pub fn moved(&mut self, device: &Device, approach: &Approach, distance: &str, because: &[String]) {
        // What only moves along with the series is told by the one that had to.
        if !because.is_empty() {
            self.find(device, approach, &format!("moved {distance}: {}", because.join(", ")));
        }
    }

    pub fn unsolved(&mut self, device: &Device, approach: &Approach, words: &str) {
        self.find(device, approach, &format!("NOT SOLVED: {words}"));
    }

    /// Roads that join between the flaggers at the ends.
    pub fn held_by_flaggers(&mut self, roads: &[String]) {
        if !roads.is_empty() {
            self.findings.push(format!(
                "A flagger of its own on each road that joins between the flaggers at the ends, since those can't hold it: {}. \
                 Closing such a road for the time does as well.",
                roads.join(", ")
            ));
        }
    }

    /// Roads that join between the flaggers without one of their own.
    pub fn let_out_by_the_crew(&mut self, roads: &[String]) {
        if !roads.is_empty() {
            self.findings.push(format!(
                "No flagger of its own, only a sign: {}. Somebody of the crew stops who comes out there and lets him out with the \
                 traffic of his direction; where more come than few, put a flagger there.",
                roads.join(", ")
            ));
        }
    }

    pub fn left_out(&mut self, device: &Device, approach: &Approach, reason: &str) {
        self.find(device, approach, &format!("left out: {reason}. If anything does come from there, set it out"));
    }

    pub fn not_placed(&mut self, device: &Device, approach: &Approach, reason: &str) {
        self.find(device, approach, &format!("NOT PLACED on the map: {reason}. Find its place on the ground"));
    }

    pub fn on_arms(&mut self, device: &Device, approach: &Approach, distance: &str, names: &[&str]) {
        let on = if let [name] = names { (*name).to_owned() } else { format!("each of {}", names.join(", ")) };
        let junction = if approach.road_end == AxisEnd::Roundabout { "roundabout" } else { "junction" };
        let others = if device.kind == DeviceKind::FlaggerStation {
            "who does not go to the work is let through"
        } else {
            "through traffic there reads it too, so the authorised person chooses its wording"
        };
        self.find(
            device,
            approach,
            &format!("stands on {on}, {distance} from the {junction} where the road ends; {others}"),
        );
    }

    pub fn brought_back(&mut self, device: &Device, approach: &Approach) {
        self.find(device, approach, "brought back towards the work: the road ends, or nothing can stand there");
    }

    pub fn joins(&mut self, side: &SideRoad, device: &Device, distance: &str, place: &str) {
        self.joining.push(format!(
            "{} {} on {}, {distance} from its junction, {place}",
            device.designation,
            device.legend,
            joining::in_words(side)
        ));
    }

    pub fn joins_unsigned(&mut self, side: &SideRoad) {
        self.unsigned.push(joining::in_words(side));
    }

    fn find(&mut self, device: &Device, approach: &Approach, words: &str) {
        let name = match device.kind {
            DeviceKind::FlaggerStation => "Flagger".to_owned(),
            DeviceKind::Cone => "A cone".to_owned(),
            DeviceKind::ShieldVehicle => "The shield vehicle".to_owned(),
            DeviceKind::Sign => format!("{} {}", device.designation, device.legend).trim().to_owned(),
        };
        let sentence = format!("{name}, {}: {words}.", approach.words());
        if !self.findings.contains(&sentence) {
            self.findings.push(sentence);
        }
    }

    /// The remarks, the most pressing first.
    pub fn into_remarks(self, road: &Road) -> Vec<String> {
        let mut remarks = self.findings;
        remarks.sort_by_key(|finding| !finding.contains("NOT "));
        if !self.joining.is_empty() {
            remarks.push(format!("Roads that join have a sign of their own: {}.", self.joining.join("; ")));
        }
        if !self.unsigned.is_empty() {
            let named = self.unsigned.iter().take(NAMED_MOST).cloned().collect::<Vec<_>>().join(", ");
            let more = match self.unsigned.len().saturating_sub(NAMED_MOST) {
                0 => String::new(),
                more => format!(" and {more} more"),
            };
            remarks.push(format!("Not signed, look whether traffic comes out of them: {named}{more}."));
        }
        remarks.push(looked_at(road));
        remarks
    }
}

/// What was looked at, and what no map shows.
fn looked_at(road: &Road) -> String {
    let clear = metres_2(road.rules.sight.lateral_clear.value, road.rules.units);
    let crests = if road.sight.as_ref().is_some_and(crate::sight::SightRoad::has_heights) {
        format!(
            "crests on heights that err by metres ({:.0} m after smoothing), so a low crest may hide what counts as seen",
            road.rules.units.length(road.rules.placing.height_error.value).in_metres()
        )
    } else {
        "crests not, since no heights are given".to_owned()
    };
    format!(
        "Placed along the road on the map. Bends were looked at on its line, clear to {clear} beside the shoulder; {crests}. \
         Driveways, hedges, banks and parked vehicles are on no map: drive through and look before the lane is closed."
    )
}
