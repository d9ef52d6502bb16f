//! Shoots, bags and places: kept, listed, brought back, taken out and in.

use super::house::House;
use super::refusal::{Code, Refusal, RefusalBody};
use super::requests::{At, JsonBody, MOST_IMPORTED, Query, Spoken};
use crate::moment;
use axum::Json;
use axum::body::Bytes;
use axum::extract::State;
use axum::extract::rejection::BytesRejection;
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use sheet::Language;
use shoot::edit::AsWritten;
use shoot::{Words, both};
use std::collections::HashSet;
use std::io::{Cursor, Read, Write};
use std::sync::Arc;
use store::{Kind, StoreError};
use zip::result::ZipError;
use zip::write::SimpleFileOptions;

/// Files that an archive may hold (ours).
const MOST_FILES: usize = 20_000;

/// A document as it stands in a version.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Document {
    /// What it is called here.
    pub id: String,
    /// What people call it.
    pub name: String,
    /// Counted from 1.
    pub version: i64,
    /// When it was saved, universal time.
    pub saved_at: String,
    /// The text.
    pub text: String,
}

impl From<store::Document> for Document {
    fn from(document: store::Document) -> Self {
        Document {
            id: document.id.to_string(),
            name: document.name,
            version: document.version,
            saved_at: moment::written(document.saved_at_ms),
            text: document.text,
        }
    }
}

/// A version without its text.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Listed {
    /// What it is called here.
    pub id: String,
    /// What people call it.
    pub name: String,
    /// Counted from 1.
    pub version: i64,
    /// When it was saved, universal time.
    pub saved_at: String,
    /// Whether it was removed from the list.
    pub removed: bool,
}

impl From<store::Listed> for Listed {
    fn from(listed: store::Listed) -> Self {
        Listed {
            id: listed.id.to_string(),
            name: listed.name,
            version: listed.version,
            saved_at: moment::written(listed.saved_at_ms),
            removed: listed.removed,
        }
    }
}

/// Whether removed documents are listed.
#[derive(Clone, Copy, Debug, Serialize, Deserialize, JsonSchema)]
pub struct ListQuery {
    /// Removed ones instead of the others.
    #[serde(default)]
    pub removed: bool,
}

/// A document to be kept.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
pub struct NewDocument {
    /// What people call it.
    pub name: String,
    /// The text.
    pub text: String,
}

/// A new version of a document.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
pub struct SaveDocument {
    /// What people call it.
    pub name: String,
    /// The text.
    pub text: String,
    /// The version that was being changed.
    pub based_on: i64,
}

/// The version that was looked at.
#[derive(Clone, Copy, Debug, Serialize, Deserialize, JsonSchema)]
pub struct BasedOn {
    /// Its number.
    pub based_on: i64,
}

/// A version to be brought back.
#[derive(Clone, Copy, Debug, Serialize, Deserialize, JsonSchema)]
pub struct Restore {
    /// The version that is wanted.
    pub version: i64,
    /// The newest version that is known.
    pub based_on: i64,
}

/// A refusal because another window saved in between.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
pub struct ConflictBody {
    /// Why it was refused.
    #[serde(flatten)]
    pub refusal: RefusalBody,
    /// What was saved in between.
    pub theirs: Document,
}

/// Why a document was not saved.
pub enum NotSaved {
    /// Another window saved in between, and this is what it saved.
    Conflict(Refusal, Box<Document>),
    /// Anything else.
    Refused(Refusal),
}

impl From<StoreError> for NotSaved {
    fn from(error: StoreError) -> Self {
        let refusal = Refusal::from(&error);
        match error {
            StoreError::Conflict { theirs } => NotSaved::Conflict(refusal, Box::new(theirs.into())),
            _ => NotSaved::Refused(refusal),
        }
    }
}

impl From<Refusal> for NotSaved {
    fn from(refusal: Refusal) -> Self {
        NotSaved::Refused(refusal)
    }
}

