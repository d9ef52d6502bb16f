//! The command line: what can be typed, and what it means.

use clap::{Args, Parser, Subcommand, ValueEnum};
use sheet::{Language, Voice};
use shoot::Shoot;
use std::path::PathBuf;
use std::time::Duration;
use units::{Duv, FNumber, Iso, Kelvin, PowerFraction, ShutterTime, UnitError};

/// One small battery flash, a room, and where to point it.
///
/// Rushlight reads a shoot file (a short text that says what the room, the people, the flash and the wish
/// are), works out how light travels there, and says how to set camera and flash, which gel to wear, and where to
/// point it.
#[derive(Debug, Parser)]
#[command(
    name = "rushlight",
    version,
    propagate_version = true,
    after_help = "Start with:  rushlight\nwhich opens the page in a browser, on the built-in example. SHOOT_FILE.md explains how to describe your own room.",
    after_long_help = "Exit codes: 0 all went well, 1 something of ours failed (a file could not be written), 2 the shoot file \
                       or the command line has mistakes."
)]
pub struct Cli {
    /// What to do; without it the page is opened.
    #[command(subcommand)]
    pub command: Option<Command>,
}

/// What to do.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Open the page in a browser: ask, answer, proof and card. The same as no command at all.
    Page(PageArgs),
    /// Say how to set camera and flash and where to point it, with the reasons.
    Answer(AnswerArgs),
    /// Compute a picture of the answer.
    Proof(ProofArgs),
    /// Draw the answer from above and from the side, as an SVG file.
    Drawing(DrawingArgs),
    /// Draw the room unrolled, with how good it is to aim at every part of it and why, as an SVG file.
    Map(MapArgs),
    /// Make the card for the day: three large lines, drawings, what the assistant does, what to set when the light
    /// has changed. One HTML file for a phone, which needs no network, or a PDF file for paper.
    Card(CardArgs),
    /// Read a shoot file, say what was understood and what is wrong with it; no light is computed.
    Check(CheckArgs),
    /// Say how sun, sky and moon go on the day of a shoot with a part [sky]: times, levels, colours, what hides the sun.
    Sun(SunArgs),
    /// Read a scan of a room (glTF 2.0 or OBJ) and write the part [place] of a shoot file from it.
    Scan(ScanArgs),
    /// Print the JSON schema of what `answer --json` prints, or the OpenAPI document of the page's server.
    Schema(SchemaArgs),
}

/// How words are printed, drawn or written.
#[derive(Clone, Copy, Debug, Args)]
pub struct Speech {
    /// The language of all words.
    #[arg(long, value_enum, default_value = "en")]
    pub language: Spoken,
}

impl Cli {
    /// The language that a command speaks, its refusals among them.
    pub fn language(&self) -> Language {
        let speech = match &self.command {
            None | Some(Command::Page(_) | Command::Scan(_) | Command::Schema(_)) => {
                return Language::English;
            }
            Some(Command::Answer(args)) => args.speech,
            Some(Command::Proof(args)) => args.speech,
            Some(Command::Drawing(args)) => args.speech,
            Some(Command::Map(args)) => args.speech,
            Some(Command::Card(args)) => args.speech,
            Some(Command::Check(args)) => args.speech,
            Some(Command::Sun(args)) => args.speech,
        };
        speech.language.into()
    }
}

impl Speech {
    /// The voice in which a shoot is told: in this language and in the unit of its file.
    pub fn of(self, shoot: &Shoot) -> Voice {
        self.in_feet(shoot.uses_feet)
    }

    /// The voice in this language, in feet or in metres.
    pub fn in_feet(self, feet: bool) -> Voice {
        Voice::new(self.language.into(), feet)
    }
}

/// A language by its code.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Spoken {
    /// English.
    En,
    /// German.
    De,
}

impl From<Spoken> for Language {
    fn from(spoken: Spoken) -> Self {
        match spoken {
            Spoken::En => Language::English,
            Spoken::De => Language::German,
        }
    }
}

/// Arguments of `page`.
#[derive(Clone, Debug, Default, Args)]
pub struct PageArgs {
    /// The port of this machine at which the page is served; 7390, or any that is free, when it is not said.
    #[arg(long)]
    pub port: Option<u16>,
    /// Do not open a browser; the address is printed.
    #[arg(long)]
    pub no_browser: bool,
    /// Where shoots are kept: a file, or the address of a PostgreSQL database (postgres://…). Without it a file in
    /// the usual folder for a program's data.
    #[arg(
        long,
        env = "RUSHLIGHT_STORE",
        value_name = "FILE|URL",
        hide_env_values = true
    )]
    pub store: Option<String>,
}

