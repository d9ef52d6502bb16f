//! Long work: answers, proofs and live aiming, one piece at a time in a fair order.
//!
//! A piece of work uses all cores while it runs, so pieces are not run side by side. Every window has a lane of its own; the lanes
//! take turns, so that a window that asks for much keeps others waiting for one piece at most. Work that was asked for twice
//! is done once. Work without a listener is stopped. What was found is kept while there is room.

use super::products::Product;
use super::refusal::{Code, Refusal, RefusalTold};
use super::stage::Stage;
use super::trouble::Trouble;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use sheet::Language;
use shoot::both;
use std::collections::{HashMap, VecDeque};
use std::hash::{DefaultHasher, Hash, Hasher};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};
use tokio::sync::watch;

/// Pieces that may wait in one lane, and in all (ours).
const MOST_IN_A_LANE: usize = 8;
const MOST_WAITING: usize = 200;
/// How long work goes on without a listener (ours).
const PATIENCE: Duration = Duration::from_secs(5);
/// What is kept of finished work, in bytes (ours): some hundred answers and a few dozen proofs.
const ROOM_BYTES: usize = 512 << 20;
/// Stopped and failed pieces that are remembered so that a late question has its answer (ours).
const MOST_REMEMBERED: usize = 1_000;

/// What a piece of work makes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum WorkKind {
    /// An answer to a set-up.
    Answer,
    /// A proof of an answer.
    Proof,
    /// An answer's place made ready for live aiming.
    Live,
}

/// How far a piece of work is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum State {
    /// In the queue.
    Waiting,
    /// Being done.
    Working,
    /// Done.
    Done,
    /// It could not be done.
    Failed,
    /// It was stopped.
    Stopped,
}

impl State {
    /// Whether nothing more will happen.
    pub fn is_final(self) -> bool {
        matches!(self, State::Done | State::Failed | State::Stopped)
    }
}

/// The newest picture of a proof.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PictureThere {
    /// Counted from 1.
    pub number: u32,
    /// Pixels across.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
    /// How noisy it still is, per cent of the brightness of skin; null while that cannot be told.
    pub noise_percent: Option<f64>,
}

/// A piece of work as it is told, in one language.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Job {
    /// What it is called here; the same request always has the same one.
    pub id: String,
    /// What it makes.
    pub kind: WorkKind,
    /// How far it is.
    pub state: State,
    /// Pieces that are done before it.
    pub ahead: usize,
    /// What is being done, in words.
    pub stage: Option<String>,
    /// Part of the whole that is usually done by now, 0 to 1.
    pub fraction: Option<f64>,
    /// The newest picture, of a proof.
    pub picture: Option<PictureThere>,
    /// Why it failed.
    pub error: Option<RefusalTold>,
}

/// A piece of work as it stands, before anybody has put it into words.
#[derive(Clone, Debug, PartialEq)]
pub struct Standing {
    /// What it is called here; the same request always has the same one.
    pub id: String,
    /// What it makes.
    pub kind: WorkKind,
    /// How far it is.
    pub state: State,
    /// Pieces that are done before it.
    pub ahead: usize,
    /// What is being done.
    pub stage: Option<Stage>,
    /// Part of the whole that is usually done by now, 0 to 1.
    pub fraction: Option<f64>,
    /// The newest picture, of a proof.
    pub picture: Option<PictureThere>,
    /// Why it failed.
    pub trouble: Option<Trouble>,
}

impl Standing {
    /// The same in words.
    pub fn told(&self, language: Language) -> Job {
        Job {
            id: self.id.clone(),
            kind: self.kind,
            state: self.state,
            ahead: self.ahead,
            stage: self.stage.map(|stage| stage.words(language)),
            fraction: self.fraction,
            picture: self.picture,
            error: self.trouble.as_ref().map(|trouble| trouble.told(language)),
        }
    }
}

type Work = Box<dyn FnOnce(&Bench) -> Result<Product, Trouble> + Send>;

/// Where work is done: it tells how far it is and hears whether to go on.
pub struct Bench {
    told: watch::Sender<Standing>,
    stop: Arc<AtomicBool>,
    alone_since: Mutex<Option<Instant>>,
    shared: Arc<Shared>,
}

impl Bench {
    /// Says what is being done and how far it is.
    pub fn say(&self, stage: Stage, fraction: f64) {
        self.told.send_modify(|job| {
            job.stage = Some(stage);
            job.fraction = Some(fraction.clamp(0.0, 1.0));
        });
    }

