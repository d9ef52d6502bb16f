//! The steps of an answer, for the person who waits for it.

/// What is being worked out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step {
    /// Where the first sitter should stand, when they may move.
    Standing,
    /// How light travels in the place.
    Solving,
    /// Every aim.
    Sweeping,
    /// The gels of the bag.
    Gelling,
    /// The best ways in fine patches, and what the path tracer says of them.
    Confirming,
    /// What small changes of the place do.
    Doubting,
    /// What would make an ask possible that cannot be met.
    Changing,
}

impl Step {
    /// The part of the whole that is usually done when the step begins, 0 to 1 (measured on the examples; ours).
    pub fn usual_share(self) -> f64 {
        match self {
            Step::Standing => 0.0,
            Step::Solving => 0.05,
            Step::Sweeping => 0.2,
            Step::Gelling => 0.4,
            Step::Confirming => 0.5,
            Step::Doubting => 0.75,
            Step::Changing => 0.9,
        }
    }
}
