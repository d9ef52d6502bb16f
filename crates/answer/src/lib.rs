//! What is asked and what was found: the data of a job and of its answer.
//!
//! A [`Job`] says what the photographer has and wants. An [`Answer`] says what was found, as data: identities are types
//! ([`WayId`], [`Fault`], [`Change`]), never display text, so that one place can make every sentence once, in each
//! language. Nothing is worded here, and nothing is worked out but what a direction or a place is called.
//!
//! An answer is also the published shape that other programs read. It serialises to JSON with the names that
//! [`VERSION`] promises: units stand in the names (`_m` metres, `_deg` degrees, `_stops` stops), and a value without a
//! finite number is `null`.

mod answer;
mod balance;
mod bearings;
mod change;
mod chart;
mod clash;
mod colouring;
mod daylight;
mod doubt;
mod failure;
mod job;
mod language;
mod map;
mod meter;
mod note;
mod published;
mod reading;
mod settings;
mod side;
mod step;
mod variation;
mod verdict;
mod way;
mod wish;

pub use answer::{Alternative, Answer, Confirmation, Preference};
pub use balance::{Balance, Control, ControlLevel, LaterSettings, LaterWay, Reach, ZoneLevel, ZoneStops};
pub use change::{Brought, Change, Offer, Shortfall, Then};
pub use chart::{ChartItem, ChartKind, ChartLine};
pub use clash::{Clash, Exclusion, Yielding};
pub use colouring::{
    ColourZone, Colouring, GelWorn, Greenness, PicturePart, SidesCure, SidesVerdict, SourceColour, SourceName,
};
pub use daylight::{DaylightHere, DaylightPart, Disc, in_place};
pub use doubt::{Assumed, Difference, Guess, Sensitivity, Uncertainty, UncertaintyPart};
pub use failure::Failure;
pub use job::{
    Ambient, AmbientFrom, AmbientLevel, AmbientWish, Ask, Bag, Board, CameraBody, ColourWish, FlashStand,
    GelWish, Job, KeyWish, LampShape, Later, Softness, Zone, ZoneWish,
};
pub use language::Language;
pub use map::{MapCell, RoomMap};
pub use meter::MeterFacing;
pub use note::{Caution, FrameEdge, FrameFall, GelTurn, LevelTarget, LightThing, Note, TemptedLight};
pub use published::Point;
pub use reading::{
    BehindReading, Cast, Evenness, Exposure, FlashReading, KeyReading, LandmarkLevel, LightLevel, Pattern,
    PatternRead, SitterLevel, SkinReading,
};
pub use settings::{FlashSetting, Settings};
pub use side::Side;
pub use step::Step;
pub use variation::{Adjusted, Between, DistanceChange, DistanceStep, LightChange, Loss, Variations};
pub use verdict::{AgainstLight, Fault, FaultPoints, Reason, SurfaceVerdict, Verdict, Why};
pub use way::{Aim, BeamMiddle, Carrier, Holder, LightName, Route, WayId};
pub use wish::{Judgement, Wish, WishKind, WishState, loss};

/// Version of the published shape. A renamed field raises it, stands in the changelog, and needs the schema written
/// anew.
pub const VERSION: u32 = 4;
