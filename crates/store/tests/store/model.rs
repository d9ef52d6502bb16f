//! Any sequence of operations agrees with a model that is plain enough to be believed.

use crate::ground::{Room, runtime};
use proptest::prelude::*;
use proptest::sample::Index;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use store::{Document, Kind, Listed, Store, StoreError};

/// One call. Which document and version it is about is chosen among those that are there.
#[derive(Clone, Debug)]
enum Step {
    Create {
        kind: Kind,
        name: String,
        text: String,
    },
    Save {
        of: Index,
        based_on: Start,
        name: String,
        text: String,
    },
    Remove {
        of: Index,
        based_on: Start,
    },
    Restore {
        of: Index,
        version: i64,
        based_on: Start,
    },
    Version {
        of: Index,
        version: i64,
    },
    WrongKind {
        of: Index,
    },
    Reopen,
}

/// The version that somebody says they started from, counted back from the newest.
#[derive(Clone, Copy, Debug)]
struct Start(i64);

fn kinds() -> impl Strategy<Value = Kind> {
    prop::sample::select(&Kind::ALL[..])
}

/// Few different ones, so that the same is saved again now and then, and some that are refused.
fn names() -> impl Strategy<Value = String> {
    prop_oneof![
        8 => "[ab]",
        2 => "\\PC{1,12}",
        1 => Just(String::new()),
        1 => Just("a\u{1}".into()),
        1 => Just("x".repeat(201)),
    ]
}

fn texts() -> impl Strategy<Value = String> {
    prop_oneof![8 => "[ab]", 2 => "(?s).{0,40}", 1 => Just("t\0".into()), 1 => Just("long ".repeat(5000))]
}

fn starts() -> impl Strategy<Value = Start> {
    prop_oneof![6 => Just(0), 1 => Just(1), 1 => Just(-1), 1 => any::<i16>().prop_map(i64::from)]
        .prop_map(Start)
}

fn steps() -> impl Strategy<Value = Vec<Step>> {
    let of = any::<Index>;
    let step = prop_oneof![
        3 => (kinds(), names(), texts()).prop_map(|(kind, name, text)| Step::Create { kind, name, text }),
        6 => (of(), starts(), names(), texts())
            .prop_map(|(of, based_on, name, text)| Step::Save { of, based_on, name, text }),
        2 => (of(), starts()).prop_map(|(of, based_on)| Step::Remove { of, based_on }),
        3 => (of(), 0..6i64, starts())
            .prop_map(|(of, version, based_on)| Step::Restore { of, version, based_on }),
        1 => (of(), -1..6i64).prop_map(|(of, version)| Step::Version { of, version }),
        1 => of().prop_map(|of| Step::WrongKind { of }),
        1 => Just(Step::Reopen),
    ];
    prop::collection::vec(step, 1..30)
}

/// The model: for each document all its versions, the first one first.
#[derive(Default)]
struct Model(Vec<Vec<Document>>);

/// What a call may answer besides a document.
#[derive(Debug, PartialEq)]
enum Refusal {
    NotFound,
    Conflict(Document),
    Unfit,
}

type Answer = Result<Document, Refusal>;

fn answer(result: Result<Document, StoreError>) -> Answer {
    result.map_err(|error| match error {
        StoreError::NotFound => Refusal::NotFound,
        StoreError::Conflict { theirs } => Refusal::Conflict(theirs),
        StoreError::NoName | StoreError::TooLong { .. } | StoreError::Unprintable { .. } => Refusal::Unfit,
        other => panic!("{other:?}"),
    })
}

fn fits(name: &str, text: &str) -> bool {
    let length = name.chars().count();
    let blank = name.chars().all(char::is_whitespace);
    !blank
        && length <= 200
        && !name.chars().any(char::is_control)
        && text.len() <= 1 << 20
        && !text.contains('\0')
}

impl Model {
    fn next(
        &mut self,
        at: usize,
        based_on: i64,
        name: &str,
        text: &str,
        removed: bool,
        at_ms: i64,
    ) -> Answer {
        let newest = self.newest(at);
        if (newest.name.as_str(), newest.text.as_str(), newest.removed) == (name, text, removed) {
            return Ok(newest);
        }
        if newest.version != based_on {
            return Err(Refusal::Conflict(newest));
        }
        let next = Document {
            name: name.into(),
            text: text.into(),
            removed,
            version: newest.version + 1,
            saved_at_ms: at_ms,
            ..newest
        };
        self.0[at].push(next.clone());
        Ok(next)
    }

    fn newest(&self, at: usize) -> Document {
        self.0[at].last().expect("a document has a version").clone()
    }

    fn version(&self, at: usize, version: i64) -> Answer {
        self.0[at]
            .iter()
            .find(|document| document.version == version)
            .cloned()
            .ok_or(Refusal::NotFound)
    }

    fn listed(&self, kind: Kind, removed: bool) -> Vec<Listed> {
        let newest = (0..self.0.len()).map(|at| self.newest(at));
        let mut list: Vec<Listed> = newest
            .filter(|newest| newest.kind == kind && newest.removed == removed)
            .map(listed)
            .collect();
        list.sort_by_key(|listed| (std::cmp::Reverse(listed.saved_at_ms), listed.id.clone()));
        list
    }
}

fn listed(document: Document) -> Listed {
    let Document {
        id,
        kind,
        name,
        version,
        saved_at_ms,
        removed,
        ..
    } = document;
    Listed {
        id,
        kind,
        name,
        version,
        saved_at_ms,
        removed,
    }
}

