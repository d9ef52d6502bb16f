//! What is wrong with a shoot file is said in two languages, and they say the same.

#[path = "bad/cases.rs"]
mod cases;

use cases::CASES;
use shoot::{Beside, Language, NoNeighbour, Problem, Problems, Wanted, Words};

const GOOD: &str = include_str!("bad/good.toml");

/// Files with many mistakes each, which the program is pinned to as well.
const BAD: [&str; 3] = [
    include_str!("../../app/tests/pinned/bad/contradictions.toml"),
    include_str!("../../app/tests/pinned/bad/units.toml"),
    include_str!("../../app/tests/pinned/bad/words.toml"),
];

/// Words that no German sentence has, but nearly every English one.
const ENGLISH: &[&str] = &[
    "the", "is", "are", "this", "that", "with", "and", "of", "not", "it", "its", "be", "cannot", "must",
    "here", "than", "for", "by", "can", "used", "between", "missing", "there", "only", "one", "write",
    "without", "which", "from", "to", "at", "has", "have", "or", "but", "no", "needs", "known", "belongs",
    "wall", "light", "camera", "sitter", "stop", "stops", "number", "height", "keep", "two",
];

fn problems_of(text: &str) -> Box<Problems> {
    problems_beside(text, Err(NoNeighbour::Missing))
}

/// The problems of a text that lies beside a curve, or beside the reason why there is none.
fn problems_beside(text: &str, curve: Result<String, NoNeighbour>) -> Box<Problems> {
    let wanted = Wanted::All;
    shoot::parse_beside("bad.toml", text, &Curve(curve), wanted).expect_err("a bad file")
}

/// A folder in which every file is the same curve.
#[derive(Debug)]
struct Curve(Result<String, NoNeighbour>);

impl Beside for Curve {
    fn text(&self, _: &str) -> Result<String, NoNeighbour> {
        self.0.clone()
    }
}

/// Everything that a problem says.
fn sayings(problem: &Problem, language: Language) -> Vec<String> {
    let places = problem.places().map(|(_, words)| words.in_language(language));
    let message = [problem.message(language)].into_iter();
    let all = message.chain(places).chain(problem.remedy(language));
    all.map(str::to_owned).collect()
}

/// What stands between quotes, which is the file's own and never translated.
fn quoted(text: &str) -> Vec<&str> {
    // A single one is spoken of, and quotes nothing.
    if !text.matches('"').count().is_multiple_of(2) {
        return Vec::new();
    }
    let mut found: Vec<&str> = text.split('"').skip(1).step_by(2).collect();
    found.sort_unstable();
    found
}

/// The prose of a text: without quotations, lists of known words, headings in brackets, keys with their values, and keys alone.
fn prose(text: &str) -> String {
    let unquoted: String = text.split('"').step_by(2).collect::<Vec<_>>().join("\u{fffc}");
    // Behind these words stands the notation of the file.
    let before_notation = [
        "ekannt: ",
        "ekannte: ",
        "schreiben: ",
        "schreiben, etwa ",
        "schreibt man es: ",
        "etwa  ",
        "sind etwa ",
        "Diese Datei hat: ",
    ]
    .iter()
    .filter_map(|mark| Some(unquoted.find(mark)? + mark.len()))
    .min()
    .map_or(unquoted.as_str(), |at| &unquoted[..at]);
    let mut words: Vec<&str> = before_notation.split_whitespace().collect();
    // A key and its equals sign are notation, and so is what follows them.
    while let Some(at) = words.iter().position(|word| *word == "=") {
        let is_list = words.get(at + 1).is_some_and(|value| value.starts_with('['));
        let end = words[at..].iter().position(|word| is_list && word.contains(']'));
        words.drain(at.saturating_sub(1)..(at + end.unwrap_or(1) + 1).min(words.len()));
    }
    let is_key = |word: &str| {
        let word = word.trim_matches(|c: char| !c.is_alphanumeric() && c != '_');
        shoot::parts::ALL.iter().any(|part| part.keys.contains(&word))
    };
    words.retain(|word| !word.contains('[') && !is_key(word));
    words.join(" ")
}

