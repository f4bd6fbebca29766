//! Figures of the trade stand in `core/src/rules/`, each with its source, and nowhere else.

use crate::none;
use crate::source::{Source, parsed, rust};
use syn::visit::Visit;

/// Where they stand.
const HOME: &str = "core/src/rules/";

/// What a constant says of its source when it is a figure of the trade.
const MARKS: [&str; 3] = ["no source", "common practice", "from memory"];

#[test]
fn figures_of_the_trade_stand_with_the_rules() {
    let elsewhere = rust("core/src").into_iter();
    let elsewhere = elsewhere.filter(|source| !source.path.starts_with(HOME));
    none(elsewhere.flat_map(|source| figures(&source)).collect());
}

fn figures(source: &Source) -> Vec<String> {
    let mut constants = Constants::default();
    constants.visit_file(&source.product);
    let told = |name: String| format!("{}: `{name}`; move it into {HOME}", source.path);
    constants.0.into_iter().map(told).collect()
}

/// The names of constants that say in their comment, or are in words, where a figure of the trade is from.
#[derive(Default)]
struct Constants(Vec<String>);

impl Constants {
    fn note(&mut self, name: &syn::Ident, attributes: &[syn::Attribute], value: &syn::Expr) {
        let doc = attributes.iter().filter_map(|attribute| {
            let syn::Meta::NameValue(pair) = &attribute.meta else {
                return None;
            };
            pair.path.is_ident("doc").then(|| text_of(&pair.value))?
        });
        let doc: Vec<String> = doc.chain(text_of(value)).collect();
        let words = doc.join(" ").to_lowercase();
        let words = words.split_whitespace().collect::<Vec<_>>().join(" ");
        if MARKS.iter().any(|mark| words.contains(mark)) {
            self.0.push(name.to_string());
        }
    }
}

impl Visit<'_> for Constants {
    fn visit_item_const(&mut self, item: &syn::ItemConst) {
        self.note(&item.ident, &item.attrs, &item.expr);
    }

    fn visit_impl_item_const(&mut self, item: &syn::ImplItemConst) {
        self.note(&item.ident, &item.attrs, &item.expr);
    }
}

fn text_of(value: &syn::Expr) -> Option<String> {
    match value {
        syn::Expr::Lit(syn::ExprLit {
            lit: syn::Lit::Str(text),
            ..
        }) => Some(text.value()),
        _ => None,
    }
}

#[test]
fn a_figure_of_the_trade_is_seen() {
    let seen = |text: &str| figures(&parsed("core/src/route/lane.rs", text.to_string())).len();
    assert_eq!(
        seen("/// Three inches. Common\n/// practice, no\n/// source.\nconst A: f64 = 76.2;"),
        1
    );
    assert_eq!(seen("const BY: &str = \"common practice, no source\";"), 1);
    assert_eq!(
        seen("impl Roof {\n/// 24 in 12, from memory.\npub const STEEPEST: u8 = 24;\n}"),
        1
    );
    assert_eq!(seen("/// Looked at so often.\nconst TRIES: u32 = 400;"), 0);
}