    /// Shows what there is already, to all who ask for the result.
    pub fn show(&self, found: Product, picture: PictureThere) {
        let id = self.told.borrow().id.clone();
        if let Some(entry) = self.shared.queue().entries.get_mut(&id) {
            entry.found = Some(found);
        }
        self.told.send_modify(|job| job.picture = Some(picture));
    }

    /// Whether to go on: not when it was stopped, nor when it has had no listener for a while.
    pub fn go_on(&self) -> bool {
        if self.stop.load(Ordering::Relaxed) {
            return false;
        }
        let mut alone = self.alone_since.lock().unwrap_or_else(PoisonError::into_inner);
        if self.told.receiver_count() > 0 {
            *alone = None;
            return true;
        }
        let since = *alone.get_or_insert_with(Instant::now);
        let heard = {
            let id = self.told.borrow().id.clone();
            self.shared.queue().entries.get(&id).map(|entry| entry.heard)
        };
        heard.is_none_or(|heard| heard.max(since).elapsed() < PATIENCE)
    }

    /// Lets answers that wait be worked out before this goes on: they take seconds, a good picture takes minutes.
    pub fn let_quick_ones_pass(&self) {
        loop {
            let next = self.shared.queue().take(|kind| kind != WorkKind::Proof);
            let Some((id, work)) = next else { return };
            do_one(&self.shared, &id, work);
        }
    }

    /// An error when the work should not go on.
    ///
    /// # Errors
    /// [`Code::Stopped`].
    pub fn check(&self) -> Result<(), Refusal> {
        if self.go_on() { Ok(()) } else { Err(stopped()) }
    }
}

fn stopped() -> Refusal {
    Refusal::new(
        Code::Stopped,
        both!("This was stopped before it was done."; "Das wurde angehalten, bevor es fertig war."),
    )
    .hint(both!("Ask again if it is still wanted."; "Frag noch einmal, wenn du es noch brauchst."))
}

struct Entry {
    told: watch::Sender<Standing>,
    stop: Arc<AtomicBool>,
    work: Option<Work>,
    found: Option<Product>,
    /// When somebody last asked after it.
    heard: Instant,
    /// Counts up with every use, so that the least used is forgotten first.
    used: u64,
}

#[derive(Default)]
struct Queue {
    /// The lanes in the order of their turns.
    lanes: VecDeque<(String, VecDeque<String>)>,
    entries: HashMap<String, Entry>,
    uses: u64,
    running: bool,
    closing: bool,
}

struct Shared {
    queue: Mutex<Queue>,
    bell: Condvar,
}

impl Shared {
    fn queue(&self) -> MutexGuard<'_, Queue> {
        // A panic elsewhere leaves the queue whole: it is only changed in single steps.
        self.queue.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// The queue of long work with its one worker.
pub struct Jobs {
    shared: Arc<Shared>,
}

impl Jobs {
    /// Starts the worker.
    pub fn start() -> Self {
        let shared = Arc::new(Shared {
            queue: Mutex::default(),
            bell: Condvar::new(),
        });
        let worker = Arc::clone(&shared);
        std::thread::spawn(move || work(&worker));
        Jobs { shared }
    }

    /// Asks for a piece of work: one that is known already is not done again.
    ///
    /// `lane` tells apart who asks, `asked` all that the result depends on.
    ///
    /// # Errors
    /// [`Code::Busy`] when too much is waiting.
    pub fn ask(
        &self,
        kind: WorkKind,
        lane: &str,
        asked: &impl Hash,
        work: impl FnOnce(&Bench) -> Result<Product, Trouble> + Send + 'static,
    ) -> Result<Standing, Refusal> {
        let id = name_of(kind, asked);
        let mut queue = self.shared.queue();
        let again = queue.entries.get(&id).is_some_and(|entry| {
            let state = entry.told.borrow().state;
            matches!(state, State::Failed | State::Stopped)
        });
        if again {
            queue.entries.remove(&id);
        }
        if let Some(job) = queue.touch(&id) {
            return Ok(job);
        }
        let waiting: usize = queue.lanes.iter().map(|(_, lane)| lane.len()).sum();
        let own = queue.lanes.iter().find(|(name, _)| name == lane);
        if waiting >= MOST_WAITING || own.is_some_and(|(_, lane)| lane.len() >= MOST_IN_A_LANE) {
            return Err(Refusal::new(
                Code::Busy,
                both!(
                    "More is waiting here already than can be done soon.";
                    "Hier wartet schon mehr, als sich bald erledigen lässt."
                ),
            )
            .hint(both!(
                "Wait until some of it is done, then ask again.";
                "Warte, bis einiges davon fertig ist, und frag dann noch einmal."
            )));
        }
        let job = Standing {
            id: id.clone(),
            kind,
            state: State::Waiting,
            ahead: waiting + usize::from(queue.running),
            stage: None,
            fraction: None,
            picture: None,
            trouble: None,
        };
        let used = queue.next_use();
        queue.entries.insert(
            id.clone(),
            Entry {
                told: watch::Sender::new(job.clone()),
                stop: Arc::new(AtomicBool::new(false)),
                work: Some(Box::new(work)),
                found: None,
                heard: Instant::now(),
                used,
            },
        );
        match queue.lanes.iter_mut().find(|(name, _)| name == lane) {
            Some((_, own)) => own.push_back(id),
            None => queue.lanes.push_back((lane.to_owned(), VecDeque::from([id]))),
        }
        queue.count_ahead();
        let job = queue.touch(&job.id).unwrap_or(job);
        drop(queue);
        self.shared.bell.notify_one();
        Ok(job)
    }

