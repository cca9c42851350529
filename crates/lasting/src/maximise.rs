//! Finds the greatest likelihood with a maintained optimiser (trust region, conjugate gradients inside: J. Nocedal, S. Wright,
//! "Numerical Optimization", algorithms 4.1 and 7.2) from exact first and second derivatives.

use argmin::core::{
    CostFunction, Error, Executor, Gradient, Hessian, IterState, KV, Problem, Solver, TerminationReason,
    TerminationStatus,
};
use argmin::solver::trustregion::{Steihaug, TrustRegion};
use nalgebra::{DMatrix, DVector};

/// Steps at most. Where a likelihood has a top, some ten suffice.
const STEPS: u64 = 200;

/// The top is reached when a further Newton step would gain no more than this in log likelihood.
const GAIN_LEFT: f64 = 1e-9;

/// Unknowns are about 1 large. One that is known no better than this lies on a slope that rises for ever and only looks flat.
const ERROR_MAX: f64 = 100.0;

/// A slope below this, for each life, is flat.
const FLAT: f64 = 1e-10;

/// A log likelihood with its derivatives.
pub(crate) trait LogLikelihood {
    /// How many lives or counts it sums over.
    fn terms(&self) -> usize;
    /// Its value.
    fn value(&self, at: &[f64]) -> f64;
    /// Its slope and its curvature.
    fn derivatives(&self, at: &[f64]) -> (DVector<f64>, DMatrix<f64>);
}

/// The top of a likelihood.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Top {
    /// Where.
    pub at: DVector<f64>,
    /// Log likelihood there.
    pub value: f64,
    /// Inverse of the negative curvature: covariance of the estimates.
    pub covariance: DMatrix<f64>,
}

/// Goes up from a start. `None` where no top is found: the likelihood rises for ever, or is flat along some direction.
pub(crate) fn top<L: LogLikelihood>(likelihood: &L, start: Vec<f64>) -> Option<Top> {
    if !likelihood.value(&start).is_finite() {
        return None;
    }
    let region = TrustRegion::new(Steihaug::new().with_max_iters(start.len() as u64 * 2 + 10));
    let flat = FLAT * likelihood.terms() as f64;
    let solver = UntilFlat { region, flat };
    let run = Executor::new(Negative(likelihood), solver)
        .configure(|state| state.param(start).max_iters(STEPS))
        .timer(false)
        .ctrlc(false)
        .run()
        .ok()?;
    let mut at = DVector::from_vec(run.state.best_param?);
    let mut value = likelihood.value(at.as_slice());
    // The value's last digits no longer tell steps near the top apart; the slope still does.
    for _ in 0..2 {
        let (slope, curvature) = likelihood.derivatives(at.as_slice());
        let step = (-curvature).cholesky()?.solve(&slope);
        let beyond = &at + &step;
        let there = likelihood.value(beyond.as_slice());
        if there.is_finite() && there >= value - GAIN_LEFT {
            (at, value) = (beyond, there);
        }
    }
    let (slope, curvature) = likelihood.derivatives(at.as_slice());
    let falls = (-curvature).cholesky()?;
    let covariance = falls.inverse();
    let gain_left = slope.dot(&falls.solve(&slope)) / 2.0;
    let known = covariance.diagonal().iter().all(|variance| *variance < ERROR_MAX * ERROR_MAX);
    let sound = known && at.iter().chain(covariance.iter()).all(|number| number.is_finite());
    (sound && gain_left.abs() <= GAIN_LEFT * (1.0 + value.abs())).then_some(Top { at, value, covariance })
}

/// What the optimiser makes small.
struct Negative<'l, L>(&'l L);

impl<L: LogLikelihood> CostFunction for Negative<'_, L> {
    type Param = Vec<f64>;
    type Output = f64;

    fn cost(&self, at: &Vec<f64>) -> Result<f64, Error> {
        let value = self.0.value(at);
        Ok(if value.is_nan() { f64::INFINITY } else { -value })
    }
}

impl<L: LogLikelihood> Gradient for Negative<'_, L> {
    type Param = Vec<f64>;
    type Gradient = Vec<f64>;

    fn gradient(&self, at: &Vec<f64>) -> Result<Vec<f64>, Error> {
        Ok((-self.0.derivatives(at).0).as_slice().to_vec())
    }
}

impl<L: LogLikelihood> Hessian for Negative<'_, L> {
    type Param = Vec<f64>;
    type Hessian = Vec<Vec<f64>>;

    fn hessian(&self, at: &Vec<f64>) -> Result<Vec<Vec<f64>>, Error> {
        let (_, curvature) = self.0.derivatives(at);
        Ok(curvature.row_iter().map(|row| row.iter().map(|number| -number).collect()).collect())
    }
}

/// The trust region, ended where the slope is flat: by itself it goes on to its last step.
struct UntilFlat {
    region: TrustRegion<Steihaug<Vec<f64>, f64>, f64>,
    flat: f64,
}

type State = IterState<Vec<f64>, Vec<f64>, (), Vec<Vec<f64>>, (), f64>;

impl<'l, L: LogLikelihood> Solver<Negative<'l, L>, State> for UntilFlat {
    fn name(&self) -> &'static str {
        "trust region until flat"
    }

    fn init(&mut self, problem: &mut Problem<Negative<'l, L>>, state: State) -> Result<(State, Option<KV>), Error> {
        self.region.init(problem, state)
    }

    fn next_iter(
        &mut self,
        problem: &mut Problem<Negative<'l, L>>,
        state: State,
    ) -> Result<(State, Option<KV>), Error> {
        self.region.next_iter(problem, state)
    }

    fn terminate(&mut self, state: &State) -> TerminationStatus {
        let flat = state.get_gradient().is_some_and(|slope| slope.iter().all(|part| part.abs() <= self.flat));
        if flat {
            TerminationStatus::Terminated(TerminationReason::SolverConverged)
        } else {
            TerminationStatus::NotTerminated
        }
    }
}
