//! What contradicts what.

/// A contradiction: the seed of the shoot, the claim, and both sides of it.
#[derive(Clone, Debug)]
pub struct Finding {
    pub seed: u64,
    /// What kind of claim does not hold, such as `key: direction`.
    pub claim: &'static str,
    pub detail: String,
}

/// The contradictions of one shoot, and how many claims were looked at.
pub struct Findings {
    seed: u64,
    /// Which answer is looked at, where there are several: the shoot's own, or that of a change.
    of: String,
    pub found: Vec<Finding>,
    pub looked_at: usize,
}

impl Findings {
    pub fn new(seed: u64) -> Self {
        Findings {
            seed,
            of: String::new(),
            found: Vec::new(),
            looked_at: 0,
        }
    }

    /// Everything that follows is about this.
    pub fn about(&mut self, of: &str) {
        self.of = if of.is_empty() {
            String::new()
        } else {
            format!("{of}: ")
        };
    }

    /// A claim that holds or not.
    pub fn holds(&mut self, claim: &'static str, holds: bool, detail: impl FnOnce() -> String) {
        self.looked_at += 1;
        if !holds {
            self.found.push(Finding {
                seed: self.seed,
                claim,
                detail: format!("{}{}", self.of, detail()),
            });
        }
    }

    /// Two numbers that are the same thing, said twice. Two values that are no numbers are the same.
    pub fn same(&mut self, claim: &'static str, what: &str, said: f64, other: f64, within: f64) {
        let same = (said - other).abs() <= within || said.is_nan() && other.is_nan() || said == other;
        self.holds(claim, same, || {
            format!("{what}: said {said:.4}, but {other:.4} (± {within})")
        });
    }
}
