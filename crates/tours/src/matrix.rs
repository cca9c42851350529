//! Distances or times between places, in whole units of the caller's choice.

use crate::problem::ProblemError;

/// What it takes to go from each place to each other one. Need not be symmetric and may break the triangle inequality.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Matrix {
    size: usize,
    values: Vec<i32>,
}

/// Two of them still fit into their type.
const NO_WAY: i32 = 1 << 29;

impl Matrix {
    /// Stands for "there is no way from here to there".
    pub const NO_WAY: i32 = NO_WAY;

    /// The greatest entry of a real way; sums of a whole tour stay far from overflow.
    pub const GREATEST: i32 = NO_WAY / 4;

    /// `values` row by row: entry `from * size + to`. Each is 0 to [`Matrix::GREATEST`], or [`Matrix::NO_WAY`].
    pub fn new(size: usize, values: Vec<i32>) -> Result<Self, ProblemError> {
        if values.len() != size * size {
            return Err(ProblemError::MatrixSize { size, values: values.len() });
        }
        if let Some(at) = values.iter().position(|&value| value < 0 || (value > Self::GREATEST && value != NO_WAY)) {
            return Err(ProblemError::MatrixEntry { from: at / size, to: at % size, value: values[at] });
        }
        Ok(Self { size, values })
    }

    /// Every entry by a function of from and to.
    pub fn from_fn(size: usize, mut entry: impl FnMut(usize, usize) -> i32) -> Result<Self, ProblemError> {
        let values = (0..size * size).map(|at| entry(at / size, at % size)).collect();
        Self::new(size, values)
    }

    /// Number of places.
    pub fn size(&self) -> usize {
        self.size
    }

    /// From place to place.
    #[inline]
    pub fn get(&self, from: usize, to: usize) -> i32 {
        self.values[from * self.size + to]
    }

    /// All entries from one place.
    #[inline]
    pub(crate) fn row(&self, from: usize) -> &[i32] {
        &self.values[from * self.size..(from + 1) * self.size]
    }

    pub(crate) fn transposed(&self) -> Self {
        let values = (0..self.size * self.size).map(|at| self.get(at % self.size, at / self.size)).collect();
        Self { size: self.size, values }
    }
}
