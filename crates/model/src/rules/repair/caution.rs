//! Words of the cautions.

use serde::Deserialize;

use crate::rules::Sourced;

/// Words of the cautions. Each shows and defers to local codes and licensed practice; none decides.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CautionRules {
    /// Larger or deeper than a patch.
    pub no_patch: Sourced<String>,
    /// Live traffic; always.
    pub traffic: Sourced<String>,
    /// Buried services; always, before digging.
    pub buried_services: Sourced<String>,
    /// Silica dust; always.
    pub dust: Sourced<String>,
    /// Vibration, noise and moving plant; always.
    pub vibration: Sourced<String>,
    /// Manual handling; always.
    pub manual_handling: Sourced<String>,
    /// Hot binder burns; always.
    pub hot_binder: Sourced<String>,
    /// Drains; always.
    pub drains: Sourced<String>,
    /// Working in heat; always.
    pub heat: Sourced<String>,
    /// Weather for sealing; always.
    pub weather: Sourced<String>,
    /// Cutback fire.
    pub cutback_fire: Sourced<String>,
    /// Cutback vapour.
    pub cutback_vapour: Sourced<String>,
    /// Emulsion.
    pub emulsion: Sourced<String>,
    /// Filling and carrying a pouring pot.
    pub pouring_pot: Sourced<String>,
}
