//! Road readers: open-map extracts, GeoJSON lines and shapefiles in, raw road lines out.
