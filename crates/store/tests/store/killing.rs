//! Nothing that was said to be saved is lost when a program, or the whole server, is killed.
//!
//! What a kill cannot show is a power cut: the system's memory outlives the program. That rests on the flush
//! that both databases are told to wait for.

use crate::ground::{Cluster, Room, report, runtime};
use crate::part;
use rand_pcg::Pcg64;
use rand_pcg::rand_core::{Rng, SeedableRng};
use sqlx::{ConnectOptions, Connection};
use std::io::{BufRead, BufReader, Read, Write};
use std::path::Path;
use std::process::Stdio;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};
use store::{Kind, Store, StoreError};

const NAME: &str = "Killed while saving";

/// What version number `version` says: mostly short, every seventh over many pages of the database.
fn text_of(version: i64) -> String {
    let lines = if version % 7 == 0 { 3000 } else { 40 };
    (0..lines)
        .map(|line| format!("version {version}, line {line}\n"))
        .collect()
}

/// What a part that was killed had said until then.
#[derive(Debug, Default)]
struct Heard {
    opened: bool,
    /// The last version that it began to save, and the last that it was told is saved.
    began: i64,
    confirmed: i64,
}

fn heard(output: &str) -> Heard {
    let mut heard = Heard::default();
    // A last line without its end was cut off by the kill.
    let whole = output.rsplit_once('\n').map_or("", |(whole, _)| whole);
    for line in whole.lines() {
        match line.split(' ').collect::<Vec<_>>()[..] {
            ["@opened"] => heard.opened = true,
            ["@began", version] => heard.began = version.parse().expect("a number"),
            ["@confirmed", version] => heard.confirmed = version.parse().expect("a number"),
            _ => assert!(!line.contains("panicked"), "{output}"),
        }
    }
    heard
}

fn say(words: &str) {
    let mut out = std::io::stdout().lock();
    // The test harness leaves a line open before the first.
    write!(out, "\n@{words}\n")
        .and_then(|()| out.flush())
        .expect("the other end listens");
}

#[test]
#[ignore = "a part of other tests here, which start it and kill it"]
fn saving_without_end() {
    let Some(task) = part::task() else { return };
    let (url, id) = task.split_once(' ').expect("an address and an identifier");
    runtime().block_on(async {
        let store = Store::open_url(url).await.expect("it opens after a kill");
        let mut newest = store.get(Kind::Shoot, id).await.expect("it is there").version;
        say("opened");
        // Ends by itself if nobody kills it.
        for _ in 0..10_000 {
            say(&format!("began {}", newest + 1));
            match store
                .save(Kind::Shoot, id, NAME, &text_of(newest + 1), newest, newest + 1)
                .await
            {
                Ok(saved) => newest = saved.version,
                // The server may finish what the program killed before this one had sent to it.
                Err(StoreError::Conflict { theirs }) => newest = theirs.version,
                Err(error) => panic!("{error}"),
            }
            say(&format!("confirmed {newest}"));
        }
    });
}

/// Starts the part, kills it after `wait` (counted from when it has opened the store, or from its start), and
/// returns what it said.
fn start_and_kill(url: &str, id: &str, from_the_start: bool, wait: Duration) -> Heard {
    let mut command = part::command(&[], "killing::saving_without_end", &format!("{url} {id}"));
    let mut child = command
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("the part starts");
    let mut out = BufReader::new(child.stdout.take().expect("its output is piped"));
    let mut output = String::new();
    while !from_the_start && !output.ends_with("@opened\n") {
        assert_ne!(
            out.read_line(&mut output).expect("it can be read"),
            0,
            "it ended by itself: {output}"
        );
    }
    std::thread::sleep(wait);
    child.kill().expect("it can be killed");
    child.wait().expect("it is gone");
    out.read_to_string(&mut output).expect("what it said is left");
    heard(&output)
}

/// All that was confirmed is there, and at most what was begun; every version whole.
async fn nothing_is_lost(store: &Store, id: &str, verified: &mut i64, heard: &Heard) {
    let versions = store.versions(Kind::Shoot, id).await.expect("it is there");
    let newest = versions[0].version;
    assert!(
        newest >= heard.confirmed,
        "version {} was confirmed, and {newest} is the newest",
        heard.confirmed
    );
    assert!(newest <= heard.began.max(*verified + 1), "{newest}: {heard:?}");
    let numbers: Vec<i64> = versions.iter().map(|listed| listed.version).collect();
    assert_eq!(numbers, (1..=newest).rev().collect::<Vec<_>>());
    for version in *verified + 1..=newest {
        let kept = store
            .version(Kind::Shoot, id, version)
            .await
            .expect("it is there");
        assert!(
            kept.text == text_of(version) && kept.name == NAME,
            "version {version} is not what was saved"
        );
    }
    let last = store.get(Kind::Shoot, id).await.expect("it is there");
    // A server may meanwhile have finished what the killed program had sent.
    assert!(
        last.version - newest <= 1 && last.text == text_of(last.version),
        "{newest}: {}",
        last.version
    );
    *verified = newest;
}

