//! What can go wrong while printing.

/// Why a job pack could not be printed.
#[derive(Debug, thiserror::Error)]
pub enum JobPackError {
    /// The typesetter refused; each line one complaint.
    #[error("the job pack could not be typeset: {0}")]
    Typesetting(String),
    /// The data for the pages could not be written as JSON.
    #[error("the data of the job pack could not be written: {0}")]
    Data(#[from] serde_json::Error),
    /// The district's time zone is not in the zone database.
    #[error("the time zone `{0}` is not in the zone database")]
    TimeZone(String),
}
