//! What this process has used, where the system tells.

/// The most memory it has held; else 0.
pub fn peak_memory_mb() -> f64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let peak = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    peak.and_then(|text| text.trim().trim_end_matches(" kB").parse::<f64>().ok()).map_or(0.0, |kb| kb / 1024.0)
}

/// Time all its threads have had the processor; else 0.
pub fn cpu_seconds() -> f64 {
    let stat = std::fs::read_to_string("/proc/self/stat").unwrap_or_default();
    // The name in parentheses may hold blanks; user and system time are the 12th and 13th field after it.
    let after_name = stat.rsplit(')').next().unwrap_or_default();
    let ticks: f64 = after_name.split_whitespace().skip(11).take(2).filter_map(|field| field.parse::<f64>().ok()).sum();
    // Linux counts a hundred ticks to the second for every program.
    ticks / 100.0
}

/// To four digits.
pub fn rounded(value: f64) -> f64 {
    (value * 1e4).round() / 1e4
}
