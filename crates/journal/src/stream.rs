//! The whole record, piece by piece: what is read is dropped before the next piece comes.

use model::record::event::Event;
use model::record::known::Known;

use crate::journal::{Journal, JournalError};
use crate::read::Query;

/// Subjects read at a time.
const KNOWN_AT_A_TIME: u32 = 1_000;

/// Events read at a time.
const EVENTS_AT_A_TIME: u32 = 10_000;

impl Journal {
    /// Gives everything that is known of a kind (`hole`, `repair`, `zone`, `round`), one after the other, in the order of their
    /// numbers.
    pub async fn each_known(
        &self,
        what: &'static str,
        take: &mut (dyn FnMut(&Known) + Send),
    ) -> Result<(), JournalError> {
        let mut query = Query::all(what, KNOWN_AT_A_TIME);
        loop {
            let page = self.page(&query).await?;
            page.rows.iter().for_each(|row| take(&row.known));
            match page.rows.last() {
                Some(last) if page.more => query.after = Some(last.subject),
                _ => return Ok(()),
            }
        }
    }

    /// All events, in the order in which they came in, and the position of the last.
    pub async fn all_events(&self) -> Result<(Vec<Event>, u64), JournalError> {
        let mut events = Vec::new();
        let mut after = 0;
        loop {
            let page = self.events_after(after, EVENTS_AT_A_TIME).await?;
            let Some(last) = page.last() else { return Ok((events, after)) };
            after = last.position;
            events.extend(page.into_iter().map(|recorded| recorded.event));
        }
    }
}
