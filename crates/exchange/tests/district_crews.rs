//! Several crews, depots and supply places in one district file, and prices.

use exchange::district::{default_district, read_district_text};
use model::district::{CompactorKind, District, SuppliedGood};
use model::quantity::{InMass, InTime, InVelocity, InVolume};
use proptest::prelude::*;

const ONE_CREW: &str = include_str!("../../../demo/district.toml");

/// An invented second and third crew, a depot of their own, a quarry, a tip and a water point.
const BESIDE: &str = r#"
[[further_depots]]
name = "Knot Yard"
lon = -28.3207
lat = 47.3391

[[further_crews]]
name = "Crew Dunlin"
people = 3
depot = "Knot Yard"
[further_crews.shift]
start = 06:30:00
rest = { length_min = 45 }
[further_crews.truck]
name = "Truck 9, flat bed"
payload_lb = 4000
[[further_crews.truck.compartments]]
name = "body"
volume_l = 1200
holds = ["base", "spoil"]
[[further_crews.truck.compartments]]
name = "stone box"
volume_l = 150
holds = ["cover_stone"]
[further_crews.plant]
compactors = []
[further_crews.devices_owned]
signs = 4

[[further_crews]]
name = "Crew Plover"
people = 6

[[supply_places]]
name = "Skerry Quarry"
lon = -28.3550
lat = 47.3120
gives = ["cover_stone", "base"]
handling_min = 15
open_from = 07:30:00
open_to = 15:00:00

[[supply_places]]
name = "Moss Tip"
lon = -28.3900
lat = 47.3300
takes_spoil = true
handling_min = 8
open_to = 12:00:00

[prices]
currency = "EUR"
crew_hour = 310.5
truck_km = 2
point_day = 40
"#;

fn whole() -> String {
    format!("{ONE_CREW}{BESIDE}")
}

fn district() -> District {
    let file = read_district_text("district.toml", &whole()).expect("a district of three crews");
    assert_eq!(file.problems, []);
    file.district
}

/// What is said of the district with one text replaced.
fn faults(from: &str, to: &str) -> String {
    assert!(BESIDE.contains(from), "there is no `{from}`");
    let text = format!("{ONE_CREW}{}", BESIDE.replacen(from, to, 1));
    let (problems, mark) = match read_district_text("district.toml", &text) {
        Ok(file) => (file.problems, "used: "),
        Err(problems) => (problems, ""),
    };
    // Lines counted from where the text here is laid behind the demo's.
    let before = ONE_CREW.lines().count();
    let line = |problem: &model::problem::Problem| {
        let mut problem = problem.clone();
        problem.at.line -= before;
        format!("{mark}{problem}\n")
    };
    let told = problems.iter().map(line).collect::<Vec<_>>().concat();
    assert!(!told.is_empty(), "nothing is said of `{to}`");
    told
}

#[test]
fn a_crew_is_as_the_district_but_for_what_it_says() {
    let district = district();
    assert_eq!(district.crew_count(), 3);
    let [own, second, third] = [0, 1, 2].map(|index| district.of_crew(index));
    for seen in [&own, &second, &third] {
        assert_eq!((seen.crew_count(), seen.further_depots.len()), (1, 0));
        assert_eq!((&seen.supply_places, &seen.prices), (&district.supply_places, &district.prices));
    }
    let one = read_district_text("d", ONE_CREW).expect("the demo").district;
    let beside = District { supply_places: district.supply_places.clone(), prices: district.prices.clone(), ..one };
    assert_eq!(own, beside, "the district's own crew sees what it saw alone");
    assert_eq!(district.of_crew(3), own, "there is no such crew");

    assert_eq!((second.crew.name.as_str(), second.crew.people), ("Crew Dunlin", 3));
    assert_eq!((second.depot.name.as_str(), second.depot.position.lat), ("Knot Yard", 47.3391));
    assert_eq!(second.shift.start.to_string(), "06:30:00");
    assert_eq!(second.shift.end, own.shift.end);
    assert_eq!(second.shift.daylight_margin, own.shift.daylight_margin);
    let (rest, own_rest) = (second.shift.rest.expect("a break"), own.shift.rest.clone().expect("a break"));
    assert_eq!((rest.earliest, rest.latest), (own_rest.earliest, own_rest.latest));
    assert_eq!(rest.length.in_minutes(), 45.0);
    // 4000 lb = 1814.369 kg by definition of the pound, in place of the district's 5000 kg.
    assert!((second.truck.payload.in_kilograms() - 1814.369).abs() < 1e-3);
    assert_eq!(second.truck.compartments.len(), 2, "a list replaces the district's");
    assert!((second.truck.compartments[0].volume.in_litres() - 1200.0).abs() < 1e-9);
    assert_eq!(second.truck.tanks, own.truck.tanks);
    assert_eq!(second.truck.speed_max.in_kilometres_per_hour(), own.truck.speed_max.in_kilometres_per_hour());
    assert_eq!((second.plant.compactors.len(), second.plant.applicator), (0, own.plant.applicator));
    assert_eq!((second.devices_owned.cones, second.devices_owned.signs), (own.devices_owned.cones, 4));

    let expected = District { crew: third.crew.clone(), ..own };
    assert_eq!(third, expected, "of its own it has only name and people");
    assert!(district.plant.compactors.iter().any(|machine| machine.kind == CompactorKind::PedestrianRoller));
}

