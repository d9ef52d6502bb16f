//! A gel's own curve, measured and written down as wavelength and transmittance.

use super::sheet::Gel;
use colour::SpectralCurve;

/// The curve must reach over these wavelengths, in nm: what lies beyond hardly counts for the eye.
const NEEDED_NM: (f64, f64) = (400.0, 700.0);
/// Larger holes than this hide what a dye does (ours), in nm.
const WIDEST_GAP_NM: f64 = 20.0;
/// A spectrometer gives a few hundred rows; more than this is another kind of file (ours).
const MOST_ROWS: usize = 4000;

/// What is wrong with a measured curve: the line, the reason and what to do.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[error("line {line}: {reason}. {remedy}")]
pub struct GelCurveError {
    /// Line of the file, from 1.
    pub line: usize,
    /// What is wrong.
    pub reason: String,
    /// What to do.
    pub remedy: String,
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
                return Err(refused(
                    last_line,
                    "there are fewer than two rows of numbers".to_owned(),
                    "Write a wavelength in nm and a transmittance on each line, such as  550,0.83",
                ));
            }
        };
        if first > NEEDED_NM.0 || last < NEEDED_NM.1 {
            let (line, end) = if first > NEEDED_NM.0 {
                (rows[0].line, format!("begins at {first} nm"))
            } else {
                (last_line, format!("ends at {last} nm"))
            };
            return Err(refused(
                line,
                format!("the curve {end}"),
                "It must reach from 400 to 700 nm; measure the rest, or use a named gel.",
            ));
        }
        let (wavelengths, values) = rows.iter().map(|row| (row.nm, row.value)).unzip();
        let curve = SpectralCurve::new(wavelengths, values)
            .map_err(|error| refused(last_line, error.to_string(), "Check the numbers."))?;
        Gel::from_curve(name, curve)
            .map_err(|error| refused(last_line, error.to_string(), "Check the numbers."))
    }
}

struct Row {
    line: usize,
    nm: f64,
    value: f64,
}

fn refused(line: usize, reason: String, remedy: &str) -> GelCurveError {
    GelCurveError {
        line,
        reason,
        remedy: remedy.to_owned(),
    }
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
            return Err(refused(
                line,
                "this is not a wavelength and a transmittance".to_owned(),
                "Write two numbers parted by a comma, such as  550,0.83",
            ));
        };
        if rows.len() == MOST_ROWS {
            return Err(refused(
                line,
                format!("there are more than {MOST_ROWS} rows"),
                "One row for each nanometre is enough.",
            ));
        }
        check_row(rows.last(), line, nm, value)?;
        rows.push(Row { line, nm, value });
    }
    Ok(rows)
}

fn check_row(before: Option<&Row>, line: usize, nm: f64, value: f64) -> Result<(), GelCurveError> {
    if !(0.0..=1.0).contains(&value) {
        let (reason, remedy) = if value < 0.0 {
            (
                "no gel lets through less than nothing",
                "Take the dark reading off, and write 0 where nothing is left.",
            )
        } else {
            (
                "no gel lets through more than everything, which is 1",
                "Divide percents by 100.",
            )
        };
        return Err(refused(
            line,
            format!("a transmittance of {value}: {reason}"),
            remedy,
        ));
    }
    if !(100.0..=3000.0).contains(&nm) {
        return Err(refused(
            line,
            format!("{nm} is no wavelength of light in nm"),
            "Visible light has 380 to 780 nm.",
        ));
    }
    let Some(before) = before else { return Ok(()) };
    if nm <= before.nm {
        return Err(refused(
            line,
            format!("{nm} nm comes after {} nm", before.nm),
            "Sort the rows by wavelength, each once.",
        ));
    }
    // Outside of what the eye sees, holes do no harm.
    let (from, to) = (before.nm.max(NEEDED_NM.0), nm.min(NEEDED_NM.1));
    if to - from > WIDEST_GAP_NM {
        return Err(refused(
            line,
            format!("nothing is said between {} and {nm} nm", before.nm),
            "Give a value at least every 20 nm.",
        ));
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
            assert!(error.reason.contains(reason), "{reason}: {error}");
            assert_eq!(error.line, line, "{error}");
            assert!(!error.remedy.is_empty());
        }
    }
}
