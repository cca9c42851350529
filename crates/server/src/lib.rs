//! The record over HTTP: sign-in, sync with phones, what is known, plans and imports as jobs.
//!
//! [`router`] is the whole of it: routes, each with the roles that may use it ([`access`]), over a [`Server`]. Who may do what is
//! written once, in the `OpenAPI` document that is served; the same document is what the program goes by. A route of which it
//! says nothing is for nobody.
//!
//! Never: computes anything of the trade (planning is passed in as a [`Planner`]), reads a clock but through [`Server::now`].

pub mod access;
mod answer;
mod audit;
pub mod background;
mod believed;
mod body;
mod cutting;
pub mod import;
mod metrics;
mod openapi;
mod passwords;
mod photos;
mod problem;
pub mod reporting;
mod reports;
mod routes;
mod secrets;
mod shown;
mod state;
mod weather;
mod web_files;

pub use cutting::{CutAsked, CutFigure, CutLayer, CutShown};
pub use journal::plan_files::PlanFile;
pub use problem::Problem;
pub use reports::ReportSettings;
pub use routes::router;
pub use secrets::Secret;
pub use shown::{CrewShown, District, DistrictFile, YardKind, YardShown};
pub use state::{EachKnown, Planner, Server, Settings, UploadLimits};
pub use weather::{Weather, WeatherDay, WeatherHour};
