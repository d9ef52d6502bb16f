//! The page's server: what it keeps, what it works out, and what it gives.

#[allow(dead_code)]
mod served;

use serde_json::{Value, json};
use served::{Request, SMALL, Served};
use std::collections::BTreeSet;
use std::io::{BufRead, BufReader, Write};
use std::net::TcpStream;
use std::time::{Duration, Instant};

#[test]
fn an_empty_store_starts_with_the_demo() {
    let served = Served::new();
    let shoots = served.get("/api/shoots");
    assert_eq!(shoots.as_array().map(Vec::len), Some(1), "{shoots}");
    let id = shoots[0]["id"].as_str().expect("a name");
    let demo = served.get(&format!("/api/shoots/{id}"));
    let understood = served.done(
        "POST",
        "/api/understand",
        &json!({ "text": demo["text"], "set_up": 0 }),
    );
    assert_eq!(understood["ok"], true, "{}", understood["problems"]);
    assert_eq!(demo["text"], shoot::DEMO);
}

#[test]
fn two_windows_never_overwrite_one_another() {
    let served = Served::new();
    let first = served.done("POST", "/api/shoots", &json!({ "name": "Mine", "text": SMALL }));
    let at = format!("/api/shoots/{}", first["id"].as_str().expect("a name"));
    let save = |text: &str, based_on: i64| {
        served.ask(
            "PUT",
            &at,
            Some(&json!({ "name": "Mine", "text": text, "based_on": based_on })),
        )
    };
    let one = save("# one window\n", 1);
    assert_eq!((one.status, one.json()["version"].as_i64()), (200, Some(2)));
    let other = save("# the other window\n", 1);
    assert_eq!(other.status, 409, "{}", other.text());
    assert_eq!(other.json()["theirs"]["text"], "# one window\n");
    assert_eq!(other.refusal().0, "conflict");
    assert_eq!(save("# the other window\n", 2).status, 200);
    // Everything that was ever saved is still there, and can come back.
    let versions = served.get(&format!("{at}/versions"));
    assert_eq!(versions.as_array().map(Vec::len), Some(3));
    let back = served.done(
        "POST",
        &format!("{at}/restore"),
        &json!({ "version": 1, "based_on": 3 }),
    );
    assert_eq!(
        (back["text"].as_str(), back["version"].as_i64()),
        (Some(SMALL), Some(4))
    );
    // A removed one leaves the list, and not the store.
    assert_eq!(
        served.ask("DELETE", &format!("{at}?based_on=3"), None).status,
        409
    );
    assert_eq!(
        served.ask("DELETE", &format!("{at}?based_on=4"), None).status,
        204
    );
    let names = |removed: bool| {
        let list = served.get(&format!("/api/shoots?removed={removed}"));
        list.as_array().map_or(0, |list| {
            list.iter().filter(|shoot| shoot["name"] == "Mine").count()
        })
    };
    assert_eq!((names(false), names(true)), (0, 1));
}

