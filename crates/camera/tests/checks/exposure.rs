//! Every case of `checks/exposure.json`: ISO 2720:1974, ISO 12232, ISO 2827, IES 1984 and their arithmetic.

use crate::cases::{Case, cases, groups};
use camera::*;
use light::{IesDaylight, Weather};
use units::*;

const FILE: &str = include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/../../checks/exposure.json"));

fn each(group: &str, check: impl Fn(&Case)) {
    cases(FILE, group).iter().for_each(check);
}

fn aperture(case: &Case) -> FNumber {
    FNumber::new(case.number("f_number")).expect("an f-number")
}

fn shutter(case: &Case) -> ShutterTime {
    ShutterTime::new(case.number("exposure_time_s")).expect("a shutter time")
}

fn iso(case: &Case) -> Iso {
    Iso::new(case.number("iso")).expect("a sensitivity")
}

fn settings(case: &Case) -> Settings {
    Settings {
        aperture: aperture(case),
        shutter: shutter(case),
        iso: iso(case),
    }
}

fn metres(case: &Case, key: &str) -> Metres {
    Metres::new(case.number(key)).expect("a length")
}

fn focal(case: &Case, key: &str, per_mm: f64) -> Millimetres {
    Millimetres::new(case.number(key) * per_mm).expect("a focal length")
}

fn degrees(case: &Case, key: &str) -> Degrees {
    Degrees::new(case.number(key)).expect("an angle")
}

#[test]
fn no_group_is_forgotten() {
    let tested = include_str!("exposure.rs");
    for group in groups(FILE) {
        assert!(tested.contains(&format!("each(\"{group}\"")), "{group}");
    }
}

#[test]
fn exposure_value_of_settings() {
    each("ev", |case| {
        let settings = Settings {
            aperture: aperture(case),
            shutter: shutter(case),
            iso: Iso::new(100.0).expect("ISO 100"),
        };
        case.check("ev", settings.ev().value());
    });
}

#[test]
fn light_of_an_exposure_value() {
    each("ev100_light", |case| {
        let ev = Ev(case.number("ev_at_iso100"));
        case.check("luminance_cd_m2", luminance_of(ev).value());
        case.check("illuminance_lx", illuminance_of(ev).value());
        case.check("K_iso2720", REFLECTED_CONSTANT);
        case.check("C_iso2720", light::INCIDENT_CONSTANT);
        if ev.value() != 0.0 {
            case.check(
                "ev_at_iso100",
                ev_of(Illuminance(case.number("illuminance_lx"))).value(),
            );
        }
    });
}

#[test]
fn incident_meter() {
    each("incident_meter", |case| {
        let light = Illuminance(case.number("illuminance_lx"));
        case.check("f_number", aperture_for_ambient(light, shutter(case), iso(case)));
        case.check("ev100", ev_of(light).value());
        let exact = settings(case);
        assert!(ambient_exposure(light, &exact).value().abs() < 1e-8);
        // The exposure value of the settings is that of the light.
        assert!((exact.ev() - ev_of(light)).value().abs() < 1e-8);
    });
}

#[test]
fn reflected_meter() {
    each("reflected_meter", |case| {
        let light = Luminance(case.number("luminance_cd_m2"));
        case.check(
            "f_number",
            aperture_for_luminance(light, shutter(case), iso(case)),
        );
    });
}

#[test]
fn mid_grey_on_the_display() {
    each("iso12232", |case| {
        let shown = ToneCurve::Portrait.on_value(case.number("linear") as f32);
        let encoded = colour::encode_srgb(f64::from(shown));
        case.check("srgb_encoded", encoded);
        assert_eq!((encoded * 255.0).round(), case.number("code_8bit"));
    });
}

#[test]
fn sensor_levels() {
    each("iso12232_exposure", |case| {
        let (grey, full) = (midtone_exposure(iso(case)), saturation_exposure(iso(case)));
        case.check("H_sos_mid_lx_s", grey.value());
        case.check("H_saturation_lx_s", full.value());
        case.check("H_sat_over_mid", full / grey);
        case.check("headroom_above_18pct_ev", Stops::from_factor(full / grey).value());
        case.check("reflectance_at_saturation", RAW_CLIP);
    });
}