impl IntoResponse for NotSaved {
    fn into_response(self) -> Response {
        match self {
            NotSaved::Conflict(refusal, theirs) => {
                let body = ConflictBody {
                    refusal: RefusalBody::of(&refusal),
                    theirs: *theirs,
                };
                (refusal.status(), Json(body)).into_response()
            }
            NotSaved::Refused(refusal) => refusal.into_response(),
        }
    }
}

/// The kind that an address names.
fn kind_of(word: &str) -> Result<Kind, Refusal> {
    Kind::ALL
        .into_iter()
        .find(|kind| folder(*kind) == word)
        .ok_or_else(|| {
            Refusal::not_found(both!("There is nothing at this address."; "Unter dieser Adresse ist nichts."))
        })
}

/// The word for all documents of a kind: in addresses, and as a folder of an archive.
fn folder(kind: Kind) -> &'static str {
    match kind {
        Kind::Shoot => "shoots",
        Kind::Bag => "bags",
        Kind::Place => "places",
    }
}

/// Lists the documents of a kind.
pub async fn list(
    State(house): State<Arc<House>>,
    At(kind): At<String>,
    Query(query): Query<ListQuery>,
) -> Result<Json<Vec<Listed>>, Refusal> {
    let all = house.store.list(kind_of(&kind)?, query.removed).await?;
    let wanted = all.into_iter().filter(|listed| listed.removed == query.removed);
    Ok(Json(wanted.map(Listed::from).collect()))
}

/// Keeps a new document.
pub async fn create(
    State(house): State<Arc<House>>,
    At(kind): At<String>,
    JsonBody(new): JsonBody<NewDocument>,
) -> Result<(StatusCode, Json<Document>), Refusal> {
    let kind = kind_of(&kind)?;
    let document = house
        .store
        .create(kind, &new.name, &new.text, house.now_ms())
        .await?;
    Ok((StatusCode::CREATED, Json(document.into())))
}

/// The newest version.
pub async fn read(
    State(house): State<Arc<House>>,
    At((kind, id)): At<(String, String)>,
) -> Result<Json<Document>, Refusal> {
    Ok(Json(house.store.get(kind_of(&kind)?, &id).await?.into()))
}

/// Saves a new version.
pub async fn save(
    State(house): State<Arc<House>>,
    At((kind, id)): At<(String, String)>,
    JsonBody(new): JsonBody<SaveDocument>,
) -> Result<Json<Document>, NotSaved> {
    let saved = house
        .store
        .save(
            kind_of(&kind)?,
            &id,
            &new.name,
            &new.text,
            new.based_on,
            house.now_ms(),
        )
        .await?;
    Ok(Json(saved.into()))
}

/// Removes a document from the list.
pub async fn remove(
    State(house): State<Arc<House>>,
    At((kind, id)): At<(String, String)>,
    Query(query): Query<BasedOn>,
) -> Result<StatusCode, NotSaved> {
    house
        .store
        .remove(kind_of(&kind)?, &id, query.based_on, house.now_ms())
        .await?;
    Ok(StatusCode::NO_CONTENT)
}

/// Every version.
pub async fn versions(
    State(house): State<Arc<House>>,
    At((kind, id)): At<(String, String)>,
) -> Result<Json<Vec<Listed>>, Refusal> {
    let all = house.store.versions(kind_of(&kind)?, &id).await?;
    Ok(Json(all.into_iter().map(Listed::from).collect()))
}

/// One version.
pub async fn version(
    State(house): State<Arc<House>>,
    At((kind, id, version)): At<(String, String, i64)>,
) -> Result<Json<Document>, Refusal> {
    Ok(Json(
        house.store.version(kind_of(&kind)?, &id, version).await?.into(),
    ))
}

/// Saves an earlier version again.
pub async fn restore(
    State(house): State<Arc<House>>,
    At((kind, id)): At<(String, String)>,
    JsonBody(wish): JsonBody<Restore>,
) -> Result<Json<Document>, NotSaved> {
    let restored = house
        .store
        .restore(kind_of(&kind)?, &id, wish.version, wish.based_on, house.now_ms())
        .await?;
    Ok(Json(restored.into()))
}

