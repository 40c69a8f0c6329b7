//! Source code read as tokens: which numbers stand in it, what is said of its constants, and which modules and files name
//! which. Comments, strings and modules of tests do not count; what stands inside a macro does.

use std::cmp::Ordering;
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

/// A constant that holds a number, and what its comment says.
#[derive(Debug, PartialEq, Eq)]
pub struct Constant {
    /// Where it stands.
    pub line: usize,
    /// Its name.
    pub name: String,
    /// Its comment, on one line.
    pub comment: String,
}

/// Types that are numbers.
const NUMBERS: [&str; 8] = ["f32", "f64", "u8", "u16", "u32", "u64", "usize", "i64"];

/// Whether a number's type or a number itself stands among these tokens, at whatever depth.
fn has_number(tokens: &[TokenTree]) -> bool {
    tokens.iter().any(|token| match token {
        TokenTree::Group(group) => has_number(&group.stream().into_iter().collect::<Vec<_>>()),
        TokenTree::Ident(word) => NUMBERS.iter().any(|number| word == number),
        TokenTree::Literal(literal) => literal.to_string().starts_with(|c: char| c.is_ascii_digit()),
        TokenTree::Punct(_) => false,
    })
}

/// The comment in front of an item: the attributes `doc` that end here.
fn comment_before(tokens: &[TokenTree], mut end: usize) -> String {
    let mut lines = Vec::new();
    while end >= 2 && is_punct(tokens.get(end - 2), '#') {
        let TokenTree::Group(attribute) = &tokens[end - 1] else { break };
        let inner: Vec<TokenTree> = attribute.stream().into_iter().collect();
        if let [TokenTree::Ident(word), _, TokenTree::Literal(line)] = &inner[..]
            && word == "doc"
        {
            let line = line.to_string();
            lines.push(line.trim_start_matches('r').trim_matches('"').trim().to_owned());
        }
        end -= 2;
    }
    lines.reverse();
    lines.join(" ")
}

fn constants_among(tokens: Vec<TokenTree>, found: &mut Vec<Constant>) {
    let tokens = without_tests(tokens, &mut Vec::new());
    for at in 0..tokens.len() {
        if let TokenTree::Group(group) = &tokens[at] {
            constants_among(group.stream().into_iter().collect(), found);
        }
        // Not a constant function, whose name has no colon behind it, and neither a parameter of a type nor a pointer.
        let begins = is_word(tokens.get(at), "const") && is_punct(tokens.get(at + 2), ':');
        let before = at.checked_sub(1).and_then(|before| tokens.get(before));
        if !begins || ['<', ',', '*'].iter().any(|sign| is_punct(before, *sign)) {
            continue;
        }
        let length = tokens[at..].iter().position(|token| is_punct(Some(token), ';'));
        if has_number(&tokens[at + 3..at + length.unwrap_or(tokens.len() - at)]) {
            // In front of it: `pub`, and `pub(crate)`.
            let mut end = at;
            if matches!(tokens.get(end.wrapping_sub(1)), Some(TokenTree::Group(group)) if group.delimiter() == Delimiter::Parenthesis)
            {
                end -= 1;
            }
            end -= usize::from(is_word(tokens.get(end.wrapping_sub(1)), "pub"));
            let (line, name) = (tokens[at].span().start().line, tokens[at + 1].to_string());
            found.push(Constant { line, name, comment: comment_before(&tokens, end) });
        }
    }
}

fn constants_in(text: &str) -> Vec<Constant> {
    let mut found = Vec::new();
    constants_among(tokens_of(text), &mut found);
    found
}

