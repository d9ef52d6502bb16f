//! The card: one set-up on one screen or one small page, for the photographer's hand and the assistant's.

mod assistant;
mod content;
mod html;
mod page;
mod plans;

pub use crate::wording::on_card::Made;
pub use content::{Card, FlashChange};
pub use html::card_html;
pub use page::{CardPage, WidthOf, card_pages};
