//! What holds for the figures under the elevations of every plan that is kept: a box is where the room list
//! says, and a bore has a figure of its own.

use std::collections::BTreeMap;

use super::laws::plans;
use super::*;
use crate::picture::{Ink, Shape, Type, best_side, elevation};
use crate::plan::WallId;
use crate::route::Member;
use crate::schedule::room_list;
use crate::units::Mm;

/// What a wall's figures locate: of every name the figures it stands with.
fn told(plan: &Plan, design: &Design, wall: WallId) -> BTreeMap<String, Vec<String>> {
    let sizes = (Type::PAPER, Tongue::English);
    let side = best_side(plan, wall);
    let picture = elevation(plan, design, wall, side, 64.0, sizes);
    let texts = picture.items.iter().filter_map(|item| match &item.shape {
        Shape::Text(text) if item.ink == Ink::Dimension => Some(text.text.as_str()),
        _ => None,
    });
    let mut told: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for text in texts {
        for piece in text.split("; ").flat_map(|part| part.split(" · ")) {
            let Some((names, figure)) = piece.rsplit_once(": ") else {
                continue;
            };
            // "from W8 on the left: D6" names D6.
            let names = names.rsplit_once(": ").map_or(names, |(_, names)| names);
            for name in names.split(' ') {
                told.entry(name.to_string())
                    .or_default()
                    .push(figure.to_string());
            }
        }
    }
    told
}

#[test]
fn a_box_has_one_place_on_its_elevation_and_in_the_room_list() {
    let mut boxes = 0;
    for plan in plans() {
        let design = Design::of(&plan);
        for row in room_list(&plan, &design.framing) {
            let (Some(wall), Some(drop)) = (row.wall, plan.drop(row.drop)) else {
                continue;
            };
            if design.framing.wall(wall).is_none() {
                continue;
            }
            let told = told(&plan, &design, wall);
            let figures = told.get(&drop.label()).cloned().unwrap_or_default();
            let sides = [row.left, row.right].into_iter().flatten();
            // A device may be drawn beyond the corner it is measured from.
            let listed = sides.map(|side| plan.units.position(Mm(side.0.max(0))));
            let listed: Vec<String> = listed.collect();
            let name = (&plan.title, drop.label());
            assert_eq!(figures.len(), 1, "{name:?} {figures:?}");
            assert!(
                listed.contains(&figures[0]),
                "{name:?} {figures:?} {listed:?}"
            );
            boxes += 1;
        }
    }
    assert!(boxes > 100, "{boxes}");
}

#[test]
fn two_bores_share_a_figure_only_at_one_place() {
    let mut bores = 0;
    for plan in plans() {
        let design = Design::of(&plan);
        for frame in design.framing.levels.iter().flat_map(|level| &level.walls) {
            let told = told(&plan, &design, frame.wall);
            for row in design
                .drill_list
                .iter()
                .filter(|row| row.wall == Some(frame.wall))
            {
                let bore = &design.bores[row.bores[0]];
                let crossing = &design.ways.crossings[bore.crossing];
                if matches!(crossing.member, Member::Studs(_)) {
                    continue;
                }
                let length = frame.end - frame.start;
                let off = (bore.offset - frame.start).clamp(0.0, length);
                let ends = [off, length - off].map(|off| plan.units.position(Mm::rounded(off)));
                let figures = told.get(&row.number.to_string());
                let is_told =
                    figures.is_some_and(|figures| figures.iter().all(|f| ends.contains(f)));
                assert!(
                    is_told,
                    "{} {}: {figures:?} {ends:?}",
                    plan.title, row.number
                );
                bores += 1;
            }
        }
    }
    assert!(bores > 100, "{bores}");
}