fn lens(case: &Case) -> Lens {
    Lens {
        focal: focal(case, "focal_m", 1000.0),
        transmittance: case.number("lens_transmittance"),
        vignetting: case.number("vignetting_factor"),
    }
}

#[test]
fn exposure_of_the_sensor() {
    each("focal_plane_exposure", |case| {
        let found = lens(case).exposure(
            Luminance(case.number("luminance_cd_m2")),
            aperture(case),
            shutter(case),
            case.number("object_distance_m"),
            case.number("off_axis_deg"),
        );
        case.check("H_lx_s", found.value() + case.number("flare_lx_s"));
    });
}

/// What reaches the sensor on axis from afar, per cd s m⁻² and f/1, through the lens of ISO 12232.
fn on_axis() -> f64 {
    let lens = Lens {
        focal: "50 mm".parse().expect("a focal length"),
        transmittance: 0.9,
        vignetting: 0.98,
    };
    let one = FNumber::new(1.0).expect("f/1");
    let second = ShutterTime::new(1.0).expect("1 s");
    lens.exposure(Luminance(1.0), one, second, f64::INFINITY, 0.0)
        .value()
}

#[test]
fn the_constants_agree_as_far_as_they_do() {
    let hundred = Iso::new(100.0).expect("ISO 100");
    let grey = midtone_exposure(hundred).value() * 100.0;
    let feet = METRES_PER_FOOT.powi(2);
    each("reconcile", |case| match case {
        _ if !case.is_null("implied_lambertian_reflectance") => {
            let implied = std::f64::consts::PI * REFLECTED_CONSTANT / light::INCIDENT_CONSTANT;
            case.check("implied_lambertian_reflectance", implied);
        }
        _ if !case.is_null("rho") => {
            case.check("q", on_axis());
            let constant = std::f64::consts::PI * grey / (on_axis() * case.number("rho"));
            case.check("C_lx_s", constant);
            case.check("ev_from_250", incident_meter_offset(constant).value());
        }
        _ if !case.is_null("ev_from_12p5") => {
            let constant = grey / on_axis();
            case.check("K", constant);
            let offset = Stops::from_factor(constant / REFLECTED_CONSTANT);
            case.check("ev_from_12p5", offset.value());
        }
        _ if !case.is_null("H_times_S_lx_s") => {
            let metered = case.number("q") * REFLECTED_CONSTANT;
            case.check("H_times_S_lx_s", metered);
            case.check("ev_below_sos_mid", Stops::from_factor(grey / metered).value());
        }
        _ if !case.is_null("k_ft") => {
            let metric = guide_number_m(IntensityTime(1.0), hundred, light::GUIDE_CONSTANT_MEASURED);
            case.check("k_m", metric.powi(2) / 100.0);
            case.check("k_ft", metric.powi(2) / 100.0 / feet);
        }
        _ => case.check(
            "ev_from_250",
            incident_meter_offset(case.number("C_lx_s")).value(),
        ),
    });
}

#[test]
fn value_in_the_picture() {
    each("recommended_render", |case| {
        let light = Illuminance(case.number("illuminance_lx"));
        let settings = settings(case);
        let value = linear_value(
            case.number("reflectance"),
            light * settings.shutter,
            settings.aperture,
            settings.iso,
        );
        case.check("linear_value_1_is_perfect_white_metered", value);
        case.check("srgb_encoded_clipped", colour::encode_srgb(value));
        case.check("exposure_error_ev", ambient_exposure(light, &settings).value());
    });
}

#[test]
fn sunny_sixteen_rule() {
    each("sunny16", |case| {
        let rule = sunny_sixteen(iso(case)).expect("a shutter time");
        assert_eq!(rule, settings(case));
        case.check("ev100", rule.ev().value());
        case.check("luminance_K12p5_cd_m2", luminance_of(rule.ev()).value());
        case.check("illuminance_C250_lx", illuminance_of(rule.ev()).value());
    });
}

