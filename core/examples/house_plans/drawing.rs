//! A floor plan as a hand would draw it with a soft pencil and a scanner would see it: lines that
//! waver and run past their corners, lettered rooms, dimensions with ticks, paper that is not
//! quite white. Every stroke is made of points of the plan, so the picture lies under the plan
//! exactly as its placing says.

mod hand;
mod letters;
mod paper;

use borewright_core::plan::{Level, Opening, OpeningKind, Placing, Plan, Role, Scan, Wall};
use borewright_core::shape::{Pos, Segment};

use crate::Outcome;
use hand::Hand;
use paper::Paper;

/// A sheet to be drawn: how large, how it lay on the scanner, and what is lettered on it.
pub struct Sheet<'a> {
    /// Pixels across and down.
    pub size: (usize, usize),
    /// How the scan lies under the plan.
    pub placing: Placing,
    /// Dimensions, each with its text.
    pub dimensions: &'a [Dimension],
    /// The middle of the title, feet.
    pub title_at: (f64, f64),
    /// The line under the title.
    pub subtitle: &'a str,
    /// The foot of the arrow that points north, feet.
    pub north_at: (f64, f64),
}

/// A stretch in feet, its text, and which way that runs.
pub type Dimension = ((f64, f64), (f64, f64), &'static str, Turn);

/// A level of a plan as a scanned drawing.
pub fn draw(plan: &Plan, level: &Level, sheet: &Sheet) -> Outcome<Scan> {
    let (width, height) = sheet.size;
    let mut hand = Hand::new(Paper::new(width, height), sheet.placing);
    for wall in &level.walls {
        draw_wall(&mut hand, level, wall);
    }
    for opening in &level.openings {
        draw_opening(&mut hand, level, opening);
    }
    for room in &level.rooms {
        let at = room.at.pos();
        let fitting = clear_width(level, at) / letters::width(&room.name) * 0.8;
        hand.letter(&room.name, at, (fitting * 6.0).min(330.0), Turn::Level);
    }
    for (from, to, text, turn) in sheet.dimensions {
        dimension(&mut hand, (ft(*from), ft(*to)), text, *turn);
    }
    title(&mut hand, &plan.title, sheet);
    Ok(Scan {
        media_type: String::from("image/png"),
        width: width as u32,
        height: height as u32,
        bytes: hand.into_paper().png()?,
    })
}

/// Which way a line of lettering runs.
#[derive(Clone, Copy)]
pub enum Turn {
    /// From left to right.
    Level,
    /// From bottom to top.
    Upright,
}

/// How wide a room is where its name stands, millimetres.
fn clear_width(level: &Level, at: Pos) -> f64 {
    let (mut left, mut right) = (-1e6_f64, 1e6_f64);
    for line in level.walls.iter().filter_map(Wall::line) {
        let upright = line.along.x.abs() < 0.01;
        let (low, high) = (line.from.y.min(line.to.y), line.from.y.max(line.to.y));
        if upright && (low..=high).contains(&at.y) {
            match line.from.x < at.x {
                true => left = left.max(line.from.x),
                false => right = right.min(line.from.x),
            }
        }
    }
    right - left
}

/// Both faces of a wall between its openings, with a stroke across each cut end.
fn draw_wall(hand: &mut Hand, level: &Level, wall: &Wall) {
    let Some(line) = wall.line() else { return };
    let half = wall.width().0 / 2.0;
    let mut from = -half;
    let mut stretches = Vec::new();
    for opening in level.openings_of(wall.id) {
        stretches.push((from, opening.offset.f64()));
        from = (opening.offset + opening.width).f64();
    }
    stretches.push((from, line.length + half));
    for (from, to) in stretches {
        for aside in [-half, half] {
            hand.firm(line.at(from, aside), line.at(to, aside));
        }
        for end in [from, to] {
            hand.firm(line.at(end, -half), line.at(end, half));
        }
    }
}

fn draw_opening(hand: &mut Hand, level: &Level, opening: &Opening) {
    let Some(wall) = level.wall(opening.wall) else {
        return;
    };
    let Some(line) = wall.line() else { return };
    let half = wall.width().0 / 2.0;
    let (from, to) = (opening.offset.f64(), (opening.offset + opening.width).f64());
    match opening.kind {
        OpeningKind::Window => {
            for aside in [-half, 0.0, half] {
                hand.light(line.at(from, aside), line.at(to, aside));
            }
        }
        OpeningKind::Cased => {
            for aside in [-half, half] {
                hand.dashes(line.at(from, aside), line.at(to, aside));
            }
        }
        OpeningKind::Door if opening.width.0 > 2000 => {
            hand.dashes(line.at(from, 0.0), line.at(to, 0.0));
        }
        // Outside walls were drawn clockwise, so their doors open to the right, inwards.
        OpeningKind::Door => match wall.role {
            Role::Exterior => door(hand, &line, (from, to), half),
            _ => door(hand, &line, (from, to), -half),
        },
    }
}

/// A door leaf standing open beyond the face at `aside`, and the quarter circle it swings through.
fn door(hand: &mut Hand, line: &Segment, (from, to): (f64, f64), aside: f64) {
    let width = to - from;
    let out = |along: f64, off: f64| line.at(from + along, aside + aside.signum() * off);
    hand.light(out(0.0, 0.0), out(0.0, width));
    let swing: Vec<Pos> = (0..=16)
        .map(|step| {
            let angle = f64::from(step) / 16.0 * std::f64::consts::FRAC_PI_2;
            out(width * angle.sin(), width * angle.cos())
        })
        .collect();
    hand.curve(&swing);
}

fn ft((x, y): (f64, f64)) -> Pos {
    Pos::new(x * 304.8, y * 304.8)
}

fn dimension(hand: &mut Hand, (from, to): (Pos, Pos), text: &str, turn: Turn) {
    hand.light(from, to);
    for end in [from, to] {
        let tick = Pos::new(95.0, -95.0);
        hand.firm(end - tick, end + tick);
    }
    let beside = match turn {
        Turn::Level => Pos::new(0.0, -270.0),
        Turn::Upright => Pos::new(-270.0, 0.0),
    };
    hand.letter(text, (from + to) * 0.5 + beside, 330.0, turn);
}

fn title(hand: &mut Hand, title: &str, sheet: &Sheet) {
    let (x, y) = sheet.title_at;
    hand.letter(title, ft((x, y)), 470.0, Turn::Level);
    hand.light(ft((x - 9.5, y + 1.6)), ft((x + 9.5, y + 1.6)));
    hand.letter(sheet.subtitle, ft((x, y + 3.2)), 330.0, Turn::Level);
    // North is up.
    let (x, y) = sheet.north_at;
    let (foot, head) = (ft((x, y)), ft((x, y - 5.0)));
    hand.firm(foot, head);
    hand.firm(head, head + Pos::new(-180.0, 420.0));
    hand.firm(head, head + Pos::new(180.0, 420.0));
    hand.letter("N", head + Pos::new(0.0, -330.0), 380.0, Turn::Level);
}
