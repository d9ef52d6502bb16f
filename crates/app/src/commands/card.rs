//! `rushlight card`: one screen or page for each set-up, for the day itself.

use super::{Failure, SEED, load, solve};
use crate::cli::CardArgs;
use crate::clock;
use crate::output;
use sheet::Card;
use shoot::Shoot;
use solver::{Answer, Job, Variations};
use std::path::Path;

/// What a card file becomes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Html,
    Pdf,
}

/// A set-up that has been answered.
pub struct Answered<'a> {
    /// What it is called.
    pub title: &'a str,
    /// What was asked.
    pub job: &'a Job,
    /// What was found.
    pub answer: &'a Answer,
}

/// Answers a shoot and writes its card.
///
/// # Errors
/// Mistakes in the shoot file, a place that cannot be lit, a file that is neither HTML nor PDF, or a card that could
/// not be written.
pub fn run(args: &CardArgs) -> Result<(), Failure> {
    let kind = kind_of(&args.out)?;
    let (title, shoots) = match &args.setup {
        Some(called) => {
            let shoot = load(Some(&args.shoot), Some(called))?;
            (shoot.job.title.clone(), vec![shoot])
        }
        None => {
            let file = shoot::read_file(&args.shoot)?;
            (file.title, file.set_ups)
        }
    };
    let answers: Vec<Answer> = shoots.iter().map(solve).collect::<Result<_, _>>()?;
    let set_ups: Vec<Answered<'_>> = shoots
        .iter()
        .zip(&answers)
        .map(|(shoot, answer)| Answered::of(shoot, answer))
        .collect();
    let feet = shoots.first().is_some_and(|shoot| shoot.uses_feet);
    let cards = cards(&set_ups, feet, &clock::for_people())?;
    let bytes = match kind {
        Kind::Html => sheet::card_html(&cards).into_bytes(),
        Kind::Pdf => on_paper(&cards, &title)?,
    };
    output::write_file(&args.out, &bytes)?;
    Ok(())
}

impl<'a> Answered<'a> {
    /// A set-up under its own name, or the shoot's where it has none.
    pub fn of(shoot: &'a Shoot, answer: &'a Answer) -> Self {
        Answered {
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
pub fn cards(set_ups: &[Answered<'_>], feet: bool, made: &str) -> Result<Vec<Card>, Failure> {
    let card = |set_up: &Answered<'_>| {
        let variations = Variations::of(set_up.job, set_up.answer, SEED)?;
        Ok(Card::new(
            set_up.title,
            set_up.job,
            set_up.answer,
            &variations,
            feet,
            made,
        ))
    };
    set_ups.iter().map(card).collect()
}

/// The pages of some cards as a PDF file.
///
/// # Errors
/// Pages that could not be printed, which is a fault of ours.
pub fn on_paper(cards: &[Card], title: &str) -> Result<Vec<u8>, Failure> {
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
    print::pdf(&pages, title).map_err(|error| Failure::Ours(error.to_string()))
}

/// What the ending of a file asks for.
fn kind_of(path: &Path) -> Result<Kind, Failure> {
    let ending = path
        .extension()
        .unwrap_or_default()
        .to_string_lossy()
        .to_lowercase();
    match ending.as_str() {
        "html" | "htm" => Ok(Kind::Html),
        "pdf" => Ok(Kind::Pdf),
        _ => Err(Failure::Missing(format!(
            "a card is written as .html for a phone or as .pdf for paper, and \"{}\" is neither. Try  -o card.html",
            path.display()
        ))),
    }
}
