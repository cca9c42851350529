//! From the texts a road file gives to the attributes of a road, with the class defaults where it gives none.

use std::collections::BTreeMap;

use model::problem::Locator;
use model::quantity::{InLength, InMass, InVelocity, Length, Velocity, kilograms, kilometres_per_hour, metres};
use model::road::{Flow, RoadAttributes, RoadClass, Setting, Surface, TruckAccess};
use model::road_around::StructureKind;
use model::rules::roads::{RoadDefaults, SpeedUnit, WidthUnit};

use super::findings::Findings;
use super::values;

/// What a file says of one road, as text; `None` where it is silent.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct SaidOfRoad {
    pub(super) class: Option<String>,
    pub(super) name: Option<String>,
    pub(super) number: Option<String>,
    pub(super) speed: Option<String>,
    pub(super) lanes: Option<String>,
    pub(super) width: Option<String>,
    pub(super) shoulder: Option<String>,
    pub(super) one_way: Option<String>,
    pub(super) surface: Option<String>,
    pub(super) vehicles_per_day: Option<String>,
    pub(super) setting: Option<String>,
    pub(super) bridge: Option<String>,
    pub(super) tunnel: Option<String>,
    pub(super) junction: Option<String>,
    /// One-way by what it is (a roundabout), unless the file says otherwise.
    pub(super) one_way_by_nature: bool,
    pub(super) limits: SaidOfLimits,
}

/// What a file says of trucks on a road, as text; of several limits in one text the lowest counts.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct SaidOfLimits {
    pub(super) mass: Option<String>,
    pub(super) height: Option<String>,
    pub(super) width: Option<String>,
    pub(super) length: Option<String>,
    /// Whether heavy vehicles may drive there.
    pub(super) heavy: Option<String>,
    pub(super) driving_speed: Option<String>,
}

/// How bare texts of one kind of file are to be taken.
#[derive(Debug, Clone, Copy)]
pub(super) struct Habits {
    pub(super) speed_unit: SpeedUnit,
    pub(super) width_unit: WidthUnit,
    /// Zero in a column of numbers means "not known".
    pub(super) zero_is_unknown: bool,
    /// A file that says nothing of one-way traffic means two-way traffic.
    pub(super) silent_is_two_way: bool,
}

/// The words of the rule set, ready to be looked up.
pub(super) struct Words {
    pub(super) class: WordTable<RoadClass>,
    pub(super) not_a_road: WordTable<()>,
    surface: WordTable<Surface>,
    flow: WordTable<Flow>,
    speed_km_h: WordTable<Option<f64>>,
    setting: WordTable<Setting>,
    /// In the place of a bridge or tunnel: there is none.
    no_structure: WordTable<()>,
    roundabout: WordTable<()>,
    heavy_barred: WordTable<()>,
    /// In the place of a limit: there is none.
    limit_unsaid: WordTable<()>,
}

impl Words {
    pub(super) fn new(rules: &RoadDefaults) -> Self {
        let words = &rules.words;
        let listed = |list: &[String], flow| list.iter().map(|w| (w.clone(), flow)).collect::<Vec<_>>();
        let mut flow = listed(&words.two_way.value, Flow::Both);
        flow.extend(listed(&words.one_way_forward.value, Flow::Forward));
        flow.extend(listed(&words.one_way_backward.value, Flow::Backward));
        let unsaid = words.speed_unsaid.value.iter().map(|word| (word.clone(), None));
        let speeds = words.speed_km_h.value.iter().map(|(word, speed)| (word.clone(), Some(*speed)));
        Words {
            class: WordTable::new(words.class.value.clone()),
            not_a_road: plain_words(&words.not_a_road.value),
            surface: WordTable::new(words.surface.value.clone()),
            flow: WordTable::new(flow),
            speed_km_h: WordTable::new(unsaid.chain(speeds)),
            setting: WordTable::new(words.setting.value.clone()),
            no_structure: plain_words(&words.no_structure.value),
            roundabout: plain_words(&words.roundabout.value),
            heavy_barred: plain_words(&words.heavy_barred.value),
            limit_unsaid: plain_words(&words.limit_unsaid.value),
        }
    }
}

impl Words {
    /// A bridge or tunnel by any word but those that deny it: the open map has many kinds of each.
    fn structure(&self, said: &SaidOfRoad) -> Option<StructureKind> {
        let is = |said: &Option<String>| said.as_deref().is_some_and(|word| self.no_structure.get(word).is_none());
        if is(&said.tunnel) { Some(StructureKind::Tunnel) } else { is(&said.bridge).then_some(StructureKind::Bridge) }
    }
}