/// Arguments of `answer`.
#[derive(Debug, Args)]
pub struct AnswerArgs {
    /// The shoot file; without it the built-in example is answered.
    pub shoot: Option<PathBuf>,
    /// Which set-up of the file, by its name or its number; without it the first.
    #[arg(long, value_name = "NAME|NUMBER")]
    pub setup: Option<String>,
    /// Print the answer as JSON, for other programs.
    #[arg(long)]
    pub json: bool,
    /// Write the answer as JSON to this file as well; an earlier one is replaced.
    #[arg(short, long, value_name = "ANSWER.json")]
    pub out: Option<PathBuf>,
    /// How it is worded.
    #[command(flatten)]
    pub speech: Speech,
}

/// Arguments of `proof`.
#[derive(Debug, Args)]
pub struct ProofArgs {
    /// The shoot file.
    pub shoot: PathBuf,
    /// Which set-up of the file, by its name or its number; without it the first.
    #[arg(long, value_name = "NAME|NUMBER")]
    pub setup: Option<String>,
    /// The picture to write, a PNG file; an earlier one is replaced.
    #[arg(short, long, value_name = "PROOF.png")]
    pub out: PathBuf,
    /// Width and height in pixels.
    #[arg(long, value_name = "WIDTHxHEIGHT", default_value = "800x1000", value_parser = parse_size)]
    pub size: PictureSize,
    /// Stop when the noise has fallen to this part of the brightness.
    #[arg(long, value_name = "PERCENT", default_value = "2%", value_parser = parse_percent, conflicts_with = "seconds")]
    pub quality: f64,
    /// Stop after this many seconds, however noisy it is then.
    #[arg(long, value_name = "SECONDS", value_parser = parse_seconds)]
    pub seconds: Option<Duration>,
    /// Which light to show.
    #[arg(long, value_enum, default_value = "both")]
    pub light: LightChoice,
    /// Also write every light by itself, as measured, to this OpenEXR file; --from develops it again.
    ///
    /// One layer for each light with 16 channels of radiance per band, as it lies in the picture's dose; the text
    /// attribute "rushlight" of each layer is JSON with its colour per band and the settings of the picture.
    #[arg(long, value_name = "LAYERS.exr")]
    pub layers: Option<PathBuf>,
    /// Leave out all gloss: skin, eyes and hair are matt, as in the quick calculation.
    #[arg(long)]
    pub matt: bool,
    /// Leave the noise of the calculation in, for measurements: no filter goes over the light.
    #[arg(long)]
    pub plain: bool,
    /// Show the light as it is, without the camera's tone curve.
    #[arg(long)]
    pub no_curve: bool,
    /// Develop the picture again from this layer file, which takes no time: no light is computed.
    #[arg(long, value_name = "LAYERS.exr", conflicts_with_all = ["seconds", "quality", "size", "layers", "matt", "plain"])]
    pub from: Option<PathBuf>,
    /// With --from: another shutter, such as 1/50; it moves the ambient light alone.
    #[arg(long, requires = "from", value_name = "TIME")]
    pub shutter: Option<ShutterTime>,
    /// With --from: another power of the flash, such as "1/4 +0.3"; it moves the flash alone.
    #[arg(long, requires = "from", value_name = "POWER")]
    pub power: Option<PowerFraction>,
    /// With --from: another speed, such as "ISO 200".
    #[arg(long, requires = "from", value_name = "ISO", value_parser = parse_iso)]
    pub iso: Option<Iso>,
    /// With --from: another aperture, such as f/2.8.
    #[arg(long, requires = "from", value_name = "APERTURE")]
    pub aperture: Option<FNumber>,
    /// With --from: another gel on the flash, such as "1/2 CTO", "full CTO + 1/4 CTO" or "none".
    #[arg(long, requires = "from", value_name = "GEL")]
    pub gel: Option<String>,
    /// With --from: another white balance, such as "4500 K".
    #[arg(long, requires = "from", value_name = "KELVIN")]
    pub white_balance: Option<Kelvin>,
    /// With --from: another tint of the balance, such as "Duv +0.002".
    #[arg(long, requires = "from", value_name = "DUV", allow_hyphen_values = true)]
    pub tint: Option<Duv>,
    /// How progress and failures are worded.
    #[command(flatten)]
    pub speech: Speech,
}

/// Arguments of `drawing`.
#[derive(Debug, Args)]
pub struct DrawingArgs {
    /// The shoot file.
    pub shoot: PathBuf,
    /// Which set-up of the file, by its name or its number; without it the first.
    #[arg(long, value_name = "NAME|NUMBER")]
    pub setup: Option<String>,
    /// The drawing to write, an SVG file; an earlier one is replaced.
    #[arg(short, long, value_name = "PLAN.svg")]
    pub out: PathBuf,
    /// How it is worded.
    #[command(flatten)]
    pub speech: Speech,
}

