//! Shoot files with several set-ups: what each sees of the file, and what is told of mistakes.

mod mill;

use mill::{OWN, SHARED};
use proptest::prelude::*;
use shoot::Language;
use shoot::{Problem, Problems, Shoot};

fn file(text: &str) -> shoot::ShootFile {
    shoot::parse_file("mill.toml", text)
        .unwrap_or_else(|problems| panic!("{}", problems.render(Language::English, 100, false)))
}

fn problems(text: &str) -> Box<Problems> {
    shoot::parse_file("mill.toml", text).expect_err("a mistake")
}

fn good() -> String {
    format!("{SHARED}{OWN}")
}

#[test]
fn each_set_up_sees_its_own_parts_and_the_common_ones() {
    let file = file(&good());
    assert_eq!(file.title, "Mill");
    let said = |pick: &dyn Fn(&Shoot) -> String| file.set_ups.iter().map(pick).collect::<Vec<_>>();
    let check = |found: Vec<String>, expected: [&str; 3]| assert_eq!(found, expected);
    check(
        said(&|s| s.set_up.clone().unwrap_or_default()),
        ["alone", "together", "set-up 3"],
    );
    check(
        said(&|s| s.job.title.clone()),
        ["Mill: alone", "Mill: together", "Mill: set-up 3"],
    );
    check(said(&|s| s.job.sitters.len().to_string()), ["1", "2", "1"]);
    check(
        said(&|s| s.job.viewpoint.position.x.to_string()),
        ["2", "1.5", "2"],
    );
    check(said(&|s| s.job.ambients.len().to_string()), ["1", "1", "0"]);
    check(
        said(&|s| s.job.ask.aperture.map_or_else(String::new, |a| a.to_string())),
        ["f/4", "f/8", "f/4"],
    );
    // An own part is not mixed with the common one.
    check(
        said(&|s| s.job.ask.iso.map_or_else(String::new, |iso| iso.to_string())),
        ["ISO 400", "", "ISO 400"],
    );
}

/// A set-up means what a file of its own would mean.
#[test]
fn a_set_up_is_the_file_that_it_would_be_alone() {
    let ask = "[ask]\naperture = \"f/4\"\niso = \"ISO 400\"\n";
    let alone = SHARED.replacen(ask, "[ask]\naperture = \"f/8\"\n", 1);
    let alone = shoot::parse("mill.toml", &alone).expect("a good file");
    let within = format!("{SHARED}[[setup]]\n[setup.ask]\naperture = \"f/8\"\n");
    let within = shoot::parse("mill.toml", &within).expect("a good file");
    let untitled = |shoot: Shoot| {
        let mut job = shoot.job;
        job.title.clear();
        format!("{job:?}")
    };
    assert_eq!(untitled(alone), untitled(within));
}

#[test]
fn one_set_up_is_found_by_name_or_number() {
    let text = good();
    let check = |called: &str, expected: &str| {
        let shoot = shoot::parse_called("mill.toml", &text, called).expect("a good set-up");
        assert_eq!(shoot.set_up.as_deref(), Some(expected), "{called}");
    };
    check("together", "together");
    check("Together", "together");
    check("2", "together");
    check("set-up 3", "set-up 3");
    check("3", "set-up 3");
    for wrong in ["0", "4", "-1", "", "togehter"] {
        let wrong = shoot::parse_called("mill.toml", &text, wrong).expect_err("no such set-up");
        let remedy = wrong.list()[0].remedy(Language::English).expect("a remedy");
        assert!(
            remedy.contains("1 \"alone\", 2 \"together\", 3 \"set-up 3\""),
            "{remedy}"
        );
    }
    assert!(shoot::parse_set_up("mill.toml", &text, 3).is_err());
    // A file without set-ups is its own first one.
    assert_eq!(
        shoot::parse_set_up("mill.toml", SHARED, 0)
            .expect("a good file")
            .set_up,
        None
    );
    assert!(shoot::parse_called("mill.toml", SHARED, "1").is_ok());
    assert!(shoot::parse_called("mill.toml", SHARED, "2").is_err());
}

