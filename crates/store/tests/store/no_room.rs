//! A full disk: a clear answer, nothing lost, and saving works again when there is room.

use crate::ground::{Cluster, as_server, ask, is_root, report, runtime};
use crate::part;
use rand_pcg::Pcg64;
use rand_pcg::rand_core::{Rng, SeedableRng};
use std::os::unix::fs::PermissionsExt;
use std::path::Path;
use std::process::Command;
use store::{Document, Kind, Store, StoreError};

/// The beginning of a command that runs in a world of its own, where it may mount a small disk that goes away
/// with it.
pub fn with_own_disks() -> Vec<&'static str> {
    if is_root() {
        vec!["unshare", "--mount"]
    } else {
        vec!["unshare", "--mount", "--user", "--map-root-user"]
    }
}

/// Runs a program that must do what it is asked.
pub fn must(program: &str, arguments: &[&str]) {
    let done = Command::new(program).args(arguments).output().expect("it starts");
    assert!(
        done.status.success(),
        "{program} {arguments:?}: {}",
        String::from_utf8_lossy(&done.stderr)
    );
}

/// Text that no database can make shorter.
fn noise(seed: u64, bytes: usize) -> String {
    let mut random = Pcg64::seed_from_u64(seed);
    (0..bytes)
        .map(|_| char::from(b' ' + (random.next_u32() % 95) as u8))
        .collect()
}

/// Saves ever more until there is no room; returns all that was confirmed.
async fn fill(store: &Store) -> Vec<Document> {
    let mut kept = vec![
        store
            .create(Kind::Shoot, "Grows", "", 0)
            .await
            .expect("there is room at first"),
    ];
    for step in 1..1000 {
        let newest = kept.last().expect("there is one");
        let text = noise(step as u64, 40_000);
        match store
            .save(
                Kind::Shoot,
                newest.id.as_str(),
                "Grows",
                &text,
                newest.version,
                step,
            )
            .await
        {
            Ok(saved) => kept.push(saved),
            Err(error) => {
                assert!(matches!(error, StoreError::Full { .. }), "{error:?}");
                let said = error.to_string();
                assert!(
                    said.contains("no room") && said.contains("Free some space"),
                    "{said}"
                );
                return kept;
            }
        }
    }
    panic!("there is room without end");
}

async fn all_there(store: &Store, kept: &[Document]) {
    let newest = kept.last().expect("there is one");
    for document in kept {
        let found = store
            .version(Kind::Shoot, document.id.as_str(), document.version)
            .await;
        assert!(found.expect("it is there") == *document);
    }
    let versions = store
        .versions(Kind::Shoot, newest.id.as_str())
        .await
        .expect("it is there");
    assert_eq!(
        versions.len(),
        kept.len(),
        "nothing is there that was not confirmed"
    );
}

/// Fills a store, makes room, and goes on.
async fn full_and_again(url: &str, make_room: impl FnOnce()) {
    let store = Store::open_url(url).await.expect("a new file opens");
    let mut kept = fill(&store).await;
    assert!(kept.len() > 5, "only {} versions found room", kept.len());
    all_there(&store, &kept).await;
    // Nothing changes by trying again, and small saves are refused as clearly as large ones or are kept.
    for step in 0..3 {
        let newest = kept.last().expect("there is one").clone();
        match store
            .save(
                Kind::Shoot,
                newest.id.as_str(),
                "Grows",
                &noise(0, 100_000),
                newest.version,
                step,
            )
            .await
        {
            Err(StoreError::Full { .. }) => {}
            other => panic!("{other:?}"),
        }
    }
    all_there(&store, &kept).await;
    make_room();
    for step in 0..3 {
        let newest = kept.last().expect("there is one").clone();
        let text = noise(1_000_000 + step as u64, 10_000);
        let saved = store
            .save(
                Kind::Shoot,
                newest.id.as_str(),
                "Grows",
                &text,
                newest.version,
                step,
            )
            .await;
        kept.push(saved.expect("there is room again"));
    }
    all_there(&store, &kept).await;
    store.close().await;
    let again = Store::open_url(url).await.expect("it opens again");
    all_there(&again, &kept).await;
    again.close().await;
}

