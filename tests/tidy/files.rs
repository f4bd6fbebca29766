//! Files and functions: opened by a sentence, short, and called by what is in them.

use crate::none;
use crate::source::{Source, paths, rust};
use syn::spanned::Spanned;
use syn::visit::Visit;

/// Longest file, in lines; most should have 100 to 400.
const LONGEST_FILE: usize = 600;

/// Longest function, in lines from its name to its last bracket. A table (a `match` of plain rows)
/// inside counts as one line, however many rows it has: it is read like a list.
const LONGEST_FUNCTION: usize = 60;

/// Longest row of a table, in lines.
const LONGEST_ROW: usize = 10;

/// Names that say nothing of what is inside.
const EMPTY_NAMES: [&str; 6] = ["utils", "util", "helpers", "helper", "misc", "common"];

#[test]
fn every_rust_file_opens_with_what_it_is() {
    let bare = rust("")
        .into_iter()
        .filter(|source| !source.text.starts_with("//! "));
    none(
        bare.map(|source| format!("{}: opens without `//!`", source.path))
            .collect(),
    );
}

#[test]
fn no_rust_file_is_long() {
    let long = rust("").into_iter().filter_map(|source| {
        let lines = source.text.lines().count();
        let says = format!(
            "{}: {lines} lines, over {LONGEST_FILE}; split it",
            source.path
        );
        (lines > LONGEST_FILE).then_some(says)
    });
    none(long.collect());
}

#[test]
fn no_function_is_long() {
    none(rust("").iter().flat_map(long_functions).collect());
}

#[test]
fn names_say_what_is_inside() {
    let empty = paths("", &["rs"]).into_iter().filter(|path| {
        path.split('/')
            .any(|part| EMPTY_NAMES.contains(&part.trim_end_matches(".rs")))
    });
    none(
        empty
            .map(|path| format!("{path}: the name says nothing of what is inside"))
            .collect(),
    );
}

fn long_functions(source: &Source) -> Vec<String> {
    let mut functions = Functions {
        path: &source.path,
        long: vec![],
    };
    functions.visit_file(&source.whole);
    functions.long
}

struct Functions<'a> {
    path: &'a str,
    long: Vec<String>,
}

impl Functions<'_> {
    fn measure(&mut self, signature: &syn::Signature, block: &syn::Block) {
        let first = signature.span().start().line;
        let mut tables = Tables(0);
        tables.visit_block(block);
        let lines = block.span().end().line + 1 - first - tables.0;
        if lines > LONGEST_FUNCTION {
            let (path, name) = (self.path, &signature.ident);
            self.long.push(format!(
                "{path}:{first}: `{name}` has {lines} lines, over {LONGEST_FUNCTION}; split it"
            ));
        }
    }
}

/// Lines of tables inside a function.
struct Tables(usize);

impl<'a> Visit<'a> for Tables {
    fn visit_expr_match(&mut self, table: &'a syn::ExprMatch) {
        if table.arms.iter().all(is_row) {
            self.0 += lines_of(table) - 1;
        } else {
            syn::visit::visit_expr_match(self, table);
        }
    }
}

/// Whether an arm only names a value: short, and without a step of its own.
fn is_row(arm: &syn::Arm) -> bool {
    use syn::Expr::{Block, ForLoop, If, Loop, Match, While};
    let has_steps = matches!(
        &*arm.body,
        Block(_) | ForLoop(_) | If(_) | Loop(_) | Match(_) | While(_)
    );
    !has_steps && lines_of(arm) <= LONGEST_ROW
}

fn lines_of(tokens: &impl Spanned) -> usize {
    tokens.span().end().line + 1 - tokens.span().start().line
}

impl<'a> Visit<'a> for Functions<'_> {
    fn visit_item_fn(&mut self, item: &'a syn::ItemFn) {
        self.measure(&item.sig, &item.block);
        syn::visit::visit_item_fn(self, item);
    }

    fn visit_impl_item_fn(&mut self, item: &'a syn::ImplItemFn) {
        self.measure(&item.sig, &item.block);
        syn::visit::visit_impl_item_fn(self, item);
    }
}

#[test]
fn a_long_function_is_seen_and_a_table_is_not() {
    let long = |body: String| {
        let text = format!("impl X {{ fn f(a: u8) -> u8 {{\n{body}}} }}");
        long_functions(&crate::source::parsed("x.rs", text)).len()
    };
    assert_eq!(long("    let _ = 1;\n".repeat(LONGEST_FUNCTION)), 1);
    assert_eq!(long("    let _ = 1;\n".repeat(2)), 0);
    let rows = |row: &str| format!("match a {{\n{}_ => 0 }}", row.repeat(LONGEST_FUNCTION));
    assert_eq!(long(rows("    1 => 2,\n")), 0);
    assert_eq!(long(rows("    1 => { 2 }\n")), 1);
}
