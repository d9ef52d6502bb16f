//! The answer as plain text: three lines first, then the reasons, then the sums.
//!
//! Only the setting is made here: which part comes where, and how it fits into the columns. The words are `wording`'s.

mod balance;
mod page;

use crate::chart;
use crate::fitting::{columns, shorten, wrap};
use crate::told::Lines;
use crate::voice::Voice;
use crate::wording::nouns::{part, way};
use crate::wording::printed::{self, Entry, Heading, entry, heading};
use crate::wording::{
    alternatives, balance as later_words, cautions, changes, colouring, doubt, lines, notes, why, wishes,
};
use answer::{Answer, ChartKind, Job, Offer, Sensitivity, Verdict};
use page::{Page, pad};

/// Columns of a name in a list of other ways of lighting.
const WAY: usize = 60;

/// What `rushlight answer` prints: the three lines, what is missed and what would help, how sure that is, what to know,
/// then the reasons, then the sums.
///
/// At most 100 columns of plain UTF-8 that reads the same without colour.
pub fn answer_text(job: &Job, answer: &Answer, voice: Voice) -> String {
    let lines = Lines::new(answer, voice);
    let mut page = Page::new(voice);
    for line in [&lines.camera, &lines.flash, &lines.aim] {
        page.paragraph("", line);
    }
    if let Some(moved) = lines::moved(voice, job, answer) {
        page.paragraph("", &moved);
    }
    for later in &answer.balance.later {
        page.paragraph("", &later_words::later(voice, later, answer));
    }
    missed(&mut page, answer);
    page.gap();
    page.paragraph("", &lines.about);
    cautions_and_notes(&mut page, answer);
    others(&mut page, answer);
    stops_chart(&mut page, answer);
    face(&mut page, job, answer);
    colour(&mut page, answer);
    exposure(&mut page, job, answer);
    balance::levels(&mut page, answer);
    balance::controls(&mut page, answer);
    balance::later_in_full(&mut page, answer);
    evenness(&mut page, answer);
    wished(&mut page, answer);
    why_not(&mut page, answer);
    uncertainty(&mut page, answer);
    sensitivities(&mut page, answer);
    page.heading(heading(voice, Heading::Confirmation));
    page.paragraph("  ", &doubt::confirmation(voice, &answer.referee));
    page.heading(heading(voice, Heading::Sums));
    for sum in printed::sums(voice, answer) {
        page.paragraph("  ", &sum);
    }
    page.into_text()
}

/// What the answer lacks, and what would help.
fn missed(page: &mut Page, answer: &Answer) {
    let voice = page.voice;
    let Some(shortfall) = &answer.shortfall else {
        return;
    };
    page.gap();
    page.paragraph("", &changes::shortfall(voice, shortfall));
    if !shortfall.changes.is_empty() {
        page.heading(heading(voice, Heading::WouldHelp));
        for (index, offer) in shortfall.changes.iter().enumerate() {
            help(page, index, offer);
        }
    }
    if !shortfall.tried.is_empty() {
        let something_helps = !shortfall.changes.is_empty();
        page.heading(heading(voice, Heading::WouldNotHelp { something_helps }));
        for tried in &shortfall.tried {
            page.paragraph("  - ", &changes::what(voice, tried));
        }
    }
}

/// A change, what it costs and where it leads.
fn help(page: &mut Page, index: usize, offer: &Offer) {
    let voice = page.voice;
    page.paragraph(
        &format!("  {}. ", index + 1),
        &changes::what(voice, &offer.change),
    );
    let heads = printed::costs_and_then(voice);
    let width = heads.iter().map(|head| columns(head)).max().unwrap_or_default();
    let words = [
        changes::cost(voice, &offer.change),
        changes::then(voice, &offer.then),
    ];
    for (head, words) in heads.iter().zip(&words) {
        page.paragraph(&format!("     {} ", pad(head, width)), words);
    }
}

/// Every wish, and how near the answer comes to it.
fn wished(page: &mut Page, answer: &Answer) {
    if answer.wishes.is_empty() {
        return;
    }
    let voice = page.voice;
    page.heading(heading(voice, Heading::Asked));
    for wish in &answer.wishes {
        let (state, found) = (wishes::state(voice, wish), wishes::found(voice, wish));
        page.item(&wishes::asked(voice, &wish.asked), &format!("{state}: {found}"));
    }
}