/// Words that mean one thing.
fn plain_words(list: &[String]) -> WordTable<()> {
    WordTable::new(list.iter().map(|word| (word.clone(), ())))
}

/// Words and what they mean; looked up without case; `gravel*` stands for every word that begins so.
pub(super) struct WordTable<T> {
    exact: BTreeMap<String, T>,
    /// Longest first.
    beginnings: Vec<(String, T)>,
}

impl<T: Copy> WordTable<T> {
    pub(super) fn new(words: impl IntoIterator<Item = (String, T)>) -> Self {
        let mut table = WordTable { exact: BTreeMap::new(), beginnings: Vec::new() };
        for (word, meaning) in words {
            let word = word.trim().to_lowercase();
            match word.strip_suffix('*') {
                Some(beginning) => table.beginnings.push((beginning.to_owned(), meaning)),
                None => {
                    table.exact.insert(word, meaning);
                }
            }
        }
        table.beginnings.sort_by(|(a, _), (b, _)| b.len().cmp(&a.len()).then_with(|| a.cmp(b)));
        table
    }

    pub(super) fn get(&self, word: &str) -> Option<T> {
        let word = word.trim().to_lowercase();
        self.exact.get(&word).copied().or_else(|| {
            self.beginnings
                .iter()
                .find(|(beginning, _)| word.starts_with(beginning.as_str()))
                .map(|(_, meaning)| *meaning)
        })
    }
}

/// Where a road came from, for what is said about it.
pub(super) struct Whence<'a> {
    pub(super) at: &'a Locator,
    pub(super) subject: &'a str,
}

/// Works out the attributes of one road.
pub(super) fn attributes_of(
    said: &SaidOfRoad,
    habits: Habits,
    rules: &RoadDefaults,
    words: &Words,
    whence: &Whence<'_>,
    findings: &mut Findings,
) -> RoadAttributes {
    let mut filling = Filling { habits, rules, words, whence, findings, defaulted: Vec::new() };
    let class = filling.class(said.class.as_deref());
    let speed_said = filling.speed(said.speed.as_deref());
    let setting = filling.setting(said, speed_said, class);
    let by_class = rules.classes.of(class);
    let speed = speed_said.unwrap_or_else(|| {
        filling.defaulted.push("speed");
        kilometres_per_hour(match setting {
            Setting::Rural => by_class.speed_rural_km_h.value,
            Setting::Urban => by_class.speed_urban_km_h.value,
        })
    });
    let flow = filling.flow(said, class);
    let lanes = filling.lanes(said.lanes.as_deref()).unwrap_or_else(|| {
        filling.defaulted.push("lanes");
        let both = by_class.lanes.value;
        if flow == Flow::Both { both } else { both.div_ceil(2) }.max(1)
    });
    let width = filling.width(said.width.as_deref()).unwrap_or_else(|| {
        filling.defaulted.push("width");
        metres(f64::from(lanes) * by_class.lane_width_m.value)
    });
    let shoulder = filling.shoulder(said.shoulder.as_deref()).unwrap_or_else(|| {
        filling.defaulted.push("shoulder");
        metres(by_class.shoulder_m.value)
    });
    let surface = filling.surface(said.surface.as_deref()).unwrap_or_else(|| {
        filling.defaulted.push("surface");
        by_class.surface.value
    });
    let vehicles_per_day = filling.vehicles_per_day(said.vehicles_per_day.as_deref());
    let truck = filling.truck(&said.limits, class);
    let text = |said: &Option<String>| said.as_deref().map(str::trim).unwrap_or_default().to_owned();
    RoadAttributes {
        class,
        name: text(&said.name),
        number: text(&said.number),
        speed,
        lanes,
        width,
        shoulder,
        flow,
        surface,
        vehicles_per_day,
        setting,
        structure: words.structure(said),
        roundabout: said.junction.as_deref().is_some_and(|word| words.roundabout.get(word).is_some()),
        truck,
        defaulted: filling.defaulted,
    }
}

/// The work on one road: each method answers `None` where nothing usable is said.
struct Filling<'a> {
    habits: Habits,
    rules: &'a RoadDefaults,
    words: &'a Words,
    whence: &'a Whence<'a>,
    findings: &'a mut Findings,
    defaulted: Vec<&'static str>,
}

