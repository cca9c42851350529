//! What one repair is worked out from.

use model::cut_out::CutOut;
use model::district::{BaseMaterial, Binder, CoverStone, District, Plant};
use model::learnt::{Factored, UseFactors};
use model::moisture::Weather;
use model::place::FramePoint;
use model::quantity::{Area, InArea, InLength, InMassDensity, InRatio, InTime, InVelocity, InVolume, Length, Volume};

use model::road::RoadClass;
use model::site_unit::SiteUnit;

use crate::seal;
use crate::seal_area::Pavement;

/// What one repair is worked out from. Call [`RepairInput::check`] on values that come from outside.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RepairInput<'a> {
    /// Corners of the cut, open ring, road frame.
    pub corners: &'a [FramePoint],
    /// The pavement the seal may lie on; `None`: no edge near.
    pub pavement: Option<Pavement>,
    /// Area inside the cut.
    pub area: Area,
    /// Longer side of the cut.
    pub length: Length,
    /// Shorter side of the cut.
    pub width: Length,
    /// Edge to saw or pick.
    pub perimeter: Length,
    /// Depth as surveyed.
    pub depth: Length,
    /// Volume of the open hole as surveyed, already empty; `None`: not known.
    pub hole_volume: Option<Volume>,
    /// Vehicles a day, both ways; `None`: not known.
    pub vehicles_per_day: Option<f64>,
    /// Class of the road, which says how much a cut grows there; `None`: not known.
    pub road_class: Option<RoadClass>,
    /// What the record teaches; all 1 where it teaches nothing.
    pub factors: UseFactors,
    /// Weather while the base lies open; `None`: the plain drying allowance.
    pub weather: Option<Weather>,
    /// Plant aboard.
    pub plant: &'a Plant,
    /// Base material.
    pub base: &'a BaseMaterial,
    /// Cover stone.
    pub cover_stone: &'a CoverStone,
    /// Binder.
    pub binder: &'a Binder,
    /// What the crew counts in.
    pub site_units: &'a [SiteUnit],
}

/// One thing that makes a repair impossible to work out.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{what} is {found}; {right}")]
pub struct InputError {
    /// Which value.
    pub what: String,
    /// What it is.
    pub found: String,
    /// What would be right.
    pub right: String,
}

/// No road carries more vehicles a day.
pub(crate) const VEHICLES_PER_DAY_MOST: f64 = 200_000.0;

impl<'a> RepairInput<'a> {
    /// The input for a marked-out cut in a district. `hole_volume` and `vehicles_per_day` where known.
    pub fn for_cut(
        cut: &'a CutOut,
        pavement: Option<Pavement>,
        depth: Length,
        hole_volume: Option<Volume>,
        vehicles_per_day: Option<f64>,
        district: &'a District,
    ) -> Self {
        RepairInput {
            corners: &cut.corners,
            pavement,
            area: cut.area.value,
            length: cut.length,
            width: cut.width,
            perimeter: cut.perimeter.value,
            depth,
            hole_volume,
            vehicles_per_day,
            road_class: None,
            factors: UseFactors::NONE,
            weather: district.weather,
            plant: &district.plant,
            base: &district.base,
            cover_stone: &district.cover_stone,
            binder: &district.binder,
            site_units: &district.site_units,
        }
    }

    /// The same on a road of that class.
    #[must_use]
    pub fn on_road(self, class: RoadClass) -> Self {
        RepairInput { road_class: Some(class), ..self }
    }

    /// The same with what the record teaches.
    #[must_use]
    pub fn learnt(self, factors: UseFactors) -> Self {
        RepairInput { factors, ..self }
    }

    /// Everything about the input that makes a repair impossible to work out, not only the first.
    pub fn check(&self) -> Result<(), Vec<InputError>> {
        let mut errors = Errors::default();
        self.check_cut(&mut errors);
        self.check_plant(&mut errors);
        self.check_base(&mut errors);
        for what in Factored::ALL {
            errors.positive(&format!("learnt factor on {}", what.word()), self.factors.of(what));
        }
        check_weather(self.weather, &mut errors);
        seal::check::materials(self.cover_stone, self.binder, &mut errors);
        errors.into_result()
    }

