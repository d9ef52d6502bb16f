//! A gel's own curve, measured and written down as wavelength and transmittance.

use super::sheet::{Gel, GelError};
use colour::{ColourError, SpectralCurve};

/// The curve must reach over these wavelengths, in nm: what lies beyond hardly counts for the eye.
const NEEDED_NM: (f64, f64) = (400.0, 700.0);
/// Larger holes than this hide what a dye does (ours), in nm.
const WIDEST_GAP_NM: f64 = 20.0;
/// A spectrometer gives a few hundred rows; more than this is another kind of file (ours).
const MOST_ROWS: usize = 4000;

/// What is wrong with a measured curve: the line, the reason and what to do.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[error("line {line}: {fault}. {}", .fault.remedy())]
pub struct GelCurveError {
    /// Line of the file, from 1.
    pub line: usize,
    /// What is wrong.
    pub fault: GelCurveFault,
}

/// What can be wrong with a measured curve.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum GelCurveFault {
    /// Fewer than two rows.
    #[error("there are fewer than two rows of numbers")]
    TooShort,
    /// The first wavelength, in nm, is too long.
    #[error("the curve begins at {0} nm")]
    BeginsLate(f64),
    /// The last wavelength, in nm, is too short.
    #[error("the curve ends at {0} nm")]
    EndsEarly(f64),
    /// A row that is no pair of numbers.
    #[error("this is not a wavelength and a transmittance")]
    NotAPair,
    /// More rows than are read.
    #[error("there are more than {MOST_ROWS} rows")]
    TooManyRows,
    /// A transmittance below 0.
    #[error("a transmittance of {0}: no gel lets through less than nothing")]
    LessThanNothing(f64),
    /// A transmittance above 1.
    #[error("a transmittance of {0}: no gel lets through more than everything, which is 1")]
    MoreThanEverything(f64),
    /// A number of nm that is far from light.
    #[error("{0} is no wavelength of light in nm")]
    NotLight(f64),
    /// A wavelength that does not rise.
    #[error("{nm} nm comes after {before} nm")]
    NotRising {
        /// The wavelength of the row, in nm.
        nm: f64,
        /// That of the row before, in nm.
        before: f64,
    },
    /// A hole where the eye sees.
    #[error("nothing is said between {from} and {to} nm")]
    Hole {
        /// Where it begins, in nm.
        from: f64,
        /// Where it ends, in nm.
        to: f64,
    },
    /// Numbers that make no curve.
    #[error(transparent)]
    Curve(#[from] ColourError),
    /// A curve that is no gel.
    #[error(transparent)]
    Gel(#[from] GelError),
}

impl GelCurveFault {
    /// The most rows that are read.
    pub const MOST_ROWS: usize = MOST_ROWS;

    /// What to do about it.
    pub fn remedy(&self) -> &'static str {
        match self {
            GelCurveFault::TooShort => {
                "Write a wavelength in nm and a transmittance on each line, such as  550,0.83"
            }
            GelCurveFault::BeginsLate(_) | GelCurveFault::EndsEarly(_) => {
                "It must reach from 400 to 700 nm; measure the rest, or use a named gel."
            }
            GelCurveFault::NotAPair => "Write two numbers parted by a comma, such as  550,0.83",
            GelCurveFault::TooManyRows => "One row for each nanometre is enough.",
            GelCurveFault::LessThanNothing(_) => {
                "Take the dark reading off, and write 0 where nothing is left."
            }
            GelCurveFault::MoreThanEverything(_) => "Divide percents by 100.",
            GelCurveFault::NotLight(_) => "Visible light has 380 to 780 nm.",
            GelCurveFault::NotRising { .. } => "Sort the rows by wavelength, each once.",
            GelCurveFault::Hole { .. } => "Give a value at least every 20 nm.",
            GelCurveFault::Curve(_) | GelCurveFault::Gel(_) => "Check the numbers.",
        }
    }
}

impl Gel {
    /// A gel from a table of wavelength in nm and transmittance from 0 to 1, a row on each line, parted by a
    /// comma, a semicolon or a tab. Lines that begin with `#`, empty lines and one heading are passed over.
    ///
    /// ```
    /// let table = "nm,transmittance\n380,0.2\n400,0.2\n420,0.3\n";
    /// let error = light::Gel::from_table("mine", table).unwrap_err();
    /// assert_eq!(error.line, 4);
    /// ```
    ///
    /// # Errors
    /// The first row that is no pair of numbers, lies outside 0 to 1, does not rise, or leaves a gap of more
    /// than 20 nm; and a table that does not reach from 400 to 700 nm.
    pub fn from_table(name: &str, text: &str) -> Result<Gel, GelCurveError> {
        let rows = rows(text)?;
        let last_line = rows.last().map_or(1, |row| row.line);
        let (first, last) = match (rows.first(), rows.last()) {
            (Some(first), Some(last)) if rows.len() >= 2 => (first.nm, last.nm),
            _ => {
                return Err(refused(last_line, GelCurveFault::TooShort));
            }
        };
        if first > NEEDED_NM.0 || last < NEEDED_NM.1 {
            let (line, fault) = if first > NEEDED_NM.0 {
                (rows[0].line, GelCurveFault::BeginsLate(first))
            } else {
                (last_line, GelCurveFault::EndsEarly(last))
            };
            return Err(refused(line, fault));
        }
        let (wavelengths, values) = rows.iter().map(|row| (row.nm, row.value)).unzip();
        let curve =
            SpectralCurve::new(wavelengths, values).map_err(|error| refused(last_line, error.into()))?;
        Gel::from_curve(name, curve).map_err(|error| refused(last_line, error.into()))
    }
}

