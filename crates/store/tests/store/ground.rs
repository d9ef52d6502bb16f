//! Where the tests stand: an empty SQLite file, or an empty schema of a PostgreSQL server that the tests
//! start and stop (or that `RUSHLIGHT_TEST_POSTGRES` names, with the right to make schemas).

use sqlx::{Connection, Executor, PgConnection};
use std::future::Future;
use std::io::Write;
use std::os::unix::fs::MetadataExt;
use std::os::unix::process::CommandExt;
use std::panic::{AssertUnwindSafe, catch_unwind, resume_unwind};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::OnceLock;
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::{Duration, Instant};
use store::Store;
use tempfile::TempDir;
use tokio::runtime::Runtime;

/// Makes of each named `async fn name(ground: Ground)` two tests, `file::name` and `server::name`.
macro_rules! on_both {
    ($($name:ident),* $(,)?) => {
        mod file {
            $(#[test] fn $name() { crate::ground::on_file(super::$name); })*
        }
        mod server {
            $(#[test] fn $name() { crate::ground::on_server(super::$name); })*
        }
    };
}
pub(crate) use on_both;

/// An empty store, and the address at which another program would find it.
pub struct Ground {
    pub store: Store,
    pub url: String,
}

/// Something for the futures of one test to run on.
pub fn runtime() -> Runtime {
    tokio::runtime::Builder::new_multi_thread()
        .worker_threads(2)
        .enable_all()
        .build()
        .expect("a runtime starts")
}

/// Runs a test on a new SQLite file.
pub fn on_file<F: Future<Output = ()>>(test: impl FnOnce(Ground) -> F) {
    let folder = tempfile::tempdir().expect("a temporary folder");
    let url = format!("sqlite:{}", folder.path().join("kept.db").display());
    runtime().block_on(try_at(url, test));
}

/// Runs a test on a new schema of the server.
pub fn on_server<F: Future<Output = ()>>(test: impl FnOnce(Ground) -> F) {
    let runtime = runtime();
    let room = runtime.block_on(Room::new());
    let result = catch_unwind(AssertUnwindSafe(|| {
        runtime.block_on(try_at(room.url.clone(), test))
    }));
    runtime.block_on(room.clear());
    if let Err(panic) = result {
        resume_unwind(panic);
    }
}

async fn try_at<F: Future<Output = ()>>(url: String, test: impl FnOnce(Ground) -> F) {
    let store = Store::open_url(&url).await.expect("a new store opens");
    test(Ground {
        store: store.clone(),
        url,
    })
    .await;
    store.close().await;
}

/// A schema of its own in a server.
pub struct Room {
    /// Its address.
    pub url: String,
    /// Its name.
    pub name: String,
    server: &'static str,
}

impl Room {
    /// Makes one in the server that the tests share.
    pub async fn new() -> Room {
        Room::at(shared_server()).await
    }

    /// Makes one in this server.
    pub async fn at(server: &'static str) -> Room {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let name = format!(
            "room_{}_{}",
            std::process::id(),
            COUNT.fetch_add(1, Ordering::Relaxed)
        );
        let mark = if server.contains('?') { '&' } else { '?' };
        let room = Room {
            url: format!("{server}{mark}options[search_path]={name}"),
            name,
            server,
        };
        ask(server, &format!("CREATE SCHEMA {}", room.name)).await;
        room
    }

    /// Takes it away again.
    pub async fn clear(&self) {
        ask(self.server, &format!("DROP SCHEMA {} CASCADE", self.name)).await;
    }
}

/// Has a server do something.
pub async fn ask(url: &str, sql: &str) {
    let mut connection = PgConnection::connect(url).await.expect("the test server answers");
    connection
        .execute(sqlx::raw_sql(sqlx::AssertSqlSafe(sql)))
        .await
        .expect("the test server does it");
    connection.close().await.expect("the connection closes");
}

/// The address of the server that the tests share: the one that was given, or our own.
pub fn shared_server() -> &'static str {
    static GIVEN: OnceLock<Option<String>> = OnceLock::new();
    let given = GIVEN.get_or_init(|| std::env::var("RUSHLIGHT_TEST_POSTGRES").ok());
    given.as_deref().unwrap_or_else(|| own_server())
}

