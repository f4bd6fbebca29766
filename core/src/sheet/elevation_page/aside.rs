//! What stands in the margin beside every elevation: a code that opens the same wall on a phone, and a line for
//! the number of its photo. The rest of the margin is for a red pencil.

use crate::file::link::{Modules, Spot, qr_small};
use crate::picture::font::{self, Weight};
use crate::picture::{Anchor, Ink, Item, Picture, Shape};
use crate::plan::WallId;
use crate::shape::Pos;
use crate::sheet::code;
use crate::sheet::paper::Area;
use crate::sheet::table::{BODY, ID, text};
use crate::tongue::Tongue;

/// From the page's body to what stands beside it.
const BEFORE: f64 = 0.3;
/// What is left of the margin at the edge of the page: what printers cannot reach. The white border of a code
/// may lie there, its modules may not.
const EDGE: f64 = 6.5;
/// Distance between lines of words.
const LEADING: f64 = BODY * 1.1;
/// From the words to the line to write on.
const WRITTEN: f64 = 4.5;

/// A wall's name, its code and the line.
#[derive(Clone)]
pub(super) struct Aside {
    wall: String,
    code: Option<Modules>,
    words: Vec<String>,
    width: f64,
}

impl Aside {
    /// What stands beside a wall's elevation in a margin of this width: with a code where it is known where
    /// the page lives, of which version the paper is, and where the code is small enough.
    pub fn of(
        address: Option<&str>,
        version: &str,
        (wall, label): (WallId, String),
        (margin, tongue): (f64, Tongue),
    ) -> Self {
        let spot = Spot::of(version, wall);
        let code = address.and_then(|page| qr_small(&format!("{page}#{}", spot.spelled())));
        let width = margin - BEFORE - EDGE;
        let fits = |code: &Modules| code::side(code) - code::border() <= width;
        Self {
            wall: label,
            code: code.filter(fits),
            words: font::wrap(&tongue.say("photo"), Weight::Regular, BODY, width),
            width,
        }
    }

    fn side(&self) -> f64 {
        self.code.as_ref().map_or(0.0, code::side)
    }

    /// Its height.
    pub fn height(&self) -> f64 {
        let words = self.words.len() as f64 * LEADING;
        ID + self.side() + words + WRITTEN
    }

    /// Draws it with its upper left corner at the edge of the body.
    pub fn draw(&self) -> Picture {
        let mut picture = Picture::at_scale(1.0);
        let label = Pos::new(BEFORE + code::border(), ID * font::ASCENT);
        picture.push(text(label, Anchor::Start, ID, Weight::Bold, &self.wall));
        let mut top = ID;
        if let Some(modules) = &self.code {
            let low = Pos::new(BEFORE, top);
            code::draw(&mut picture, modules, Area::new(low, low));
            top += self.side();
        }
        for line in &self.words {
            let at = Pos::new(label.x, top + BODY * font::ASCENT);
            picture.push(text(at, Anchor::Start, BODY, Weight::Regular, line));
            top += LEADING;
        }
        let y = top + WRITTEN - 1.0;
        let ends = [label.x, BEFORE + self.width].map(|x| Pos::new(x, y));
        picture.push(Item::plain(Ink::Rule, Shape::Line(ends.to_vec())));
        picture
    }
}