/// Everything in one archive: the newest version of each document as `shoots/Name.toml`, and each earlier one as
/// `history/shoots/Name/0001.toml`. Removed documents are in the history alone.
pub async fn export(State(house): State<Arc<House>>) -> Result<Response, Refusal> {
    let cannot = |error: &dyn std::fmt::Display| {
        let why = error.to_string();
        Refusal::new(
            Code::Ours,
            both!("The archive could not be written: {why}."; "Das Archiv ließ sich nicht schreiben: {why}."),
        )
    };
    let mut archive = zip::ZipWriter::new(Cursor::new(Vec::new()));
    let mut names = Names::default();
    let mut pages = house.store.everything();
    loop {
        let page = pages.next_page().await?;
        if page.is_empty() {
            break;
        }
        for document in page {
            for path in names.paths_of(&document) {
                archive
                    .start_file(path, SimpleFileOptions::default())
                    .and_then(|()| archive.write_all(document.text.as_bytes()).map_err(ZipError::Io))
                    .map_err(|error| cannot(&error))?;
            }
        }
    }
    // What was the newest of each is only known once all have been seen.
    for (path, text) in names.newest() {
        archive
            .start_file(path, SimpleFileOptions::default())
            .and_then(|()| archive.write_all(text.as_bytes()).map_err(ZipError::Io))
            .map_err(|error| cannot(&error))?;
    }
    let bytes = archive.finish().map_err(|error| cannot(&error))?.into_inner();
    let headers = [
        (header::CONTENT_TYPE, "application/zip"),
        (
            header::CONTENT_DISPOSITION,
            "attachment; filename=\"rushlight.zip\"",
        ),
    ];
    Ok((headers, bytes).into_response())
}

/// The names of files in an archive: the documents' own, made plain and told apart.
#[derive(Default)]
struct Names {
    used: HashSet<String>,
    of: std::collections::HashMap<String, String>,
    newest: std::collections::BTreeMap<String, (String, bool, String)>,
}

impl Names {
    /// Where a version of a document goes.
    fn paths_of(&mut self, document: &store::Document) -> Vec<String> {
        let id = document.id.to_string();
        let place = folder(document.kind);
        let name = match self.of.get(&id) {
            Some(name) => name.clone(),
            None => {
                let name = self.new_name(place, &document.name);
                self.of.insert(id.clone(), name.clone());
                name
            }
        };
        let path = format!("{place}/{name}.toml");
        self.newest
            .insert(id, (path, document.removed, document.text.clone()));
        vec![format!("history/{place}/{name}/{:04}.toml", document.version)]
    }

    fn new_name(&mut self, place: &str, name: &str) -> String {
        let plain: String = name
            .chars()
            .map(|c| {
                if c.is_alphanumeric() || " -_,".contains(c) {
                    c
                } else {
                    '_'
                }
            })
            .take(80)
            .collect();
        let plain = match plain.trim() {
            "" => "untitled",
            text => text,
        };
        let mut number = 1;
        loop {
            let tried = if number == 1 {
                plain.to_owned()
            } else {
                format!("{plain} ({number})")
            };
            // Some disks do not tell capital letters from small ones.
            if self.used.insert(format!("{place}/{}", tried.to_lowercase())) {
                return tried;
            }
            number += 1;
        }
    }

    /// The newest version of every document that was not removed.
    fn newest(self) -> impl Iterator<Item = (String, String)> {
        let kept = self.newest.into_values().filter(|(_, removed, _)| !removed);
        kept.map(|(path, _, text)| (path, text))
    }
}

/// What a single file is called, when it is not an archive.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
pub struct ImportQuery {
    /// Its name on the disk.
    #[serde(default)]
    pub name: Option<String>,
}