/// Arguments of `card`.
#[derive(Debug, Args)]
pub struct CardArgs {
    /// The shoot file.
    pub shoot: PathBuf,
    /// Which set-up of the file, by its name or its number; without it every one.
    #[arg(long, value_name = "NAME|NUMBER")]
    pub setup: Option<String>,
    /// The card to write; the ending says what it becomes: .html for a phone, .pdf for paper. An earlier one is replaced.
    #[arg(short, long, value_name = "CARD.html|CARD.pdf")]
    pub out: PathBuf,
    /// How it is worded.
    #[command(flatten)]
    pub speech: Speech,
}

/// Arguments of `schema`.
#[derive(Debug, Args)]
pub struct SchemaArgs {
    /// The page's API as an OpenAPI document, instead of the answer.
    #[arg(long)]
    pub api: bool,
}

/// Arguments of `map`.
#[derive(Debug, Args)]
pub struct MapArgs {
    /// The shoot file.
    pub shoot: PathBuf,
    /// Which set-up of the file, by its name or its number; without it the first.
    #[arg(long, value_name = "NAME|NUMBER")]
    pub setup: Option<String>,
    /// The map to write, an SVG file; an earlier one is replaced.
    #[arg(short, long, value_name = "MAP.svg")]
    pub out: PathBuf,
    /// How it is worded.
    #[command(flatten)]
    pub speech: Speech,
}

/// Arguments of `sun`.
#[derive(Debug, Args)]
pub struct SunArgs {
    /// The shoot file; it needs the part [sky].
    pub shoot: PathBuf,
    /// Which set-up of the file, by its name or its number; without it the first.
    #[arg(long, value_name = "NAME|NUMBER")]
    pub setup: Option<String>,
    /// Print the day as JSON, for other programs.
    #[arg(long)]
    pub json: bool,
    /// Also draw the day, as an SVG file; an earlier one is replaced.
    #[arg(short, long, value_name = "DAY.svg")]
    pub out: Option<PathBuf>,
    /// How far apart the rows of the table are.
    #[arg(long, value_name = "MINUTES", default_value = "30min", value_parser = parse_minutes)]
    pub every: u32,
    /// How it is worded.
    #[command(flatten)]
    pub speech: Speech,
}

/// Arguments of `check`.
#[derive(Debug, Args)]
pub struct CheckArgs {
    /// The shoot file.
    pub shoot: PathBuf,
    /// Which set-up of the file, by its name or its number; without it all of them.
    #[arg(long, value_name = "NAME|NUMBER")]
    pub setup: Option<String>,
    /// How it is worded.
    #[command(flatten)]
    pub speech: Speech,
}

/// Arguments of `scan`.
#[derive(Debug, Args)]
pub struct ScanArgs {
    /// The scan: .glb, .gltf with its numbers inside, or .obj; up to 64 MB and 2 million triangles, not compressed.
    pub scan: PathBuf,
    /// The place to write, a TOML file that must not be there yet.
    #[arg(short, long, value_name = "PLACE.toml")]
    pub out: PathBuf,
    /// The unit of the scan's numbers; guessed otherwise.
    #[arg(long, value_enum)]
    pub unit: Option<ScanUnit>,
    /// The axis that points up in the scan; otherwise y in glTF, guessed in OBJ.
    #[arg(long, value_enum)]
    pub up: Option<UpAxis>,
    /// Turn the place by so many quarters, anticlockwise seen from above, until the sitter's wall is right.
    ///
    /// A scan does not say where the camera stands. Without this the longer side runs from camera to sitter, one way
    /// or the other; 2 changes the ends.
    #[arg(long, value_name = "QUARTERS", default_value_t = 0, value_parser = clap::value_parser!(u8).range(0..=3))]
    pub turn: u8,
}

/// The unit of a scan's numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum ScanUnit {
    /// Metres.
    M,
    /// Centimetres.
    Cm,
    /// Millimetres.
    Mm,
    /// Feet.
    Ft,
    /// Inches.
    In,
}

impl ScanUnit {
    /// Its length in metres; feet and inches are the international ones.
    pub fn metres(self) -> f32 {
        match self {
            ScanUnit::M => 1.0,
            ScanUnit::Cm => 0.01,
            ScanUnit::Mm => 0.001,
            ScanUnit::Ft => 0.3048,
            ScanUnit::In => 0.0254,
        }
    }
}

/// The axis that points up in a scan.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum UpAxis {
    /// y.
    Y,
    /// z.
    Z,
}

impl From<UpAxis> for scene::scan::Up {
    fn from(axis: UpAxis) -> Self {
        match axis {
            UpAxis::Y => scene::scan::Up::Y,
            UpAxis::Z => scene::scan::Up::Z,
        }
    }
}

/// Which light a proof shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum LightChoice {
    /// Flash and ambient, as in the finished picture.
    Both,
    /// The flash alone.
    Flash,
    /// The ambient light alone.
    Ambient,
}