    fn check_cut(&self, errors: &mut Errors) {
        errors.positive("area of the cut (m2)", self.area.in_square_metres());
        errors.positive("length of the cut (m)", self.length.in_metres());
        errors.positive("width of the cut (m)", self.width.in_metres());
        errors.not_negative("edge to cut (m)", self.perimeter.in_metres());
        errors.positive("depth (m)", self.depth.in_metres());
        errors.not_negative("volume of the hole (m3)", self.hole_volume.map_or(0.0, InVolume::in_cubic_metres));
        seal::check::traffic(self.vehicles_per_day, errors);
        let finite = self.corners.iter().all(|c| c.along_m.is_finite() && c.across_m.is_finite());
        if self.corners.len() < 3 || !finite {
            errors.add("ring of corners", format!("{} points", self.corners.len()), "three or more finite points");
        }
        if let Some(Pavement { left, right }) = self.pavement
            && left.partial_cmp(&right) != Some(std::cmp::Ordering::Less)
        {
            let found = format!("from {} to {} m", left.in_metres(), right.in_metres());
            errors.add("pavement", found, "the left edge is the smaller distance across");
        }
    }

    fn check_plant(&self, errors: &mut Errors) {
        for machine in &self.plant.compactors {
            errors.positive("width of a compactor (m)", machine.width.map_or(1.0, InLength::in_metres));
            errors.positive("speed of a compactor (m/s)", machine.speed.map_or(1.0, InVelocity::in_metres_per_second));
        }
    }

    fn check_base(&self, errors: &mut Errors) {
        let density = self.base.maximum_dry_density.in_kilograms_per_cubic_metre();
        errors.positive("maximum dry density (kg/m3)", density);
        errors.positive("loose density of the base (kg/m3)", self.base.loose_density.in_kilograms_per_cubic_metre());
        errors.positive("largest stone of the base (m)", self.base.largest_stone.map_or(1.0, InLength::in_metres));
        errors.fraction("optimum moisture", self.base.optimum_moisture.in_fraction());
        errors.fraction("stock moisture", self.base.stock_moisture.in_fraction());
    }
}

/// Weather in which nobody works, or that is no weather.
pub(crate) fn check_weather(weather: Option<Weather>, errors: &mut Errors) {
    let Some(weather) = weather else { return };
    errors.believed("air temperature (°C)", weather.air_temperature_c, -20.0, 60.0);
    errors.believed("wind (km/h)", weather.wind.in_kilometres_per_hour(), 0.0, 120.0);
    errors.fraction("relative humidity", weather.humidity.map_or(0.0, InRatio::in_fraction));
    errors.believed("time the base lies open (min)", weather.open.map_or(0.0, InTime::in_minutes), 0.0, 1440.0);
}

/// Collects what is wrong.
#[derive(Default)]
pub(crate) struct Errors(Vec<InputError>);

impl Errors {
    pub fn into_result(self) -> Result<(), Vec<InputError>> {
        if self.0.is_empty() { Ok(()) } else { Err(self.0) }
    }

    pub fn add(&mut self, what: impl Into<String>, found: String, right: impl Into<String>) {
        self.0.push(InputError { what: what.into(), found, right: right.into() });
    }

    /// Not a number from `least` to `most`: nobody believes it.
    pub fn believed(&mut self, what: impl Into<String>, value: f64, least: f64, most: f64) {
        if !(least..=most).contains(&value) {
            self.add(what, value.to_string(), format!("a number from {least} to {most} is believed"));
        }
    }

    pub fn positive(&mut self, what: &str, value: f64) {
        if !(value.is_finite() && value > 0.0) {
            self.add(what, value.to_string(), "a number over zero is needed");
        }
    }

    pub fn not_negative(&mut self, what: &str, value: f64) {
        if !(value.is_finite() && value >= 0.0) {
            self.add(what, value.to_string(), "zero or a number over zero is needed");
        }
    }

    pub fn fraction(&mut self, what: &str, value: f64) {
        if !(0.0..=1.0).contains(&value) {
            self.add(what, value.to_string(), "a fraction from 0 to 1 is needed");
        }
    }
}
