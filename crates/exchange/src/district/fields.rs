//! Key by key from the file to the model.

use model::district::{
    Applicator, BarredHours, BaseMaterial, Binder, BinderKind, Cargo, Compactor, CompactorKind, Compartment, Container,
    CoverStone, Crew, Depot, DevicesOwned, District, DrivingSide, Liquid, Paper, Planning, Plant, Residue,
    RuleSetNames, Shift, ShiftBreak, Tank, Truck, TruckSize, UnitSystem,
};
use model::learnt::Factored;
use model::moisture::Weather;
use model::place::LonLat;
use model::problem::ProblemSeverity;
use model::road::RoadClass;
use model::site_unit::{SiteGood, SiteUnit};

use super::section::Absent::{IsNothing, IsWrong, TakesDefault};
use super::section::Section;
use super::unit::{
    BIN_VOLUME, DENSITY, DISTANCE, DRIVING_SPEED, DURATION, MASS, SHARE, SITE_VOLUME, SMALL_LENGTH, TANK_VOLUME,
    TEMPERATURE, WORKING_SPEED,
};
use super::{DistrictFiles, RecordUse, checks, crews};
use crate::holes::{HoleColumns, HoleField};
use crate::suggest;

const SIDES: &[(&str, DrivingSide)] = &[("left", DrivingSide::Left), ("right", DrivingSide::Right)];
const UNIT_SYSTEMS: &[(&str, UnitSystem)] = &[("si", UnitSystem::Si), ("us_customary", UnitSystem::UsCustomary)];
const PAPERS: &[(&str, Paper)] = &[("a4", Paper::A4), ("us_letter", Paper::UsLetter)];
/// Those of the catalogue in `locales/`.
const LANGUAGES: &[(&str, &str)] = &[("en", "en"), ("es", "es"), ("fr", "fr"), ("pt", "pt"), ("ar", "ar")];
const CARGOES: &[(&str, Cargo)] = &[("base", Cargo::Base), ("spoil", Cargo::Spoil), ("cover_stone", Cargo::CoverStone)];
const LIQUIDS: &[(&str, Liquid)] = &[("binder", Liquid::Binder), ("water", Liquid::Water)];
const SITE_GOODS: &[(&str, SiteGood)] = &[
    ("base", SiteGood::Base),
    ("water", SiteGood::Water),
    ("binder", SiteGood::Binder),
    ("cover_stone", SiteGood::CoverStone),
    ("spoil", SiteGood::Spoil),
];
const APPLICATORS: &[(&str, Applicator)] = &[("sprayer", Applicator::Sprayer), ("pouring_pot", Applicator::PouringPot)];
const BINDER_KINDS: &[(&str, BinderKind)] = &[("cutback", BinderKind::Cutback), ("emulsion", BinderKind::Emulsion)];

