//! What money for renewals buys: the choices of every stretch as a problem of sets under a budget, and its curve.

use lasting::stop_patching::{BudgetOption, BudgetSite, Frontier, frontier};
use model::month_report::{BudgetCorner, Choice, StretchChoices};

/// What is to be left as little as possible.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Matters {
    /// Holes to come: each is a risk to whoever drives, and work.
    Holes,
    /// All costs at today's worth.
    Cost,
}

/// Corners of the curve that are told at most; the first, the last and others evenly between.
const CORNERS: usize = 120;

impl Matters {
    fn of(self, choice: &Choice) -> f64 {
        match self {
            Matters::Holes => choice.holes,
            Matters::Cost => choice.cost,
        }
    }
}

/// Every stretch with its choices, patching on first.
pub fn sites(choices: &[StretchChoices], matters: Matters) -> Vec<BudgetSite> {
    let option =
        |choice: &Choice| BudgetOption { name: choice.name.clone(), capital: choice.price, left: matters.of(choice) };
    let site = |stretch: &StretchChoices| BudgetSite {
        name: String::new(),
        options: std::iter::once(&stretch.patch_on).chain(&stretch.renewals).map(option).collect(),
    };
    choices.iter().map(site).collect()
}

/// The choice taken: 0 is patching on.
pub fn choice(stretch: &StretchChoices, taken: usize) -> &Choice {
    taken.checked_sub(1).and_then(|at| stretch.renewals.get(at)).unwrap_or(&stretch.patch_on)
}

/// The curve of money against holes to come.
pub(crate) fn corners(choices: &[StretchChoices]) -> Vec<BudgetCorner> {
    let Frontier { without, left, steps } = frontier(&sites(choices, Matters::Holes));
    let mut taken = without;
    let cost: f64 = choices.iter().zip(&taken).map(|(stretch, taken)| choice(stretch, *taken).cost).sum();
    let mut corners = vec![BudgetCorner { budget: 0.0, stretches: 0, holes: left, cost }];
    let (mut stretches, mut cost) = (0, cost);
    for step in steps {
        let stretch = &choices[step.site];
        stretches += usize::from(taken[step.site] == 0);
        cost += choice(stretch, step.option).cost - choice(stretch, taken[step.site]).cost;
        taken[step.site] = step.option;
        corners.push(BudgetCorner { budget: step.budget, stretches, holes: step.left, cost });
    }
    thinned(&corners)
}

fn thinned(corners: &[BudgetCorner]) -> Vec<BudgetCorner> {
    if corners.len() <= CORNERS {
        return corners.to_vec();
    }
    let last = corners.len() - 1;
    (0..CORNERS).map(|at| corners[at * last / (CORNERS - 1)]).collect()
}
