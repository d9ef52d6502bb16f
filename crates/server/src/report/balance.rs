//! Flash against the light that is there, as JSON.

use super::{CameraReport, NamedStops, Number, camera, number};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use solver::{Balance, Control, LaterSettings, LaterWay, Reach, ZoneLevel};

/// Flash against the light that is there.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BalanceReport {
    /// The light level, as an exposure value at ISO 100, for which the settings are right, the filter on the lens
    /// included.
    pub settings_ev: Number,
    /// The flash's share of the light on the face, in per cent.
    pub flash_percent: Number,
    /// The share of everything else.
    pub ambient_percent: Number,
    /// Each zone at these settings.
    pub zones: Vec<ZoneReport>,
    /// How far from the face the flash may be, by the inverse square and without what the surroundings send back;
    /// empty unless it shines straight at the face.
    pub reach: Vec<ReachReport>,
    /// What one step of each control does.
    pub controls: Vec<ControlReport>,
    /// Settings for each later time.
    pub later: Vec<LaterReport>,
    /// From the nearest to the farthest sharp distance; null when it reaches the horizon.
    pub depth_of_field_m: Number,
}

impl BalanceReport {
    pub(super) fn new(balance: &Balance) -> Self {
        let share = 100.0 * balance.flash_share;
        Self {
            settings_ev: number(balance.settings_ev.value()),
            flash_percent: number(share),
            ambient_percent: number(100.0 - share),
            zones: balance.zones.iter().map(ZoneReport::new).collect(),
            reach: balance.reach.iter().map(ReachReport::new).collect(),
            controls: balance.controls.iter().map(ControlReport::new).collect(),
            later: balance.later.iter().map(LaterReport::new).collect(),
            depth_of_field_m: balance.sharp.and_then(|sharp| number(sharp.depth_m())),
        }
    }
}

/// Where a zone comes out.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ZoneReport {
    /// Its name.
    pub name: String,
    /// Stops from normal.
    pub level_stops: Number,
    /// Where it was wished; null when nothing was said.
    pub wish_stops: Number,
    /// Its colour temperature; null when it was not told.
    pub temperature_k: Number,
}

impl ZoneReport {
    fn new(zone: &ZoneLevel) -> Self {
        Self {
            name: zone.name.clone(),
            level_stops: number(zone.level.value()),
            wish_stops: zone.wish.and_then(|wish| number(wish.value())),
            temperature_k: zone.kelvin.and_then(|kelvin| number(kelvin.value())),
        }
    }
}

/// The largest distance at which the flash alone exposes the face.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ReachReport {
    /// Zoom and power in words: "zoom 105 at 1/1".
    pub name: String,
    /// Zoom of the head in millimetres.
    pub zoom_mm: Number,
    /// Power in stops below 1/1.
    pub stops_below_full: Number,
    /// From the flash to the face.
    pub distance_m: Number,
}

impl ReachReport {
    fn new(reach: &Reach) -> Self {
        Self {
            name: format!("zoom {:.0} at {}", reach.zoom_mm, reach.power),
            zoom_mm: number(reach.zoom_mm),
            stops_below_full: number(reach.power.stops_below_full()),
            distance_m: number(reach.metres),
        }
    }
}

/// What one step of a control does.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ControlReport {
    /// The control.
    pub name: String,
    /// The step.
    pub step: String,
    /// To the flash's part.
    pub flash_stops: Number,
    /// To the ambient part.
    pub ambient_stops: Number,
    /// To all light on the face, with the parts added as amounts.
    pub face_stops: Number,
    /// To each zone.
    pub zones: Vec<NamedStops>,
}

impl ControlReport {
    fn new(control: &Control) -> Self {
        Self {
            name: control.name.clone(),
            step: control.step.clone(),
            flash_stops: number(control.flash.value()),
            ambient_stops: number(control.ambient.value()),
            face_stops: number(control.face.value()),
            zones: NamedStops::list(&control.zones),
        }
    }
}

/// Settings for a later time.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LaterReport {
    /// When.
    pub name: String,
    /// The change of everything but the flash.
    pub change_stops: Number,
    /// The fewest changes.
    pub then: LaterWayReport,
    /// With a shutter that can be held; null when the first can be.
    pub instead: Option<LaterWayReport>,
}

impl LaterReport {
    fn new(later: &LaterSettings) -> Self {
        Self {
            name: later.name.clone(),
            change_stops: number(later.change.value()),
            then: LaterWayReport::new(&later.then),
            instead: later.instead.as_ref().map(LaterWayReport::new),
        }
    }
}

/// One way to meet another light.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LaterWayReport {
    /// What is touched.
    pub words: String,
    /// Settings of the camera.
    pub camera: CameraReport,
    /// Power of the flash.
    pub power: String,
    /// That power in stops below 1/1.
    pub stops_below_full: Number,
    /// Flash on the face then.
    pub flash_stops: Number,
    /// Ambient on the face then; null in darkness.
    pub ambient_stops: Number,
    /// Each zone then.
    pub zones: Vec<NamedStops>,
}

impl LaterWayReport {
    fn new(way: &LaterWay) -> Self {
        Self {
            words: way.words.clone(),
            camera: camera(&way.settings),
            power: way.power.to_string(),
            stops_below_full: number(way.power.stops_below_full()),
            flash_stops: number(way.flash.value()),
            ambient_stops: way.ambient.and_then(|stops| number(stops.value())),
            zones: NamedStops::list(&way.zones),
        }
    }
}