/// Reads the whole file. All sections are read before any gives up, so that every problem is found.
pub fn district(mut file: Section) -> Option<(District, DistrictFiles)> {
    let name = file.text("name", IsWrong);
    let time_zone = checks::time_zone(&mut file);
    let roads_file = file.text("roads_file", IsNothing);
    let growth_records = file.text("growth_records", IsNothing);
    let heights_folder = file.text("heights_folder", IsNothing);
    let roads_cache_folder = file.text("roads_cache_folder", IsNothing);
    let rule_sets = rule_sets(file.section("rule_sets"));
    let driving_side = file.word("driving_side", SIDES, TakesDefault);
    let units = file.word("units", UNIT_SYSTEMS, TakesDefault);
    let paper = file.word("paper", PAPERS, TakesDefault);
    let language = file.word("language", LANGUAGES, TakesDefault);
    let own_depot = file.needed_section("depot").and_then(depot);
    let crew = file.needed_section("crew").and_then(crew);
    let shift = file.needed_section("shift").and_then(shift);
    let barred_hours: Vec<_> = file.sections("barred_hours").into_iter().map(barred_hours).collect();
    let truck = file.needed_section("truck").and_then(truck);
    let plant = file.needed_section("plant").and_then(plant);
    let base = file.needed_section("base").and_then(base);
    let weather = match file.optional_section("weather") {
        Some(section) => weather(section).map(Some),
        None => Some(None),
    };
    let cover_stone = file.needed_section("cover_stone").and_then(cover_stone);
    let binder = file.needed_section("binder").and_then(binder);
    let site_units: Vec<_> = file.sections("site_units").into_iter().map(site_unit).collect();
    let devices_owned = file.needed_section("devices_owned").and_then(devices_owned);
    let beside = crews::beside(&mut file, own_depot.as_ref(), crew.as_ref());
    let prices = crews::prices(&mut file);
    let planning = planning(file.section("planning"));
    let hole_columns = file.optional_section("hole_columns").map(hole_columns).unwrap_or_default();
    let record = file.optional_section("record").map(record_use).unwrap_or_default();
    let files = DistrictFiles { hole_columns, growth_records, heights_folder, roads_cache_folder, record };
    file.finish();
    let (further_crews, further_depots, supply_places) = beside?;
    let district = District {
        name: name?,
        time_zone: time_zone?,
        roads_file,
        rule_sets: rule_sets?,
        driving_side: driving_side?,
        units: units?,
        paper: paper?,
        language: language?.to_owned(),
        depot: own_depot?,
        crew: crew?,
        shift: shift?,
        barred_hours: barred_hours.into_iter().collect::<Option<_>>()?,
        truck: truck?,
        plant: plant?,
        base: base?,
        weather: weather?,
        cover_stone: cover_stone?,
        binder: binder?,
        site_units: site_units.into_iter().collect::<Option<_>>()?,
        devices_owned: devices_owned?,
        further_crews,
        further_depots,
        supply_places,
        prices: prices?,
        planning: planning?,
    };
    Some((district, files))
}

/// Of each word the factor that it means; `None`: all.
const LEARNT_OFF: &[(&str, Option<Factored>)] = &[
    ("all", None),
    ("growth", Some(Factored::Growth)),
    ("base", Some(Factored::Base)),
    ("water", Some(Factored::Water)),
    ("binder", Some(Factored::Binder)),
    ("cover_stone", Some(Factored::CoverStone)),
    ("time", Some(Factored::Time)),
];

fn record_use(mut section: Section) -> RecordUse {
    let words = section.words("learnt_off", LEARNT_OFF, IsNothing).unwrap_or_default();
    let all = words.contains(&None);
    let learnt_off = if all { Factored::ALL.to_vec() } else { words.into_iter().flatten().collect() };
    let looks = section.flag("looks", IsNothing).unwrap_or(true);
    section.finish();
    RecordUse { learnt_off, looks }
}

fn rule_sets(mut section: Section) -> Option<RuleSetNames> {
    let traffic = section.text("traffic", TakesDefault);
    let repair = section.text("repair", TakesDefault);
    let severity = section.text("severity", TakesDefault);
    let roads = section.text("roads", TakesDefault);
    section.finish();
    Some(RuleSetNames { traffic: traffic?, repair: repair?, severity: severity?, roads: roads? })
}

pub fn depot(mut section: Section) -> Option<Depot> {
    let name = section.text("name", IsWrong);
    checks::swapped_coordinates(&section);
    let lon = section.number("lon", IsWrong);
    let lat = section.number("lat", IsWrong);
    section.finish();
    Some(Depot { name: name?, position: LonLat { lon: lon?, lat: lat? } })
}

pub fn crew(mut section: Section) -> Option<Crew> {
    let name = section.text("name", IsWrong);
    let people = section.count("people", IsWrong);
    section.finish();
    Some(Crew { name: name?, people: people? })
}