#[test]
fn everything_goes_out_and_comes_in_again() {
    let served = Served::new();
    let bag = "[bag]\nassistant = true\n";
    for (kind, name, text) in [
        ("shoots", "A / strange: name", SMALL),
        ("shoots", "a / strange: NAME", SMALL),
        ("bags", "Light bag", bag),
    ] {
        served.done(
            "POST",
            &format!("/api/{kind}"),
            &json!({ "name": name, "text": text }),
        );
    }
    let bags = served.get("/api/bags");
    let id = bags[0]["id"].as_str().expect("a name");
    let better = "[bag]\nassistant = true\nstand = true\n";
    served.done(
        "PUT",
        &format!("/api/bags/{id}"),
        &json!({ "name": "Light bag", "text": better, "based_on": 1 }),
    );
    let archive = served.ask("GET", "/api/export", None);
    assert_eq!(archive.header("content-type"), Some("application/zip"));

    let elsewhere = Served::new();
    let before = elsewhere.get("/api/shoots").as_array().map_or(0, Vec::len);
    let reply = Request::new("POST", "/api/import")
        .bytes(&archive.body)
        .send(elsewhere.at);
    let imported = reply.json();
    assert_eq!(imported["refused"], json!([]), "{imported}");
    assert_eq!(imported["taken"].as_array().map(Vec::len), Some(4), "{imported}");
    assert_eq!(
        elsewhere.get("/api/shoots").as_array().map(Vec::len),
        Some(before + 3)
    );
    let bags = elsewhere.get("/api/bags");
    assert_eq!(
        (bags[0]["name"].as_str(), bags[0]["version"].as_i64()),
        (Some("Light bag"), Some(2))
    );
    let versions = elsewhere.get(&format!(
        "/api/bags/{}/versions/1",
        bags[0]["id"].as_str().expect("a name")
    ));
    assert_eq!(versions["text"], bag, "its history came along");
    // One plain file is taken as well, under its title.
    let one = Request::new("POST", "/api/import?name=kitchen.toml")
        .bytes(SMALL.as_bytes())
        .send(elsewhere.at);
    assert_eq!(one.json()["taken"][0]["name"], "Small room");
}

#[test]
fn bad_archives_are_refused_in_sentences() {
    let served = Served::new();
    let check = |bytes: &[u8], status: u16, expected: &str| {
        let reply = Request::new("POST", "/api/import").bytes(bytes).send(served.at);
        assert_eq!(reply.status, status, "{}", reply.text());
        assert!(reply.text().contains(expected), "{}", reply.text());
    };
    check(b"PK\x03\x04 not an archive", 400, "The archive cannot be read");
    check(&[0xff; 100], 200, "It is not plain text");
    // A small archive with a great deal of nothing in it.
    let mut bomb = zip::ZipWriter::new(std::io::Cursor::new(Vec::new()));
    let nothing = vec![b'#'; 1 << 20];
    for number in 0..80 {
        let options = zip::write::SimpleFileOptions::default();
        bomb.start_file(format!("shoots/{number}.toml"), options)
            .expect("in memory");
        bomb.write_all(&nothing).expect("in memory");
    }
    let bomb = bomb.finish().expect("in memory").into_inner();
    assert!(bomb.len() < 1 << 20);
    check(&bomb, 413, "holds more than is taken");
}

