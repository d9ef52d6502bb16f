//! A shoot in a mill with three set-ups, for the tests of the reader and of the program.

/// The common parts.
pub const SHARED: &str = r#"shoot = "Mill"
[place]
room = "6.0 x 4.0 x 2.5 m"
left = "white paint"
right = "brick"
behind_camera = "cream"
behind_sitter = "mid grey"
ceiling = "white paint"
floor = "concrete"
[camera]
from_left = "2.0 m"
from_behind = "1.5 m"
[[sitter]]
name = "Kim"
from_left = "2.0 m"
from_behind = "3.6 m"
[[ambient]]
name = "lamps"
reading = "EV 5"
colour = "2700 K"
[ask]
aperture = "f/4"
iso = "ISO 400"
"#;

/// The set-ups: one takes everything as it is, one has parts of its own, and the last has no light.
pub const OWN: &str = r#"
[[setup]]
name = "alone"
[[setup]]
name = "together"
[setup.camera]
from_left = "1.5 m"
from_behind = "1.0 m"
[[setup.sitter]]
name = "Kim"
from_left = "1.7 m"
from_behind = "3.6 m"
[[setup.sitter]]
name = "Sam"
from_left = "2.3 m"
from_behind = "3.6 m"
[setup.ask]
aperture = "f/8"
[[setup]]
ambient = []
"#;
