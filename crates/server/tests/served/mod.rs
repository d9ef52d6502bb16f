//! A served house for tests, and a client that says exactly what it is told to say.

use serde_json::Value;
use server::House;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::{SocketAddr, TcpStream};
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::{Duration, Instant};
use store::Store;

/// A server on a free port of the loopback address, with a store of its own that goes with it.
pub struct Served {
    pub at: SocketAddr,
    pub house: Arc<House>,
    folder: PathBuf,
    runtime: Option<tokio::runtime::Runtime>,
}

impl Served {
    pub fn new() -> Self {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let number = COUNT.fetch_add(1, Ordering::Relaxed);
        let folder = std::env::temp_dir().join(format!("rushlight-served-{}-{number}", std::process::id()));
        let file = folder.join("shoots.sqlite");
        let runtime = tokio::runtime::Runtime::new().expect("threads");
        let (house, at) = runtime.block_on(async move {
            let store = Store::open_file(&file).await.expect("a temporary folder");
            let house = server::house(store, jiff::ZonedDateTime::now)
                .await
                .expect("an empty store");
            let (at, served) = server::open(Arc::clone(&house), 0).await.expect("a free port");
            tokio::spawn(served);
            (house, at)
        });
        Served {
            at,
            house,
            folder,
            runtime: Some(runtime),
        }
    }

    /// A request of the page itself.
    pub fn ask(&self, method: &str, path: &str, body: Option<&Value>) -> Reply {
        Request::new(method, path).json(body).send(self.at)
    }

    /// The body of a request that must go well.
    pub fn get(&self, path: &str) -> Value {
        let reply = self.ask("GET", path, None);
        assert_eq!(reply.status, 200, "{path}: {}", reply.text());
        reply.json()
    }

    /// Asks and gives the body, whatever the kind of success.
    pub fn done(&self, method: &str, path: &str, body: &Value) -> Value {
        let reply = self.ask(method, path, Some(body));
        assert!(
            (200..300).contains(&reply.status),
            "{path}: {} {}",
            reply.status,
            reply.text()
        );
        if reply.body.is_empty() {
            Value::Null
        } else {
            reply.json()
        }
    }

    /// Follows a piece of work until it ends.
    pub fn wait(&self, job: &Value) -> Value {
        let id = job["id"].as_str().expect("a job has a name");
        let until = Instant::now() + Duration::from_secs(240);
        loop {
            let job = self.get(&format!("/api/jobs/{id}"));
            if ["done", "failed", "stopped"].contains(&job["state"].as_str().unwrap_or("")) {
                return job;
            }
            assert!(Instant::now() < until, "{job} did not end");
            std::thread::sleep(Duration::from_millis(50));
        }
    }
}

impl Drop for Served {
    fn drop(&mut self) {
        if let Some(runtime) = self.runtime.take() {
            runtime.shutdown_background();
        }
        let _ = std::fs::remove_dir_all(&self.folder);
    }
}

/// A request, header by header.
pub struct Request {
    method: String,
    path: String,
    pub headers: Vec<(String, String)>,
    body: Vec<u8>,
    host: Option<String>,
}

impl Request {
    pub fn new(method: &str, path: &str) -> Self {
        Request {
            method: method.to_owned(),
            path: path.to_owned(),
            headers: Vec::new(),
            body: Vec::new(),
            host: None,
        }
    }

    pub fn json(mut self, body: Option<&Value>) -> Self {
        if let Some(body) = body {
            self.headers
                .push(("Content-Type".to_owned(), "application/json".to_owned()));
            self.body = body.to_string().into_bytes();
        }
        self
    }

    pub fn bytes(mut self, body: &[u8]) -> Self {
        self.headers
            .push(("Content-Type".to_owned(), "application/octet-stream".to_owned()));
        self.body = body.to_vec();
        self
    }

    pub fn header(mut self, name: &str, value: &str) -> Self {
        self.headers.push((name.to_owned(), value.to_owned()));
        self
    }

