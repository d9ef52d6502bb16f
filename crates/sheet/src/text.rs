//! The answer as plain text: three lines first, then the reasons, then the sums.

mod balance;

use crate::chart::{Row, rows, span};
use crate::words::{
    Lengths, azimuth, clean, clock, columns, elevation, from_nose, mired, plain, power, shorten, signed,
    stops, stops_at_two, stops_in_thirds, tint,
};
use colour::WhiteBalance;
use glam::Vec3;
use light::HeadDress;
use solver::{
    Answer, Change, ChartKind, FlashSetting, GelWorn, Job, KeyReading, Limit, LimitKind, Route, Sensitivity,
    Settings, Verdict,
};
use std::fmt::Write;
use units::Stops;

/// Columns of the printed answer.
const WIDTH: usize = 100;
/// Columns of the first column in lists.
const NAME: usize = 30;

/// The answer in three lines.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AnswerLines {
    /// `f/4 · 1/160 · ISO 400 · 5000 K`
    pub camera: String,
    /// `1/8 +0.7 · zoom 50 · no gel · 2.3 stops in hand`
    pub flash: String,
    /// Where the flash points, in words.
    pub aim: String,
    /// How sure that is, and what to measure to be surer.
    pub about: String,
}

/// The three lines of the answer, in the notation of the trade, and how sure they are.
pub fn answer_lines(answer: &Answer, feet: bool) -> AnswerLines {
    let lengths = Lengths::new(feet);
    AnswerLines {
        camera: camera_line(&answer.settings),
        flash: flash_line(&answer.flash, answer.colouring.gel.as_ref()),
        aim: clean(&lengths.reword(&answer.aim.words)),
        about: about(answer),
    }
}

/// What `rushlight answer` prints: the three lines, what is missed and what would help, how sure that is, what to know,
/// then the reasons, then the sums.
///
/// At most 100 columns of plain UTF-8 that reads the same without colour. Lengths are in metres or in feet
/// throughout; words that came with the answer in metres are put into feet.
pub fn answer_text(job: &Job, answer: &Answer, feet: bool) -> String {
    let lengths = Lengths::new(feet);
    let lines = answer_lines(answer, feet);
    let mut page = Page {
        out: String::new(),
        lengths,
    };
    for line in [&lines.camera, &lines.flash, &lines.aim] {
        page.paragraph("", line);
    }
    if let Some(words) = moved_words(job, answer, lengths) {
        page.paragraph("", &words);
    }
    balance::later(&mut page, answer);
    missed(&mut page, answer);
    page.gap();
    page.paragraph("", &lines.about);
    cautions_and_notes(&mut page, answer);
    alternatives(&mut page, answer);
    chart(&mut page, &answer.chart);
    face(&mut page, job, answer);
    colour(&mut page, answer);
    exposure(&mut page, answer);
    balance::levels(&mut page, answer);
    balance::controls(&mut page, answer);
    balance::later_in_full(&mut page, answer);
    evenness(&mut page, answer);
    insisted(&mut page, answer);
    others(&mut page, answer);
    uncertainty(&mut page, answer);
    sensitivities(&mut page, answer);
    referee(&mut page, answer);
    sums(&mut page, answer);
    page.out
}

/// `f/4 · 1/160 · ISO 400 · 5000 K`
pub(crate) fn camera_line(s: &Settings) -> String {
    let (aperture, shutter, kelvin) = (s.aperture.nearest_third(), s.shutter, s.white_balance.value());
    let tint = WhiteBalance::tint_setting(s.tint).map_or_else(String::new, |steps| format!(" {steps}"));
    let filter = match s.nd.value() {
        nd if nd > 0.0 => format!(" · ND {}", stops(nd)),
        _ => String::new(),
    };
    format!(
        "{aperture} · {shutter} · ISO {}{filter} · {kelvin:.0} K{tint}",
        plain(s.iso.value(), 0)
    )
}

fn flash_line(flash: &FlashSetting, gel: Option<&GelWorn>) -> String {
    let (power, hand) = (flash.power.nearest_third(), in_hand_words(flash.in_hand));
    format!("{power} · {} · {hand}", flash_wear(flash, gel))
}

