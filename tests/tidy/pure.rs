//! The core computes and does nothing else; and only an edit changes a plan.

use crate::none;
use crate::source::{Source, names, parsed, rust};
use syn::visit::Visit;

/// What the core may not reach, as the beginning of a path or a macro, and why.
const OUT_OF_REACH: [(&str, &str); 18] = [
    ("std::time", "the core has no clock"),
    ("Instant", "the core has no clock"),
    ("SystemTime", "the core has no clock"),
    ("std::fs", "the core reads and writes nothing"),
    ("std::io", "the core reads and writes nothing"),
    ("std::net", "the core talks to nobody"),
    (
        "std::env",
        "the same plan must give the same sheet everywhere",
    ),
    ("std::process", "the core cannot stop the page"),
    ("std::thread", "the page has one thread"),
    (
        "std::collections::HashMap",
        "hash order differs between runs; use BTreeMap",
    ),
    (
        "std::collections::HashSet",
        "hash order differs between runs; use BTreeSet",
    ),
    (
        "rand",
        "random numbers come from a seeded generator of our own",
    ),
    ("web_sys", "the core knows no browser"),
    ("js_sys", "the core knows no browser"),
    ("gloo", "the core knows no browser"),
    ("wasm_bindgen", "the core knows no browser"),
    ("println!", "the core prints nothing"),
    ("eprintln!", "the core prints nothing"),
];

/// Functions of the platform's own mathematics library, whose last digit differs between native
/// and WebAssembly.
const INEXACT: [&str; 16] = [
    "sin", "cos", "tan", "asin", "acos", "atan", "atan2", "sin_cos", "powf", "exp", "ln", "log10",
    "log2", "hypot", "cbrt", "sinh",
];

/// Rooms that only draw: nothing is computed from what they make.
const DRAWING: [&str; 1] = ["core/src/sheet/"];

#[test]
fn the_core_only_computes() {
    none(rust("core/src").iter().flat_map(reaches).collect());
}

#[test]
fn results_are_the_same_on_every_machine() {
    none(rust("core/src").iter().flat_map(inexact_calls).collect());
}

#[test]
fn only_an_edit_changes_a_plan() {
    let folders = ["core/src", "frontend/src"];
    none(
        folders
            .iter()
            .flat_map(|folder| rust(folder))
            .flat_map(|s| plan_changes(&s))
            .collect(),
    );
}

fn reaches(source: &Source) -> Vec<String> {
    let used = names(&source.product).into_iter().filter_map(|name| {
        let (_, why) = OUT_OF_REACH.iter().find(|(start, _)| {
            name == *start
                || name
                    .strip_prefix(start)
                    .is_some_and(|rest| rest.starts_with("::"))
        })?;
        Some(format!("{}: `{name}`: {why}", source.path))
    });
    used.collect()
}

fn inexact_calls(source: &Source) -> Vec<String> {
    if DRAWING.iter().any(|room| source.path.starts_with(room)) {
        return vec![];
    }
    let mut calls = Calls {
        path: &source.path,
        faults: vec![],
    };
    calls.visit_file(&source.product);
    calls.faults
}

struct Calls<'a> {
    path: &'a str,
    faults: Vec<String>,
}

impl<'a> Visit<'a> for Calls<'_> {
    fn visit_expr_method_call(&mut self, call: &'a syn::ExprMethodCall) {
        let name = call.method.to_string();
        if INEXACT.contains(&name.as_str()) {
            let line = call.method.span().start().line;
            let path = self.path;
            self.faults.push(format!(
                "{path}:{line}: `{name}` differs between native and WebAssembly"
            ));
        }
        syn::visit::visit_expr_method_call(self, call);
    }

    fn visit_path(&mut self, path: &'a syn::Path) {
        let parts: Vec<String> = path
            .segments
            .iter()
            .map(|part| part.ident.to_string())
            .collect();
        if let [.., kind, name] = parts.as_slice()
            && kind == "f64"
            && INEXACT.contains(&name.as_str())
        {
            self.faults.push(format!(
                "{}: `f64::{name}` differs between native and WebAssembly",
                self.path
            ));
        }
        syn::visit::visit_path(self, path);
    }
}

/// Ways to change a plan in place, outside the room of edits; the saved form may build one.
fn plan_changes(source: &Source) -> Vec<String> {
    let is_home =
        source.path.starts_with("core/src/plan/") || source.path.starts_with("core/src/file/");
    if is_home {
        return vec![];
    }
    let mut changes = Changes {
        path: &source.path,
        faults: vec![],
    };
    changes.visit_file(&source.product);
    changes.faults
}

struct Changes<'a> {
    path: &'a str,
    faults: Vec<String>,
}

impl Changes<'_> {
    fn fault(&mut self, span: proc_macro2::Span, what: &str) {
        let line = span.start().line;
        self.faults.push(format!(
            "{}:{line}: {what}; a plan is changed by Plan::apply alone",
            self.path
        ));
    }
}

impl<'a> Visit<'a> for Changes<'_> {
    fn visit_type_reference(&mut self, reference: &'a syn::TypeReference) {
        if reference.mutability.is_some() && is_plan(&reference.elem) {
            self.fault(reference.and_token.span, "`&mut Plan`");
        }
        syn::visit::visit_type_reference(self, reference);
    }

    fn visit_pat_ident(&mut self, name: &'a syn::PatIdent) {
        if name.mutability.is_some() && name.ident == "plan" {
            self.fault(name.ident.span(), "`mut plan`");
        }
        syn::visit::visit_pat_ident(self, name);
    }

    fn visit_expr_struct(&mut self, made: &'a syn::ExprStruct) {
        if made
            .path
            .segments
            .last()
            .is_some_and(|last| last.ident == "Plan")
        {
            self.fault(made.brace_token.span.open(), "`Plan { .. }`");
        }
        syn::visit::visit_expr_struct(self, made);
    }

    fn visit_expr_method_call(&mut self, call: &'a syn::ExprMethodCall) {
        if call.method == "make_mut" {
            self.fault(call.method.span(), "`make_mut`");
        }
        syn::visit::visit_expr_method_call(self, call);
    }
}

fn is_plan(kind: &syn::Type) -> bool {
    let syn::Type::Path(path) = kind else {
        return false;
    };
    path.path
        .segments
        .last()
        .is_some_and(|last| last.ident == "Plan")
}

#[test]
fn faults_are_seen() {
    let core = |text: &str| parsed("core/src/x/y.rs", text.into());
    assert_eq!(
        reaches(&core("fn f() { let _ = std::time::Instant::now(); }")).len(),
        1
    );
    assert_eq!(
        reaches(&core("use std::collections::{BTreeMap, HashMap};")).len(),
        1
    );
    assert_eq!(reaches(&core("fn f() { println!(); random(); }")).len(), 1);
    assert_eq!(
        inexact_calls(&core("fn f(a: f64) -> f64 { a.sin() + f64::powf(a, 2.0) }")).len(),
        2
    );
    assert_eq!(
        inexact_calls(&core("fn f(a: f64) -> f64 { a.sqrt() }")).len(),
        0
    );
    assert_eq!(
        plan_changes(&core("fn f(p: &mut Plan) { let mut plan = p; }")).len(),
        2
    );
    assert_eq!(
        plan_changes(&core("fn f(p: &Plan) -> Plan { p.clone() }")).len(),
        0
    );
}
