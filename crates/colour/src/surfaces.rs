//! Named surfaces, for those who have no spectrophotometer.
//!
//! Each is a linear RGB reflectance (see [`crate::upsample`]). The values are ours, chosen within the ranges that are
//! common practice: snow 0.8 to 0.9, white card 0.85 to 0.9, dry sand 0.3 to 0.4, concrete 0.25 to 0.4, grass 0.05 to 0.1,
//! asphalt 0.07 to 0.12, grey card 0.18. A real wall of the same name may well differ by a third of a stop and ten mired.

use crate::Reflectance;
use crate::upsample::reflectance_from_linear_srgb;

/// A surface with its usual colour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Surface {
    /// What a photographer calls it, in lower case.
    pub name: &'static str,
    /// What is meant.
    pub description: &'static str,
    /// Linear RGB reflectance.
    pub linear_srgb: [f64; 3],
}

const fn surface(name: &'static str, linear_srgb: [f64; 3], description: &'static str) -> Surface {
    Surface {
        name,
        description,
        linear_srgb,
    }
}

/// All surfaces.
pub const SURFACES: [Surface; 44] = [
    surface(
        "white paint",
        [0.80, 0.80, 0.80],
        "matt white emulsion, not quite fresh",
    ),
    surface(
        "fresh white paint",
        [0.87, 0.87, 0.86],
        "matt white emulsion, newly painted",
    ),
    surface(
        "white tiles",
        [0.74, 0.74, 0.72],
        "glazed wall tiles or white ceiling tiles",
    ),
    surface("cream", [0.78, 0.71, 0.56], "cream emulsion"),
    surface("magnolia", [0.78, 0.73, 0.65], "warm off-white emulsion"),
    surface("beige", [0.60, 0.51, 0.39], "beige paint or wallpaper"),
    surface("pale yellow", [0.82, 0.72, 0.45], "pale yellow emulsion"),
    surface("mint", [0.55, 0.72, 0.60], "pale green emulsion"),
    surface("pale blue", [0.52, 0.62, 0.72], "pale blue emulsion"),
    surface("pale pink", [0.76, 0.58, 0.57], "pale pink emulsion"),
    surface("blue-grey", [0.30, 0.36, 0.42], "mid blue-grey paint"),
    surface("light grey", [0.50, 0.50, 0.50], "light grey paint"),
    surface("mid grey", [0.40, 0.40, 0.40], "mid grey paint"),
    surface("dark grey", [0.10, 0.10, 0.10], "dark grey paint"),
    surface("black paint", [0.04, 0.04, 0.04], "matt black paint"),
    surface("terracotta", [0.46, 0.20, 0.11], "terracotta paint or tiles"),
    surface("red wall", [0.45, 0.16, 0.12], "brick-red painted wall"),
    surface("deep green", [0.05, 0.12, 0.07], "dark green paint"),
    surface("navy wall", [0.03, 0.05, 0.12], "dark blue paint"),
    surface("brick", [0.32, 0.14, 0.09], "bare red brick with its mortar"),
    surface("plaster", [0.62, 0.56, 0.50], "bare pinkish-grey plaster"),
    surface("stone", [0.36, 0.33, 0.28], "sandstone or limestone, weathered"),
    surface("concrete", [0.32, 0.31, 0.29], "dry concrete"),
    surface("asphalt", [0.09, 0.09, 0.09], "worn dry asphalt"),
    surface("pine", [0.50, 0.32, 0.16], "varnished pine boards"),
    surface("pale wood", [0.58, 0.45, 0.30], "birch, ash or unvarnished pine"),
    surface("oak", [0.35, 0.22, 0.14], "oiled oak floor"),
    surface("wood floor", [0.30, 0.20, 0.12], "ordinary brown wooden floor"),
    surface("dark wood", [0.09, 0.05, 0.03], "walnut, mahogany or dark stain"),
    surface("bookshelf", [0.25, 0.20, 0.15], "filled bookshelf, gaps included"),
    surface("curtain", [0.34, 0.30, 0.25], "oatmeal curtain in folds"),
    surface("red curtain", [0.25, 0.03, 0.03], "red stage or velvet curtain"),
    surface("carpet grey", [0.16, 0.16, 0.16], "grey carpet"),
    surface("carpet beige", [0.34, 0.28, 0.21], "beige carpet"),
    surface("linoleum", [0.30, 0.27, 0.22], "worn hall floor"),
    surface("grass", [0.065, 0.095, 0.030], "mown grass"),
    surface("foliage", [0.045, 0.070, 0.022], "hedge or trees in leaf"),
    surface("earth", [0.14, 0.10, 0.065], "bare soil or gravel path"),
    surface("sand", [0.42, 0.35, 0.25], "dry sand"),
    surface("snow", [0.85, 0.85, 0.86], "fresh snow, a day old"),
    surface(
        "white card",
        [0.87, 0.87, 0.87],
        "white foam board, V-flat or reflector",
    ),
    surface("grey card", [0.18, 0.18, 0.18], "18 % grey card"),
    surface(
        "black cloth",
        [0.03, 0.03, 0.03],
        "black flag or V-flat, felt or velvet",
    ),
    surface(
        "water",
        [0.03, 0.04, 0.04],
        "calm water seen from above, without the mirror part",
    ),
];