#[test]
fn clear_daylight_against_sunny_sixteen() {
    let rule = sunny_sixteen(Iso::new(100.0).expect("ISO 100")).expect("a shutter time");
    each("sunny16_ies", |case| {
        let altitude = degrees(case, "sun_altitude_deg");
        let day = IesDaylight::at(Weather::Clear, altitude, None).expect("the sun is up");
        case.check("direct_normal_klx", day.direct_normal.value() / 1000.0);
        case.check("sky_horizontal_klx", day.sky_horizontal.value() / 1000.0);
        case.check("global_horizontal_klx", day.horizontal.value() / 1000.0);
        case.check("ev_vs_sunny16", ambient_exposure(day.horizontal, &rule).value());
    });
}

#[test]
fn flash_by_inverse_square() {
    each("flash_incident", |case| {
        let intensity = IntensityTime(case.number("intensity_time_cd_s"));
        let distance = metres(case, "distance_m");
        let dose = intensity.at_distance(distance);
        case.check("luminous_exposure_lx_s", dose.value());
        case.check("f_number", aperture_for_flash(dose, iso(case)));
        let guide = guide_number_m(intensity, iso(case), light::GUIDE_CONSTANT_MEASURED);
        case.check("guide_number_m", guide);
        case.check("f_number", guide / distance.value());
        assert!(flash_exposure(dose, aperture(case), iso(case)).value().abs() < 1e-8);
    });
}

#[test]
fn claimed_guide_numbers() {
    each("guide_number_ft_relation", |case| {
        let intensity = IntensityTime(case.number("intensity_time_cd_s"));
        let claimed = guide_number_m(intensity, iso(case), light::GUIDE_CONSTANT_CLAIMED);
        let measured = guide_number_m(intensity, iso(case), light::GUIDE_CONSTANT_MEASURED);
        case.check("guide_number_ft", claimed / METRES_PER_FOOT);
        case.check("guide_number_m", claimed);
        case.check("guide_number_m_by_C250", measured);
        case.check("ev_difference", 2.0 * (claimed / measured).log2());
    });
}

#[test]
fn guide_number_at_another_sensitivity() {
    let full = PowerFraction::from_fraction(1.0).expect("full power");
    each("guide_number_iso", |case| {
        assert_eq!(case.number("iso_of_gn"), 100.0);
        let guide = guide_number_at(case.number("guide_number_m"), iso(case), full);
        case.check("guide_number_m_at_iso", guide);
        case.check("guide_number_ft_at_iso", guide / METRES_PER_FOOT);
    });
}

#[test]
fn guide_number_at_part_power() {
    let hundred = Iso::new(100.0).expect("ISO 100");
    each("power_fraction", |case| {
        let power = PowerFraction::from_fraction(case.number("power_fraction")).expect("a power");
        case.check("guide_number_factor", guide_number_at(1.0, hundred, power));
        case.check("ev", Stops::from_factor(power.fraction()).value());
    });
}

#[test]
fn distance() {
    each("inverse_square", |case| {
        let change = inverse_square(metres(case, "distance1_m"), metres(case, "distance2_m"));
        case.check("exposure_change_ev", change.value());
    });
    each("falloff", |case| {
        case.check(
            "loss_ev",
            falloff(metres(case, "near_m"), metres(case, "depth_m")).value(),
        );
    });
}

#[test]
fn amounts_add() {
    each("add_exposures", |case| {
        let parts: Vec<Stops> = case.list("evs").into_iter().map(Stops).collect();
        let total = add_exposures(&parts).expect("some parts");
        case.check("total_ev", total.value());
    });
    assert_eq!(add_exposures(&[]), None);
    // Nothing added to something changes nothing.
    assert_eq!(
        add_exposures(&[Stops(1.0), Stops(f64::NEG_INFINITY)]),
        Some(Stops(1.0))
    );
}

#[test]
fn flash_and_ambient() {
    each("mix", |case| {
        let settings = settings(case);
        let mix = Mix {
            ambient: ambient_exposure(Illuminance(case.number("ambient_lx")), &settings),
            flash: flash_exposure(
                LuminousExposure(case.number("flash_lx_s")),
                settings.aperture,
                settings.iso,
            ),
        };
        case.check("ambient_ev_rel_correct", mix.ambient.value());
        case.check("flash_ev_rel_correct", mix.flash.value());
        case.check("total_ev_rel_correct", mix.total().value());
        case.check("flash_fraction", mix.flash_share());
        case.check("lighting_ratio_total_to_ambient", mix.ratio_to_ambient());
    });
}