#[test]
fn an_answer_its_proof_and_its_card() {
    let served = Served::new();
    let asked = json!({ "text": SMALL, "set_up": 0 });
    let job = served.done("POST", "/api/answers", &asked);
    let ended = served.wait(&job);
    assert_eq!(ended["state"], "done", "{ended}");
    let id = job["id"].as_str().expect("a name");
    // The same again is there at once.
    assert_eq!(served.done("POST", "/api/answers", &asked)["state"], "done");
    let told = served.get(&format!("/api/answers/{id}"));
    assert!(
        told["report"]["told"]["lines"]["camera"]
            .as_str()
            .is_some_and(|line| line.starts_with("f/4 · ")),
        "{}",
        told["report"]["told"]["lines"]
    );
    assert!(
        told["drawing"]
            .as_str()
            .is_some_and(|svg| svg.starts_with("<svg"))
    );
    assert!(
        served.get(&format!("/api/answers/{id}/map"))["cells"]
            .as_array()
            .is_some_and(|cells| cells.len() > 20)
    );

    let card = served.ask("GET", &format!("/api/answers/{id}/card.html"), None);
    assert!(
        card.text().contains(
            told["report"]["told"]["lines"]["aim"]
                .as_str()
                .expect("a third line")
                .trim()
        ),
        "the card has the third line"
    );
    assert!(
        card.header("content-security-policy")
            .is_some_and(|policy| policy.contains("sandbox"))
    );
    let pdf = served.ask("GET", &format!("/api/answers/{id}/card.pdf"), None);
    assert!(pdf.body.starts_with(b"%PDF-"));
    let changed = served.done(
        "POST",
        &format!("/api/answers/{id}/light-changed"),
        &json!({ "stops": -1.0 }),
    );
    assert_eq!(changed["possible"], true, "{changed}");

    let proof = served.done("POST", "/api/proofs", &json!({ "answer": id, "width": 80 }));
    let ended = served.wait(&proof);
    assert_eq!(ended["state"], "done", "{ended}");
    let at = format!("/api/proofs/{}", proof["id"].as_str().expect("a name"));
    let layers = served.ask("GET", &format!("{at}/layers"), None);
    let number = |index: usize| {
        let bytes: [u8; 4] = layers.body[4 * index..4 * index + 4]
            .try_into()
            .expect("four bytes");
        u32::from_le_bytes(bytes)
    };
    let (magic, width, height, planes) = (number(0), number(1), number(2), number(3));
    assert_eq!((magic, width, height), (u32::from_le_bytes(*b"RLY1"), 80, 100));
    assert_eq!(layers.body.len(), 16 + (planes * width * height * 8) as usize);
    // The picture that the program develops, and the one that a page would from the planes and the table alone.
    let table = served.get(&format!("{at}/table"));
    let png = served.ask("GET", &format!("{at}/picture.png?power=3&balance=2&gel=1"), None);
    let mut picture = png::Decoder::new(std::io::Cursor::new(&png.body))
        .read_info()
        .expect("a PNG");
    let mut pixels = vec![0; picture.output_buffer_size().expect("a size")];
    let info = picture.next_frame(&mut pixels).expect("a picture");
    assert_eq!(
        (info.width, info.height, info.color_type),
        (80, 100, png::ColorType::Rgb)
    );
    let choice = json!({ "power": 3, "balance": 2, "gel": 1 });
    let mut worst = 0i32;
    for y in (0..height).step_by(7) {
        for x in (0..width).step_by(5) {
            let ours = by_the_table(&layers.body[16..], [width, height], [x, y], &table, &choice);
            let theirs = &pixels[3 * (y * width + x) as usize..];
            for channel in 0..3 {
                worst = worst.max((ours[channel] - i32::from(theirs[channel])).abs());
            }
        }
    }
    assert!(worst <= 2, "{worst} codes apart");
    let nowhere = served.ask("GET", &format!("{at}/picture.png?power=9999"), None);
    assert_eq!(nowhere.status, 400);
}