struct Row {
    line: usize,
    nm: f64,
    value: f64,
}

fn refused(line: usize, fault: GelCurveFault) -> GelCurveError {
    GelCurveError { line, fault }
}

fn rows(text: &str) -> Result<Vec<Row>, GelCurveError> {
    let mut rows: Vec<Row> = Vec::new();
    let mut headed = false;
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    for (index, content) in text.lines().enumerate() {
        let (line, content) = (index + 1, content.trim());
        if content.is_empty() || content.starts_with('#') {
            continue;
        }
        let Some((nm, value)) = pair(content) else {
            // A heading is the one line above the numbers that is no pair.
            if rows.is_empty() && !headed {
                headed = true;
                continue;
            }
            return Err(refused(line, GelCurveFault::NotAPair));
        };
        if rows.len() == MOST_ROWS {
            return Err(refused(line, GelCurveFault::TooManyRows));
        }
        check_row(rows.last(), line, nm, value)?;
        rows.push(Row { line, nm, value });
    }
    Ok(rows)
}

fn check_row(before: Option<&Row>, line: usize, nm: f64, value: f64) -> Result<(), GelCurveError> {
    if !(0.0..=1.0).contains(&value) {
        let fault = if value < 0.0 {
            GelCurveFault::LessThanNothing(value)
        } else {
            GelCurveFault::MoreThanEverything(value)
        };
        return Err(refused(line, fault));
    }
    if !(100.0..=3000.0).contains(&nm) {
        return Err(refused(line, GelCurveFault::NotLight(nm)));
    }
    let Some(before) = before else { return Ok(()) };
    if nm <= before.nm {
        let before = before.nm;
        return Err(refused(line, GelCurveFault::NotRising { nm, before }));
    }
    // Outside of what the eye sees, holes do no harm.
    let (from, to) = (before.nm.max(NEEDED_NM.0), nm.min(NEEDED_NM.1));
    if to - from > WIDEST_GAP_NM {
        let (from, to) = (before.nm, nm);
        return Err(refused(line, GelCurveFault::Hole { from, to }));
    }
    Ok(())
}

fn pair(content: &str) -> Option<(f64, f64)> {
    let mut parts = content.split([',', ';', '\t']).map(str::trim);
    let (nm, value) = (parts.next()?, parts.next()?);
    if parts.any(|rest| !rest.is_empty()) {
        return None;
    }
    let number = |text: &str| text.parse::<f64>().ok().filter(|number| number.is_finite());
    Some((number(nm)?, number(value)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn table(change: impl Fn(usize, String) -> String) -> String {
        let rows = (0..=40).map(|k| change(k, format!("{},0.{}", 380 + 10 * k, 30 + k)));
        format!("nm;transmittance\n{}\n", rows.collect::<Vec<_>>().join("\n"))
    }

    #[test]
    fn a_good_table_is_a_gel() {
        let gel = Gel::from_table("mine", &table(|_, row| row)).expect("a gel");
        assert_eq!(gel.name(), "mine");
        assert!((gel.transmittance().at(550.0) - 0.47).abs() < 1e-12);
    }

    #[test]
    fn bad_tables_are_refused_with_their_line() {
        let cases: [(&str, usize, String); 7] = [
            (
                "more than everything",
                5,
                table(|k, row| if k == 3 { "410,12.0".to_owned() } else { row }),
            ),
            (
                "less than nothing",
                5,
                table(|k, row| if k == 3 { "410,-0.1".to_owned() } else { row }),
            ),
            (
                "comes after",
                5,
                table(|k, row| if k == 3 { "390,0.3".to_owned() } else { row }),
            ),
            (
                "nothing is said",
                23,
                table(|k, row| {
                    if k == 20 || k == 19 {
                        "# lost".to_owned()
                    } else {
                        row
                    }
                }),
            ),
            (
                "is not a wavelength",
                5,
                table(|k, row| if k == 3 { "410 0.3".to_owned() } else { row }),
            ),
            (
                "ends at",
                29,
                table(|k, row| if k > 27 { String::new() } else { row }),
            ),
            ("fewer than two", 1, "nm,t\n".to_owned()),
        ];
        for (reason, line, text) in cases {
            let error = Gel::from_table("mine", &text).expect_err(reason);
            assert!(error.fault.to_string().contains(reason), "{reason}: {error}");
            assert_eq!(error.line, line, "{error}");
            assert!(!error.fault.remedy().is_empty());
        }
    }
}
