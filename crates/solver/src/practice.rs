//! Numbers of practice: every threshold of taste or trade once, with where it comes from.
//!
//! "Common practice" is what photographers agree on among themselves; "ours" is a choice of this program, with its
//! reason. What belongs to a method (steps of a search, rays of a meter) or to geometry stands where it is used.
//!
//! Points are those of the score: one point is about what a careful photographer would call a clear fault.

/// One click of a dial, in stops (common practice: cameras and flashes step by thirds).
pub(crate) const CLICK: f64 = 1.0 / 3.0;
/// What lies nearer than this to a setting is set to it.
pub(crate) const HALF_A_CLICK: f64 = 0.5 * CLICK;
/// Half a click, rounded up: power that is rounded to the nearest click misses nothing (ours).
pub(crate) const ROUNDED_AWAY: f64 = 0.17;
/// A level within a click of its wish is where it was wished, rounding forgiven (common practice: one click).
pub(crate) const WITHIN_A_CLICK: f64 = CLICK + 0.01;

/// Light this far under other light does not matter, in stops (common practice: an eighth of it is neither seen in the
/// picture, nor as a colour, nor as a second shadow).
pub(crate) const HARDLY_THERE: f64 = -3.0;
/// Where nothing is asked of the light that is there, it may grow until it is this far under the whole exposure before
/// the camera follows it (ours: the flash then still makes half of the light on the face).
pub(crate) const STILL_A_KEY: f64 = -1.0;
/// The fine room may disagree with the search about spill by this much before it is worth a note, in stops (ours).
pub(crate) const SPILL_DOUBT: f64 = 0.25;
/// Light this much weaker or stronger than the answer's is worth saying, in stops (ours).
pub(crate) const STRENGTH_TOLD: f64 = 0.15;
/// Light of this exposure value and more is the sun, not shade (common practice: shade is 12, sun 15).
pub(crate) const SUNLIT_EV: f64 = 14.0;

/// The aperture when nothing is asked: one row of faces is sharp at f/4 (common practice).
pub(crate) const PLAIN_APERTURE: f64 = 4.0;
/// The aperture that comes nearest to a depth which cannot be had (common practice: beyond f/16 pictures get dull).
pub(crate) const DEEPEST_APERTURE: f64 = 16.0;
/// Beyond f/22 every lens is dull with diffraction (common practice).
pub(crate) const SMALLEST_APERTURE: f64 = 22.7;
/// The smallest aperture that is offered as a change: a click before that (ours).
pub(crate) const SMALLEST_OFFERED: f64 = 22.5;
/// The slowest shutter for a posed person without a support: the engraved 1/60, which is 1/64 s (common practice).
pub(crate) const SLOWEST_HAND_HELD_S: f64 = 1.0 / 64.0 + 1e-9;
/// The slowest shutter that is tried with a support, in seconds (ours: no person holds still for longer).
pub(crate) const SLOWEST_S: f64 = 2.0;
/// Speeds from which noise shows (common practice).
pub(crate) const GRAINY_ISO: f64 = 1600.0;
/// Less in hand than this is near full power, in stops (ours: the next darker suit takes it).
pub(crate) const NEAR_FULL_POWER: f64 = 0.75;
/// A way this far short of exposure at full power cannot be used, in stops (ours: no speed makes up for it).
pub(crate) const HOPELESS_STOPS: f64 = 3.0;

/// Two lights on one face, or light on skin that should stay neutral, further apart than this cannot share one balance,
/// in mired (common practice: rejected).
pub(crate) const NO_BALANCE_MIRED: f64 = 40.0;
/// Two sides of a face this far apart can share one balance, in mired (common practice: usable).
pub(crate) const SIDES_SHARE_MIRED: f64 = 20.0;
/// Two lights this far apart can share one balance, in mired (ours: where they mix, the sides of a face lie nearer
/// together than the lights themselves).
pub(crate) const LIGHTS_SHARE_MIRED: f64 = 25.0;
/// Green or magenta that skin does not bear, in Duv (common practice).
pub(crate) const UNUSABLE_DUV: f64 = 0.008;
/// Green or magenta that is a clear fault on skin, in Duv (ours: between seen and unusable).
pub(crate) const CLEAR_DUV: f64 = 0.006;
/// A lamp this much greener than a glowing body is greenish, in Duv (ours).
pub(crate) const GREENISH_DUV: f64 = 0.005;
/// Green or magenta that begins to show on skin, in Duv (common practice: good below, usable to twice).
pub(crate) const SEEN_DUV: f64 = 0.002;

