//! What can be asked for, as an `OpenAPI` 3.0 document.

use serde_json::{Value, json};

use super::{GEO_JSON, JSON, Service};
use crate::collection::{Collection, Property, PropertyKind};
use crate::query::{LIMIT_DEFAULT, LIMIT_MOST};

/// The document, with a path for each collection, since each has properties of its own.
pub(super) fn definition(service: &Service) -> Value {
    let mut paths = json!({
        "/": page("landingPage", "The first page"),
        "/api": page("apiDefinition", "This document"),
        "/conformance": page("conformance", "What the service conforms to"),
        "/collections": page("collections", "The collections"),
    });
    for collection in Collection::ALL {
        let (id, title) = (collection.id(), collection.title());
        paths[format!("/collections/{id}")] = page(&format!("{id}.collection"), title);
        paths[format!("/collections/{id}/items")] = items(service, collection);
        paths[format!("/collections/{id}/items/{{featureId}}")] = item(service, collection);
    }
    json!({
        "openapi": "3.0.3",
        "info": {"title": service.title, "description": service.about, "version": env!("CARGO_PKG_VERSION")},
        "servers": [{"url": service.root}],
        "paths": paths,
        "components": {
            "responses": {
                "refusal": {
                    "description": "Why the request is not answered (RFC 9457)",
                    "content": {"application/problem+json": {"schema": {"type": "object", "properties": {
                        "title": {"type": "string"}, "status": {"type": "integer"}, "detail": {"type": "string"},
                    }}}},
                },
            },
        },
    })
}

fn page(operation: &str, title: &str) -> Value {
    json!({"get": {"operationId": operation, "summary": title, "responses": responses(title, JSON, &json!({"type": "object"}))}})
}

fn items(service: &Service, collection: Collection) -> Value {
    let id = collection.id();
    let mut parameters = vec![
        json!({
            "name": "bbox", "in": "query", "style": "form", "explode": false,
            "description": "West, south, east, north, in the axes of bbox-crs; with heights after the second and the fourth. West \
                            greater than east: over the antimeridian.",
            "schema": {"type": "array", "items": {"type": "number"}, "oneOf": [{"minItems": 4, "maxItems": 4}, {"minItems": 6, "maxItems": 6}]},
        }),
        crs(service, "bbox-crs", "System that bbox is in"),
        crs(service, "crs", "System that coordinates are wanted in"),
        json!({
            "name": "datetime", "in": "query", "schema": {"type": "string"},
            "description": "A moment (RFC 3339), a day of universal time, or two of them with a / between, one of which may be `..`",
        }),
        json!({
            "name": "limit", "in": "query", "description": "Features on a page at most",
            "schema": {"type": "integer", "minimum": 1, "maximum": LIMIT_MOST, "default": LIMIT_DEFAULT},
        }),
        json!({
            "name": "cursor", "in": "query", "schema": {"type": "string"},
            "description": "Where a page begins: only for the links next and prev",
        }),
    ];
    for property in collection.properties().iter().filter(|property| property.filter) {
        let said = format!("Features with this value: {}", property.about);
        parameters.push(json!({"name": property.name, "in": "query", "description": said, "schema": schema(property)}));
    }
    let features = json!({"type": "object", "properties": {
        "type": {"type": "string", "enum": ["FeatureCollection"]},
        "features": {"type": "array", "items": feature(collection)},
        "links": {"type": "array", "items": {"type": "object"}},
        "timeStamp": {"type": "string", "format": "date-time"},
        "numberMatched": {"type": "integer"},
        "numberReturned": {"type": "integer"},
    }});
    json!({"get": {
        "operationId": format!("{id}.items"),
        "summary": collection.title(),
        "description": collection.about(),
        "parameters": parameters,
        "responses": responses(collection.title(), GEO_JSON, &features),
    }})
}

fn item(service: &Service, collection: Collection) -> Value {
    json!({"get": {
        "operationId": format!("{}.item", collection.id()),
        "summary": format!("One of: {}", collection.title()),
        "parameters": [
            {"name": "featureId", "in": "path", "required": true, "schema": {"type": "string"}},
            crs(service, "crs", "System that coordinates are wanted in"),
        ],
        "responses": responses(collection.title(), GEO_JSON, &feature(collection)),
    }})
}

fn crs(service: &Service, name: &str, about: &str) -> Value {
    let offered: Vec<String> = service.crs.iter().map(|crs| crs.uri()).collect();
    json!({
        "name": name, "in": "query", "description": about,
        "schema": {"type": "string", "format": "uri", "enum": offered, "default": offered.first()},
    })
}

fn feature(collection: Collection) -> Value {
    let properties: serde_json::Map<String, Value> = collection
        .properties()
        .iter()
        .map(|property| {
            let mut schema = schema(property);
            schema["description"] = property.about.into();
            (property.name.to_owned(), schema)
        })
        .collect();
    json!({"type": "object", "properties": {
        "type": {"type": "string", "enum": ["Feature"]},
        "id": {"type": "string"},
        "geometry": {"type": "object", "nullable": true, "properties": {
            "type": {"type": "string", "enum": collection.geometries()},
            "coordinates": {"type": "array", "items": {}},
        }},
        "properties": {"type": "object", "properties": properties},
    }})
}

fn schema(property: &Property) -> Value {
    match property.kind {
        PropertyKind::Text => json!({"type": "string"}),
        PropertyKind::TextList => json!({"type": "array", "items": {"type": "string"}}),
        PropertyKind::Number => json!({"type": "number"}),
        PropertyKind::Integer => json!({"type": "integer"}),
        PropertyKind::Boolean => json!({"type": "boolean"}),
        PropertyKind::Date => json!({"type": "string", "format": "date"}),
        PropertyKind::DateTime => json!({"type": "string", "format": "date-time"}),
    }
}

fn responses(title: &str, media_type: &str, schema: &Value) -> Value {
    let refusal = json!({"$ref": "#/components/responses/refusal"});
    json!({
        "200": {"description": title, "content": {media_type: {"schema": schema}}},
        "400": refusal,
        "404": refusal,
    })
}
