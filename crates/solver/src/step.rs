//! The steps of an answer, for whoever waits for it.

use crate::SolverError;

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
    /// What happens, in a few words.
    pub fn words(self) -> &'static str {
        match self {
            Step::Standing => "trying where the sitter could stand",
            Step::Solving => "working out how light travels here",
            Step::Sweeping => "trying every aim",
            Step::Gelling => "trying the gels",
            Step::Confirming => "asking the path tracer",
            Step::Doubting => "seeing what if things are a little different",
            Step::Changing => "looking for the smallest change that would help",
        }
    }

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

/// Hears of every step before it begins, and may stop the work by returning false.
pub type Watch<'a> = dyn Fn(Step) -> bool + 'a;

/// Tells of a step.
pub(crate) fn begin(watch: &Watch, step: Step) -> Result<(), SolverError> {
    if watch(step) {
        Ok(())
    } else {
        Err(SolverError::Stopped)
    }
}
