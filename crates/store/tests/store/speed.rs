//! How long things take, said and not judged: machines differ. What is judged is that it was all done.

use crate::ground::{Ground, on_both, report};
use std::time::{Duration, Instant};
use store::Kind;

on_both!(saving_and_listing_a_thousand);

async fn saving_and_listing_a_thousand(Ground { store, url }: Ground) {
    let base = url.split(':').next().unwrap_or_default();
    let text = "aperture = \"f/4\" # as a shoot file is\n".repeat(60);
    let mut newest = store
        .create(Kind::Shoot, "Saved often", &text, 0)
        .await
        .expect("it is kept");
    let mut times = Vec::new();
    for step in 1..=200 {
        let started = Instant::now();
        let text = format!("{text}# step {step}\n");
        newest = store
            .save(
                Kind::Shoot,
                newest.id.as_str(),
                "Saved often",
                &text,
                newest.version,
                step,
            )
            .await
            .expect("it is saved");
        times.push(started.elapsed());
    }
    times.sort_unstable();
    let ms = |time: Duration| time.as_secs_f64() * 1e3;
    report(&format!(
        "{base}: a save of {} bytes: median {:.2} ms, 95 of 100 within {:.2} ms, slowest {:.2} ms",
        text.len(),
        ms(times[100]),
        ms(times[190]),
        ms(times[199])
    ));

    let mut making = tokio::task::JoinSet::new();
    for number in 0..1000 {
        let (store, text) = (store.clone(), text.clone());
        making.spawn(async move {
            store
                .create(Kind::Place, &format!("Place {number}"), &text, number)
                .await
        });
    }
    assert!(making.join_all().await.iter().all(Result::is_ok));
    let mut fastest = Duration::MAX;
    for _ in 0..5 {
        let started = Instant::now();
        let list = store.list(Kind::Place, false).await.expect("a list");
        fastest = fastest.min(started.elapsed());
        let names: Vec<&str> = list.iter().map(|listed| listed.name.as_str()).collect();
        let expected: Vec<String> = (0..1000).rev().map(|number| format!("Place {number}")).collect();
        assert_eq!(names, expected);
    }
    report(&format!(
        "{base}: a list of 1000 documents: {:.2} ms",
        ms(fastest)
    ));
}
