//! `bench lasting --lives 10000000 --groups 4 --seed 1 --json [--write FOLDER]`: curves and log-rank of made lives by group; with
//! `--write` the lives as raw columns, for a peer. `bench lasting --sections 50000 --futures 1000 --years 20 --json`: patching on
//! against renewing.

use std::fs;
use std::path::PathBuf;

use lasting::groups::group_curves;
use lasting::stop_patching::{PatchLaw, Renewal, SectionCase, StopSettings, outlooks};
use model::life::{LifeRow, LifeRows};
use model::rules::lasting::LastingRules;
use rand::{RngExt, SeedableRng};
use rand_pcg::Pcg64Mcg;

use crate::now;
use crate::usage::{cpu_seconds, peak_memory_mb, rounded};

pub const USAGE: &str = "lasting [--lives 10000000 [--groups 4] [--exact] [--write FOLDER] | --sections 50000 [--futures 1000] [--years 20]] [--seed 1] [--json]";

/// Repairs are watched for up to this many days.
const WATCHED_DAYS: f64 = 3650.0;

struct Asked {
    lives: usize,
    groups: u32,
    exact: bool,
    write: Option<PathBuf>,
    sections: Option<usize>,
    futures: usize,
    years: usize,
    seed: u64,
    json: bool,
}

/// Runs the command; an error is a sentence for the reader.
pub fn run(arguments: impl Iterator<Item = String>) -> Result<(), String> {
    let asked = asked(arguments).ok_or_else(|| format!("usage: bench {USAGE}"))?;
    let table = match asked.sections {
        Some(sections) => futures(&asked, sections)?,
        None => curves(&asked)?,
    };
    if asked.json {
        println!("{table}");
    } else {
        println!("{table:#}");
    }
    Ok(())
}

fn asked(mut given: impl Iterator<Item = String>) -> Option<Asked> {
    let mut asked = Asked {
        lives: 10_000_000,
        groups: 4,
        exact: false,
        write: None,
        sections: None,
        futures: 1000,
        years: 20,
        seed: 1,
        json: false,
    };
    while let Some(name) = given.next() {
        match name.as_str() {
            "--json" => asked.json = true,
            "--exact" => asked.exact = true,
            "--lives" => asked.lives = given.next()?.parse().ok()?,
            "--groups" => asked.groups = given.next()?.parse().ok().filter(|groups| (1..=200).contains(groups))?,
            "--write" => asked.write = Some(given.next()?.into()),
            "--sections" => asked.sections = Some(given.next()?.parse().ok()?),
            "--futures" => asked.futures = given.next()?.parse().ok()?,
            "--years" => asked.years = given.next()?.parse().ok()?,
            "--seed" => asked.seed = given.next()?.parse().ok()?,
            _ => return None,
        }
    }
    Some(asked)
}

/// Weibull lives in whole days (`--exact`: to the last digit), each group's a twentieth longer than the one before, watched for
/// any time.
fn made_lives(asked: &Asked) -> LifeRows {
    let mut chance = Pcg64Mcg::seed_from_u64(asked.seed);
    let rows = (0..asked.lives).map(|_| {
        let group = chance.random_range(0..asked.groups);
        let scale = 900.0 * (1.0 + 0.05 * f64::from(group));
        let life = scale * (-(1.0 - chance.random::<f64>()).ln()).powf(1.0 / 1.3);
        let watched = WATCHED_DAYS * chance.random::<f64>();
        let duration = life.min(watched);
        let duration = if asked.exact { duration } else { duration.ceil() };
        LifeRow { duration, group, failed: life <= watched }
    });
    LifeRows { rows: rows.collect(), groups: (0..asked.groups).map(|group| format!("group {group}")).collect() }
}

