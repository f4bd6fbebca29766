//! Mends levels: their stack, their walls and openings, and how their drawings lie.

use std::collections::{BTreeMap, BTreeSet};

use super::{lengths, say_doubles, unique};
use crate::file::losses::Losses;
use crate::plan::edit::{Edit, caps, tidy_line};
use crate::plan::{
    Above, Below, Floor, KnownDimension, Level, LevelId, Opening, OpeningKind, Placing, Plan,
    Rafters, Wall, WallId,
};
use crate::rules::trade::STEEPEST_ROOF;
use crate::shape::Direction;
use crate::units::Mm;

/// Ceilings that edits allow.
const CEILINGS: std::ops::RangeInclusive<Mm> = Mm(1800)..=Mm(12_000);

pub(super) fn mend(levels: &mut Vec<Level>, losses: &mut Losses) {
    say_cut(caps::LEVELS.cut(levels), losses);
    let doubles = unique(levels, &mut BTreeSet::new(), |level| level.id.0);
    say_doubles(doubles, "level", losses);
    if levels.is_empty() {
        losses.say("The plan has no level; an empty one was put in.");
        levels.push(Level::new(LevelId(1), "Ground"));
    }
    let highest = levels.len() - 1;
    for (place, level) in levels.iter_mut().enumerate() {
        head(level, losses);
        below(level, place == 0, losses);
        above(level, place == highest, losses);
        sheet(level, losses);
    }
    walls(levels, losses);
    openings(levels, losses);
}

/// Says that things beyond the most of their kind were left out.
fn say_cut(told: Option<String>, losses: &mut Losses) {
    told.into_iter().for_each(|sentence| losses.say(sentence));
}

fn head(level: &mut Level, losses: &mut Losses) {
    level.name = tidy_line(&level.name);
    if !CEILINGS.contains(&level.ceiling) {
        losses.say(format!(
            "The ceiling of {} is out of range and was set to 9 ft; check it.",
            level.name
        ));
        level.ceiling = Mm::feet(9.0);
    }
}

/// Whether edits allow this floor.
fn sound(floor: Floor) -> bool {
    let bare = Plan::new();
    let id = bare.levels.first().map_or(LevelId(1), |level| level.id);
    bare.apply(&Edit::SetBelow(id, Below::Crawl(floor))).is_ok()
}

fn below(level: &mut Level, lowest: bool, losses: &mut Losses) {
    let fits = match level.below {
        Below::Slab => lowest,
        Below::Crawl(floor) => lowest && sound(floor),
        Below::Level(floor) => !lowest && sound(floor),
    };
    if fits {
        return;
    }
    level.below = match lowest {
        true => Below::Slab,
        false => Below::Level(Floor::sawn(Direction::ALONG_Y)),
    };
    losses.say(format!(
        "What is under {} could not be kept; state its floor again.",
        level.name
    ));
}

fn above(level: &mut Level, highest: bool, losses: &mut Losses) {
    let fits = match level.above {
        Above::Level { beside, .. } => {
            !highest && beside.is_none_or(|trusses| sound(trusses.as_joists()))
        }
        Above::ClosedRoof(rafters) => {
            let is_sound =
                |rafters: Rafters| sound(rafters.as_joists()) && rafters.pitch <= STEEPEST_ROOF;
            highest && rafters.is_none_or(is_sound)
        }
        Above::AtticJoists(floor) => highest && sound(floor),
        Above::AtticTrusses(trusses) => highest && sound(trusses.as_joists()),
    };
    if fits {
        return;
    }
    level.above = match highest {
        true => Above::attic_over_trusses(Direction::ALONG_Y),
        false => Above::LEVEL,
    };
    losses.say(format!(
        "What is over {} could not be kept; state it again.",
        level.name
    ));
}