#[test]
#[ignore = "a part of the next test, which gives it a small disk"]
fn on_a_small_disk() {
    let Some(folder) = part::task() else { return };
    must("mount", &["-t", "tmpfs", "-o", "size=2m", "small", &folder]);
    let folder = Path::new(&folder);
    let ballast = folder.join("ballast");
    std::fs::write(&ballast, vec![0; 700_000]).expect("there is room for it");
    runtime().block_on(full_and_again(
        &format!("sqlite:{}", folder.join("kept.db").display()),
        || {
            std::fs::remove_file(&ballast).expect("it can be taken away");
        },
    ));

    // A disk that is full to the last byte before there is a store.
    std::fs::remove_file(folder.join("kept.db")).expect("it can be taken away");
    let filled = std::fs::write(folder.join("ballast"), vec![0; 4_000_000]);
    assert_eq!(
        filled.expect_err("it does not fit").kind(),
        std::io::ErrorKind::StorageFull
    );
    runtime().block_on(async {
        let path = folder.join("new.db");
        let error = Store::open_file(&path).await.expect_err("there is no room");
        assert!(matches!(error, StoreError::Full { .. }), "{error:?}");
        std::fs::remove_file(&ballast).expect("it can be taken away");
        let store = Store::open_file(&path).await.expect("there is room now");
        store
            .create(Kind::Bag, "Fits", "", 0)
            .await
            .expect("there is room now");
        store.close().await;
    });
}

#[test]
fn the_disk_is_full() {
    let folder = tempfile::tempdir().expect("a temporary folder");
    let place = folder.path().to_str().expect("a plain path");
    part::run(&with_own_disks(), "no_room::on_a_small_disk", place);
}

#[test]
#[ignore = "a part of the next test, which limits its files"]
fn with_a_limit() {
    let Some(folder) = part::task() else { return };
    runtime().block_on(full_and_again(&format!("sqlite:{folder}/kept.db"), || {
        must(
            "prlimit",
            &["--pid", &std::process::id().to_string(), "--fsize=unlimited:"],
        );
    }));
}

/// A write that is refused for another reason than the disk, as by a quota: the system limits the size of
/// files.
#[test]
fn the_share_of_the_disk_is_used_up() {
    let folder = tempfile::tempdir().expect("a temporary folder");
    let place = folder.path().to_str().expect("a plain path");
    // 1 MiB as the shell counts, in blocks of 512 bytes; the signal that would end the program is ignored.
    let limit = [
        "sh",
        "-c",
        "trap '' XFSZ; ulimit -S -f 2048; exec \"$@\"",
        "limit",
    ];
    part::run(&limit, "no_room::with_a_limit", place);
}

#[test]
#[ignore = "a part of the next test, which gives it a small disk"]
fn a_server_on_a_small_disk() {
    let Some(folder) = part::task() else { return };
    must("mount", &["-t", "tmpfs", "-o", "size=12m", "small", &folder]);
    let ballast = Path::new(&folder).join("ballast");
    std::fs::write(&ballast, vec![0; 1_000_000]).expect("there is room for it");
    let inner = Path::new(&folder).join("tables");
    std::fs::create_dir(&inner).expect("there is room for it");
    let _ = as_server(&inner);
    let cluster = Cluster::start();
    let url = cluster.url.replace("/postgres?", "/small?");
    runtime().block_on(async {
        let space: String = format!("CREATE TABLESPACE small LOCATION '{}'", inner.display());
        ask(&cluster.url, &space).await;
        ask(
            &cluster.url,
            "CREATE DATABASE small TEMPLATE template0 TABLESPACE small",
        )
        .await;
        full_and_again(&url, || {
            std::fs::remove_file(&ballast).expect("it can be taken away")
        })
        .await;
    });
}

#[test]
fn the_disk_of_a_server_is_full() {
    if !is_root() {
        // Only root may both mount a disk and be somebody else, who owns the server.
        return report("a server with a full disk was NOT tried; only root can");
    }
    let folder = tempfile::tempdir().expect("a temporary folder");
    std::fs::set_permissions(folder.path(), PermissionsExt::from_mode(0o755)).expect("the owner may");
    let place = folder.path().to_str().expect("a plain path");
    part::run(&with_own_disks(), "no_room::a_server_on_a_small_disk", place);
}
