//! Crews, depots and supply places beside the district's own, and what work and risk cost.

use std::collections::BTreeMap;

use model::district::{Crew, Depot, FurtherCrew, Prices, SuppliedGood, SupplyPlace};
use model::place::LonLat;
use model::problem::ProblemSeverity::{Refused, Warning};

use super::section::Absent::{IsNothing, IsWrong, TakesDefault};
use super::section::Section;
use super::unit::DURATION;
use super::{checks, fields};
use crate::suggest;

const SUPPLIED_GOODS: &[(&str, SuppliedGood)] = &[
    ("base", SuppliedGood::Base),
    ("cover_stone", SuppliedGood::CoverStone),
    ("binder", SuppliedGood::Binder),
    ("water", SuppliedGood::Water),
];

type Beside = (Vec<FurtherCrew>, Vec<Depot>, Vec<SupplyPlace>);

/// Everything beside the district's own depot and crew; all of it is read before any gives up.
pub fn beside(file: &mut Section, own_depot: Option<&Depot>, own_crew: Option<&Crew>) -> Option<Beside> {
    let mut places = Names::of(["depot", "place"], own_depot.map(|depot| depot.name.as_str()));
    let depots: Vec<_> = file
        .sections("further_depots")
        .into_iter()
        .map(|section| {
            let section = section.limited_as("depot");
            places.take(&section);
            fields::depot(section)
        })
        .collect();
    let known: Vec<&Depot> = own_depot.into_iter().chain(depots.iter().flatten()).collect();
    // A depot that can't be used was told already; a crew that names it is not told again.
    let is_complete = own_depot.is_some() && depots.iter().all(Option::is_some);
    let mut crew_names = Names::of(["crew", "crew"], own_crew.map(|crew| crew.name.as_str()));
    let crews: Vec<_> = file
        .sections("further_crews")
        .into_iter()
        .map(|section| {
            crew_names.take(&section);
            further_crew(section, file, &known, is_complete)
        })
        .collect();
    let supplies: Vec<_> = file
        .sections("supply_places")
        .into_iter()
        .map(|section| {
            places.take(&section);
            supply_place(section)
        })
        .collect();
    let crews = crews.into_iter().collect::<Option<_>>();
    let supplies = supplies.into_iter().collect::<Option<_>>();
    Some((crews?, depots.into_iter().collect::<Option<_>>()?, supplies?))
}

/// `general` is the district file itself, which the crew's own tables are laid over.
fn further_crew<'d>(
    mut section: Section<'d>,
    general: &Section<'d>,
    depots: &[&Depot],
    is_complete: bool,
) -> Option<FurtherCrew> {
    let name = section.text("name", IsWrong);
    let depot = section.text("depot", IsNothing).map(|wanted| {
        let found = depots.iter().find(|depot| depot.name == wanted).map(|depot| (*depot).clone());
        if found.is_none() && is_complete {
            let known: Vec<&str> = depots.iter().map(|depot| depot.name.as_str()).collect();
            let wrong = format!("no depot is called `{wanted}`");
            section.report(Refused, "district.depot.unknown", "depot", wrong, suggest::hint(&wanted, &known));
        }
        found
    });
    let shift = section.section_over("shift", general).map(fields::shift);
    let truck = section.section_over("truck", general).map(fields::truck);
    let plant = section.section_over("plant", general).map(fields::plant);
    let devices_owned = section.section_over("devices_owned", general).map(fields::devices_owned);
    let mut section = section.limited_as("crew");
    let people = section.count("people", IsWrong);
    section.finish();
    Some(FurtherCrew {
        crew: Crew { name: name?, people: people? },
        depot: read(depot)?,
        shift: read(shift)?,
        truck: read(truck)?,
        plant: read(plant)?,
        devices_owned: read(devices_owned)?,
    })
}

/// What is written must be usable; what is not written is nothing.
#[allow(clippy::option_option)] // outer: written; inner: usable
fn read<T>(written: Option<Option<T>>) -> Option<Option<T>> {
    written.map_or(Some(None), |usable| usable.map(Some))
}