    /// A piece of work as it stands.
    ///
    /// # Errors
    /// Nothing of that name is known, or known any more.
    pub fn look(&self, id: &str) -> Result<Standing, Refusal> {
        self.shared.queue().touch(id).ok_or_else(forgotten)
    }

    /// Follows a piece of work.
    ///
    /// # Errors
    /// As [`Jobs::look`].
    pub fn follow(&self, id: &str) -> Result<watch::Receiver<Standing>, Refusal> {
        let queue = self.shared.queue();
        let entry = queue.entries.get(id).ok_or_else(forgotten)?;
        Ok(entry.told.subscribe())
    }

    /// What a piece of work has found, finished or not.
    ///
    /// # Errors
    /// Nothing of that name, or nothing found yet.
    pub fn found(&self, id: &str) -> Result<Product, Refusal> {
        let mut queue = self.shared.queue();
        queue.touch(id);
        let entry = queue.entries.get(id).ok_or_else(forgotten)?;
        entry.found.clone().ok_or_else(|| {
            Refusal::not_found(both!("This is not done yet."; "Das ist noch nicht fertig."))
                .hint(both!("Follow it until it is, then ask again."; "Warte, bis es so weit ist, und frag dann noch einmal."))
        })
    }

    /// Stops a piece of work, unless others listen to it too.
    ///
    /// # Errors
    /// As [`Jobs::look`].
    pub fn stop(&self, id: &str) -> Result<(), Refusal> {
        let mut queue = self.shared.queue();
        let entry = queue.entries.get(id).ok_or_else(forgotten)?;
        if entry.told.receiver_count() > 1 {
            return Ok(());
        }
        entry.stop.store(true, Ordering::Relaxed);
        if entry.told.borrow().state == State::Waiting {
            queue.forget_waiting(id);
            queue.finish(id, Err(stopped().into()));
        }
        Ok(())
    }

    /// Pieces that wait or are being done.
    pub fn pending(&self) -> usize {
        let queue = self.shared.queue();
        let waiting: usize = queue.lanes.iter().map(|(_, lane)| lane.len()).sum();
        waiting + usize::from(queue.running)
    }
}

impl Drop for Jobs {
    fn drop(&mut self) {
        let mut queue = self.shared.queue();
        queue.closing = true;
        for entry in queue.entries.values() {
            entry.stop.store(true, Ordering::Relaxed);
        }
        drop(queue);
        self.shared.bell.notify_all();
    }
}

fn forgotten() -> Refusal {
    Refusal::not_found(both!(
        "This is not known here, or not kept any more.";
        "Das ist hier nicht bekannt, oder nicht mehr da."
    ))
    .hint(both!("Ask for it again."; "Lass es noch einmal berechnen."))
}

/// The name of a piece of work: the same for all who ask for the same.
fn name_of(kind: WorkKind, asked: &impl Hash) -> String {
    let hash = |salt: u64| {
        let mut hasher = DefaultHasher::new();
        (salt, kind).hash(&mut hasher);
        asked.hash(&mut hasher);
        hasher.finish()
    };
    format!("{:016x}{:016x}", hash(1), hash(2))
}

impl Queue {
    fn next_use(&mut self) -> u64 {
        self.uses += 1;
        self.uses
    }

