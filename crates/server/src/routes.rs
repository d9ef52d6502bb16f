//! The one table of routes: it serves requests and describes itself.

use super::door::Door;
use super::guard::guard;
use super::house::House;
use super::refusal::Refusal;
use super::requests::{MOST_BYTES, MOST_IMPORTED};
use super::{answers, assets, documents, live, phone, proofs, texts};
use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::http::StatusCode;
use axum::middleware::from_fn_with_state;
use axum::response::{IntoResponse, Response};
use axum::routing::{MethodRouter, delete, get, post, put};
use schemars::generate::SchemaGenerator;
use schemars::{JsonSchema, Schema};
use shoot::both;
use std::sync::Arc;

/// Makes the schema of a type.
pub type MakeSchema = fn(&mut SchemaGenerator) -> Schema;

/// What a route gives when all goes well.
pub enum Gives {
    /// JSON of a type.
    Json(StatusCode, MakeSchema),
    /// Nothing.
    Nothing,
    /// Bytes of a kind.
    Bytes(&'static str),
}

/// What a route takes.
pub enum Takes {
    /// No body.
    Nothing,
    /// JSON of a type.
    Json(MakeSchema),
    /// Bytes.
    Bytes,
}

/// One route.
pub struct Route {
    /// `get`, `post`, `put` or `delete`.
    pub method: &'static str,
    /// The address below `/api`, changing parts in braces.
    pub path: &'static str,
    /// What it does, in a sentence.
    pub summary: &'static str,
    /// What it takes.
    pub takes: Takes,
    /// What stands behind the question mark.
    pub query: Option<MakeSchema>,
    /// Whether it has words, in the language that the request asks for.
    pub speaks: bool,
    /// What it gives.
    pub gives: Gives,
    /// What does it.
    pub handler: MethodRouter<Arc<House>>,
}

impl Route {
    fn new(
        method: &'static str,
        path: &'static str,
        summary: &'static str,
        handler: MethodRouter<Arc<House>>,
    ) -> Self {
        Route {
            method,
            path,
            summary,
            takes: Takes::Nothing,
            query: None,
            speaks: false,
            gives: Gives::Nothing,
            handler,
        }
    }

    fn takes<T: JsonSchema>(mut self) -> Self {
        self.takes = Takes::Json(|generator| generator.subschema_for::<T>());
        self
    }

    fn takes_bytes(mut self) -> Self {
        self.takes = Takes::Bytes;
        self
    }

    fn query<T: JsonSchema>(mut self) -> Self {
        self.query = Some(T::json_schema);
        self
    }

    fn speaks(mut self) -> Self {
        self.speaks = true;
        self
    }

    fn gives<T: JsonSchema>(self) -> Self {
        self.gives_as::<T>(StatusCode::OK)
    }

    fn gives_as<T: JsonSchema>(mut self, status: StatusCode) -> Self {
        self.gives = Gives::Json(status, |generator| generator.subschema_for::<T>());
        self
    }

