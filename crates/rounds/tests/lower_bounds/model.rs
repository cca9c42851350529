//! A programme as a mixed-integer programme; formulas and symbols stand in handbook/methods/programme.md.

use good_lp::solvers::highs::highs;
use good_lp::{Constraint, Expression, ProblemVariables, Solution, SolverModel, Variable, constraint, variable};
use model::programme::{CrewShift, DAY_S, ProgrammeProblem, ProgrammeSite};
use model::quantity::{InMass, InVolume};

/// How the truck's loads are told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Loads {
    /// One load a shift, followed from site to site: exact where shifts call at no yard on the way.
    One,
    /// As many as a shift needs for all that it brings and takes, each with its time at the yard but no way to it: no
    /// more than the cost of any programme where detours are no shorter than the straight way.
    Several,
}

/// Least cost, money.
///
/// For problems of one yard that gives and takes everything, at any time, without rests and without loads aboard; each
/// window lies within a day.
pub fn least_cost(problem: &ProgrammeProblem, loads: Loads) -> f64 {
    let mut model = Model::new(problem, loads);
    for shift in 0..problem.shifts.len() {
        model.flow(shift);
        model.duration(shift);
        model.rooms(shift);
    }
    for site in 0..problem.sites.len() {
        model.once(site);
    }
    model.solve()
}

struct Model<'a> {
    problem: &'a ProgrammeProblem,
    loads: Loads,
    variables: ProblemVariables,
    constraints: Vec<Constraint>,
    /// Whether a shift drives from place to place, by shift, from, to; none where it can't.
    arcs: Vec<Vec<Vec<Option<Variable>>>>,
    /// Begin of work at a site, on the clock of its day.
    begin: Vec<Variable>,
    /// Its least and greatest value.
    span: Vec<(f64, f64)>,
    /// Seconds from a shift's begin to its end.
    length: Vec<Variable>,
    /// Loads of a shift beyond the first.
    reloads: Vec<Variable>,
}

/// Litres of something for a site.
type Volume = fn(&ProgrammeSite) -> f64;
/// Litres of base and spoil, kilograms of all: what is aboard just after digging.
type Aboard = fn(&ProgrammeSite) -> (f64, f64);

impl<'a> Model<'a> {
    fn new(problem: &'a ProgrammeProblem, loads: Loads) -> Self {
        let mut variables = ProblemVariables::new();
        let places = problem.sites.len() + 1;
        let arcs = problem.shifts.iter().enumerate().map(|(index, shift)| {
            let mut from = |from: usize| -> Vec<Option<Variable>> {
                let there = |to: usize| from != to && may_do(problem, index, from) && may_do(problem, index, to);
                let known = |to: usize| problem.driving[shift.driving].seconds(from, to).is_some();
                (0..places).map(|to| (there(to) && known(to)).then(|| variables.add(variable().binary()))).collect()
            };
            (0..places).map(&mut from).collect()
        });
        let arcs = arcs.collect();
        let span: Vec<(f64, f64)> = problem.sites.iter().map(span).collect();
        let begin = span.iter().map(|&(open, close)| variables.add(variable().min(open).max(close))).collect();
        let length = problem.shifts.iter().map(|_| variables.add(variable().min(0.0))).collect();
        let most = if loads == Loads::One { 0.0 } else { problem.sites.len() as f64 };
        let reloads = problem.shifts.iter().map(|_| variables.add(variable().integer().min(0.0).max(most))).collect();
        Model { problem, loads, variables, constraints: Vec::new(), arcs, begin, span, length, reloads }
    }

    fn depot(&self) -> usize {
        self.problem.sites.len()
    }

    /// 1 if the shift comes to the place.
    fn comes_to(&self, shift: usize, place: usize) -> Expression {
        self.arcs[shift].iter().filter_map(|row| row[place]).sum()
    }

    /// Sum over the sites that the shift does.
    fn total(&self, shift: usize, of: impl Fn(&ProgrammeSite) -> f64) -> Expression {
        (0..self.depot()).map(|site| self.comes_to(shift, site) * of(&self.problem.sites[site])).sum()
    }

    /// Each arc with its ends.
    fn arcs(&self, shift: usize) -> Vec<(usize, usize, Variable)> {
        let rows = self.arcs[shift].iter().enumerate();
        let cells = rows.flat_map(|(from, row)| row.iter().enumerate().map(move |(to, arc)| (from, to, *arc)));
        cells.filter_map(|(from, to, arc)| Some((from, to, arc?))).collect()
    }