/// A pixel developed as the table says, with nothing else known.
fn by_the_table(
    planes: &[u8],
    [width, height]: [u32; 2],
    [x, y]: [u32; 2],
    table: &Value,
    choice: &Value,
) -> [i32; 3] {
    let controls = &table["controls"];
    let at = |control: &str| {
        choice[control]
            .as_u64()
            .unwrap_or_else(|| controls[control]["at"].as_u64().expect("a position")) as usize
    };
    let factor = |control: &str| {
        controls[control]["factors"][at(control)]
            .as_f64()
            .expect("a factor")
    };
    let value = |plane: usize, channel: usize| {
        let index = 8 * (plane * (width * height) as usize + (y * width + x) as usize) + 2 * channel;
        f64::from(half::f16::from_le_bytes([planes[index], planes[index + 1]]).to_f32())
    };
    let both = factor("aperture") * factor("iso");
    let mut raw = [0.0f64; 3];
    for light in table["lights"].as_array().expect("lights") {
        let first = light["first_plane"].as_u64().expect("a plane") as usize;
        let flash = light["is_flash"] == true;
        let own = both * factor(if flash { "power" } else { "shutter" });
        for (channel, raw) in raw.iter_mut().enumerate() {
            *raw += own
                * if flash {
                    let weights = &table["gels"][at("gel")]["weights"][channel];
                    (0..16)
                        .map(|band| {
                            weights[band].as_f64().expect("a weight") * value(first + band / 4, band % 4)
                        })
                        .sum::<f64>()
                } else {
                    value(first, channel)
                };
        }
    }
    let balance = &controls["balance"];
    let cut = balance["cut"][at("balance")].as_f64().expect("a cut");
    let balanced: Vec<f64> = (0..3)
        .map(|k| {
            (raw[k]
                * balance["multipliers"][at("balance")][k]
                    .as_f64()
                    .expect("a number"))
            .min(cut)
        })
        .collect();
    let matrix = &balance["matrices"][at("balance")];
    let linear: Vec<f64> = (0..3)
        .map(|row| {
            (0..3)
                .map(|k| matrix[3 * row + k].as_f64().expect("a number") * balanced[k])
                .sum()
        })
        .collect();
    let most = linear.iter().fold(0.0f64, |most, value| most.max(*value));
    if most <= 0.0 {
        return [0; 3];
    }
    let (top, values) = (
        table["curve"]["top"].as_f64().expect("a number"),
        table["curve"]["values"].as_array().expect("samples"),
    );
    let place = (most / top).min(1.0) * (values.len() - 1) as f64;
    let sample = |index: usize| values[index.min(values.len() - 1)].as_f64().expect("a number");
    let shown =
        sample(place as usize) + place.fract() * (sample(place as usize + 1) - sample(place as usize));
    let paling = |name: &str| table["paling"][name].as_f64().expect("a number");
    let over = ((most - paling("from")) / (paling("to") - paling("from"))).clamp(0.0, 1.0);
    let pale = paling("most") * over * over;
    std::array::from_fn(|k| {
        let kept = (linear[k] * shown / most).max(0.0);
        let value = kept + pale * (shown - kept);
        let encoded = if value <= 0.003_130_8 {
            12.92 * value
        } else {
            1.055 * value.powf(1.0 / 2.4) - 0.055
        };
        (encoded * 255.0).round() as i32
    })
}

#[test]
fn a_change_that_is_suggested_makes_the_ask_possible() {
    let served = Served::new();
    // A small flash, a small aperture, a low speed: it falls short.
    let text = SMALL.replace(
        "aperture = \"f/4\"",
        "aperture = \"f/16\"\niso = \"ISO 100\"\nin_hand = \"1 stop\"",
    );
    let text = format!("{text}\n[bag.flash]\nkind = \"small\"\n");
    let job = served.done("POST", "/api/answers", &json!({ "text": text, "set_up": 0 }));
    assert_eq!(served.wait(&job)["state"], "done");
    let told = served.get(&format!("/api/answers/{}", job["id"].as_str().expect("a name")));
    assert!(
        !told["report"]["shortfall"].is_null(),
        "it was meant to fall short"
    );
    let changes = told["changes"].as_array().expect("changes");
    assert!(!changes.is_empty());
    let written: Vec<&Value> = changes
        .iter()
        .filter(|change| change["text"].is_string())
        .collect();
    assert!(!written.is_empty(), "{changes:?}");
    assert_eq!(
        changes.len(),
        told["report"]["told"]["shortfall"]["changes"]
            .as_array()
            .map_or(0, Vec::len),
        "each change that is told has its text"
    );
    for change in written {
        let job = served.done(
            "POST",
            "/api/answers",
            &json!({ "text": change["text"], "set_up": 0 }),
        );
        assert_eq!(served.wait(&job)["state"], "done");
        let told = served.get(&format!("/api/answers/{}", job["id"].as_str().expect("a name")));
        assert!(
            told["report"]["shortfall"].is_null(),
            "{}: {}",
            change["text"],
            told["report"]["shortfall"]
        );
    }
}

#[test]
fn work_is_followed_as_it_goes() {
    let served = Served::new();
    let job = served.done("POST", "/api/answers", &json!({ "text": SMALL, "set_up": 0 }));
    let id = job["id"].as_str().expect("a name");
    let events = Request::new("GET", &format!("/api/jobs/{id}/events")).send(served.at);
    assert_eq!(events.header("content-type"), Some("text/event-stream"));
    let jobs: Vec<Value> = events
        .text()
        .lines()
        .filter_map(|line| line.strip_prefix("data:"))
        .map(|line| serde_json::from_str(line).expect("JSON"))
        .collect();
    assert_eq!(jobs.last().expect("events")["state"], "done");
    let shares: Vec<f64> = jobs.iter().filter_map(|job| job["fraction"].as_f64()).collect();
    assert!(shares.is_sorted(), "{shares:?}");
    assert!(jobs.len() > 2, "{jobs:?}");
}

