//! Drawn pages become a PDF file.
//!
//! Pages come as SVG and leave as one document with its own typeface inside: words stay words that can be found and
//! copied, and the same pages always give the same bytes. Nothing is read from the disk or the system, and no clock is
//! looked at. What a page shows is decided elsewhere; its layout measures words with [`width_of`].
//!
//! ```
//! let page = print::Page {
//!     svg: r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 50"><text y="20">f/4 · 1/160</text></svg>"#.to_owned(),
//!     width_mm: 100.0,
//!     height_mm: 50.0,
//! };
//! let file = print::pdf(&[page], "Band room", "en").expect("a page that can be drawn");
//! assert!(file.starts_with(b"%PDF-1."));
//! assert!(print::width_of("1/160", 10.0, true) > print::width_of("1/16", 10.0, true));
//! ```

use krilla::Document;
use krilla::geom::Size;
use krilla::metadata::Metadata;
use krilla::page::PageSettings;
use krilla_svg::{SurfaceExt, SvgSettings};
use std::sync::{Arc, LazyLock};
use ttf_parser::Face;
use usvg::fontdb::{Database, Source};
use usvg::{Options, Tree};

static REGULAR: &[u8] = include_bytes!("../data/inter/Inter-Regular.ttf");
static SEMIBOLD: &[u8] = include_bytes!("../data/inter/Inter-SemiBold.ttf");

/// Points of a millimetre: 72 to the inch.
const POINTS_PER_MM: f32 = 72.0 / 25.4;
/// Pages are at most this long, in millimetres: a PDF allows 14 400 points.
const LONGEST_MM: f32 = 5080.0;
/// Width of a character that the typeface lacks, in parts of the size: that of the question mark which stands for it,
/// or more.
const UNKNOWN_WIDTH: f32 = 0.6;

/// One page.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    /// What is on it: an SVG document, which is fitted to the page.
    pub svg: String,
    /// Width in millimetres.
    pub width_mm: f32,
    /// Height in millimetres.
    pub height_mm: f32,
}

/// Why there is no PDF file.
#[derive(Debug, thiserror::Error)]
pub enum PrintError {
    /// No pages were given.
    #[error("there is no page to print")]
    NoPages,
    /// A page that is no SVG document.
    #[error("page {number} is not a drawing that can be printed: {why}")]
    BadDrawing {
        /// The page, from 1.
        number: usize,
        /// What is wrong with it.
        why: String,
    },
    /// A page whose size is none.
    #[error(
        "page {number} would be {width_mm} x {height_mm} mm; a page has sides from 1 mm to {LONGEST_MM} mm"
    )]
    BadSize {
        /// The page, from 1.
        number: usize,
        /// Its width in millimetres.
        width_mm: f32,
        /// Its height in millimetres.
        height_mm: f32,
    },
    /// The document could not be put together, which is a fault of ours.
    #[error("the PDF could not be put together: {0}")]
    Ours(String),
}

/// One PDF file of some pages, in their order, with its title and the code of its language ("en", "de"), by which it is read
/// aloud.
///
/// Every word is set in Inter, whatever family the drawing names; from weight 550 on in its semibold. A character that
/// the typeface lacks becomes a question mark. The same pages give the same bytes.
///
/// # Errors
/// No pages, a page that is no SVG document, or one without a size.
pub fn pdf(pages: &[Page], title: &str, language: &str) -> Result<Vec<u8>, PrintError> {
    if pages.is_empty() {
        return Err(PrintError::NoPages);
    }
    let mut document = Document::new();
    let metadata = Metadata::new().title(title.to_owned());
    document.set_metadata(metadata.language(language.to_owned()));
    for (index, page) in pages.iter().enumerate() {
        let number = index + 1;
        let (width, height) = (page.width_mm, page.height_mm);
        let bad_size = || PrintError::BadSize {
            number,
            width_mm: width,
            height_mm: height,
        };
        let possible = |side: f32| (1.0..=LONGEST_MM).contains(&side);
        if !(possible(width) && possible(height)) {
            return Err(bad_size());
        }
        let (width, height) = (width * POINTS_PER_MM, height * POINTS_PER_MM);
        let settings = PageSettings::from_wh(width, height).ok_or_else(bad_size)?;
        let tree = Tree::from_str(&shown(&page.svg), &options()).map_err(|error| PrintError::BadDrawing {
            number,
            why: error.to_string(),
        })?;
        let mut sheet = document.start_page_with(settings);
        let mut surface = sheet.surface();
        let size = Size::from_wh(width, height).ok_or_else(bad_size)?;
        let drawn = surface.draw_svg(&tree, size, SvgSettings::default());
        surface.finish();
        sheet.finish();
        if drawn.is_none() {
            return Err(PrintError::BadDrawing {
                number,
                why: "it could not be drawn".to_owned(),
            });
        }
    }
    document
        .finish()
        .map_err(|error| PrintError::Ours(format!("{error:?}")))
}

/// Width of words set in our typeface, in the unit of the size; without kerning, which makes them narrower if anything.
///
/// ```
/// // A nought of the regular typeface is 1292 of 2048 units wide (its own table, read with another program).
/// assert!((print::width_of("0", 2048.0, false) - 1292.0).abs() < 1.0);
/// ```
pub fn width_of(words: &str, size: f32, semibold: bool) -> f32 {
    let face = if semibold { &FACES[1] } else { &FACES[0] };
    let Some(face) = face else {
        return words.chars().count() as f32 * size;
    };
    let em = f32::from(face.units_per_em());
    let width = |c: char| {
        let advance = face
            .glyph_index(c)
            .and_then(|glyph| face.glyph_hor_advance(glyph));
        advance.map_or(UNKNOWN_WIDTH, |advance| f32::from(advance) / em)
    };
    words.chars().map(width).sum::<f32>() * size
}

/// Both faces, regular first.
static FACES: LazyLock<[Option<Face<'static>>; 2]> =
    LazyLock::new(|| [REGULAR, SEMIBOLD].map(|data| Face::parse(data, 0).ok()));

/// A drawing that asks for no character that the typeface lacks.
fn shown(svg: &str) -> String {
    let known = |c: char| {
        let control = c.is_ascii_control();
        control || FACES[0].as_ref().is_none_or(|face| face.glyph_index(c).is_some())
    };
    svg.chars().map(|c| if known(c) { c } else { '?' }).collect()
}

/// Our typeface and nothing of the system's; no file is opened for a picture.
fn options() -> Options<'static> {
    static FONTS: LazyLock<Arc<Database>> = LazyLock::new(|| {
        let mut fonts = Database::new();
        for data in [REGULAR, SEMIBOLD] {
            fonts.load_font_source(Source::Binary(Arc::new(data)));
        }
        // Whatever family a drawing names, ours is meant.
        fonts.set_sans_serif_family("Inter");
        fonts.set_serif_family("Inter");
        fonts.set_monospace_family("Inter");
        Arc::new(fonts)
    });
    let mut options = Options {
        font_family: "Inter".to_owned(),
        fontdb: Arc::clone(&FONTS),
        ..Options::default()
    };
    options.image_href_resolver.resolve_string = Box::new(|_, _| None);
    options
}
