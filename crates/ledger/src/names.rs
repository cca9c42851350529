//! Places and items by short numbers, so that millions of moves share them.

use std::collections::HashMap;
use std::hash::Hash;
use std::sync::Arc;

/// Values by number, each held once.
#[derive(Debug)]
pub struct Names<T> {
    numbers: HashMap<Arc<T>, usize>,
    all: Vec<Arc<T>>,
}

impl<T: Hash + Eq + Clone> Names<T> {
    /// None yet.
    pub fn new() -> Self {
        Self { numbers: HashMap::new(), all: Vec::new() }
    }

    /// The number of a value, which it gets if it has none.
    pub fn number(&mut self, value: &T) -> usize {
        if let Some(number) = self.numbers.get(value) {
            return *number;
        }
        let shared = Arc::new(value.clone());
        self.all.push(Arc::clone(&shared));
        self.numbers.insert(shared, self.all.len() - 1);
        self.all.len() - 1
    }

    /// Where in the order of the values each stands, by number.
    pub fn ranks(&self) -> Vec<usize>
    where
        T: Ord,
    {
        let mut order: Vec<usize> = (0..self.all.len()).collect();
        order.sort_unstable_by(|a, b| self.all[*a].cmp(&self.all[*b]));
        let mut ranks = vec![0; order.len()];
        for (rank, number) in order.into_iter().enumerate() {
            ranks[number] = rank;
        }
        ranks
    }

    /// The value of a number given out.
    pub fn value(&self, number: usize) -> &Arc<T> {
        &self.all[number]
    }
}
