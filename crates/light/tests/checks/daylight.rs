//! Daylight as a whole: what photographers meter, and what nature allows.

use colour::{LightColour, Spectrum};
use light::{Daylight, Moment, Moon, Shade, Site, Sun, Weather};
use proptest::prelude::*;

const GROUND: Spectrum = Spectrum::splat(0.18);

fn day(elevation_deg: f64, weather: Weather) -> Daylight {
    Daylight::new(&Sun::somewhere(225.0, elevation_deg), None, weather, None)
}

/// EV at ISO 100 of an illuminance: log2(E / 2.5 lx), ISO 2720 with C = 250.
fn ev(lux: f64) -> f64 {
    (lux / 2.5).log2()
}

fn kelvin(colour: &LightColour) -> f64 {
    colour.cct_duv().expect("nearly white").0.value()
}

/// Facing the sun, upright, on ordinary ground.
fn facing(elevation_deg: f64, weather: Weather) -> f64 {
    ev(day(elevation_deg, weather)
        .upright(225.0, &GROUND)
        .total()
        .value())
}

fn on_the_ground(elevation_deg: f64, weather: Weather) -> f64 {
    ev(day(elevation_deg, weather).horizontal().value())
}

#[test]
fn levels_as_photographers_know_them() {
    let check = |what: &str, found: f64, expected: f64, tolerance: f64| {
        assert!(
            (found - expected).abs() <= tolerance,
            "{what}: EV {found:.2}, expected {expected} ± {tolerance}"
        );
    };
    // Common practice: f/16 in the sun and its neighbours, to half a stop.
    check("clear sun", facing(45.0, Weather::Clear), 15.0, 0.5);
    check("hazy sun", facing(45.0, Weather::Hazy), 14.0, 0.5);
    check(
        "bright overcast",
        on_the_ground(60.0, Weather::BrightOvercast),
        13.0,
        0.5,
    );
    check(
        "heavy overcast",
        on_the_ground(60.0, Weather::HeavyOvercast),
        12.0,
        0.5,
    );
    let shade = |shade: Shade| ev(day(50.0, Weather::Clear).in_shade(shade).horizontal.value());
    check("open shade", shade(Shade::Open), 12.0, 0.5);
    check("deep shade", shade(Shade::Deep), 10.5, 0.5);
    check("under trees", shade(Shade::UnderTrees), 10.5, 1.0);
    // The low sun.
    check("sun at 10 degrees", facing(10.0, Weather::Clear), 13.3, 0.5);
    check("sun at 5 degrees", facing(5.0, Weather::Clear), 12.2, 0.5);
    check("sun at 2 degrees", facing(2.0, Weather::Clear), 10.8, 0.5);
    // Dusk, to 0.7 stops; sunset is 400 to 600 lx.
    check("sunset", on_the_ground(-0.8333, Weather::Clear), 7.5, 0.3);
    for (elevation, expected) in [(-2.0, 6.0), (-4.0, 3.3), (-6.0, 0.5)] {
        check("dusk", on_the_ground(elevation, Weather::Clear), expected, 0.7);
    }
}

#[test]
fn colours_as_photographers_know_them() {
    let check = |what: &str, found: f64, from: f64, to: f64| {
        assert!(
            (from..=to).contains(&found),
            "{what}: {found:.0} K, expected {from} to {to}"
        );
    };
    let clear = |elevation: f64| day(elevation, Weather::Clear);
    check("noon sun", kelvin(&clear(60.0).sun_colour), 5100.0, 5400.0);
    check("noon sky", kelvin(&clear(60.0).sky_colour), 9000.0, 15_000.0);
    for elevation in [-2.0, -4.0, -6.0] {
        check("dusk", kelvin(&clear(elevation).sky_colour), 8000.0, 12_000.0);
    }
    for weather in [Weather::BrightOvercast, Weather::HeavyOvercast] {
        check("overcast", kelvin(&day(45.0, weather).sky_colour), 6000.0, 7000.0);
    }
    for shade in [Shade::Open, Shade::Deep] {
        check(
            "shade",
            kelvin(&clear(45.0).in_shade(shade).colour),
            7000.0,
            10_000.0,
        );
    }
    // Under leaves light is greener than any daylight, and still nearly white.
    let (_, duv) = clear(45.0)
        .in_shade(Shade::UnderTrees)
        .colour
        .cct_duv()
        .expect("nearly white");
    assert!((0.005..0.02).contains(&duv.value()), "{duv:?}");
    // A low sun is within 70 mired of what is named for it: a beam alone is warmer than a face that also sees the sky.
    for (elevation, named) in [(10.0, 4000.0), (5.0, 3400.0)] {
        let mired = 1e6 / kelvin(&clear(elevation).sun_colour) - 1e6 / named;
        assert!((0.0..70.0).contains(&mired), "{elevation}: {mired} mired");
    }
}

#[test]
fn towards_the_sun_is_brighter_and_the_parts_add_up() {
    let golden = day(6.0, Weather::Clear);
    let (to, from) = (golden.upright(225.0, &GROUND), golden.upright(45.0, &GROUND));
    assert_eq!(from.sun.value(), 0.0);
    assert!(to.sky.value() > from.sky.value() && to.total().value() > 4.0 * from.total().value());
    assert!(to.colour_temperature() < from.colour_temperature());
    for upright in [to, from] {
        assert!((upright.xyz.y / upright.total().value() - 1.0).abs() < 1e-4);
    }
    // Grey ground gives an upright surface half of its share of what it gets itself.
    let expected = 0.5 * 0.18 * golden.horizontal().value();
    assert!((to.ground.value() / expected - 1.0).abs() < 1e-4);
}