#[test]
fn supply_places_and_prices_are_read() {
    let district = district();
    let [quarry, tip] = &district.supply_places[..] else { panic!("two places") };
    assert_eq!(quarry.gives, [SuppliedGood::Base, SuppliedGood::CoverStone]);
    assert!(!quarry.takes_spoil && tip.takes_spoil && tip.gives.is_empty());
    assert_eq!(quarry.handling.in_minutes(), 15.0);
    let clock = |time: Option<jiff::civil::Time>| time.map(|time| time.to_string()).unwrap_or_default();
    assert_eq!((clock(quarry.open_from), clock(quarry.open_to)), ("07:30:00".into(), "15:00:00".into()));
    assert_eq!((clock(tip.open_from), clock(tip.open_to)), (String::new(), "12:00:00".into()));
    let prices = &district.prices;
    assert_eq!((prices.currency.as_str(), prices.crew_hour), ("EUR", 310.5));
    assert_eq!((prices.truck_km, prices.point_day), (2.0, 40.0));
}

#[test]
fn without_any_there_is_one_crew_at_example_prices() {
    let district = read_district_text("d", ONE_CREW).expect("the demo").district;
    assert_eq!((district.crew_count(), district.supply_places.len()), (1, 0));
    assert_eq!(district.prices, default_district().prices);
    assert_eq!(district.prices.currency, "XTS");
    let prices = &district.prices;
    let points_per_hour = default_district().planning.points_per_hour;
    assert_eq!(prices.crew_hour / prices.point_day, points_per_hour, "as the file of defaults says");
}

/// Every fault: what was changed, and what is said of it.
#[test]
fn faults_are_said_with_place_and_remedy() {
    let cases = [
        ("unknown depot", "depot = \"Knot Yard\"", "depot = \"Not Yard\""),
        ("a depot that can't be used is told once", "lat = 47.3391", "lat = 147.3391"),
        ("a depot called like the district's", "name = \"Knot Yard\"", "name = \"Tern Yard\""),
        ("a place called like a depot", "name = \"Moss Tip\"", "name = \"Knot Yard\""),
        ("two crews of one name", "name = \"Crew Plover\"", "name = \"Crew Dunlin\""),
        ("a crew called like the district's", "name = \"Crew Plover\"", "name = \"Crew Fulmar\""),
        ("a crew without people", "people = 6", ""),
        ("too many people", "people = 6", "people = 600"),
        ("a night shift", "start = 06:30:00", "start = 22:00:00"),
        ("a break outside the crew's shift", "start = 06:30:00", "start = 12:30:00"),
        ("payload", "payload_lb = 4000", "payload_lb = 4"),
        ("no room for cover stone", "holds = [\"cover_stone\"]", "holds = [\"base\"]"),
        ("too many signs", "signs = 4", "signs = 4000"),
        ("a key misspelt deep inside", "signs = 4", "sings = 4"),
        ("a table misspelt", "[further_crews.devices_owned]", "[further_crews.devices]"),
        (
            "a truck that is none",
            "[further_crews.devices_owned]\nsigns = 4",
            "[[further_crews]]\nname = \"A\"\npeople = 2\ntruck = 7",
        ),
        ("nothing given, no spoil taken", "takes_spoil = true", "takes_spoil = false"),
        ("nothing given", "gives = [\"cover_stone\", \"base\"]", "gives = []"),
        ("unknown good", "gives = [\"cover_stone\", \"base\"]", "gives = [\"cover_stone\", \"sand\"]"),
        (
            "one of two for the bins",
            "gives = [\"cover_stone\", \"base\"]",
            "gives = [\"cover_stone\", \"binder\", \"water\"]",
        ),
        ("one of two for bins and tanks", "gives = [\"cover_stone\", \"base\"]", "gives = [\"water\", \"base\"]"),
        ("the same twice", "gives = [\"cover_stone\", \"base\"]", "gives = [\"base\", \"base\"]"),
        ("opens after it closes", "open_to = 15:00:00", "open_to = 07:00:00"),
        ("handling", "handling_min = 8", "handling_min = 800"),
        ("no handling", "handling_min = 8", ""),
        ("swapped", "lon = -28.3900\nlat = 47.3300", "lon = 47.3300\nlat = -128.3900"),
        ("currency", "\"EUR\"", "\"Euro\""),
        ("one price of four", "truck_km = 2\npoint_day = 40\n", ""),
        ("negative price", "truck_km = 2", "truck_km = -2"),
    ];
    let told: Vec<String> = cases.iter().map(|(name, from, to)| format!("# {name}\n{}", faults(from, to))).collect();
    insta::assert_snapshot!(told.join("\n"));
}

proptest! {
    /// Any district read has as many crews as it says, each of them seeing one.
    #[test]
    fn a_damaged_district_gives_an_answer(at in 0..2000_usize, length in 0..300_usize, with in "[-\\[\\]{}=\"0-9a-z.\n]{0,8}") {
        let characters: Vec<char> = BESIDE.chars().collect();
        let at = at.min(characters.len());
        let end = (at + length).min(characters.len());
        let beside: String = characters[..at].iter().copied().chain(with.chars()).chain(characters[end..].iter().copied()).collect();
        match read_district_text("d", &format!("{ONE_CREW}{beside}")) {
            Err(problems) => prop_assert!(!problems.is_empty()),
            Ok(file) => {
                let count = file.district.crew_count();
                prop_assert!((1..=3).contains(&count));
                prop_assert!((0..count).all(|index| file.district.of_crew(index).crew_count() == 1));
            }
        }
    }
}
