//! Measures the search on random problems: objective and sites done, by seed; the spread between seeds shows how near the
//! search comes to its end. Time it from outside. `measure [sites] [iterations]`.

#[path = "../tests/common/mod.rs"]
mod common;

fn main() {
    let argument =
        |index: usize, default: u32| std::env::args().nth(index).map_or(default, |a| a.parse().expect("a number"));
    let (sites, iterations) = (argument(1, 60), argument(2, 50_000));
    for instance in 0..6 {
        let problem = common::random_problem(instance, sites as usize);
        print!("problem {instance}, {:.1} points/h:", problem.points_per_hour);
        for seed in 0..4 {
            let solution = common::solve(&problem, seed, iterations);
            let done: usize = solution.trips.iter().map(Vec::len).sum();
            print!("  {:.4} ({done} in {})", solution.objective, solution.trips.len());
        }
        println!();
    }
}