    /// Who comes to a place leaves it; a shift goes out once at most.
    fn flow(&mut self, shift: usize) {
        for place in 0..=self.depot() {
            let leaves: Expression = self.arcs[shift][place].iter().flatten().sum();
            self.constraints.push(constraint!(self.comes_to(shift, place) == leaves));
        }
        self.constraints.push(constraint!(self.comes_to(shift, self.depot()) <= 1.0));
        // Implied, but it saves the solver most of its time: nobody drives to a neighbour and back.
        for site in 0..self.depot() {
            self.constraints.push(constraint!(self.comes_to(shift, site) <= self.comes_to(shift, self.depot())));
            for (there, back) in (0..site).map(|other| (self.arcs[shift][site][other], self.arcs[shift][other][site])) {
                let pair: Expression = there.iter().chain(&back).sum();
                self.constraints.push(constraint!(pair <= self.comes_to(shift, site)));
            }
        }
    }

    /// Work follows work, and the shift's length is that of all that is done in it.
    fn duration(&mut self, index: usize) {
        let (shift, depot) = (&self.problem.shifts[index], self.depot());
        let yard = &self.problem.yards[shift.start];
        let (load, tip) = (f64::from(yard.loading_s), f64::from(yard.tipping_s));
        let driving = &self.problem.driving[shift.driving];
        let (from, to) = (on_the_clock(shift, shift.from), on_the_clock(shift, shift.to));
        let all = to - from;
        let mut least = self.comes_to(index, depot) * (load + tip) + self.reloads[index] * (load + tip);
        for (here, there, arc) in self.arcs(index) {
            let way = driving.seconds(here, there).map_or(0.0, f64::from);
            let work = self.problem.sites.get(here).map_or(0.0, |site| service(shift, site));
            least += arc * (way + work);
            // As far as the later of two begins can lag behind the earlier: a clause that is off asks for nothing.
            let earliest = if there == depot { from } else { self.span[there].0 };
            let lag = self.span.get(here).map_or(0.0, |&(_, latest)| latest + work + way + tip - earliest).max(0.0);
            let follows = match (here == depot, there == depot) {
                (true, _) => constraint!(self.begin[there] >= (from + load + way) * arc),
                (_, true) => {
                    let over = self.begin[here] + (work + way + tip - from);
                    constraint!(self.length[index] >= over - lag * (1.0 - arc))
                }
                _ => constraint!(self.begin[there] >= self.begin[here] + (work + way) - lag * (1.0 - arc)),
            };
            self.constraints.push(follows);
        }
        self.constraints.push(constraint!(self.length[index] >= least));
        self.constraints.push(constraint!(self.length[index] <= self.comes_to(index, depot) * all));
    }

    /// A site is done once or left out; its work lies in one of its windows on the day of the shift that does it.
    fn once(&mut self, site: usize) {
        let shifts = 0..self.problem.shifts.len();
        let times: Expression = shifts.clone().map(|shift| self.comes_to(shift, site)).sum();
        self.constraints.push(constraint!(times.clone() <= 1.0));
        let days: Vec<u32> = self.problem.shifts.iter().map(|shift| shift.day).collect();
        let work: Expression = shifts
            .clone()
            .map(|shift| self.comes_to(shift, site) * service(&self.problem.shifts[shift], &self.problem.sites[site]))
            .sum();
        let (mut opens, mut closes) = (Expression::from(0.0), Expression::from(0.0));
        let mut on_day: Vec<(u32, Expression)> = Vec::new();
        for &(open, close) in &self.problem.sites[site].windows {
            let Ok(day) = u32::try_from(open.div_euclid(DAY_S)) else { continue };
            let chosen = self.variables.add(variable().binary());
            let midnight = i64::from(day) * DAY_S;
            opens += chosen * (open - midnight) as f64;
            closes += chosen * (close - midnight) as f64;
            match on_day.iter_mut().find(|(known, _)| *known == day) {
                Some((_, sum)) => *sum += chosen,
                None => on_day.push((day, chosen.into())),
            }
        }
        for (day, chosen) in &on_day {
            let done: Expression =
                shifts.clone().filter(|&shift| days[shift] == *day).map(|shift| self.comes_to(shift, site)).sum();
            self.constraints.push(constraint!(chosen.clone() == done));
        }
        for shift in shifts.filter(|&shift| on_day.iter().all(|(day, _)| *day != days[shift])) {
            self.constraints.push(constraint!(self.comes_to(shift, site) == 0.0));
        }
        let begin = self.begin[site];
        self.constraints.push(constraint!(begin >= opens));
        self.constraints.push(constraint!(begin + work <= closes + DAY_S as f64 * (1.0 - times)));
    }