/// What does not change with the power: "zoom 50 · umbrella · no gel".
pub(crate) fn flash_wear(flash: &FlashSetting, gel: Option<&GelWorn>) -> String {
    let dress = match flash.dress {
        HeadDress::Bare => "",
        HeadDress::Dome => " · dome on",
        HeadDress::BounceCard => " · card up",
        HeadDress::Umbrella(_) => " · umbrella",
        HeadDress::Softbox(_) => " · softbox",
    };
    format!(
        "zoom {}{dress} · {}",
        plain(flash.zoom_mm, 0),
        gel.map_or_else(|| "no gel".to_owned(), gel_words)
    )
}

/// "2.3 stops in hand", "0.4 stop short".
pub(crate) fn in_hand_words(in_hand: Stops) -> String {
    let hand = in_hand.value();
    if hand < -0.05 {
        format!("{} short", stops(hand))
    } else {
        format!("{} in hand", stops(hand))
    }
}

/// `1/2 CTO, +81`: a gel with its shift in mired, or in Duv for one that is green or magenta alone.
fn gel_words(worn: &GelWorn) -> String {
    let name = shorten(worn.gel.name(), 40);
    match (worn.shift, worn.duv) {
        (Some(shift), _) if shift.value().abs() >= 3.0 => format!("{name}, {}", signed(shift.value(), 0)),
        (_, Some(duv)) if duv.value().abs() >= 0.001 => format!("{name}, Duv {}", signed(duv.value(), 3)),
        _ => name,
    }
}

/// "About 2/3 stop either way until a frame is read; most of it is the left wall's paint. Measure that first."
pub(crate) fn about(answer: &Answer) -> String {
    let uncertainty = &answer.uncertainty;
    let mut text = format!(
        "About {} either way until a frame is read",
        stops_in_thirds(uncertainty.stops)
    );
    if let Some(first) = uncertainty.parts.first() {
        // Spreads add as squares, so "most" means more than half of the sum of squares.
        let squares: f64 = uncertainty.parts.iter().map(|part| part.stops * part.stops).sum();
        let share = if first.stops * first.stops > 0.5 * squares {
            "most of it is"
        } else {
            "the largest part is"
        };
        // What was not described cannot be measured, but it can be written down.
        let remedy = if first.input.ends_with("not described") {
            "Write the large pieces into the file"
        } else {
            "Measure that first"
        };
        let _ = write!(text, "; {share} {}. {remedy}.", clean(&first.input));
    } else {
        text.push('.');
    }
    let hand = answer.flash.in_hand.value();
    if (0.0..uncertainty.stops).contains(&hand) {
        text.push_str(" That is more than is in hand: should the frame come out dark, raise the ISO.");
    }
    text
}

/// "Move Wilhelmina 0.5 m to camera left" where the answer wants the sitter, or everyone, elsewhere.
pub(crate) fn moved_words(job: &Job, answer: &Answer, lengths: Lengths) -> Option<String> {
    let sitter = job.sitters.first()?;
    let way = (answer.moved? - sitter.stand).with_z(0.0);
    let (right, _, forward) = job.viewpoint.axes();
    let level = |axis: Vec3| axis.with_z(0.0).normalize_or_zero();
    let sides = [
        (way.dot(level(right)), "to camera right", "to camera left"),
        (
            way.dot(level(forward)),
            "away from the camera",
            "towards the camera",
        ),
    ];
    // A step of less than a hand's width is not asked of anyone.
    let steps: Vec<String> = sides
        .into_iter()
        .filter(|(metres, ..)| metres.abs() >= 0.05)
        .map(|(metres, ahead, back)| {
            let side = if metres > 0.0 { ahead } else { back };
            format!("{} {side}", lengths.about(f64::from(metres.abs())))
        })
        .collect();
    let who = if job.sitters.len() > 1 {
        "everyone".to_owned()
    } else {
        shorten(&sitter.name, 40)
    };
    (!steps.is_empty()).then(|| format!("Move {who} {}", steps.join(" and ")))
}

