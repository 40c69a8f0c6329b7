//! The key reference and the schemas are what the loader reads, and the files in the repository are fresh.

use std::path::PathBuf;

use crate::{FILE_KINDS, json_schema, key_reference, key_reference_markdown};

/// Compares a text with a file of the crate; renews the file where that is asked for.
fn fresh(file: &str, text: &str) {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(file);
    if std::env::var_os("ZONEPROBE_BLESS").is_some() {
        std::fs::create_dir_all(path.parent().expect("a folder")).expect("a folder");
        std::fs::write(&path, text).expect("a written file");
    }
    let written = std::fs::read_to_string(&path).unwrap_or_default();
    let renew = "renew it with ZONEPROBE_BLESS=1 cargo test -p zoneprobe-scenarios reference";
    assert!(written == text, "{file} is stale; {renew}");
}

#[test]
fn the_reference_document_is_fresh() {
    fresh("KEYS.md", &key_reference_markdown());
}

#[test]
fn the_reference_schemas_are_fresh() {
    for kind in FILE_KINDS {
        fresh(&format!("schemas/{kind}.schema.json"), &json_schema(kind).expect("a known kind"));
    }
    assert_eq!(json_schema("rover"), None);
}
