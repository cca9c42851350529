//! How the quantities of a seal were worked out, the same for a repair and for a seal alone.

use model::district::{Binder, CoverStone};
use model::figure::{Source, Why};
use model::quantity::{Area, Mass, Volume};

use super::containers::Sizes;
use super::{SealAreas, SealRates};
use crate::binder_volume::VolumeFactor;
use crate::show;

pub(crate) fn volume(rates: &SealRates, areas: SealAreas) -> Why {
    let source = rates.residual.on_base.why.source.clone();
    Why::new("V = B_base * A + B_overlap * A_overlap", source)
        .with("method", rates.method.words())
        .with("B_base", format!("{:.3} L/m2", rates.binder_on_base.value.0))
        .with("A", show::m2(areas.base))
        .with("B_overlap", format!("{:.3} L/m2", rates.binder_on_overlap.value.0))
        .with("A_overlap", show::m2(areas.overlap))
}

pub(crate) fn hot(cold: Volume, binder: &Binder, factor: &VolumeFactor) -> Why {
    Why::new(format!("V_hot = V / VCF, {}", factor.rule), factor.source.clone())
        .with("V", show::l(cold))
        .with("T", format!("{} °C", binder.spray_temperature_c))
        .with("VCF", format!("{:.5}", factor.factor))
}

pub(crate) fn containers(hot: Volume, sizes: &Sizes) -> Why {
    let list: Vec<String> = sizes.list.iter().map(|size| format!("{} {}", size.name, show::l(size.volume))).collect();
    let list = if list.is_empty() { "none, it draws from the tank".to_owned() } else { list.join(", ") };
    Why::new("the largest as often as it is filled, then the smallest that takes the rest", sizes.source.clone())
        .with("needed hot", show::l(hot))
        .with("containers", list)
}

pub(crate) fn stone_mass(rates: &SealRates, area: Area) -> Why {
    Why::new("M = C * A_seal", rates.residual.stone.why.source.clone())
        .with("method", rates.method.words())
        .with("C", format!("{:.2} kg/m2", rates.residual.stone.value.0))
        .with("A_seal", show::m2(area))
}

pub(crate) fn loose_stone(mass: Mass, stone: &CoverStone) -> Why {
    Why::new("V = M / rho_loose", Source::definition())
        .with("M", show::kg(mass))
        .with("rho_loose", show::density(stone.loose_density))
}