#[test]
fn everything_is_told_in_the_language_that_is_asked_for() {
    let served = Served::new();
    let job = served.done("POST", "/api/answers", &json!({ "text": SMALL, "set_up": 0 }));
    assert_eq!(served.wait(&job)["state"], "done");
    let id = job["id"].as_str().expect("a name");
    let answer = |query: &str| served.get(&format!("/api/answers/{id}{query}"));
    let (unsaid, english, german) = (answer(""), answer("?lang=en"), answer("?lang=de"));
    assert_eq!(unsaid, english);
    assert_eq!(german["report"]["told"]["language"], "de");
    for part in ["drawing", "chart", "text"] {
        assert_ne!(english[part], german[part], "{part}");
    }
    // Another language changes words and no data.
    for part in ["camera", "flash", "chosen", "surfaces", "notes", "limits"] {
        assert_eq!(english["report"][part], german["report"][part], "{part}");
    }
    let map = |lang: &str| served.get(&format!("/api/answers/{id}/map?lang={lang}"));
    let (english, german) = (map("en"), map("de"));
    assert_eq!(english["cells"], german["cells"]);
    assert_eq!(
        english["why"].as_array().map(Vec::len),
        english["cells"].as_array().map(Vec::len)
    );
    assert_ne!(english["why"], german["why"]);
    assert_ne!(english["svg"], german["svg"]);
    let darker = |lang: &str| {
        let at = format!("/api/answers/{id}/light-changed?lang={lang}");
        served.done("POST", &at, &json!({ "stops": -1.0 }))
    };
    assert_ne!(darker("en")["words"], darker("de")["words"]);
    let card = |lang: &str| {
        let at = format!("/api/answers/{id}/card.html?lang={lang}");
        served.ask("GET", &at, None).text()
    };
    assert_ne!(card("en"), card("de"));
    let understood = |lang: &str| {
        let at = format!("/api/understand?lang={lang}");
        served.done("POST", &at, &json!({ "text": SMALL, "set_up": 0 }))
    };
    assert_ne!(understood("en")["drawing"], understood("de")["drawing"]);
    let reply = served.ask("GET", &format!("/api/answers/{id}?lang=la"), None);
    assert_eq!(reply.status, 400);
    assert!(reply.text().contains("lang=en or lang=de"), "{}", reply.text());
}