/// One mistake: what is replaced, what stands there instead, its line from the start of that, what must be said, and
/// the remedy.
#[test]
fn every_mistake_is_told_once_at_its_line_with_a_remedy() {
    let check = |old: &str, new: &str, below: usize, message: &str, remedy: &str| {
        let good = good();
        let at = good.find(old).unwrap_or_else(|| panic!("{old} is not there"));
        let found = problems(&good.replacen(old, new, 1));
        let list: Vec<String> = found
            .list()
            .iter()
            .map(|p| {
                format!(
                    "{:?} {}: {}",
                    p.place(),
                    p.message(Language::English),
                    p.remedy(Language::English).unwrap_or_default()
                )
            })
            .collect();
        assert_eq!(found.list().len(), 1, "{new}: {list:#?}");
        let problem = &found.list()[0];
        assert!(
            problem.message(Language::English).contains(message),
            "{new}: {list:?}"
        );
        assert!(
            problem
                .remedy(Language::English)
                .is_some_and(|text| text.contains(remedy)),
            "{new}: {list:?}"
        );
        let line = 1 + good[..at].matches('\n').count() + below;
        assert_eq!(
            problem.place().map(|(line, _)| line),
            Some(line),
            "{new}: {list:?}"
        );
    };
    // A common part that three set-ups read is complained about once.
    check(
        "left = \"white paint\"",
        "left = \"wite paint\"",
        0,
        "not a surface",
        "white paint",
    );
    check(
        "from_behind = \"1.5 m\"",
        "from_behnd = \"1.5 m\"",
        0,
        "[camera] has no key",
        "from_behind",
    );
    check("iso = \"ISO 400\"", "iso = 400", 0, "not of what", "ISO 400");
    // What stands in a set-up is called by its whole heading.
    check(
        "from_behind = \"1.0 m\"",
        "from_behnd = \"1.0 m\"",
        0,
        "[setup.camera] has no key",
        "from_behind",
    );
    check(
        "[setup.camera]",
        "[[setup.camera]]",
        0,
        "there is only one [setup.camera]",
        "[setup.camera]",
    );
    check(
        "[setup.camera]",
        "[setup.kamera]",
        0,
        "[[setup]] has no key \"kamera\"",
        "Did you mean \"camera\"?",
    );
    check(
        "name = \"together\"",
        "title = \"together\"",
        0,
        "[[setup]] has no key \"title\"",
        "\"name\"",
    );
    check(
        "name = \"together\"",
        "name = \"Alone\"",
        0,
        "two set-ups with the name",
        "its own name",
    );
    check(
        "name = \"together\"",
        "name = \"set-up 3\"",
        14,
        "two set-ups with the name",
        "its own name",
    );
    check(
        "name = \"together\"",
        "name = \" \"",
        0,
        "a name cannot be empty",
        "what you call it",
    );
    check(
        "name = \"together\"",
        "name = 2",
        0,
        "needs a name in quotes",
        "Write it like",
    );
    check("aperture = \"f/8\"", "aperture = \"8\"", 0, "is not", "f/8");
    check(
        "[[setup]]\nambient = []",
        "[[setup]]\nsitter = []",
        0,
        "no part [[setup.sitter]]",
        "above the first set-up",
    );
    check(
        "ambient = []",
        "shoot = \"Mill\"",
        0,
        "[[setup]] has no key \"shoot\"",
        "name",
    );
}

#[test]
fn the_list_of_set_ups_must_be_one() {
    let check = |own: &str, message: &str| {
        let found = problems(&format!("{SHARED}{own}"));
        assert!(
            found.list()[0].message(Language::English).contains(message),
            "{found}"
        );
        assert_eq!(found.list().len(), 1, "{found:?}");
    };
    check("[setup]\nname = \"a\"\n", "[[setup]] needs two brackets");
    check(&"[[setup]]\n".repeat(41), "more than 40 set-ups");
    // Above the headings it is a key of the file.
    let within = problems(&format!("setup = 3\n{SHARED}"));
    assert!(
        within.list()[0]
            .message(Language::English)
            .contains("needs two brackets"),
        "{within}"
    );
    assert_eq!(
        file(&format!("{SHARED}{}", "[[setup]]\n".repeat(40)))
            .set_ups
            .len(),
        40
    );
    assert_eq!(file(&format!("setup = []\n{SHARED}")).set_ups.len(), 1);
}

#[test]
fn a_part_that_is_missing_everywhere_is_told_once() {
    let without = good().replacen(
        "[[sitter]]\nname = \"Kim\"\nfrom_left = \"2.0 m\"\nfrom_behind = \"3.6 m\"\n",
        "",
        1,
    );
    // The second set-up has sitters of its own, the others do not.
    let some = problems(&without);
    let places: Vec<_> = some.list().iter().map(|p| p.place().is_some()).collect();
    assert_eq!(places, [true, true], "{some:?}");
    assert!(
        some.list()[0]
            .message(Language::English)
            .contains("the set-up \"alone\" has no part [[setup.sitter]]")
    );
    let none = problems(&format!(
        "{}[[setup]]\n[[setup]]\n",
        SHARED.replacen("[camera]", "[camra]", 1)
    ));
    assert_eq!(none.list().len(), 1, "{none:?}");
    let bare = problems("shoot = \"x\"\n[[setup]]\n[[setup]]\n");
    let said: Vec<&str> = bare.list().iter().map(|p| p.message(Language::English)).collect();
    assert_eq!(
        said,
        [
            "the part [place] is missing",
            "the part [camera] is missing",
            "the part [[sitter]] is missing"
        ]
    );
}

#[test]
fn common_parts_may_be_incomplete_where_each_set_up_is_complete() {
    let own = "[[setup]]\n[setup.camera]\nfrom_left = \"2.0 m\"\nfrom_behind = \"1.0 m\"\n".repeat(2);
    let text = format!("{}{own}", SHARED.replacen("from_behind = \"1.5 m\"\n", "", 1));
    let file = file(&text);
    assert_eq!(file.set_ups.len(), 2);
    for set_up in &file.set_ups {
        assert_eq!(set_up.warnings.len(), 1, "{:?}", set_up.warnings);
        assert!(
            set_up.warnings[0]
                .in_language(Language::English)
                .starts_with("line 10: every set-up has its own \"camera\"")
        );
    }
}

