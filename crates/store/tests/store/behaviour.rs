//! What each operation does, one thing at a time.

use crate::ground::{Ground, on_both};
use store::{Document, Kind, LONGEST_NAME, LONGEST_TEXT, Part, Store, StoreError};

const NOWHERE: &str = "0000000000000000";

on_both!(
    what_is_kept_comes_back,
    saving_adds_a_version,
    saving_the_same_adds_nothing,
    an_old_start_conflicts,
    removing_keeps_everything,
    restoring_is_a_new_version,
    what_is_not_there,
    names_and_texts_have_limits,
    lists_come_newest_first,
    everything_comes_in_pages,
    it_is_kept_for_the_next_program,
);

async fn shoot(store: &Store, name: &str, text: &str, at_ms: i64) -> Document {
    store
        .create(Kind::Shoot, name, text, at_ms)
        .await
        .expect("it is kept")
}

async fn save(store: &Store, newest: &Document, name: &str, text: &str) -> Result<Document, StoreError> {
    store
        .save(
            newest.kind,
            newest.id.as_str(),
            name,
            text,
            newest.version,
            newest.saved_at_ms + 1,
        )
        .await
}

async fn newest(store: &Store, document: &Document) -> Document {
    store
        .get(document.kind, document.id.as_str())
        .await
        .expect("it is there")
}

async fn versions(store: &Store, document: &Document) -> Vec<i64> {
    let all = store
        .versions(document.kind, document.id.as_str())
        .await
        .expect("it is there");
    all.iter().map(|listed| listed.version).collect()
}

async fn what_is_kept_comes_back(Ground { store, .. }: Ground) {
    assert!(store.is_empty().await.expect("it can be asked"));
    let text = "# Überall ✓\r\n[[set-up]]\nname = '🎺'\n\t\u{7f}\u{feff}";
    for kind in Kind::ALL {
        let kept = store
            .create(kind, " Nádvoří – 日本 ", text, 1_764_000_000_123)
            .await
            .expect("it is kept");
        assert_eq!((kept.kind, kept.version, kept.removed), (kind, 1, false));
        assert_eq!(
            (kept.name.as_str(), kept.text.as_str()),
            (" Nádvoří – 日本 ", text)
        );
        assert_eq!(kept.saved_at_ms, 1_764_000_000_123);
        assert_eq!(newest(&store, &kept).await, kept);
        assert_eq!(
            store
                .version(kind, kept.id.as_str(), 1)
                .await
                .expect("it is there"),
            kept
        );
        for other in Kind::ALL.into_iter().filter(|&other| other != kind) {
            let missing = store.get(other, kept.id.as_str()).await;
            assert!(matches!(missing, Err(StoreError::NotFound)), "{missing:?}");
        }
    }
    assert!(!store.is_empty().await.expect("it can be asked"));
}

async fn saving_adds_a_version(Ground { store, .. }: Ground) {
    let first = shoot(&store, "Band", "a = 1", 10).await;
    let second = save(&store, &first, "Band", "a = 2").await.expect("it is saved");
    let third = save(&store, &second, "Brass band", "a = 2")
        .await
        .expect("a new name is a new version");
    assert_eq!((second.version, third.version), (2, 3));
    assert_eq!((third.id.clone(), third.saved_at_ms), (first.id.clone(), 12));
    assert_eq!(newest(&store, &first).await, third);
    assert_eq!(versions(&store, &first).await, [3, 2, 1]);
    for earlier in [first, second, third] {
        let kept = store
            .version(Kind::Shoot, earlier.id.as_str(), earlier.version)
            .await;
        assert_eq!(kept.expect("it is there"), earlier);
    }
}

async fn saving_the_same_adds_nothing(Ground { store, .. }: Ground) {
    let first = shoot(&store, "Band", "a = 1", 10).await;
    assert_eq!(
        save(&store, &first, "Band", "a = 1")
            .await
            .expect("it is the same"),
        first
    );
    let second = save(&store, &first, "Band", "a = 2").await.expect("it is saved");
    // The reply was lost, and the program sends the save again.
    assert_eq!(
        save(&store, &first, "Band", "a = 2")
            .await
            .expect("it is the same"),
        second
    );
    assert_eq!(versions(&store, &first).await, [2, 1]);
}

async fn an_old_start_conflicts(Ground { store, .. }: Ground) {
    let first = shoot(&store, "Band", "a = 1", 10).await;
    let theirs = save(&store, &first, "Band", "theirs").await.expect("it is saved");
    let id = first.id.as_str();
    for based_on in [i64::MIN, -1, 0, 1, 3, i64::MAX] {
        let saved = store.save(Kind::Shoot, id, "Band", "ours", based_on, 99).await;
        let removed = store
            .remove(Kind::Shoot, id, based_on, 99)
            .await
            .map(|()| first.clone());
        let restored = store.restore(Kind::Shoot, id, 1, based_on, 99).await;
        for answer in [saved, removed, restored] {
            let Err(StoreError::Conflict { theirs: shown }) = answer else {
                panic!("{based_on}: {answer:?}")
            };
            assert_eq!(shown, theirs);
        }
    }
    assert_eq!(versions(&store, &first).await, [2, 1]);
}

