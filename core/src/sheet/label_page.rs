//! Label sheets for common label stock, given by its dimensions. Nothing but labels is printed on
//! them: a frame would land on the labels.

use super::mark::Laid;
use super::paper::{Extent, Size};
use super::table::{BODY, ID, text};
use super::{Draft, Kind, Paper};
use crate::picture::font::{self, Weight};
use crate::picture::{Anchor, Picture};
use crate::plan::Plan;
use crate::schedule::{Label, labels};
use crate::shape::Pos;

/// A sheet of labels, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Stock {
    sheet: Size,
    /// Labels across and down.
    count: (usize, usize),
    /// Upper left corner of the first label.
    first: (f64, f64),
    /// Width and height of a label.
    label: (f64, f64),
    /// From one label to the next, across and down.
    pitch: (f64, f64),
}

/// 80 to a letter sheet, 1-3/4 by 1/2 in.
const LETTER: Stock = Stock {
    sheet: Size::Letter,
    count: (4, 20),
    first: (7.62, 12.7),
    label: (44.45, 12.7),
    pitch: (52.07, 12.7),
};

/// 65 to an A4 sheet, 38.1 by 21.2 mm.
const A4: Stock = Stock {
    sheet: Size::A4,
    count: (5, 13),
    first: (4.75, 10.7),
    label: (38.1, 21.2),
    pitch: (40.6, 21.2),
};

/// The label sheets of a job, on letter or A4 stock as the paper suggests.
pub(super) fn pages(plan: &Plan, paper: &Paper) -> Vec<Draft> {
    let stock = match paper.size {
        Size::Letter | Size::Tabloid => LETTER,
        Size::A4 | Size::A3 => A4,
    };
    let labels = labels(plan);
    let each = stock.count.0 * stock.count.1;
    labels.chunks(each).map(|some| page(stock, some)).collect()
}

fn page(stock: Stock, labels: &[Label]) -> Draft {
    let mut picture = Picture::at_scale(1.0);
    for (place, label) in labels.iter().enumerate() {
        let (column, row) = (place % stock.count.0, place / stock.count.0);
        let corner = Pos::new(
            stock.first.0 + column as f64 * stock.pitch.0,
            stock.first.1 + row as f64 * stock.pitch.1,
        );
        draw(&mut picture, stock, corner, label);
    }
    let extent: Extent = stock.sheet.portrait();
    Draft {
        kind: Kind::Labels,
        title: String::new(),
        subtitle: String::new(),
        name: format!("Labels, {} by {} mm", stock.label.0, stock.label.1),
        corner: String::new(),
        extent,
        layers: vec![Laid {
            picture,
            origin: Pos::default(),
        }],
        scale: None,
    }
}

/// The identity in large type, and under it what it is and where it goes.
fn draw(picture: &mut Picture, stock: Stock, corner: Pos, label: &Label) {
    let middle = corner + Pos::new(stock.label.0 / 2.0, stock.label.1 / 2.0);
    let room = stock.label.0 - 4.0;
    let name = font::shorten(&label.name, Weight::Bold, ID, room);
    let note = font::shorten(&label.note, Weight::Regular, BODY, room);
    let up = Pos::new(0.0, -0.6);
    let down = Pos::new(0.0, BODY * 1.05);
    picture.push(text(middle + up, Anchor::Middle, ID, Weight::Bold, &name));
    picture.push(text(
        middle + down,
        Anchor::Middle,
        BODY,
        Weight::Regular,
        &note,
    ));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::sample;

    #[test]
    fn labels_stay_on_their_sheet_and_inside_their_edges() {
        for stock in [LETTER, A4] {
            let extent = stock.sheet.portrait();
            let right = stock.first.0 + (stock.count.0 - 1) as f64 * stock.pitch.0 + stock.label.0;
            let bottom = stock.first.1 + (stock.count.1 - 1) as f64 * stock.pitch.1 + stock.label.1;
            assert!(right < extent.width && bottom < extent.height);
            let plan = sample::house();
            let labels = labels(&plan);
            let one = page(stock, &labels[..1]);
            let (low, high) = one.layers[0].picture.bounds().unwrap();
            assert!(low.x >= stock.first.0 && high.x <= stock.first.0 + stock.label.0);
            assert!(low.y >= stock.first.1 && high.y <= stock.first.1 + stock.label.1);
        }
    }

    #[test]
    fn every_label_is_on_a_page() {
        let plan = sample::house();
        let pages = pages(&plan, &Paper::of(Size::Letter));
        let count: usize = pages.iter().map(|p| p.layers[0].picture.items.len()).sum();
        assert_eq!(count, 2 * labels(&plan).len());
    }
}
