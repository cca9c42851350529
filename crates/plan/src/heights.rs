//! Heights of the ground, from whoever has them.

use std::fmt;
use std::sync::Arc;

use model::place::LonLat;
use model::quantity::Length;

/// Looks up the height of the ground at a place; the default knows none.
#[derive(Clone, Default)]
pub struct HeightLookup(Option<Arc<Lookup>>);

type Lookup = dyn Fn(LonLat) -> Option<Length> + Send + Sync;

impl HeightLookup {
    /// Heights by a function: the same place must have the same height each time.
    pub fn new(lookup: impl Fn(LonLat) -> Option<Length> + Send + Sync + 'static) -> Self {
        HeightLookup(Some(Arc::new(lookup)))
    }

    /// The function, if there is one.
    pub(crate) fn get(&self) -> Option<&Lookup> {
        self.0.as_deref()
    }
}

impl fmt::Debug for HeightLookup {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(if self.0.is_some() { "HeightLookup(given)" } else { "HeightLookup(none)" })
    }
}