fn curves(asked: &Asked) -> Result<serde_json::Value, String> {
    let lives = made_lives(asked);
    if let Some(folder) = &asked.write {
        let said = |error: std::io::Error| format!("{}: {error}", folder.display());
        fs::create_dir_all(folder).map_err(said)?;
        let durations: Vec<u8> = lives.rows.iter().flat_map(|row| row.duration.to_le_bytes()).collect();
        fs::write(folder.join("durations.f64"), durations).map_err(said)?;
        let bytes = |of: fn(&LifeRow) -> u8| lives.rows.iter().map(of).collect::<Vec<u8>>();
        fs::write(folder.join("failed.u8"), bytes(|row| u8::from(row.failed))).map_err(said)?;
        fs::write(folder.join("groups.u8"), bytes(|row| row.group as u8)).map_err(said)?;
    }
    let path = testkit::in_repository("rules/lasting/common-practice.toml");
    let text = fs::read_to_string(path).map_err(|error| error.to_string())?;
    let rules: LastingRules = toml::from_str(&text).map_err(|error| error.to_string())?;
    let memory = peak_memory_mb();
    let (start, cpu) = (now(), cpu_seconds());
    let found = group_curves(&lives, &rules).map_err(|error| error.to_string())?;
    let seconds = start.elapsed().as_secs_f64();
    let medians: Vec<Option<f64>> = found.groups.iter().map(|group| group.median).collect();
    let at_a_year = found.groups.iter().map(|group| {
        let at = group.times.partition_point(|time| *time <= 365.0);
        at.checked_sub(1).map(|at| group.survival[at])
    });
    Ok(serde_json::json!({
        "lives": asked.lives,
        "groups": asked.groups,
        "steps": found.groups.iter().map(|group| group.times.len()).sum::<usize>(),
        "seconds": rounded(seconds),
        "cpu_seconds": rounded(cpu_seconds() - cpu),
        "memory_before_mb": rounded(memory),
        "memory_mb": rounded(peak_memory_mb()),
        "medians": medians,
        "survival_at_365": at_a_year.collect::<Vec<_>>(),
        "chi2": found.log_rank.map(|test| test.chi2),
    }))
}

/// Invented sections: 0.2 to 6 holes a year, repairs that live about three years, a reseal and a new base.
fn futures(asked: &Asked, sections: usize) -> Result<serde_json::Value, String> {
    let mut chance = Pcg64Mcg::seed_from_u64(asked.seed);
    let cases: Vec<SectionCase> = (0..sections)
        .map(|at| {
            let km = 0.3 + 1.5 * chance.random::<f64>();
            let renewal = |name: &str, cost, rate_left, life_years| Renewal {
                name: name.into(),
                cost: cost * km,
                rate_left,
                life_years,
            };
            SectionCase {
                name: format!("section {at}"),
                holes_per_year: 0.2 + 5.8 * chance.random::<f64>().powi(3),
                rate_shape: 3.0 + 5.0 * chance.random::<f64>(),
                yearly_growth: 0.08,
                yearly_growth_sd: 0.03,
                law: at % 3,
                repair_cost: 350.0,
                renewals: vec![renewal("reseal", 24_000.0, 0.3, 9.0), renewal("new base", 110_000.0, 0.05, 25.0)],
            }
        })
        .collect();
    let laws: Vec<PatchLaw> = [1.5, 3.0, 5.0].into_iter().filter_map(|scale| PatchLaw::weibull(scale, 1.2)).collect();
    let settings = StopSettings {
        years: asked.years,
        discount_rate: 0.04,
        weather_sd: 0.3,
        futures: asked.futures,
        seed: asked.seed,
    };
    let (start, cpu) = (now(), cpu_seconds());
    let found = outlooks(&cases, &laws, &settings).map_err(|error| error.to_string())?;
    let renewed = found.iter().filter(|section| section.renewals.iter().any(|way| way.best_year.is_some())).count();
    Ok(serde_json::json!({
        "sections": sections,
        "futures": asked.futures,
        "years": asked.years,
        "seconds": rounded(start.elapsed().as_secs_f64()),
        "cpu_seconds": rounded(cpu_seconds() - cpu),
        "memory_mb": rounded(peak_memory_mb()),
        "to_renew": renewed,
    }))
}