/// From this height on a chin up or a card at the chest is worth a note, in degrees (ours: a little before that).
pub(crate) const DEEP_EYES_DEG: f64 = 45.0;
/// Light steeper than this shades the eye sockets, in degrees (common practice).
pub(crate) const STEEP_DEG: f64 = 30.0;
/// Light from nearer to the nose than this is flat, in degrees (common practice).
pub(crate) const FLAT_DEG: f64 = 25.0;
/// Light that keeps nearer to the nose than this has no side (common practice: butterfly and flat light).
pub(crate) const IN_FRONT_DEG: f64 = 15.0;
/// Light from at least so far round comes from the side, in degrees (common practice: split light).
pub(crate) const FROM_THE_SIDE_DEG: f64 = 75.0;
/// Sides of a face up to this far apart are even: a key and as much fill make 2:1 (ours: no split is seen in it).
pub(crate) const EVEN_RATIO: f64 = 2.0;
/// Sides of a face from this far apart are uneven (ours: a stop and a half, which light from the front never makes).
pub(crate) const UNEVEN_RATIO: f64 = 3.0;
/// Light from further round than this comes from behind, in degrees (common practice).
pub(crate) const BEHIND_DEG: f64 = 110.0;
/// A wall stands where the key is wished within this, in degrees (ours: the tolerance of a plain ask, and a little).
pub(crate) const TEMPTING_DEG: f64 = 25.0;
/// The sun is ahead of the lens within this of the camera's line, in degrees (ours: a portrait lens sees about 30).
pub(crate) const AHEAD_DEG: f32 = 25.0;

/// Balances that cameras can be set to, in kelvin (common practice).
pub(crate) const BALANCES_K: (f64, f64) = (2500.0, 10_000.0);
/// Steps of the balance, in kelvin (common practice: cameras step by a hundred or so).
pub(crate) const BALANCE_STEP_K: f64 = 100.0;

/// Zooms of the head that are compared, in millimetres (common practice: where heads start, and where they get long).
pub(crate) const COMPARED_ZOOMS_MM: [f64; 2] = [50.0, 105.0];
/// Height of a shoe-mounted flash over the lens, in metres (common practice).
pub(crate) const SHOE_HEIGHT_M: f32 = 0.12;
/// The one who holds the camera, as an upright post behind the lens: how far its middle is behind, its radius, and how far it
/// reaches above the lens, in metres (ours: shoulders half a metre wide, 12 cm from the eyes to the top of the head, and five
/// more for a beam's lower half).
pub(crate) const PHOTOGRAPHER_M: [f32; 3] = [0.3, 0.2, 0.17];
/// Nearer than this a board held by an assistant crowds sitter and frame, in metres (common practice: 1.0 to 1.4 m).
pub(crate) const COMFORTABLE_BOARD_M: f64 = 1.2;
/// How high a stand from the bag, or an arm, holds a flash, in metres (common practice: compact stands reach 2 to 2.6 m).
pub(crate) const HIGHEST_STAND_M: f32 = 2.6;
/// How high an assistant's arm holds a flash, in metres (ours: a hand above the head).
pub(crate) const HIGHEST_HAND_M: f32 = 2.2;
/// A flash is not set down lower than this, in metres (ours).
pub(crate) const LOWEST_STAND_M: f32 = 0.3;
/// Nothing is held nearer to a face than this, in metres (common practice: bare flash 1 m, large fronts nearer).
pub(crate) const LEAST_HELD_M: f64 = 0.5;
/// A bare flash nearer than this to open eyes dazzles, in metres (common practice).
pub(crate) const DAZZLES_M: f64 = 1.0;
/// Small children are kept this far from a flash, in metres (common practice).
pub(crate) const CHILDREN_M: f64 = 1.5;
/// Sides of a face further apart than this leave the far one without detail (common practice: 8:1 is the most that is lit
/// on purpose with detail left).
pub(crate) const BLACK_RATIO: f64 = 8.0;
/// Where all the light on a face comes from, and where its shading says so, may lie so many degrees apart before two lights are
/// told (ours: with one light they lie within ten).
pub(crate) const SHADING_APART_DEG: f64 = 30.0;
/// A light that makes less than this part of what is on a face is not told as one of two (ours).
pub(crate) const ONE_OF_TWO: f64 = 0.1;
/// A beam that is so many stops weaker at an edge of the frame than at the face is told (common practice: a stop shows).
pub(crate) const BEAM_FALLS_OFF: f64 = 1.0;
/// Clothes, and things that nobody wears, are told when they come so near to saturation, in stops (ours: the detail of a white
/// dress is always worth a word, a white wall's when a first frame may be off by as much).
pub(crate) const BURNS_OUT_TOLD: [f64; 2] = [2.0, 1.0 / 3.0];
/// Hair that is lighter or darker than what is behind it by less than this merges into it, in stops (ours: less is
/// lost in hair's own shading).
pub(crate) const MERGES: f64 = 0.5;
/// Things from this reflectance on are light ones (ours: a stop under white card).
pub(crate) const LIGHT_THING: f64 = 0.45;
/// The sitter's own shadow is told when it is so many stops deep (ours: less passes for shading).
pub(crate) const CAST_SHADOW_TOLD: f64 = 0.5;
/// Up to this age, in years, they are small (ours).
pub(crate) const SMALL_CHILD_YEARS: f32 = 4.0;

