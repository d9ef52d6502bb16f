//! What must never get through: requests of other sites, other names for this machine, paths that lead elsewhere, too much,
//! nonsense, script in texts, and guesses at a phone's secret.

#[allow(dead_code)]
mod served;

use serde_json::{Value, json};
use served::{Reply, Request, SMALL, Served};
use std::net::{SocketAddr, TcpStream};

fn is_refused(reply: &Reply, status: u16, code: &str) {
    assert_eq!(reply.status, status, "{}", reply.text());
    let (found, message) = reply.refusal();
    assert_eq!(found, code, "{message}");
    assert!(
        message.ends_with('.') && message.len() > 15,
        "\"{message}\" is no sentence"
    );
}

#[test]
fn only_our_own_addresses_are_answered() {
    let served = Served::new();
    let port = served.at.port();
    let check = |host: &str, allowed: bool| {
        for path in ["/api/about", "/", "/api/shoots"] {
            let reply = Request::new("GET", path).host(host).send(served.at);
            if allowed {
                assert_eq!(reply.status, 200, "{host}{path}: {}", reply.text());
            } else {
                is_refused(&reply, 403, "forbidden");
            }
        }
    };
    check(&format!("127.0.0.1:{port}"), true);
    check(&format!("localhost:{port}"), true);
    check(&format!("LocalHost:{port}"), true);
    // A name of another's that was made to point here.
    check("pictures.example", false);
    check(&format!("pictures.example:{port}"), false);
    check("localhost", false);
    check("127.0.0.1", false);
    check(&format!("127.0.0.1:{}", port.wrapping_add(1)), false);
    check(&format!("localhost:{port}.pictures.example"), false);
    check(&format!("127.0.0.1:{port}@pictures.example"), false);
    check("", false);
    let two = Request::new("GET", "/api/about")
        .header("Host", "pictures.example")
        .send(served.at);
    assert!(
        two.status == 400 || two.status == 403,
        "two hosts: {}",
        two.status
    );
}

#[test]
fn pages_of_other_sites_are_refused() {
    let served = Served::new();
    let port = served.at.port();
    let body = json!({ "name": "Theirs", "text": "# theirs" });
    let check = |headers: &[(&str, &str)], allowed: bool| {
        let mut request = Request::new("POST", "/api/shoots").json(Some(&body));
        for (name, value) in headers {
            request = request.header(name, value);
        }
        let reply = request.send(served.at);
        if allowed {
            assert_eq!(reply.status, 201, "{headers:?}: {}", reply.text());
        } else {
            is_refused(&reply, 403, "forbidden");
        }
    };
    let own = format!("http://{}", served.at);
    check(&[], true);
    check(&[("Origin", &own), ("Sec-Fetch-Site", "same-origin")], true);
    for origin in [
        "http://pictures.example".to_owned(),
        "null".to_owned(),
        format!("https://{}", served.at),
        format!("http://127.0.0.1:{}", port.wrapping_add(1)),
        // Another name of ours is another origin for a browser.
        format!("http://localhost:{port}"),
        String::new(),
    ] {
        check(&[("Origin", &origin)], false);
    }
    for site in ["cross-site", "same-site"] {
        check(&[("Sec-Fetch-Site", site)], false);
        check(&[("Sec-Fetch-Site", site), ("Sec-Fetch-Mode", "navigate")], false);
    }
    let shoots = served.get("/api/shoots");
    let theirs = shoots.as_array().map_or(0, |list| {
        list.iter().filter(|shoot| shoot["name"] == "Theirs").count()
    });
    assert_eq!(theirs, 2, "only ours were kept");
    // Nothing can be read from elsewhere either, but a link may lead to the page.
    let read = Request::new("GET", "/api/shoots")
        .header("Sec-Fetch-Site", "cross-site")
        .send(served.at);
    is_refused(&read, 403, "forbidden");
    let link = Request::new("GET", "/")
        .header("Sec-Fetch-Site", "cross-site")
        .header("Sec-Fetch-Mode", "navigate")
        .send(served.at);
    assert_eq!(link.status, 200);
}

#[test]
fn a_form_of_another_site_cannot_pose_as_the_page() {
    let served = Served::new();
    for kind in [
        "text/plain",
        "application/x-www-form-urlencoded",
        "multipart/form-data; boundary=x",
        "",
    ] {
        let reply = Request::new("POST", "/api/shoots")
            .bytes(b"{\"name\":\"Theirs\",\"text\":\"\"}")
            .header("X-Ignored", "1");
        let mut reply = reply;
        reply.headers.retain(|(name, _)| name != "Content-Type");
        let reply = reply.header("Content-Type", kind).send(served.at);
        is_refused(&reply, 400, "bad_request");
    }
}

