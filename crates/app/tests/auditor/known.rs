//! Findings that are known and to be mended: the one place where a claim that does not hold is let pass.

/// A kind of contradiction that the program still has, and why.
pub struct Known {
    /// The claim, as the checks name it.
    pub claim: &'static str,
    /// Where it comes from, and what mends it.
    pub reason: &'static str,
}

/// All of them. One that no seed of the test shows any more must go from here.
pub const KNOWN: &[Known] = &[];