pub fn shift(mut section: Section) -> Option<Shift> {
    let start = section.clock("start", IsWrong);
    let end = section.clock("end", IsWrong);
    let daylight_margin = section.quantity("daylight_margin", DURATION, TakesDefault);
    let rest = section.optional_section("rest").map(rest);
    checks::after(&section, ("start", start), ("end", end), "district.shift.backwards");
    if let (Some(Some(rest)), Some(start), Some(end)) = (&rest, start, end) {
        checks::rest_in_shift(&section, rest, start, end);
    }
    section.finish();
    let rest = if let Some(read) = rest { Some(read?) } else { None };
    Some(Shift { start: start?, end: end?, rest, daylight_margin: daylight_margin? })
}

fn rest(mut section: Section) -> Option<ShiftBreak> {
    let earliest = section.clock("earliest", IsWrong);
    let latest = section.clock("latest", IsWrong);
    let length = section.quantity("length", DURATION, IsWrong);
    checks::not_before(&section, ("earliest", earliest), ("latest", latest), "district.rest.backwards");
    section.finish();
    Some(ShiftBreak { earliest: earliest?, latest: latest?, length: length? })
}

fn barred_hours(mut section: Section) -> Option<BarredHours> {
    let classes = section.words("classes", &road_classes(), IsWrong);
    let from = section.clock("from", IsWrong);
    let to = section.clock("to", IsWrong);
    checks::after(&section, ("from", from), ("to", to), "district.barred_hours.backwards");
    section.finish();
    Some(BarredHours { classes: classes?, from: from?, to: to? })
}

pub fn truck(mut section: Section) -> Option<Truck> {
    let name = section.text("name", IsWrong);
    let payload = section.quantity("payload", MASS, IsWrong);
    let speed_factor = section.quantity("speed_factor", SHARE, TakesDefault);
    let speed_max = section.quantity("speed_max", DRIVING_SPEED, TakesDefault);
    let size = TruckSize {
        gross_mass: section.quantity("gross_mass", MASS, IsNothing),
        height: section.quantity("height", DISTANCE, IsNothing),
        width: section.quantity("width", DISTANCE, IsNothing),
        length: section.quantity("length", DISTANCE, IsNothing),
    };
    let compartments: Vec<_> = section.sections("compartments").into_iter().map(compartment).collect();
    let tanks: Vec<_> = section.sections("tanks").into_iter().map(tank).collect();
    let compartments = compartments.into_iter().collect::<Option<Vec<_>>>();
    let tanks = tanks.into_iter().collect::<Option<Vec<_>>>();
    if let Some(compartments) = &compartments {
        checks::every_cargo_has_room(&section, compartments);
    }
    if let Some(tanks) = &tanks {
        checks::every_liquid_has_a_tank(&section, tanks);
    }
    section.finish();
    Some(Truck {
        name: name?,
        payload: payload?,
        compartments: compartments?,
        tanks: tanks?,
        speed_factor: speed_factor?,
        speed_max: speed_max?,
        size,
    })
}

fn compartment(mut section: Section) -> Option<Compartment> {
    let name = section.text("name", IsWrong);
    let volume = section.quantity("volume", BIN_VOLUME, IsWrong);
    let holds = section.words("holds", CARGOES, IsWrong);
    if let Some(holds) = &holds {
        checks::goods_may_lie_together(&section, holds);
    }
    section.finish();
    Some(Compartment { name: name?, volume: volume?, holds: holds? })
}

fn tank(mut section: Section) -> Option<Tank> {
    let name = section.text("name", IsWrong);
    let volume = section.quantity("volume", TANK_VOLUME, IsWrong);
    let holds = section.word("holds", LIQUIDS, IsWrong);
    section.finish();
    Some(Tank { name: name?, volume: volume?, holds: holds? })
}

pub fn plant(mut section: Section) -> Option<Plant> {
    let applicator = section.word("applicator", APPLICATORS, IsWrong);
    let compactors: Vec<_> = section.sections("compactors").into_iter().map(compactor).collect();
    let containers: Option<Vec<Container>> = section.sections("containers").into_iter().map(container).collect();
    section.finish();
    Some(Plant {
        compactors: compactors.into_iter().collect::<Option<_>>()?,
        applicator: applicator?,
        containers: containers?,
    })
}

