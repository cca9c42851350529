//! Notes in the trail of who did what.

use journal::audit::Done;

use crate::access::Who;
use crate::problem::Problem;
use crate::state::Server;

impl Server {
    /// Writes into the trail that somebody did something. Where that can't be written, it isn't done.
    pub(crate) async fn note(&self, who: &Who, what: &str, to: &str, allowed: bool) -> Result<(), Problem> {
        self.note_of(&who.name, &who.device, what, to, allowed).await
    }

    /// The same of a name that may be nobody's.
    pub(crate) async fn note_of(
        &self,
        name: &str,
        device: &str,
        what: &str,
        to: &str,
        allowed: bool,
    ) -> Result<(), Problem> {
        let short = |text: &str| text.chars().filter(|letter| !letter.is_control()).take(200).collect::<String>();
        let done = Done { who: short(name), device: short(device), what: what.to_owned(), to: short(to), allowed };
        self.journal.note(&done, self.now()).await?;
        Ok(())
    }
}