/// What was insisted on and is not there, and what would help.
fn missed(page: &mut Page, answer: &Answer) {
    if let Some(shortfall) = &answer.shortfall {
        page.gap();
        page.paragraph("", &shortfall.words);
    }
    let missed: Vec<&Limit> = answer.limits.iter().filter(|limit| !limit.met()).collect();
    if !missed.is_empty() {
        page.heading("What is missed");
        for limit in missed {
            page.paragraph("  - ", &format!("{}: {}", limit.asked, found_words(limit)));
        }
    }
    let Some(shortfall) = &answer.shortfall else {
        return;
    };
    if !shortfall.changes.is_empty() {
        page.heading("What would help, the least first");
        for (index, change) in shortfall.changes.iter().enumerate() {
            help(page, index, change);
        }
    }
    if !shortfall.tried.is_empty() {
        page.heading(if shortfall.changes.is_empty() {
            "No single change helps; these were tried"
        } else {
            "What would not help"
        });
        for tried in &shortfall.tried {
            page.paragraph("  - ", tried);
        }
    }
}

/// A change, what it costs and where it leads.
fn help(page: &mut Page, index: usize, change: &Change) {
    page.paragraph(&format!("  {}. ", index + 1), &change.what);
    for (name, words) in [("costs", &change.cost), ("then", &change.then)] {
        if !words.trim().is_empty() {
            page.paragraph(&format!("     {} ", pad(&format!("{name}:"), 6)), words);
        }
    }
}

/// What an answer makes of something insisted on, in the unit of its kind.
fn found_words(limit: &Limit) -> String {
    let found = limit.found;
    match limit.kind {
        LimitKind::Power if found < -0.05 => format!("the flash is {} short of the exposure", stops(found)),
        LimitKind::Power => format!("{} in hand", stops(found)),
        LimitKind::LeastPower => format!("it would take {} below full power", stops(found)),
        LimitKind::Recycle => format!("{} s at this power", plain(found, 1)),
        LimitKind::Cast | LimitKind::SkinColour | LimitKind::RoomColour => mired(found),
        LimitKind::GreenMagenta => tint(found),
        LimitKind::Direction => azimuth(found),
        LimitKind::Height => elevation(found),
        LimitKind::Softness => format!("the light is {} times as wide as it is far away", plain(found, 2)),
        LimitKind::Ratio if found.abs() < 0.05 => "as asked".to_owned(),
        LimitKind::Ratio if found > 0.0 => format!("{} harder than that", stops(found)),
        LimitKind::Ratio => format!("{} flatter than that", stops(found)),
        LimitKind::Evenness => format!("{} from face to face", stops(found)),
        LimitKind::Background => format!("{} stops against the face", signed(found, 1)),
        LimitKind::Ambient | LimitKind::Zone => format!("{} stops", signed(found, 1)),
    }
}

/// Everything insisted on, met or not.
fn insisted(page: &mut Page, answer: &Answer) {
    if answer.limits.is_empty() {
        return;
    }
    page.heading("What you asked for, and what you get");
    for limit in &answer.limits {
        let verdict = if limit.met() { "met" } else { "missed" };
        let asked = clean(&page.lengths.reword(&limit.asked));
        page.item(&asked, &format!("{verdict}: {}", found_words(limit)));
    }
}

/// Other answers that are truly different: the reason to prefer each, and its three lines.
fn alternatives(page: &mut Page, answer: &Answer) {
    if answer.alternatives.is_empty() {
        return;
    }
    page.heading(if answer.alternatives.len() == 1 {
        "Another answer"
    } else {
        "Other answers"
    });
    for (index, other) in answer.alternatives.iter().enumerate() {
        page.paragraph(
            &format!("  {}. ", index + 1),
            &format!("{}: {}", shorten(&other.name, 60), other.prefer),
        );
        for line in [
            &camera_line(&other.settings),
            &flash_line(&other.flash, answer.colouring.gel.as_ref()),
            &other.aim.words,
        ] {
            page.paragraph("     ", line);
        }
    }
}

/// How the answer moves when one thing is different.
fn sensitivities(page: &mut Page, answer: &Answer) {
    if answer.sensitivities.is_empty() {
        return;
    }
    page.heading("If things are a little different, and nothing is changed");
    page.line(&sensitivity_row("", "exposure", "the key goes", "colour"));
    for change in &answer.sensitivities {
        let what = clean(&page.lengths.reword(&change.what));
        let cells = [
            signed(change.exposure.value(), 2),
            turn(change),
            mired(change.cast.value()),
        ];
        let (first, rest) = split_first(&what, SENSITIVITY.0);
        page.line(&sensitivity_row(&first, &cells[0], &cells[1], &cells[2]));
        if !rest.is_empty() {
            page.hang("    ", &rest);
        }
    }
}