async fn agree(url: &str, steps: &[Step]) {
    let mut store = Store::open_url(url).await.expect("a new store opens");
    let mut model = Model::default();
    for (number, step) in steps.iter().enumerate() {
        // Not in the order of the saves, and sometimes the same, as clocks are.
        let at_ms = (number as i64 * 7) % 5;
        follow(&mut store, &mut model, url, step, at_ms).await;
    }
    compare(&store, &model).await;
    store.close().await;
}

async fn follow(store: &mut Store, model: &mut Model, url: &str, step: &Step, at_ms: i64) {
    match step {
        Step::Create { kind, name, text } => match answer(store.create(*kind, name, text, at_ms).await) {
            Ok(made) => {
                assert!(fits(name, text));
                let id = made.id.clone();
                let expected = Document {
                    id,
                    kind: *kind,
                    name: name.clone(),
                    version: 1,
                    saved_at_ms: at_ms,
                    removed: false,
                    text: text.clone(),
                };
                assert_eq!(made, expected);
                assert!(model.0.iter().all(|versions| versions[0].id != made.id));
                model.0.push(vec![made]);
            }
            Err(refusal) => assert_eq!((refusal, fits(name, text)), (Refusal::Unfit, false)),
        },
        Step::Reopen => {
            store.close().await;
            *store = Store::open_url(url).await.expect("it opens again");
        }
        _ if model.0.is_empty() => {}
        Step::Save {
            of,
            based_on,
            name,
            text,
        } => {
            let (at, start, first) = chosen(model, of, based_on);
            let expected = if fits(name, text) {
                model.next(at, start, name, text, false, at_ms)
            } else {
                Err(Refusal::Unfit)
            };
            let found = store
                .save(first.kind, first.id.as_str(), name, text, start, at_ms)
                .await;
            assert_eq!(answer(found), expected);
        }
        Step::Remove { of, based_on } => {
            let (at, start, first) = chosen(model, of, based_on);
            let newest = model.newest(at);
            let expected = model.next(at, start, &newest.name, &newest.text, true, at_ms);
            let found = store.remove(first.kind, first.id.as_str(), start, at_ms).await;
            assert_eq!(answer(found.map(|()| newest.clone())), expected.map(|_| newest));
        }
        Step::Restore {
            of,
            version,
            based_on,
        } => {
            let (at, start, first) = chosen(model, of, based_on);
            let expected = match model.version(at, *version) {
                Ok(earlier) => model.next(at, start, &earlier.name, &earlier.text, false, at_ms),
                Err(refusal) => Err(refusal),
            };
            let found = store
                .restore(first.kind, first.id.as_str(), *version, start, at_ms)
                .await;
            assert_eq!(answer(found), expected);
        }
        Step::Version { of, version } => {
            let (at, _, first) = chosen(model, of, &Start(0));
            let found = store.version(first.kind, first.id.as_str(), *version).await;
            assert_eq!(answer(found), model.version(at, *version));
            assert_eq!(
                answer(store.get(first.kind, first.id.as_str()).await),
                Ok(model.newest(at))
            );
        }
        Step::WrongKind { of } => {
            let (_, _, first) = chosen(model, of, &Start(0));
            for kind in Kind::ALL.into_iter().filter(|&kind| kind != first.kind) {
                let found = store.save(kind, first.id.as_str(), "a", "a", 1, at_ms).await;
                assert_eq!(answer(found), Err(Refusal::NotFound));
            }
        }
    }
}

/// Which document a step is about, the version it says it started from, and the first version.
fn chosen(model: &Model, of: &Index, based_on: &Start) -> (usize, i64, Document) {
    let at = of.index(model.0.len());
    (at, model.newest(at).version - based_on.0, model.0[at][0].clone())
}

async fn compare(store: &Store, model: &Model) {
    assert_eq!(
        store.is_empty().await.expect("it can be asked"),
        model.0.is_empty()
    );
    for kind in Kind::ALL {
        for removed in [false, true] {
            assert_eq!(
                store.list(kind, removed).await.expect("a list"),
                model.listed(kind, removed)
            );
        }
    }
    for versions in &model.0 {
        let (kind, id) = (versions[0].kind, versions[0].id.as_str());
        let expected: Vec<Listed> = versions.iter().rev().cloned().map(listed).collect();
        assert_eq!(store.versions(kind, id).await.expect("it is there"), expected);
    }
    let mut reading = store.everything();
    let mut found = Vec::new();
    while let Some(page) = Some(reading.next_page().await.expect("a page")).filter(|page| !page.is_empty()) {
        found.extend(page);
    }
    let mut expected: Vec<Document> = model.0.concat();
    expected.sort_by_key(|document| (document.id.clone(), document.version));
    assert_eq!(found, expected);
}

/// The same cases at every run; a failing one is made smaller before it is shown.
fn runner(cases: u32) -> TestRunner {
    let config = Config {
        cases,
        failure_persistence: None,
        ..Config::default()
    };
    TestRunner::new_with_rng(config, TestRng::deterministic_rng(RngAlgorithm::ChaCha))
}

#[test]
fn any_sequence_on_a_file() {
    let runtime = runtime();
    let agrees = |steps: Vec<Step>| {
        let folder = tempfile::tempdir().expect("a temporary folder");
        let url = format!("sqlite:{}", folder.path().join("kept.db").display());
        runtime.block_on(agree(&url, &steps));
        Ok(())
    };
    runner(64)
        .run(&steps(), agrees)
        .unwrap_or_else(|error| panic!("{error}"));
}

#[test]
fn any_sequence_on_a_server() {
    let runtime = runtime();
    let agrees = |steps: Vec<Step>| {
        runtime.block_on(async {
            let room = Room::new().await;
            agree(&room.url, &steps).await;
            room.clear().await;
        });
        Ok(())
    };
    runner(64)
        .run(&steps(), agrees)
        .unwrap_or_else(|error| panic!("{error}"));
}
