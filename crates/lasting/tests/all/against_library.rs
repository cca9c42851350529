//! Public data, when it is there, against lifelines 0.30.3.

use std::collections::BTreeMap;
use std::path::Path;

use lasting::accelerated::{AcceleratedFit, INTERCEPT, LOG_SHAPE, LifeFamily};
use lasting::groups::group_curves;
use lasting::proportional::ProportionalFit;
use lasting::regression::{CovariateLife, CovariateLives};
use model::life::{LifeRow, LifeRows};
use serde::Deserialize;

use crate::support::{assert_all_near, assert_near, rules, shared_data};

#[derive(Deserialize)]
struct Expected {
    groups: BTreeMap<String, Group>,
    log_rank: Test,
    cox_efron: Option<Cox>,
    weibull_aft: Option<BTreeMap<String, f64>>,
    weibull_aft_loglik: Option<f64>,
}

#[derive(Deserialize)]
struct Group {
    n: u64,
    failures: u64,
    times: Vec<f64>,
    survival: Vec<f64>,
    lower_loglog95: Vec<f64>,
    upper_loglog95: Vec<f64>,
    median: Option<f64>,
}

#[derive(Deserialize)]
struct Test {
    chi2: f64,
    df: usize,
    p: f64,
}

#[derive(Deserialize)]
struct Cox {
    coef: BTreeMap<String, f64>,
    se: BTreeMap<String, f64>,
    log_likelihood: f64,
}

type Table = Vec<BTreeMap<String, String>>;

fn read(path: &Path) -> Table {
    csv::Reader::from_path(path).unwrap().deserialize().map(Result::unwrap).collect()
}

fn number(row: &BTreeMap<String, String>, column: &str) -> f64 {
    row[column].parse().unwrap()
}

fn expected(folder: &Path, name: &str) -> (Table, Expected) {
    let text = std::fs::read_to_string(folder.join(format!("{name}.expected.json"))).unwrap();
    (read(&folder.join(format!("{name}.csv"))), serde_json::from_str(&text).unwrap())
}

#[test]
fn curves_and_test() {
    let Some(data) = shared_data() else { return };
    for name in ["leukemia_6mp", "rossi", "waltons"] {
        let (table, expected) = expected(&data.join("survival"), name);
        let groups: Vec<String> = expected.groups.keys().cloned().collect();
        let rows = table.iter().map(|row| LifeRow {
            duration: number(row, "duration"),
            failed: row["event"] == "1",
            group: groups.iter().position(|group| *group == row["group"]).unwrap() as u32,
        });
        let curves = group_curves(&LifeRows { rows: rows.collect(), groups }, &rules()).unwrap();
        for ours in &curves.groups {
            let theirs = &expected.groups[&ours.name];
            assert_eq!((ours.n, ours.failures, ours.median), (theirs.n, theirs.failures, theirs.median), "{name}");
            assert_all_near(&ours.times, &theirs.times, 0.0, name);
            assert_all_near(&ours.survival, &theirs.survival, 1e-9, name);
            assert_all_near(&ours.lower, &theirs.lower_loglog95, 1e-9, name);
            assert_all_near(&ours.upper, &theirs.upper_loglog95, 1e-9, name);
        }
        let test = curves.log_rank.unwrap();
        assert_near(test.chi2, expected.log_rank.chi2, 1e-8, name);
        assert_eq!(test.df, expected.log_rank.df);
        assert_near(test.p / expected.log_rank.p, 1.0, 1e-6, name);
    }
}

#[test]
fn regressions() {
    let Some(data) = shared_data() else { return };
    for name in ["leukemia_6mp", "rossi"] {
        let (table, expected) = expected(&data.join("survival"), name);
        let cox = expected.cox_efron.unwrap();
        let names: Vec<String> = cox.coef.keys().cloned().collect();
        let lives = table.iter().map(|row| CovariateLife {
            duration: number(row, "duration"),
            failed: row["event"] == "1",
            covariates: names.iter().map(|name| number(row, name)).collect(),
        });
        let lives = CovariateLives { lives: lives.collect(), names };

        let fit = ProportionalFit::of(&lives).unwrap().coefficients;
        assert_near(fit.log_likelihood, cox.log_likelihood, 1e-6, name);
        for ours in &fit.each {
            assert_near(ours.value, cox.coef[&ours.name], 1e-4, &ours.name);
            assert_near(ours.error, cox.se[&ours.name], 1e-4, &ours.name);
        }

        let fit = AcceleratedFit::of(LifeFamily::Weibull, &lives).unwrap().coefficients;
        assert_near(fit.log_likelihood, expected.weibull_aft_loglik.unwrap(), 1e-6, name);
        let theirs = expected.weibull_aft.unwrap();
        for ours in &fit.each {
            let key = match ours.name.as_str() {
                INTERCEPT => "lambda_.Intercept".to_owned(),
                LOG_SHAPE => "rho_.Intercept".to_owned(),
                name => format!("lambda_.{name}"),
            };
            assert_near(ours.value, theirs[&key], 1e-4, &key);
        }
    }
}