/// Width and height of a picture in pixels.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PictureSize {
    /// Columns.
    pub width: u32,
    /// Rows.
    pub height: u32,
}

/// Sides of a proof in pixels (ours): smaller shows nothing, larger takes hours.
const PICTURE_SIDES: std::ops::RangeInclusive<u32> = 16..=8000;

fn parse_size(text: &str) -> Result<PictureSize, String> {
    let explain = || {
        format!(
            "write width and height with an x between them, such as 800x1000, each from {} to {}",
            PICTURE_SIDES.start(),
            PICTURE_SIDES.end()
        )
    };
    let (width, height) = text.split_once(['x', 'X', '×']).ok_or_else(explain)?;
    let side = |text: &str| {
        text.trim()
            .parse()
            .ok()
            .filter(|side| PICTURE_SIDES.contains(side))
            .ok_or_else(explain)
    };
    Ok(PictureSize {
        width: side(width)?,
        height: side(height)?,
    })
}

/// A speed, with or without the letters.
fn parse_iso(text: &str) -> Result<Iso, UnitError> {
    text.parse()
        .or_else(|error| format!("ISO {text}").parse().map_err(|_| error))
}

/// Part of one, from "2%".
fn parse_percent(text: &str) -> Result<f64, String> {
    let number = text.trim().strip_suffix('%').unwrap_or(text).trim();
    match number.parse::<f64>() {
        Ok(percent) if (0.1..=50.0).contains(&percent) => Ok(percent / 100.0),
        _ => Err("write a percentage from 0.1% to 50%, such as 2%".to_owned()),
    }
}

fn parse_minutes(text: &str) -> Result<u32, String> {
    let number = text
        .trim()
        .trim_end_matches(|c: char| c.is_alphabetic())
        .trim_end();
    let unit = text.trim()[number.len()..].trim();
    match number.parse::<u32>() {
        Ok(minutes) if (1..=180).contains(&minutes) && ["", "m", "min", "minutes"].contains(&unit) => {
            Ok(minutes)
        }
        _ => Err("write whole minutes from 1 to 180, such as 5min".to_owned()),
    }
}

fn parse_seconds(text: &str) -> Result<Duration, String> {
    let number = text.trim().strip_suffix('s').unwrap_or(text).trim();
    match number.parse::<f64>() {
        Ok(seconds) if (0.1..=86_400.0).contains(&seconds) => Ok(Duration::from_secs_f64(seconds)),
        _ => Err("write a time in seconds from 0.1 to 86400, such as 10".to_owned()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory;

    #[test]
    fn the_command_line_is_consistent() {
        Cli::command().debug_assert();
    }

    #[test]
    fn words_are_english_unless_another_language_is_asked_for() {
        let language = |more: &[&str]| {
            let typed = ["rushlight", "answer", "shoot.toml"].iter().chain(more);
            match Cli::try_parse_from(typed).map(|cli| cli.command) {
                Ok(Some(Command::Answer(args))) => Some(args.speech.in_feet(false).language),
                _ => None,
            }
        };
        assert_eq!(language(&[]), Some(Language::English));
        assert_eq!(language(&["--language", "de"]), Some(Language::German));
        assert_eq!(language(&["--language", "la"]), None);
    }

    #[test]
    fn sizes_are_read_or_explained() {
        for (text, expected) in [
            ("800x1000", Some((800, 1000))),
            ("800 × 1000", Some((800, 1000))),
            ("800", None),
            ("8x1000", None),
            ("99999x10", None),
            ("-800x1000", None),
        ] {
            assert_eq!(
                parse_size(text).ok().map(|size| (size.width, size.height)),
                expected,
                "{text}"
            );
        }
    }

    #[test]
    fn minutes_have_bounds() {
        for (text, expected) in [("5min", Some(5)), ("5", Some(5)), ("10 min", Some(10))] {
            assert_eq!(parse_minutes(text).ok(), expected, "{text}");
        }
        for text in ["0", "-5", "5h", "181", "1.5", "soon", ""] {
            assert!(parse_minutes(text).is_err(), "{text}");
        }
    }

    #[test]
    fn qualities_and_times_have_bounds() {
        assert_eq!(parse_percent("2%"), Ok(0.02));
        assert_eq!(parse_percent("2"), Ok(0.02));
        for text in ["0%", "-1%", "nan", "inf", "200%", "good"] {
            assert!(parse_percent(text).is_err(), "{text}");
        }
        assert_eq!(parse_seconds("10"), Ok(Duration::from_secs(10)));
        assert_eq!(parse_seconds("0.5 s"), Ok(Duration::from_millis(500)));
        for text in ["0", "-1", "nan", "inf", "1e9", "soon"] {
            assert!(parse_seconds(text).is_err(), "{text}");
        }
    }
}