    /// A piece as it stands, and a note that somebody asked after it.
    fn touch(&mut self, id: &str) -> Option<Standing> {
        let used = self.next_use();
        let entry = self.entries.get_mut(id)?;
        entry.heard = Instant::now();
        entry.used = used;
        Some(entry.told.borrow().clone())
    }

    /// The next piece of a wanted kind: the lanes take turns, and the one whose turn it was goes to the end of the round.
    fn take(&mut self, wanted: impl Fn(WorkKind) -> bool) -> Option<(String, Work)> {
        for _ in 0..self.lanes.len() {
            let Some((name, mut lane)) = self.lanes.pop_front() else {
                break;
            };
            let kind_of = |id: &String| self.entries.get(id).map(|entry| entry.told.borrow().kind);
            let at = lane.iter().position(|id| kind_of(id).is_none_or(&wanted));
            let id = at.and_then(|at| lane.remove(at));
            if !lane.is_empty() {
                self.lanes.push_back((name, lane));
            }
            let Some(id) = id else { continue };
            let Some(entry) = self.entries.get_mut(&id) else {
                continue;
            };
            let given_up = entry.told.receiver_count() == 0 && entry.heard.elapsed() > PATIENCE;
            if given_up {
                self.finish(&id, Err(stopped().into()));
            } else if let Some(work) = entry.work.take() {
                return Some((id, work));
            }
        }
        None
    }

    /// Tells every waiting piece how many are done before it, going round the lanes as their turns come.
    fn count_ahead(&mut self) {
        let deepest = self.lanes.iter().map(|(_, lane)| lane.len()).max().unwrap_or(0);
        let mut before = usize::from(self.running);
        for depth in 0..deepest {
            for (_, lane) in &self.lanes {
                let Some(entry) = lane.get(depth).and_then(|id| self.entries.get(id)) else {
                    continue;
                };
                entry.told.send_if_modified(|job| {
                    let changed = job.ahead != before;
                    job.ahead = before;
                    changed
                });
                before += 1;
            }
        }
    }

    fn forget_waiting(&mut self, id: &str) {
        for (_, lane) in &mut self.lanes {
            lane.retain(|other| other != id);
        }
        self.lanes.retain(|(_, lane)| !lane.is_empty());
        self.count_ahead();
    }

    /// Notes how a piece ended.
    fn finish(&mut self, id: &str, result: Result<Product, Trouble>) {
        let Some(entry) = self.entries.get_mut(id) else {
            return;
        };
        entry.work = None;
        let (state, trouble) = match result {
            Ok(found) => {
                entry.found = Some(found);
                (State::Done, None)
            }
            Err(trouble) => {
                entry.found = None;
                let stopped = trouble.code() == Code::Stopped;
                let state = if stopped { State::Stopped } else { State::Failed };
                (state, Some(trouble))
            }
        };
        entry.told.send_modify(|job| {
            job.state = state;
            job.ahead = 0;
            job.stage = None;
            job.fraction = (state == State::Done).then_some(1.0);
            job.trouble = trouble;
        });
        self.make_room();
    }

    /// Forgets what was used least recently until the rest fits.
    fn make_room(&mut self) {
        let mut ended: Vec<(u64, String, usize)> = self
            .entries
            .iter()
            .filter(|(_, entry)| entry.told.borrow().state.is_final())
            .map(|(id, entry)| {
                (
                    entry.used,
                    id.clone(),
                    entry.found.as_ref().map_or(0, Product::bytes),
                )
            })
            .collect();
        ended.sort();
        let mut bytes: usize = ended.iter().map(|(_, _, bytes)| bytes).sum();
        let mut count = ended.len();
        for (_, id, size) in ended {
            // The newest stays, however large it is.
            if (bytes <= ROOM_BYTES && count <= MOST_REMEMBERED) || count == 1 {
                break;
            }
            self.entries.remove(&id);
            bytes -= size;
            count -= 1;
        }
    }
}

/// The worker: takes what is next, does it, notes how it ended.
fn work(shared: &Arc<Shared>) {
    loop {
        let mut queue = shared.queue();
        let (id, work) = loop {
            if queue.closing {
                return;
            }
            if let Some(next) = queue.take(|_| true) {
                break next;
            }
            if queue.lanes.is_empty() {
                queue = shared.bell.wait(queue).unwrap_or_else(PoisonError::into_inner);
            }
        };
        queue.running = true;
        drop(queue);
        do_one(shared, &id, work);
        let mut queue = shared.queue();
        queue.running = false;
        queue.count_ahead();
    }
}

/// Does one piece and notes how it ended.
fn do_one(shared: &Arc<Shared>, id: &str, work: Work) {
    let mut queue = shared.queue();
    queue.count_ahead();
    let Some(entry) = queue.entries.get(id) else {
        return;
    };
    let bench = Bench {
        told: entry.told.clone(),
        stop: Arc::clone(&entry.stop),
        alone_since: Mutex::default(),
        shared: Arc::clone(shared),
    };
    drop(queue);
    bench.told.send_modify(|job| {
        job.state = State::Working;
        job.ahead = 0;
    });
    // A fault of ours in one piece must not end the worker.
    let result =
        std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| work(&bench))).unwrap_or_else(|_| {
            let refusal = Refusal::new(
                Code::Ours,
                both!(
                    "This program made a mistake while working on it.";
                    "Dieses Programm hat bei der Arbeit daran einen Fehler gemacht."
                ),
            );
            Err(refusal
                .hint(both!(
                    "Please report it together with the shoot file.";
                    "Bitte melde ihn zusammen mit der Auftragsdatei."
                ))
                .into())
        });
    shared.queue().finish(id, result);
}

