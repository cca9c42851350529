//! Names of groups, numbered as they first stand.

use std::collections::HashMap;

/// More groups than this can't be told apart by anybody; most likely the column holds numbers of repairs.
pub const GROUPS_MAX: usize = 1000;

/// What a group's name can be wrong in.
pub enum GroupFault {
    NotUtf8,
    /// It is one group too many.
    TooMany(String),
}

/// The names so far.
#[derive(Default)]
pub struct GroupNames {
    pub names: Vec<String>,
    known: HashMap<Vec<u8>, u32>,
}

impl GroupNames {
    /// Number of the group of that name; a name that stands for the first time gets the next.
    pub fn number(&mut self, name: &[u8]) -> Result<u32, GroupFault> {
        if let Some(group) = self.known.get(name) {
            return Ok(*group);
        }
        let text = std::str::from_utf8(name).map_err(|_| GroupFault::NotUtf8)?;
        if self.names.len() == GROUPS_MAX {
            return Err(GroupFault::TooMany(text.to_owned()));
        }
        self.names.push(if text.is_empty() { "(none)".to_owned() } else { text.to_owned() });
        let next = self.known.len() as u32;
        self.known.insert(name.to_vec(), next);
        Ok(next)
    }
}