    fn gives_bytes(mut self, kind: &'static str) -> Self {
        self.gives = Gives::Bytes(kind);
        self
    }
}

/// Every route below `/api`.
pub fn all() -> Vec<Route> {
    let mut routes = Vec::new();
    routes.extend(of_documents());
    routes.extend(of_texts());
    routes.extend(of_work());
    routes.extend(of_phone());
    routes
}

fn of_documents() -> Vec<Route> {
    use documents::*;
    vec![
        Route::new("get", "/{kind}", "Lists the shoots, bags or places.", get(list))
            .query::<ListQuery>()
            .gives::<Vec<Listed>>(),
        Route::new("post", "/{kind}", "Keeps a new document.", post(create))
            .takes::<NewDocument>()
            .gives_as::<Document>(StatusCode::CREATED),
        Route::new(
            "get",
            "/{kind}/{id}",
            "The newest version of a document.",
            get(read),
        )
        .gives::<Document>(),
        Route::new(
            "put",
            "/{kind}/{id}",
            "Saves a new version, unless another window saved in between (409, with theirs).",
            put(save),
        )
        .takes::<SaveDocument>()
        .gives::<Document>(),
        Route::new(
            "delete",
            "/{kind}/{id}",
            "Removes a document from the list; every version of it can still be brought back.",
            delete(remove),
        )
        .query::<BasedOn>(),
        Route::new(
            "get",
            "/{kind}/{id}/versions",
            "Every saved version, the newest first.",
            get(versions),
        )
        .gives::<Vec<Listed>>(),
        Route::new(
            "get",
            "/{kind}/{id}/versions/{version}",
            "One saved version.",
            get(version),
        )
        .gives::<Document>(),
        Route::new(
            "post",
            "/{kind}/{id}/restore",
            "Saves an earlier version again as the newest.",
            post(restore),
        )
        .takes::<Restore>()
        .gives::<Document>(),
        Route::new(
            "get",
            "/export",
            "Everything as plain shoot files in one archive.",
            get(export),
        )
        .gives_bytes("application/zip"),
        Route::new(
            "post",
            "/import",
            "Takes an archive of plain files, or one of them.",
            post(import).layer(DefaultBodyLimit::max(MOST_IMPORTED)),
        )
        .query::<ImportQuery>()
        .speaks()
        .takes_bytes()
        .gives::<Imported>(),
    ]
}

fn of_texts() -> Vec<Route> {
    use texts::*;
    vec![
        Route::new(
            "post",
            "/understand",
            "Says what is understood of a shoot text.",
            post(understand),
        )
        .takes::<TextRequest>()
        .speaks()
        .gives::<Understood>(),
        Route::new(
            "post",
            "/edit",
            "Changes a shoot text and keeps its remarks.",
            post(edit),
        )
        .takes::<EditRequest>()
        .speaks()
        .gives::<Understood>(),
        Route::new(
            "post",
            "/begin",
            "Writes a shoot text from a few fill-ins.",
            post(begin),
        )
        .takes::<StartForm>()
        .speaks()
        .gives::<Understood>(),
        Route::new(
            "post",
            "/take",
            "Puts a kept bag or place into a shoot text.",
            post(take),
        )
        .takes::<TakeRequest>()
        .speaks()
        .gives::<Understood>(),
        Route::new(
            "post",
            "/give",
            "Takes the bag or the place of a shoot text out, to be kept by itself.",
            post(give),
        )
        .takes::<GiveRequest>()
        .gives::<PartText>(),
        Route::new(
            "post",
            "/scan",
            "Makes a place of a scan (glTF or OBJ).",
            post(scan).layer(DefaultBodyLimit::max(MOST_IMPORTED)),
        )
        .query::<ScanQuery>()
        .takes_bytes()
        .gives::<ScannedPlace>(),
        Route::new(
            "get",
            "/vocabulary",
            "The words that a shoot text may use.",
            get(vocabulary),
        )
        .gives::<Vocabulary>(),
    ]
}

fn of_work() -> Vec<Route> {
    use super::jobs::Job;
    use super::texts::TextRequest;
    use answers::*;
    vec![
        Route::new("post", "/answers", "Asks for the answer to a set-up.", post(ask))
            .takes::<TextRequest>()
            .speaks()
            .gives_as::<Job>(StatusCode::ACCEPTED),
        Route::new(
            "get",
            "/answers/{id}",
            "An answer with its drawings and reasons.",
            get(read),
        )
        .speaks()
        .gives::<AnswerTold>(),
        Route::new(
            "get",
            "/answers/{id}/map",
            "How good it is to aim at every part of the room.",
            get(map),
        )
        .speaks()
        .gives::<MapTold>(),
        Route::new(
            "post",
            "/answers/{id}/light-changed",
            "The light has changed by so many stops: the same aim with other settings.",
            post(light_changed),
        )
        .takes::<LightChanged>()
        .speaks()
        .gives::<LightChangedTold>(),
        Route::new(
            "get",
            "/answers/{id}/card.html",
            "The card, one file that needs no network.",
            get(card_html),
        )
        .query::<CardQuery>()
        .speaks()
        .gives_bytes("text/html"),
        Route::new(
            "get",
            "/answers/{id}/card.pdf",
            "The card on paper.",
            get(card_pdf),
        )
        .query::<CardQuery>()
        .speaks()
        .gives_bytes("application/pdf"),
        Route::new(
            "post",
            "/proofs",
            "Asks for a proof of an answer.",
            post(proofs::ask),
        )
        .takes::<proofs::ProofRequest>()
        .speaks()
        .gives_as::<Job>(StatusCode::ACCEPTED),
        Route::new(
            "get",
            "/proofs/{id}/layers",
            "The lights of the newest picture, in half floats.",
            get(proofs::layers),
        )
        .query::<proofs::LayersQuery>()
        .gives_bytes("application/octet-stream"),
        Route::new(
            "get",
            "/proofs/{id}/table",
            "What weighs the lights of a proof.",
            get(proofs::table),
        )
        .gives::<super::layers::Table>(),
        Route::new(
            "get",
            "/proofs/{id}/picture.png",
            "The picture, developed here.",
            get(proofs::picture),
        )
        .query::<proofs::PictureQuery>()
        .gives_bytes("image/png"),
        Route::new(
            "post",
            "/live",
            "Makes an answer's place ready for live aiming.",
            post(live::ask),
        )
        .takes::<live::LiveRequest>()
        .speaks()
        .gives_as::<Job>(StatusCode::ACCEPTED),
        Route::new(
            "get",
            "/live/{id}/aim",
            "The picture of an aim; the header x-aim says in JSON what it does.",
            get(live::aim),
        )
        .query::<live::AimQuery>()
        .speaks()
        .gives_bytes("application/octet-stream"),
        Route::new(
            "get",
            "/live/{id}/table",
            "What weighs the light of live aiming.",
            get(live::table),
        )
        .gives::<super::layers::Table>(),
        Route::new("get", "/jobs/{id}", "How far a piece of work is.", get(job))
            .speaks()
            .gives::<Job>(),
        Route::new(
            "get",
            "/jobs/{id}/events",
            "Follows a piece of work until it ends.",
            get(events),
        )
        .speaks()
        .gives_bytes("text/event-stream"),
        Route::new("delete", "/jobs/{id}", "Stops a piece of work.", delete(stop)),
    ]
}

fn of_phone() -> Vec<Route> {
    use phone::*;
    vec![
        Route::new("get", "/about", "What program this is.", get(about)).gives::<About>(),
        Route::new(
            "post",
            "/phone",
            "Opens the door to the local network for one phone.",
            post(open),
        )
        .takes::<Nothing>()
        .gives::<PhoneOpened>(),
        Route::new(
            "delete",
            "/phone",
            "Shuts the door to the local network and forgets every phone.",
            delete(shut),
        ),
        Route::new(
            "post",
            "/pair",
            "Lets a phone in that shows the secret.",
            post(pair),
        )
        .takes::<PairRequest>(),
    ]
}

/// What serves requests that come through a door.
pub fn router(house: Arc<House>, door: Door) -> Router {
    let mut api = Router::new();
    for route in all() {
        api = api.route(route.path, route.handler);
    }
    let nowhere = || async {
        Refusal::not_found(both!("There is nothing at this address."; "Unter dieser Adresse ist nichts."))
            .into_response()
    };
    let api = api
        .fallback(nowhere)
        .method_not_allowed_fallback(not_allowed)
        .layer(DefaultBodyLimit::max(MOST_BYTES));
    Router::new()
        .nest("/api", api)
        .route("/", get(assets::page))
        .route("/assets/{name}", get(assets::file))
        .fallback(nowhere)
        .layer(from_fn_with_state((Arc::clone(&house), door), guard))
        .with_state(house)
}

async fn not_allowed() -> Response {
    let mut response = Refusal::new(
        super::refusal::Code::BadRequest,
        both!("This address takes no such request."; "Diese Adresse nimmt keine solche Anfrage."),
    )
    .into_response();
    *response.status_mut() = StatusCode::METHOD_NOT_ALLOWED;
    response
}
