//! The document that the web app's types are made of is the one that is served.

use crate::client::{Client, House};

/// Where it is kept: with the web app, whose build needs it before any program is there to serve it.
fn kept() -> std::path::PathBuf {
    testkit::in_repository("web/openapi.json")
}

#[tokio::test]
async fn the_web_app_is_typed_by_the_document_that_is_served() {
    let served = House::new().await.get(&Client::default(), "/api/openapi.json").await.value();
    let served = serde_json::to_string_pretty(&served).unwrap() + "\n";
    if std::env::var_os("KEEP_DOCUMENT").is_some() {
        std::fs::write(kept(), &served).unwrap();
    }
    let kept = std::fs::read_to_string(kept()).unwrap();
    assert!(
        kept == served,
        "web/openapi.json is of another program: run this test once with KEEP_DOCUMENT=1, then look at the difference"
    );
}