#[test]
fn a_broken_set_up_does_not_hinder_the_others() {
    let broken = good().replacen("aperture = \"f/8\"", "aperture = \"eight\"", 1);
    assert!(shoot::parse_file("mill.toml", &broken).is_err());
    for (index, expected) in [(0, true), (1, false), (2, true)] {
        assert_eq!(
            shoot::parse_set_up("mill.toml", &broken, index).is_ok(),
            expected,
            "{index}"
        );
    }
}

#[test]
fn feet_and_metres_do_not_mix_across_set_ups() {
    let own = "[[setup]]\n[[setup]]\n[setup.camera]\nfrom_left = \"6 ft\"\nfrom_behind = \"4 ft\"\n";
    let found = problems(&format!("{SHARED}{own}"));
    assert!(
        found.list()[0]
            .message(Language::English)
            .contains("mixes metres and feet"),
        "{found:?}"
    );
    assert_eq!(found.list().len(), 1, "{found:?}");
}

/// Every place that a problem points at: first byte and length.
fn places(problem: &Problem) -> Vec<(usize, usize)> {
    problem
        .places()
        .map(|(span, _)| (span.start, span.len()))
        .collect()
}

/// Reading all set-ups says of each what reading it alone says.
fn agrees(text: &str) -> Result<(), TestCaseError> {
    match shoot::parse_file("fuzz.toml", text) {
        Ok(file) => {
            for (index, whole) in file.set_ups.iter().enumerate() {
                let alone = shoot::parse_set_up("fuzz.toml", text, index);
                let alone = alone.map_err(|problems| TestCaseError::fail(problems.to_string()))?;
                prop_assert_eq!(format!("{:?}", alone.job), format!("{:?}", whole.job));
                prop_assert_eq!(&alone.warnings, &whole.warnings);
            }
            prop_assert!(shoot::parse_set_up("fuzz.toml", text, file.set_ups.len()).is_err());
        }
        Err(problems) => {
            prop_assert!(!problems.list().is_empty());
            // The same words at the same place may be two problems: one sitter behind the cameras of two set-ups.
            let mut told: Vec<_> = problems
                .list()
                .iter()
                .map(|p| (p.message(Language::English), places(p)))
                .collect();
            let count = told.len();
            told.dedup();
            prop_assert_eq!(told.len(), count);
            for problem in problems.list() {
                prop_assert!(
                    problem.remedy(Language::English).is_some(),
                    "no remedy: {}",
                    problem.message(Language::English)
                );
            }
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn lines_in_any_order_never_panic(swaps in prop::collection::vec((0usize..60, 0usize..60), 0..4), cut in prop::option::of(0usize..60)) {
        let text = good();
        let mut lines: Vec<&str> = text.lines().collect();
        for (a, b) in swaps {
            let count = lines.len();
            lines.swap(a % count, b % count);
        }
        if let Some(cut) = cut {
            lines.remove(cut % lines.len());
        }
        agrees(&lines.join("\n"))?;
    }

    #[test]
    fn headings_of_any_kind_never_panic(line in 0usize..60, heading in "\\[{0,2}(setup|setup\\.|ask|setup\\.ask|setup\\.sitter|x)?\\]{0,2}( = \\[\\]| = 3)?") {
        let text = good();
        let mut lines: Vec<&str> = text.lines().collect();
        let at = line % lines.len();
        lines[at] = &heading;
        agrees(&lines.join("\n"))?;
    }
}

/// The built-in example begins with the band room as it is told by itself, and has the bandstand in it.
#[test]
fn the_demo_holds_the_examples_that_it_takes_up() {
    let demo = file(shoot::DEMO);
    assert_eq!(demo.title, "Brass band, winter concert");
    assert_eq!(demo.set_ups.len(), 5);
    let untitled = |shoot: &Shoot| {
        let mut job = shoot.job.clone();
        job.title.clear();
        format!("{job:?}")
    };
    let alone = |text: &str| untitled(&shoot::parse("alone.toml", text).expect("a good example"));
    let band_room = include_str!("../../../examples/band-room.toml");
    let bandstand = include_str!("../../../examples/bandstand-dusk.toml");
    assert_eq!(untitled(&demo.set_ups[0]), alone(band_room));
    assert_eq!(untitled(&demo.set_ups[3]), alone(bandstand));
    let faces = demo.set_ups[1].job.sitters.iter();
    let skins: Vec<f32> = faces.map(|sitter| sitter.colours.skin.mean()).collect();
    assert_eq!(skins.len(), 9);
    let (least, most) = (
        skins.iter().fold(1.0f32, |a, b| a.min(*b)),
        skins.iter().fold(0.0f32, |a, b| a.max(*b)),
    );
    assert!(
        most > 3.0 * least,
        "two very different skins stand together: {skins:?}"
    );
}