/// A way this many points behind the answer spoils the look (ours: two clear faults and a half).
pub(crate) const POOR_POINTS: f64 = 2.5;
/// Ways this close behind the best, in points, are too close to call in a coarse place (ours: what it may
/// be wrong by).
pub(crate) const TOO_CLOSE_POINTS: f64 = 0.4;
/// Ways this close to one another, in points, are equally good: so much is noise of the reading (ours).
pub(crate) const EQUAL_POINTS: f64 = 0.05;
/// A gel that is not in the bag is worth a note when it would spare this many points (ours: a clear fault).
pub(crate) const WORTH_BUYING_POINTS: f64 = 1.0;
/// Faults of fewer points than this are not worth a reason (ours).
pub(crate) const REASON_POINTS: f64 = 0.25;

/// What is wished: how far it may be off and still be kept, in its own unit, and the points of being just so far off. A
/// point is about what a careful photographer would call a clear fault. Twice the tolerance is missed. Tolerances are
/// common practice where that is said, all else is ours.
pub(crate) mod wish {
    /// Stops of exposure beyond the half click that rounding leaves (common practice: a click in all).
    pub const EXPOSURE: (f64, f64) = (super::WITHIN_A_CLICK - super::ROUNDED_AWAY, 0.5);
    /// Stops in hand: power that is rounded to a click misses nothing.
    pub const IN_HAND: (f64, f64) = (super::ROUNDED_AWAY, 0.25);
    /// The wait, as a share of what was asked.
    pub const RECYCLE: (f64, f64) = (0.1, 0.15);
    /// Stops of a zone (common practice: one click).
    pub const ZONE: (f64, f64) = (super::WITHIN_A_CLICK, 0.5);
    /// Stops of the light that is there, out of the picture (common practice: one click).
    pub const OUT: (f64, f64) = (super::WITHIN_A_CLICK, 0.5);
    /// Stops of the light that is there, at a level.
    pub const AMBIENT: (f64, f64) = (0.5, 1.0);
    /// Stops of the flash under the light that is there.
    pub const FILL: (f64, f64) = (0.5, 1.0);
    /// Weight of the key's direction; its tolerance is the ask's.
    pub const DIRECTION: f64 = 1.0;
    /// The narrowest tolerance that a direction is measured by, in degrees.
    pub const NARROWEST_DEG: f64 = 5.0;
    /// Degrees of the key's height.
    pub const HEIGHT: (f64, f64) = (15.0, 0.8);
    /// Sockets down to this under the cheeks below them are open eyes, in stops; how much further they still are
    /// (common practice: about a stop and a half); and the weight.
    pub const EYES: (f64, f64, f64) = (-1.0, 0.5, 1.0);
    /// A light that is asked to come from higher than this leaves the sockets deeper, by a stop for as many degrees more
    /// (ours: at 45 degrees, half a stop).
    pub const EYES_UNDER_STEEP_DEG: f64 = 30.0;
    /// A key that is asked from so far round, in degrees, leaves the far eye in the shadow (common practice: Rembrandt and
    /// split light).
    pub const LIT_EYE_DEG: f64 = 50.0;
    /// A soft source is this wide for its distance; it still is at half of it (in doublings); and the weight.
    pub const SOFT: (f64, f64, f64) = (0.5, 1.0, 0.4);
    /// A hard source is up to this wide for its distance; it still is at 0.35; and the weight.
    pub const HARD: (f64, f64, f64) = (0.2, 0.8, 0.4);
    /// Stops of ratio.
    pub const RATIO: (f64, f64) = (0.5, 1.0);
    /// Stops between faces beyond what was asked: a tenth is what a meter tells.
    pub const EVENNESS: (f64, f64) = (0.1, 0.5);
    /// Stops between faces where nothing was asked.
    pub const EVENNESS_UNASKED: (f64, f64) = (0.5, 1.0);
    /// Stops of background against the face.
    pub const BACKGROUND: (f64, f64) = (0.5, 0.5);
    /// Weight of skin that should be neutral; its tolerance is half of what skin bears.
    pub const CAST: f64 = 1.0;
    /// The finest tolerance of a colour, in mired: less is not seen.
    pub const FINEST_MIRED: f64 = 5.0;
    /// Light without a colour temperature counts as this far off, in mired.
    pub const LOST_MIRED: f64 = 400.0;
    /// Duv of skin that should be neutral (common practice: unusable at twice this).
    pub const GREEN: (f64, f64) = (0.5 * super::UNUSABLE_DUV, 1.0);
    /// Mired of skin against a wished tone.
    pub const SKIN: (f64, f64) = (super::SIDES_SHARE_MIRED, 1.0);
    /// Mired of the background against a wished tone.
    pub const ROOM: (f64, f64) = (30.0, 1.0);
}