fn sheet(level: &mut Level, losses: &mut Losses) {
    let (name, sheet) = (&level.name, &mut level.sheet);
    let bare = Plan::new();
    let id = bare.levels.first().map_or(LevelId(1), |level| level.id);
    if bare.apply(&Edit::SetPlacing(id, sheet.placing)).is_err() {
        losses.say(format!(
            "How the drawing of {name} lies could not be kept; set its scale again."
        ));
        sheet.placing = Placing::default();
    }
    let before = sheet.known.len();
    sheet.known.retain(is_measure);
    if sheet.known.len() < before {
        losses.say(format!(
            "A known dimension on the drawing of {name} measured nothing and was left out."
        ));
    }
    if let Some(scan) = &sheet.scan {
        let shown = matches!(
            scan.media_type.as_str(),
            "image/png" | "image/jpeg" | "image/webp"
        );
        if !shown || scan.width == 0 || scan.height == 0 {
            losses.say(format!(
                "The drawing under {name} is no picture this page shows and was left out."
            ));
            sheet.scan = None;
        }
    }
}

fn is_measure(known: &KnownDimension) -> bool {
    let (dx, dy) = (known.to.0 - known.from.0, known.to.1 - known.from.1);
    let apart = (dx * dx + dy * dy).sqrt();
    known.length > Mm(0) && apart.is_finite() && apart >= 2.0
}

fn walls(levels: &mut [Level], losses: &mut Losses) {
    let (bare, mut seen) = (Plan::new(), BTreeSet::new());
    for level in levels {
        let (name, walls) = (&level.name, &mut level.walls);
        let doubles = unique(walls, &mut seen, |wall| wall.id.0);
        say_doubles(doubles, "wall", losses);
        say_cut(caps::WALLS.cut(walls), losses);
        walls.retain(|wall| match refusal(&bare, wall) {
            None => true,
            Some(why) => {
                losses.say(format!("{} of {name} was left out. {why}", wall.label()));
                false
            }
        });
    }
}

/// Why edits would not allow this wall, if they would not.
fn refusal(bare: &Plan, wall: &Wall) -> Option<String> {
    let level = bare.levels.first()?.id;
    let draw = Edit::AddWall {
        level,
        from: wall.from,
        to: wall.to,
        lumber: wall.lumber,
        role: wall.role,
    };
    let id = WallId(bare.next.wall);
    let frame = Edit::SetWall(Wall { id, ..*wall });
    let refusal = bare.apply(&Edit::Together(vec![draw, frame])).err()?;
    Some(refusal.sentence)
}

fn openings(levels: &mut [Level], losses: &mut Losses) {
    let mut seen = BTreeSet::new();
    for level in levels {
        let lengths = lengths([&*level]);
        let (name, openings) = (&level.name, &mut level.openings);
        let doubles = unique(openings, &mut seen, |opening| opening.id.0);
        say_doubles(doubles, "opening", losses);
        say_cut(caps::OPENINGS.cut(openings), losses);
        let mut taken: BTreeMap<WallId, Vec<(Mm, Mm)>> = BTreeMap::new();
        openings.retain(|opening| {
            let span = (opening.offset, opening.offset + opening.width);
            let others = taken.entry(opening.wall).or_default();
            let clear = others.iter().all(|o| span.1 <= o.0 || o.1 <= span.0);
            let fits = lengths
                .get(&opening.wall)
                .is_some_and(|length| clear && stands(opening, *length));
            match fits {
                true => others.push(span),
                false => losses.say(format!(
                    "A {} of {name} does not fit its wall and was left out.",
                    opening.kind.name()
                )),
            }
            fits
        });
    }
}

/// Whether an opening fits a wall of this length, whatever the ceiling is by now.
fn stands(opening: &Opening, length: Mm) -> bool {
    let along = opening.width >= Mm(150)
        && opening.offset >= Mm(0)
        && opening.offset + opening.width <= length;
    let upright = opening.sill >= Mm(0)
        && opening.head > opening.sill + Mm(100)
        && opening.head <= *CEILINGS.end();
    let reaches_floor = opening.kind == OpeningKind::Window || opening.sill == Mm(0);
    along && upright && reaches_floor
}