async fn removing_keeps_everything(Ground { store, .. }: Ground) {
    let first = shoot(&store, "Band", "a = 1", 10).await;
    let id = first.id.as_str();
    store.remove(Kind::Shoot, id, 1, 20).await.expect("it is removed");
    let gone = newest(&store, &first).await;
    assert_eq!(
        gone,
        Document {
            version: 2,
            removed: true,
            saved_at_ms: 20,
            ..first.clone()
        }
    );
    store
        .remove(Kind::Shoot, id, 2, 30)
        .await
        .expect("it is removed already");
    store
        .remove(Kind::Shoot, id, 1, 30)
        .await
        .expect("the same request again");
    assert_eq!(versions(&store, &first).await, [2, 1]);
    assert!(store.list(Kind::Shoot, false).await.expect("a list").is_empty());
    assert_eq!(store.list(Kind::Shoot, true).await.expect("a list").len(), 1);
    assert!(!store.is_empty().await.expect("it can be asked"));
    assert_eq!(
        store.version(Kind::Shoot, id, 1).await.expect("it is kept"),
        first
    );
    let back = save(&store, &gone, "Band", "a = 1")
        .await
        .expect("the same text brings it back");
    assert_eq!((back.version, back.removed), (3, false));
    assert_eq!(store.list(Kind::Shoot, false).await.expect("a list").len(), 1);
}

async fn restoring_is_a_new_version(Ground { store, .. }: Ground) {
    let first = shoot(&store, "Band", "a = 1", 10).await;
    let second = save(&store, &first, "Choir", "a = 2").await.expect("it is saved");
    let id = first.id.as_str();
    let restored = store
        .restore(Kind::Shoot, id, 1, second.version, 50)
        .await
        .expect("it is restored");
    assert_eq!(
        restored,
        Document {
            version: 3,
            saved_at_ms: 50,
            ..first.clone()
        }
    );
    assert_eq!(newest(&store, &first).await, restored);
    let same = store
        .restore(Kind::Shoot, id, 3, 3, 60)
        .await
        .expect("it is that already");
    assert_eq!(same, restored);
    store.remove(Kind::Shoot, id, 3, 70).await.expect("it is removed");
    let back = store
        .restore(Kind::Shoot, id, 4, 4, 80)
        .await
        .expect("a removed one has its text still");
    assert_eq!(
        back,
        Document {
            version: 5,
            saved_at_ms: 80,
            ..first
        }
    );
}

async fn what_is_not_there(Ground { store, .. }: Ground) {
    let kept = shoot(&store, "Band", "", 0).await;
    let upper = kept.id.as_str().to_uppercase() + "A";
    for id in [NOWHERE, "", "x", "' OR 1=1 --", "\0", "zzzzzzzzzzzzzzz\0", &upper] {
        let answers = [
            store.get(Kind::Shoot, id).await.map(drop),
            store.save(Kind::Shoot, id, "n", "t", 1, 0).await.map(drop),
            store.remove(Kind::Shoot, id, 1, 0).await,
            store.versions(Kind::Shoot, id).await.map(drop),
            store.version(Kind::Shoot, id, 1).await.map(drop),
            store.restore(Kind::Shoot, id, 1, 1, 0).await.map(drop),
        ];
        for answer in answers {
            assert!(matches!(answer, Err(StoreError::NotFound)), "{id:?}: {answer:?}");
        }
    }
    for version in [i64::MIN, 0, 2, i64::MAX] {
        let missing = store.version(Kind::Shoot, kept.id.as_str(), version).await;
        assert!(
            matches!(missing, Err(StoreError::NotFound)),
            "{version}: {missing:?}"
        );
        let missing = store.restore(Kind::Shoot, kept.id.as_str(), version, 1, 0).await;
        assert!(
            matches!(missing, Err(StoreError::NotFound)),
            "{version}: {missing:?}"
        );
    }
}

