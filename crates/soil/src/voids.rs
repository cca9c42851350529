//! Dry density, moisture and the voids between the particles.

/// Dry density of a moist one: `rho_d = rho_wet / (1 + w)`, moisture by dry mass.
pub fn dry_density(wet: f64, moisture: f64) -> f64 {
    wet / (1.0 + moisture)
}

/// Dry density at which water fills the share `saturation` of the voids: `Gs * rho_w / (1 + w * Gs / S)`. With `S = 1`
/// the zero air voids line, denser than which nothing can be.
pub fn density_at_saturation(moisture: f64, specific_gravity: f64, water_density: f64, saturation: f64) -> f64 {
    specific_gravity * water_density / (1.0 + moisture * specific_gravity / saturation)
}

/// Voids over solids by volume: `e = Gs * rho_w / rho_d - 1`.
pub fn void_ratio(dry_density: f64, specific_gravity: f64, water_density: f64) -> f64 {
    specific_gravity * water_density / dry_density - 1.0
}

/// Share of the voids full of water: `S = w * Gs / e`. Above one where the density is not possible at that moisture.
pub fn saturation(moisture: f64, dry_density: f64, specific_gravity: f64, water_density: f64) -> f64 {
    moisture * specific_gravity / void_ratio(dry_density, specific_gravity, water_density)
}