#[test]
fn a_refusal_speaks_the_language_of_its_request() {
    let served = Served::new();
    let refused = |method: &str, path: &str, body: Option<Value>| -> [Value; 2] {
        ["en", "de"].map(|lang| {
            let mark = if path.contains('?') { '&' } else { '?' };
            let reply = served.ask(method, &format!("{path}{mark}lang={lang}"), body.as_ref());
            assert!(reply.status >= 400, "{method} {path}: {}", reply.status);
            reply.json()["error"].clone()
        })
    };
    let edits = json!([{ "path": ["asks"], "value": 1 }]);
    for (method, path, body) in [
        ("GET", "/api/nowhere/at/all", None),
        ("PUT", "/api/about", Some(json!({}))),
        ("GET", "/api/shoots/none", None),
        ("POST", "/api/shoots", Some(json!({ "name": " ", "text": "" }))),
        ("POST", "/api/shoots", Some(json!("no document"))),
        ("GET", "/api/answers/none", None),
        (
            "POST",
            "/api/edit",
            Some(json!({ "text": SMALL, "set_up": 0, "edits": edits })),
        ),
        ("POST", "/api/scan?name=room.glb", Some(json!("no scan"))),
    ] {
        let [english, german] = refused(method, path, body);
        assert_eq!(english["code"], german["code"], "{path}");
        assert_ne!(english["message"], german["message"], "{path}");
        assert_eq!(english["hint"].is_null(), german["hint"].is_null(), "{path}");
    }
    let [english, german] = refused("GET", "/api/answers/none", None);
    assert_eq!(
        english["message"],
        "This is not known here, or not kept any more."
    );
    assert_eq!(
        german["message"],
        "Das ist hier nicht bekannt, oder nicht mehr da."
    );
    assert_eq!(german["hint"], "Lass es noch einmal berechnen.");
    // So does the one that brings the other window's text along.
    let document = served.done("POST", "/api/shoots", &json!({ "name": "one", "text": SMALL }));
    let path = format!("/api/shoots/{}", document["id"].as_str().expect("a name"));
    let late = json!({ "name": "another", "text": SMALL, "based_on": 0 });
    let [english, german] = refused("PUT", &path, Some(late));
    assert_eq!(
        (&english["code"], &german["code"]),
        (&json!("conflict"), &json!("conflict"))
    );
    assert!(
        german["message"]
            .as_str()
            .is_some_and(|said| said.contains("inzwischen anderswo")),
        "{german}"
    );
}

#[test]
fn a_shoot_with_a_mistake_is_told_so() {
    let served = Served::new();
    let job = served.done(
        "POST",
        "/api/answers",
        &json!({ "text": SMALL.replace("room", "rom"), "set_up": 0 }),
    );
    let ended = served.wait(&job);
    assert_eq!(
        (ended["state"].as_str(), ended["error"]["code"].as_str()),
        (Some("failed"), Some("bad_shoot"))
    );
    assert!(
        ended["error"]["hint"]
            .as_str()
            .is_some_and(|hint| hint.contains("room")),
        "{ended}"
    );
}

#[test]
fn live_aiming_follows_the_head() {
    let served = Served::new();
    let job = served.done("POST", "/api/answers", &json!({ "text": SMALL, "set_up": 0 }));
    assert_eq!(served.wait(&job)["state"], "done");
    let live = served.done("POST", "/api/live", &json!({ "answer": job["id"] }));
    assert_eq!(served.wait(&live)["state"], "done");
    let at = format!("/api/live/{}", live["id"].as_str().expect("a name"));
    let told = |azimuth: f64| -> Value {
        let reply = served.ask("GET", &format!("{at}/aim?azimuth={azimuth}&elevation=10"), None);
        assert_eq!(reply.status, 200, "{}", reply.text());
        serde_json::from_str(reply.header("x-aim").expect("what the aim does")).expect("JSON")
    };
    let (left, right) = (told(-90.0), told(90.0));
    assert!(
        left["words"].as_str().is_some_and(|words| words.contains("LEFT")),
        "{left}"
    );
    assert!(
        left["azimuth_deg"].as_f64() < Some(-20.0) && right["azimuth_deg"].as_f64() > Some(20.0),
        "{left} {right}"
    );
    for bad in [
        "azimuth=NaN&elevation=0",
        "azimuth=0&elevation=91",
        "azimuth=0",
        "azimuth=0&elevation=0&zoom=-1",
    ] {
        assert_eq!(
            served.ask("GET", &format!("{at}/aim?{bad}"), None).status,
            400,
            "{bad}"
        );
    }
}

