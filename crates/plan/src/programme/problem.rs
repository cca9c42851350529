//! The search's problem of a programme: sites with their windows and prices, yards, shifts, driving.

use jiff::tz::TimeZone;
use model::crews::{SuppliedGood, SupplyPlace};
use model::district::District;
use model::forecast::Forecast;
use model::place::LonLat;
use model::programme::{CrewShift, DAY_S, DrivingTimes, ProgrammeProblem, ProgrammeSite, Supplies, Yard};
use model::quantity::{InTime, kilometres};
use model::road::RoadSection;
use model::round::RestBreak;
use roads::{AccessPlace, Network};

use super::rest_of_day::RestOfDay;
use super::{CrewOfPlan, DayOfPlan, KindOfCrew};
use crate::jobs::Job;
use crate::sites::{self, WeighedSite};
use crate::{Rules, hours, loads};

/// What the problem is made from.
pub(crate) struct Source<'a> {
    pub district: &'a District,
    pub networks: &'a [Network],
    pub crews: &'a [CrewOfPlan],
    pub kinds: &'a [KindOfCrew],
    pub days: &'a [DayOfPlan],
    /// So many sites, the first, are looked at.
    pub searched: usize,
    pub rules: &'a Rules,
    pub zone: &'a TimeZone,
    pub forecast: Option<&'a Forecast>,
}

/// The problem, and where its places are.
pub(crate) struct Posed {
    /// Without driving times.
    pub problem: ProgrammeProblem,
    /// By network.
    pub places: Vec<Vec<AccessPlace>>,
    /// The same on the globe; trucks on the road are none of them.
    pub positions: Vec<LonLat>,
}

/// The furthest a supply place may be from a road that is on the map, like a depot.
const SUPPLY_SNAP_LIMIT_KM: f64 = 2.0;

impl Source<'_> {
    /// The problem; of the rest of a day where one is given.
    pub fn pose(&self, rest: Option<&RestOfDay>) -> Posed {
        let sites: Vec<ProgrammeSite> = (0..self.searched).map(|site| self.site(site)).collect();
        let supply_places: Vec<&SupplyPlace> =
            self.district.supply_places.iter().filter(|it| self.is_on_road(it)).collect();
        // The first crew of each depot stands for it.
        let depots: Vec<&CrewOfPlan> =
            (0..self.crews.len()).filter(|&crew| self.depot_of(crew) == crew).map(|crew| &self.crews[crew]).collect();
        let yard_of = |crew: usize| (0..self.depot_of(crew)).filter(|&other| self.depot_of(other) == other).count();
        let mut yards: Vec<Yard> = depots.iter().map(|crew| depot(&crew.district)).collect();
        yards.extend(supply_places.iter().map(|place| yard(place)));
        let places: Vec<Vec<AccessPlace>> = self
            .networks
            .iter()
            .enumerate()
            .map(|(number, network)| {
                let sites = self.kinds[0].sites[..self.searched].iter();
                let sites = sites.map(|site| AccessPlace::site(site.planned.position));
                // Where this truck gets in, if one of the depot's crews has it.
                let of_truck = |first: &&CrewOfPlan| {
                    let same =
                        |crew: &&CrewOfPlan| crew.network == number && crew.district.depot == first.district.depot;
                    self.crews.iter().find(same).map_or(first.depot, |crew| crew.depot)
                };
                let depots = depots.iter().map(of_truck);
                let supply = supply_places.iter().filter_map(|place| snapped(network, self.district, place));
                let trucks = rest.into_iter().flat_map(|rest| {
                    let on_road = |crew| rest.snapped(network, crew);
                    // A truck that is nowhere near a road is taken to be at the depot.
                    rest.trucks().into_iter().map(move |crew| on_road(crew).unwrap_or(self.crews[0].depot))
                });
                sites.chain(depots).chain(supply).chain(trucks).collect()
            })
            .collect();
        let sites_at = self.kinds[0].sites[..self.searched].iter().map(|site| site.planned.place);
        let depots_at = depots.iter().map(|crew| crew.district.depot.position);
        let positions = sites_at.chain(depots_at).chain(supply_places.iter().map(|place| place.position)).collect();
        let first_supply = depots.len();
        let shifts = self
            .days
            .iter()
            .enumerate()
            .flat_map(|(day, _)| (0..self.crews.len()).map(move |crew| (day, crew)).collect::<Vec<_>>());
        let calls = |crew: usize| -> Vec<usize> {
            std::iter::once(yard_of(crew)).chain((0..supply_places.len()).map(|place| first_supply + place)).collect()
        };
        let shifts = shifts.map(|(day, crew)| self.shift(day, crew, calls(crew))).collect();
        let first_truck = yards.len();
        let mut problem = ProgrammeProblem { sites, yards, shifts, driving: Vec::new() };
        if let Some(rest) = rest {
            rest.apply(&mut problem, first_truck);
        }
        Posed { problem, places, positions }
    }

    /// First crew of the same depot.
    pub fn depot_of(&self, crew: usize) -> usize {
        let depot = |crew: usize| &self.crews[crew].district.depot;
        (0..crew).find(|&other| depot(other) == depot(crew)).unwrap_or(crew)
    }

    fn site(&self, index: usize) -> ProgrammeSite {
        let of_kind = |kind: &KindOfCrew| {
            let site = &kind.sites[index];
            site.blocked.is_none().then(|| site.service_s())
        };
        let first = &self.kinds[0].sites[index];
        let holes = holes_of(first, &self.kinds[0].jobs);
        let class = self.networks[0].section(first.planned.position.section).class;
        let point = self.district.prices.point_day;
        // Risk stays on the road each day until it is mended.
        let mut waiting = Vec::with_capacity(self.days.len());
        let mut so_far = 0.0;
        for day in self.days {
            waiting.push(so_far);
            so_far += point * worth(&holes, day, self.rules);
        }
        let windows = self.days.iter().enumerate().flat_map(|(number, day)| {
            let windows = hours::working_windows(
                self.district,
                day.daylight,
                class,
                day.date,
                self.zone,
                self.forecast,
                &self.rules.planning.weather,
            );
            let midnight = midnight(number);
            windows.into_iter().map(move |(from, to)| (midnight + i64::from(from.0), midnight + i64::from(to.0)))
        });
        ProgrammeSite {
            service_s: self.kinds.iter().map(of_kind).collect(),
            demand: first.demand,
            windows: windows.collect(),
            waiting,
            left: so_far,
            shifts: None,
        }
    }

    fn shift(&self, day: usize, crew: usize, calls: Vec<usize>) -> CrewShift {
        let CrewOfPlan { district, network, kind, .. } = &self.crews[crew];
        let clock = |time| i64::from(hours::second_of_day(time).0);
        let prices = &self.district.prices;
        CrewShift {
            crew,
            day: u32::try_from(day).unwrap_or(u32::MAX),
            start: calls[0],
            end: calls[0],
            from: midnight(day) + clock(district.shift.start),
            to: midnight(day) + clock(district.shift.end),
            rest: district.shift.rest.as_ref().map(|rest| RestBreak {
                earliest: hours::second_of_day(rest.earliest),
                latest: hours::second_of_day(rest.latest),
                length_s: rest.length.in_seconds().ceil() as u32,
            }),
            capacity: loads::capacity(&district.truck),
            driving: *network,
            work_class: *kind,
            calls,
            aboard: None,
            price_per_hour: prices.crew_hour,
            price_per_km: prices.truck_km,
        }
    }

    /// Whether every truck can call there.
    fn is_on_road(&self, place: &SupplyPlace) -> bool {
        self.networks.iter().all(|network| snapped(network, self.district, place).is_some())
    }
}