/// Columns of the table of sensitivities: what, exposure, key.
const SENSITIVITY: (usize, usize, usize) = (42, 9, 24);

fn sensitivity_row(what: &str, exposure: &str, key: &str, colour: &str) -> String {
    let (first, second, third) = SENSITIVITY;
    let exposure = format!(
        "{}{exposure}",
        " ".repeat(second.saturating_sub(columns(exposure)))
    );
    format!("  {} {exposure}   {} {colour}", pad(what, first), pad(key, third))
}

/// As many words as fit into so many columns, and the rest.
fn split_first(text: &str, width: usize) -> (String, String) {
    let mut lines = wrap(text, width).into_iter();
    let first = lines.next().unwrap_or_default();
    (first, lines.collect::<Vec<_>>().join(" "))
}

/// How far the key goes aside and up or down, in whole degrees.
fn turn(change: &Sensitivity) -> String {
    let part = |degrees: f64, ahead: &str, back: &str| {
        let shown = degrees.is_finite() && degrees.abs() >= 0.5;
        let side = if degrees > 0.0 { ahead } else { back };
        shown.then(|| format!("{}° {side}", plain(degrees.abs(), 0)))
    };
    if !(change.azimuth_deg.is_finite() && change.elevation_deg.is_finite()) {
        return "–".to_owned();
    }
    let parts: Vec<String> = [
        part(change.azimuth_deg, "right", "left"),
        part(change.elevation_deg, "up", "down"),
    ]
    .into_iter()
    .flatten()
    .collect();
    if parts.is_empty() {
        "stays".to_owned()
    } else {
        parts.join(", ")
    }
}

fn cautions_and_notes(page: &mut Page, answer: &Answer) {
    if !answer.cautions.is_empty() {
        page.heading("Take care");
        for caution in &answer.cautions {
            page.paragraph("  ! ", caution);
        }
    }
    if !answer.notes.is_empty() {
        page.heading("To know");
        for note in &answer.notes {
            page.paragraph("  - ", note);
        }
    }
}

fn chart(page: &mut Page, chart: &[solver::ChartLine]) {
    if chart.is_empty() {
        return;
    }
    page.heading("Where the stops go");
    let rows = rows(chart, page.lengths);
    let (low, high) = span(&rows);
    for row in &rows {
        let label = pad(&shorten(&row.label, 44), 44);
        page.line(&format!("  {label} {:>7}  {}", row.number(), bar(row, low, high)));
    }
}

/// A bar of the waterfall in 42 columns: gains solid, losses dotted, results double.
fn bar(row: &Row, low: i64, high: i64) -> String {
    const COLUMNS: f64 = 42.0;
    let scale = COLUMNS / (high - low).max(1) as f64;
    let column = |hundredths: i64| ((hundredths - low) as f64 * scale).round() as usize;
    let (from, to) = (
        column(row.before.min(row.after)),
        column(row.before.max(row.after)),
    );
    let mark = match row.kind {
        ChartKind::Start | ChartKind::Gain => "█",
        ChartKind::Loss => "░",
        ChartKind::Result => "═",
    };
    // What is too small for a column still gets a stroke, so that no line looks empty.
    let bar = if from == to && row.hundredths != 0 {
        "│".to_owned()
    } else {
        mark.repeat(to - from)
    };
    format!("{}{bar}", " ".repeat(from)).trim_end().to_owned()
}

