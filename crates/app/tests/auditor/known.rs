//! Findings that are known and to be mended: the one place where a claim that does not hold is let pass.

/// A kind of contradiction that the program still has, and why.
pub struct Known {
    /// The claim, as the checks name it.
    pub claim: &'static str,
    /// Where it comes from, and what mends it.
    pub reason: &'static str,
}

/// All of them. One that no seed of the test shows any more must go from here.
pub const KNOWN: &[Known] = &[
    Known {
        claim: "wish: direction against the key",
        reason: "wishes judge what carries the key, the key is read of all the flash's light: one reading mends it",
    },
    Known {
        claim: "wish: height against the key",
        reason: "as the direction",
    },
    Known {
        claim: "wish: in hand against the flash line",
        reason: "the wish counts stops beyond the least power, which no dial reaches",
    },
    Known {
        claim: "headline: nearest is another way than the lines",
        reason: "points choose the lines and limits the nearest way: one judgement mends it",
    },
    Known {
        claim: "line three: not where the flash stands",
        reason: "line three is made for a flash on the camera",
    },
    Known {
        claim: "pointing: corner far from its other face",
        reason: "an open ceiling counts as the other half of a corner, metres away from the aim",
    },
    Known {
        claim: "note: angle between head and face",
        reason: "taken from turn and tilt as if the flash were level with the face",
    },
    Known {
        claim: "alternative: its reason against both readings",
        reason: "compares exact powers where the least power is all that can be set",
    },
    Known {
        claim: "ways: strength against the answer",
        reason: "stops over the exposure at each way's own settings, beside apertures at ISO 100: the light itself is meant",
    },
    Known {
        claim: "ways: another has fewer points",
        reason: "the lines are not those of the way with the fewest points: one judgement mends it",
    },
    Known {
        claim: "map: a piece is better than the answer",
        reason: "as the points of the ways",
    },
    Known {
        claim: "change: the ask is not met after it",
        reason: "a change is tried on a sketch of the place and on limits alone, not answered as if it were written",
    },
    Known {
        claim: "change: another way after it",
        reason: "as above",
    },
    Known {
        claim: "change: other settings after it",
        reason: "as above; the balance in particular is the bare flash's, whatever is asked",
    },
    Known {
        claim: "languages: other numbers in the text",
        reason: "a line of the chart is cut in the middle of its last number where German is longer",
    },
    Known {
        claim: "picture: near and far cheek",
        reason: "the cheeks are read with meters turned to the sides, the picture shows skin: one reading mends it",
    },
];