/// What was taken in.
#[derive(Clone, Debug, Default, Serialize, Deserialize, JsonSchema)]
pub struct Imported {
    /// Documents that are kept now.
    pub taken: Vec<Taken>,
    /// Files that were not taken, with the reason.
    pub refused: Vec<NotTaken>,
}

/// A document that was taken in.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
pub struct Taken {
    /// "shoots", "bags" or "places".
    pub kind: String,
    /// What it is called here.
    pub id: String,
    /// What people call it.
    pub name: String,
}

/// A file that was not taken.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
pub struct NotTaken {
    /// The file.
    pub file: String,
    /// Why not.
    pub why: String,
}

/// Takes in an archive, or one file. Histories come back as versions of their documents.
pub async fn import(
    State(house): State<Arc<House>>,
    Spoken(language): Spoken,
    Query(query): Query<ImportQuery>,
    body: Result<Bytes, BytesRejection>,
) -> Result<Json<Imported>, Refusal> {
    let bytes = body?;
    let mut imported = Imported::default();
    let files = if bytes.starts_with(b"PK") {
        tokio::task::spawn_blocking(move || unpacked(&bytes))
            .await
            .map_err(|_| {
                let message = both!("The archive could not be read."; "Das Archiv ließ sich nicht lesen.");
                Refusal::new(Code::Ours, message)
            })??
    } else {
        let name = query.name.unwrap_or_else(|| "shoot.toml".to_owned());
        vec![(name, bytes.to_vec())]
    };
    for document in arranged(files, language, &mut imported.refused) {
        take_in(&house, document, language, &mut imported).await?;
    }
    Ok(Json(imported))
}

/// The files of an archive, with bounds on what comes out of it.
fn unpacked(bytes: &[u8]) -> Result<Vec<(String, Vec<u8>)>, Refusal> {
    let broken = |error: &dyn std::fmt::Display| {
        let why = error.to_string();
        Refusal::new(
            Code::BadRequest,
            both!("The archive cannot be read: {why}."; "Das Archiv ist nicht zu lesen: {why}."),
        )
        .hint(both!(
            "Take the one that this program made, or put the files into a new one.";
            "Nimm das, welches dieses Programm gemacht hat, oder pack die Dateien in ein neues."
        ))
    };
    let mut archive = zip::ZipArchive::new(Cursor::new(bytes)).map_err(|error| broken(&error))?;
    if archive.len() > MOST_FILES {
        return Err(Refusal::new(
            Code::TooLarge,
            both!(
                "The archive holds more than {} files.", MOST_FILES;
                "Das Archiv enthält mehr als {} Dateien."
            ),
        ));
    }
    let mut files = Vec::new();
    let mut room = MOST_IMPORTED;
    for index in 0..archive.len() {
        let mut file = archive.by_index(index).map_err(|error| broken(&error))?;
        if !file.is_file() {
            continue;
        }
        let name = file.name().map_err(|error| broken(&error))?.into_owned();
        let mut text = Vec::new();
        let most = room.min(store::LONGEST_TEXT + 1) as u64;
        file.by_ref()
            .take(most)
            .read_to_end(&mut text)
            .map_err(|error| broken(&error))?;
        // A small archive can hold an endless file; what comes out is counted, not what it says of itself.
        room = room
            .checked_sub(text.len())
            .filter(|&room| room > 0)
            .ok_or_else(|| {
                let message = both!(
                    "The archive holds more than is taken here.";
                    "Das Archiv enthält mehr, als hier angenommen wird."
                );
                Refusal::new(Code::TooLarge, message)
            })?;
        files.push((name, text));
    }
    Ok(files)
}

/// A document to be taken in, with its versions from the oldest on.
struct Incoming {
    kind: Kind,
    file: String,
    name: String,
    texts: Vec<String>,
}