/// A surface that turns the flash's light by more than this cannot be cured by a balance, in mired: what is behind the
/// sitter goes as far the other way (ours; up to 40 is common practice without any cure).
pub(crate) const BEYOND_BALANCE_MIRED: f64 = 60.0;

/// What it takes to carry a way out, in points (ours).
pub(crate) mod fault {
    /// Fewer points than this are no fault.
    pub const NONE: f64 = 0.004;
    /// A flag beside the head.
    pub const FLAG: f64 = 0.2;
    /// A flag that also cuts into the beam: what is lit gets an edge, and less light than was reckoned with.
    pub const FLAG_IN_BEAM: f64 = 0.4;
    /// For each stop used of the upper six: a cooler flash is the better of two.
    pub const USED: (f64, f64) = (6.0, 0.08);
    /// A pair of hands, for flash or board.
    pub const HANDS: f64 = 0.35;
    /// A stand.
    pub const STAND: f64 = 0.2;
    /// For each doubling of the zoom beyond what fills a board.
    pub const TIGHT: f64 = 0.1;
    /// Metres by which a board comes too near, and the points for as many.
    pub const CROWDS: (f64, f64) = (0.4, 2.0);
}

/// Weights of colour (ours).
pub(crate) mod colour_fault {
    /// Mired of light on skin against its wish.
    pub const SKIN_MIRED: f64 = 20.0;
    /// Duv of light on skin.
    pub const SKIN_DUV: f64 = 0.004;
    /// Mired of light on the background against its wish.
    pub const ROOM_MIRED: f64 = 30.0;
    /// Duv of light on the background.
    pub const ROOM_DUV: f64 = 0.008;
    /// Mired between flash and lamps that should be alike.
    pub const LAMP_MIRED: f64 = 15.0;
    /// For each stop that a gel takes.
    pub const PER_STOP_LOST: f64 = 0.1;
    /// For each gel to put on.
    pub const PER_GEL: f64 = 0.08;
}

/// What settings away from the plain ones cost, in points (ours).
pub(crate) mod taste {
    /// For a shutter too slow to hold, and for each stop of it.
    pub const SHAKY: (f64, f64) = (0.5, 1.0);
    /// For each stop of shutter slower than sync: the fastest gives the flash the most say.
    pub const SLOWER: f64 = 0.1;
    /// For each stop of speed above the lowest.
    pub const SPEED: f64 = 0.15;
    /// For each of them in which noise shows.
    pub const GRAIN: f64 = 0.5;
    /// For each stop of aperture away from the plain one, where it is free.
    pub const APERTURE: f64 = 0.15;
    /// For a filter on the lens.
    pub const FILTER: f64 = 0.15;
    /// For settings at which a must is not kept: any others are better.
    pub const FORBIDDEN: f64 = 100.0;
}

/// What is offered to be brought along.
pub(crate) mod brought {
    /// Filters for the lens, in stops (common practice: sold as 3 and 6, and 10 for water by day).
    pub const FILTERS: [f64; 2] = [3.0, 6.0];
    /// Loss in stops and width in metres of a white umbrella (common practice: about 1.7 stops for 1 m; in thirds, as a file
    /// says it).
    pub const UMBRELLA: (f64, f64) = (5.0 / 3.0, 1.0);
    /// Width and height of a white card in metres (common practice: foam board that one person holds).
    pub const CARD: (f32, f32) = (1.0, 1.2);
}