#[test]
fn no_path_leaves_its_folder() {
    let served = Served::new();
    for path in [
        "/assets/../Cargo.toml",
        "/assets/..%2fCargo.toml",
        "/assets/%2e%2e/%2e%2e/etc/passwd",
        "/assets/..%5c..%5cCargo.toml",
        "/assets//etc/passwd",
        "/assets/%2fetc%2fpasswd",
        "/assets/index.html%00.js",
        "/../../etc/passwd",
        "/etc/passwd",
        "/api/../../etc/passwd",
        "/api/shoots/..%2f..%2f..%2fetc%2fpasswd",
        "/api/curtains",
    ] {
        let reply = served.ask("GET", path, None);
        assert!(
            reply.status == 404 || reply.status == 400,
            "{path}: {} {}",
            reply.status,
            reply.text()
        );
        assert!(!reply.text().contains("root:"), "{path}");
    }
}

#[test]
fn too_much_and_nonsense_are_refused_in_sentences() {
    let served = Served::new();
    let post = |path: &str, body: &[u8]| {
        let mut request = Request::new("POST", path).bytes(body);
        request.headers = vec![("Content-Type".to_owned(), "application/json".to_owned())];
        request.send(served.at)
    };
    let large = json!({ "name": "large", "text": "#".repeat(5 << 20) }).to_string();
    is_refused(&post("/api/shoots", large.as_bytes()), 413, "too_large");
    let long = json!({ "name": "long", "text": "#".repeat((1 << 20) + 1) }).to_string();
    is_refused(&post("/api/shoots", long.as_bytes()), 413, "too_large");
    let name = json!({ "name": "n".repeat(201), "text": "" }).to_string();
    is_refused(&post("/api/shoots", name.as_bytes()), 413, "too_large");
    for body in [
        &b""[..],
        b"{",
        b"[]",
        b"null",
        b"\xff\xfe",
        b"{\"name\":1,\"text\":2}",
        b"{\"text\":\"\"}",
        "[".repeat(100_000).as_bytes(),
        br#"{"name":"x\u0000y","text":""}"#,
        br#"{"name":"","text":""}"#,
    ] {
        is_refused(&post("/api/shoots", body), 400, "bad_request");
    }
    for (path, body) in [
        ("/api/answers", json!({ "text": SMALL, "set_up": -1 })),
        (
            "/api/edit",
            json!({ "text": SMALL, "set_up": 0, "edits": [{ "path": [] }] }),
        ),
        (
            "/api/take",
            json!({ "text": SMALL, "set_up": 9, "kind": "bags", "part": "[bag]" }),
        ),
        ("/api/proofs", json!({ "answer": "0", "width": 1_000_000 })),
        ("/api/scan?name=a.glb&turned=9", json!({})),
    ] {
        let reply = post(path, body.to_string().as_bytes());
        assert!(
            (400..500).contains(&reply.status),
            "{path}: {} {}",
            reply.status,
            reply.text()
        );
        assert!(!reply.refusal().1.is_empty());
    }
    let many: Vec<Value> = (0..500)
        .map(|_| json!({ "path": ["ask", "aperture"], "value": "f/4" }))
        .collect();
    let many = json!({ "text": SMALL, "set_up": 0, "edits": many }).to_string();
    is_refused(&post("/api/edit", many.as_bytes()), 413, "too_large");
    let scan = Request::new("POST", "/api/scan?name=room.glb")
        .bytes(b"glTF nonsense")
        .send(served.at);
    is_refused(&scan, 400, "bad_request");
    assert_eq!(served.ask("PATCH", "/api/shoots", None).status, 405);
}

#[test]
fn script_in_a_text_stays_a_text() {
    let served = Served::new();
    let (script, image, handler) = (
        "</script><script>alert(1)</script>",
        "<img src=x onerror=alert(2)>",
        r#"x\" onload=\"alert(3)"#,
    );
    let text = SMALL
        .replace("Small room", script)
        .replace("[[sitter]]", &format!("[[sitter]]\nname = \"{image}\""))
        .replace(
            "left = \"white paint\"",
            &format!("left = {{ name = \"{handler}\", reflectance = 0.8 }}"),
        )
        .replace(
            "right = \"white paint\"",
            &format!("right = {{ name = \"{script}\", reflectance = 0.8 }}"),
        );
    let job = served.done("POST", "/api/answers", &json!({ "text": text, "set_up": 0 }));
    let ended = served.wait(&job);
    assert_eq!(ended["state"], "done", "{ended}");
    let id = job["id"].as_str().expect("a name");
    let told = served.get(&format!("/api/answers/{id}"));
    let map = served.get(&format!("/api/answers/{id}/map"));
    let card = served
        .ask("GET", &format!("/api/answers/{id}/card.html"), None)
        .text();
    let own_scripts = card.matches("<script").count();
    for (what, markup) in [
        ("drawing", told["drawing"].as_str().expect("SVG")),
        ("chart", told["chart"].as_str().expect("SVG")),
        ("map", map["svg"].as_str().expect("SVG")),
        ("card", &card),
    ] {
        assert!(
            !markup.contains("<script>alert") && !markup.contains("<img src=x"),
            "{what}"
        );
        assert!(!markup.contains("onload=\"alert"), "{what}");
    }
    let plain = served.done("POST", "/api/answers", &json!({ "text": SMALL, "set_up": 0 }));
    assert_eq!(served.wait(&plain)["state"], "done");
    let plain = format!("/api/answers/{}/card.html", plain["id"].as_str().expect("a name"));
    assert_eq!(
        served.ask("GET", &plain, None).text().matches("<script").count(),
        own_scripts
    );
    // And no reply may ever be taken for a page that it is not.
    for path in [
        format!("/api/answers/{id}"),
        "/api/shoots".to_owned(),
        "/api/nothing/here".to_owned(),
    ] {
        let reply = served.ask("GET", &path, None);
        assert_eq!(reply.header("content-type"), Some("application/json"), "{path}");
        assert_eq!(reply.header("x-content-type-options"), Some("nosniff"));
        assert!(
            reply
                .header("content-security-policy")
                .is_some_and(|policy| policy.contains("default-src 'self'"))
        );
        assert_eq!(
            reply.header("access-control-allow-origin"),
            None,
            "nobody else may read it"
        );
    }
}