/// Sorts files into documents and their histories.
fn arranged(files: Vec<(String, Vec<u8>)>, language: Language, refused: &mut Vec<NotTaken>) -> Vec<Incoming> {
    let mut refuse = |file: &str, why: Words| {
        refused.push(NotTaken {
            file: file.to_owned(),
            why: why.in_language(language).to_owned(),
        });
    };
    let mut newest: Vec<Incoming> = Vec::new();
    let mut older: std::collections::BTreeMap<(String, String), Vec<(u64, String)>> = Default::default();
    for (path, bytes) in files {
        let Ok(text) = String::from_utf8(bytes) else {
            refuse(
                &path,
                both!("It is not plain text (UTF-8)."; "Das ist kein reiner Text (UTF-8)."),
            );
            continue;
        };
        let parts: Vec<&str> = path.split('/').collect();
        let Some(stem) = parts.last().and_then(|file| file.strip_suffix(".toml")) else {
            refuse(
                &path,
                both!("Its name does not end in .toml."; "Der Name endet nicht auf .toml."),
            );
            continue;
        };
        match parts[..] {
            ["history", place, name, _] if kind_of(place).is_ok() => match stem.parse() {
                Ok(number) => older
                    .entry((place.to_owned(), name.to_owned()))
                    .or_default()
                    .push((number, text)),
                Err(_) => refuse(
                    &path,
                    both!("An earlier version's file is called by its number."; "Die Datei einer früheren Fassung heißt nach ihrer Nummer."),
                ),
            },
            _ => {
                let place = parts.len().checked_sub(2).map(|index| parts[index]);
                let kind = place.and_then(|place| kind_of(place).ok()).unwrap_or(Kind::Shoot);
                newest.push(Incoming {
                    kind,
                    name: stem.to_owned(),
                    file: path.clone(),
                    texts: vec![text],
                });
            }
        }
    }
    for document in &mut newest {
        let key = (folder(document.kind).to_owned(), document.name.clone());
        if let Some(mut versions) = older.remove(&key) {
            versions.sort();
            let last = document.texts.pop();
            document.texts = versions.into_iter().map(|(_, text)| text).collect();
            if document.texts.last() != last.as_ref() {
                document.texts.extend(last);
            }
        }
    }
    // Documents that had been removed come back from their history.
    for ((place, name), mut versions) in older {
        versions.sort();
        if let Ok(kind) = kind_of(&place) {
            newest.push(Incoming {
                kind,
                file: format!("history/{place}/{name}"),
                name,
                texts: versions.into_iter().map(|(_, text)| text).collect(),
            });
        }
    }
    newest
}

/// Keeps a document with its versions. What the store refuses for its content is told, what it cannot do ends it.
async fn take_in(
    house: &House,
    incoming: Incoming,
    language: Language,
    imported: &mut Imported,
) -> Result<(), Refusal> {
    let Incoming {
        kind,
        file,
        name,
        texts,
    } = incoming;
    let title = match kind {
        Kind::Shoot => texts
            .last()
            .and_then(|text| AsWritten::open(text)?.title().map(str::to_owned))
            .unwrap_or(name),
        _ => name,
    };
    let mut kept: Option<store::Document> = None;
    for text in &texts {
        let saved = match &kept {
            None => house.store.create(kind, &title, text, house.now_ms()).await,
            Some(before) => {
                house
                    .store
                    .save(
                        kind,
                        before.id.as_str(),
                        &title,
                        text,
                        before.version,
                        house.now_ms(),
                    )
                    .await
            }
        };
        match saved {
            Ok(document) => kept = Some(document),
            Err(error) => {
                let refusal = Refusal::from(error);
                if refusal.code == Code::Storage || refusal.code == Code::Busy {
                    return Err(refusal);
                }
                imported.refused.push(NotTaken {
                    file: file.clone(),
                    why: refusal.message.in_language(language).to_owned(),
                });
            }
        }
    }
    if let Some(document) = kept {
        imported.taken.push(Taken {
            kind: folder(kind).to_owned(),
            id: document.id.to_string(),
            name: document.name,
        });
    }
    Ok(())
}
