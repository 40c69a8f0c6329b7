//! What is built in may be built in: each crate stands under a licence that `.deny.toml` allows, none is there in two
//! versions unless it says so there, and all come from the public registry. `cargo deny check licenses bans sources` holds
//! the same lists where it is installed.
//!
//! What it has caught: nothing yet.

use std::collections::{BTreeMap, BTreeSet};
use std::process::Command;

use serde::Deserialize;
use spdx::{Expression, LicenseReq, Licensee};

use crate::support::{text_of, workspace};

/// What is read of `cargo metadata`.
#[derive(Deserialize)]
struct Metadata {
    packages: Vec<Package>,
}

#[derive(Deserialize)]
struct Package {
    name: String,
    version: String,
    license: Option<String>,
    /// `None` for what lies in the workspace.
    source: Option<String>,
}

/// What is read of `.deny.toml`.
#[derive(Deserialize)]
struct Policy {
    licenses: Licenses,
    bans: Bans,
}

#[derive(Deserialize)]
struct Licenses {
    allow: Vec<String>,
}

#[derive(Deserialize)]
struct Bans {
    skip: Vec<Skip>,
}

/// An older version of a crate that may be there beside the newest, and why.
#[derive(Deserialize)]
struct Skip {
    #[serde(rename = "crate")]
    id: String,
}

/// Everything that is built for this machine.
fn packages() -> Vec<Package> {
    let rustc = Command::new("rustc").arg("-vV").output().expect("rustc runs");
    let version = String::from_utf8(rustc.stdout).expect("rustc tells in UTF-8");
    let host = version.lines().find_map(|line| line.strip_prefix("host: ")).expect("rustc tells its host");
    let told = Command::new(env!("CARGO"))
        .args(["metadata", "--format-version", "1", "--offline", "--locked", "--filter-platform", host])
        .current_dir(workspace())
        .output()
        .expect("cargo runs");
    assert!(told.status.success(), "{}", String::from_utf8_lossy(&told.stderr));
    let metadata: Metadata = serde_json::from_slice(&told.stdout).expect("cargo tells in JSON");
    metadata.packages
}

fn policy() -> Policy {
    toml::from_str(&text_of(".deny.toml")).unwrap_or_else(|error| panic!(".deny.toml: {error}"))
}

#[test]
fn every_crate_stands_under_a_licence_that_is_allowed() {
    let allowed: Vec<Licensee> = policy()
        .licenses
        .allow
        .iter()
        .map(|name| Licensee::parse(name).unwrap_or_else(|error| panic!("{name}: {error}")))
        .collect();
    let allows = |wanted: &LicenseReq| allowed.iter().any(|licensee| licensee.satisfies(wanted));
    let mut used = BTreeSet::new();
    for package in packages() {
        let own = package.license.unwrap_or_else(|| panic!("{} states no licence", package.name));
        // Some still write a slash for "or".
        let expression = Expression::parse(&own.replace('/', " OR "));
        let expression = expression.unwrap_or_else(|error| panic!("{}: {error}", package.name));
        assert!(expression.evaluate(allows), "{} {} stands under {own}", package.name, package.version);
        used.extend(expression.requirements().filter(|r| allows(&r.req)).map(|r| r.req.to_string()));
    }
    for name in policy().licenses.allow {
        assert!(
            used.iter().any(|one| one.starts_with(&name)),
            "{name} is allowed, and nothing stands under it"
        );
    }
}

#[test]
fn no_crate_is_built_twice_without_a_reason() {
    let mut versions: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for package in packages() {
        versions.entry(package.name).or_default().insert(package.version);
    }
    let skipped: Vec<String> = policy().bans.skip.into_iter().map(|skip| skip.id).collect();
    for (name, mut versions) in versions {
        versions.retain(|version| !skipped.contains(&format!("{name}@{version}")));
        assert!(versions.len() <= 1, "{name} is there as {versions:?}");
    }
}

#[test]
fn everything_comes_from_the_public_registry() {
    for Package { name, source, .. } in packages() {
        assert!(
            source.is_none_or(|from| from.starts_with("registry+https://github.com/rust-lang/")),
            "{name}"
        );
    }
}
