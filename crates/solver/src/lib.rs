//! You know the result and want the cause: from an ask to settings that work.
//!
//! This crate turns a [`Job`] (place, sitters, bag, ambient light, ask) into an [`Answer`] with its
//! reasons. It has no physics of its own: it only calls forward functions of `transport` and `camera`,
//! compares what they return, and says why.

mod adjusting;
mod aiming;
mod alternatives;
mod answer;
mod balance;
mod changes;
mod colouring;
mod error;
mod exposing;
mod job;
mod levels;
mod limits;
mod notes;
mod outdoors;
mod reading;
mod score;
mod search;
mod sensitivity;
mod solve;
mod step;
mod survey;
#[cfg(test)]
mod trials;
mod uncertainty;
mod ways;
mod words;

pub use adjusting::{
    Adjusted, Between, DistanceChange, DistanceStep, LightChange, Variations, when_distances_change,
    when_flash_changes, when_light_changes,
};
pub use aiming::{AimReading, Aiming};
pub use answer::{
    Aim, Alternative, Answer, Cast, Change, ChartKind, ChartLine, ColourZone, Colouring, Confirmation,
    Evenness, Exposure, FlashSetting, GelWorn, KeyReading, Limit, LimitKind, MapCell, RoomMap, Route,
    Sensitivity, Settings, Shortfall, SourceColour, SurfaceVerdict, Uncertainty, UncertaintyPart, Verdict,
};
pub use balance::{Balance, Control, LaterSettings, LaterWay, Reach, ZoneLevel};
pub use error::SolverError;
pub use job::{
    Ambient, AmbientFrom, AmbientLevel, AmbientWish, Ask, Bag, Board, CameraBody, ColourWish, FlashStand,
    GelWish, Job, KeyWish, LampShape, Later, MeterFacing, Side, Softness, Zone, ZoneWish,
};
pub use outdoors::{DaylightHere, DaylightPart, Disc, in_place};
pub use solve::{ambient_layers, answer, answer_watched, scene_of};
pub use step::{Step, Watch};