/// Kills a saving program again and again until that many saves were interrupted: begun, and not yet
/// confirmed.
fn kill_until(
    interrupted: u32,
    seed: u64,
    within_us: u32,
    mut new_url: impl FnMut() -> String,
    check: impl AsyncFn(&str),
) {
    let runtime = runtime();
    let mut random = Pcg64::seed_from_u64(seed);
    let (mut hit, mut kills, mut confirmed, started) = (0, 0, 0, Instant::now());
    while hit < interrupted {
        // A new store now and then, so that looking through the old one stays quick.
        let url = new_url();
        let id = runtime.block_on(async {
            let store = Store::open_url(&url).await.expect("a new store opens");
            let id = store
                .create(Kind::Shoot, NAME, &text_of(1), 1)
                .await
                .expect("it is kept")
                .id;
            store.close().await;
            id
        });
        let mut verified = 1;
        for _ in 0..50 {
            let before = verified;
            let from_the_start = random.next_u32() % 10 == 0;
            let most = if from_the_start { 40_000 } else { within_us };
            let wait = Duration::from_micros(u64::from(random.next_u32() % most));
            let heard = start_and_kill(&url, id.as_str(), from_the_start, wait);
            runtime.block_on(async {
                let store = Store::open_url(&url)
                    .await
                    .expect("it opens clean after the kill");
                nothing_is_lost(&store, id.as_str(), &mut verified, &heard).await;
                store.close().await;
                check(&url).await;
            });
            kills += 1;
            hit += u32::from(heard.began > heard.confirmed);
            confirmed += (heard.confirmed - before).max(0);
            if hit == interrupted {
                break;
            }
        }
        assert!(kills < 4 * interrupted, "only {hit} of {kills} kills met a save");
    }
    let seconds = started.elapsed().as_secs_f64();
    report(&format!(
        "{kills} kills interrupted {hit} saves; {confirmed} confirmed ones all there ({seconds:.1} s)"
    ));
}

/// The whole file is in order, by SQLite's own judgement.
async fn is_whole(path: &Path) {
    let options = sqlx::sqlite::SqliteConnectOptions::new().filename(path);
    let mut connection = options.connect().await.expect("it opens");
    for check in [
        "PRAGMA integrity_check",
        "SELECT count(*) || '' FROM pragma_foreign_key_check",
    ] {
        let said: String = sqlx::query_scalar(check)
            .fetch_one(&mut connection)
            .await
            .expect("it can be read");
        assert!(said == "ok" || said == "0", "{check}: {said}");
    }
    connection.close().await.expect("it closes");
}

#[test]
fn a_program_is_killed_while_it_saves_to_a_file() {
    let folder = tempfile::tempdir().expect("a temporary folder");
    let mut count = 0;
    let new_url = || {
        count += 1;
        format!(
            "sqlite:{}",
            folder.path().join(format!("kept-{count}.db")).display()
        )
    };
    kill_until(500, 1, 12_000, new_url, async |url| {
        is_whole(Path::new(url.strip_prefix("sqlite:").expect("a file"))).await;
    });
}

#[test]
fn a_program_is_killed_while_it_saves_to_a_server() {
    let room = runtime().block_on(Room::new());
    kill_until(100, 2, 40_000, || room.url.clone(), async |_| {});
    runtime().block_on(room.clear());
}

#[test]
#[ignore = "a part of the next test, which starts it and kills it"]
fn making_a_store() {
    let Some(url) = part::task() else { return };
    runtime().block_on(async {
        let store = Store::open_url(&url).await.expect("it opens after a kill");
        store
            .create(Kind::Shoot, NAME, &text_of(1), 1)
            .await
            .expect("it is kept");
        say("confirmed 1");
    });
}

