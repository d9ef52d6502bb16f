//! What can be wrong with a written quantity, said to the person who wrote it.

use crate::{Examples, Quantity, Reason};

/// A quantity that could not be read or cannot exist.
///
/// Every message says what was wrong, what was expected, and gives an example that would be accepted.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum UnitError {
    /// The text has no number where one is needed, or is not of the right shape.
    #[error("\"{given}\" is not {quantity}: {reason}. Write it like {example}")]
    NotUnderstood {
        /// What was being read, with its article: "a length".
        quantity: Quantity,
        /// The text as given.
        given: String,
        /// What is wrong with it.
        reason: Reason,
        /// A spelling that works.
        example: Examples,
    },
    /// The number is readable but no such thing exists, or not for this program.
    #[error(
        "{given}{unit} is not possible as {quantity}: it must be between {lowest}{unit} and {highest}{unit}, for example {example}"
    )]
    OutOfRange {
        /// What was being read, with its article.
        quantity: Quantity,
        /// The number as given, in `unit`.
        given: f64,
        /// The smallest accepted number.
        lowest: f64,
        /// The largest accepted number.
        highest: f64,
        /// The unit that follows these numbers, with its leading space where one is written.
        unit: &'static str,
        /// A spelling that works.
        example: Examples,
    },
    /// The number is infinite or not a number: a calculation went wrong before it came here.
    #[error("{quantity} must be an ordinary number, but this one is {given}; {example} would do")]
    NotFinite {
        /// What was being read, with its article.
        quantity: Quantity,
        /// The number as given.
        given: f64,
        /// A spelling that works.
        example: Examples,
    },
}
