//! Cards for the day itself: one screen or page for each set-up.

use crate::answering::SEED;
use answer::{Answer, Failure, Job};
use print::PrintError;
use sheet::{Card, Language, Made, Voice};
use shoot::Shoot;

/// A set-up that has been answered, as its card needs it.
pub struct SetUpOnCard<'a> {
    /// What it is called.
    pub title: &'a str,
    /// What was asked.
    pub job: &'a Job,
    /// What was found.
    pub answer: &'a Answer,
}

impl<'a> SetUpOnCard<'a> {
    /// A set-up under its own name, or the shoot's where it has none.
    pub fn of(shoot: &'a Shoot, answer: &'a Answer) -> Self {
        SetUpOnCard {
            title: shoot.set_up.as_deref().unwrap_or(&shoot.job.title),
            job: &shoot.job,
            answer,
        }
    }
}

/// The cards of some answered set-ups, in their order.
///
/// # Errors
/// A place that cannot be built.
pub fn cards(set_ups: &[SetUpOnCard<'_>], voice: Voice, made: &Made) -> Result<Vec<Card>, Failure> {
    let card = |set_up: &SetUpOnCard<'_>| {
        let variations = solver::variations(set_up.job, set_up.answer, SEED)?;
        Ok(Card::new(
            set_up.title,
            set_up.job,
            set_up.answer,
            &variations,
            solver::when_flash_changes,
            voice,
            Some(made),
        ))
    };
    set_ups.iter().map(card).collect()
}

/// The pages of some cards as a PDF file; its language is that of the first card.
///
/// # Errors
/// Pages that could not be printed, which is a fault of ours.
pub fn on_paper(cards: &[Card], title: &str) -> Result<Vec<u8>, PrintError> {
    let pages = cards
        .iter()
        .flat_map(|card| sheet::card_pages(card, &print::width_of));
    let pages: Vec<print::Page> = pages
        .map(|page| print::Page {
            svg: page.svg,
            width_mm: page.width_mm,
            height_mm: page.height_mm,
        })
        .collect();
    let language = cards.first().map_or_else(Language::default, Card::language);
    print::pdf(&pages, title, language.code())
}