/// Other answers that are truly different: the reason to prefer each, and its three lines.
fn others(page: &mut Page, answer: &Answer) {
    if answer.alternatives.is_empty() {
        return;
    }
    let voice = page.voice;
    page.heading(heading(voice, Heading::Others(answer.alternatives.len())));
    for (index, other) in answer.alternatives.iter().enumerate() {
        let name = shorten(&way(voice, &other.way).bare, WAY);
        let prefer = alternatives::prefer(voice, &other.prefer);
        page.paragraph(&format!("  {}. ", index + 1), &format!("{name}: {prefer}"));
        for line in [
            lines::camera(voice, &other.settings),
            lines::flash(voice, &other.flash, answer.colouring.gel.as_ref()),
            crate::wording::aim::line(voice, &other.aim),
        ] {
            page.paragraph("     ", &line);
        }
    }
}

/// Columns of the table of differences: what, exposure, key.
const DIFFERENCES: (usize, usize, usize) = (42, 10, 24);

/// How the answer moves when one thing is different.
fn sensitivities(page: &mut Page, answer: &Answer) {
    if answer.sensitivities.is_empty() {
        return;
    }
    let voice = page.voice;
    page.heading(heading(voice, Heading::Differences));
    page.line(&difference_row(
        "",
        printed::difference_heads(voice).map(str::to_owned),
    ));
    for change in &answer.sensitivities {
        // A long name goes on under its own beginning.
        let mut what = wrap(&doubt::difference(voice, &change.what), DIFFERENCES.0).into_iter();
        let first = what.next().unwrap_or_default();
        page.line(&difference_row(&first, difference_cells(voice, change)));
        let rest = what.collect::<Vec<_>>().join(" ");
        if !rest.is_empty() {
            page.paragraph("    ", &rest);
        }
    }
}

fn difference_cells(voice: Voice, change: &Sensitivity) -> [String; 3] {
    [
        voice.signed(change.exposure.value(), 2),
        doubt::turn(voice, change),
        voice.mired(change.cast.value()),
    ]
}

fn difference_row(what: &str, [exposure, key, colour]: [String; 3]) -> String {
    let (first, second, third) = DIFFERENCES;
    let room = " ".repeat(second.saturating_sub(columns(&exposure)));
    format!(
        "  {} {room}{exposure}   {} {colour}",
        pad(what, first),
        pad(&key, third)
    )
}

fn cautions_and_notes(page: &mut Page, answer: &Answer) {
    let voice = page.voice;
    if !answer.cautions.is_empty() {
        page.heading(heading(voice, Heading::TakeCare));
        for caution in &answer.cautions {
            page.paragraph("  ! ", &cautions::caution(voice, caution));
        }
    }
    if !answer.notes.is_empty() {
        page.heading(heading(voice, Heading::ToKnow));
        for note in &answer.notes {
            page.paragraph("  - ", &notes::note(voice, note));
        }
    }
}

fn stops_chart(page: &mut Page, answer: &Answer) {
    if answer.chart.is_empty() {
        return;
    }
    let voice = page.voice;
    page.heading(heading(voice, Heading::Chart));
    let rows = chart::rows(&answer.chart, voice);
    let (low, high) = chart::span(&rows);
    for row in &rows {
        let bar = bar(row, low, high);
        page.line(&format!(
            "{}  {bar}",
            page::figure(&row.label, &row.number(voice))
        ));
    }
}

/// A bar of the waterfall in 40 columns: gains solid, losses dotted, results double.
fn bar(row: &chart::Row, low: i64, high: i64) -> String {
    const COLUMNS: f64 = 40.0;
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
    let (voice, key) = (page.voice, &answer.key);
    page.heading(heading(voice, Heading::Face));
    page.item(
        entry(voice, Entry::Key),
        &printed::key_from(voice, key, &answer.aim),
    );
    page.item(
        entry(voice, Entry::Pattern),
        &printed::pattern(voice, key.pattern),
    );
    page.item(entry(voice, Entry::Cheeks), &printed::cheeks(voice, key));
    page.item(entry(voice, Entry::Softness), &printed::softness(voice, key));
    page.item(entry(voice, Entry::EyeSockets), &printed::sockets(voice, key));
    if let Some(skin) = &key.skin {
        page.item(entry(voice, Entry::Skin), &printed::skin(voice, skin));
    }
    let behind = printed::behind(voice, &answer.behind);
    if !behind.is_empty() {
        page.item(entry(voice, Entry::Behind), &behind);
    }
    if answer.exposure.ambient_alone.is_some() {
        let flash = printed::flash_by_itself(voice, &key.flash);
        page.item(entry(voice, Entry::FlashAlone), &flash);
    }
    if let Some(spill) = printed::spill(voice, answer) {
        page.item(entry(voice, Entry::Spill), &spill);
    }
    if !key.landmarks.is_empty() {
        page.item(
            entry(voice, Entry::PointByPoint),
            &printed::landmarks(voice, &key.landmarks),
        );
    }
    if let [first, _, ..] = &job.sitters[..] {
        page.item(
            entry(voice, Entry::Metered),
            &printed::metered(voice, &shorten(&first.name, WAY)),
        );
    }
}

