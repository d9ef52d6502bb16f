//! The routes as an OpenAPI document.

use super::refusal::RefusalBody;
use super::requests::LanguageQuery;
use super::routes::{Gives, MakeSchema, Route, Takes, all};
use schemars::JsonSchema;
use schemars::generate::{SchemaGenerator, SchemaSettings};
use serde_json::{Map, Value, json};

/// The OpenAPI 3.1 document of the page's API, made from the routes and the types that they take and give.
pub fn api_document() -> Value {
    let settings = SchemaSettings::draft2020_12().with(|settings| {
        settings.definitions_path = "/components/schemas".into();
        settings.meta_schema = None;
    });
    let mut generator = SchemaGenerator::new(settings);
    let refusal = generator.subschema_for::<RefusalBody>();
    let mut paths: Map<String, Value> = Map::new();
    for route in all() {
        let operation = operation(&route, &mut generator, refusal.as_value());
        let path = paths
            .entry(format!("/api{}", route.path))
            .or_insert_with(|| json!({}));
        path[route.method] = operation;
    }
    let schemas = generator.take_definitions(true);
    json!({
        "openapi": "3.1.0",
        "info": {
            "title": "Rushlight",
            "version": env!("CARGO_PKG_VERSION"),
            "license": { "name": "MIT OR Apache-2.0", "identifier": "MIT OR Apache-2.0" },
        },
        "paths": paths,
        "components": { "schemas": schemas },
    })
}

fn operation(route: &Route, generator: &mut SchemaGenerator, refusal: &Value) -> Value {
    let mut parameters = in_path(route.path);
    parameters.extend(route.query.into_iter().flat_map(|make| in_query(make, generator)));
    if route.speaks {
        parameters.extend(in_query(LanguageQuery::json_schema, generator));
    }
    let (status, success) = match &route.gives {
        Gives::Nothing => ("204".to_owned(), json!({ "description": "done" })),
        Gives::Json(status, make) => {
            let schema = make(generator);
            let content = json!({ "application/json": { "schema": schema } });
            (
                status.as_u16().to_string(),
                json!({ "description": "done", "content": content }),
            )
        }
        Gives::Bytes(kind) => (
            "200".to_owned(),
            json!({ "description": "done", "content": { *kind: {} } }),
        ),
    };
    let refused = json!({
        "description": "refused, with the reason",
        "content": { "application/json": { "schema": refusal } },
    });
    let mut operation = json!({
        "summary": route.summary,
        "operationId": name(route),
        "parameters": parameters,
        "responses": { status: success, "default": refused },
    });
    let body = match &route.takes {
        Takes::Nothing => None,
        Takes::Json(make) => Some(json!({ "application/json": { "schema": make(generator) } })),
        Takes::Bytes => Some(json!({ "application/octet-stream": {} })),
    };
    if let Some(content) = body {
        operation["requestBody"] = json!({ "required": true, "content": content });
    }
    operation
}

/// `get_answers_id_map`.
fn name(route: &Route) -> String {
    let words = route.path.split(|c: char| !c.is_ascii_alphanumeric());
    let mut name = route.method.to_owned();
    for word in words.filter(|word| !word.is_empty()) {
        name.push('_');
        name.push_str(word);
    }
    name
}

/// The changing parts of an address.
fn in_path(path: &str) -> Vec<Value> {
    path.split('/')
        .filter_map(|part| part.strip_prefix('{')?.strip_suffix('}'))
        .map(|name| {
            let schema = match name {
                "kind" => json!({ "type": "string", "enum": ["shoots", "bags", "places"] }),
                "version" => json!({ "type": "integer", "minimum": 1 }),
                _ => json!({ "type": "string", "minLength": 1 }),
            };
            json!({ "name": name, "in": "path", "required": true, "schema": schema })
        })
        .collect()
}

/// What may stand behind the question mark: the fields of a type.
fn in_query(make: MakeSchema, generator: &mut SchemaGenerator) -> Vec<Value> {
    let schema = make(generator).to_value();
    let required = schema["required"].as_array().cloned().unwrap_or_default();
    let fields = schema["properties"].as_object().cloned().unwrap_or_default();
    fields
        .into_iter()
        .map(|(name, schema)| {
            let needed = required.contains(&json!(name));
            json!({ "name": name, "in": "query", "required": needed, "schema": schema })
        })
        .collect()
}
