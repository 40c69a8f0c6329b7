//! Source code read as tokens: which numbers stand in it, and which modules name which. Comments, strings and modules of
//! tests do not count; what stands inside a macro does.

use std::collections::{BTreeMap, BTreeSet};
use std::str::FromStr;

use proc_macro2::{Delimiter, TokenStream, TokenTree};

use crate::support::{files_under, text_of};

/// The tokens of a file.
fn tokens_of(text: &str) -> Vec<TokenTree> {
    let stream = TokenStream::from_str(text).unwrap_or_else(|error| panic!("not Rust: {error}"));
    stream.into_iter().collect()
}

fn is_punct(token: Option<&TokenTree>, sign: char) -> bool {
    matches!(token, Some(TokenTree::Punct(punct)) if punct.as_char() == sign)
}

fn is_word(token: Option<&TokenTree>, word: &str) -> bool {
    matches!(token, Some(TokenTree::Ident(ident)) if ident == word)
}

/// Whether `::` stands here.
fn is_path_sign(tokens: &[TokenTree], at: usize) -> bool {
    is_punct(tokens.get(at), ':') && is_punct(tokens.get(at + 1), ':')
}

/// Takes out what is only there in tests: whatever bears `#[cfg(test)]`, to its end. The names of modules that are kept
/// in files of their own and are only there in tests are added to the second list.
fn without_tests(tokens: Vec<TokenTree>, of_tests: &mut Vec<String>) -> Vec<TokenTree> {
    let only_in_tests = |at: usize| {
        let attribute = tokens.get(at + 1).map(ToString::to_string).unwrap_or_default();
        is_punct(tokens.get(at), '#') && attribute.replace(' ', "") == "[cfg(test)]"
    };
    let mut kept = Vec::new();
    let mut at = 0;
    while at < tokens.len() {
        if !only_in_tests(at) {
            kept.push(tokens[at].clone());
            at += 1;
            continue;
        }
        at += 2;
        let item = at;
        // An item ends with a semicolon or with its braces.
        while at < tokens.len() {
            let braces =
                matches!(&tokens[at], TokenTree::Group(group) if group.delimiter() == Delimiter::Brace);
            let semicolon = is_punct(tokens.get(at), ';');
            at += 1;
            if semicolon && at >= item + 3 && is_word(tokens.get(at - 3), "mod") {
                of_tests.push(tokens[at - 2].to_string());
            }
            if braces || semicolon {
                break;
            }
        }
    }
    kept
}

/// A number with a point, an exponent or a type of float, that is not the field of a tuple.
fn as_float(tokens: &[TokenTree], at: usize) -> Option<f64> {
    let TokenTree::Literal(literal) = &tokens[at] else { return None };
    let text = literal.to_string();
    let of_a_tuple =
        at > 0 && is_punct(tokens.get(at - 1), '.') && !(at > 1 && is_punct(tokens.get(at - 2), '.'));
    let decimal = text.starts_with(|c: char| c.is_ascii_digit())
        && !["0x", "0b", "0o"].iter().any(|p| text.starts_with(p));
    let typed = text.ends_with("f32") || text.ends_with("f64");
    if !decimal || of_a_tuple || !(typed || text.contains(['.', 'e', 'E'])) {
        return None;
    }
    text.replace('_', "").trim_end_matches("f32").trim_end_matches("f64").parse().ok()
}

/// Numbers that say what they are without a name.
const PLAIN: [f64; 4] = [0.0, 0.5, 1.0, 2.0];

fn floats_in(tokens: Vec<TokenTree>, found: &mut Vec<(usize, String)>) {
    let tokens = without_tests(tokens, &mut Vec::new());
    for at in 0..tokens.len() {
        match &tokens[at] {
            TokenTree::Group(group) => floats_in(group.stream().into_iter().collect(), found),
            token => {
                if as_float(&tokens, at).is_some_and(|value| !PLAIN.contains(&value)) {
                    found.push((token.span().start().line, token.to_string()));
                }
            }
        }
    }
}