/// What changes ask of the photographer and the picture, in points (ours).
pub(crate) mod effort {
    /// For each stop more of speed, and for each of them in which noise shows.
    pub const SPEED: (f64, f64) = (0.3, 0.5);
    /// For each stop less of speed.
    pub const SLOWER_SPEED: f64 = 0.2;
    /// For each stop that the lens is opened: less is sharp.
    pub const OPEN: f64 = 0.5;
    /// For each stop that the lens is closed.
    pub const CLOSE: f64 = 0.35;
    /// For each stop fewer in hand.
    pub const IN_HAND: f64 = 0.6;
    /// For each doubling of the wait.
    pub const WAIT: f64 = 0.4;
    /// For dimming at all, and for each stop of it.
    pub const DIM: (f64, f64) = (0.3, 0.15);
    /// Mired of cast on skin that make a point.
    pub const CAST_MIRED: f64 = 20.0;
    /// For skin of any colour.
    pub const ANY_SKIN: f64 = 3.0;
    /// Degrees of angle or height that make a point.
    pub const DEG: f64 = 12.0;
    /// For the other side of the face.
    pub const OTHER_SIDE: f64 = 1.2;
    /// For shadows of another edge.
    pub const ANY_EDGE: f64 = 1.5;
    /// Stops of ratio or background that make a point.
    pub const LEVEL: f64 = 0.7;
    /// Stops between faces that make a point.
    pub const EVENNESS: f64 = 0.5;
    /// For a helper who holds a board.
    pub const HELPER: f64 = 0.7;
    /// For a flash off the camera, and for one that needs a stand brought along.
    pub const OFF_CAMERA: (f64, f64) = (0.5, 0.8);
    /// For a filter brought along, and for each stop of it.
    pub const BRING_FILTER: (f64, f64) = (0.5, 0.05);
    /// For an umbrella on a stand that is brought along, and for a card with somebody who holds it.
    pub const BRING: (f64, f64) = (1.4, 1.6);
    /// For people who move at all, and for each metre of it: another background behind the head.
    pub const MOVE: (f64, f64) = (0.5, 0.6);
    /// For each metre, where moving was offered: furniture, marks on the floor, another background.
    pub const OFFERED_MOVE: f64 = 0.5;
}

/// An advantage that is worth calling another way an alternative (ours).
pub(crate) mod advantage {
    /// Stops in hand.
    pub const POWER: f64 = 0.67;
    /// With so many stops more than were asked in hand, more of them are no advantage.
    pub const ENOUGH_IN_HAND: f64 = 1.5;
    /// Width of the light, as a factor.
    pub const WIDER: f64 = 1.35;
    /// Mired of cast.
    pub const MIRED: f64 = 10.0;
    /// Degrees nearer to the angle that was asked.
    pub const DEG: f64 = 6.0;
    /// Stops of ratio.
    pub const RATIO: f64 = 0.6;
    /// Hands that are free, against advantages in the units above.
    pub const NO_HANDS: f64 = 1.5;
    /// A flag that is not needed, against the same.
    pub const NO_FLAG: f64 = 0.9;
    /// Keys this far apart are different looks, in degrees.
    pub const ELSEWHERE_DEG: f64 = 40.0;
}

/// How far the inputs may be off, as one standard deviation.
pub(crate) mod spread {
    /// Paced and guessed distances, as a share (common practice: 10 to 15 % at worst).
    pub const DISTANCE: f64 = 0.06;
    /// Reflectance of a wall judged by eye, with what hangs on it, as a share (ours).
    pub const PAINT: f64 = 0.20;
    /// Furniture and people that were not described, in a room that carries the light, in stops (ours).
    pub const FURNISHING_STOPS: f64 = 0.22;
    /// A board held by hand wanders by this much, in metres (ours).
    pub const HELD_BOARD_M: f64 = 0.10;
    /// A board held by hand leans by about this much, in degrees (ours).
    pub const HELD_BOARD_LEAN_DEG: f64 = 8.0;
    /// Which moves its light by about this much, in stops (ours).
    pub const HELD_BOARD_LEAN_STOPS: f64 = 0.2;
    /// Parts below this do not count, in stops (ours).
    pub const NOT_COUNTED: f64 = 0.01;
}

/// Differences of the place by which the answer is doubted: ours, of the size that photographers get wrong.
pub(crate) mod what_if {
    /// What carries the light is a third darker.
    pub const DARKER: f32 = 2.0 / 3.0;
    /// The sitter is nearer, in metres.
    pub const NEARER_M: f64 = 0.5;
    /// The ceiling is lower, in metres.
    pub const LOWER_M: f64 = 0.2;
}
