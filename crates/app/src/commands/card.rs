//! `rushlight card`: one screen or page for each set-up, for the day itself.

use super::asked::{load, solve};
use super::failure::Failure;
use crate::cli::CardArgs;
use crate::clock;
use crate::files;
use crate::output;
use answer::Answer;
use server::card::{SetUpOnCard, cards, on_paper};
use server::moment::on_card;
use shoot::both;
use std::path::Path;

/// What a card file becomes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum CardFormat {
    Html,
    Pdf,
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
            let file = files::read_file(&args.shoot)?;
            (file.title, file.set_ups)
        }
    };
    let feet = shoots.first().is_some_and(|shoot| shoot.uses_feet);
    let voice = args.speech.in_feet(feet);
    let solved = shoots.iter().map(|shoot| solve(shoot, voice));
    let answers: Vec<Answer> = solved.collect::<Result<_, _>>()?;
    let set_ups: Vec<SetUpOnCard<'_>> = shoots
        .iter()
        .zip(&answers)
        .map(|(shoot, answer)| SetUpOnCard::of(shoot, answer))
        .collect();
    let cards = cards(&set_ups, voice, &on_card(&clock::now())).map_err(Failure::lighting(voice))?;
    let bytes = match kind {
        CardFormat::Html => sheet::card_html(&cards).into_bytes(),
        CardFormat::Pdf => on_paper(&cards, &title).map_err(|error| Failure::Ours(error.to_string()))?,
    };
    output::write_file(&args.out, &bytes)?;
    Ok(())
}

/// What the ending of a file asks for.
fn kind_of(path: &Path) -> Result<CardFormat, Failure> {
    let ending = path
        .extension()
        .unwrap_or_default()
        .to_string_lossy()
        .to_lowercase();
    match ending.as_str() {
        "html" | "htm" => Ok(CardFormat::Html),
        "pdf" => Ok(CardFormat::Pdf),
        _ => {
            let path = path.display();
            Err(Failure::Missing(both!(
                "a card is written as .html for a phone or as .pdf for paper, and \"{path}\" is neither. Try  -o card.html";
                "eine Karte wird als .html fürs Telefon oder als .pdf für Papier geschrieben, und \"{path}\" ist keins von \
                 beiden. Etwa  -o card.html"
            )))
        }
    }
}