/// Floats in a source text other than 0, 1, 2 and one half: line and literal.
fn bare_floats_in(text: &str) -> Vec<(usize, String)> {
    let mut found = Vec::new();
    floats_in(tokens_of(text), &mut found);
    found
}

/// The modules of a folder of sources that are only there in tests, as the beginnings of their files' names.
fn files_of_tests(folder: &str) -> Vec<String> {
    let mut files = Vec::new();
    for file in files_under(folder, "rs") {
        let mut names = Vec::new();
        without_tests(tokens_of(&text_of(&file)), &mut names);
        let home = match file.rsplit_once('/') {
            Some((home, "mod.rs" | "lib.rs" | "main.rs")) => home,
            _ => file.trim_end_matches(".rs"),
        };
        files.extend(names.into_iter().map(|name| format!("{home}/{name}")));
    }
    files
}

/// The sources of a folder without those of tests.
fn sources(folder: &str) -> Vec<String> {
    let of_tests = files_of_tests(folder);
    let is_test = |file: &String| {
        of_tests.iter().any(|test| *file == format!("{test}.rs") || file.starts_with(&format!("{test}/")))
    };
    files_under(folder, "rs").into_iter().filter(|file| !is_test(file)).collect()
}

/// Floats other than 0, 1, 2 and one half in the sources of a folder: file, line, literal.
pub fn bare_floats(folder: &str) -> Vec<(String, usize, String)> {
    let of = |file: String| {
        bare_floats_in(&text_of(&file)).into_iter().map(move |(line, literal)| (file.clone(), line, literal))
    };
    sources(folder).into_iter().flat_map(of).collect()
}

/// A module, from the crate's root down.
type Module = Vec<String>;

/// What a tree of names behind a path's first `::` begins with, from this module on.
fn branches(tokens: &[TokenTree], module: &[String], found: &mut Vec<Module>) {
    match tokens.first() {
        Some(TokenTree::Group(group)) if group.delimiter() == Delimiter::Brace => {
            let inner: Vec<TokenTree> = group.stream().into_iter().collect();
            for branch in inner.split(|token| is_punct(Some(token), ',')) {
                branches(branch, module, found);
            }
        }
        Some(TokenTree::Ident(word)) if word == "super" && is_path_sign(tokens, 1) => {
            branches(&tokens[3..], &module[..module.len().saturating_sub(1)], found);
        }
        // What is named in the module itself.
        Some(TokenTree::Ident(word)) if word == "self" || word == "super" => {
            let up = usize::from(word == "super");
            found.push(module[..module.len().saturating_sub(up)].to_vec());
        }
        Some(TokenTree::Ident(word)) => found.push([module, &[word.to_string()]].concat()),
        Some(token) if is_punct(Some(token), '*') => found.push([module, &["*".to_owned()]].concat()),
        _ => {}
    }
}

fn paths_in(tokens: Vec<TokenTree>, module: &[String], found: &mut Vec<Module>) {
    let tokens = without_tests(tokens, &mut Vec::new());
    for at in 0..tokens.len() {
        let begins = !(at >= 2 && is_path_sign(&tokens, at - 2)) && is_path_sign(&tokens, at + 1);
        match &tokens[at] {
            // A tree of names behind a path, which has been read with it.
            TokenTree::Group(_) if at >= 2 && is_path_sign(&tokens, at - 2) => {}
            TokenTree::Group(group) => {
                // The braces of a module stand behind its name.
                let named =
                    at >= 2 && is_word(tokens.get(at - 2), "mod") && group.delimiter() == Delimiter::Brace;
                let inner =
                    if named { [module, &[tokens[at - 1].to_string()]].concat() } else { module.to_vec() };
                paths_in(group.stream().into_iter().collect(), &inner, found);
            }
            TokenTree::Ident(word) if begins && word == "crate" => branches(&tokens[at + 3..], &[], found),
            TokenTree::Ident(word) if begins && word == "self" => branches(&tokens[at + 3..], module, found),
            TokenTree::Ident(word) if begins && word == "super" => branches(&tokens[at..], module, found),
            _ => {}
        }
    }
}