/// The numbers of a text in their order, with a decimal point.
fn numbers(text: &str) -> Vec<String> {
    let digits = text.split(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',')));
    let mut found: Vec<String> = digits
        .map(|number| number.trim_matches(['.', ',']).replace(',', "."))
        .filter(|number| !number.is_empty())
        .collect();
    found.sort_unstable();
    found
}

/// What is wrong with the German of a text, beside its English.
fn faults(english: &str, german: &str) -> Vec<String> {
    let mut faults = Vec::new();
    let prose = prose(german);
    let words = prose.split(|c: char| !c.is_alphabetic());
    for word in words.filter(|word| ENGLISH.contains(&word.to_lowercase().as_str())) {
        faults.push(format!("\"{word}\" is English"));
    }
    let mut letters = prose.chars().collect::<Vec<_>>();
    letters.retain(|c| !c.is_whitespace());
    let has_point = letters
        .windows(3)
        .any(|part| part[0].is_ascii_digit() && part[1] == '.' && part[2].is_ascii_digit());
    if has_point && !prose.contains("f/") {
        faults.push("a decimal point".to_owned());
    }
    if numbers(english) != numbers(german) {
        faults.push(format!("{:?} became {:?}", numbers(english), numbers(german)));
    }
    if quoted(english) != quoted(german) {
        faults.push(format!("{:?} became {:?}", quoted(english), quoted(german)));
    }
    if english.is_empty() != german.is_empty() {
        faults.push("one of them says nothing".to_owned());
    }
    let same = english == german && !self::prose(english).trim_matches('\u{fffc}').is_empty();
    if same && english.contains(' ') {
        faults.push("not translated".to_owned());
    }
    faults
        .into_iter()
        .map(|fault| format!("{fault}:\n    {english}\n    {german}"))
        .collect()
}

fn faults_of(problems: &Problems) -> Vec<String> {
    let mut faults = Vec::new();
    for problem in problems.list() {
        let said = Language::ALL.map(|language| sayings(problem, language));
        assert_eq!(said[0].len(), said[1].len(), "{said:?}");
        for (english, german) in said[0].iter().zip(&said[1]) {
            faults.extend(self::faults(english, german));
        }
    }
    faults
}

#[test]
fn both_languages_say_the_same_of_every_mistake() {
    let spoilt = CASES.iter().map(|case| {
        let text = GOOD.replacen(case.old, case.new, 1);
        let problems = problems_of(&text);
        let english = problems.render(Language::English, 10_000, false);
        let wanted = [case.message, case.help];
        assert!(
            wanted.iter().all(|words| english.contains(words)),
            "{} ({} lines below):\n{english}",
            case.name,
            case.below
        );
        problems
    });
    let files = BAD.iter().map(|text| problems_of(text));
    let mut faults: Vec<String> = spoilt.chain(files).flat_map(|found| faults_of(&found)).collect();
    faults.sort();
    faults.dedup();
    assert!(
        faults.is_empty(),
        "{} faults:\n{}",
        faults.len(),
        faults.join("\n")
    );
}

#[test]
fn both_languages_say_the_same_of_every_curve() {
    let text = GOOD.replacen(
        "[bag]\n",
        "[bag]\ngel = [{ name = \"mine\", curve = \"mine.csv\" }]\n",
        1,
    );
    let rows = |change: &dyn Fn(u32) -> String| Ok((380..=720).step_by(10).map(change).collect());
    let row_at_500 = |row: &'static str| {
        rows(&move |nm| match nm {
            500 => row.to_owned(),
            nm => format!("{nm},0.5\n"),
        })
    };
    let curves = [
        Err(NoNeighbour::Missing),
        Err(NoNeighbour::TooLarge),
        Err(NoNeighbour::NotText),
        Ok(String::new()),
        rows(&|nm| format!("{},0.5\n", nm + 100)),
        rows(&|nm| format!("{},0.5\n", nm - 100)),
        row_at_500("500 0.5\n"),
        row_at_500("500,-0.5\n"),
        row_at_500("500,1.5\n"),
        row_at_500("50,0.5\n"),
        row_at_500("480.5,0.5\n"),
        rows(&|nm| {
            if (480..520).contains(&nm) {
                String::new()
            } else {
                format!("{nm},0.5\n")
            }
        }),
    ];
    let mut told: Vec<String> = Vec::new();
    for curve in curves {
        let problems = problems_beside(&text, curve);
        let faults = faults_of(&problems);
        assert!(faults.is_empty(), "{}", faults.join("\n"));
        told.push(problems.list()[0].message(Language::German).to_owned());
    }
    let count = told.len();
    told.sort();
    told.dedup();
    assert_eq!(told.len(), count, "{told:?}");
}