#[cfg(test)]
mod tests {
    use super::*;
    use answer::{Failure, Step};
    use std::sync::mpsc;

    fn nothing(_: &Bench) -> Result<Product, Trouble> {
        nothing_at_all()
    }

    fn wait_for(jobs: &Jobs, id: &str) -> Standing {
        for _ in 0..2_000 {
            let job = jobs.look(id).expect("known");
            if job.state.is_final() {
                return job;
            }
            std::thread::sleep(Duration::from_millis(5));
        }
        panic!("{id} never ended");
    }

    /// A worker that is held until the sender says so.
    fn held(jobs: &Jobs) -> (mpsc::Sender<()>, String) {
        let (go, wait) = mpsc::channel::<()>();
        let job = jobs
            .ask(WorkKind::Answer, "held", &"held", move |_| {
                let _ = wait.recv();
                nothing_at_all()
            })
            .expect("an empty queue");
        while jobs.look(&job.id).expect("known").state == State::Waiting {
            std::thread::sleep(Duration::from_millis(1));
        }
        (go, job.id)
    }

    fn nothing_at_all() -> Result<Product, Trouble> {
        Err(Trouble::Failed(Failure::NoSitter))
    }

    #[test]
    fn the_same_is_done_once_and_named_alike() {
        let jobs = Jobs::start();
        let (go, _) = held(&jobs);
        let first = jobs.ask(WorkKind::Answer, "a", &"text", nothing).expect("room");
        let again = jobs.ask(WorkKind::Answer, "b", &"text", nothing).expect("room");
        let other = jobs
            .ask(WorkKind::Answer, "b", &"another text", nothing)
            .expect("room");
        assert_eq!(first.id, again.id);
        assert_ne!(first.id, other.id);
        assert_eq!(jobs.pending(), 3);
        drop(go);
        assert_eq!(wait_for(&jobs, &first.id).state, State::Failed);
    }

    #[test]
    fn work_is_told_in_the_language_of_whoever_asks() {
        let jobs = Jobs::start();
        let (go, wait) = mpsc::channel::<()>();
        let asked = jobs.ask(WorkKind::Answer, "a", &"text", move |bench| {
            bench.say(Stage::Answering(Step::Solving), 0.1);
            let _ = wait.recv();
            nothing_at_all()
        });
        let id = asked.expect("room").id;
        while jobs.look(&id).expect("known").stage.is_none() {
            std::thread::sleep(Duration::from_millis(1));
        }
        let stage = |language| jobs.look(&id).expect("known").told(language).stage;
        assert_ne!(stage(Language::English), stage(Language::German));
        drop(go);
        let ended = wait_for(&jobs, &id);
        let error = |language| ended.told(language).error.expect("trouble");
        assert_eq!(error(Language::English).code, error(Language::German).code);
        assert_ne!(error(Language::English).message, error(Language::German).message);
    }

    #[test]
    fn lanes_take_turns() {
        let jobs = Jobs::start();
        let (go, _) = held(&jobs);
        let (said, heard) = mpsc::channel();
        let mut last = String::new();
        // One window asks for three pieces before two others ask for one each.
        for (lane, name) in [("a", "a1"), ("a", "a2"), ("a", "a3"), ("b", "b1"), ("c", "c1")] {
            let said = said.clone();
            last = jobs
                .ask(WorkKind::Answer, lane, &name, move |_| {
                    let _ = said.send(name);
                    nothing_at_all()
                })
                .expect("room")
                .id;
        }
        assert_eq!(
            jobs.look(&last).expect("known").ahead,
            3,
            "c1 comes third of those that wait, behind the held one"
        );
        drop((go, said));
        let order: Vec<&str> = heard.iter().collect();
        assert_eq!(order, ["a1", "b1", "c1", "a2", "a3"]);
    }