fn colour(page: &mut Page, answer: &Answer) {
    let (voice, key) = (page.voice, &answer.key);
    page.heading(heading(voice, Heading::FlashColour));
    page.item(
        entry(voice, Entry::AllItsLight),
        &colouring::cast(voice, &key.cast),
    );
    page.item(
        entry(voice, Entry::FirstBounce),
        &colouring::cast(voice, &key.first_bounce_cast),
    );
    page.item(
        entry(voice, Entry::Balance),
        &colouring::balance(voice, &answer.settings),
    );
    if answer.colouring.zones.is_empty() {
        return;
    }
    let balance = colouring::balance_setting(voice, &answer.settings);
    page.heading(&printed::against_balance(voice, &balance));
    for zone in &answer.colouring.zones {
        page.item(&part(voice, &zone.part), &colouring::zone(voice, zone));
    }
    page.item(
        entry(voice, Entry::SharesOfLight),
        &colouring::shares(voice, &answer.colouring),
    );
}

fn exposure(page: &mut Page, job: &Job, answer: &Answer) {
    let (voice, exposure) = (page.voice, &answer.exposure);
    page.heading(heading(voice, Heading::Exposure));
    let stops = |value: units::Stops| voice.signed(value.value(), 2);
    page.figure(
        &printed::flash_alone(voice, answer.flash.power),
        &stops(exposure.flash_alone),
    );
    let ambient = exposure
        .ambient_alone
        .map_or_else(|| printed::none(voice).to_owned(), stops);
    page.figure(entry(voice, Entry::AmbientAlone), &ambient);
    page.figure(entry(voice, Entry::Together), &stops(exposure.total));
    for metered in &exposure.ambient_as_metered {
        page.figure(
            &printed::as_known(voice, job, &metered.light),
            &stops(metered.level),
        );
    }
    page.item(
        entry(voice, Entry::PowerForFlash),
        &voice.power(exposure.power_for_flash_alone),
    );
    page.item(
        entry(voice, Entry::PowerForSum),
        &voice.power(exposure.power_for_total),
    );
}

fn evenness(page: &mut Page, answer: &Answer) {
    let Some(evenness) = &answer.evenness else { return };
    let voice = page.voice;
    page.heading(heading(voice, Heading::Evenness));
    page.paragraph("  ", &printed::evenness(voice, evenness));
    for sitter in &evenness.each {
        page.figure(&sitter.name, &voice.signed(sitter.level.value(), 2));
    }
}

fn why_not(page: &mut Page, answer: &Answer) {
    let mut others = answer
        .surfaces
        .iter()
        .filter(|surface| surface.verdict != Verdict::Chosen)
        .peekable();
    if others.peek().is_none() {
        return;
    }
    let voice = page.voice;
    page.heading(heading(voice, Heading::WhyNot));
    for surface in others {
        let verdict = why::verdict(voice, surface.verdict);
        let why = why::sentence(voice, &surface.why, surface.key.as_ref());
        page.item(&way(voice, &surface.way).bare, &format!("{verdict}: {why}"));
    }
    if !answer.map.cells.is_empty() {
        page.paragraph("  ", printed::see_the_map(voice));
    }
}

fn uncertainty(page: &mut Page, answer: &Answer) {
    if answer.uncertainty.parts.is_empty() {
        return;
    }
    let voice = page.voice;
    page.heading(heading(voice, Heading::Doubt));
    for part in &answer.uncertainty.parts {
        let (stops, spread) = (
            voice.stops_at_two(part.stops),
            doubt::assumed(voice, part.assumed),
        );
        page.item(&doubt::input(voice, &part.input), &format!("{stops}: {spread}"));
    }
}
