//! The project's chores, in the project's own language: `cargo xtask demo | serve-demo | web | test | bench | fuzz | tidy | deny | with-postgres | demo-district`.

mod chores;
mod demo_district;
mod demo_holes;
mod deny;
mod fuzz;
mod postgres;
mod room;
mod tidy;
mod tools;
mod web;

use std::process::ExitCode;

const USAGE: &str = "usage: cargo xtask <chore>
  demo           set up, plan the invented district's day, say where the job pack lies
  serve-demo     serve the invented district with people and phones, to look at in a browser
  web            build the web app, which the next build of the program takes in
  test           set up, then format, lints, house rules, all tests
  bench          measure whole runs (release build) and print the table of bench/README.md
  fuzz           feed the readers with damaged files (nightly compiler): [seconds] [target ...]
  tidy           house rules only
  deny           licences, sources and known weaknesses of dependencies only
  with-postgres  run a command, such as a single crate's tests, beside a PostgreSQL of its own: <command>
  demo-district  write the invented district's roads, holes and records again (same seed, same files)
";

fn main() -> ExitCode {
    let mut arguments = std::env::args().skip(1);
    let chore = arguments.next().unwrap_or_default();
    let rest: Vec<String> = arguments.collect();
    let outcome = match chore.as_str() {
        "demo" => chores::demo(&rest),
        "serve-demo" => chores::serve_demo(),
        "web" => web::build(),
        "test" => chores::test(&rest),
        "bench" => chores::bench(),
        "fuzz" => fuzz::fuzz(&rest),
        "tidy" => tidy::run(),
        "deny" => deny::deny(),
        "with-postgres" => postgres::with_postgres(&rest),
        "demo-district" => demo_district::write(),
        _ => {
            eprint!("{USAGE}");
            return ExitCode::from(2);
        }
    };
    match outcome {
        Ok(()) => ExitCode::SUCCESS,
        Err(message) => {
            eprintln!("xtask {chore}: {message}");
            ExitCode::FAILURE
        }
    }
}