/// What binder is carried to the cut in.
fn container(mut section: Section) -> Option<Container> {
    let name = section.text("name", IsWrong);
    let volume = section.quantity("volume", TANK_VOLUME, IsWrong);
    section.finish();
    Some(Container { name: name?, volume: volume? })
}

/// What is not written is as usual for the kind: the rules' catalogue knows it.
fn compactor(mut section: Section) -> Option<Compactor> {
    let kinds = CompactorKind::ALL.map(|kind| (kind.key(), kind));
    let kind = section.word("kind", &kinds, IsWrong);
    let width = section.quantity("width", SMALL_LENGTH, IsNothing);
    let speed = section.quantity("speed", WORKING_SPEED, IsNothing);
    section.finish();
    Some(Compactor { kind: kind?, width, speed })
}

fn base(mut section: Section) -> Option<BaseMaterial> {
    let name = section.text("name", IsWrong);
    let maximum_dry_density = section.quantity("maximum_dry_density", DENSITY, IsWrong);
    let optimum_moisture = section.quantity("optimum_moisture", SHARE, IsWrong);
    let stock_moisture = section.quantity("stock_moisture", SHARE, IsWrong);
    let loose_density = section.quantity("loose_density", DENSITY, IsWrong);
    let largest_stone = section.quantity("largest_stone", SMALL_LENGTH, IsNothing);
    if let (Some(loose), Some(dense)) = (loose_density, maximum_dry_density) {
        checks::loose_is_lighter(&section, loose, dense, "maximum_dry_density");
    }
    section.finish();
    Some(BaseMaterial {
        name: name?,
        maximum_dry_density: maximum_dry_density?,
        optimum_moisture: optimum_moisture?,
        stock_moisture: stock_moisture?,
        loose_density: loose_density?,
        largest_stone,
    })
}

fn weather(mut section: Section) -> Option<Weather> {
    let air_temperature = section.quantity("air_temperature", TEMPERATURE, IsWrong);
    let humidity = section.quantity("humidity", SHARE, IsNothing);
    let wind = section.quantity("wind", DRIVING_SPEED, IsWrong);
    let covered = section.flag("covered", IsNothing).unwrap_or(false);
    let open = section.quantity("open", DURATION, IsNothing);
    section.finish();
    Some(Weather { air_temperature_c: air_temperature?, humidity, wind: wind?, covered, open })
}

fn cover_stone(mut section: Section) -> Option<CoverStone> {
    let name = section.text("name", IsWrong);
    let nominal_size = section.quantity("nominal_size", SMALL_LENGTH, IsWrong);
    let median_size = section.quantity("median_size", SMALL_LENGTH, IsNothing);
    let average_least_dimension = section.quantity("average_least_dimension", SMALL_LENGTH, IsNothing);
    let flakiness = section.quantity("flakiness", SHARE, TakesDefault);
    let loose_density = section.quantity("loose_density", DENSITY, TakesDefault);
    let particle_density = section.quantity("particle_density", DENSITY, TakesDefault);
    if let (Some(loose), Some(dense)) = (loose_density, particle_density) {
        checks::loose_is_lighter(&section, loose, dense, "particle_density");
    }
    checks::smaller_than_nominal(&section, "median_size", median_size, nominal_size);
    checks::smaller_than_nominal(&section, "average_least_dimension", average_least_dimension, nominal_size);
    section.finish();
    Some(CoverStone {
        name: name?,
        nominal_size: nominal_size?,
        median_size,
        average_least_dimension,
        flakiness: flakiness?,
        loose_density: loose_density?,
        particle_density: particle_density?,
    })
}

fn binder(mut section: Section) -> Option<Binder> {
    let grade = section.text("grade", IsWrong);
    let kind = section.word("kind", BINDER_KINDS, IsWrong);
    let residue = residue(&mut section);
    let spray_temperature_c = section.quantity("spray_temperature", TEMPERATURE, IsWrong);
    let density = section.quantity("density", DENSITY, IsWrong);
    section.finish();
    Some(Binder {
        grade: grade?,
        kind: kind?,
        residue: residue.ok()?,
        spray_temperature_c: spray_temperature_c?,
        density: density?,
    })
}