/// The address of the server that the first test starts that asks. Also knows a role `guarded` which, as its
/// members, is let in with a password only.
pub fn own_server() -> &'static str {
    static OWN: OnceLock<Cluster> = OnceLock::new();
    &OWN.get_or_init(Cluster::start).url
}

/// A PostgreSQL server in a temporary folder, reached by a socket in it. Its keeper, a shell, stops it and
/// clears the folder when this process ends, however it ends.
pub struct Cluster {
    /// The address of its first database.
    pub url: String,
    /// Where the keeper works.
    pub folder: PathBuf,
    programs: PathBuf,
    keeper: Child,
}

impl Cluster {
    /// Makes and starts one.
    pub fn start() -> Cluster {
        let programs = programs();
        let folder = TempDir::with_prefix("rushlight-pg-")
            .expect("a temporary folder")
            .keep();
        let mut initdb = as_server(&folder);
        let made = initdb
            .arg(programs.join("initdb"))
            .args([
                "--username=rushlight",
                "--auth=trust",
                "--encoding=UTF8",
                "--no-locale",
                "--no-sync",
                "-D",
            ])
            .arg(folder.join("data"))
            .output()
            .expect("initdb starts");
        assert!(
            made.status.success(),
            "initdb: {}",
            String::from_utf8_lossy(&made.stderr)
        );
        let rules = "local all +guarded scram-sha-256\nlocal all all trust\n";
        std::fs::write(folder.join("data/pg_hba.conf"), rules).expect("the rules of entry can be written");
        let url = format!(
            "postgres://rushlight@localhost/postgres?host={}",
            folder.display()
        );
        let keeper = keep(&programs, &folder);
        let cluster = Cluster {
            url,
            folder,
            programs,
            keeper,
        };
        cluster.wait_until_ready();
        cluster
    }

    /// Kills every process of the server at once, as a crash would, and starts it again.
    pub fn crash_and_restart(&mut self) {
        let data = self
            .folder
            .join("data")
            .canonicalize()
            .expect("the data folder is there");
        let mut killed = 0;
        loop {
            let found = processes_in(&data);
            if found.is_empty() {
                break;
            }
            killed += found.len();
            // All of one call, so that none sees another's end first. These are the server's own processes,
            // known by the folder they work in.
            let _ = Command::new("kill")
                .arg("-9")
                .args(&found)
                .status()
                .expect("kill runs");
            std::thread::sleep(Duration::from_millis(5));
        }
        assert!(killed >= 5, "only {killed} processes of the server were found");
        let mut input = self.keeper.stdin.take().expect("it is piped");
        input.write_all(b"leave\n").expect("the keeper listens");
        self.keeper.wait().expect("the keeper ends and leaves the folder");
        self.keeper = keep(&self.programs, &self.folder);
        self.wait_until_ready();
    }

    fn wait_until_ready(&self) {
        let started = Instant::now();
        // On a thread of its own because a test's runtime may be running on this one.
        std::thread::scope(|threads| {
            let waiting = threads.spawn(|| {
                runtime().block_on(async {
                    loop {
                        match PgConnection::connect(&self.url).await {
                            Ok(mut connection) => {
                                let role = "DO 'BEGIN CREATE ROLE guarded; EXCEPTION WHEN duplicate_object THEN END'";
                                connection.execute(role).await.expect("a role can be made");
                                return drop(connection.close().await);
                            }
                            Err(error) if started.elapsed() > Duration::from_secs(20) => {
                                let log =
                                    std::fs::read_to_string(self.folder.join("log")).unwrap_or_default();
                                panic!("the test server does not start: {error}\n{log}");
                            }
                            Err(_) => tokio::time::sleep(Duration::from_millis(20)).await,
                        }
                    }
                });
            });
            waiting.join().expect("the test server starts");
        });
    }
}

