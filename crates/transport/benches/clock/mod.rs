//! Processor time, for the benchmarks: on a shared machine it says more than the clock on the wall.

/// Processor time of this process over all threads in seconds, where the system tells it.
pub fn cpu_seconds() -> f64 {
    let Ok(stat) = std::fs::read_to_string("/proc/self/stat") else {
        return f64::NAN;
    };
    let after_name = stat.rsplit(')').next().unwrap_or_default();
    let ticks: f64 = after_name
        .split_whitespace()
        .skip(11)
        .take(2)
        .filter_map(|t| t.parse::<f64>().ok())
        .sum();
    ticks / 100.0
}
