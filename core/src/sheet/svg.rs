//! A page as SVG, for the preview and for the browser's print.
//!
//! Sizes are in millimetres and colours are presentation attributes, so that a page needs no style
//! sheet of its own and prints at true scale. Text stays text; hostile text stays text too.

use std::fmt::Write;

use super::mark::Mark;
use super::pen::{Fill, Pen};
use super::{Extent, Page};
use crate::picture::{Anchor, Weight};
use crate::shape::Pos;

/// Writes a page.
pub(super) fn write(page: &Page) -> String {
    let Extent { width, height } = page.extent;
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}mm\" height=\"{h}mm\" \
         viewBox=\"0 0 {w} {h}\" role=\"img\" aria-label=\"{}\" \
         font-family=\"'Borewright Sans', sans-serif\" stroke-linejoin=\"round\">\n\
         <rect width=\"{w}\" height=\"{h}\" fill=\"#fff\"/>\n",
        escape(&page.name),
        w = number(width),
        h = number(height),
    );
    for mark in page.marks() {
        write_mark(&mut svg, &mark);
        svg.push('\n');
    }
    svg.push_str("</svg>\n");
    svg
}

fn write_mark(svg: &mut String, mark: &Mark) {
    match mark {
        Mark::Path {
            points,
            closed,
            pen,
            white,
        } => write_path(svg, points, *closed, pen, *white),
        Mark::Circle { at, radius, pen } => {
            let (x, y, r) = (number(at.x), number(at.y), number(*radius));
            put(svg, format_args!("<circle cx=\"{x}\" cy=\"{y}\" r=\"{r}\""));
            write_pen(svg, pen, false);
            svg.push_str("/>");
        }
        Mark::Text {
            at,
            anchor,
            size,
            weight,
            text,
            upwards,
        } => write_text(svg, *at, *anchor, *size, *weight, text, *upwards),
    }
}

fn write_path(svg: &mut String, points: &[Pos], closed: bool, pen: &Pen, white: bool) {
    svg.push_str("<path d=\"");
    for (place, point) in points.iter().enumerate() {
        let letter = if place == 0 { 'M' } else { 'L' };
        put(
            svg,
            format_args!("{letter}{} {}", number(point.x), number(point.y)),
        );
    }
    svg.push_str(if closed { "Z\"" } else { "\"" });
    write_pen(svg, pen, white);
    svg.push_str("/>");
}

fn write_pen(svg: &mut String, pen: &Pen, white: bool) {
    let fill = match pen.fill {
        Fill::Open => "none",
        Fill::White => "#fff",
        Fill::Black => "#000",
    };
    put(svg, format_args!(" fill=\"{fill}\""));
    if let Some(weight) = pen.stroke {
        let stroke = if white { "#fff" } else { "#000" };
        put(
            svg,
            format_args!(" stroke=\"{stroke}\" stroke-width=\"{}\"", number(weight)),
        );
        if !pen.dashes.is_empty() {
            let dashes: Vec<String> = pen.dashes.iter().map(|d| number(*d)).collect();
            put(
                svg,
                format_args!(" stroke-dasharray=\"{}\"", dashes.join(" ")),
            );
        }
    }
}

fn write_text(
    svg: &mut String,
    at: Pos,
    anchor: Anchor,
    size: f64,
    weight: Weight,
    text: &str,
    upwards: bool,
) {
    let (x, y) = (number(at.x), number(at.y));
    put(
        svg,
        format_args!("<text x=\"{x}\" y=\"{y}\" font-size=\"{}\"", number(size)),
    );
    match anchor {
        Anchor::Start => {}
        Anchor::Middle => svg.push_str(" text-anchor=\"middle\""),
        Anchor::End => svg.push_str(" text-anchor=\"end\""),
    }
    if weight == Weight::Bold {
        svg.push_str(" font-weight=\"700\"");
    }
    if upwards {
        put(svg, format_args!(" transform=\"rotate(-90 {x} {y})\""));
    }
    put(svg, format_args!(">{}</text>", escape(text)));
}

/// Writing to a string cannot fail.
fn put(svg: &mut String, what: std::fmt::Arguments) {
    let _ = svg.write_fmt(what);
}

/// At most three decimals: a micrometre.
fn number(value: f64) -> String {
    let text = format!("{value:.3}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    match text {
        "-0" | "" => String::from("0"),
        _ => text.to_string(),
    }
}

/// Text as XML takes it; signs XML forbids are left out.
fn escape(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for sign in text.chars() {
        match sign {
            '&' => escaped.push_str("&amp;"),
            '<' => escaped.push_str("&lt;"),
            '>' => escaped.push_str("&gt;"),
            '"' => escaped.push_str("&quot;"),
            '\'' => escaped.push_str("&#39;"),
            '\t' | '\n' => escaped.push(' '),
            sign if sign < ' ' || matches!(sign, '\u{fffe}' | '\u{ffff}') => {}
            sign => escaped.push(sign),
        }
    }
    escaped
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hostile_text_stays_text() {
        assert_eq!(
            escape("</text><script>\"&'\u{0}\u{1b}"),
            "&lt;/text&gt;&lt;script&gt;&quot;&amp;&#39;"
        );
    }

    #[test]
    fn numbers_are_short() {
        assert_eq!(number(279.4), "279.4");
        assert_eq!(number(-0.0001), "0");
        assert_eq!(number(10.0), "10");
    }
}
