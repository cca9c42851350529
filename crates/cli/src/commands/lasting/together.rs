//! What the record's lives say beside the curves: several properties held together, groups compared within others, failures that
//! are only known to lie between two looks.

use lasting::effects::{AGES_DAYS, BetweenLooks, Effects, between_looks, effects, log_rank_within};
use lasting::log_rank::LogRank;
use lasting::patch_lives::{PatchLife, Property};
use model::rules::lasting::LastingRules;
use serde_json::{Map, Value, json};

use super::Arguments;
use crate::show::Table;

pub(super) struct Together {
    effects: Option<Effects>,
    within: Option<(Property, Option<LogRank>)>,
    between: Vec<BetweenLooks>,
}

impl Together {
    pub(super) fn of(arguments: &Arguments, lives: &[PatchLife], rules: &LastingRules) -> Result<Self, String> {
        let Arguments { factors, within, by, .. } = arguments;
        let held = (!factors.is_empty()).then(|| effects(lives, factors, rules)).transpose();
        Ok(Together {
            effects: held.map_err(|error| format!("the factors can't be held together: {error}"))?,
            within: within.map(|within| (within, log_rank_within(lives, *by, within))),
            between: between_looks(lives, *by, &AGES_DAYS),
        })
    }

    pub(super) fn json(&self) -> Map<String, Value> {
        let within = self.within.map(|(within, test)| json!({"property": within.word(), "log_rank": test}));
        let all = json!({"effects": self.effects, "within": within, "between_looks": self.between});
        if let Value::Object(all) = all { all } else { Map::new() }
    }

    pub(super) fn print(&self, rules: &LastingRules) {
        if let Some((within, test)) = &self.within {
            match test {
                Some(test) => say!(
                    "within {}: chi-square {:.4}, degrees of freedom {}, p = {:.3e}",
                    within.word(),
                    test.chi2,
                    test.df,
                    test.p
                ),
                None => say!("within {}: nothing can be compared", within.word()),
            }
        }
        if !self.between.is_empty() {
            say!(
                "Some failures were found at looks and lie somewhere before them. Part that lasts longer, least to greatest:"
            );
            let mut table = Table::default();
            // the name, then a cell for each age
            let row = |name: &str, cell: &dyn Fn(usize) -> String| -> [String; AGES_DAYS.len() + 1] {
                std::array::from_fn(|at| if at == 0 { name.to_owned() } else { cell(at - 1) })
            };
            table.row(row("group", &|at| format!("{:.0} days", AGES_DAYS[at])));
            for group in &self.between {
                let part = |at: usize| {
                    let [_, least, most] = group.lasting.get(at).copied().unwrap_or([f64::NAN; 3]);
                    format!("{:.0}–{:.0} %", 100.0 * least, 100.0 * most)
                };
                table.row(row(&group.name, &part));
            }
            table.print();
        }
        if let Some(effects) = &self.effects {
            print_effects(effects, rules);
        }
    }
}

fn print_effects(effects: &Effects, rules: &LastingRules) {
    say!("Held together, {} repairs with {} failures:", effects.lives, effects.failures);
    let mut table = Table::default();
    table.row(
        ["property", "group", "repairs", "failed", "fails so often", "lives so long", "p, all together"]
            .map(str::to_owned),
    );
    for effect in &effects.each {
        let times = |[value, low, high]: [f64; 3]| format!("{value:.2} ({low:.2} to {high:.2})");
        table.row([
            effect.property.to_owned(),
            effect.group.clone(),
            effect.lives.to_string(),
            effect.failures.to_string(),
            times(effect.failing),
            times(effect.living),
            format!("{:.4}", effect.p_corrected),
        ]);
    }
    table.print();
    for against in &effects.against {
        let with = if against.with.is_empty() {
            String::new()
        } else {
            format!("; {} count with it, having too few failures", against.with.join(", "))
        };
        say!("{} is held against {}{with}.", against.property, against.group);
    }
    if effects.left_out > 0 {
        say!("{} that ended on the day they began are left out.", effects.left_out);
    }
    for sentence in effects.words(rules) {
        say!("{sentence}");
    }
}