/// The constants that hold a number in the sources of a folder, each with its file.
pub fn constants(folder: &str) -> Vec<(String, Constant)> {
    let of = |file: String| constants_in(&text_of(&file)).into_iter().map(move |one| (file.clone(), one));
    sources(folder).into_iter().flat_map(of).collect()
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

/// The sources of a folder without those of tests; a file alone is its own.
fn sources(folder: &str) -> Vec<String> {
    if folder.ends_with(".rs") {
        return vec![folder.to_owned()];
    }
    let of_tests = files_of_tests(folder);
    let is_test = |file: &String| {
        of_tests.iter().any(|test| *file == format!("{test}.rs") || file.starts_with(&format!("{test}/")))
    };
    files_under(folder, "rs").into_iter().filter(|file| !is_test(file)).collect()
}

/// Floats other than 0, 1, 2 and one half in the sources of a folder, or in a file: file, line, literal.
pub fn bare_floats(folder: &str) -> Vec<(String, usize, String)> {
    let of = |file: String| {
        bare_floats_in(&text_of(&file)).into_iter().map(move |(line, literal)| (file.clone(), line, literal))
    };
    sources(folder).into_iter().flat_map(of).collect()
}

/// A module, from the crate's root down.
type Module = Vec<String>;

/// Where the paths of a tree of names behind a path's first `::` lead, from this module on.
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
        Some(TokenTree::Ident(word)) if is_path_sign(tokens, 1) => {
            branches(&tokens[3..], &[module, &[word.to_string()]].concat(), found);
        }
        Some(TokenTree::Ident(word)) => found.push([module, &[word.to_string()]].concat()),
        Some(token) if is_punct(Some(token), '*') => found.push([module, &["*".to_owned()]].concat()),
        // Types behind a name, as in `f::<T>()`: they are paths of their own.
        Some(_) => found.push(module.to_vec()),
        None => {}
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

/// What a source text of this module names by paths from `crate`, `super` or `self`, inside bodies as well, from the
/// crate's root down.
fn named_in(text: &str, module: &[&str]) -> Vec<Module> {
    let module: Module = module.iter().map(|name| (*name).to_owned()).collect();
    let mut found = Vec::new();
    paths_in(tokens_of(text), &module, &mut found);
    found
}

/// The crate's root: what is named there and is no module.
pub const ROOT: &str = "lib";

/// Who names whom.
pub type Graph = BTreeMap<String, BTreeSet<String>>;

/// The module that a file is, from the crate's root down.
fn module_of(folder: &str, file: &str) -> Module {
    let inside = file.trim_start_matches(folder).trim_start_matches('/').trim_end_matches(".rs");
    inside.split('/').filter(|name| !["mod", "lib", "main"].contains(name)).map(str::to_owned).collect()
}

/// Which files of a folder of sources name which others, each as its module: of what a path leads to, the file that has
/// it or hands it on.
fn arrows(folder: &str) -> BTreeMap<Module, BTreeSet<Module>> {
    let files = sources(folder);
    let modules: BTreeSet<Module> = files.iter().map(|file| module_of(folder, file)).collect();
    let file_of = |path: &[String]| {
        let ends = (0..=path.len()).rev().map(|end| path[..end].to_vec());
        ends.into_iter().find(|module| modules.contains(module)).unwrap_or_default()
    };
    let of = |file: &String| {
        let own = module_of(folder, file);
        let names: Vec<&str> = own.iter().map(String::as_str).collect();
        let named = named_in(&text_of(file), &names).iter().map(|path| file_of(path)).collect();
        (own, named)
    };
    files.iter().map(of).collect()
}

/// A graph of arrows between modules of other names; what an arrow leads to within a name is left out.
fn graph_of(arrows: &[(String, String)]) -> Graph {
    let mut graph = Graph::new();
    for (from, to) in arrows {
        graph.entry(to.clone()).or_default();
        let all = graph.entry(from.clone()).or_default();
        if from != to {
            all.insert(to.clone());
        }
    }
    graph
}

/// Which top-level modules of a folder of sources name which others.
pub fn imports(folder: &str) -> Graph {
    let top = |module: &Module| module.first().cloned().unwrap_or_else(|| ROOT.to_owned());
    let all: Vec<(String, String)> = arrows(folder)
        .iter()
        .flat_map(|(from, all)| all.iter().chain([from]).map(move |to| (top(from), top(to))))
        .collect();
    graph_of(&all)
}

/// Which files of a folder of sources name which others, each written as its module. A module and the modules that it
/// declares may name one another: it is of one piece with them, and hands on what they have.
pub fn imports_of_files(folder: &str) -> Graph {
    let declares = |a: &Module, b: &Module| b.len() == a.len() + 1 && b.starts_with(a);
    let name = |module: &Module| if module.is_empty() { ROOT.to_owned() } else { module.join("::") };
    let arrows = arrows(folder);
    let all: Vec<(String, String)> = arrows
        .iter()
        .flat_map(|(from, all)| all.iter().chain([from]).map(move |to| (from, to)))
        .filter(|(from, to)| !declares(from, to) && !declares(to, from))
        .map(|(from, to)| (name(from), name(to)))
        .collect();
    graph_of(&all)
}

/// What is wrong with a graph of imports by these layers, lowest first, each of one module or of several with spaces
/// between: modules in no layer, and arrows that do not point down. Where all do, none goes round.
pub fn wrong_with_imports(graph: &Graph, layers: &[&str]) -> Vec<String> {
    let layer = |module: &str| layers.iter().position(|layer| layer.split(' ').any(|name| name == module));
    let mut wrong = Vec::new();
    for (from, all) in graph {
        if layer(from).is_none() {
            wrong.push(format!("{from} is in no layer"));
        }
        for to in all {
            match layer(to).cmp(&layer(from)) {
                Ordering::Less => {}
                Ordering::Equal => wrong.push(format!("{from} -> {to} stays in its layer")),
                Ordering::Greater => wrong.push(format!("{from} -> {to} points up")),
            }
        }
    }
    wrong
}

/// The arrows of a graph that go round, or from one circle to another.
pub fn circles(graph: &Graph) -> Vec<String> {
    let mut left = graph.clone();
    // Whoever names nobody that is left, or is named by nobody that is left, is in no circle.
    loop {
        let named: BTreeSet<&String> = left.values().flatten().collect();
        let free = left
            .iter()
            .find(|(name, all)| !named.contains(name) || all.iter().all(|to| !left.contains_key(to)));
        let Some(free) = free.map(|(name, _)| name.clone()) else { break };
        left.remove(&free);
    }
    let round = |(from, all): (&String, &BTreeSet<String>)| -> Vec<String> {
        all.iter().filter(|to| left.contains_key(*to)).map(|to| format!("{from} -> {to}")).collect()
    };
    left.iter().flat_map(round).collect()
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
    assert_eq!(named("use crate::law::reach::ARM_M;"), ["law::reach::ARM_M"]);
    assert_eq!(
        named("use crate::{state, law::{reach, flight::{self, G}}, self as root};"),
        ["state", "law::reach", "law::flight", "law::flight::G", ""]
    );
    assert_eq!(named("use super::super::x;"), ["x"]);
    assert_eq!(named("use super::{c, super::{x, y::z}};"), ["a::c", "x", "y::z"]);
    assert_eq!(named("use self::d::E; pub(crate) use d::F; pub(super) fn f() {}"), ["a::b::d::E"]);
    assert_eq!(named("fn f() { let y = vec![crate::law::g(super::super::x::X)]; }"), ["law::g", "x::X"]);
    assert_eq!(
        named("fn f(at: &crate::state::Ball) -> <Self as crate::law::T>::Out {}"),
        ["state::Ball", "law::T"]
    );
    assert_eq!(named("fn f() { crate::law::f::<crate::state::B>(1) }"), ["law::f", "state::B"]);
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

fn graph(arrows: &[(&str, &[&str])]) -> Graph {
    let all = |names: &[&str]| names.iter().map(|name| (*name).to_owned()).collect();
    arrows.iter().map(|(from, to)| ((*from).to_owned(), all(to))).collect()
}

#[test]
fn an_arrow_up_or_within_a_layer_and_a_stranger_are_found() {
    let wrong = |arrows: &[(&str, &[&str])]| {
        wrong_with_imports(&graph(arrows), &["math", "law", "ball motion", "lib"])
    };
    assert_eq!(wrong(&[("math", &[]), ("law", &["math"]), ("ball", &["law", "math"])]), [""; 0]);
    assert_eq!(wrong(&[("math", &[]), ("law", &["ball"]), ("ball", &[])]), ["law -> ball points up"]);
    assert_eq!(wrong(&[("ball", &["motion"]), ("motion", &[])]), ["ball -> motion stays in its layer"]);
    assert_eq!(wrong(&[("film", &[])]), ["film is in no layer"]);
    assert_eq!(wrong(&[("law", &["lib"]), ("lib", &[])]), ["law -> lib points up"]);
}

#[test]
fn a_circle_is_found_and_what_leads_to_it_or_from_it_is_not() {
    let of = |arrows| circles(&graph(arrows));
    assert_eq!(of(&[("a", &["b", "c"]), ("b", &["c"]), ("c", &[])]), [""; 0]);
    assert_eq!(of(&[("a", &["b"]), ("b", &["c"]), ("c", &["b", "d"]), ("d", &[])]), ["b -> c", "c -> b"]);
    assert_eq!(of(&[("a", &["b"]), ("b", &["c"]), ("c", &["a"])]), ["a -> b", "b -> c", "c -> a"]);
}

#[test]
fn a_constant_that_holds_a_number_is_found_with_its_comment() {
    let text = "/// Reach, m.\n/// (assumed)\n#[allow(unused)]\npub(crate) const REACH_M: f32 = 0.5;\nconst NONE: &str = \"1\";\n\
                pub const AT: Vec2 = vec2(0.0, 1.0);\npub const fn one<const N: usize>(p: *const f32) -> f32 {\n\
                /// Inside.\nconst TWICE: usize = 2 * N;\n1.0\n}\n#[cfg(test)]\nmod tests { const A: f32 = 1.0; }";
    let constant = |line, name: &str, comment: &str| Constant {
        line,
        name: name.to_owned(),
        comment: comment.to_owned(),
    };
    assert_eq!(
        constants_in(text),
        [
            constant(4, "REACH_M", "Reach, m. (assumed)"),
            constant(6, "AT", ""),
            constant(9, "TWICE", "Inside."),
        ]
    );
}

#[test]
fn the_engine_of_today_is_read_whole() {
    let graph = imports("engine/src");
    assert!(graph["step"].len() > 5, "{graph:?}");
    assert!(!graph.values().all(|named| named.contains(ROOT)), "{graph:?}");
}
