//! The `OpenAPI` document: what the routes say of themselves, and the shapes of events from their own types.

use model::record::event::{Event, Recorded};
use model::record::known::{KnownHole, KnownRepair, KnownResurfacing, KnownRound, KnownZone};
use schemars::generate::SchemaSettings;
use serde_json::{Value, json};
use utoipa::OpenApi;
use utoipa_axum::router::OpenApiRouter;

use crate::state::Server;

#[derive(OpenApi)]
#[openapi(info(
    title = "lengthsman",
    description = "The record of a district's patched roads. Times are RFC 3339 in UTC; numbers carry their unit in their names; \
                   what goes wrong comes as application/problem+json (RFC 9457)."
))]
struct Described;

/// A router that describes itself.
pub(crate) fn start() -> OpenApiRouter<Server> {
    OpenApiRouter::with_openapi(Described::openapi())
}

/// Names the media type of problems where a route has one among its answers: what is generated takes it for plain JSON.
fn as_problem(response: &mut Value) {
    let Some(content) = response.get_mut("content").and_then(Value::as_object_mut) else { return };
    if content.get("application/json").is_some_and(|kind| kind["schema"]["$ref"] == "#/components/schemas/Problem")
        && let Some(kind) = content.remove("application/json")
    {
        content.insert("application/problem+json".to_owned(), kind);
    }
}

/// The document as it is served.
pub(crate) fn finish(described: &utoipa::openapi::OpenApi) -> Value {
    let mut document = serde_json::to_value(described).unwrap_or_default();
    let settings = SchemaSettings::draft2020_12().with(|settings| {
        settings.definitions_path = "/components/schemas".into();
        settings.meta_schema = None;
    });
    let mut generator = settings.into_generator();
    generator.subschema_for::<Event>();
    generator.subschema_for::<Recorded>();
    generator.subschema_for::<KnownHole>();
    generator.subschema_for::<KnownRepair>();
    generator.subschema_for::<KnownZone>();
    generator.subschema_for::<KnownRound>();
    generator.subschema_for::<KnownResurfacing>();
    for (name, schema) in generator.take_definitions(true) {
        document["components"]["schemas"][name] = schema;
    }
    document["components"]["securitySchemes"] = json!({
        "session": {"type": "apiKey", "in": "cookie", "name": crate::access::COOKIE},
        "device": {"type": "http", "scheme": "bearer"},
    });
    let problem = json!({
        "description": "What went wrong",
        "content": {"application/problem+json": {"schema": {"$ref": "#/components/schemas/Problem"}}},
    });
    let faults = json!({
        "description": "What went wrong: a list of `code` and `description`, as the standard has it",
        "content": {"application/json": {}, "text/xml": {}},
    });
    for (path, operations) in document["paths"].as_object_mut().into_iter().flatten() {
        let wrong = if path.starts_with("/open311/") { &faults } else { &problem };
        for operation in operations.as_object_mut().into_iter().flat_map(|all| all.values_mut()) {
            let public = operation["x-roles"] == json!(["public"]);
            operation["responses"]["default"] = wrong.clone();
            for response in operation["responses"].as_object_mut().into_iter().flat_map(|all| all.values_mut()) {
                as_problem(response);
            }
            if !public {
                operation["security"] = json!([{"session": []}, {"device": []}]);
            }
        }
    }
    document
}
