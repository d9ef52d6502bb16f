//! Zones of the picture at given settings, against their wishes.

use answer::{Job, Settings, Zone, ZoneStops, ZoneWish};
use units::{Ev, Stops};

/// Stops from normal of a zone that is right at this exposure value.
pub(crate) fn zone_level(normal: Ev, settings: &Settings) -> Stops {
    normal - settings.exposing().ev()
}

/// Every zone with a wish, and where it comes out.
pub(crate) fn zone_wishes(job: &Job, settings: &Settings) -> Vec<(ZoneWish, Stops)> {
    let found = |wish: &ZoneWish| job.zones.iter().find(|zone| zone.name == wish.name);
    job.ask
        .zones
        .iter()
        .filter_map(|wish| Some((wish.clone(), zone_level(found(wish)?.normal, settings))))
        .collect()
}

/// Something in stops for every zone.
pub(crate) fn zone_stops(job: &Job, stops: impl Fn(&Zone) -> Stops) -> Vec<ZoneStops> {
    job.zones
        .iter()
        .map(|zone| ZoneStops {
            name: zone.name.clone(),
            stops: stops(zone),
        })
        .collect()
}