impl Filling<'_> {
    fn class(&mut self, said: Option<&str>) -> RoadClass {
        if let Some(said) = said {
            if let Some(class) = self.words.class.get(said) {
                return class;
            }
            self.doubt("road.class.unknown_word", "class", said, "a word that the rule set lists under words.class");
        }
        self.defaulted.push("class");
        self.rules.class_unsaid.value
    }

    fn speed(&mut self, said: Option<&str>) -> Option<Velocity> {
        let said = said?;
        let [least, most] = self.rules.plausible.speed_km_h.value;
        if let Some(speed) = values::speed(said, self.habits.speed_unit) {
            let km_h = speed.in_kilometres_per_hour();
            if (least..=most).contains(&km_h) {
                return Some(speed);
            }
            if !(self.habits.zero_is_unknown && km_h <= 0.0) {
                self.doubt("road.speed.absurd", "speed", said, &format!("a speed from {least} to {most} km/h"));
            }
            return None;
        }
        match self.words.speed_km_h.get(said) {
            Some(meant) => meant.map(kilometres_per_hour),
            // A national code such as `XX:rural` names a law, not a number.
            None if said.contains(':') => None,
            None => {
                self.doubt("road.speed.unreadable", "speed", said, "a number, with km/h or mph where it isn't plain");
                None
            }
        }
    }

    fn setting(&mut self, said: &SaidOfRoad, speed: Option<Velocity>, class: RoadClass) -> Setting {
        let by_word = |text: &str| self.words.setting.get(text.rsplit(':').next().unwrap_or(text));
        let national = said.speed.as_deref().filter(|speed| speed.contains(':'));
        if let Some(setting) = said.setting.as_deref().and_then(by_word).or_else(|| national.and_then(by_word)) {
            return setting;
        }
        let urban = &self.rules.urban;
        self.defaulted.push("setting");
        match speed {
            Some(speed) if speed.in_kilometres_per_hour() <= urban.speed_at_most_km_h.value => Setting::Urban,
            None if urban.classes.value.contains(&class) => Setting::Urban,
            _ => Setting::Rural,
        }
    }

    fn flow(&mut self, said: &SaidOfRoad, class: RoadClass) -> Flow {
        if let Some(text) = &said.one_way {
            if let Some(flow) = self.words.flow.get(text) {
                return flow;
            }
            self.doubt(
                "road.one_way.unknown_word",
                "direction",
                text,
                "a word listed under words.one_way or words.two_way",
            );
        }
        if said.one_way_by_nature {
            return Flow::Forward;
        }
        let one_way = self.rules.classes.of(class).one_way.value;
        if one_way || !self.habits.silent_is_two_way {
            self.defaulted.push("flow");
        }
        if one_way { Flow::Forward } else { Flow::Both }
    }

    fn lanes(&mut self, said: Option<&str>) -> Option<u32> {
        let said = said?;
        let [least, most] = self.rules.plausible.lanes.value;
        let lanes = values::lanes(said);
        if lanes.is_none() && self.is_unknown_number(said) {
            return None;
        }
        let good = lanes.filter(|lanes| (least..=most).contains(lanes));
        if good.is_none() {
            self.doubt("road.lanes.absurd", "lanes", said, &format!("a whole number from {least} to {most}"));
        }
        good
    }

    fn width(&mut self, said: Option<&str>) -> Option<Length> {
        let said = said?;
        let range = self.rules.plausible.width_m.value;
        self.length("road.width.absurd", "width", said, range)
    }

    fn shoulder(&mut self, said: Option<&str>) -> Option<Length> {
        let said = said?;
        match said.trim().to_lowercase().as_str() {
            "no" | "none" => Some(metres(0.0)),
            "yes" | "both" | "left" | "right" => None,
            _ => self.length("road.shoulder.absurd", "shoulder", said, self.rules.plausible.shoulder_m.value),
        }
    }

    fn length(&mut self, code: &'static str, what: &str, said: &str, range: [f64; 2]) -> Option<Length> {
        let [least, most] = range;
        let good =
            values::width(said, self.habits.width_unit).filter(|length| (least..=most).contains(&length.in_metres()));
        if good.is_none() && !self.is_unknown_number(said) {
            self.doubt(
                code,
                what,
                said,
                &format!("a width from {least} to {most} m, with m, ft, ' or \" where it isn't plain"),
            );
        }
        good
    }

    fn surface(&mut self, said: Option<&str>) -> Option<Surface> {
        let said = said?;
        let found = said.split(';').find_map(|word| self.words.surface.get(word));
        if found.is_none() {
            self.doubt(
                "road.surface.unknown_word",
                "surface",
                said,
                "a word that the rule set lists under words.surface",
            );
        }
        found
    }

    fn vehicles_per_day(&mut self, said: Option<&str>) -> Option<f64> {
        let said = said?;
        let [least, most] = self.rules.plausible.vehicles_per_day.value;
        let good = values::plain_number(said).filter(|count| (least..=most).contains(count));
        if self.is_unknown_number(said) {
            return None;
        }
        if good.is_none() {
            self.doubt("road.vehicles.absurd", "vehicles a day", said, &format!("a number from {least} to {most}"));
        }
        good
    }

    fn truck(&mut self, said: &SaidOfLimits, class: RoadClass) -> TruckAccess {
        let [least_t, most_t] = self.rules.plausible.limit_mass_t.value;
        let mass =
            self.limit(said.mass.as_deref(), "mass limit", &format!("a mass from {least_t} to {most_t} t"), &|text| {
                values::mass(text).filter(|mass| (least_t..=most_t).contains(&(mass.in_kilograms() / 1000.0)))
            });
        let unit = self.habits.width_unit;
        let [least, most] = self.rules.plausible.limit_length_m.value;
        let right = format!("a length from {least} to {most} m");
        let mut length = |said: &Option<String>, what: &str| {
            self.limit(said.as_deref(), what, &right, &|text| {
                values::width(text, unit).filter(|length| (least..=most).contains(&length.in_metres()))
            })
        };
        let height = length(&said.height, "height limit");
        let width = length(&said.width, "width limit");
        let length = length(&said.length, "length limit");
        let barred = said.heavy.as_deref().is_some_and(|word| self.words.heavy_barred.get(word).is_some());
        let no_heavier_than = barred.then(|| kilograms(1000.0 * self.rules.open_map.heavy_from_t.value));
        let by_class = self.rules.classes.of(class).driving_speed_km_h.as_ref();
        let driving_speed = self
            .driving_speed(said.driving_speed.as_deref())
            .or_else(|| by_class.map(|speed| kilometres_per_hour(speed.value)));
        TruckAccess { mass, height, width, length, no_heavier_than, driving_speed }
    }

    /// The lowest of the limits that a text names.
    fn limit<Q: PartialOrd>(
        &mut self,
        said: Option<&str>,
        what: &str,
        right: &str,
        read: &dyn Fn(&str) -> Option<Q>,
    ) -> Option<Q> {
        let mut lowest: Option<Q> = None;
        for text in said?.split([';', '|']).map(str::trim) {
            match read(text) {
                Some(limit) if lowest.as_ref().is_none_or(|known| limit < *known) => lowest = Some(limit),
                Some(_) => {}
                None if text.is_empty()
                    || self.words.limit_unsaid.get(text).is_some()
                    || self.is_unknown_number(text) => {}
                None => {
                    let shown: String = text.chars().take(60).collect();
                    let right = format!("expected {right}; it is not obeyed");
                    let at = self.whence.at.clone();
                    self.findings.warn(
                        "road.limit.unreadable",
                        at,
                        self.whence.subject,
                        format!("{what} is {shown:?}"),
                        &right,
                    );
                }
            }
        }
        lowest
    }

    fn driving_speed(&mut self, said: Option<&str>) -> Option<Velocity> {
        let said = said?;
        let [least, most] = self.rules.plausible.speed_km_h.value;
        let good = values::speed(said, self.habits.speed_unit)
            .filter(|speed| (least..=most).contains(&speed.in_kilometres_per_hour()));
        if good.is_none() && !self.is_unknown_number(said) {
            let right = format!("a speed from {least} to {most} km/h");
            self.doubt("road.driving_speed.absurd", "driving speed", said, &right);
        }
        good
    }

    fn is_unknown_number(&self, said: &str) -> bool {
        self.habits.zero_is_unknown && values::plain_number(said).is_some_and(|number| number <= 0.0)
    }

    fn doubt(&mut self, code: &'static str, what: &str, said: &str, right: &str) {
        let shown: String = said.chars().take(60).collect();
        let right = format!("expected {right}; the default of the class is used");
        self.findings.warn(code, self.whence.at.clone(), self.whence.subject, format!("{what} is {shown:?}"), &right);
    }
}
