//! Hair, eyes, lips, teeth and cloth.
//!
//! All colours here are ours, chosen by eye as linear RGB reflectances; they make a picture plausible and an exposure
//! sensible, and claim no more.

use crate::upsample::reflectance_from_linear_srgb;
use crate::{Reflectance, SkinTone};

macro_rules! tones {
    ($(#[$meta:meta])* $name:ident { $($variant:ident $words:literal $triple:expr),* $(,)? }) => {
        $(#[$meta])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        pub enum $name {
            $(#[doc = concat!("Called \"", $words, "\".")] $variant),*
        }

        impl $name {
            /// All of them.
            pub const ALL: &[Self] = &[$(Self::$variant),*];

            /// Its name in words.
            pub const fn name(self) -> &'static str {
                match self { $(Self::$variant => $words),* }
            }

            /// Its linear RGB reflectance (ours).
            pub const fn linear_srgb(self) -> [f64; 3] {
                match self { $(Self::$variant => $triple),* }
            }

            /// Its reflectance.
            pub fn reflectance(self) -> Reflectance {
                reflectance_from_linear_srgb(self.linear_srgb()).expect("every built-in colour has a reflectance")
            }

            /// The one of this name, case and hyphens apart.
            pub fn named(name: &str) -> Option<Self> {
                let wanted = name.trim().to_lowercase().replace(['-', '_'], " ");
                Self::ALL.iter().copied().find(|tone| tone.name() == wanted)
            }
        }
    };
}

tones! {
    /// Hair, as a matt average over strands and gaps.
    HairTone {
        Black "black" [0.018, 0.015, 0.014],
        DarkBrown "dark brown" [0.045, 0.028, 0.020],
        Brown "brown" [0.085, 0.052, 0.032],
        Red "red" [0.22, 0.085, 0.035],
        Blond "blond" [0.38, 0.27, 0.145],
        Grey "grey" [0.30, 0.29, 0.28],
        White "white" [0.62, 0.61, 0.58],
    }
}

tones! {
    /// The iris of the eye.
    IrisTone {
        Brown "brown" [0.055, 0.028, 0.014],
        Hazel "hazel" [0.11, 0.075, 0.03],
        Green "green" [0.10, 0.12, 0.06],
        Blue "blue" [0.10, 0.15, 0.21],
        Grey "grey" [0.15, 0.17, 0.18],
    }
}

tones! {
    /// Clothing.
    ClothTone {
        Black "black" [0.03, 0.03, 0.03],
        Charcoal "charcoal" [0.07, 0.07, 0.075],
        Navy "navy" [0.025, 0.032, 0.070],
        Grey "grey" [0.20, 0.20, 0.20],
        White "white" [0.78, 0.78, 0.78],
        Burgundy "burgundy" [0.13, 0.020, 0.030],
        Green "green" [0.04, 0.085, 0.045],
        Denim "denim" [0.07, 0.10, 0.17],
        Beige "beige" [0.48, 0.40, 0.30],
        Brass "brass" [0.55, 0.40, 0.16],
    }
}

/// Lips of someone with this skin: the skin with its green and blue held back (ours).
pub fn lips(skin: SkinTone) -> Reflectance {
    let tint = reflectance_from_linear_srgb([0.80, 0.50, 0.52]).expect("a plain pink has a reflectance");
    Reflectance::clamped(*skin.reflectance().spectrum() * *tint.spectrum())
}

/// The white of the eye (ours); it is far from white.
pub fn sclera() -> Reflectance {
    built_in([0.56, 0.51, 0.48])
}

/// Teeth (ours).
pub fn teeth() -> Reflectance {
    built_in([0.58, 0.53, 0.44])
}

/// The wet inner corner of the eye and the inside of the mouth (ours).
pub fn mucosa() -> Reflectance {
    built_in([0.32, 0.12, 0.11])
}

fn built_in(triple: [f64; 3]) -> Reflectance {
    reflectance_from_linear_srgb(triple).expect("every built-in colour has a reflectance")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_tone_has_a_reflectance_and_its_name_finds_it() {
        for tone in HairTone::ALL {
            assert!(tone.reflectance().spectrum().max() < 0.8);
            assert_eq!(HairTone::named(tone.name()), Some(*tone));
        }
        for tone in IrisTone::ALL {
            assert!(tone.reflectance().spectrum().max() < 0.4);
            assert_eq!(IrisTone::named(tone.name()), Some(*tone));
        }
        for tone in ClothTone::ALL {
            assert!(tone.reflectance().spectrum().max() < 0.9);
            assert_eq!(ClothTone::named(tone.name()), Some(*tone));
        }
        assert_eq!(HairTone::named("plaid"), None);
    }

    #[test]
    fn lips_are_redder_than_the_skin_around_them() {
        for tone in SkinTone::ALL {
            let (skin, lips) = (tone.reflectance(), lips(tone));
            let redness = |r: &Reflectance| r.spectrum().0[14] / r.spectrum().0[8];
            assert!(redness(&lips) > redness(&skin), "{tone:?}");
        }
        assert!(sclera().spectrum().mean() < teeth().spectrum().max());
        assert!(mucosa().spectrum().0[15] > mucosa().spectrum().0[5]);
    }
}
