//! What holds for the leaders on the plans and elevations of every plan that is kept: hardly any strikes out
//! text or runs along on cable, where nobody tells it from that.

use super::laws::plans;
use super::*;
use crate::picture::{Ink, Item, Shape};

/// A leader may touch the air around letters by so much, paper millimetres.
const AIR: f64 = 0.3;
/// A leader this near to a line for longer than [`LONG`] is taken for it, paper millimetres.
const NEAR: f64 = 0.45;
const LONG: f64 = 4.0;

/// The ends of a leader, paper millimetres.
type Ends = (Pos, Pos);

fn ends(item: &Item, scale: f64) -> Option<Ends> {
    match (&item.shape, item.ink) {
        (Shape::Line(ends), Ink::Leader) => {
            Some((ends[0] * (1.0 / scale), ends[1] * (1.0 / scale)))
        }
        _ => None,
    }
}

fn is_in_a_symbol(ink: Ink) -> bool {
    matches!(ink, Ink::DropLetter | Ink::ClosetMark)
}

/// Places along a leader, a tenth of a millimetre from one to the next.
fn places((from, to): Ends) -> Vec<Pos> {
    let count = (from.distance(to) * 10.0).ceil().max(1.0);
    let step = |step: u32| from + (to - from) * (f64::from(step) / count);
    (0..=count as u32).map(step).collect()
}

/// Asks something of every picture with leaders in the crew's stacks, with the name of its page.
fn of_every_picture(mut check: impl FnMut(&str, &Picture)) {
    for plan in plans() {
        let design = Design::of(&plan);
        let paper = Paper::of(Size::Letter);
        for draft in Sheets::drafts(&plan, &design, &paper, Stack::Crew, None) {
            let name = format!("{} {}", plan.title, draft.heading.name);
            let pictures = draft.layers.iter().map(|laid| &laid.picture);
            pictures.for_each(|picture| check(&name, picture));
        }
    }
}

/// Nothing is struck out where there is another way: of all leaders not one in fifty crosses a text that is no
/// letter in a symbol.
#[test]
fn leaders_hardly_ever_strike_text_out() {
    let (mut leaders, mut struck) = (0, Vec::new());
    of_every_picture(|name, picture| {
        let scale = picture.scale;
        let boxes = picture.items.iter().filter_map(|item| match &item.shape {
            Shape::Text(text) if !is_in_a_symbol(item.ink) => {
                Some((text.text.as_str(), item.shape.bounds(scale)?))
            }
            _ => None,
        });
        let boxes: Vec<(&str, Ends)> = boxes
            .map(|(text, (low, high))| (text, (low * (1.0 / scale), high * (1.0 / scale))))
            .collect();
        for leader in picture.items.iter().filter_map(|item| ends(item, scale)) {
            leaders += 1;
            let places = places(leader);
            for (text, (low, high)) in &boxes {
                let on = |at: &Pos| {
                    (low.x + AIR..high.x - AIR).contains(&at.x)
                        && (low.y + AIR..high.y - AIR).contains(&at.y)
                };
                if places.iter().any(on) {
                    struck.push(format!("{name}: {text}"));
                }
            }
        }
    });
    assert!(leaders > 300, "{leaders}");
    assert!(
        struck.len() * 50 <= leaders,
        "{} of {leaders}: {struck:#?}",
        struck.len()
    );
}

#[test]
fn leaders_hardly_ever_run_along_on_cable() {
    let (mut leaders, mut along) = (0, Vec::new());
    of_every_picture(|name, picture| {
        let scale = picture.scale;
        let lines = picture.items.iter().filter_map(|item| match &item.shape {
            Shape::Line(points) if matches!(item.ink, Ink::Cable(_) | Ink::Trunk(_)) => {
                Some(points)
            }
            _ => None,
        });
        let stretches: Vec<crate::shape::Segment> = lines
            .flat_map(|points| points.windows(2))
            .filter_map(|pair| {
                crate::shape::Segment::between(pair[0] * (1.0 / scale), pair[1] * (1.0 / scale))
            })
            .collect();
        for pair in picture.items.windows(2) {
            let Some(leader) = ends(&pair[0], scale) else {
                continue;
            };
            leaders += 1;
            let places = places(leader);
            let near = |of: &crate::shape::Segment| {
                let near = places.iter().filter(|at| of.distance_to(**at) < NEAR);
                near.count() as f64 / 10.0
            };
            if stretches.iter().any(|stretch| near(stretch) > LONG) {
                along.push(format!("{name}: {:?}", pair[1].shape));
            }
        }
    });
    assert!(leaders > 300, "{leaders}");
    assert!(
        along.len() * 20 <= leaders,
        "{} of {leaders}: {along:#?}",
        along.len()
    );
}