/// Holes of a site.
pub(crate) fn holes_of(site: &WeighedSite, jobs: &[Job]) -> Vec<usize> {
    site.planned.jobs.iter().flat_map(|&job| jobs[job].holes.iter().copied()).collect()
}

/// Worth of mending some holes on a day, points.
pub(crate) fn worth(holes: &[usize], day: &DayOfPlan, rules: &Rules) -> f64 {
    holes.iter().map(|&hole| sites::worth(&day.holes[hole], rules, day.date)).sum()
}

pub(crate) fn midnight(day: usize) -> i64 {
    i64::try_from(day).unwrap_or(0) * DAY_S
}

/// A depot has everything and takes the spoil.
fn depot(district: &District) -> Yard {
    Yard {
        name: district.depot.name.clone(),
        gives: Supplies { bins: true, tanks: true },
        takes_spoil: true,
        loading_s: district.planning.loading.in_seconds().ceil() as u32,
        tipping_s: district.planning.tipping.in_seconds().ceil() as u32,
        open: None,
    }
}

/// A supply place counts for the bins when it has both base and cover stone, for the tanks when it has both binder and
/// water: a truck that must go on to the depot for the other gains nothing by the call.
fn yard(place: &SupplyPlace) -> Yard {
    let all = |goods: [SuppliedGood; 2]| goods.iter().all(|good| place.gives.contains(good));
    let gives = Supplies {
        bins: all([SuppliedGood::Base, SuppliedGood::CoverStone]),
        tanks: all([SuppliedGood::Binder, SuppliedGood::Water]),
    };
    let handling_s = place.handling.in_seconds().ceil() as u32;
    let loads = gives.bins || gives.tanks;
    let second =
        |time: Option<jiff::civil::Time>, otherwise: u32| time.map_or(otherwise, |t| hours::second_of_day(t).0);
    let open = (second(place.open_from, 0), second(place.open_to, 86_400));
    Yard {
        name: place.name.clone(),
        gives,
        takes_spoil: place.takes_spoil,
        // The time of a call is one, whatever is done.
        loading_s: if loads { handling_s } else { 0 },
        tipping_s: if loads { 0 } else { handling_s },
        open: (place.open_from.is_some() || place.open_to.is_some()).then_some(open),
    }
}

fn snapped(network: &Network, district: &District, place: &SupplyPlace) -> Option<AccessPlace> {
    let drivable = |section: &RoadSection| network.barred(section.id).is_none();
    network
        .snap(place.position, None, kilometres(SUPPLY_SNAP_LIMIT_KM), district.driving_side, &drivable)
        .ok()
        .map(AccessPlace::depot)
}

/// Driving between all these places.
pub(crate) fn driving(network: &Network, places: &[AccessPlace]) -> DrivingTimes {
    let matrix = network.matrix(places);
    DrivingTimes {
        among: None,
        places: places.len(),
        seconds: matrix.travel_s().into_iter().flatten().collect(),
        metres: matrix.metres.into_iter().flatten().map(|metres| metres as f32).collect(),
    }
}