impl Drop for Cluster {
    fn drop(&mut self) {
        // The end of its input tells the keeper to stop the server and to clear up.
        drop(self.keeper.stdin.take());
        let _ = self.keeper.wait();
    }
}

/// Starts a server and the shell that stops it once this process is gone.
fn keep(programs: &Path, folder: &Path) -> Child {
    const KEEPER: &str = r#"folder=$1; shift; trap '' INT
        "$@" & server=$!
        read -r word
        kill -INT $server; wait $server
        [ "$word" = leave ] || rm -rf "$folder""#;
    let log = std::fs::File::create(folder.join("log")).expect("a log can be written");
    let mut server = as_server(folder);
    server
        .arg(programs.join("postgres"))
        .arg("-D")
        .arg(folder.join("data"))
        .arg("-k")
        .arg(folder);
    server.args(["-c", "listen_addresses=", "-c", "shared_buffers=32MB"]);
    let mut keeper = Command::new("sh");
    keeper
        .args(["-c", KEEPER, "keeper"])
        .arg(folder)
        .arg(server.get_program())
        .args(server.get_args());
    // In a group of its own, so that what stops the tests leaves it to clear up.
    keeper
        .process_group(0)
        .stdin(Stdio::piped())
        .stdout(Stdio::null())
        .stderr(log)
        .spawn()
        .expect("a shell starts")
}

/// The folder of the newest PostgreSQL that is installed.
fn programs() -> PathBuf {
    let installed = std::fs::read_dir("/usr/lib/postgresql")
        .into_iter()
        .flatten()
        .flatten();
    let mut found: Vec<(u32, PathBuf)> = installed
        .filter_map(|entry| {
            Some((
                entry.file_name().to_str()?.parse().ok()?,
                entry.path().join("bin"),
            ))
        })
        .collect();
    let on_path = std::env::var_os("PATH").unwrap_or_default();
    found.extend(std::env::split_paths(&on_path).map(|folder| (0, folder)));
    found.retain(|(_, folder)| folder.join("initdb").is_file() && folder.join("postgres").is_file());
    found.into_iter().max().map(|(_, folder)| folder).expect(
        "the programs initdb and postgres are not installed: apt-get install postgresql (or name a server in \
         RUSHLIGHT_TEST_POSTGRES)",
    )
}

/// Whether this process is root, whom the server refuses to be and whom permissions do not bind.
pub fn is_root() -> bool {
    std::fs::metadata("/proc/self").is_ok_and(|process| process.uid() == 0)
}

/// The beginning of a command that the server's person runs, to whom the folder is given.
pub fn as_server(folder: &Path) -> Command {
    if !is_root() {
        return Command::new("env");
    }
    let passwd = std::fs::read_to_string("/etc/passwd").expect("the list of persons can be read");
    let person = passwd
        .lines()
        .map(|line| line.split(':').collect::<Vec<_>>())
        .find(|person| person[0] == "postgres");
    let person = person.expect("there is no person named postgres: apt-get install postgresql");
    let (user, group): (u32, u32) = (
        person[2].parse().expect("a number"),
        person[3].parse().expect("a number"),
    );
    std::os::unix::fs::chown(folder, Some(user), Some(group)).expect("root may give a folder away");
    let mut command = Command::new("setpriv");
    command.args(["--reuid", person[2], "--regid", person[3], "--clear-groups"]);
    command
}

/// The numbers of all processes whose working folder is this one.
fn processes_in(folder: &Path) -> Vec<String> {
    let processes = std::fs::read_dir("/proc")
        .expect("processes can be listed")
        .flatten();
    processes
        .filter(|process| std::fs::read_link(process.path().join("cwd")).is_ok_and(|cwd| cwd == folder))
        .map(|process| process.file_name().to_string_lossy().into_owned())
        .collect()
}

/// Says a measured value where a person who runs the tests sees it, also when the test passes.
pub fn report(line: &str) {
    writeln!(std::io::stderr(), "store: {line}").expect("there is somewhere to say it");
}