    fn rooms(&mut self, index: usize) {
        let truck = self.problem.shifts[index].capacity;
        let (base, spoil, shared) =
            (truck.base_volume.in_litres(), truck.spoil_volume.in_litres(), truck.shared_volume.in_litres());
        let loads = self.comes_to(index, self.depot()) + self.reloads[index];
        let sums: [(Volume, f64); 5] = [
            (|site| site.demand.base_volume.in_litres(), base + shared),
            (|site| site.demand.spoil_volume.in_litres(), spoil + shared),
            (|site| site.demand.cover_volume.in_litres(), truck.cover_volume.in_litres()),
            (|site| site.demand.binder_volume.in_litres(), truck.binder_volume.in_litres()),
            (|site| site.demand.water_volume.in_litres(), truck.water_volume.in_litres()),
        ];
        for (of, room) in sums {
            self.constraints.push(constraint!(self.total(index, of) <= loads.clone() * room));
        }
        let body: Aboard = |site| (site.demand.base_volume.in_litres(), site.demand.spoil_volume.in_litres());
        let mass: Aboard = |site| {
            let it = &site.demand;
            let supplies = (it.base_mass + it.cover_mass + it.binder_mass).in_kilograms() + it.water_volume.in_litres();
            (supplies, it.spoil_mass.in_kilograms())
        };
        for (aboard, room) in [(body, base + spoil + shared), (mass, truck.payload.in_kilograms())] {
            if self.loads == Loads::One {
                self.moments(index, aboard, room);
            } else {
                // What is brought, and what is taken, each fit into so many loads.
                self.constraints.push(constraint!(self.total(index, |site| aboard(site).0) <= loads.clone() * room));
                self.constraints.push(constraint!(self.total(index, |site| aboard(site).1) <= loads.clone() * room));
            }
        }
    }

    /// The fullest moment at each site: its spoil is aboard, its supplies are not yet used.
    fn moments(&mut self, index: usize, aboard: Aboard, room: f64) {
        let sites = &self.problem.sites;
        let depot = self.depot();
        let moment: Vec<Variable> = sites.iter().map(|_| self.variables.add(variable().min(0.0).max(room))).collect();
        let loaded = self.total(index, |site| aboard(site).0);
        self.constraints.push(constraint!(loaded.clone() <= room));
        for (from, to, arc) in self.arcs(index) {
            if to == depot {
                continue;
            }
            let before = if from == depot { loaded.clone() } else { moment[from] - aboard(&sites[from]).0 };
            let spoil = aboard(&sites[to]).1;
            self.constraints.push(constraint!(moment[to] >= before + spoil - (room + spoil) * (1.0 - arc)));
        }
    }

    fn cost(&self) -> Expression {
        let mut cost = Expression::from(0.0);
        for (index, shift) in self.problem.shifts.iter().enumerate() {
            cost += self.length[index] * (shift.price_per_hour / 3600.0);
            for (from, to, arc) in self.arcs(index) {
                cost += arc * (self.problem.driving[shift.driving].metres(from, to) / 1000.0 * shift.price_per_km);
            }
            let waiting = |site: &ProgrammeSite| site.waiting.get(shift.day as usize).copied().unwrap_or(0.0);
            cost += self.total(index, |site| waiting(site) - site.left);
        }
        cost + self.problem.sites.iter().map(|site| site.left).sum::<f64>()
    }

    fn solve(self) -> f64 {
        let cost = self.cost();
        let model = self.variables.minimise(cost.clone()).using(highs);
        let mut model = model.set_threads(1).set_mip_rel_gap(0.0).expect("a gap of nothing").set_time_limit(600.0);
        model.set_verbose(false);
        let solution =
            self.constraints.into_iter().fold(model, SolverModel::with).solve().expect("doing nothing is feasible");
        assert!(!matches!(solution.status(), good_lp::solvers::SolutionStatus::TimeLimit), "not solved to the optimum");
        solution.eval(cost)
    }
}

/// Whether the shift may work there, or it is the depot.
fn may_do(problem: &ProgrammeProblem, shift: usize, place: usize) -> bool {
    let Some(site) = problem.sites.get(place) else { return true };
    site.shifts.as_ref().is_none_or(|shifts| shifts.contains(&shift))
        && site.service_s.get(problem.shifts[shift].work_class).copied().flatten().is_some()
}

/// First opening and last closing on the clock of any day.
fn span(site: &ProgrammeSite) -> (f64, f64) {
    let midnight = |second: i64| second.div_euclid(DAY_S) * DAY_S;
    let within = site.windows.iter().all(|&(open, close)| midnight(open) == midnight(close));
    assert!(within, "a window across midnight: {:?}", site.windows);
    let open = site.windows.iter().map(|&(open, _)| open - midnight(open)).min();
    let close = site.windows.iter().map(|&(open, close)| close - midnight(open)).max();
    (open.unwrap_or(0) as f64, close.unwrap_or(DAY_S) as f64)
}

fn service(shift: &CrewShift, site: &ProgrammeSite) -> f64 {
    site.service_s.get(shift.work_class).copied().flatten().map_or(0.0, f64::from)
}

fn on_the_clock(shift: &CrewShift, second: i64) -> f64 {
    (second - i64::from(shift.day) * DAY_S) as f64
}