async fn names_and_texts_have_limits(Ground { store, .. }: Ground) {
    let kept = shoot(
        &store,
        &"é".repeat(LONGEST_NAME),
        &"x".repeat(LONGEST_TEXT),
        i64::MAX,
    )
    .await;
    assert_eq!(newest(&store, &kept).await, kept);
    let kept = shoot(&store, "🎺", "", i64::MIN).await;
    assert_eq!(newest(&store, &kept).await, kept);

    let check = async |name: &str, text: &str, expected: &dyn Fn(&StoreError) -> bool| {
        let id = kept.id.as_str();
        let made = store
            .create(Kind::Shoot, name, text, 0)
            .await
            .expect_err("it is refused");
        let saved = store
            .save(Kind::Shoot, id, name, text, 1, 0)
            .await
            .expect_err("it is refused");
        assert!(expected(&made) && expected(&saved), "{made:?}, {saved:?}");
    };
    check("", "", &|error| matches!(error, StoreError::NoName)).await;
    check(" \u{a0}\u{3000}", "", &|error| {
        matches!(error, StoreError::NoName)
    })
    .await;
    check(&"é".repeat(LONGEST_NAME + 1), "", &|error| {
        matches!(
            error,
            StoreError::TooLong {
                part: Part::Name,
                length: 201,
                most: 200
            }
        )
    })
    .await;
    // 349 526 characters of three bytes are two bytes too many.
    check("n", &"€".repeat(349_526), &|error| {
        matches!(
            error,
            StoreError::TooLong {
                part: Part::Text,
                length: 1_048_578,
                most: LONGEST_TEXT
            }
        )
    })
    .await;
    for (name, at) in [
        ("a\0", 2),
        ("\nb", 1),
        ("a\tb", 2),
        ("né\u{85}", 3),
        ("\u{7f}x", 1),
    ] {
        check(name, "", &|error| {
            matches!(error, StoreError::Unprintable { part: Part::Name, at: found, .. } if *found == at)
        })
        .await;
    }
    check("n", "é\0", &|error| {
        matches!(
            error,
            StoreError::Unprintable {
                part: Part::Text,
                at: 2,
                ..
            }
        )
    })
    .await;
    assert_eq!(versions(&store, &kept).await, [1]);
}

async fn lists_come_newest_first(Ground { store, .. }: Ground) {
    let early = shoot(&store, "early", "", 100).await;
    let late = shoot(&store, "late", "", 300).await;
    let middle = shoot(&store, "middle", "", 200).await;
    store
        .create(Kind::Bag, "a bag", "", 400)
        .await
        .expect("it is kept");
    let names = async |removed| {
        let list = store.list(Kind::Shoot, removed).await.expect("a list");
        list.into_iter()
            .map(|listed| (listed.name, listed.version))
            .collect::<Vec<_>>()
    };
    assert_eq!(
        names(false).await,
        [("late".into(), 1), ("middle".into(), 1), ("early".into(), 1)]
    );
    store
        .save(Kind::Shoot, early.id.as_str(), "early, later", "", 1, 500)
        .await
        .expect("it is saved");
    store
        .remove(Kind::Shoot, late.id.as_str(), 1, 600)
        .await
        .expect("it is removed");
    assert_eq!(
        names(false).await,
        [("early, later".into(), 2), ("middle".into(), 1)]
    );
    assert_eq!(names(true).await, [("late".into(), 2)]);
    let listed = store
        .list(Kind::Shoot, false)
        .await
        .expect("a list")
        .pop()
        .expect("there is one");
    let same = (
        listed.id,
        listed.kind,
        listed.name,
        listed.saved_at_ms,
        listed.removed,
    );
    assert_eq!(same, (middle.id, Kind::Shoot, "middle".into(), 200, false));
    assert_eq!(store.list(Kind::Place, false).await.expect("a list"), []);
}

async fn everything_comes_in_pages(Ground { store, .. }: Ground) {
    assert!(store.everything().next_page().await.expect("a page").is_empty());
    let mut expected = Vec::new();
    for (number, kind) in Kind::ALL.into_iter().cycle().take(9).enumerate() {
        let mut document = store
            .create(kind, "n", &number.to_string(), 0)
            .await
            .expect("it is kept");
        for version in 0..number * 3 {
            expected.push(document.clone());
            document = save(&store, &document, "n", &format!("{number} {version}"))
                .await
                .expect("it is saved");
        }
        store
            .remove(kind, document.id.as_str(), document.version, 9)
            .await
            .expect("it is removed");
        expected.push(document.clone());
        expected.push(newest(&store, &document).await);
    }
    expected.sort_by_key(|document| (document.id.clone(), document.version));
    let mut reading = store.everything();
    let mut found = Vec::new();
    loop {
        let page = reading.next_page().await.expect("a page");
        assert!(page.len() <= 16);
        if page.is_empty() {
            break;
        }
        found.extend(page);
    }
    assert_eq!(found, expected);
    assert!(
        reading
            .next_page()
            .await
            .expect("the end stays the end")
            .is_empty()
    );
}

async fn it_is_kept_for_the_next_program(Ground { store, url }: Ground) {
    let kept = shoot(&store, "Band", "a = 1", 10).await;
    let other = Store::open_url(&url)
        .await
        .expect("a second program opens it meanwhile");
    assert_eq!(newest(&other, &kept).await, kept);
    let second = save(&other, &kept, "Band", "a = 2")
        .await
        .expect("it may save too");
    assert_eq!(newest(&store, &kept).await, second);
    store.close().await;
    other.close().await;
    let again = Store::open_url(&url).await.expect("a later program opens it");
    assert_eq!(newest(&again, &kept).await, second);
    assert_eq!(versions(&again, &kept).await, [2, 1]);
    again.close().await;
    let closed = again.get(Kind::Shoot, kept.id.as_str()).await;
    assert!(
        matches!(closed, Err(StoreError::Unreachable { .. })),
        "{closed:?}"
    );
}