/// What a source text of this module names by paths from `crate`, `super` or `self`, inside bodies as well: the first
/// names of what it gets to, from the crate's root down.
fn named_in(text: &str, module: &[&str]) -> Vec<Module> {
    let module: Module = module.iter().map(|name| (*name).to_owned()).collect();
    let mut found = Vec::new();
    paths_in(tokens_of(text), &module, &mut found);
    found
}

/// The crate's root: what is named there and is no module.
pub const ROOT: &str = "lib";

/// Which top-level modules of a folder of sources name which others.
pub fn imports(folder: &str) -> BTreeMap<String, BTreeSet<String>> {
    let files = sources(folder);
    let module = |file: &str| -> Vec<String> {
        let inside = file.trim_start_matches(folder).trim_start_matches('/').trim_end_matches(".rs");
        let names = inside.split('/').filter(|name| !["mod", "lib", "main"].contains(name));
        names.map(str::to_owned).collect()
    };
    let top = |module: &[String]| module.first().cloned().unwrap_or_else(|| ROOT.to_owned());
    let modules: BTreeSet<String> = files.iter().map(|file| top(&module(file))).collect();
    let mut graph: BTreeMap<String, BTreeSet<String>> =
        modules.iter().map(|name| (name.clone(), BTreeSet::new())).collect();
    for file in &files {
        let own = module(file);
        let names: Vec<&str> = own.iter().map(String::as_str).collect();
        for named in named_in(&text_of(file), &names) {
            let named =
                Some(top(&named)).filter(|name| modules.contains(name)).unwrap_or_else(|| ROOT.to_owned());
            if named != top(&own) {
                graph.entry(top(&own)).or_default().insert(named);
            }
        }
    }
    graph
}

/// What is wrong with a graph of imports by these layers, lowest first, each of one module or of several with spaces
/// between: modules in no layer, arrows up, circles.
pub fn wrong_with_imports(graph: &BTreeMap<String, BTreeSet<String>>, layers: &[&str]) -> Vec<String> {
    let layer = |module: &str| layers.iter().position(|layer| layer.split(' ').any(|name| name == module));
    let mut wrong = Vec::new();
    for (from, all) in graph {
        if layer(from).is_none() {
            wrong.push(format!("{from} is in no layer"));
        }
        let up = all.iter().filter(|to| layer(to) > layer(from));
        wrong.extend(up.map(|to| format!("{from} -> {to} points up")));
    }
    // Whoever names nobody that is left is taken out; what is left in the end goes round.
    let mut left = graph.clone();
    while let Some(free) = left.iter().find(|(_, all)| all.iter().all(|to| !left.contains_key(to))) {
        let free = free.0.clone();
        left.remove(&free);
    }
    if !left.is_empty() {
        let names: Vec<&str> = left.keys().map(String::as_str).collect();
        wrong.push(format!("in a circle, or over one: {}", names.join(", ")));
    }
    wrong
}

#[test]
fn a_bare_float_is_found_and_a_plain_one_is_not() {
    let text = "/// About 7.5 m.\nconst REACH_M: f32 = 3.25; // 8.5\nfn f(x: (f32, (f32, f32))) -> f32 {\n\
                let y = x.0 * 0.5 + 2.0 - -1.0 + x.1.0 + 0.0_f32;\nassert!(y < 1e3, \"9.5\");\n\
                match y { 0.25..=2.5 => f32::INFINITY, _ => 3f32 + 0x1e3 as f32 + 17 as f32 }\n}\n\
                #[cfg(test)]\nmod tests { const A: f32 = 6.5; }\n#[cfg(test)]\nuse crate::x;\nconst B: f64 = 1_0.5;\n";
    let found = bare_floats_in(text);
    let expected = [(2, "3.25"), (5, "1e3"), (6, "0.25"), (6, "2.5"), (6, "3f32"), (12, "1_0.5")]
        .map(|(n, l)| (n, l.to_owned()));
    assert_eq!(found, expected);
}

