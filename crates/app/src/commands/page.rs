//! `rushlight` and `rushlight page`: the page in a browser.

use super::failure::Failure;
use crate::cli::PageArgs;
use crate::clock;
use crate::output;
use etcetera::{AppStrategy, AppStrategyArgs, choose_app_strategy};
use server::{House, answers};
use shoot::Words;
use std::path::PathBuf;
use std::sync::Arc;
use store::Store;

/// Serves the page until it is told to stop (Ctrl-C).
///
/// # Errors
/// A store that cannot be opened, or a port that cannot be had.
pub fn run(args: &PageArgs) -> Result<(), Failure> {
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .enable_all()
        .build()
        .map_err(|error| Failure::Ours(format!("the server could not be started: {error}")))?;
    runtime.block_on(serve(args))
}

async fn serve(args: &PageArgs) -> Result<(), Failure> {
    let store = open_store(args).await?;
    let house = server::house(store, clock::now)
        .await
        .map_err(|error| Failure::Store(error.to_string()))?;
    let (address, served) = open(&house, args.port).await?;
    let url = format!("http://{address}/");
    output::print(&format!(
        "The page is at {url}\nShoots are kept in {}.\nPress Ctrl-C to end.\n",
        house.store.describe()
    ))?;
    answer_ahead(&house).await;
    if !args.no_browser
        && let Err(error) = opener::open_browser(&url)
    {
        output::complain(&format!(
            "No browser could be opened ({error}); open that address yourself.\n"
        ));
    }
    tokio::select! {
        ended = served => ended.map_err(|error| Failure::Ours(format!("the server ended: {error}"))),
        _ = tokio::signal::ctrl_c() => {
            house.store.close().await;
            Ok(())
        }
    }
}

/// The port that is asked for; without one the usual one, or any that is free when it is taken.
async fn open(
    house: &Arc<House>,
    port: Option<u16>,
) -> Result<
    (
        std::net::SocketAddr,
        impl Future<Output = std::io::Result<()>> + use<>,
    ),
    Failure,
> {
    /// The same every time, so that a bookmark keeps working (ours).
    const USUAL_PORT: u16 = 7390;
    let first = server::open(Arc::clone(house), port.unwrap_or(USUAL_PORT)).await;
    let opened = match (first, port) {
        (Ok(opened), _) => Ok(opened),
        (Err(_), None) => server::open(Arc::clone(house), 0).await,
        (Err(error), Some(_)) => Err(error),
    };
    opened.map_err(|error| {
        let port = port.map_or_else(|| "any port".to_owned(), |port| format!("port {port}"));
        missing(format!(
            "{port} of this machine cannot be had: {error}; name another with --port"
        ))
    })
}

/// Works out the answer that the page opens with before anybody asks, so that it is there at once.
async fn answer_ahead(house: &Arc<House>) {
    let Ok(list) = house.store.list(store::Kind::Shoot, false).await else {
        return;
    };
    let Some(newest) = list.into_iter().max_by_key(|shoot| shoot.saved_at_ms) else {
        return;
    };
    if let Ok(shoot) = house.store.get(store::Kind::Shoot, newest.id.as_str()).await {
        answers::ask_ahead(house, shoot.text);
    }
}

/// The store that is asked for, or the one in the usual folder for a program's data.
async fn open_store(args: &PageArgs) -> Result<Store, Failure> {
    let told = args.store.clone();
    let opened = match told {
        Some(place) if place.contains("://") => Store::open_url(&place).await,
        Some(file) => Store::open_file(&PathBuf::from(file)).await,
        None => Store::open_file(&usual_file()?).await,
    };
    opened.map_err(|error| Failure::Store(error.to_string()))
}

/// What this command needs and does not get, in English: it has no `--language`.
fn missing(what: impl Into<String>) -> Failure {
    Failure::Missing(Words::same(what))
}

fn usual_file() -> Result<PathBuf, Failure> {
    let strategy = choose_app_strategy(AppStrategyArgs {
        top_level_domain: "org".to_owned(),
        author: "rushlight".to_owned(),
        app_name: "rushlight".to_owned(),
    })
    .map_err(|_| missing("this account has no home folder; say with --store where shoots are to be kept"))?;
    Ok(strategy.in_data_dir("shoots.sqlite"))
}
