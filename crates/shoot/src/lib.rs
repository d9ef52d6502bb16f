//! The shoot file: what a photographer writes about one job, read into a [`answer::Job`].
//!
//! Reading never stops at the first mistake. Every key is checked by itself, then the parts against one
//! another, and all that was found comes back at once with its line, the reason and what to do. Nothing is
//! guessed silently: what was not said and matters is listed as a warning. Every message is made in all languages at once, at the
//! check that finds what is wrong ([`both!`]). `SHOOT_FILE.md` explains every key;
//! a test holds it against [`parts`].
//!
//! ```
//! let text = r#"
//! [place]
//! room = "5.5 x 4.4 x 2.6 m"
//! [camera]
//! from_left = "2.0 m"
//! from_behind = "2.0 m"
//! [[sitter]]
//! from_left = "2.0 m"
//! from_behind = "4.0 m"
//! "#;
//! let shoot = shoot::parse("kitchen.toml", text).expect("a complete file");
//! assert_eq!(shoot.job.title, "kitchen");
//! assert_eq!(shoot.job.place.room.size.x, 4.4);
//!
//! let wrong = shoot::parse("kitchen.toml", &text.replace("room", "rom")).expect_err("a misspelt key");
//! assert_eq!(wrong.list()[0].remedy(shoot::Language::English), Some("Did you mean \"room\"?"));
//! ```

mod ambient;
mod ask;
mod ask_colour;
mod bag;
mod beside;
mod camera;
mod change_edit;
mod checks;
mod demo;
mod differences;
pub mod edit;
mod fronts;
mod gels;
mod limits;
mod lower_errors;
mod musts;
mod nearest;
mod outdoors;
pub mod parts;
mod place;
mod problem;
mod quoting;
mod reading;
mod scan_words;
mod scanned;
mod section;
mod set_ups;
mod sitters;
mod sky;
pub mod summary;
mod surface;
mod text;
pub mod understand;
pub mod vocabulary;
mod words;
mod written;
mod zones;

pub use answer::Language;
pub use beside::{Beside, NoNeighbour};
pub use change_edit::with_change;
pub use demo::{DEMO, DEMO_NAME};
pub use nearest::nearest;
pub use parts::Part;
pub use problem::{Problem, Problems, Span};
pub use reading::{
    Shoot, ShootFile, parse, parse_beside, parse_called, parse_file, parse_part, parse_set_up,
};
pub use scan_words::words_of_scan_error;
pub use scanned::place_text;
pub use set_ups::{MOST_SET_UPS, Wanted};
pub use sky::{Obstacle, SkyRead};
pub use text::{MOST_BYTES, decode};
pub use words::{Spoken, Words};