fn supply_place(mut section: Section) -> Option<SupplyPlace> {
    let name = section.text("name", IsWrong);
    checks::swapped_coordinates(&section);
    let lon = section.number("lon", IsWrong);
    let lat = section.number("lat", IsWrong);
    let says_gives = section.is_given("gives");
    let gives = section.words("gives", SUPPLIED_GOODS, IsNothing).or_else(|| (!says_gives).then(Vec::new));
    let says_spoil = section.is_given("takes_spoil");
    let takes_spoil = section.flag("takes_spoil", IsNothing).or_else(|| (!says_spoil).then_some(false));
    if gives.as_ref().is_some_and(Vec::is_empty) && takes_spoil == Some(false) {
        let key = if says_gives { "gives" } else { "" };
        let wrong = "nothing is loaded there and no spoil is taken".into();
        let right = "write gives = [\"base\", ...] or takes_spoil = true, or delete the place".into();
        section.report(Refused, "district.supply.nothing", key, wrong, right);
    }
    let gives = gives.map(|gives| each_once(&section, &gives));
    gives_both(&section, gives.as_deref().unwrap_or_default());
    let handling = section.quantity("handling", DURATION, IsWrong);
    let open_from = section.is_given("open_from").then(|| section.clock("open_from", IsNothing));
    let open_to = section.is_given("open_to").then(|| section.clock("open_to", IsNothing));
    let (from, to) = (open_from.flatten(), open_to.flatten());
    checks::after(&section, ("open_from", from), ("open_to", to), "district.supply.backwards");
    section.finish();
    Some(SupplyPlace {
        name: name?,
        position: LonLat { lon: lon?, lat: lat? },
        gives: gives?,
        takes_spoil: takes_spoil?,
        handling: handling?,
        open_from: read(open_from)?,
        open_to: read(open_to)?,
    })
}

/// The plan fills the bins with base and cover stone in one call, and the tanks with binder and water in one: a place that
/// has one of two is passed by.
fn gives_both(section: &Section, gives: &[SuppliedGood]) {
    let word =
        |good: SuppliedGood| SUPPLIED_GOODS.iter().find(|(_, known)| *known == good).map_or("", |(word, _)| *word);
    let pairs =
        [("bins", SuppliedGood::Base, SuppliedGood::CoverStone), ("tanks", SuppliedGood::Binder, SuppliedGood::Water)];
    for (what, first, second) in pairs {
        let (has, lacks) = match (gives.contains(&first), gives.contains(&second)) {
            (true, false) => (word(first), word(second)),
            (false, true) => (word(second), word(first)),
            _ => continue,
        };
        let wrong = format!(
            "{has} without {lacks}: the plan fills the {what} with both in one call, so no truck loads {has} here"
        );
        let right = format!("add \"{lacks}\" if it is there too, or delete \"{has}\"");
        section.report(Warning, "district.supply.half", "gives", wrong, right);
    }
}

fn each_once(section: &Section, goods: &[SuppliedGood]) -> Vec<SuppliedGood> {
    let mut once = goods.to_vec();
    once.sort_unstable();
    once.dedup();
    if once.len() < goods.len() {
        let wrong = "the same is given twice".into();
        section.report(Warning, "district.supply.twice", "gives", wrong, "write each once".into());
    }
    once
}

/// Prices hang together by their currency: either all are the agency's own or none is.
pub fn prices(file: &mut Section) -> Option<Prices> {
    let absent = if file.is_given("prices") { IsWrong } else { TakesDefault };
    let mut section = file.section("prices");
    let currency = section.text("currency", absent);
    let is_code = |code: &String| code.len() == 3 && code.bytes().all(|letter| letter.is_ascii_uppercase());
    if let Some(code) = currency.as_ref().filter(|code| !is_code(code)) {
        let wrong = format!("`{code}` is not a currency's code");
        let right = "write its three capital letters (ISO 4217), e.g. \"EUR\"".into();
        section.report(Refused, "district.currency.unreadable", "currency", wrong, right);
    }
    let crew_hour = section.number("crew_hour", absent);
    let truck_km = section.number("truck_km", absent);
    let point_day = section.number("point_day", absent);
    section.finish();
    Some(Prices { currency: currency?, crew_hour: crew_hour?, truck_km: truck_km?, point_day: point_day? })
}

/// Names of one kind of thing, none of which may be taken twice.
struct Names {
    kind: &'static str,
    /// Each with where it was taken.
    taken: BTreeMap<String, String>,
}

impl Names {
    /// The district's own is called by the first word, all of them by the second.
    fn of([own_kind, kind]: [&'static str; 2], own: Option<&str>) -> Self {
        let own = own.map(|name| (name.to_owned(), format!("the district's own {own_kind}")));
        Names { kind, taken: own.into_iter().collect() }
    }

    /// Takes the name of a table, or says that it is taken.
    fn take(&mut self, section: &Section) {
        let Some(name) = section.bare_text("name") else { return };
        if let Some(by) = self.taken.get(&name) {
            let wrong = format!("{by} is called `{name}` too");
            let right = format!("give every {} a name of its own", self.kind);
            section.report(Refused, "district.name.taken", "name", wrong, right);
            return;
        }
        self.taken.insert(name, format!("a {} above in the file", self.kind));
    }
}
