//! Under a budget: which sections to renew, and how, so that least is left of what matters (`HiGHS`).

use good_lp::{Expression, ProblemVariables, Solution, SolverModel, Variable, constraint, highs, variable};

use super::{BudgetOption, BudgetPoint, BudgetSite, StopError};

/// The set of options with which least is left and whose capital the budget bears.
///
/// # Errors
/// No set does: some section has no option that needs no capital, and the budget is too small.
pub fn best_set(sites: &[BudgetSite], budget: f64) -> Result<BudgetPoint, StopError> {
    let mut variables = ProblemVariables::new();
    let takes: Vec<Vec<Variable>> =
        sites.iter().map(|site| site.options.iter().map(|_| variables.add(variable().binary())).collect()).collect();
    let sum = |of: fn(&BudgetOption) -> f64| {
        let terms = sites.iter().zip(&takes).flat_map(|(site, takes)| site.options.iter().zip(takes));
        terms.map(|(option, take)| of(option) * *take).sum::<Expression>()
    };
    let mut model = variables.minimise(sum(|option| option.left)).using(highs);
    model.set_verbose(false);
    let mut model = model.with(constraint!(sum(|option| option.capital) <= budget));
    for takes in &takes {
        model = model.with(constraint!(takes.iter().copied().sum::<Expression>() == 1.0));
    }
    let solution = model.solve().map_err(|error| StopError::Budget(error.to_string()))?;
    let chosen = |takes: &Vec<Variable>| takes.iter().position(|take| solution.value(*take) > 0.5);
    let taken: Vec<usize> = takes.iter().map(|takes| chosen(takes).unwrap_or(0)).collect();
    let total = |of: fn(&BudgetOption) -> f64| {
        sites.iter().zip(&taken).map(|(site, at)| site.options.get(*at).map_or(0.0, of)).sum()
    };
    Ok(BudgetPoint { budget, spent: total(|option| option.capital), left: total(|option| option.left), taken })
}

/// The best sets of several budgets: the curve of budget against what is left.
///
/// # Errors
/// As [`best_set`].
pub fn budget_curve(sites: &[BudgetSite], budgets: &[f64]) -> Result<Vec<BudgetPoint>, StopError> {
    budgets.iter().map(|budget| best_set(sites, *budget)).collect()
}
