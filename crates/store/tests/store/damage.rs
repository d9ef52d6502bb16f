//! What is not a store of ours, or not any more, is refused in words and left as it was.

use crate::ground::{Ground, ask, on_both, runtime};
use sqlx::{ConnectOptions, Connection, Executor};
use std::path::{Path, PathBuf};
use store::{Kind, Store, StoreError};
use tempfile::TempDir;

/// A file with thirty documents, closed.
fn good_file() -> (TempDir, PathBuf) {
    let folder = tempfile::tempdir().expect("a temporary folder");
    let path = folder.path().join("kept.db");
    runtime().block_on(async {
        let store = Store::open_file(&path).await.expect("a new file opens");
        for number in 0..30 {
            let text = "a line of text\n".repeat(100 * number);
            store
                .create(Kind::Shoot, "Kept", &text, 0)
                .await
                .expect("it is kept");
        }
        store.close().await;
    });
    (folder, path)
}

/// Changes a good file and says what opening it must answer; and that the file stays as it was.
fn check(change: impl FnOnce(&mut Vec<u8>), expected: impl Fn(&StoreError) -> bool) {
    let (_folder, path) = good_file();
    let mut bytes = std::fs::read(&path).expect("it can be read");
    change(&mut bytes);
    std::fs::write(&path, &bytes).expect("it can be written");
    refused(&path, expected);
}

fn refused(path: &Path, expected: impl Fn(&StoreError) -> bool) {
    let before = std::fs::read(path).expect("it can be read");
    let error = runtime()
        .block_on(Store::open_file(path))
        .expect_err("it is refused");
    assert!(expected(&error), "{error:?}");
    let said = error.to_string();
    assert!(
        said.contains(&path.display().to_string()) && said.contains("left"),
        "{said}"
    );
    assert!(
        std::fs::read(path).expect("it can be read") == before,
        "the file was changed"
    );
}

fn damaged(error: &StoreError) -> bool {
    matches!(error, StoreError::Damaged { .. })
}

#[test]
fn a_damaged_file_is_left_untouched() {
    check(|bytes| bytes.fill(0x55), damaged);
    check(|bytes| bytes.fill(0), damaged);
    check(|bytes| bytes[..16].fill(b'x'), damaged);
    check(|bytes| bytes[16..100].fill(0xff), damaged);
    for length in [1, 15, 16, 50, 100, 4096, 5000, 20_480] {
        check(|bytes| bytes.truncate(length), damaged);
    }
    check(|bytes| bytes.truncate(bytes.len() / 2), damaged);
    check(|bytes| bytes.truncate(bytes.len() - 4096), damaged);
    // In the first page behind the header, where the tables are listed; in every page between; in the last.
    check(|bytes| bytes[100..4096].fill(0xaa), damaged);
    check(
        |bytes| {
            bytes
                .chunks_mut(4096)
                .skip(1)
                .for_each(|page| page[..64].fill(0xaa))
        },
        damaged,
    );
    check(
        |bytes| *bytes = b"shoot = \"a text file with the wrong name\"\n".to_vec(),
        damaged,
    );
}

/// Damage that comes while the store is open is met when it is read.
#[test]
fn damage_is_met_while_reading() {
    let (_folder, path) = good_file();
    runtime().block_on(async {
        let store = Store::open_file(&path).await.expect("it opens");
        let mut bytes = std::fs::read(&path).expect("it can be read");
        bytes[4096..].fill(0xaa);
        std::fs::write(&path, &bytes).expect("it can be written");
        let error = store
            .list(Kind::Shoot, false)
            .await
            .expect_err("it cannot be read");
        assert!(damaged(&error), "{error:?}");
    });
}

/// Does something to a file without the store.
async fn by_hand(path: &Path, sql: &'static str) {
    let options = sqlx::sqlite::SqliteConnectOptions::new()
        .filename(path)
        .create_if_missing(true);
    let mut connection = options.connect().await.expect("it opens");
    connection.execute(sqlx::raw_sql(sql)).await.expect("it is done");
    connection.close().await.expect("it closes");
}

#[test]
fn another_programs_file_is_left_untouched() {
    let folder = tempfile::tempdir().expect("a temporary folder");
    let not_ours = |error: &StoreError| matches!(error, StoreError::NotOurs { .. });
    for (name, sql) in [
        ("table.db", "CREATE TABLE document (id TEXT)"),
        ("number.db", "PRAGMA application_id = 7; PRAGMA user_version = 1"),
        ("both.db", "PRAGMA application_id = 7; CREATE TABLE t (a)"),
    ] {
        let path = folder.path().join(name);
        runtime().block_on(by_hand(&path, sql));
        refused(&path, not_ours);
    }
}

const LATER: &str = "INSERT INTO _sqlx_migrations (version, description, success, checksum, execution_time) \
     VALUES (9999, 'later', true, '\\x00', 0)";

#[test]
fn a_later_programs_file_is_left_untouched() {
    let (_folder, path) = good_file();
    runtime().block_on(by_hand(&path, LATER));
    refused(&path, |error| matches!(error, StoreError::Newer { .. }));
}

on_both!(
    a_later_programs_store_is_not_opened,
    someone_elses_tables_are_not_touched,
    what_must_be_erased_can_be
);

async fn by_hand_at(url: &str, sql: &'static str) {
    match url.strip_prefix("sqlite:") {
        Some(path) => by_hand(Path::new(path), sql).await,
        None => ask(url, sql).await,
    }
}

async fn a_later_programs_store_is_not_opened(Ground { url, .. }: Ground) {
    by_hand_at(&url, LATER).await;
    let error = Store::open_url(&url).await.expect_err("it is refused");
    assert!(matches!(error, StoreError::Newer { .. }), "{error:?}");
    assert!(error.to_string().contains("later version"), "{error}");
}

async fn someone_elses_tables_are_not_touched(Ground { store, url }: Ground) {
    store.close().await;
    // What is left has a table of that name, and nothing that says it is ours.
    let sql = match url.strip_prefix("sqlite:") {
        Some(_) => "PRAGMA application_id = 0; DROP TABLE _sqlx_migrations",
        None => "DROP TABLE _sqlx_migrations",
    };
    by_hand_at(&url, sql).await;
    let error = Store::open_url(&url).await.expect_err("it is refused");
    assert!(matches!(error, StoreError::NotOurs { .. }), "{error:?}");
}

/// The words of SCHEMA.md for erasing, on both databases.
async fn what_must_be_erased_can_be(Ground { store, url }: Ground) {
    let first = store
        .create(Kind::Shoot, "Stays", "1", 0)
        .await
        .expect("it is kept");
    let gone = store
        .create(Kind::Shoot, "Goes", "1", 0)
        .await
        .expect("it is kept");
    store
        .save(Kind::Shoot, gone.id.as_str(), "Goes", "2", 1, 0)
        .await
        .expect("it is saved");
    let schema = include_str!("../../SCHEMA.md");
    let sql = schema
        .lines()
        .find_map(|line| line.strip_prefix("    BEGIN;"))
        .expect("SCHEMA.md says how to erase");
    let sql: String = format!("BEGIN;{}", sql.replace('…', gone.id.as_str()));
    by_hand_at(&url, sql.leak()).await;
    let missing = store.get(Kind::Shoot, gone.id.as_str()).await;
    assert!(matches!(missing, Err(StoreError::NotFound)), "{missing:?}");
    assert_eq!(
        store.get(Kind::Shoot, first.id.as_str()).await.expect("it stays"),
        first
    );
}