fn face(page: &mut Page, job: &Job, answer: &Answer) {
    let key = &answer.key;
    page.heading("The face");
    let mut from = from_nose(key.azimuth_deg, key.elevation_deg);
    if answer.aim.light_from_clock.is_finite() {
        let hour = clock(answer.aim.light_from_clock);
        let _ = write!(
            from,
            "; seen from above it comes from about {hour}, with the camera at 6"
        );
    }
    page.item("key", &from);
    page.item(
        "near cheek : far cheek",
        &format!(
            "{}:1 ({} and {} stops against the dome reading)",
            plain(key.ratio, 1),
            signed(key.near_cheek.value(), 1),
            signed(key.far_cheek.value(), 1)
        ),
    );
    page.item("softness", &softness(key));
    page.item("eye sockets", &sockets(key));
    // Light that is meant to come straight from the head spills nothing.
    if !matches!(answer.aim.route, Route::Direct) {
        page.item("spill", &spill(answer));
    }
    if !key.landmarks.is_empty() {
        let marks: Vec<String> = key
            .landmarks
            .iter()
            .map(|(name, stops)| format!("{} {}", clean(name).replace('_', " "), signed(stops.value(), 1)))
            .collect();
        page.item("point by point", &marks.join(", "));
    }
    if job.sitters.len() > 1
        && let Some(first) = job.sitters.first()
    {
        page.item(
            "metered",
            &format!("{}; dome towards the camera", shorten(&first.name, 40)),
        );
    }
}

/// The half is the ask's own meaning of soft; the tenth for crisp is ours.
fn softness(key: &KeyReading) -> String {
    let words = match key.softness {
        s if s >= 0.5 => "soft",
        s if s >= 0.1 => "between soft and crisp",
        _ => "crisp shadows",
    };
    format!(
        "{words}: the lit patch is {} times as wide as it is far away",
        plain(key.softness, 2)
    )
}

/// What the bare head sends to the face past its bounce.
fn spill(answer: &Answer) -> String {
    match answer.key.spill {
        Some(spill) => format!(
            "the bare head reaches the face {} stops against the bounce",
            signed(spill.value(), 1)
        ),
        None if answer.aim.flagged => {
            "the head is flagged: its direct light does not reach the face".to_owned()
        }
        None => "no light of the bare head reaches the face".to_owned(),
    }
}

fn sockets(key: &KeyReading) -> String {
    let value = key.sockets.value();
    let words = if value < -1.0 {
        "they go dark"
    } else {
        "they stay open"
    };
    format!("{} stops against the forehead: {words}", signed(value, 1))
}

fn colour(page: &mut Page, answer: &Answer) {
    page.heading("Colour against the bare flash");
    for (name, cast) in [
        ("all its light at the face", answer.key.cast),
        ("its first bounce alone", answer.key.first_bounce_cast),
    ] {
        let kelvin = cast.kelvin.value();
        page.item(
            name,
            &format!(
                "{}, {}; {kelvin:.0} K",
                mired(cast.shift.value()),
                tint(cast.duv.value())
            ),
        );
    }
    let settings = &answer.settings;
    let tint = settings.tint.value();
    let mut balance = format!("{:.0} K", settings.white_balance.value());
    if tint.abs() >= 0.002 {
        // A balance takes a cast out, so it is set to the colour of the light.
        let side = if tint > 0.0 { "green" } else { "magenta" };
        let _ = write!(
            balance,
            ", and for light that is {side} by Duv {}",
            signed(tint, 3)
        );
    }
    page.item("balance", &balance);
    zones(page, answer);
}

/// Every zone of the picture against the balance that is set, and what each light gives of the light at the face.
fn zones(page: &mut Page, answer: &Answer) {
    let colouring = &answer.colouring;
    if colouring.zones.is_empty() {
        return;
    }
    let steps = WhiteBalance::tint_setting(answer.settings.tint)
        .map_or_else(String::new, |steps| format!(" {steps}"));
    page.heading(&format!(
        "Colour against the balance of {:.0} K{steps}",
        answer.settings.white_balance.value()
    ));
    for zone in &colouring.zones {
        let words = match (zone.shift, zone.duv) {
            (Some(shift), Some(duv)) => format!("{}, {}", mired(shift.value()), tint(duv.value())),
            _ => "a deep colour".to_owned(),
        };
        page.item(&shorten(&clean(&zone.name), NAME - 2), &words);
    }
    let shares: Vec<String> = colouring
        .sources
        .iter()
        .map(|source| {
            let kelvin = source
                .kelvin
                .map_or_else(String::new, |kelvin| format!(" of {:.0} K", kelvin.value()));
            format!(
                "{} {} %{kelvin}",
                shorten(&clean(&source.name), 40),
                plain(100.0 * source.share, 0)
            )
        })
        .collect();
    page.item("of the light at the face", &shares.join(", "));
}

