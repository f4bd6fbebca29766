//! Reads the directives in `frontend/index.html` that `trunk` reads too, and writes the finished page.
//!
//! Only `<link data-trunk …>` tags are understood, of the kinds the page uses. Everything else in
//! the file is passed on as it stands.

use anyhow::{Context, Result, bail};
use std::collections::BTreeMap;
use std::ops::Range;

/// One `<link data-trunk …>` tag.
#[derive(Debug)]
pub struct Directive {
    /// Where the tag stands in the file, in bytes.
    pub span: Range<usize>,
    attributes: BTreeMap<String, String>,
}

impl Directive {
    /// The value of an attribute, if the tag has it.
    pub fn get(&self, name: &str) -> Option<&str> {
        self.attributes.get(name).map(String::as_str)
    }

    /// The value of an attribute the tag must have.
    ///
    /// # Errors
    /// When it is absent; says in which tag.
    pub fn need(&self, name: &str) -> Result<&str> {
        let kind = self.get("rel").unwrap_or("?");
        self.get(name)
            .with_context(|| format!("index.html: a rel=\"{kind}\" link lacks `{name}`"))
    }
}

/// Finds the directives in the order they stand, leaving out those in comments.
///
/// # Errors
/// When a tag or comment is not closed.
pub fn directives(html: &str) -> Result<Vec<Directive>> {
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(next) = html[at..].find('<').map(|offset| at + offset) {
        let tag = &html[next..];
        let end = if tag.starts_with("<!--") { "-->" } else { ">" };
        let Some(length) = tag.find(end).map(|offset| offset + end.len()) else {
            bail!("index.html: a tag or comment is not closed: {:.40}", tag);
        };
        at = next + length;
        if let Some(inside) = tag[..length].strip_prefix("<link ") {
            let attributes = attributes(inside.trim_end_matches(['/', '>']));
            if attributes.contains_key("data-trunk") {
                found.push(Directive {
                    span: next..at,
                    attributes,
                });
            }
        }
    }
    Ok(found)
}

/// Splits `a b="c" d='e'` into names and values; a bare name has an empty value.
fn attributes(mut text: &str) -> BTreeMap<String, String> {
    let mut found = BTreeMap::new();
    loop {
        text = text.trim_start();
        let end = text
            .find(|c: char| c.is_whitespace() || c == '=')
            .unwrap_or(text.len());
        let (name, rest) = text.split_at(end);
        if name.is_empty() {
            return found;
        }
        let (value, rest) = rest.strip_prefix('=').map_or(("", rest), value_of);
        found.insert(name.to_string(), value.to_string());
        text = rest;
    }
}

/// The value at the start of `text`, quoted or bare, and what follows it.
fn value_of(text: &str) -> (&str, &str) {
    for quote in ['"', '\''] {
        if let Some(inside) = text.strip_prefix(quote) {
            return inside.split_once(quote).unwrap_or((inside, ""));
        }
    }
    text.split_at(text.find(char::is_whitespace).unwrap_or(text.len()))
}

/// Puts `texts` in the places of the directives, one each, in order.
pub fn rewritten(html: &str, directives: &[Directive], texts: &[String]) -> String {
    let mut page = String::with_capacity(html.len());
    let mut at = 0;
    for (directive, text) in directives.iter().zip(texts) {
        page.push_str(&html[at..directive.span.start]);
        page.push_str(text);
        at = directive.span.end;
    }
    page.push_str(&html[at..]);
    page
}

/// Adds `text` just before the end of the head.
///
/// # Errors
/// When the page has no `</head>`.
pub fn with_head(page: &str, text: &str) -> Result<String> {
    let (head, rest) = page
        .split_once("</head>")
        .context("index.html has no </head>")?;
    Ok(format!("{head}{text}</head>{rest}"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use expect_test::expect;

    const PAGE: &str = r#"<html><head>
  <!-- <link data-trunk rel="css" href="no.css" /> -->
  <link rel="manifest" href="./manifest.webmanifest" />
  <link data-trunk rel='css' href="../static/a b.css"/>
  <link data-trunk rel=rust data-bin="page">
</head></html>"#;

    #[test]
    fn directives_are_found_outside_comments() {
        let found = directives(PAGE).unwrap();
        assert_eq!(found.len(), 2);
        assert_eq!(found[0].need("href").unwrap(), "../static/a b.css");
        assert_eq!(found[1].need("rel").unwrap(), "rust");
        let lacking = found[1].need("href").unwrap_err().to_string();
        expect![[r#"index.html: a rel="rust" link lacks `href`"#]].assert_eq(&lacking);
    }

    #[test]
    fn only_the_directives_change() {
        let found = directives(PAGE).unwrap();
        let page = rewritten(PAGE, &found, &["STYLE".into(), "PROGRAM".into()]);
        expect![[r#"
            <html><head>
              <!-- <link data-trunk rel="css" href="no.css" /> -->
              <link rel="manifest" href="./manifest.webmanifest" />
              STYLE
              PROGRAM
            </head></html>"#]]
        .assert_eq(&page);
        assert!(with_head(&page, "X").unwrap().contains("X</head>"));
    }

    #[test]
    fn an_open_tag_is_refused() {
        assert!(directives("<p><link data-trunk").is_err());
        assert!(directives("<!-- <p>").is_err());
    }
}
