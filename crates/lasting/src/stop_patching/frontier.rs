//! The curve of budget against what is left, from its corners: at each, no set of options for that money leaves less.
//!
//! Between corners whole sections can't be renewed in part, so the best set lies on or above the straight line from corner to
//! corner: the line is a bound for it (the linear programme of the multiple-choice knapsack; from memory, E. Zemel, 1980).

use serde::Serialize;

/// A section with what may be done; one of its options is taken. The first should be to patch on, which needs no capital.
#[derive(Debug, Clone, PartialEq)]
pub struct BudgetSite {
    /// Its name.
    pub name: String,
    /// At least one.
    pub options: Vec<BudgetOption>,
}

/// Something that may be done with a section.
#[derive(Debug, Clone, PartialEq)]
pub struct BudgetOption {
    /// Its name.
    pub name: String,
    /// What it takes of the budget.
    pub capital: f64,
    /// What is left of what matters: risk over the years, or cost over them at today's worth.
    pub left: f64,
}

/// The best set under one budget.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BudgetPoint {
    /// The budget.
    pub budget: f64,
    /// What it takes of it.
    pub spent: f64,
    /// What is left of what matters, all sections together.
    pub left: f64,
    /// For each section the option taken, by its place.
    pub taken: Vec<usize>,
}

/// A corner of the curve: the renewal that is added to those before it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct FrontierStep {
    /// The section, by its place.
    pub site: usize,
    /// What is done with it from here on, by its place among the options.
    pub option: usize,
    /// Money that all up to here takes.
    pub budget: f64,
    /// What is left of what matters.
    pub left: f64,
}

/// The curve of budget against what is left.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Frontier {
    /// What is done with each section without any budget, by its place among the options.
    pub without: Vec<usize>,
    /// What is then left.
    pub left: f64,
    /// What more money buys, what it buys most with first.
    pub steps: Vec<FrontierStep>,
}

/// Works the curve out. Each section's first option needs no capital, or the cheapest stands for it.
pub fn frontier(sites: &[BudgetSite]) -> Frontier {
    let mut without = Vec::with_capacity(sites.len());
    let mut left = 0.0;
    // what a step gains for its money, then which
    let mut gains: Vec<(f64, FrontierStep)> = Vec::new();
    let mut spent = 0.0;
    for (site, options) in sites.iter().enumerate() {
        let corners = corners(&options.options);
        let Some(first) = corners.first() else {
            without.push(0);
            continue;
        };
        without.push(*first);
        let of = |at: usize| &options.options[at];
        left += of(*first).left;
        spent += of(*first).capital;
        for pair in corners.windows(2) {
            let (capital, less) = (of(pair[1]).capital - of(pair[0]).capital, of(pair[0]).left - of(pair[1]).left);
            gains.push((less / capital, FrontierStep { site, option: pair[1], budget: capital, left: less }));
        }
    }
    // a section's own steps gain less and less, so that sorting keeps their order
    gains.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.site.cmp(&b.1.site)).then(a.1.budget.total_cmp(&b.1.budget)));
    let (mut budget, mut remains) = (spent, left);
    let steps = gains.into_iter().map(|(_, step)| {
        budget += step.budget;
        remains -= step.left;
        FrontierStep { budget, left: remains, ..step }
    });
    Frontier { without, steps: steps.collect(), left }
}

impl Frontier {
    /// The set that the corners up to a budget make: the best for the money it takes.
    pub fn set(&self, budget: f64) -> BudgetPoint {
        let mut point = BudgetPoint { budget, spent: 0.0, left: self.left, taken: self.without.clone() };
        for step in self.steps.iter().take_while(|step| step.budget <= budget) {
            point.taken[step.site] = step.option;
            (point.spent, point.left) = (step.budget, step.left);
        }
        point
    }

    /// No set that the budget bears leaves less.
    pub fn bound(&self, budget: f64) -> f64 {
        let mut before = (0.0, self.left);
        for step in &self.steps {
            if step.budget > budget {
                let part = ((budget - before.0) / (step.budget - before.0)).clamp(0.0, 1.0);
                return before.1 + part * (step.left - before.1);
            }
            before = (step.budget, step.left);
        }
        before.1
    }
}

/// Options that are worth their money, from the cheapest on: each leaves less than the one before, and gains less for its money.
fn corners(options: &[BudgetOption]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..options.len()).collect();
    order.sort_by(|a, b| {
        let (a, b) = (&options[*a], &options[*b]);
        a.capital.total_cmp(&b.capital).then(a.left.total_cmp(&b.left))
    });
    let gain = |from: usize, to: usize| {
        (options[from].left - options[to].left) / (options[to].capital - options[from].capital)
    };
    let mut corners: Vec<usize> = Vec::new();
    for at in order {
        if corners.last().is_some_and(|last| {
            options[at].left >= options[*last].left || options[at].capital <= options[*last].capital
        }) {
            continue;
        }
        while let [.., before, last] = corners[..]
            && gain(last, at) >= gain(before, last)
        {
            corners.pop();
        }
        corners.push(at);
    }
    corners
}
