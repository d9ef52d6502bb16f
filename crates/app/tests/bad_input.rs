//! Wrong shoot files: each must be refused by the real program with exit code 2, at the right line, with a
//! remedy, in well under a second, and without a panic.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::time::{Duration, Instant};

/// A file without mistakes; every case spoils one thing in it.
const GOOD: &str = include_str!("../../shoot/tests/bad/good.toml");

/// No wrong file may take longer than this, the start of the program included.
const LONGEST: Duration = Duration::from_secs(1);

/// A folder of our own that goes when the test ends.
struct Folder(PathBuf);

impl Folder {
    fn new(name: &str) -> Self {
        let path = std::env::temp_dir().join(format!("rushlight-{name}-{}", std::process::id()));
        fs::create_dir_all(&path).expect("a temporary folder");
        Folder(path)
    }

    fn file(&self, name: &str, bytes: &[u8]) -> PathBuf {
        let path = self.0.join(name);
        fs::write(&path, bytes).expect("a writable folder");
        path
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

/// Runs `rushlight check` and gives what it printed and how long it took.
fn check(path: &Path) -> (Output, Duration) {
    let start = Instant::now();
    let output = Command::new(env!("CARGO_BIN_EXE_rushlight"))
        .arg("check")
        .arg(path)
        .output()
        .expect("the program runs");
    (output, start.elapsed())
}

/// What the program said, without the frame of the snippets and with single spaces, so that a wrapped line is
/// still one sentence.
fn said(output: &Output) -> String {
    let text = String::from_utf8_lossy(&output.stderr);
    let plain: String = text
        .chars()
        .map(|c| {
            if "│╭╰─┬·╯╮▲".contains(c) {
                ' '
            } else {
                c
            }
        })
        .collect();
    plain.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Complaints about one refusal, none if it is as it should be.
fn faults(path: &Path, phrases: &[&str]) -> Vec<String> {
    let (output, took) = check(path);
    let said = said(&output);
    let mut faults = Vec::new();
    if output.status.code() != Some(2) {
        faults.push(format!("exit code {:?} instead of 2", output.status.code()));
    }
    if said.contains("panicked") {
        faults.push("it panicked".to_owned());
    }
    if took > LONGEST {
        faults.push(format!("it took {took:?}"));
    }
    faults.extend(
        phrases
            .iter()
            .filter(|phrase| !said.contains(**phrase))
            .map(|phrase| format!("does not say: {phrase}")),
    );
    if !faults.is_empty() {
        faults.push(format!("it said: {said}"));
    }
    faults
}

/// One mistake: the text that is replaced, what stands there instead, and what must be said of it.
struct Case {
    name: &'static str,
    old: &'static str,
    new: &'static str,
    /// Lines from the start of `new` to the line that must be named.
    below: usize,
    message: &'static str,
    help: &'static str,
}

const fn case(
    name: &'static str,
    old: &'static str,
    new: &'static str,
    below: usize,
    message: &'static str,
    help: &'static str,
) -> Case {
    Case {
        name,
        old,
        new,
        below,
        message,
        help,
    }
}

#[rustfmt::skip]
const CASES: &[Case] = &[
    // Keys.
    case("unknown key", "height = \"1.5 m\"", "hieght = \"1.5 m\"", 0, "[camera] has no key \"hieght\"", "Did you mean \"height\"?"),
    case("everyday key", "aperture = \"f/4\"", "f_stop = \"f/4\"", 0, "[ask] has no key \"f_stop\"", "Did you mean \"aperture\"?"),
    case("key of another part", "lens = \"85 mm\"", "lens = \"85 mm\"\nassistant = true", 1, "[camera] has no key \"assistant\"", "belongs under [bag]"),
    case("unknown part", "[camera]", "[kamera]", 0, "the file has no key \"kamera\"", "Did you mean \"camera\"?"),
    case("key above the parts", "shoot = \"Workshop\"", "shoot = \"Workshop\"\niso = \"ISO 400\"", 1, "no key \"iso\"", "belongs under [camera]"),
    case("unknown inline key", "{ name = \"shed\", reflectance = 0.3 }", "{ name = \"shed\", reflektance = 0.3 }", 0, "a surface has no key \"reflektance\"", "Did you mean \"reflectance\"?"),
    case("missing room", "room = \"6.0 x 4.0 x 2.5 m\"\n", "", 0, "[place] has no \"room\"", "room = \"5.5 x 4.4 x 2.6 m\""),
    case("missing distance", "from_behind = \"1.5 m\"\n", "", 0, "[camera] has no \"from_behind\"", "from_behind = \"2.0 m\""),
    case("missing opening size", "size = \"1.5 x 1.2 m\"\n", "", 0, "[[place.opening]] has no \"size\"", "size = \"1.2 x 1.4 m\""),
    case("missing reading", "reading = \"EV 5\"\n", "", 0, "[[ambient]] has no \"reading\"", "reading = \"EV 5\""),
    case("single brackets", "[[sitter]]", "[sitter]", 0, "[[sitter]] needs two brackets", "Write the heading as [[sitter]]"),
    case("double brackets", "[camera]", "[[camera]]", 0, "there is only one [camera]", "single brackets: [camera]"),
    case("part as value", "[ask]", "[[ask]]", 0, "there is only one [ask]", "single brackets: [ask]"),
    // TOML.
    case("no quotes", "height = \"1.5 m\"", "height = 1.5 m", 0, "\"height\" is not in quotes", "height = \"1.5 m\""),
    case("half quotes", "height = \"1.5 m\"", "height = \"1.5 m", 0, "a quotation mark is missing", "height = \"1.5 m\""),
    case("curly quotes", "height = \"1.5 m\"", "height = “1.5 m”", 0, "curly ones of a word processor", "Use the straight one"),
    case("no value", "height = \"1.5 m\"", "height =", 0, "\"height\" says nothing", "after the equals sign"),
    case("no equals sign", "height = \"1.5 m\"", "height \"1.5 m\"", 0, "neither a heading nor", "key = \"value\""),
    case("open heading", "[camera]", "[camera", 0, "this heading is not complete", "[camera]"),
    case("said twice", "lens = \"85 mm\"", "lens = \"85 mm\"\nlens = \"50 mm\"", 1, "\"lens\" is said twice", "Keep one of the two"),
    case("part twice", "[bag]", "[camera]\nlens = \"50 mm\"\n[bag]", 0, "is there twice", "under the first heading"),
    case("open list", "guide_numbers = [\"GN 24 m at zoom 24 (measured)\", \"GN 50 m at zoom 105 (measured)\"]", "guide_numbers = [\"GN 24 m at zoom 24 (measured)\"", 0, "this bracket is never closed", "after the last item"),
    case("missing comma", "(measured)\", \"GN 50", "(measured)\" \"GN 50", 0, "a comma or a closing bracket is missing", "with commas between them"),
    case("open table", "{ name = \"shed\", reflectance = 0.3 }", "{ name = \"shed\", reflectance = 0.3", 0, "this bracket is never closed", "Put a } after"),
    case("remark after a bare value", "height = \"1.5 m\"", "height = 1.5 m # “chest”", 0, "is not in quotes", "height = \"1.5 m\""),
    case("escape in a name", "name = \"Kim\"", "name = \"Kim\\u001b[31m\"", 0, "invisible control character", "begins with a backslash"),
    case("turned reading direction", "name = \"Kim\"", "name = \"Kim\u{202e}\"", 0, "invisible control character", "Delete it"),
    case("line break in a name", "name = \"Kim\"", "name = \"\"\"Kim\nLee\"\"\"", 0, "invisible control character", "or the line break"),
    // Units and numbers.
    case("bare number", "height = \"1.5 m\"", "height = 1.5", 0, "\"height\" says a number, but not of what", "height = \"1.5 m\""),
    case("number without unit", "height = \"1.5 m\"", "height = \"1.5\"", 0, "the unit is missing", "height = \"1.5 m\""),
    case("wrong unit", "height = \"1.5 m\"", "height = \"1.5 kg\"", 0, "\"kg\" is not a unit of length", "2.6 m, 260 cm"),
    case("decimal comma", "height = \"1.5 m\"", "height = \"1,5 m\"", 0, "decimals are written with a point", "height = \"1.5 m\""),
    case("negative length", "height = \"1.5 m\"", "height = \"-1.5 m\"", 0, "cannot be a height in a room", "never below zero"),
    case("not a number", "height = \"1.5 m\"", "height = nan", 0, "not an ordinary number", "2.6 m"),
    case("infinite", "age = 40", "age = inf", 0, "needs an age in years", "age = 35"),
    case("huge", "height = \"1.5 m\"", "height = \"1e300 m\"", 0, "is not a length", "2.6 m"),
    case("huge in digits", "height = \"1.5 m\"", "height = \"99999999999999999999 m\"", 0, "cannot be a height", "decimal point"),
    case("list for a length", "height = \"1.5 m\"", "height = [1, 2]", 0, "\"height\" needs a length", "height = \"2.0 m\""),
    case("words for a length", "height = \"1.5 m\"", "height = \"chest high\"", 0, "is not a length", "2.6 m"),
    case("metres and feet", "height = \"1.5 m\"", "height = \"5 ft\"", 0, "mixes metres and feet", "in metres too"),
    case("two numbers for a room", "room = \"6.0 x 4.0 x 2.5 m\"", "room = \"6.0 x 4.0 m\"", 0, "\"room\" needs three numbers", "5.5 x 4.4 x 2.6 m"),
    case("room in millimetres", "room = \"6.0 x 4.0 x 2.5 m\"", "room = \"6000 x 4000 x 2500 m\"", 0, "one side is 6000 m", "decimal point"),
    case("aperture without f", "aperture = \"f/4\"", "aperture = \"4\"", 0, "it must begin with f/", "aperture = \"f/4\""),
    case("aperture as number", "aperture = \"f/4\"", "aperture = 4", 0, "\"aperture\" says a number", "aperture = \"f/4\""),
    case("impossible aperture", "aperture = \"f/4\"", "aperture = \"f/4000\"", 0, "not possible as an f-number", "f/5.6"),
    case("iso as number", "iso = \"ISO 400\"", "iso = 400", 0, "\"iso\" says a number", "iso = \"ISO 400\""),
    case("shutter as number", "iso = \"ISO 400\"", "iso = \"ISO 400\"\nshutter = 160", 1, "\"shutter\" says a number", "shutter = \"1/160\""),
    case("lens without unit", "lens = \"85 mm\"", "lens = \"85\"", 0, "the unit is missing", "lens = \"85 mm\""),
    case("reading without EV", "reading = \"EV 5\"", "reading = \"5\"", 0, "the letters EV are missing", "reading = \"EV 5\""),
    case("kelvin without K", "colour = \"2700 K\"", "colour = 2700", 0, "\"colour\" says a number", "colour = \"2700 K\""),
    case("colour of nothing", "colour = \"2700 K\"", "colour = \"1200 K\"", 0, "not the colour of any lamp", "Candles"),
    case("reading of the sun's surface", "reading = \"EV 5\"", "reading = \"EV 30\"", 0, "not a light level", "EV 5"),
    case("reversed iso range", "iso = \"100 to 3200\"", "iso = \"3200 to 100\"", 0, "wrong way round", "iso = \"100 to 3200\""),
    case("no range", "iso = \"100 to 3200\"", "iso = \"many\"", 0, "not a range of ISO", "100 to 6400"),
    case("slow sync", "sync = \"1/200\"", "sync = \"1 s\"", 0, "no camera has this sync speed", "1/200"),
    case("endless lens", "lens = \"85 mm\"", "lens = \"2000 mm\"", 0, "no portrait is made with this lens", "85 mm"),
    case("yes for true", "assistant = true", "assistant = \"yes\"", 0, "either true or false", "assistant = true"),
    // Words.
    case("unknown surface", "left = \"white paint\"", "left = \"wite paint\"", 0, "not a surface that is known", "Did you mean \"white paint\"?"),
    case("undescribed surface", "left = \"white paint\"", "left = \"moon dust\"", 0, "not a surface that is known", "rgb = [0.45, 0.16, 0.12]"),
    case("picture values", "left = \"white paint\"", "left = { name = \"x\", rgb = [200, 120, 100] }", 0, "how much of the light comes back", "values from a picture"),
    case("more than all light", "reflectance = 0.3", "reflectance = 1.3", 0, "cannot be the part of the light", "reflectance = 0.4"),
    case("colour and grey", "reflectance = 0.3", "reflectance = 0.3, rgb = [0.1, 0.1, 0.1]", 0, "not both", "Keep rgb for a coloured surface"),
    case("two numbers for rgb", "reflectance = 0.3", "rgb = [0.1, 0.1]", 0, "three plain numbers", "rgb = [0.45, 0.16, 0.12]"),
    case("unknown wall", "wall = \"right\"", "wall = \"rihgt\"", 0, "not known as a wall", "Did you mean \"right\"?"),
    case("opening in the ceiling", "wall = \"right\"", "wall = \"ceiling\"", 0, "not known as a wall", "behind camera"),
    case("unknown opening kind", "kind = \"window\"", "kind = \"windows\"", 0, "not known as a kind of opening", "Did you mean \"window\"?"),
    case("unknown skin", "skin = \"tan\"", "skin = \"purple\"", 0, "not known as a skin tone", "very light, light"),
    case("unknown figure", "figure = \"woman\"", "figure = \"womam\"", 0, "not known as a figure", "Did you mean \"woman\"?"),
    case("unknown direction", "faces = \"camera\"", "faces = \"14 o'clock\"", 0, "not a direction to look in", "7 o'clock"),
    case("unknown pattern", "key = \"loop\"", "key = \"lopp\"", 0, "not known as a pattern", "Did you mean \"loop\"?"),
    case("unknown illuminant", "colour = \"2700 K\"", "illuminant = \"FL99\"", 0, "not known as a standard illuminant", "FL2"),
    case("unknown opening for light", "colour = \"2700 K\"", "colour = \"2700 K\"\nfrom = \"windw\"", 1, "not known as an opening", "Did you mean \"window\"?"),
    case("unknown metering", "metered = \"towards the camera\"", "metered = \"sideways\"", 0, "not known as a way to meter", "towards the light"),
    case("too young", "age = 40", "age = 1", 0, "1 cannot be an age in years", "age = 35"),
    case("unknown ambient wish", "ambient = \"out\"", "ambient = \"gone\"", 0, "not known as a wish for the ambient light", "out, any"),
    case("ambient without sign", "ambient = \"out\"", "ambient = \"2 stops\"", 0, "could mean darker or brighter", "-2 stops"),
    case("ambient far too bright", "ambient = \"out\"", "ambient = \"+9 stops\"", 0, "is not a picture", "ambient = \"out\""),
    case("negative in hand", "in_hand = \"1 stop\"", "in_hand = \"-1 stop\"", 0, "less than nothing", "in_hand = \"1 stop\""),
    case("azimuth too far", "key = \"loop\"", "key = { azimuth = \"200 deg\" }", 0, "cannot be an azimuth", "from the nose"),
    case("key without azimuth", "key = \"loop\"", "key = { elevation = \"20 deg\" }", 0, "the key has no \"azimuth\"", "azimuth = \"45 deg\""),
    case("odd power", "least_power = \"1/128\"", "least_power = \"1/100\"", 0, "is not a step of a flash", "1/4 +0.3"),
    case("guide number without unit", "\"GN 24 m at zoom 24 (measured)\"", "\"GN 24 at zoom 24 (measured)\"", 0, "metres or feet", "GN 36 m at zoom 50"),
    case("no guide numbers", "guide_numbers = [\"GN 24 m at zoom 24 (measured)\", \"GN 50 m at zoom 105 (measured)\"]", "guide_numbers = []", 0, "list of guide numbers is empty", "GN 36 m"),
    case("falling guide numbers", "GN 50 m at zoom 105", "GN 20 m at zoom 105", 0, "the guide number falls", "mistyped"),
    case("one zoom twice", "GN 50 m at zoom 105", "GN 50 m at zoom 24", 0, "two guide numbers are given for zoom 24", "Keep one"),
    case("impossible total", "least_power = \"1/128\"", "total_light = \"40000 m2 sr\"", 0, "the total light does not go with", "Leave total_light out"),
    case("total without unit", "least_power = \"1/128\"", "total_light = 700", 0, "says a number, but not of what", "700 m2 sr"),
    case("orange flash", "least_power = \"1/128\"", "colour = \"3200 K\"", 0, "no flash has this colour", "without any gel"),
    // Contradictions.
    case("aperture and depth", "aperture = \"f/4\"", "aperture = \"f/4\"\ndepth = \"0.3 m\"", 1, "aperture and depth are both given", "Keep one"),
    case("shutter beyond sync", "iso = \"ISO 400\"", "iso = \"ISO 400\"\nshutter = \"1/500\"", 1, "faster than the sync speed", "1/200 or slower"),
    case("lens too slow", "aperture = \"f/4\"", "aperture = \"f/1.4\"", 0, "the lens does not open to f/1.4", "f/2.8 or smaller"),
    case("iso beyond body", "iso = \"ISO 400\"", "iso = \"ISO 12800\"", 0, "outside the range of the camera", "within the range"),
    case("two sides", "from = \"left\"", "from = \"left and right\"", 0, "two sides at once", "There is one flash"),
    case("two sides in two places", "key = \"loop\"", "key = \"loop from right\"", 1, "two sides at once", "Keep one of the two"),
    case("too much in hand", "in_hand = \"1 stop\"", "in_hand = \"9 stops\"", 0, "more than the whole range of the flash", "One stop in hand is usual"),
    case("kind and numbers", "least_power = \"1/128\"", "kind = \"medium\"", 0, "either a kind or guide numbers", "Keep guide_numbers"),
    case("claimed and measured", "zoom 105 (measured)", "zoom 105 (claimed)", 0, "cannot be mixed", "Keep the measured ones"),
    case("illuminant and kelvin", "colour = \"2700 K\"", "colour = \"2700 K\"\nilluminant = \"FL2\"", 0, "already fixes the colour", "Keep one of the two"),
    case("fixed exposure", "iso = \"ISO 400\"\nkey = \"loop\"\nfrom = \"left\"\nambient = \"out\"", "iso = \"ISO 400\"\nshutter = \"1/4\"\nambient = \"-1 stop\"", 2, "are all fixed, and put the ambient light at", "Leave out one of"),
    // Open sides and daylight.
    case("nothing to stand on", "floor = \"concrete\"", "floor = \"open\"", 0, "there must be something to stand on", "floor = \"grass\""),
    case("daylight with a lamp", "colour = \"2700 K\"", "from = \"sky\"\nlumen = 800", 1, "belongs to a lamp, and this is daylight", "Leave the line out"),
    // Zones, filters and later light.
    case("misspelt zone", "[bag]", "[[zon]]\nname = \"sky\"\nreading = \"EV 10\"\n[bag]", 0, "the file has no key \"zon\"", "Did you mean \"zone\"?"),
    case("zone in single brackets", "[bag]", "[zone]\nname = \"sky\"\nreading = \"EV 10\"\n[bag]", 0, "[[zone]] needs two brackets", "Write the heading as [[zone]]"),
    case("zone without a level", "[bag]", "[[zone]]\nname = \"sky\"\n[bag]", 0, "[[zone]] has no \"normal_at\"", "f/4 1/200 ISO 100"),
    case("zone with two levels", "[bag]", "[[zone]]\nname = \"sky\"\nreading = \"EV 10\"\nnormal_at = \"f/4 1/200 ISO 100\"\n[bag]", 2, "normal_at and reading are both given", "Keep one"),
    case("zone without a shutter", "[bag]", "[[zone]]\nnormal_at = \"f/4 ISO 100\"\n[bag]", 1, "is not aperture, shutter and ISO", "f/4 1/200 ISO 100"),
    case("zone settings in disorder", "[bag]", "[[zone]]\nnormal_at = \"ISO 100 1/200 f/4\"\n[bag]", 1, "is not aperture, shutter and ISO", "f/4 1/200 ISO 100"),
    case("zone settings as number", "[bag]", "[[zone]]\nnormal_at = 4\n[bag]", 1, "\"normal_at\" needs aperture, shutter and ISO in quotes", "f/4 1/200 ISO 100"),
    case("zone reading without EV", "[bag]", "[[zone]]\nreading = \"11\"\n[bag]", 1, "the letters EV are missing", "reading = \"EV 11\""),
    case("zone like a star", "[bag]", "[[zone]]\nreading = \"EV 30\"\n[bag]", 0, "is not a light level that can be worked with", "EV 15"),
    case("two zones of one name", "[bag]", "[[zone]]\nname = \"sky\"\nreading = \"EV 10\"\n[[zone]]\nname = \"sky\"\nreading = \"EV 9\"\n[bag]", 4, "\"sky\"", "name"),
    case("wish for no zone", "in_hand = \"1 stop\"", "zone = { name = \"sky\", at = \"-1 stop\" }", 0, "there is no zone \"sky\"", "Describe it under [[zone]]"),
    case("wish for a misspelt zone", "in_hand = \"1 stop\"", "zone = { name = \"skky\", at = \"-1 stop\" }\n[[zone]]\nname = \"sky\"\nreading = \"EV 10\"", 0, "there is no zone \"skky\"", "Did you mean \"sky\"?"),
    case("two wishes for a zone", "in_hand = \"1 stop\"", "zone = [{ name = \"sky\", at = \"-1 stop\" }, { name = \"sky\", at = \"-2 stops\" }]\n[[zone]]\nname = \"sky\"\nreading = \"EV 10\"", 0, "two wishes for the zone", "Keep one"),
    case("wish without a zone", "in_hand = \"1 stop\"", "zone = { at = \"-1 stop\" }", 0, "a wish for a zone has no \"name\"", "name = \"sky\""),
    case("wish without a level", "in_hand = \"1 stop\"", "zone = { name = \"sky\" }", 0, "a wish for a zone has no \"at\"", "at = \"-1 stop\""),
    case("wish without a sign", "in_hand = \"1 stop\"", "zone = { name = \"sky\", at = \"1 stop\" }", 0, "could mean darker or brighter", "-1 stop"),
    case("wish for a black hole", "in_hand = \"1 stop\"", "zone = { name = \"sky\", at = \"-12 stops\" }", 0, "a zone at -12 stops is not a picture", "three make it night"),
    case("wish in words", "in_hand = \"1 stop\"", "zone = \"sky darker\"", 0, "says which zone and where it should be", "zone = { name = \"sky\", at = \"-1 stop\" }"),
    case("filter as number", "assistant = true", "nd = [3]", 0, "\"nd\" says a number", "3 stops"),
    case("filter by its factor", "assistant = true", "nd = [\"64 stops\"]", 0, "not possible as a difference in stops", "like -1.3 or +1 stop"),
    case("filter that brightens", "assistant = true", "nd = [\"-3 stops\"]", 0, "there is no ND filter of -3 stops", "without a sign"),
    case("filter in words", "assistant = true", "nd = \"strong\"", 0, "is not a difference in stops", "+1 stop"),
    case("reversed aperture range", "aperture = \"f/4\"", "aperture = \"f/4 to f/2.8\"", 0, "range of apertures is the wrong way round", "aperture = \"f/2.8 to f/4\""),
    case("aperture range of one", "aperture = \"f/4\"", "aperture = \"f/4 to wide\"", 0, "is not a range of apertures", "f/2 to f/3.2"),
    case("aperture range beyond the lens", "aperture = \"f/4\"", "aperture = \"f/1.4 to f/2\"", 0, "the lens does not open to f/2", "widest"),
    case("later without a change", "[bag]", "[[later]]\nname = \"at dusk\"\n[bag]", 0, "[[later]] has no \"ambient\"", "2 stops down"),
    case("later without a sign", "[bag]", "[[later]]\nambient = \"2 stops\"\n[bag]", 1, "could mean darker or brighter", "-2 stops"),
    case("later at midnight", "[bag]", "[[later]]\nambient = \"12 stops down\"\n[bag]", 1, "is another picture", "before sunset"),
    case("later as number", "[bag]", "[[later]]\nambient = -2\n[bag]", 1, "\"ambient\" says a number", "2 stops"),
    case("umbrella as number", "least_power = \"1/128\"", "umbrella = 1.7", 0, "\"umbrella\" says a number", "stops"),
    case("umbrella that brightens", "least_power = \"1/128\"", "umbrella = \"-1.7 stops\"", 0, "no umbrella or softbox costs", "without a sign"),
    case("umbrella like a tent", "least_power = \"1/128\"", "umbrella = { loss = \"1.7 stops\", size = \"9 m\" }", 0, "9 m", "width"),
    case("softbox without a loss", "least_power = \"1/128\"", "softbox = { size = \"0.6 m\" }", 0, "an umbrella or softbox has no \"loss\"", "loss = \"1.7 stops\""),
    // Help and stand.
    case("helpers in words", "assistant = true", "helpers = \"two\"", 0, "needs a number of people who can help", "helpers = 2"),
    case("a crowd of helpers", "assistant = true", "helpers = 12", 0, "12 cannot be a number of people who can help", "helpers = 2"),
    case("half a helper", "assistant = true", "helpers = 1.5", 0, "1.5 cannot be a number of people", "helpers = 1"),
    case("helpers below nothing", "assistant = true", "helpers = -1", 0, "-1 cannot be a number of people", "helpers = 2"),
    case("misspelt helpers", "assistant = true", "helper = 2", 0, "[bag] has no key \"helper\"", "Did you mean \"helpers\"?"),
    case("assistant and helpers", "assistant = true", "assistant = true\nhelpers = 2", 1, "assistant and helpers are both given", "Keep helpers"),
    case("no assistant but helpers", "assistant = true", "assistant = false\nhelpers = 2", 1, "assistant and helpers are both given", "Keep helpers"),
    case("yes for a stand", "assistant = true", "stand = \"yes\"", 0, "\"stand\" is either true or false", "stand = true"),
    case("number of stands", "assistant = true", "stand = 1", 0, "\"stand\" is either true or false", "stand = true"),
    case("misspelt stand", "assistant = true", "tripod = true", 0, "[bag] has no key \"tripod\"", "Did you mean \"stand\"?"),
    case("stand in the ask", "in_hand = \"1 stop\"", "stand = true", 0, "[ask] has no key \"stand\"", "belongs under [bag]"),
    // The time of the flash.
    case("recycle as number", "least_power = \"1/128\"", "recycle = 2.6", 0, "\"recycle\" says a number, but not of what", "recycle = \"2.6 s\""),
    case("recycle without quotes", "least_power = \"1/128\"", "recycle = 2.6 s", 0, "is not in quotes", "recycle = \"2.6 s\""),
    case("recycle without unit", "least_power = \"1/128\"", "recycle = \"2.6\"", 0, "the unit is missing", "recycle = \"2.6 s\""),
    case("recycle with a decimal comma", "least_power = \"1/128\"", "recycle = \"2,6 s\"", 0, "decimals are written with a point", "recycle = \"2.6 s\""),
    case("recycle in minutes", "least_power = \"1/128\"", "recycle = \"2 min\"", 0, "\"min\" is not a unit of it", "1.5 s"),
    case("recycle of a minute", "least_power = \"1/128\"", "recycle = \"60 s\"", 0, "60 s cannot be how long a small flash recycles", "2.5 to 3.5 s"),
    case("recycle at once", "least_power = \"1/128\"", "recycle = \"0.01 s\"", 0, "from 0.1 s to 30 s", "ready lamp"),
    case("misspelt recycle", "least_power = \"1/128\"", "recyle = \"2.6 s\"", 0, "[bag.flash] has no key \"recyle\"", "Did you mean \"recycle\"?"),
    case("recycle in the bag", "assistant = true", "recycle = \"2.6 s\"", 0, "[bag] has no key \"recycle\"", "belongs under [bag.flash]"),
    // Limits of the ask.
    case("ratio as number", "in_hand = \"1 stop\"", "ratio = 3", 0, "\"ratio\" says a number, but not of what", "ratio = \"3:1\""),
    case("ratio without quotes", "in_hand = \"1 stop\"", "ratio = 3:1", 0, "is not in quotes", "ratio = \"3:1\""),
    case("ratio without its one", "in_hand = \"1 stop\"", "ratio = \"3\"", 0, "two numbers with a colon", "ratio = \"3:1\""),
    case("ratio upside down", "in_hand = \"1 stop\"", "ratio = \"1:3\"", 0, "the larger number comes first", "3:1"),
    case("ratio of a cave", "in_hand = \"1 stop\"", "ratio = \"100:1\"", 0, "100:1 is not a portrait", "\"3:1\" usual"),
    case("everyday ratio", "in_hand = \"1 stop\"", "contrast = \"3:1\"", 0, "[ask] has no key \"contrast\"", "Did you mean \"ratio\"?"),
    case("evenness as number", "in_hand = \"1 stop\"", "evenness = 0.3", 0, "\"evenness\" says a number, but not of what", "evenness = \"0.3 stops\""),
    case("evenness in words", "in_hand = \"1 stop\"", "evenness = \"very even\"", 0, "is not a difference between faces", "evenness = \"1/3 stop\""),
    case("evenness below nothing", "in_hand = \"1 stop\"", "evenness = \"-1/3 stop\"", 0, "cannot be asked of several faces", "\"1/3 stop\" is hardly seen"),
    case("evenness finer than a meter", "in_hand = \"1 stop\"", "evenness = \"0.05 stops\"", 0, "from 0.1 to 3 stops", "\"1/3 stop\""),
    case("misspelt evenness", "in_hand = \"1 stop\"", "eveness = \"1/3 stop\"", 0, "[ask] has no key \"eveness\"", "Did you mean \"evenness\"?"),
    case("background without sign", "in_hand = \"1 stop\"", "background = \"1 stop\"", 0, "could mean darker or brighter", "\"-1 stop\" for darker than the face"),
    case("background in thirds without sign", "in_hand = \"1 stop\"", "background = \"2/3 stop\"", 0, "could mean darker or brighter", "\"+2/3 stop\" for brighter"),
    case("background as number", "in_hand = \"1 stop\"", "background = 1", 0, "\"background\" says a number, but not of what", "\"-1 stop\" for darker than the face"),
    case("background with sign but no unit", "in_hand = \"1 stop\"", "background = -1", 0, "\"background\" says a number, but not of what", "background = \"-1 stops\""),
    case("background that contradicts itself", "in_hand = \"1 stop\"", "background = \"-1 stop brighter\"", 0, "not known as a wish for the background", "1 stop down"),
    case("background in words", "in_hand = \"1 stop\"", "background = \"dark\"", 0, "not known as a wish for the background", "same, -1 stop"),
    case("background far too dark", "in_hand = \"1 stop\"", "background = \"-9 stops\"", 0, "is not a picture", "Two stops down is dark"),
    case("background far too bright", "in_hand = \"1 stop\"", "background = \"4 stops up\"", 0, "from -6 stops to +3 stops", "leave the line out"),
    case("background of the place", "behind_sitter = \"mid grey\"", "background = \"mid grey\"", 0, "[place] has no key \"background\"", "Did you mean \"behind_sitter\"?"),
    case("wait as number", "in_hand = \"1 stop\"", "recycle = 1", 0, "\"recycle\" says a number, but not of what", "recycle = \"1 s\""),
    case("wait too short", "in_hand = \"1 stop\"", "recycle = \"0.02 s\"", 0, "0.02 s cannot be the longest wait between two frames", "\"0.5 s\""),
    case("wait too long", "in_hand = \"1 stop\"", "recycle = \"90 s\"", 0, "from 0.05 s to 30 s", "\"0.5 s\""),
    case("wait in frames", "in_hand = \"1 stop\"", "recycle = \"2 frames\"", 0, "\"frames\" is not a unit of it", "1.5 s"),
    case("move as number", "in_hand = \"1 stop\"", "sitter_may_move = 0.5", 0, "\"sitter_may_move\" says a number, but not of what", "sitter_may_move = \"0.5 m\""),
    case("move with yes", "in_hand = \"1 stop\"", "sitter_may_move = true", 0, "\"sitter_may_move\" needs a length", "sitter_may_move = \"2.0 m\""),
    case("move across the room", "in_hand = \"1 stop\"", "sitter_may_move = \"5 m\"", 0, "cannot be how far a sitter is moved", "decimal point"),
    case("move backwards", "in_hand = \"1 stop\"", "sitter_may_move = \"-0.5 m\"", 0, "cannot be moved by less than nothing", "leave the line out"),
    case("move in feet", "in_hand = \"1 stop\"", "sitter_may_move = \"2 ft\"", 0, "mixes metres and feet", "in metres too"),
    case("everyday move", "in_hand = \"1 stop\"", "may_move = \"0.5 m\"", 0, "[ask] has no key \"may_move\"", "Did you mean \"sitter_may_move\"?"),
    case("misspelt anywhere", "in_hand = \"1 stop\"", "flash = \"anywere\"", 0, "not a place for the flash", "Did you mean \"anywhere\"?"),
    case("skin within nothing", "in_hand = \"1 stop\"", "skin = \"within 25\"", 0, "is not a wish for the skin", "skin = \"within 25 mired\""),
    case("skin by the number", "in_hand = \"1 stop\"", "skin = 30", 0, "is not a wish for the skin", "skin = \"within 30 mired\""),
    case("skin within less than nothing", "in_hand = \"1 stop\"", "skin = \"within -25 mired\"", 0, "is not a wish for the skin", "within 25 mired"),
    case("skin closer than seen", "in_hand = \"1 stop\"", "skin = \"within 1 mired\"", 0, "cannot be held within 1 mired", "\"neutral\" is within 40 mired"),
    case("skin of any colour", "in_hand = \"1 stop\"", "skin = \"within 500 mired\"", 0, "from 5 to 200 mired", "write \"any\""),
    case("misspelt neutral", "in_hand = \"1 stop\"", "skin = \"nuetral\"", 0, "not known as a wish for the skin", "Did you mean \"neutral\"?"),
    // Contradictions of limits.
    case("anywhere without a hand", "assistant = true\n\n[bag.flash]\nguide_numbers = [\"GN 24 m at zoom 24 (measured)\", \"GN 50 m at zoom 105 (measured)\"]\nleast_power = \"1/128\"\n\n[[bag.board]]\nname = \"board\"\nsize = \"0.7 x 1.0 m\"\n\n[[ambient]]\nname = \"lamps\"\nreading = \"EV 5\"\nmetered = \"towards the camera\"\ncolour = \"2700 K\"\n\n[ask]\naperture = \"f/4\"\niso = \"ISO 400\"\nkey = \"loop\"\nfrom = \"left\"\nambient = \"out\"\nin_hand = \"1 stop\"", "\n[bag.flash]\nguide_numbers = [\"GN 24 m at zoom 24 (measured)\", \"GN 50 m at zoom 105 (measured)\"]\nleast_power = \"1/128\"\n\n[[bag.board]]\nname = \"board\"\nsize = \"0.7 x 1.0 m\"\n\n[[ambient]]\nname = \"lamps\"\nreading = \"EV 5\"\nmetered = \"towards the camera\"\ncolour = \"2700 K\"\n\n[ask]\naperture = \"f/4\"\niso = \"ISO 400\"\nkey = \"loop\"\nfrom = \"left\"\nambient = \"out\"\nflash = \"anywhere\"", 21, "nothing and nobody is there to hold it", "stand = true"),
    case("sooner than the least power", "least_power = \"1/128\"\n\n[[bag.board]]\nname = \"board\"\nsize = \"0.7 x 1.0 m\"\n\n[[ambient]]\nname = \"lamps\"\nreading = \"EV 5\"\nmetered = \"towards the camera\"\ncolour = \"2700 K\"\n\n[ask]\naperture = \"f/4\"\niso = \"ISO 400\"\nkey = \"loop\"\nfrom = \"left\"\nambient = \"out\"\nin_hand = \"1 stop\"", "least_power = \"1/2\"\nrecycle = \"4 s\"\n\n[[bag.board]]\nname = \"board\"\nsize = \"0.7 x 1.0 m\"\n\n[[ambient]]\nname = \"lamps\"\nreading = \"EV 5\"\nmetered = \"towards the camera\"\ncolour = \"2700 K\"\n\n[ask]\naperture = \"f/4\"\niso = \"ISO 400\"\nkey = \"loop\"\nfrom = \"left\"\nambient = \"out\"\nrecycle = \"1 s\"", 19, "the flash is never ready after 1 s", "Allow a longer wait"),
    // Positions.
    case("camera outside", "from_behind = \"1.5 m\"", "from_behind = \"6.5 m\"", 0, "this is outside the room", "from the wall behind the camera"),
    case("sitter outside", "from_behind = \"3.6 m\"", "from_behind = \"7.0 m\"", 0, "this is outside the room", "the room is 6.0 m long"),
    case("face above the ceiling", "face_height = \"1.6 m\"", "face_height = \"2.6 m\"", 0, "this is outside the room", "Heights are measured from the floor"),
    case("sitter in furniture", "from_left = \"2.0 m\"\nfrom_behind = \"3.6 m\"", "from_left = \"0.3 m\"\nfrom_behind = \"4.0 m\"", 0, "\"Kim\" is inside the furniture \"bench\"", "Move one of them"),
    case("sitter in the wall", "from_left = \"2.0 m\"\nfrom_behind = \"3.6 m\"", "from_left = \"3.95 m\"\nfrom_behind = \"3.6 m\"", 0, "is in the wall", "middle of the head"),
    case("sitter behind the camera", "from_behind = \"3.6 m\"", "from_behind = \"0.8 m\"", 0, "is not in front of the camera", "the larger one"),
    case("sitter on the camera", "from_behind = \"3.6 m\"", "from_behind = \"1.6 m\"", 0, "the camera is too near", "from 1 to 3 m away"),
    case("opening beyond the wall", "size = \"1.5 x 1.2 m\"", "size = \"5.5 x 1.2 m\"", 0, "is larger than its wall", "0.5 m smaller"),
    case("opening through the ceiling", "size = \"1.5 x 1.2 m\"", "size = \"1.5 x 1.8 m\"", 0, "is larger than its wall", "from_floor less"),
    case("furniture through the wall", "size = \"0.6 x 1.8 x 0.9 m\"", "size = \"0.6 x 3.8 x 0.9 m\"", 0, "does not fit into the room", "wall behind the sitter"),
    case("board through the ceiling", "size = \"0.8 x 1.6 m\"", "size = \"0.8 x 2.6 m\"", 0, "goes through the ceiling", "Move it into the room"),
    case("board twice", "name = \"board\"", "name = \"screen\"", 0, "two things with the name \"screen\"", "its own name"),
    case("two sitters in one place", "[bag]\n", "[[sitter]]\nname = \"Lee\"\nfrom_left = \"2.1 m\"\nfrom_behind = \"3.6 m\"\n[bag]\n", 2, "are in the same place", "at least 0.3 m apart"),
    case("sitters of one name", "[bag]\n", "[[sitter]]\nname = \"Kim\"\nfrom_left = \"3.1 m\"\nfrom_behind = \"3.6 m\"\n[bag]\n", 1, "two sitters with the name \"Kim\"", "its own name"),
    case("flash outside", "in_hand = \"1 stop\"", "flash = { from_left = \"9 m\", from_behind = \"2 m\", height = \"2 m\" }", 0, "this is outside the room", "the room is 4.0 m wide"),
    case("flash in furniture", "in_hand = \"1 stop\"", "flash = { from_left = \"0.3 m\", from_behind = \"4 m\", height = \"0.5 m\" }", 0, "the flash is inside the furniture", "raise the flash"),
    case("flash nowhere", "in_hand = \"1 stop\"", "flash = \"over there\"", 0, "not a place for the flash", "on camera"),
    // The sky.
    case("no place on Earth", "longitude = \"5.12 E\"", "longitude = \"181 E\"", 0, "181 degrees cannot be a longitude", "to 180 E or 180 W"),
    case("beyond a pole", "latitude = \"52.10 N\"", "latitude = \"91 N\"", 0, "91 degrees cannot be a latitude", "exchanged?"),
    case("at a pole", "latitude = \"52.10 N\"", "latitude = \"90 S\"", 0, "-90 degrees cannot be a latitude", "every direction is south"),
    case("wrong letter", "latitude = \"52.10 N\"", "latitude = \"52.10 E\"", 0, "not a latitude that is understood", "52.10 N"),
    case("sign and letter", "latitude = \"52.10 N\"", "latitude = \"-52.10 S\"", 0, "not a latitude that is understood", "52.10 N"),
    case("no such day", "date = \"2026-03-29\"", "date = \"2026-02-29\"", 0, "there is no \"2026-02-29\"", "Month 2 of 2026 has 28 days"),
    case("no such month", "date = \"2026-03-29\"", "date = \"2026-13-01\"", 0, "there is no \"2026-13-01\"", "Months go from 1 to 12"),
    case("day first", "date = \"2026-03-29\"", "date = \"29-03-2026\"", 0, "the year 29 cannot be worked out", "The year comes first"),
    case("date in words", "date = \"2026-03-29\"", "date = \"tomorrow\"", 0, "\"tomorrow\" is not a date", "2026-12-12"),
    case("hour 25", "time = \"16:40\"", "time = \"25:00\"", 0, "not a time of day", "16:40"),
    case("hour left out", "time = \"16:40\"", "time = \"02:30\"", 0, "did not exist there on that day", "The nearest times that exist are 01:59 and 03:00"),
    case("hour twice", "date = \"2026-03-29\"\ntime = \"16:40\"", "date = \"2026-10-25\"\ntime = \"02:30\"", 1, "came twice there", "zone = \"+02:00\" or zone = \"+01:00\""),
    case("misspelt zone", "zone = \"Europe/Amsterdam\"", "zone = \"Europe/Amsterdan\"", 0, "not a time zone", "Did you mean \"Europe/Amsterdam\"?"),
    case("zone from the disk", "zone = \"Europe/Amsterdam\"", "zone = \"../../etc/passwd\"", 0, "not a time zone", "named after a city"),
    case("no bearing", "camera_looks = \"SW\"", "camera_looks = \"down\"", 0, "not known as a bearing", "NNE"),
    case("bearing too far", "camera_looks = \"SW\"", "camera_looks = \"-45 deg\"", 0, "is not a bearing", "from north, 0"),
    case("odd weather", "weather = \"clear\"", "weather = \"cleer\"", 0, "not known as a weather", "Did you mean \"clear\"?"),
    case("sky 16", "weather = \"clear\"", "cie_sky = 16", 0, "16 cannot be the number of a CIE standard sky", "12"),
    case("ground unknown", "ground = \"snow\"", "ground = \"snoww\"", 0, "not a surface", "Did you mean \"snow\"?"),
    case("height without distance", "distance = \"90 m\"\n", "", 0, "[[sky.skyline]] has no \"distance\"", "distance = \"40 m\""),
    case("degrees with distance", "height = \"30 m\"", "height = \"12 deg\"", 1, "a height in degrees needs no distance", "in metres"),
    // Lamps and levels.
    case("unknown lamp", "reading = \"EV 5\"", "lamp = \"60 W blub\"\nfrom = \"9 o'clock\"", 0, "not known as a kind of lamp", "Did you mean \"60 W bulb\"?"),
    case("lamp from nowhere", "reading = \"EV 5\"", "lamp = \"60 W bulb\"", 0, "it is not said from where", "from = \"9 o'clock\""),
    case("lumen from all round", "reading = \"EV 5\"", "lumen = 800\nfrom = \"all round\"", 0, "it is not said from where", "a reading at the face instead"),
    case("lumen and reading", "reading = \"EV 5\"", "reading = \"EV 5\"\nlumen = 800\nfrom = \"9 o'clock\"", 1, "reading and lumen are both given", "Keep the reading"),
    case("lumen with a unit", "reading = \"EV 5\"", "lumen = \"bright\"\nfrom = \"9 o'clock\"", 0, "as a plain number", "lumen = 800"),
    case("unknown place", "reading = \"EV 5\"", "reading = \"livingroom evening\"", 0, "not known as a light level", "Did you mean \"living room evening\"?"),
    case("height of nothing", "reading = \"EV 5\"", "reading = \"EV 5\"\nheight = \"2 m\"", 1, "height goes with a direction", "from = \"9 o'clock\""),
    case("lamp above the ceiling", "reading = \"EV 5\"", "lumen = 800\nfrom = \"9 o'clock\"\nheight = \"3 m\"", 2, "cannot be the height of a lamp", "Check the decimal point"),
    // Gels and colour.
    case("unknown gel", "assistant = true", "gels = [\"1/3 CTO\"]", 0, "not known as a gel", "Did you mean"),
    case("gel of the other family", "assistant = true", "gels = [\"3/4 CTO\"]\ngel_family = \"amber\"", 0, "the amber family has no \"3/4 CTO\"", "in the straw family"),
    case("unknown family", "assistant = true", "gels = [\"1/2 CTO\"]\ngel_family = \"orange\"", 1, "not known as a family of gels", "straw, amber"),
    case("a gel without a list", "assistant = true", "gels = \"1/2 CTO\"", 0, "needs a list in square brackets", "gels = [\"1/2 CTO\""),
    case("a gel twice", "assistant = true", "gels = [\"1/2 CTO\", \"half CTO\"]\ngel_family = \"straw\"", 0, "1/2 CTO is in the list twice", "One is enough"),
    case("curve elsewhere", "assistant = true", "gel = [{ name = \"mine\", curve = \"../secret.csv\" }]", 0, "is not a file beside this one", "write its name alone"),
    case("curve that is not there", "assistant = true", "gel = [{ name = \"mine\", curve = \"none.csv\" }]", 0, "there is no such file", "550,0.83"),
    case("gel without curve", "assistant = true", "gel = [{ name = \"mine\" }]", 0, "[[bag.gel]] has no \"curve\"", "my-gel.csv"),
    case("insisted gel that is not there", "in_hand = \"1 stop\"", "gel = \"1/2 CTO\"", 0, "there is no \"1/2 CTO\" in the bag", "gels = [\"1/2 CTO\"]"),
    case("unknown wish for colour", "in_hand = \"1 stop\"", "colour = \"neutrl\"", 0, "not a wish for the colour", "Did you mean \"neutral\"?"),
    case("room too warm", "in_hand = \"1 stop\"", "colour = \"room warm by 900 mired\"", 0, "not an amount that can be asked for", "room warm by 40 mired"),
    case("skin neutral and warm", "in_hand = \"1 stop\"", "skin = \"neutral\"\ncolour = \"skin warm by 35 mired\"", 0, "skin cannot be neutral and not neutral", "Leave skin out"),
    case("nothing left to choose", "in_hand = \"1 stop\"", "gel = \"none\"\nwhite_balance = \"5000 K\"\ncolour = \"neutral\"", 2, "gel and white_balance are both fixed", "Leave one of the three"),
    case("odd tint", "in_hand = \"1 stop\"", "tint = \"M12\"", 0, "not a tint", "three steps towards magenta"),
    case("format of the future", "shoot = \"Workshop\"", "format = 7", 0, "a later version", "leave the line out"),
];

#[test]
fn the_good_file_is_good() {
    let folder = Folder::new("good");
    let (output, _) = check(&folder.file("good.toml", GOOD.as_bytes()));
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    assert!(output.stderr.is_empty(), "{}", said(&output));
}

#[test]
fn every_mistake_is_named_at_its_line_with_a_remedy() {
    assert!(CASES.len() >= 60);
    let folder = Folder::new("cases");
    let mut failed = Vec::new();
    for case in CASES {
        let at = GOOD
            .find(case.old)
            .unwrap_or_else(|| panic!("{}: {:?} is not in the good file", case.name, case.old));
        let text = GOOD.replacen(case.old, case.new, 1);
        let mut line = 1 + GOOD[..at].matches('\n').count() + case.below;
        if case.new.is_empty() {
            // What is missing is shown at the heading of its part.
            line = 1 + GOOD[..GOOD[..at].rfind("\n[").map_or(0, |at| at + 1)]
                .matches('\n')
                .count();
        }
        let path = folder.file("bad.toml", text.as_bytes());
        let place = format!("bad.toml:{line}:");
        let faults = faults(&path, &[&place, case.message, case.help, "help:"]);
        if !faults.is_empty() {
            failed.push(format!("{}:\n  {}", case.name, faults.join("\n  ")));
        }
    }
    assert!(
        failed.is_empty(),
        "{} of {} cases:\n{}",
        failed.len(),
        CASES.len(),
        failed.join("\n\n")
    );
}

/// Curves that no gel can have: each is refused at the line of the shoot file that names it, with the line of the
/// curve and a remedy.
#[test]
fn a_wrong_curve_is_named_with_its_line() {
    let rows = |change: &dyn Fn(u32) -> Option<String>| -> String {
        (380..=720).step_by(10).filter_map(change).collect()
    };
    let plain = |nm: u32| Some(format!("{nm},0.5\n"));
    let curves: [(&str, String, &str, &str); 7] = [
        (
            "percent",
            rows(&|nm| Some(format!("{nm},{}\n", 50 + nm / 100))),
            "line 1",
            "Divide percents by 100",
        ),
        (
            "negative",
            rows(&|nm| Some(format!("{nm},{}\n", if nm == 400 { -0.01 } else { 0.5 }))),
            "line 3",
            "write 0 where nothing is left",
        ),
        (
            "gap",
            rows(&|nm| {
                if (500..=540).contains(&nm) {
                    None
                } else {
                    plain(nm)
                }
            }),
            "line 13",
            "at least every 20 nm",
        ),
        (
            "unsorted",
            rows(&|nm| if nm == 500 { plain(485) } else { plain(nm) }),
            "line 13",
            "Sort the rows",
        ),
        (
            "short",
            rows(&|nm| if nm > 640 { None } else { plain(nm) }),
            "line 27",
            "from 400 to 700 nm",
        ),
        (
            "words",
            "dear Kim,\nthe gel is nice\n".to_owned(),
            "line 2",
            "Write two numbers",
        ),
        ("empty", String::new(), "line 1", "550,0.83"),
    ];
    let folder = Folder::new("curves");
    let old = "assistant = true";
    let named = GOOD.replacen(old, "gel = [{ name = \"mine\", curve = \"mine.csv\" }]", 1);
    let line = 1 + GOOD[..GOOD.find(old).expect("a bag")].matches('\n').count();
    let place = format!("bad.toml:{line}:");
    for (name, curve, curve_line, help) in &curves {
        folder.file("mine.csv", curve.as_bytes());
        let faults = faults(
            &folder.file("bad.toml", named.as_bytes()),
            &[&place, curve_line, help],
        );
        assert!(faults.is_empty(), "{name}: {}", faults.join("\n"));
    }
    folder.file("mine.csv", b"\xFF\xD8\xFF");
    let faults = faults(&folder.file("bad.toml", named.as_bytes()), &["it is not a text"]);
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    folder.file("mine.csv", rows(&plain).as_bytes());
    let (output, _) = check(&folder.file("good.toml", named.as_bytes()));
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
}

/// Behind a doorway there is no sky, so without a lamp nothing is there to be two stops under.
#[test]
fn a_wish_for_ambient_light_needs_some() {
    let lamp = GOOD.find("[[ambient]]").expect("a lamp");
    let ask = GOOD.find("[ask]").expect("an ask");
    let dark = format!("{}{}", &GOOD[..lamp], &GOOD[ask..])
        .replace("kind = \"window\"", "kind = \"doorway\"")
        .replace("ambient = \"out\"", "ambient = \"-2 stops\"");
    let folder = Folder::new("dark");
    let found = faults(
        &folder.file("bad.toml", dark.as_bytes()),
        &["none is described", "Add a part [[ambient]]"],
    );
    assert!(found.is_empty(), "{}", found.join("\n"));
    let by_day = dark.replace("kind = \"doorway\"", "kind = \"window\"");
    let (output, _) = check(&folder.file("good.toml", by_day.as_bytes()));
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
}

#[test]
fn all_mistakes_of_a_file_are_told_at_once() {
    let text = GOOD
        .replace("height = \"1.5 m\"", "height = 1.5")
        .replace("left = \"white paint\"", "left = \"wite paint\"")
        .replace("aperture = \"f/4\"", "aperture = \"4\"")
        .replace("skin = \"tan\"", "skim = \"tan\"");
    let folder = Folder::new("several");
    let faults = faults(
        &folder.file("bad.toml", text.as_bytes()),
        &[
            "white paint",
            "height = \"1.5 m\"",
            "Did you mean \"skin\"?",
            "aperture = \"f/4\"",
            "things to put right in bad.toml",
        ],
    );
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn what_is_no_shoot_file_at_all_is_said_in_one_sentence() {
    let folder = Folder::new("files");
    folder.file("wedding.toml", GOOD.as_bytes());
    let nested = format!("a = {}", "[".repeat(5000));
    let deep = format!("{}\na = {}1{}", GOOD, "[".repeat(300), "]".repeat(300));
    let many: String = (0..20_000).map(|n| format!("key{n} = {n}\n")).collect();
    let sitters = format!("{GOOD}\n{}", "[[sitter]]\n".repeat(60_000));
    let letter = "Dear Kim,\nthe room is nice.\n".repeat(50);
    let band = format!("{GOOD}\n{}", "[[sitter]]\n".repeat(60));
    let huge = vec![b'#'; 50_000_000];
    let files: &[(&str, &[u8], &[&str])] = &[
        (
            "empty.toml",
            b"",
            &["this file is empty", "start from one of the examples"],
        ),
        (
            "spaces.toml",
            b" \n\n \t\n",
            &["this file is empty", "start from one of the examples"],
        ),
        (
            "remarks.toml",
            b"# nothing\n",
            &["the part [place] is missing", "Add a line that says [place]"],
        ),
        ("huge.toml", &huge, &["larger than 1 MB", "Is this a picture?"]),
        (
            "photo.toml",
            b"\xFF\xD8\xFF\xE0\0\x10JFIF\0 and so on",
            &["is a picture or a document", "short text"],
        ),
        ("zeros.toml", &[0; 4096], &["is not a text file", "short text"]),
        (
            "latin.toml",
            b"shoot = \"Sal\xF3n\"\n",
            &["line 1", "not saved as UTF-8", "Save as"],
        ),
        (
            "wide.toml",
            b"\xFF\xFEs\0h\0o\0o\0t\0",
            &["saved as UTF-16", "Save as"],
        ),
        (
            "escape.toml",
            b"shoot = \"x\x1b[31mred\"\n",
            &["escape.toml:1:", "invisible control character", "Delete it"],
        ),
        (
            "nested.toml",
            nested.as_bytes(),
            &["line 1 is longer than", "right file"],
        ),
        ("deep.toml", deep.as_bytes(), &["nested too deeply", "two levels"]),
        (
            "many.toml",
            many.as_bytes(),
            &["the file has no key", "more; they are shown once"],
        ),
        (
            "crowd.toml",
            sitters.as_bytes(),
            &["60001 parts [[sitter]] are too many", "those that matter"],
        ),
        (
            "band.toml",
            band.as_bytes(),
            &["more than 40 sitters", "cannot light a crowd"],
        ),
        (
            "letter.toml",
            letter.as_bytes(),
            &["letter.toml:1:", "neither a heading nor", "and 95 more"],
        ),
        (
            "oneline.toml",
            &[b'a'; 900_000],
            &["line 1 is longer than", "right file"],
        ),
    ];
    let mut failed = Vec::new();
    for (name, bytes, phrases) in files {
        let faults = faults(&folder.file(name, bytes), phrases);
        if !faults.is_empty() {
            failed.push(format!("{name}:\n  {}", faults.join("\n  ")));
        }
    }
    for (path, phrases) in [
        (
            folder.0.join("weding.toml"),
            ["there is no file", "wedding.toml?"],
        ),
        (
            folder.0.join("no/such/folder.toml"),
            ["there is no file", "Check the name and the folder"],
        ),
        (
            folder.0.clone(),
            ["is a folder, not a shoot file", "Give the file inside it"],
        ),
    ] {
        let faults = faults(&path, &phrases);
        if !faults.is_empty() {
            failed.push(format!("{}:\n  {}", path.display(), faults.join("\n  ")));
        }
    }
    assert!(failed.is_empty(), "{}", failed.join("\n\n"));
}

#[test]
fn nothing_that_commands_a_terminal_is_printed() {
    let folder = Folder::new("escape");
    // Raw, and as TOML may spell it in a word that is repeated in the message.
    for (old, new) in [
        ("shoot = \"Workshop\"", "shoot = \"\x1b]0;title\x07\""),
        ("skin = \"tan\"", "skin = \"ta\\en\""),
        ("skin = \"tan\"", "skin = \"ta\\u001bn\""),
        ("skin = \"tan\"", "\"sk\\u009bin\" = \"tan\""),
        ("skin = \"tan\"", "skin = \"ta\\u202en\""),
    ] {
        let text = GOOD.replacen(old, new, 1);
        let (output, _) = check(&folder.file("bad.toml", text.as_bytes()));
        assert_eq!(output.status.code(), Some(2), "{new:?}");
        let shown = String::from_utf8(output.stderr).expect("messages are UTF-8");
        let bad = |c: char| c.is_control() && c != '\n' || ('\u{202a}'..='\u{202e}').contains(&c);
        assert!(!shown.chars().any(bad), "{new:?}: {shown:?}");
    }
}

#[test]
fn a_wrong_command_line_is_a_mistake_of_its_writer() {
    for arguments in [
        vec!["light"],
        vec!["answer", "--jsn"],
        vec!["proof", "a.toml"],
        vec!["proof", "a.toml", "-o", "p.png", "--size", "8"],
        vec![
            "proof",
            "a.toml",
            "-o",
            "p.png",
            "--quality",
            "2%",
            "--seconds",
            "3",
        ],
        vec!["page", "--port", "seventy"],
    ] {
        let output = Command::new(env!("CARGO_BIN_EXE_rushlight"))
            .args(&arguments)
            .output()
            .expect("the program runs");
        assert_eq!(output.status.code(), Some(2), "{arguments:?}: {}", said(&output));
        assert!(!said(&output).contains("panicked"), "{arguments:?}");
    }
}

#[test]
fn a_reader_who_stops_early_is_no_error() {
    use std::process::Stdio;
    let folder = Folder::new("pipe");
    let path = folder.file("good.toml", GOOD.as_bytes());
    let mut child = Command::new(env!("CARGO_BIN_EXE_rushlight"))
        .arg("check")
        .arg(&path)
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program runs");
    drop(child.stdout.take());
    let output = child.wait_with_output().expect("it ends");
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    assert!(output.stderr.is_empty(), "{}", said(&output));
}
