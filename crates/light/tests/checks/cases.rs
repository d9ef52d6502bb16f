//! Reading the check files.

use light::Moment;
use serde_json::Value;

/// One case of a check file.
pub struct Case(pub Value);

/// The cases of a group; there is at least one.
pub fn cases(text: &str, group: &str) -> Vec<Case> {
    let file: Value = serde_json::from_str(text).expect("a check file is JSON");
    let cases: Vec<Case> = file["cases"]
        .as_array()
        .expect("cases")
        .iter()
        .filter(|case| case["group"] == group)
        .map(|case| Case(case.clone()))
        .collect();
    assert!(!cases.is_empty(), "no cases in {group}");
    cases
}

/// The names of all groups, each once, sorted.
pub fn groups(text: &str) -> Vec<String> {
    let file: Value = serde_json::from_str(text).expect("a check file is JSON");
    let mut groups: Vec<String> = file["cases"]
        .as_array()
        .expect("cases")
        .iter()
        .map(|case| case["group"].as_str().expect("a group").to_owned())
        .collect();
    groups.sort();
    groups.dedup();
    groups
}

impl Case {
    pub fn name(&self) -> String {
        self.0["id"].to_string()
    }

    pub fn number(&self, key: &str) -> f64 {
        self.0[key]
            .as_f64()
            .unwrap_or_else(|| panic!("{} has no {key}", self.name()))
    }

    pub fn text(&self, key: &str) -> &str {
        self.0[key]
            .as_str()
            .unwrap_or_else(|| panic!("{} has no {key}", self.name()))
    }

    pub fn has(&self, key: &str) -> bool {
        !self.0[key].is_null()
    }

    pub fn moment(&self, key: &str) -> Moment {
        moment(self.text(key))
    }

    /// Compares with an expected number, at a tolerance that the case names.
    pub fn check_within(&self, key: &str, found: f64, tolerance: f64) {
        let expected = self.number(key);
        assert!(
            (found - expected).abs() <= tolerance,
            "{} {key}: found {found}, expected {expected} ± {tolerance}",
            self.name()
        );
    }

    /// Compares at the case's relative tolerance; the files give ten digits.
    pub fn check_relative(&self, key: &str, found: f64) {
        self.check_within(
            key,
            found,
            (self.number("tol_rel") + 5e-10) * self.number(key).abs(),
        );
    }
}

/// "2025-01-15T05:30:00Z", with or without a fraction of a second.
pub fn moment(text: &str) -> Moment {
    let parts: Vec<f64> = text
        .trim_end_matches('Z')
        .split(['-', 'T', ':'])
        .map(|part| part.parse().expect("a number"))
        .collect();
    let whole = |k: usize| parts[k] as u32;
    let second = parts.get(5).copied().unwrap_or_default();
    Moment::utc(parts[0] as i32, whole(1), whole(2), whole(3), whole(4), second).expect("a moment")
}