#[test]
fn ratios() {
    each("lighting_ratio", |case| {
        let ratio = lighting_ratio(
            Illuminance(case.number("key_lx")),
            Illuminance(case.number("fill_lx")),
        );
        case.check("ratio_key_side_to_shadow_side", ratio);
        case.check("difference_ev", Stops::from_factor(ratio).value());
    });
}

#[test]
fn light_in_a_cone() {
    each("flux_to_intensity", |case| {
        let half = degrees(case, "uniform_cone_half_angle_deg");
        case.check("solid_angle_sr", cone_solid_angle(half));
        // One joule at so many lumens per watt is so many lumen seconds.
        let intensity = intensity_from_energy(1.0, case.number("luminous_energy_lm_s"), 1.0, half);
        case.check("intensity_time_cd_s", intensity.value());
    });
    each("energy_to_gn", |case| {
        let intensity = intensity_from_energy(
            case.number("capacitor_energy_j"),
            case.number("luminous_efficacy_lm_per_w"),
            case.number("optical_efficiency"),
            degrees(case, "uniform_cone_half_angle_deg"),
        );
        case.check("intensity_time_cd_s", intensity.value());
        let hundred = Iso::new(100.0).expect("ISO 100");
        let guide = guide_number_m(intensity, hundred, light::GUIDE_CONSTANT_MEASURED);
        case.check("guide_number_m_iso100", guide);
    });
}

#[test]
fn durations() {
    each("duration_exponential", |case| {
        let burst = Burst::Decay {
            tau_s: case.number("tau_us") * 1e-6,
        };
        case.check("t0_5_us", burst.effective_s() * 1e6);
        case.check("t0_1_us", burst.total_s() * 1e6);
        case.check("ratio", burst.total_s() / burst.effective_s());
        case.check(
            "energy_fraction_within_t0_5",
            burst.share_within(burst.effective_s()),
        );
        case.check("energy_fraction_within_t0_1", burst.share_within(burst.total_s()));
        let again = Burst::decay_from_effective(burst.effective_s());
        case.check("t0_1_us", again.total_s() * 1e6);
    });
    each("duration_double_exponential", |case| {
        let burst = Burst::RiseAndDecay {
            rise_s: case.number("rise_us") * 1e-6,
            tail_s: case.number("tail_us") * 1e-6,
        };
        case.check("t0_5_us", burst.effective_s() * 1e6);
        case.check("t0_1_us", burst.total_s() * 1e6);
        case.check("ratio", burst.total_s() / burst.effective_s());
    });
}

#[test]
fn all_the_light_comes_in_the_end() {
    let (tau_s, rise_s, tail_s) = (3e-4, 5e-5, 6e-4);
    for burst in [
        Burst::Decay { tau_s },
        Burst::RiseAndDecay { rise_s, tail_s },
        Burst::quenched(tau_s, 2e-3, 0.25),
    ] {
        assert!((burst.share_within(1.0) - 1.0).abs() < 1e-12);
        assert_eq!(burst.share_within(-1.0), 0.0);
        let shares: Vec<f64> = (0..50).map(|k| burst.share_within(f64::from(k) * 1e-4)).collect();
        assert!(shares.windows(2).all(|pair| pair[0] <= pair[1]));
    }
}

#[test]
fn quenched() {
    each("quench_exponential", |case| {
        let burst = Burst::quenched(
            1.0,
            case.number("pulse_full_length_tau"),
            case.number("energy_fraction"),
        );
        let Burst::Quenched { cut_s, .. } = burst else {
            panic!("quenched is quenched");
        };
        case.check("cut_time_tau", cut_s);
        case.check("t0_5_tau", burst.effective_s());
        case.check("t0_1_tau", burst.total_s());
    });
}