    /// Another host than the one that is connected to.
    pub fn host(mut self, host: &str) -> Self {
        self.host = Some(host.to_owned());
        self
    }

    pub fn send(self, at: SocketAddr) -> Reply {
        let mut stream = TcpStream::connect(at).expect("it listens");
        stream
            .set_read_timeout(Some(Duration::from_secs(120)))
            .expect("a time limit");
        let host = self.host.unwrap_or_else(|| at.to_string());
        let mut head = format!(
            "{} {} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n",
            self.method, self.path
        );
        for (name, value) in &self.headers {
            head += &format!("{name}: {value}\r\n");
        }
        head += &format!("Content-Length: {}\r\n\r\n", self.body.len());
        stream.write_all(head.as_bytes()).expect("it reads");
        // Whoever refuses a large body may stop reading it.
        let _ = stream.write_all(&self.body);
        Reply::read(stream)
    }
}

/// What came back.
#[derive(Debug)]
pub struct Reply {
    pub status: u16,
    pub headers: Vec<(String, String)>,
    pub body: Vec<u8>,
}

impl Reply {
    fn read(stream: TcpStream) -> Self {
        let mut reader = BufReader::new(stream);
        let mut line = String::new();
        reader.read_line(&mut line).expect("a first line");
        let status = line
            .split_whitespace()
            .nth(1)
            .and_then(|code| code.parse().ok())
            .unwrap_or_else(|| panic!("\"{line}\" is no first line of a reply"));
        let mut headers = Vec::new();
        loop {
            let mut line = String::new();
            reader.read_line(&mut line).expect("a header");
            let Some((name, value)) = line.trim_end().split_once(':') else {
                break;
            };
            headers.push((name.to_lowercase(), value.trim().to_owned()));
        }
        let mut body = Vec::new();
        let _ = reader.read_to_end(&mut body);
        let chunked = headers
            .iter()
            .any(|(name, value)| name == "transfer-encoding" && value == "chunked");
        if chunked {
            body = unchunked(&body);
        }
        Reply {
            status,
            headers,
            body,
        }
    }

    pub fn header(&self, name: &str) -> Option<&str> {
        self.headers
            .iter()
            .find(|(known, _)| known == name)
            .map(|(_, value)| value.as_str())
    }

    pub fn text(&self) -> String {
        String::from_utf8_lossy(&self.body).into_owned()
    }

    pub fn json(&self) -> Value {
        serde_json::from_slice(&self.body).unwrap_or_else(|error| panic!("{error}: {}", self.text()))
    }

    /// The sentence of a refusal.
    pub fn refusal(&self) -> (String, String) {
        let body = self.json();
        let field = |name: &str| body["error"][name].as_str().unwrap_or("").to_owned();
        (field("code"), field("message"))
    }
}

fn unchunked(mut body: &[u8]) -> Vec<u8> {
    let mut whole = Vec::new();
    while let Some(end) = body.windows(2).position(|two| two == b"\r\n") {
        let size = std::str::from_utf8(&body[..end])
            .ok()
            .and_then(|text| usize::from_str_radix(text.trim(), 16).ok());
        let Some(size) = size.filter(|&size| size > 0) else {
            break;
        };
        let from = end + 2;
        whole.extend_from_slice(body.get(from..from + size).unwrap_or_default());
        body = body.get(from + size + 2..).unwrap_or_default();
    }
    whole
}

/// A small bare room that is answered in about a second.
pub const SMALL: &str = r#"shoot = "Small room"
[place]
room = "3 x 2.5 x 2.4 m"
left = "white paint"
right = "white paint"
behind_camera = "white paint"
behind_sitter = "white paint"
ceiling = "white paint"
floor = "wood floor"
[camera]
from_left = "1.2 m"
from_behind = "0.4 m"
[[sitter]]
from_left = "1.2 m"
from_behind = "2.0 m"
[ask]
aperture = "f/4"
"#;