    #[test]
    fn quick_work_passes_a_slow_picture() {
        let jobs = Jobs::start();
        let (say, heard) = mpsc::channel();
        let (go, wait) = mpsc::channel::<()>();
        let first = say.clone();
        let picture = jobs
            .ask(WorkKind::Proof, "a", &"picture", move |bench| {
                let _ = wait.recv();
                bench.let_quick_ones_pass();
                let _ = first.send("picture");
                nothing_at_all()
            })
            .expect("room");
        let another = say.clone();
        let other = jobs.ask(WorkKind::Proof, "b", &"another picture", move |_| {
            let _ = another.send("another picture");
            nothing_at_all()
        });
        let quick = jobs.ask(WorkKind::Answer, "b", &"answer", move |_| {
            let _ = say.send("answer");
            nothing_at_all()
        });
        drop(go);
        for id in [picture.id, other.expect("room").id, quick.expect("room").id] {
            wait_for(&jobs, &id);
        }
        let order: Vec<&str> = heard.iter().collect();
        assert_eq!(order, ["answer", "picture", "another picture"]);
    }

    #[test]
    fn a_lane_is_bounded_and_others_are_not_harmed() {
        let jobs = Jobs::start();
        let (go, _) = held(&jobs);
        for number in 0..MOST_IN_A_LANE {
            jobs.ask(WorkKind::Answer, "greedy", &number, nothing)
                .expect("room");
        }
        let refused = jobs
            .ask(WorkKind::Answer, "greedy", &"more", nothing)
            .expect_err("full");
        assert_eq!(refused.code, Code::Busy);
        jobs.ask(WorkKind::Answer, "modest", &"one", nothing)
            .expect("another lane");
        drop(go);
    }

    #[test]
    fn what_was_stopped_is_not_done() {
        let jobs = Jobs::start();
        let (go, _) = held(&jobs);
        let waiting = jobs
            .ask(WorkKind::Answer, "a", &"waiting", nothing)
            .expect("room");
        jobs.stop(&waiting.id).expect("known");
        assert_eq!(jobs.look(&waiting.id).expect("known").state, State::Stopped);
        // A second request gets it done.
        let again = jobs
            .ask(WorkKind::Answer, "a", &"waiting", nothing)
            .expect("room");
        assert_eq!((again.id == waiting.id, again.state), (true, State::Waiting));
        drop(go);
        assert_eq!(wait_for(&jobs, &again.id).state, State::Failed);
    }

    #[test]
    fn work_that_is_stopped_hears_of_it() {
        let jobs = Jobs::start();
        let job = jobs
            .ask(WorkKind::Answer, "a", &"endless", |bench| {
                loop {
                    bench.check()?;
                    std::thread::sleep(Duration::from_millis(1));
                }
            })
            .expect("room");
        let listening = jobs.follow(&job.id).expect("known");
        jobs.stop(&job.id).expect("known");
        assert_eq!(wait_for(&jobs, &job.id).state, State::Stopped);
        drop(listening);
    }

    #[test]
    fn work_that_nobody_listens_to_ends() {
        let jobs = Jobs::start();
        let job = jobs
            .ask(WorkKind::Answer, "a", &"endless", |bench| {
                loop {
                    bench.check()?;
                    std::thread::sleep(Duration::from_millis(10));
                }
            })
            .expect("room");
        let started = Instant::now();
        std::thread::sleep(PATIENCE + Duration::from_secs(1));
        assert_eq!(wait_for(&jobs, &job.id).state, State::Stopped);
        assert!(started.elapsed() > PATIENCE);
    }

    #[test]
    fn a_fault_of_ours_does_not_end_the_worker() {
        let jobs = Jobs::start();
        let bad = jobs
            .ask(WorkKind::Answer, "a", &"panics", |_| {
                panic!("a fault made for this test")
            })
            .expect("room");
        assert_eq!(
            wait_for(&jobs, &bad.id).trouble.expect("trouble").code(),
            Code::Ours
        );
        let next = jobs.ask(WorkKind::Answer, "a", &"next", nothing).expect("room");
        assert_eq!(wait_for(&jobs, &next.id).state, State::Failed);
    }
}