fn exposure(page: &mut Page, answer: &Answer) {
    let exposure = &answer.exposure;
    page.heading("Exposure at the face (0 = an incident reading is exactly met)");
    page.figure(
        &format!("flash alone at {}", answer.flash.power.nearest_third()),
        exposure.flash_alone.value(),
    );
    match exposure.ambient_alone {
        Some(ambient) => page.figure("ambient alone", ambient.value()),
        None => page.item("ambient alone", "none"),
    }
    page.figure("flash and ambient together", exposure.total.value());
    for (name, stops) in &exposure.ambient_as_metered {
        page.figure(
            &format!("{}, as you metered it", shorten(name, 24)),
            stops.value(),
        );
    }
    page.item(
        "power for flash alone at 0",
        &power(exposure.power_for_flash_alone),
    );
    page.item("power for the sum at 0", &power(exposure.power_for_total));
}

fn evenness(page: &mut Page, answer: &Answer) {
    let Some(evenness) = &answer.evenness else { return };
    page.heading("From face to face, flash alone");
    page.paragraph(
        "  ",
        &format!(
            "{} from {} (brightest) to {} (darkest).",
            stops(evenness.spread.value()),
            shorten(&evenness.brightest, 40),
            shorten(&evenness.darkest, 40)
        ),
    );
    for (name, stops) in &evenness.each {
        page.figure(name, stops.value());
    }
}

fn others(page: &mut Page, answer: &Answer) {
    let others: Vec<_> = answer
        .surfaces
        .iter()
        .filter(|surface| surface.verdict != Verdict::Chosen)
        .collect();
    if others.is_empty() {
        return;
    }
    page.heading("Why not the others");
    for surface in others {
        let verdict = match surface.verdict {
            Verdict::Chosen | Verdict::Possible => "would do",
            Verdict::Poor => "poor",
            Verdict::Unusable => "no use here",
        };
        page.item(
            &surface.name,
            &format!("{verdict}: {}", clean(&page.lengths.reword(&surface.why))),
        );
    }
    if !answer.map.cells.is_empty() {
        page.paragraph(
            "  ",
            "Every part of the room with its reason is on the map: rushlight map SHOOT.toml -o map.svg",
        );
    }
}

fn uncertainty(page: &mut Page, answer: &Answer) {
    if answer.uncertainty.parts.is_empty() {
        return;
    }
    page.heading("What the about is made of (one standard deviation each)");
    for part in &answer.uncertainty.parts {
        let spread = clean(&page.lengths.reword(&part.spread));
        page.item(&part.input, &format!("{}: {spread}", stops_at_two(part.stops)));
    }
}

fn referee(page: &mut Page, answer: &Answer) {
    let referee = &answer.referee;
    page.heading("Referee");
    // A tenth is less than anyone sees and a third is what a dial can do; both limits are ours.
    let verdict = match referee.difference.value().abs() {
        d if d <= 0.1 => "confirms the answer",
        d if d <= 1.0 / 3.0 => "agrees within a third of a stop",
        d if d.is_finite() => "differs; trust the frame more than the answer",
        _ => "has not been asked",
    };
    page.paragraph(
        "  ",
        &format!(
            "The path tracer {verdict}: {} stop at the face (± {}), key {}.",
            signed(referee.difference.value(), 2),
            plain(referee.standard_error, 2),
            from_nose(referee.azimuth_deg, referee.elevation_deg)
        ),
    );
}