#[test]
fn fifty_clients_at_once_are_served_in_order() {
    let served = Served::new();
    // Different shoots, so that none is the same piece of work; most cannot be answered, which is told in their turn.
    let text = |number: usize| {
        if number.is_multiple_of(10) {
            SMALL.replace("f/4", ["f/2.8", "f/4", "f/5.6", "f/8", "f/11"][number / 10])
        } else {
            format!("# {number}\n[place]\n")
        }
    };
    let before = memory();
    let ids: Vec<String> = (0..50)
        .map(|number| {
            let job = Request::new("POST", "/api/answers")
                .header("x-rushlight-window", &format!("client {number}"))
                .json(Some(&json!({ "text": text(number), "set_up": 0 })))
                .send(served.at);
            assert_eq!(job.status, 202, "{}", job.text());
            job.json()["id"].as_str().expect("a name").to_owned()
        })
        .collect();
    let started = Instant::now();
    let ends: Vec<_> = std::thread::scope(|scope| {
        let clients: Vec<_> = ids
            .iter()
            .map(|id| {
                let served = &served;
                scope.spawn(move || {
                    let ended = served.wait(&json!({ "id": id }));
                    (
                        started.elapsed(),
                        ended["state"].as_str().expect("a state").to_owned(),
                    )
                })
            })
            .collect();
        clients
            .into_iter()
            .map(|client| client.join().expect("a client"))
            .collect()
    });
    for (number, (_, state)) in ends.iter().enumerate() {
        assert_eq!(
            state,
            if number.is_multiple_of(10) {
                "done"
            } else {
                "failed"
            },
            "client {number}"
        );
    }
    // Nobody who came later was served clearly earlier: each looks twenty times a second.
    for pair in ends.windows(2) {
        assert!(pair[0].0 < pair[1].0 + Duration::from_millis(500), "{ends:?}");
    }
    let grown = memory().saturating_sub(before);
    assert!(grown < 600 << 20, "{} MB more", grown >> 20);
}

/// Memory of this process in bytes, where the system tells it.
fn memory() -> u64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    status
        .lines()
        .find_map(|line| {
            line.strip_prefix("VmRSS:")?
                .trim()
                .strip_suffix(" kB")?
                .trim()
                .parse::<u64>()
                .ok()
        })
        .map_or(0, |kilobytes| kilobytes << 10)
}

#[test]
fn a_client_that_goes_away_frees_its_work() {
    let served = Served::new();
    let job = served.done("POST", "/api/answers", &json!({ "text": SMALL, "set_up": 0 }));
    assert_eq!(served.wait(&job)["state"], "done");
    // A large proof takes minutes; whoever follows it hangs up.
    let proof = served.done(
        "POST",
        "/api/proofs",
        &json!({ "answer": job["id"], "width": 1600 }),
    );
    let id = proof["id"].as_str().expect("a name");
    let mut stream = TcpStream::connect(served.at).expect("it listens");
    write!(
        stream,
        "GET /api/jobs/{id}/events HTTP/1.1\r\nHost: {}\r\n\r\n",
        served.at
    )
    .expect("it reads");
    let mut line = String::new();
    BufReader::new(&stream)
        .read_line(&mut line)
        .expect("a first line");
    assert!(line.contains("200"), "{line}");
    drop(stream);
    let until = Instant::now() + Duration::from_secs(60);
    while served.house.jobs.pending() > 0 {
        assert!(Instant::now() < until, "nobody listens, and it still goes on");
        std::thread::sleep(Duration::from_millis(100));
    }
}

#[test]
fn the_document_of_the_api_is_the_published_one() {
    let published = std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/../../schema/api.json"))
        .expect("schema/api.json; write it with: rushlight schema --api > schema/api.json");
    let published: Value = serde_json::from_str(&published).expect("JSON");
    assert_eq!(
        published,
        server::api_document(),
        "schema/api.json is not what the code says; write it anew with: rushlight schema --api > schema/api.json"
    );
}

#[test]
fn every_route_is_described_once() {
    let document = server::api_document();
    let mut names = BTreeSet::new();
    for (path, operations) in document["paths"].as_object().expect("paths") {
        for (method, operation) in operations.as_object().expect("operations") {
            let name = operation["operationId"].as_str().expect("a name").to_owned();
            assert!(names.insert(name), "{method} {path}");
            assert!(
                operation["summary"]
                    .as_str()
                    .is_some_and(|words| words.len() > 10),
                "{method} {path}"
            );
        }
    }
    assert_eq!(names.len(), server::routes::all().len());
}
