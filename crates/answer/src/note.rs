//! What the photographer should do or know, and what could hurt someone.

use crate::{Carrier, Cast, Clash, Greenness, LightName, Side, SidesCure, SidesVerdict, WayId};
use schemars::JsonSchema;
use serde::Serialize;
use units::{Duv, Iso, Kelvin, Metres, MiredShift, ShutterTime, Stops};

/// Something whose level was wished.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(tag = "is", rename_all = "snake_case")]
#[schemars(deny_unknown_fields)]
pub enum LevelTarget {
    /// A zone of the picture.
    Zone {
        /// Its name.
        name: String,
    },
    /// The light that is there, at the face.
    Ambient,
}

/// Something to do or to know.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "note", rename_all = "snake_case")]
#[schemars(deny_unknown_fields)]
pub enum Note {
    /// Two wishes exclude each other.
    Excluded {
        /// Which, why, and which gives way.
        clash: Clash,
    },
    /// A light that is there carries the picture, and the flash fills.
    LightIsKey {
        /// The strongest of them.
        light: LightName,
        /// Part of the light on the face that all of them make, 0 to 1.
        share: f64,
        /// How far the flash stays under them, in stops, positive.
        under: Stops,
        /// The side that was asked for the key, where they come from the other one.
        not_from: Option<Side>,
    },
    /// Full power is too little.
    FallsShort {
        /// Stops short, with the light that is there.
        stops: Stops,
    },
    /// The least power is too much.
    LeastPowerTooMuch {
        /// Stops too much, with the light that is there.
        stops: Stops,
    },
    /// The light that is there is too much without any flash.
    ThereTooMuch {
        /// Stops too much by itself.
        stops: Stops,
    },
    /// Less in hand than asked.
    LittleInHand {
        /// Stops left.
        left: Stops,
        /// Stops fewer than asked.
        fewer: Stops,
    },
    /// The shadow side of the face is nearly black, and nobody asked for that.
    BlackShadow {
        /// The lit cheek over the other.
        ratio: f64,
    },
    /// Two lights from apart make the face, so that its shading shows neither of them alone.
    TwoLights {
        /// Where the flash comes from, from the nose, in degrees; positive is the camera's right.
        flash_deg: f64,
        /// Where the light that is there comes from.
        there_deg: f64,
    },
    /// The beam does not cover the frame.
    BeamFallsOff {
        /// The edges where it is clearly weaker than at the face.
        falls: Vec<FrameFall>,
        /// Whether the head can be zoomed wider.
        may_zoom: bool,
    },
    /// The shadow of the first sitter shows on what is behind them.
    CastShadow {
        /// The side of the head that it shows on; `None` above or around it.
        side: Option<Side>,
        /// How much darker than what is around it, in stops, positive.
        deep: Stops,
        /// From the face to where it falls, in metres.
        behind_m: f64,
    },
    /// Of the light things in the picture the one that burns out first, where it comes near to that.
    BurnsFirst {
        /// What it is.
        thing: LightThing,
        /// Its brightest part above mid-grey, in stops.
        over_grey: Stops,
        /// From there to where the sensor saturates, in stops; negative when it is past that.
        left: Stops,
    },
    /// The hair of the first sitter and what is seen beside it look alike.
    HairMerges {
        /// Hair against what is behind it, in stops; positive is lighter.
        hair: Stops,
    },
    /// Near full power: waiting, and what a stop of speed would do.
    NearFullPower {
        /// Seconds after each frame.
        wait_s: f64,
        /// The speed that leaves a stop more in hand.
        iso: Iso,
        /// Where that puts the light that is there; `None` in darkness.
        #[serde(rename = "ambient_stops")]
        ambient: Option<Stops>,
    },
    /// The shutter is faster than the flash can follow.
    BeyondSync {
        /// The shutter.
        #[serde(rename = "shutter_s")]
        shutter: ShutterTime,
        /// The sync speed.
        #[serde(rename = "sync_s")]
        sync: ShutterTime,
    },
    /// A card must keep the head's own light off the face.
    FlagHead {
        /// Degrees between head and face.
        away_deg: f64,
    },
    /// The head's own light is close under the bounce: block it.
    BlockSpill {
        /// Stops under the bounce, positive.
        under: Stops,
    },
    /// The head's own light stays well under.
    SpillStaysUnder {
        /// Degrees between head and face.
        away_deg: f64,
        /// Stops under the bounce, positive.
        under: Stops,
    },
    /// None of the beam meets the face.
    SpillMissesFace {
        /// Degrees between head and face.
        away_deg: f64,
    },
    /// A small panel gains from zooming in.
    ZoomHelpsPanel {
        /// From zoom 50 to 105.
        gain: Stops,
    },
    /// A wall hardly gains from zooming in.
    ZoomHardlyMatters {
        /// From zoom 50 to 105.
        gain: Stops,
    },
    /// A light and the flash are far apart in colour, but reach both sides of the face in like shares.
    SharedShares {
        /// The light.
        light: LightName,
        /// Between the two where they arrive.
        apart: MiredShift,
        /// Between the sides of the face.
        sides: MiredShift,
    },
    /// One balance is a compromise between a light and the flash.
    BalanceCompromise {
        /// The light.
        light: LightName,
        /// Between the two where they arrive.
        apart: MiredShift,
    },
    /// One balance serves a light and the flash.
    BalanceServes {
        /// The light.
        light: LightName,
        /// Between the two where they arrive.
        apart: MiredShift,
    },
    /// What the gel on the flash does.
    GelWorn {
        /// Its name.
        gel: String,
        /// Shift and Duv of the flash's light, and its temperature; `None` for a deep colour.
        turns: Option<GelTurn>,
        /// How far the flash lies from the light that is there, where both arrive.
        left: Option<MiredShift>,
        /// What it costs.
        loss: Stops,
    },
    /// A gel that is not in the bag and would serve much better.
    GelToBuy {
        /// Its name.
        gel: String,
        /// Shift of the flash's light.
        shift: MiredShift,
        /// Change of its Duv.
        duv: Duv,
        /// The gel of the bag that it betters; `None` where no gel serves.
        than: Option<String>,
        /// What it costs.
        loss: Stops,
    },
    /// The sides of the face are too far apart in colour.
    SidesApart {
        /// So far.
        apart: MiredShift,
        /// Whether one balance serves.
        verdict: SidesVerdict,
        /// What helps.
        cure: SidesCure,
    },
    /// Greenish lamps, and whether they matter.
    GreenLamps {
        /// The lamps.
        lamps: Vec<LightName>,
        /// Stops under an exact exposure, positive.
        under: Stops,
        /// Part of the light on the face.
        share: f64,
        /// How much warmer they make it.
        warmer: MiredShift,
        /// How much greener they make it.
        greener: Duv,
        /// Whether that matters.
        matters: Greenness,
    },
    /// A coloured surface where the key was wished: what if it must be used all the same.
    TemptingWall {
        /// The surface.
        way: WayId,
        /// The light that is there and matters, with how far apart it and this bounce would be.
        light: Option<TemptedLight>,
        /// The balance for it, from and to.
        balance_k: [Kelvin; 2],
        /// Its cast.
        cast: Cast,
    },
    /// Light so steep that deep-set eyes go dark.
    DeepSetEyes,
    /// The daylight that was metered lies outside what such skies do.
    DaylightOff {
        /// Metered against computed, positive brighter.
        stops: Stops,
        /// What such skies spread by.
        spread: Stops,
    },
    /// The shutter leaves the flash's part alone.
    ShutterLeavesFlash,
    /// The filter on the lens takes from flash and ambient alike.
    FilterTakesBoth {
        /// The filter.
        nd: Stops,
    },
    /// High-speed sync is left out of the search.
    NoHighSpeedSync,
    /// Open shade saves power in the sun.
    OpenShade,
    /// The depth that was asked cannot be had.
    DepthCannotBeHad {
        /// The depth.
        depth_m: Metres,
    },
    /// The light that is there does not leave the picture.
    AmbientStays {
        /// Stops under, positive.
        under: Stops,
        /// The shutter.
        #[serde(rename = "shutter_s")]
        shutter: ShutterTime,
        /// Whether that is the fastest with a clean flash frame.
        fastest: bool,
    },
    /// The light that is there comes out elsewhere than asked.
    AmbientOff {
        /// Positive is brighter than asked.
        off: Stops,
    },
    /// The shutter is slow for a person.
    SlowForAPerson {
        /// The shutter.
        #[serde(rename = "shutter_s")]
        shutter: ShutterTime,
    },
    /// A level comes out brighter than asked.
    TooBright {
        /// What comes out.
        target: LevelTarget,
        /// By so much.
        off: Stops,
        /// The shutter.
        #[serde(rename = "shutter_s")]
        shutter: ShutterTime,
        /// Whether that is the fastest with a clean flash frame.
        fastest: bool,
    },
    /// A level comes out darker than asked.
    TooDark {
        /// What comes out.
        target: LevelTarget,
        /// By so much, positive.
        off: Stops,
    },
}

