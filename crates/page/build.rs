//! Builds the page with Node and puts its files into the program.
//!
//! `npm ci` runs only when the lock file is not the one that was installed; `npm run build` whenever a source of the page has
//! changed. Without Node the program is built all the same, with a plain page in place of the real one that says what is missing.
//! `RUSHLIGHT_PAGE` names a folder with a ready-built page; `RUSHLIGHT_PAGE_REQUIRED` makes a missing Node an error.

use std::env;
use std::fmt::Write as _;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::process::Command;

/// What the page is built from, below `web`. All of it must be there: cargo runs this again each time for a path that is not.
const SOURCES: [&str; 7] = [
    "src",
    "scripts",
    "index.html",
    "package.json",
    "package-lock.json",
    "tsconfig.json",
    "vite.config.ts",
];

/// The oldest Node that builds the page.
const NODE: (u32, u32) = (20, 19);

fn main() {
    let out = PathBuf::from(env::var_os("OUT_DIR").expect("cargo says where to build"));
    // Asked for now and not when this was compiled: a target folder may have been moved with its checkout.
    let here = env::var_os("CARGO_MANIFEST_DIR").expect("cargo says where the crate is");
    let web = Path::new(&here).join("../../web");
    println!("cargo:rerun-if-env-changed=RUSHLIGHT_PAGE");
    println!("cargo:rerun-if-env-changed=RUSHLIGHT_PAGE_REQUIRED");
    for source in SOURCES {
        println!("cargo:rerun-if-changed={}", web.join(source).display());
    }
    let built = match env::var_os("RUSHLIGHT_PAGE") {
        Some(folder) => PathBuf::from(folder),
        None => match build(&web, &out.join("page")) {
            Ok(()) => out.join("page"),
            Err(why) if env::var_os("RUSHLIGHT_PAGE_REQUIRED").is_some() => {
                panic!("the page could not be built: {why}")
            }
            Err(why) => {
                println!("cargo:warning=the page was not built: {why}");
                println!("cargo:warning=the command line works all the same");
                plain(&out.join("plain"), &why).expect("the build folder can be written")
            }
        },
    };
    let list = listed(&built).expect("the built page can be read");
    fs::write(out.join("files.rs"), list).expect("the build folder can be written");
}

/// Builds the page into a folder, or says why that cannot be.
fn build(web: &Path, into: &Path) -> Result<(), String> {
    node()?;
    if !installed(web) {
        run(web, &["ci", "--no-audit", "--no-fund"], into)?;
    }
    run(web, &["run", "build"], into)
}

/// Whether what the lock file lists is installed: npm keeps a copy of the lock that it installed, and we one of ours.
fn installed(web: &Path) -> bool {
    let lock = fs::read(web.join("package-lock.json")).ok();
    let done = fs::read(web.join("node_modules/.lock-that-was-installed")).ok();
    lock.is_some() && lock == done
}

/// Whether Node is there and new enough.
fn node() -> Result<(), String> {
    let needed = format!("Node {}.{} or newer is needed", NODE.0, NODE.1);
    let said = Command::new("node")
        .arg("--version")
        .output()
        .map_err(|_| format!("{needed}, and there is none"))?;
    let said = String::from_utf8_lossy(&said.stdout).trim().to_owned();
    let mut numbers = said
        .trim_start_matches('v')
        .split('.')
        .map_while(|n| n.parse::<u32>().ok());
    let version = (numbers.next().unwrap_or(0), numbers.next().unwrap_or(0));
    if version >= NODE {
        Ok(())
    } else {
        Err(format!("{needed}, and this is {said}"))
    }
}

/// Runs npm in the page's folder.
fn run(web: &Path, arguments: &[&str], into: &Path) -> Result<(), String> {
    let said = Command::new(if cfg!(windows) { "npm.cmd" } else { "npm" })
        .args(arguments)
        .current_dir(web)
        .env("RUSHLIGHT_WEB_OUT", into)
        .output()
        .map_err(|error| format!("npm could not be started: {error}"))?;
    if !said.status.success() {
        let words = [said.stdout, said.stderr].concat();
        let words = String::from_utf8_lossy(&words);
        let last: Vec<&str> = words.trim().lines().rev().take(6).collect();
        let last: Vec<&str> = last.into_iter().rev().collect();
        return Err(format!(
            "npm {} failed: {}",
            arguments.join(" "),
            last.join(" / ")
        ));
    }
    if arguments.first() == Some(&"ci") {
        let done = web.join("node_modules/.lock-that-was-installed");
        fs::copy(web.join("package-lock.json"), done).map_err(|error| error.to_string())?;
    }
    Ok(())
}

/// A page that says what is missing.
fn plain(folder: &Path, why: &str) -> io::Result<PathBuf> {
    fs::create_dir_all(folder)?;
    let why = why.replace('&', "&amp;").replace('<', "&lt;");
    fs::write(
        folder.join("index.html"),
        format!(
            "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Rushlight</title>\
             <h1>The page is not in this build</h1><p>{why}.</p>\
             <p>Install Node {}.{} or newer and build again. Until then the command line does all the same work: \
             <code>rushlight --help</code>.</p></html>",
            NODE.0, NODE.1
        ),
    )?;
    Ok(folder.to_owned())
}

/// The list of files as Rust: names, kinds and bytes.
fn listed(folder: &Path) -> io::Result<String> {
    let mut files = Vec::new();
    walk(folder, folder, &mut files)?;
    files.sort();
    let mut list = String::from("pub(crate) static FILES: &[(&str, &str, &[u8])] = &[\n");
    for (name, path) in files {
        let _ = writeln!(
            list,
            "    ({name:?}, {:?}, include_bytes!({path:?})),",
            kind(&name)
        );
    }
    list.push_str("];\n");
    Ok(list)
}

fn walk(root: &Path, folder: &Path, files: &mut Vec<(String, PathBuf)>) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            walk(root, &path, files)?;
        } else if let Ok(name) = path.strip_prefix(root) {
            let name = name.to_string_lossy().replace('\\', "/");
            files.push((name, path.canonicalize()?));
        }
    }
    Ok(())
}

/// What a browser is told that a file is.
fn kind(name: &str) -> &'static str {
    match name.rsplit('.').next() {
        Some("html") => "text/html; charset=utf-8",
        Some("js") => "text/javascript; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("svg") => "image/svg+xml",
        Some("woff2") => "font/woff2",
        Some("json" | "webmanifest") => "application/json",
        Some("txt") => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}