#[test]
fn a_terminal_is_told_in_one_language() {
    for text in BAD {
        let problems = problems_of(text);
        let english = problems.render(Language::English, 100, false);
        let german = problems.render(Language::German, 100, false);
        assert!(
            english.contains("  help: ") && !english.contains("Hilfe"),
            "{english}"
        );
        assert!(
            german.contains("  Hilfe: ") && !german.contains("help:"),
            "{german}"
        );
        let places = |text: &str| -> Vec<String> {
            let lines = text.lines().filter(|line| line.contains("─[bad.toml:"));
            lines.map(|line| line.trim_end_matches('─').to_owned()).collect()
        };
        assert_eq!(places(&english), places(&german));
    }
}

/// The first thing that is wrong with a text, message and remedy.
fn check(old: &str, new: &str, english: [&str; 2], german: [&str; 2]) {
    assert!(GOOD.contains(old), "{old}");
    let problems = problems_of(&GOOD.replacen(old, new, 1));
    let problem = &problems.list()[0];
    for (language, [message, remedy]) in Language::ALL.into_iter().zip([english, german]) {
        assert_eq!(problem.message(language), message);
        assert_eq!(problem.remedy(language), Some(remedy));
    }
}

#[test]
fn sentences_are_german() {
    check(
        "aperture = \"f/4\"",
        "aperture = 4",
        [
            "\"aperture\" says a number, but not of what",
            "Did you mean:  aperture = \"f/4\"",
        ],
        [
            "\"aperture\" nennt eine Zahl, aber nicht wovon",
            "Ist gemeint:  aperture = \"f/4\"",
        ],
    );
    check(
        "height = \"1.5 m\"",
        "hieght = \"1.5 m\"",
        ["[camera] has no key \"hieght\"", "Did you mean \"height\"?"],
        [
            "[camera] hat keinen Schlüssel \"hieght\"",
            "Ist \"height\" gemeint?",
        ],
    );
    check(
        "height = \"1.5 m\"",
        "height = \"9.5 m\"",
        [
            "this is outside the room",
            "Heights are measured from the floor. Check this line and the size of the room.",
        ],
        [
            "das liegt außerhalb des Raums",
            "Höhen werden vom Boden aus gemessen. Diese Zeile und die Maße des Raums prüfen.",
        ],
    );
    check(
        "height = \"1.5 m\"",
        "height = \"-1 m\"",
        [
            "\"-1 m\" cannot be a height in a room",
            "Lengths are measured from the wall or the floor into the room, so they are never below zero.",
        ],
        [
            "\"-1 m\" kann keine Höhe im Raum sein",
            "Längen werden von der Wand oder vom Boden aus in den Raum gemessen, sind also nie kleiner als null.",
        ],
    );
}

#[test]
fn what_was_understood_and_assumed_is_german_too() {
    let text = GOOD.replacen("left = ", "# left = ", 1);
    let shoot = shoot::parse("good.toml", &text).unwrap_or_else(|problems| panic!("{problems}"));
    let english = shoot::summary::summary(&shoot, Language::English);
    let german = shoot::summary::summary(&shoot, Language::German);
    assert_eq!(
        english.lines().count(),
        german.lines().count(),
        "{english}\n{german}"
    );
    for heading in ["Raum  ", "Kamera  ", "Person  ", "Tasche  ", "Wunsch  "] {
        assert!(german.lines().any(|line| line.starts_with(heading)), "{german}");
    }
    for (english, german) in english.lines().zip(german.lines()) {
        assert_eq!(numbers(english), numbers(german), "{english}\n{german}");
        assert_eq!(quoted(english), quoted(german), "{english}\n{german}");
    }
    let warning = |words: &Words| {
        let said = Language::ALL.map(|language| words.in_language(language).to_owned());
        assert!(said[0].starts_with("line "), "{said:?}");
        assert!(said[1].starts_with("Zeile "), "{said:?}");
    };
    shoot.warnings.iter().for_each(warning);
}