#[test]
fn a_program_is_killed_while_it_makes_the_file() {
    let runtime = runtime();
    let mut random = Pcg64::seed_from_u64(3);
    let mut moments = [0; 4];
    for _ in 0..80 {
        let folder = tempfile::tempdir().expect("a temporary folder");
        let path = folder.path().join("a/b/kept.db");
        let url = format!("sqlite:{}", path.display());
        let mut command = part::command(&[], "killing::making_a_store", &url);
        let mut child = command
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("the part starts");
        // Watches for the folder, so that the kill meets the making and not the start of the program.
        let started = Instant::now();
        while !folder.path().join("a").exists() && started.elapsed() < Duration::from_secs(10) {
            std::thread::yield_now();
        }
        std::thread::sleep(Duration::from_micros(u64::from(random.next_u32() % 12_000)));
        child.kill().expect("it can be killed");
        child.wait().expect("it is gone");
        let mut output = String::new();
        child
            .stdout
            .take()
            .expect("it is piped")
            .read_to_string(&mut output)
            .expect("what it said is left");
        let size = std::fs::metadata(&path).map(|file| file.len());
        let confirmed = heard(&output).confirmed == 1;
        moments[match size {
            _ if confirmed => 3,
            Err(_) => 0,
            Ok(0) => 1,
            Ok(_) => 2,
        }] += 1;
        runtime.block_on(async {
            let store = Store::open_url(&url)
                .await
                .expect("it opens clean after the kill");
            let kept = store.list(Kind::Shoot, false).await.expect("a list");
            assert!(kept.len() <= 1 && (kept.len() == 1 || !confirmed), "{kept:?}");
            let more = store
                .create(Kind::Shoot, NAME, "more", 2)
                .await
                .expect("it goes on");
            assert_eq!(
                store
                    .get(Kind::Shoot, more.id.as_str())
                    .await
                    .expect("it is there"),
                more
            );
            store.close().await;
            is_whole(&path).await;
        });
    }
    let [nothing, empty, begun, done] = moments;
    report(&format!(
        "killed while making a file: before it {nothing}, empty {empty}, begun {begun}, done {done}"
    ));
    assert!(empty + begun > 10, "too few kills met the making");
}

#[test]
fn a_server_is_killed_while_it_saves() {
    let mut cluster = Cluster::start();
    let runtime = runtime();
    let store = runtime
        .block_on(Store::open_url(&cluster.url))
        .expect("an empty database opens");
    let stop = Arc::new(AtomicBool::new(false));
    let clients: Vec<_> = (0..4)
        .map(|_| runtime.spawn(save_until(stop.clone(), store.clone())))
        .collect();
    let mut random = Pcg64::seed_from_u64(4);
    for _ in 0..3 {
        std::thread::sleep(Duration::from_millis(u64::from(100 + random.next_u32() % 200)));
        cluster.crash_and_restart();
    }
    std::thread::sleep(Duration::from_millis(100));
    stop.store(true, Ordering::Relaxed);
    let (mut saved, mut refused) = (0, 0);
    for client in clients {
        runtime.block_on(async {
            let (id, heard, times) = client.await.expect("the client ends");
            nothing_is_lost(&store, &id, &mut 0, &heard).await;
            let newest = store.get(Kind::Shoot, &id).await.expect("it is there");
            assert_eq!(
                newest.version, heard.confirmed,
                "a save sent again after a lost reply is kept once"
            );
            (saved, refused) = (saved + heard.confirmed, refused + times);
        });
    }
    assert!(saved > 40, "hardly anything was saved");
    assert!(refused > 0, "no kill met a save");
    report(&format!(
        "a server killed 3 times, {refused} saves refused and sent again, {saved} confirmed all there"
    ));
    runtime.block_on(store.close());
}

/// Saves on and on, and sends a save again whose fate it does not know.
async fn save_until(stop: Arc<AtomicBool>, store: Store) -> (String, Heard, u32) {
    let id = store
        .create(Kind::Shoot, NAME, &text_of(1), 1)
        .await
        .expect("it is kept")
        .id
        .to_string();
    let mut heard = Heard {
        opened: true,
        began: 1,
        confirmed: 1,
    };
    let mut refused = 0;
    while !stop.load(Ordering::Relaxed) {
        heard.began = heard.confirmed + 1;
        loop {
            match store
                .save(
                    Kind::Shoot,
                    &id,
                    NAME,
                    &text_of(heard.began),
                    heard.confirmed,
                    heard.began,
                )
                .await
            {
                Ok(saved) => break heard.confirmed = saved.version,
                Err(StoreError::Unreachable { .. }) if refused < 1000 => refused += 1,
                Err(error) => panic!("a killed server is not reachable, and not: {error:?}"),
            }
            tokio::time::sleep(Duration::from_millis(10)).await;
        }
    }
    (id, heard, refused)
}
