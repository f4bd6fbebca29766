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
    let marks: Vec<Mark> = page.marks().collect();
    for alike in marks.chunk_by(are_of_one_path) {
        write_marks(&mut svg, alike);
        svg.push('\n');
    }
    svg.push_str("</svg>\n");
    svg
}

/// Lines of one pen make one path: a browser lays out a few elements much faster than thousands. What is
/// filled stays by itself, where two areas that overlap could make a hole.
fn are_of_one_path(one: &Mark, next: &Mark) -> bool {
    match (one, next) {
        (
            Mark::Path {
                pen, white: ground, ..
            },
            Mark::Path {
                pen: next, white, ..
            },
        ) => pen.fill == Fill::Open && pen == next && ground == white,
        _ => false,
    }
}

/// Writes marks of one path, or one mark.
fn write_marks(svg: &mut String, marks: &[Mark]) {
    match marks.first() {
        None => {}
        Some(Mark::Path { pen, white, .. }) => {
            svg.push_str("<path d=\"");
            for mark in marks {
                if let Mark::Path { points, closed, .. } = mark {
                    write_line(svg, points, *closed);
                }
            }
            svg.push('"');
            write_pen(svg, pen, *white);
            svg.push_str("/>");
        }
        Some(Mark::Circle { at, radius, pen }) => {
            let (x, y, r) = (number(at.x), number(at.y), number(*radius));
            put(svg, format_args!("<circle cx=\"{x}\" cy=\"{y}\" r=\"{r}\""));
            write_pen(svg, pen, false);
            svg.push_str("/>");
        }
        Some(Mark::Text {
            at,
            anchor,
            size,
            weight,
            text,
            upwards,
        }) => write_text(svg, *at, *anchor, *size, *weight, text, *upwards),
    }
}

fn write_line(svg: &mut String, points: &[Pos], closed: bool) {
    for (place, point) in points.iter().enumerate() {
        let letter = if place == 0 { 'M' } else { 'L' };
        put(
            svg,
            format_args!("{letter}{} {}", number(point.x), number(point.y)),
        );
    }
    if closed {
        svg.push('Z');
    }
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
    use crate::sheet::pen::FINEST;

    #[test]
    fn hostile_text_stays_text() {
        assert_eq!(
            escape("</text><script>\"&'\u{0}\u{1b}"),
            "&lt;/text&gt;&lt;script&gt;&quot;&amp;&#39;"
        );
    }

    #[test]
    fn lines_of_one_pen_are_one_path_and_areas_are_not() {
        let path = |x: f64, fill| Mark::Path {
            points: vec![Pos::new(x, 0.0), Pos::new(x, 5.0)],
            closed: fill != Fill::Open,
            pen: Pen {
                stroke: Some(FINEST),
                fill,
                dashes: &[],
            },
            white: false,
        };
        let paths = |fill| {
            let marks = [path(1.0, fill), path(2.0, fill)];
            let mut svg = String::new();
            let parts = marks.chunk_by(are_of_one_path);
            parts.for_each(|alike| write_marks(&mut svg, alike));
            (svg.matches("<path").count(), svg.matches('M').count())
        };
        assert_eq!(paths(Fill::Open), (1, 2));
        assert_eq!(paths(Fill::Black), (2, 2));
    }

    #[test]
    fn numbers_are_short() {
        assert_eq!(number(279.4), "279.4");
        assert_eq!(number(-0.0001), "0");
        assert_eq!(number(10.0), "10");
    }
}
