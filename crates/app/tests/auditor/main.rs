//! An auditor that knows the command line alone: for shoots drawn by seed it checks every claim of an answer against the
//! others, and against a small proof.
//!
//! `cargo test --release -p app --test auditor` looks at a few seeds. `RUSHLIGHT_AUDIT=0..500` looks at as many by hand:
//! then every text is read in both languages, every change is answered again, and more proofs are made. What contradicts
//! what is printed, all of it, before the test fails.

#![allow(clippy::print_stdout, reason = "what contradicts what is worth reading")]

mod bounds;
mod changes;
mod dice;
mod drawn;
mod file;
mod findings;
mod geometry;
mod known;
mod languages;
mod lies;
mod lines;
mod notes;
mod others;
mod parts;
mod picture;
mod pointing;
mod program;
mod said;
mod shoot;
mod sums;
mod wishes;

use findings::{Finding, Findings};
use known::KNOWN;
use program::{Language, Written};
use said::Said;
use shoot::Shoot;
use std::collections::BTreeMap;
use std::fmt::Write;
use std::ops::Range;
use std::sync::Mutex;
use std::sync::atomic::{AtomicU64, Ordering};

/// Seeds to look at by hand, such as `0..500`.
const BY_HAND: &str = "RUSHLIGHT_AUDIT";
/// Seeds of the test.
const SEEDS: Range<u64> = 0..20;
/// Contradictions of one kind that are shown in full.
const SHOWN: usize = 6;

/// How much is looked at.
struct Plan {
    seeds: Range<u64>,
    /// Every so many seeds the answer is read in both languages, as JSON and as text.
    languages_every: u64,
    /// Every so many seeds a proof is made.
    proof_every: u64,
    /// Every so many seeds, the last of them, changes are answered again.
    changes_every: u64,
    /// As many of an answer.
    changes: usize,
    by_hand: bool,
}

impl Plan {
    fn new() -> Self {
        let Ok(wanted) = std::env::var(BY_HAND) else {
            return Plan {
                seeds: SEEDS,
                languages_every: 4,
                changes_every: 4,
                proof_every: 10,
                changes: 1,
                by_hand: false,
            };
        };
        let ends = wanted
            .split_once("..")
            .and_then(|(from, to)| Some(from.parse().ok()?..to.parse().ok()?));
        Plan {
            seeds: ends
                .unwrap_or_else(|| panic!("{BY_HAND} is a range of seeds such as 0..500, not {wanted}")),
            languages_every: 1,
            changes_every: 1,
            proof_every: 10,
            changes: usize::MAX,
            by_hand: true,
        }
    }
}

#[test]
fn no_claim_contradicts_another() {
    let plan = Plan::new();
    let next = AtomicU64::new(plan.seeds.start);
    let all = Mutex::new((Vec::new(), 0));
    let hands = std::thread::available_parallelism().map_or(1, usize::from);
    std::thread::scope(|scope| {
        for _ in 0..hands {
            scope.spawn(|| {
                loop {
                    let seed = next.fetch_add(1, Ordering::Relaxed);
                    if seed >= plan.seeds.end {
                        break;
                    }
                    let findings = audit(seed, &plan);
                    if plan.by_hand {
                        println!("seed {seed}: {} contradictions", findings.found.len());
                        for finding in &findings.found {
                            println!("  {}: {}", finding.claim, finding.detail);
                        }
                        if !findings.found.is_empty() {
                            println!(
                                "{}\nportrait:\n{}",
                                drawn::shoot(seed).text(),
                                drawn::portrait(seed).text()
                            );
                        }
                    }
                    let mut all = all.lock().expect("no hand panics here");
                    all.0.extend(findings.found);
                    all.1 += findings.looked_at;
                }
            });
        }
    });
    let (found, looked_at) = all.into_inner().expect("no hand panics here");
    judge(&plan, found, looked_at);
}

/// Everything that can be checked of one seed.
fn audit(seed: u64, plan: &Plan) -> Findings {
    let mut findings = Findings::new(seed);
    let shoot = drawn::shoot(seed);
    let written = Written::new(&shoot);
    match written.both(Language::English) {
        Ok((said, text)) => {
            answer(&shoot, &said, &mut findings);
            if seed.is_multiple_of(plan.languages_every) {
                both_languages(&written, &said, &text, &mut findings);
            }
            if (seed + 1).is_multiple_of(plan.changes_every) {
                changes::check(&shoot, &said, plan.changes, &mut findings);
            }
        }
        Err(refused) => findings.holds("program: no answer", false, || refused),
    }
    if seed.is_multiple_of(plan.proof_every) {
        picture::check(&drawn::portrait(seed), &mut findings);
    }
    findings
}

/// What an answer says, against itself and its shoot.
fn answer(shoot: &Shoot, said: &Said, findings: &mut Findings) {
    wishes::check(shoot, said, findings);
    sums::check(shoot, said, findings);
    bounds::check(shoot, said, findings);
    lines::check(said, findings);
    pointing::check(shoot, said, findings);
    notes::check(shoot, said, findings);
    others::check(shoot, said, findings);
}

/// The same answer in German, and the text of both.
fn both_languages(written: &Written, said: &Said, text: &str, findings: &mut Findings) {
    match written.both(Language::German) {
        Ok((german, german_text)) => {
            languages::sentences(said, &german, findings);
            languages::texts(text, &german_text, findings);
            languages::top(said, text, findings);
            lines::printed_chart(text, findings);
        }
        Err(refused) => findings.holds("program: not in both languages", false, || refused),
    }
}

/// Prints what was found, and fails for what is not known and for what is known and no longer there.
fn judge(plan: &Plan, found: Vec<Finding>, looked_at: usize) {
    let mut by_claim: BTreeMap<&str, Vec<Finding>> = BTreeMap::new();
    for finding in found {
        by_claim.entry(finding.claim).or_default().push(finding);
    }
    let known = |claim: &str| KNOWN.iter().find(|known| known.claim == claim);
    let mut report = format!("{looked_at} claims looked at on seeds {:?}\n", plan.seeds);
    for (claim, findings) in &mut by_claim {
        findings.sort_by_key(|finding| finding.seed);
        let reason = known(claim).map_or("NOT KNOWN", |known| known.reason);
        writeln!(report, "\n{claim}: {} times ({reason})", findings.len()).expect("a text takes every line");
        for finding in findings.iter().take(SHOWN) {
            writeln!(report, "  seed {}: {}", finding.seed, finding.detail).expect("a text takes every line");
        }
    }
    println!("{report}");
    let unknown: Vec<&str> = by_claim
        .keys()
        .copied()
        .filter(|claim| known(claim).is_none())
        .collect();
    // Other seeds may well not show what the test's own seeds show.
    let gone: Vec<&str> = if plan.by_hand {
        Vec::new()
    } else {
        KNOWN
            .iter()
            .map(|known| known.claim)
            .filter(|claim| !by_claim.contains_key(claim))
            .collect()
    };
    assert!(
        unknown.is_empty() && gone.is_empty(),
        "contradictions: {unknown:#?}\nknown, but no longer there (take them from known.rs): {gone:#?}\n\n{report}"
    );
}
