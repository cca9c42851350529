//! The search against `PyVRP` 0.14.1 (a general vehicle-routing library from the Python package index) on rounds that it can
//! state: one vehicle, windows, worths, several trips. `reference/pyvrp_rounds.py` makes the instances and that library's
//! objectives, best of two runs of 8 s each.

mod common;

use common::{checker, huge_truck, plain_site, problem_at, solve};
use model::quantity::litres;
use model::round::{RoundProblem, SecondOfDay};
use serde_json::Value;

#[test]
fn within_one_per_cent_of_pyvrp_or_better() {
    let text = include_str!("reference/pyvrp_rounds.json");
    let rows: Vec<Value> = serde_json::from_str(text).expect("the committed instances are JSON");
    assert!(rows.len() >= 15);
    let mut worse = Vec::new();
    for row in &rows {
        let problem = problem(row);
        let solution = solve(&problem, 1, 30_000);
        checker::check(&problem, &solution);
        let theirs = number(&row["pyvrp_objective"]);
        let gap = solution.objective / theirs - 1.0;
        println!("{}: ours {:.0}, PyVRP {theirs:.0}, gap {:+.2} %", row["name"], solution.objective, 100.0 * gap);
        if gap > 0.01 {
            worse.push(row["name"].to_string());
        }
    }
    assert!(worse.is_empty(), "more than 1 % above PyVRP: {worse:?}");
}

fn problem(row: &Value) -> RoundProblem {
    let list = |value: &Value| value.as_array().expect("a list").clone();
    let second = |value: &Value| SecondOfDay(number(value) as u32);
    let sites = list(&row["sites"]).into_iter().map(|site| {
        let mut new = plain_site(number(&site["service_s"]) as u32, number(&site["worth"]));
        new.windows = list(&site["windows"]).iter().map(|w| (second(&w[0]), second(&w[1]))).collect();
        new.demand.base_volume = litres(number(&site["base_l"]));
        new
    });
    let sites: Vec<_> = sites.collect();
    let mut problem = problem_at(&vec![(0.0, 0.0); sites.len() + 1], sites);
    problem.travel_s =
        list(&row["travel_s"]).iter().map(|r| list(r).iter().map(|s| number(s) as u32).collect()).collect();
    problem.shift_start = second(&row["shift"][0]);
    problem.shift_end = second(&row["shift"][1]);
    problem.loading_s = number(&row["loading_s"]) as u32;
    problem.tipping_s = 0;
    problem.points_per_hour = 3600.0;
    problem.capacity = huge_truck();
    if let Some(room) = row["base_room_l"].as_f64() {
        problem.capacity.base_volume = litres(room);
        problem.capacity.shared_volume = litres(0.0);
    }
    problem
}

fn number(value: &Value) -> f64 {
    value.as_f64().expect("a number")
}