#[test]
fn shutter_cuts_the_burst() {
    each("shutter_clips_pulse", |case| {
        let burst = Burst::Decay {
            tau_s: case.number("tau_s"),
        };
        let open = case.number("open_time_s");
        case.check("energy_fraction", burst.share_within(open));
        case.check("loss_ev", burst.loss_within(open).value());
    });
}

#[test]
fn high_speed_sync() {
    each("hss_geometry", |case| {
        let slit = SlitExposure {
            curtain_travel_s: case.number("curtain_travel_s"),
            shutter: shutter(case),
        };
        let halved = SlitExposure {
            shutter: ShutterTime::new(0.5 * slit.shutter.value()).expect("a shutter time"),
            ..slit
        };
        case.check("pulse_needed_s", slit.pulse_s());
        case.check("light_fraction_reaching_each_row", slit.share());
        case.check("loss_ev_vs_same_energy_single_pulse", slit.loss().value());
        case.check(
            "ev_per_halved_exposure_time",
            (halved.loss() - slit.loss()).value(),
        );
    });
}

#[test]
fn movement() {
    each("motion_blur", |case| {
        let (lens, distance) = (focal(case, "focal_mm", 1.0), metres(case, "distance_m"));
        let speed = case.number("speed_across_m_s");
        let blur = focal_plane_blur_m(speed, case.number("effective_time_s"), lens, distance);
        case.check("blur_um", blur * 1e6);
        case.check("blur_px", blur * 1e6 / case.number("pixel_um"));
        let time = shutter_for_blur(speed, blur, lens, distance).expect("a shutter time");
        case.check("effective_time_s", time.value());
        assert!(shutter_for_blur(0.0, blur, lens, distance).is_err());
    });
}

#[test]
fn batteries() {
    each("battery", |case| {
        let capacitor = Capacitor {
            farads: case.number("capacitance_uf") * 1e-6,
            volts: case.number("voltage_v"),
        };
        let pack = BatteryPack {
            ampere_hours: case.number("cell_capacity_mah") / 1000.0,
            volts: case.number("cell_voltage_v"),
            cells: case.number("cells") as u32,
        };
        let efficiency = case.number("charger_efficiency");
        case.check("capacitor_energy_j", capacitor.joules());
        case.check("pack_energy_j", pack.joules());
        let flashes = pack.ideal_flashes(capacitor.joules(), efficiency);
        case.check("ideal_full_flashes", flashes);
        let wait = pack.recycle_s(capacitor.joules(), efficiency, 6.0);
        case.check("recycle_s_at_6A_4p8V", wait);
    });
}

#[test]
fn sync() {
    let time = |text: &str| text.parse::<ShutterTime>().expect("a shutter time");
    let check = |sync: &str, expected: &str| {
        let clean = fastest_clean_shutter(time(sync));
        assert_eq!(clean, time(expected), "sync {sync}");
        assert!(within_sync(clean, time(sync)));
    };
    check("1/250", "1/200");
    check("1/200", "1/160");
    check("1/160", "1/125");
    check("1/60", "1/50");
    // Off the series: the first time that is clearly slower.
    check("1/180", "1/125");
    check("30 s", "30 s");
    assert!(!within_sync(time("1/250"), time("1/200")));
    // Every step of the series is within itself, and its next faster one is not.
    let series: Vec<ShutterTime> = ShutterTime::series().collect();
    for pair in series.windows(2) {
        assert!(within_sync(pair[1], pair[1]) && within_sync(pair[1], pair[0]));
        assert!(!within_sync(pair[0], pair[1]), "{} within {}", pair[0], pair[1]);
        assert_eq!(fastest_clean_shutter(pair[0]), pair[1]);
        // Written by hand, it is the same.
        assert!(within_sync(time(&pair[0].to_string()), pair[0]));
    }
}

#[test]
fn darkness_is_minus_infinity() {
    let settings = Settings {
        aperture: "f/4".parse().expect("an aperture"),
        shutter: "1/60".parse().expect("a shutter time"),
        iso: "ISO 400".parse().expect("a sensitivity"),
    };
    assert_eq!(
        ambient_exposure(Illuminance(0.0), &settings),
        Stops(f64::NEG_INFINITY)
    );
    assert_eq!(ev_of(Illuminance(0.0)), Ev(f64::NEG_INFINITY));
}