fn site_unit(mut section: Section) -> Option<SiteUnit> {
    let name = section.text("name", IsWrong);
    let plural = section.text("plural", IsNothing);
    let volume = section.quantity("volume", SITE_VOLUME, IsWrong);
    let holds = section.words("holds", SITE_GOODS, IsWrong);
    section.finish();
    let name = name?;
    let plural = plural.unwrap_or_else(|| format!("{name}s"));
    Some(SiteUnit { plural, name, volume: volume?, holds: holds? })
}

/// Of the volume or of the mass; neither: the least of the grade. An error was reported already.
fn residue(section: &mut Section) -> Result<Option<Residue>, ()> {
    let (volume, mass) = ("residue", "residue_by_mass");
    let file = |section: &Section, key: &str| {
        SHARE.iter().filter_map(|unit| section.file_of(&format!("{key}_{}", unit.ending))).min()
    };
    // Of files laid over each other the uppermost decides which of the two it is.
    let (volume_in, mass_in) = (file(section, volume), file(section, mass));
    let by_volume = volume_in.is_some_and(|own| mass_in.is_none_or(|other| own <= other));
    let by_mass = mass_in.is_some_and(|own| volume_in.is_none_or(|other| own <= other));
    let of_volume = section.quantity(volume, SHARE, IsNothing);
    let of_mass = section.quantity(mass, SHARE, IsNothing);
    if by_volume && by_mass {
        section.report(
            ProblemSeverity::Refused,
            "district.quantity.twice",
            "",
            "`residue` and `residue_by_mass` say the same thing twice".into(),
            "keep the one on the data sheet".into(),
        );
        return Err(());
    }
    let read = match (by_volume, by_mass) {
        (true, _) => of_volume.map(Residue::ByVolume),
        (_, true) => of_mass.map(Residue::ByMass),
        _ => return Ok(None),
    };
    read.map(Some).ok_or(())
}

pub fn devices_owned(mut section: Section) -> Option<DevicesOwned> {
    let cones = section.count("cones", IsWrong);
    let signs = section.count("signs", IsWrong);
    section.finish();
    Some(DevicesOwned { cones: cones?, signs: signs? })
}

fn planning(mut section: Section) -> Option<Planning> {
    let load_confidence = section.quantity("load_confidence", SHARE, TakesDefault);
    let snap_limit = section.quantity("snap_limit", DISTANCE, TakesDefault);
    let points_per_hour = section.number("points_per_hour", TakesDefault);
    let iterations = section.count("iterations", TakesDefault);
    let loading = section.quantity("loading", DURATION, TakesDefault);
    let tipping = section.quantity("tipping", DURATION, TakesDefault);
    let classes_left_out = section.words("classes_left_out", &road_classes(), TakesDefault);
    let surface_treated_only = section.flag("surface_treated_only", TakesDefault);
    section.finish();
    Some(Planning {
        load_confidence: load_confidence?,
        snap_limit: snap_limit?,
        points_per_hour: points_per_hour?,
        iterations: iterations?,
        loading: loading?,
        tipping: tipping?,
        classes_left_out: classes_left_out?,
        surface_treated_only: surface_treated_only?,
    })
}

/// Our field names to the list's column names.
fn hole_columns(mut section: Section) -> HoleColumns {
    let mut columns = HoleColumns::default();
    let known: Vec<&str> = HoleField::ALL.iter().map(|field| field.word()).collect();
    for (key, name, _) in section.texts() {
        match HoleField::ALL.into_iter().find(|field| field.word() == key) {
            Some(field) => {
                columns.names.insert(field, name);
            }
            None => section.report(
                ProblemSeverity::Refused,
                "district.key.unknown",
                &key,
                format!("[hole_columns] has no key `{key}`"),
                suggest::hint(&key, &known),
            ),
        }
    }
    section.finish();
    columns
}

fn road_classes() -> [(&'static str, RoadClass); 9] {
    RoadClass::ALL.map(|class| (class.word(), class))
}