/// A light thing in the picture. Where there is one sitter alone, clothes name nobody.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "is", rename_all = "snake_case")]
#[schemars(deny_unknown_fields)]
pub enum LightThing {
    /// Jacket, jersey, shirt or the upper part of a dress.
    Top {
        /// Whose.
        sitter: Option<String>,
    },
    /// Trousers, skirt or the lower part of a dress.
    Trousers {
        /// Whose.
        sitter: Option<String>,
    },
    /// A cap.
    Cap {
        /// Whose.
        sitter: Option<String>,
    },
    /// A face of the room, furniture or a board.
    Surface {
        /// Which.
        of: Carrier,
    },
}

/// An edge of the frame.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum FrameEdge {
    /// On the camera's left.
    Left,
    /// On the camera's right.
    Right,
    /// The upper edge.
    Top,
    /// The lower edge.
    Bottom,
}

/// How much weaker the beam is at an edge of the frame than at the face.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct FrameFall {
    /// The edge, in the plane of the first face.
    pub edge: FrameEdge,
    /// In stops, positive.
    #[serde(rename = "under_stops")]
    pub under: Stops,
}

/// What a gel makes of the flash's light.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct GelTurn {
    /// Shift, positive warmer.
    #[serde(rename = "mired")]
    pub shift: MiredShift,
    /// Change of Duv, positive greener.
    pub duv: Duv,
    /// Colour temperature behind it.
    #[serde(rename = "temperature_k")]
    pub kelvin: Kelvin,
}

/// A light that is there, beside a tempting bounce.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub struct TemptedLight {
    /// The light.
    pub light: LightName,
    /// Between it and the bounce; `None` where one has no temperature.
    #[serde(rename = "mired")]
    pub apart: Option<MiredShift>,
}

/// Something that could hurt someone.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "caution", rename_all = "snake_case")]
#[schemars(deny_unknown_fields)]
pub enum Caution {
    /// A bare flash near open eyes.
    Dazzles {
        /// Metres from the flash to the face.
        metres: f64,
        /// Metres to keep at least.
        keep_m: f64,
    },
    /// Small children before a flash.
    SmallChildren {
        /// Metres to keep, or the flash is bounced.
        keep_m: f64,
    },
    /// The sun ahead of the lens.
    SunAhead,
    /// A flash near full power gets hot.
    HotFlash,
}
