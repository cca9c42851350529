//! The day that work must fit into: shift, break, daylight, barred hours, the way there and back.

use model::district::District;
use model::place::RoadPosition;
use model::quantity::{InTime, Time};
use model::road::SectionId;
use model::round::{Demand, RestBreak, RoundProblem, SecondOfDay, Site};
use roads::{AccessPlace, Matrix, Network};

use crate::{hours, loads};

/// One crew's day.
pub(crate) struct OneDay<'a> {
    pub network: &'a Network,
    pub district: &'a District,
    /// Sunrise and sunset, local.
    pub daylight: Option<(SecondOfDay, SecondOfDay)>,
    pub depot: AccessPlace,
}

impl OneDay<'_> {
    /// Driving between the depot, first, and places of work.
    pub fn driving(&self, places: impl IntoIterator<Item = RoadPosition>) -> (Vec<AccessPlace>, Matrix) {
        let places: Vec<AccessPlace> =
            std::iter::once(self.depot).chain(places.into_iter().map(AccessPlace::site)).collect();
        let matrix = self.network.matrix(&places);
        (places, matrix)
    }

    /// Work on a section as the search sees it.
    pub fn site(&self, section: SectionId, service: Time, demand: Demand, worth: f64) -> Site {
        Site {
            service_s: service.in_seconds().ceil() as u32,
            demand,
            windows: hours::windows(self.district, self.daylight, self.network.section(section).class),
            worth,
        }
    }

    /// The search's problem; `driving` has the depot first, then the sites.
    pub fn problem(&self, sites: Vec<Site>, driving: &Matrix) -> RoundProblem {
        let district = self.district;
        RoundProblem {
            sites,
            yards: Vec::new(),
            start: 0,
            travel_s: driving.travel_s(),
            travel_m: driving.metres.clone(),
            shift_start: hours::second_of_day(district.shift.start),
            shift_end: hours::second_of_day(district.shift.end),
            rest: district.shift.rest.as_ref().map(|rest| RestBreak {
                earliest: hours::second_of_day(rest.earliest),
                latest: hours::second_of_day(rest.latest),
                length_s: rest.length.in_seconds().ceil() as u32,
            }),
            loading_s: district.planning.loading.in_seconds().ceil() as u32,
            tipping_s: district.planning.tipping.in_seconds().ceil() as u32,
            capacity: loads::capacity(&district.truck),
            points_per_hour: district.planning.points_per_hour,
        }
    }
}