#[test]
fn the_sky_lights_the_ground_as_its_luminance_says() {
    let dusk = day(-3.0, Weather::Clear);
    let (mut sum, steps) = (0.0, 200);
    for ring in 0..steps {
        let elevation = (f64::from(ring) + 0.5) / f64::from(steps) * 90.0;
        for bearing in 0..steps {
            let towards = light::solar::direction(f64::from(bearing) / f64::from(steps) * 360.0, elevation);
            let (up, level) = elevation.to_radians().sin_cos();
            sum += dusk.sky_luminance(towards.as_vec3()).value() * up * level;
        }
    }
    let cell = (std::f64::consts::FRAC_PI_2 / f64::from(steps)) * (std::f64::consts::TAU / f64::from(steps));
    assert!((sum * cell / dusk.sky_horizontal.value() - 1.0).abs() < 0.003);
}

#[test]
fn a_full_moon_lights_a_clear_night_and_an_overcast_one_less() {
    let moon = Moon {
        azimuth_deg: 180.0,
        elevation_deg: 60.0,
        distance_km: 384_400.0,
        elongation_deg: 180.0,
        illuminated_fraction: 1.0,
        waxing: true,
    };
    let night = |weather| Daylight::new(&Sun::somewhere(0.0, -30.0), Some(&moon), weather, None);
    let clear = night(Weather::Clear);
    assert!((0.15..0.3).contains(&clear.horizontal().value()));
    assert!((4000.0..4500.0).contains(&kelvin(&clear.moon_colour)));
    assert!(night(Weather::HeavyOvercast).horizontal().value() < clear.horizontal().value() / 4.0);
    let dark = Daylight::new(&Sun::somewhere(0.0, -30.0), None, Weather::Clear, None);
    assert!((dark.horizontal().value() / light::NIGHT_FLOOR_LX - 1.0).abs() < 0.01);
}

#[test]
fn day_by_the_calendar() {
    // The nearer sun of January is brighter by twice the 1.7 % of its distance.
    let at = |utc: (i32, u32, u32)| {
        let site = Site::new(0.0, 0.0).expect("a site");
        let moment = Moment::utc(utc.0, utc.1, utc.2, 12, 0, 0.0).expect("a moment");
        let sun = Sun {
            elevation_deg: 50.0,
            apparent_elevation_deg: 50.0,
            ..Sun::at(moment, site)
        };
        Daylight::new(&sun, None, Weather::Clear, None).sun_normal.value()
    };
    assert!((at((2026, 1, 3)) / at((2026, 7, 6)) - 1.069).abs() < 0.002);
}

fn weathers() -> impl Strategy<Value = Weather> {
    prop::sample::select(Weather::ALL.to_vec())
}

proptest! {
    /// A minute of the sun's steepest fall moves it by a quarter of a degree, and no minute may jump.
    #[test]
    fn no_jump_from_noon_to_night(elevation in -30.0..89.9f64, weather in weathers()) {
        let (here, next) = (day(elevation, weather), day(elevation + 0.02, weather));
        let step = ev(next.horizontal().value()) - ev(here.horizontal().value());
        // The steepest dusk rises by 2 stops a degree.
        prop_assert!((-1e-4..0.05).contains(&step), "{step}");
        let mired = |colour: &LightColour| 1e6 / kelvin(colour);
        prop_assert!((mired(&next.sky_colour) - mired(&here.sky_colour)).abs() < 0.5);
        let seen = |day: &Daylight| ev(day.upright(300.0, &GROUND).total().value());
        prop_assert!((seen(&next) - seen(&here)).abs() < 0.06);
        // The beam: not a hundredth of noon's from one step to the next, even while the disc sinks.
        prop_assert!((next.sun_normal.value() - here.sun_normal.value()).abs() < 1000.0);
    }

    #[test]
    fn nothing_is_negative(
        elevation in -90.0..90.0f64, azimuth in 0.0..360.0f64, facing in 0.0..360.0f64,
        moon_elevation in -90.0..90.0f64, elongation in 0.0..180.0f64, weather in weathers(),
    ) {
        let moon = Moon {
            azimuth_deg: facing, elevation_deg: moon_elevation, distance_km: 380_000.0, elongation_deg: elongation,
            illuminated_fraction: 0.5, waxing: true,
        };
        let light = Daylight::new(&Sun::somewhere(azimuth, elevation), Some(&moon), weather, None);
        let upright = light.upright(facing, &GROUND);
        for part in [
            light.sun_normal, light.sky_horizontal, light.moon_normal, light.horizontal(),
            upright.sun, upright.sky, upright.moon, upright.ground,
        ] {
            prop_assert!(part.value() >= 0.0 && part.value().is_finite(), "{part:?}");
        }
        prop_assert!(light.sky_horizontal.value() > 0.0);
        prop_assert!(light.spread.value() > 0.0);
    }

    #[test]
    fn night_is_darker_than_dusk_and_dusk_than_day(
        night in -60.0..-12.0f64, dusk in -6.0..0.0f64, daytime in 3.0..90.0f64, weather in weathers(),
    ) {
        let level = |elevation| ev(day(elevation, weather).horizontal().value());
        prop_assert!(level(night) + 3.0 < level(dusk));
        prop_assert!(level(dusk) + 1.0 < level(daytime));
    }

    #[test]
    fn cloud_takes_light_away(elevation in -10.0..90.0f64) {
        let level = |weather| day(elevation, weather).horizontal().value();
        for weather in [Weather::Hazy, Weather::PartlyCloudy, Weather::BrightOvercast] {
            prop_assert!(level(weather) < level(Weather::Clear));
        }
        prop_assert!(level(Weather::HeavyOvercast) < level(Weather::BrightOvercast));
    }
}
