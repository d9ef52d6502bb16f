//! Reading the check files.

use serde_json::Value;

/// One case of a check file.
pub struct Case(Value);

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

/// The names of all groups, each once, in order.
pub fn groups(text: &str) -> Vec<String> {
    let file: Value = serde_json::from_str(text).expect("a check file is JSON");
    let mut groups: Vec<String> = Vec::new();
    for case in file["cases"].as_array().expect("cases") {
        let group = case["group"].as_str().expect("a group").to_owned();
        if !groups.contains(&group) {
            groups.push(group);
        }
    }
    groups
}

impl Case {
    /// A number of the case.
    pub fn number(&self, key: &str) -> f64 {
        self.0[key]
            .as_f64()
            .unwrap_or_else(|| panic!("{} has no {key}", self.0["id"]))
    }

    /// A list of numbers.
    pub fn list(&self, key: &str) -> Vec<f64> {
        let list = self.0[key].as_array().expect("a list");
        list.iter()
            .map(|value| value.as_f64().expect("a number"))
            .collect()
    }

    /// True if the case has nothing there: an infinite distance.
    pub fn is_null(&self, key: &str) -> bool {
        self.0[key].is_null()
    }

    /// Compares with the expected number at the case's own tolerance.
    ///
    /// The files give ten significant digits, so half a unit of the tenth is allowed on top: the expected number is no
    /// better known than that. Where nothing is expected (a deviation of 1e-16) a relative tolerance is taken of 1.
    pub fn check(&self, key: &str, found: f64) {
        let expected = self.number(key);
        let tolerance = match self.0["tol_abs"].as_f64() {
            Some(absolute) => absolute,
            None if expected.abs() < 1e-12 => self.number("tol_rel"),
            None => self.number("tol_rel") * expected.abs(),
        };
        let tenth_digit = 10f64.powf(expected.abs().max(1e-300).log10().floor() - 9.0);
        assert!(
            (found - expected).abs() <= tolerance + 0.5 * tenth_digit,
            "{} {key}: found {found}, expected {expected}",
            self.0["id"]
        );
    }
}