/// The name of white card, which a photographer can bring along.
pub const WHITE_CARD: &str = "white card";

/// The names of all surfaces.
pub const NAMES: [&str; SURFACES.len()] = {
    let mut names = [""; SURFACES.len()];
    let mut k = 0;
    while k < names.len() {
        names[k] = SURFACES[k].name;
        k += 1;
    }
    names
};

/// The reflectance of a named surface; case, hyphens and outer spaces do not matter.
///
/// ```
/// use colour::{Spectrum, surfaces};
/// let white = surfaces::named("White paint").expect("a known surface");
/// assert_eq!(*white.spectrum(), Spectrum::splat(0.8));
/// assert!(surfaces::named("marble").is_none());
/// ```
pub fn named(name: &str) -> Option<Reflectance> {
    find(name)?.reflectance()
}

/// The surface of a name with its description.
pub fn find(name: &str) -> Option<&'static Surface> {
    let wanted = plain(name);
    SURFACES.iter().find(|surface| plain(surface.name) == wanted)
}

/// The known name most like a misspelt one; none if nothing is near.
///
/// ```
/// use colour::surfaces;
/// assert_eq!(surfaces::closest("pail yellow"), Some("pale yellow"));
/// assert_eq!(surfaces::closest("zinc"), None);
/// ```
pub fn closest(name: &str) -> Option<&'static str> {
    let wanted = plain(name);
    // A word of the name, "card" or "yellow", is not near enough; a slip in every third letter still is.
    let limit = (wanted.chars().count() / 3).max(1);
    NAMES
        .into_iter()
        .map(|known| (edits(&wanted, &plain(known)), known))
        .filter(|(edits, _)| *edits <= limit)
        .min_by_key(|(edits, _)| *edits)
        .map(|(_, known)| known)
}

impl Surface {
    /// The smoothest reflectance of its colour.
    pub fn reflectance(&self) -> Option<Reflectance> {
        reflectance_from_linear_srgb(self.linear_srgb).ok()
    }
}

fn plain(name: &str) -> String {
    name.trim().to_lowercase().replace(['-', '_'], " ")
}

/// Levenshtein distance: letters to insert, drop or change.
fn edits(from: &str, to: &str) -> usize {
    let to: Vec<char> = to.chars().collect();
    let mut row: Vec<usize> = (0..=to.len()).collect();
    for (i, letter) in from.chars().enumerate() {
        let mut diagonal = row[0];
        row[0] = i + 1;
        for (j, other) in to.iter().enumerate() {
            let change = diagonal + usize::from(letter != *other);
            diagonal = row[j + 1];
            row[j + 1] = change.min(row[j] + 1).min(diagonal + 1);
        }
    }
    row[to.len()]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::LightColour;

    #[test]
    fn every_surface_has_a_reflectance_and_a_name_of_its_own() {
        for (k, surface) in SURFACES.iter().enumerate() {
            assert!(surface.reflectance().is_some(), "{}", surface.name);
            assert_eq!(NAMES.iter().position(|name| *name == surface.name), Some(k));
            assert_eq!(closest(surface.name), Some(surface.name));
        }
    }

    #[test]
    fn luminous_reflectances_lie_where_common_practice_puts_them() {
        let daylight = LightColour::illuminant("D55").expect("built in");
        for (name, lowest, highest) in [
            ("snow", 0.8, 0.9),
            ("white card", 0.85, 0.9),
            ("sand", 0.3, 0.4),
            ("concrete", 0.25, 0.4),
            ("grass", 0.05, 0.1),
            ("asphalt", 0.07, 0.12),
            ("grey card", 0.1799, 0.1801),
            ("black cloth", 0.02, 0.05),
        ] {
            let y = named(name).expect(name).luminous(&daylight);
            assert!((lowest..=highest).contains(&y), "{name}: {y}");
        }
    }

    #[test]
    fn misspellings_find_their_surface() {
        for (given, meant) in [
            ("wite paint", Some("white paint")),
            ("beech", None),
            ("asfalt", Some("asphalt")),
            ("grey crad", Some("grey card")),
            ("bookshelve", Some("bookshelf")),
            ("MAGNOLA", Some("magnolia")),
            ("", None),
        ] {
            assert_eq!(closest(given), meant, "{given}");
        }
    }
}
