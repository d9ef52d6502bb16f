//! What each operation does, one thing at a time.

use crate::ground::on_both;
use store::{Document, Kind, Store, StoreError};

const NOWHERE: &str = "0000000000000000";

async fn shoot(store: &Store, name: &str, text: &str, at_ms: i64) -> Document {
    store
        .create(Kind::Shoot, name, text, at_ms)
        .await
        .expect("it is kept")
}

async fn what_is_kept_comes_back(store: Store) {
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
        assert_eq!(
            store.get(kind, kept.id.as_str()).await.expect("it is there"),
            kept
        );
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

on_both!(what_is_kept_comes_back);
