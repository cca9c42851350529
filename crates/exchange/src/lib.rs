//! exchange

pub mod road_files;