#[test]
fn a_path_is_found_wherever_it_stands() {
    let named = |text: &str| -> Vec<String> {
        named_in(text, &["a", "b"]).iter().map(|module| module.join("::")).collect()
    };
    assert_eq!(named("use crate::law::reach::ARM_M;"), ["law"]);
    assert_eq!(named("use crate::{state, law::{reach, flight}, self as root};"), ["state", "law", ""]);
    assert_eq!(named("use super::super::x;"), ["x"]);
    assert_eq!(named("use super::{c, super::{x, y::z}};"), ["a::c", "x", "y"]);
    assert_eq!(named("use self::d::E; pub(crate) use d::F; pub(super) fn f() {}"), ["a::b::d"]);
    assert_eq!(named("fn f() { let y = vec![crate::law::g(super::super::x::X)]; }"), ["law", "x"]);
    assert_eq!(named("fn f(at: &crate::state::Ball) -> <Self as crate::law::T>::Out {}"), ["state", "law"]);
    assert_eq!(named("mod inner { use super::super::e; use super::super::super::x; }"), ["a::e", "x"]);
    assert_eq!(named("use crate::*;"), ["*"]);
    assert_eq!(named("// crate::law\n/// crate::law\nconst A: &str = \"crate::law::x\";"), [""; 0]);
    assert_eq!(
        named("#[cfg(test)]\nmod tests { use crate::film::Film; }\n#[cfg(test)]\nmod given;"),
        [""; 0]
    );
    assert_eq!(named("use engine::crate_::x; use std::f32; other::krate::x();"), [""; 0]);
}

#[test]
fn a_module_only_for_tests_is_known_by_name() {
    let mut names = Vec::new();
    let text =
        "#[cfg(test)]\npub(crate) mod given;\nmod own;\n#[cfg(test)]\nmod tests { mod inner; }\nfn f();";
    let kept = without_tests(tokens_of(text), &mut names);
    assert_eq!(names, ["given"]);
    assert_eq!(kept.len(), 7, "{kept:?}");
}

#[test]
fn an_arrow_up_a_circle_and_a_stranger_are_found() {
    let graph = |arrows: &[(&str, &[&str])]| -> BTreeMap<String, BTreeSet<String>> {
        let all = |names: &[&str]| names.iter().map(|name| (*name).to_owned()).collect();
        arrows.iter().map(|(from, to)| ((*from).to_owned(), all(to))).collect()
    };
    let layers = ["math", "law", "ball motion", "lib"];
    let well: &[(&str, &[&str])] =
        &[("math", &[]), ("law", &["math"]), ("ball", &["law", "motion"]), ("motion", &[])];
    assert!(wrong_with_imports(&graph(well), &layers).is_empty());
    assert_eq!(
        wrong_with_imports(&graph(&[("math", &[]), ("law", &["ball"]), ("ball", &[])]), &layers),
        ["law -> ball points up"]
    );
    assert_eq!(
        wrong_with_imports(&graph(&[("ball", &["motion"]), ("motion", &["ball"])]), &layers),
        ["in a circle, or over one: ball, motion"]
    );
    assert_eq!(wrong_with_imports(&graph(&[("film", &[])]), &layers), ["film is in no layer"]);
    assert_eq!(
        wrong_with_imports(&graph(&[("law", &["lib"]), ("lib", &[])]), &layers),
        ["law -> lib points up"]
    );
}

#[test]
fn the_engine_of_today_is_read_whole() {
    let graph = imports("engine/src");
    assert!(graph["step"].len() > 5, "{graph:?}");
    assert!(!graph.values().all(|named| named.contains(ROOT)), "{graph:?}");
}