#[test]
fn a_phone_gets_in_by_the_secret_of_the_moment_alone() {
    let served = Served::new();
    // Before anybody opens the door, nothing listens on the local network.
    assert_eq!(served.get("/api/about")["phone"]["open"], false);
    let opened = served.ask("POST", "/api/phone", Some(&json!({})));
    if opened.status == 400 {
        // A machine without any network says so; there is no door to be tried then.
        assert!(
            opened.refusal().1.contains("no local network"),
            "{}",
            opened.text()
        );
        return;
    }
    let opened = opened.json();
    assert!(opened["qr"].as_str().is_some_and(|svg| svg.contains("<svg")));
    let url = opened["url"].as_str().expect("an address");
    let (address, secret) = url
        .strip_prefix("http://")
        .and_then(|rest| rest.split_once("/#pair="))
        .expect("an address with a secret");
    let door: SocketAddr = address.parse().expect("an address");
    assert!(!door.ip().is_loopback());
    let about = |cookie: Option<&str>| {
        let request = Request::new("GET", "/api/about");
        match cookie {
            Some(cookie) => request.header("Cookie", cookie),
            None => request,
        }
        .send(door)
    };
    // The page may be fetched, but nothing private without the secret.
    assert_eq!(Request::new("GET", "/").send(door).status, 200);
    for path in ["/api/about", "/api/shoots", "/api/export", "/api/vocabulary"] {
        is_refused(&Request::new("GET", path).send(door), 403, "not_paired");
    }
    is_refused(
        &about(Some("rushlight_phone=00000000000000000000000000000000")),
        403,
        "not_paired",
    );
    // Nor under another name, nor from another site.
    is_refused(
        &Request::new("GET", "/").host("pictures.example").send(door),
        403,
        "forbidden",
    );
    is_refused(
        &Request::new("GET", "/").host(&served.at.to_string()).send(door),
        403,
        "forbidden",
    );
    let pair = |secret: &str| {
        Request::new("POST", "/api/pair")
            .json(Some(&json!({ "secret": secret })))
            .send(door)
    };
    // Five wrong guesses end it, and then the right one is wrong too.
    for guess in [
        "",
        "1",
        "ffffffffffffffffffffffffffffffff",
        &secret[..31],
        &format!("{secret}0"),
    ] {
        is_refused(&pair(guess), 403, "not_paired");
    }
    is_refused(&pair(secret), 403, "not_paired");
    let again = served.done("POST", "/api/phone", &json!({}));
    let secret = again["url"]
        .as_str()
        .and_then(|url| url.split_once("#pair="))
        .expect("a secret")
        .1
        .to_owned();
    let paired = pair(&secret);
    assert_eq!(paired.status, 204, "{}", paired.text());
    let cookie = paired.header("set-cookie").expect("a cookie").to_owned();
    assert!(
        cookie.contains("HttpOnly") && cookie.contains("SameSite=Strict"),
        "{cookie}"
    );
    let cookie = cookie.split(';').next().expect("a pair").to_owned();
    let told = about(Some(&cookie));
    assert_eq!(
        (told.status, told.json()["you"].as_str().map(str::to_owned)),
        (200, Some("phone".to_owned()))
    );
    is_refused(&pair(&secret), 403, "not_paired");
    // A phone may not let others in.
    let more = Request::new("POST", "/api/phone")
        .header("Cookie", &cookie)
        .json(Some(&json!({})))
        .send(door);
    is_refused(&more, 403, "forbidden");
    // When the door is shut, it is shut for everyone.
    assert_eq!(served.ask("DELETE", "/api/phone", None).status, 204);
    let gone = (0..50).any(|_| {
        std::thread::sleep(std::time::Duration::from_millis(20));
        TcpStream::connect(door).is_err()
    });
    assert!(gone, "the door is still open");
}