fn sums(page: &mut Page, answer: &Answer) {
    let (settings, exposure) = (&answer.settings, &answer.exposure);
    let (aperture, full) = (settings.aperture.value(), answer.key.full_power_aperture);
    let iso = (settings.iso.value() / 100.0).log2();
    let over = 2.0 * (full / aperture).log2() + iso - settings.nd.value();
    let filter = match settings.nd.value() {
        nd if nd > 0.0 => format!(" - {} of ND", stops(nd)),
        _ => String::new(),
    };
    page.heading("The sums");
    page.paragraph("  ", &format!(
        "Full power gives f/{} at ISO 100, dome towards the camera. At {} and ISO {} that is 2 log2({} / {}) + log2({} / 100){filter} \
         = {} stops over.",
        plain(full, 2),
        settings.aperture.nearest_third(),
        plain(settings.iso.value(), 0),
        plain(full, 2),
        plain(aperture, 2),
        plain(settings.iso.value(), 0),
        signed(over, 2)
    ));
    page.paragraph(
        "  ",
        &format!(
            "At {} the flash is {} below full, which leaves {}.",
            answer.flash.power.nearest_third(),
            stops_at_two(answer.flash.power.stops_below_full()),
            signed(exposure.flash_alone.value(), 2)
        ),
    );
    if let Some(ambient) = exposure.ambient_alone {
        page.paragraph(
            "  ",
            &format!(
                "Light adds, stops do not: log2(2^{} + 2^{}) = {}.",
                signed(exposure.flash_alone.value(), 2),
                signed(ambient.value(), 2),
                signed(exposure.total.value(), 2)
            ),
        );
    }
}

/// Text that is being set.
struct Page {
    out: String,
    lengths: Lengths,
}

impl Page {
    fn line(&mut self, text: &str) {
        self.out.push_str(text.trim_end());
        self.out.push('\n');
    }

    fn gap(&mut self) {
        self.out.push('\n');
    }

    fn heading(&mut self, words: &str) {
        self.gap();
        self.line(words);
    }

    /// A paragraph behind a mark, its further lines under the first.
    fn paragraph(&mut self, mark: &str, words: &str) {
        let words = clean(&self.lengths.reword(words));
        self.hang(mark, &words);
    }

    /// A name and what there is to say about it.
    fn item(&mut self, name: &str, words: &str) {
        let name = shorten(name, WIDTH - 2);
        if columns(&name) > NAME {
            // A long name gets a line of its own rather than losing its end.
            self.line(&format!("  {name}"));
            self.hang(&" ".repeat(NAME + 3), words);
        } else {
            self.hang(&format!("  {} ", pad(&name, NAME)), words);
        }
    }

    /// A name and a number of stops.
    fn figure(&mut self, name: &str, stops: f64) {
        let name = pad(&shorten(name, 44), 44);
        self.line(&format!("  {name} {:>7}", signed(stops, 2)));
    }

    fn hang(&mut self, mark: &str, words: &str) {
        let indent = columns(mark);
        for (index, line) in wrap(words, WIDTH - indent).iter().enumerate() {
            let start = if index == 0 {
                mark.to_owned()
            } else {
                " ".repeat(indent)
            };
            self.line(&format!("{start}{line}"));
        }
    }
}

fn pad(text: &str, width: usize) -> String {
    format!("{text}{}", " ".repeat(width.saturating_sub(columns(text))))
}

/// Lines of at most so many columns; a word longer than a line is cut.
fn wrap(text: &str, width: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in text.split_whitespace() {
        let mut rest = word.to_owned();
        loop {
            let line = lines.last_mut().expect("there is always a line");
            let used = columns(line) + usize::from(!line.is_empty());
            if used + columns(&rest) <= width {
                if !line.is_empty() {
                    line.push(' ');
                }
                line.push_str(&rest);
                break;
            }
            if !line.is_empty() {
                lines.push(String::new());
                continue;
            }
            let head: String = cut(&rest, width);
            rest = rest[head.len()..].to_owned();
            line.push_str(&head);
            lines.push(String::new());
        }
    }
    if lines.len() > 1 && lines.last().is_some_and(String::is_empty) {
        lines.pop();
    }
    lines
}

/// As much of a word as fits, at least one character.
fn cut(word: &str, width: usize) -> String {
    let mut head = String::new();
    for c in word.chars() {
        head.push(c);
        if columns(&head) > width {
            if head.chars().count() > 1 {
                head.pop();
            }
            break;
        }
    }
    head
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wrapping_loses_nothing_and_stays_within_the_width() {
        let check = |text: &str, width: usize| {
            let lines = wrap(text, width);
            assert!(lines.iter().all(|line| columns(line) <= width), "{lines:?}");
            let squeeze = |text: &str| text.split_whitespace().collect::<String>();
            assert_eq!(squeeze(&lines.join(" ")), squeeze(text));
        };
        check("a few words that have to be set in a narrow column", 12);
        check(&"x".repeat(500), 40);
        check(&"🎺".repeat(60), 15);
        check("", 10);
    }
}
