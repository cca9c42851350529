//! Timing: how early a round can be over, and how late the truck may come to each of its stops.
//!
//! With the rest still to take, being early is never worse, and the same holds once it is taken; so for a fixed order
//! two labels per stop are exact: the earliest time without and with the rest. Backwards, the latest times for either
//! label. Every step below is monotone in the time.

use crate::instance::{Instance, NEVER};

/// A time with the rest still to take, and one with it taken (or none due).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Labels {
    pub fresh: i64,
    pub rested: i64,
}

impl Labels {
    /// Arrival after a drive.
    #[inline]
    pub fn after(self, seconds: i64) -> Labels {
        Labels { fresh: self.fresh + seconds, rested: self.rested + seconds }
    }

    /// Whether an arrival is in time for a latest arrival.
    #[inline]
    pub fn in_time_for(self, latest: Labels) -> bool {
        self.rested <= latest.rested || self.fresh <= latest.fresh
    }
}

/// What kind of stop it is, for its timing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Visit {
    /// Depot at the day's start: load.
    Begin,
    /// Depot between two trips: tip, load.
    Reload,
    /// A site.
    Site(u32),
    /// Depot at the day's end: tip.
    End,
}

impl Instance {
    /// At the shift's start.
    pub fn morning(&self) -> Labels {
        if self.rest.is_some() { Labels { fresh: 0, rested: NEVER } } else { Labels { fresh: NEVER, rested: 0 } }
    }

    /// From arrival to leaving, waits and work included. For [`Visit::End`] only the `rested` label counts: the day's end.
    #[inline]
    pub fn leave(&self, visit: Visit, arrival: Labels) -> Labels {
        match visit {
            Visit::Site(place) => self.leave_site(place, arrival),
            Visit::Begin => self.rest_here(self.rest_here(arrival).after(self.loading)),
            Visit::Reload => {
                let tipped = self.rest_here(self.rest_here(arrival).after(self.tipping));
                self.rest_here(tipped.after(self.loading))
            }
            Visit::End => {
                let mut tipped = self.rest_here(arrival).after(self.tipping);
                // a round that is over by the rest's latest beginning needs none
                if self.rest.is_some_and(|rest| tipped.fresh <= rest.latest) {
                    tipped.rested = tipped.rested.min(tipped.fresh);
                }
                Labels { fresh: NEVER, rested: tipped.rested }
            }
        }
    }

    /// Latest arrival such that leaving is not after `latest`. For [`Visit::End`] `latest` is not looked at.
    #[inline]
    pub fn latest_to(&self, visit: Visit, latest: Labels) -> Labels {
        match visit {
            Visit::Site(place) => {
                let (place, latest) = (place as usize, self.latest_to_rest(latest));
                let service = self.service[place];
                Labels {
                    fresh: self.latest_arrival(place, latest.fresh - service),
                    rested: self.latest_arrival(place, latest.rested - service),
                }
            }
            Visit::Begin => {
                let loaded = self.latest_to_rest(latest);
                self.latest_to_rest(loaded.after(-self.loading))
            }
            Visit::Reload => {
                let loaded = self.latest_to_rest(latest);
                let tipped = self.latest_to_rest(loaded.after(-self.loading));
                self.latest_to_rest(tipped.after(-self.tipping))
            }
            Visit::End => {
                let rested = self.shift - self.tipping;
                let fresh = self.rest.map_or(-NEVER, |rest| rest.latest.min(self.shift) - self.tipping);
                self.latest_to_rest(Labels { fresh, rested })
            }
        }
    }

    /// Least seconds from arrival to leaving, waits and rest left aside.
    pub fn least_stay(&self, visit: Visit) -> i64 {
        match visit {
            Visit::Site(place) => self.service[place as usize],
            Visit::Begin => self.loading,
            Visit::Reload => self.tipping + self.loading,
            Visit::End => self.tipping,
        }
    }

    #[inline]
    fn leave_site(&self, place: u32, arrival: Labels) -> Labels {
        let place = place as usize;
        let service = self.service[place];
        let rested = if arrival.rested < NEVER { self.earliest_start(place, arrival.rested) + service } else { NEVER };
        if arrival.fresh >= NEVER {
            return Labels { fresh: NEVER, rested: rested.min(NEVER) };
        }
        let fresh = self.earliest_start(place, arrival.fresh) + service;
        self.rest_here(Labels { fresh, rested })
    }

    /// The crew may rest here.
    #[inline]
    fn rest_here(&self, time: Labels) -> Labels {
        match self.rest {
            Some(rest) if time.fresh <= rest.latest => {
                let over = time.fresh.max(rest.earliest) + rest.length;
                // a break with no time to begin in can't be taken
                let over = if rest.earliest <= rest.latest { over } else { NEVER };
                Labels { fresh: time.fresh, rested: time.rested.min(over) }
            }
            _ => time,
        }
    }

    /// The crew may rest here, seen backwards.
    #[inline]
    fn latest_to_rest(&self, latest: Labels) -> Labels {
        match self.rest {
            Some(rest) if rest.earliest <= rest.latest && rest.earliest + rest.length <= latest.rested => {
                let begin = rest.latest.min(latest.rested - rest.length);
                Labels { fresh: latest.fresh.max(begin), rested: latest.rested }
            }
            _ => latest,
        }
    }
}
