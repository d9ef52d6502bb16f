//! Many at once.

use crate::ground::{Ground, on_both, report};
use std::time::Instant;
use store::{Kind, Store, StoreError};
use tokio::task::JoinSet;

on_both!(
    of_those_who_start_together_one_wins,
    fifty_clients_at_once,
    a_new_store_is_opened_by_many
);

/// Two programs, each with eight windows, save the same document from the same start, twenty times.
async fn of_those_who_start_together_one_wins(Ground { store, url }: Ground) {
    let other = Store::open_url(&url).await.expect("a second program opens it");
    let mut newest = store
        .create(Kind::Shoot, "Band", "start", 0)
        .await
        .expect("it is kept");
    for round in 0..20 {
        let mut windows = JoinSet::new();
        for window in 0..16 {
            let (store, newest) = (
                if window % 2 == 0 {
                    store.clone()
                } else {
                    other.clone()
                },
                newest.clone(),
            );
            windows.spawn(async move {
                let text = format!("round {round}, window {window}");
                store
                    .save(
                        Kind::Shoot,
                        newest.id.as_str(),
                        "Band",
                        &text,
                        newest.version,
                        window,
                    )
                    .await
            });
        }
        let answers = windows.join_all().await;
        let (won, lost): (Vec<_>, Vec<_>) = answers.into_iter().partition(Result::is_ok);
        assert_eq!((won.len(), lost.len()), (1, 15), "{lost:?}");
        let winner = won.into_iter().flatten().next().expect("there is one");
        assert_eq!(winner.version, newest.version + 1);
        for answer in lost {
            let Err(StoreError::Conflict { theirs }) = answer else {
                panic!("{answer:?}")
            };
            assert_eq!(theirs, winner);
        }
        newest = winner;
    }
    let versions = store
        .versions(Kind::Shoot, newest.id.as_str())
        .await
        .expect("it is there");
    assert_eq!(versions.len(), 21);
    other.close().await;
}

/// Each client makes a document of its own and saves it ten times, and adds a line to one that all share
/// three times, starting over when somebody was faster, and lists what there is.
async fn fifty_clients_at_once(Ground { store, url }: Ground) {
    const CLIENTS: usize = 50;
    let shared = store
        .create(Kind::Place, "Shared", "", 0)
        .await
        .expect("it is kept")
        .id;
    let started = Instant::now();
    let mut clients = JoinSet::new();
    for client in 0..CLIENTS {
        let (store, shared) = (store.clone(), shared.clone());
        clients.spawn(async move {
            let mut own = store
                .create(Kind::Bag, &format!("Client {client}"), "", 0)
                .await
                .expect("it is kept");
            for step in 0..10 {
                let (id, text) = (own.id.clone(), format!("client {client} step {step}"));
                own = store
                    .save(Kind::Bag, id.as_str(), &own.name, &text, own.version, step)
                    .await
                    .expect("nobody else does");
            }
            for line in 0..3 {
                add_line(&store, shared.as_str(), &format!("client {client} line {line}\n")).await;
            }
            assert!(!store.list(Kind::Bag, false).await.expect("a list").is_empty());
            own
        });
    }
    let owned = clients.join_all().await;
    let seconds = started.elapsed().as_secs_f64();
    let versions = store
        .versions(Kind::Place, shared.as_str())
        .await
        .expect("it is there")
        .len();
    let saves = CLIENTS * 11 + versions - 1;
    let base = url.split(':').next().unwrap_or_default();
    report(&format!(
        "{base}: {CLIENTS} clients at once, {saves} saves in {seconds:.2} s"
    ));
    assert_eq!(versions, 1 + CLIENTS * 3);
    let text = store
        .get(Kind::Place, shared.as_str())
        .await
        .expect("it is there")
        .text;
    let mut lines: Vec<&str> = text.lines().collect();
    lines.sort_unstable();
    lines.dedup();
    assert_eq!(lines.len(), CLIENTS * 3, "no line was lost or doubled");
    for own in owned {
        assert_eq!(own.version, 11);
        assert_eq!(
            store.get(Kind::Bag, own.id.as_str()).await.expect("it is there"),
            own
        );
    }
}

async fn add_line(store: &Store, id: &str, line: &str) {
    let mut newest = store.get(Kind::Place, id).await.expect("it is there");
    loop {
        let text = format!("{}{line}", newest.text);
        match store
            .save(Kind::Place, id, "Shared", &text, newest.version, 0)
            .await
        {
            Ok(_) => return,
            Err(StoreError::Conflict { theirs }) => newest = theirs,
            Err(error) => panic!("{error}"),
        }
    }
}

/// Several programs open a store that none of them has made yet.
async fn a_new_store_is_opened_by_many(Ground { store, url }: Ground) {
    store.close().await;
    // A new file beside the one there is; a server's schema is emptied instead.
    let new = match url.strip_prefix("sqlite:") {
        Some(path) => format!("sqlite:{path}.new/folder/kept.db"),
        None => {
            crate::ground::ask(&url, "DROP TABLE version, document, _sqlx_migrations CASCADE").await;
            url
        }
    };
    let mut programs = JoinSet::new();
    for program in 0..8 {
        let url = new.clone();
        programs.spawn(async move {
            let store = Store::open_url(&url)
                .await
                .unwrap_or_else(|error| panic!("program {program}: {error:?}"));
            store.create(Kind::Bag, "Mine", "", 0).await.expect("it is kept");
            store
        });
    }
    let stores = programs.join_all().await;
    for store in &stores {
        assert_eq!(store.list(Kind::Bag, false).await.expect("a list").len(), 8);
    }
    for store in stores {
        store.close().await;
    }
}
