//! What is looked at or printed: an answer as plain text, as two drawings, as a map of the room and as a stops chart.
//!
//! This crate turns an [`answer::Job`] and its [`answer::Answer`] into text and SVG. It decides nothing and computes no
//! light: every figure it shows was found elsewhere, and it only rounds, words and draws. Words are made in
//! English and in German, all of them in `wording`, and a [`Voice`] says which. It never reads or writes a
//! file, and its drawings refer to nothing outside themselves.
//!
//! ```
//! use answer::{ChartItem, ChartKind, ChartLine};
//! let line = |item, stops, kind| ChartLine { item, stops, kind };
//! let chart = [
//!     line(ChartItem::PlaceInBeam, 8.333, ChartKind::Start),
//!     line(ChartItem::Travel { metres: 5.0 }, -4.644, ChartKind::Loss),
//!     line(ChartItem::AtTheFace, 3.689, ChartKind::Result),
//! ];
//! // Printed numbers add up as printed: 8.33 − 4.64 = 3.69.
//! assert_eq!(sheet::balanced_hundredths(&chart), [833, -464, 369]);
//! ```

mod card;
mod chart;
mod day;
mod drawing;
mod fitting;
mod label;
mod map;
mod path;
mod plan;
mod report;
mod section;
mod sentences;
mod svg;
mod swatch;
mod symbols;
mod text;
mod told;
mod voice;
mod wording;

#[cfg(test)]
extern crate self as sheet;
#[cfg(test)]
#[path = "../tests/fixture/mod.rs"]
mod fixture;

pub use card::{Card, CardPage, FlashChange, Made, WidthOf, card_html, card_pages};
pub use chart::{balanced_hundredths, stops_chart_svg};
pub use day::{
    DayDrawing, DayEvent, DayLook, DayMark, DayObstacle, DayPoint, DaySetting, DayTable, day_svg, day_text,
};
pub use drawing::drawing_svg;
pub use map::room_map_svg;
pub use report::Report;
pub use sentences::{
    camera_line, changed_settings, flash_line, words_of_aim, words_of_failure, words_of_losses,
    words_of_source, words_of_step, words_of_why,
};
pub use text::answer_text;
pub use told::{
    Engraved, Lines, Told, ToldAlternative, ToldColour, ToldControl, ToldGuess, ToldLater, ToldOffer,
    ToldShortfall, ToldSurface, ToldWish,
};
pub use voice::{Language, Lengths, Voice};
pub use wording::refusals;
