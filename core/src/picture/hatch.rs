//! Places that stay clear, hatched; power cable by others; the direction of joists.

use super::labels::{Label, Run};
use super::obstacles::Obstacles;
use super::{About, Ink, Item, Picture, Shape, Type};
use crate::framing::{Framing, LevelFraming, SpaceKind};
use crate::plan::{KeepOut, KeepOutShape, Level, Plan, PowerPlace, PowerRun, side_towards};
use crate::shape::{Pos, Segment};
use crate::units::Size;

/// Distance between hatching lines, paper millimetres.
const HATCH: f64 = 2.2;
/// The lines of more keep-outs than this lie wider apart, so that they stay as many together.
const FEW: f64 = 20.0;
/// Most hatching lines of one region.
const MOST_LINES: f64 = 400.0;

/// Draws keep-outs with their hatching and returns their names.
pub(super) fn keep_outs(
    picture: &mut Picture,
    level: &Level,
    sizes: Type,
    faint: bool,
) -> Vec<Label> {
    let scale = picture.scale;
    let mut labels = Vec::new();
    let apart = HATCH * scale * (level.keep_outs.len() as f64 / FEW).max(1.0);
    for keep_out in &level.keep_outs {
        let Some(corners) = corners(level, keep_out, scale) else {
            continue;
        };
        let about = About::KeepOut(keep_out.id);
        for (from, to) in hatching(&corners, apart) {
            let line = Item::about(Ink::KeepOut, Shape::Line(vec![from, to]), about, "");
            picture.push(line.faint_if(faint));
        }
        let mut edge = corners.clone();
        edge.extend(corners.first().copied());
        let words = format!("Keep-out, {}", keep_out.reason.name());
        let edge = Item::about(Ink::KeepOut, Shape::Line(edge), about, words);
        picture.push(edge.faint_if(faint));
        labels.push(name(
            keep_out.reason.name(),
            middle(&corners),
            Ink::KeepOutName,
            about,
            sizes,
            faint,
        ));
    }
    labels
}

/// Where power has more corners than this, text does not keep off it: there would be no place left.
const MOST_KEPT_OFF: usize = 600;

/// Draws power runs, dotted, and returns their names. Text keeps off them.
pub(super) fn power(
    picture: &mut Picture,
    obstacles: &mut Obstacles,
    level: &Level,
    sizes: Type,
    faint: bool,
) -> Vec<Label> {
    let mut labels = Vec::new();
    let chains = || level.power_runs.iter().map(|run| chain(level, run));
    let is_crowd = chains().map(|chain| chain.len()).sum::<usize>() > MOST_KEPT_OFF;
    for run in &level.power_runs {
        let points = chain(level, run);
        let Some(place) = points.get(points.len() / 2).copied() else {
            continue;
        };
        let about = About::PowerRun(run.id);
        let (shape, word) = match (run.panel, points.as_slice()) {
            (true, _) => (panel(level, run, place, picture.scale), "power panel"),
            (false, [_]) => (panel(level, run, place, picture.scale), "power"),
            (false, _) => (Shape::Line(points.clone()), "power"),
        };
        let paper: Vec<Pos> = points.iter().map(|p| *p * (1.0 / picture.scale)).collect();
        if !is_crowd {
            obstacles.add_chain(&paper, 0.4);
        }
        picture.push(Item::about(Ink::Power, shape, about, "Power by others").faint_if(faint));
        labels.push(name(word, place, Ink::PowerName, about, sizes, faint));
    }
    labels
}

/// Half length of the arrow along joists, paper millimetres.
const ARROW: f64 = 11.0;
/// Length of its heads, paper millimetres.
const HEAD: f64 = 2.0;

/// Draws the direction of the joists, trusses or rafters over a level as a double arrow in its middle, and
/// returns its words; `None` where nothing frames a space over it.
pub(super) fn joists(
    picture: &mut Picture,
    obstacles: &mut Obstacles,
    plan: &Plan,
    framing: &Framing,
    level: &LevelFraming,
    sizes: Type,
) -> Option<Label> {
    let space = framing.spaces.get(level.above.or(level.rafters)?)?;
    let (low, high) = level.outline.bounds()?;
    let (middle, scale) = ((low + high) * 0.5, picture.scale);
    let along = space.along * scale;
    let ends = [middle + along * -ARROW, middle + along * ARROW];
    obstacles.add_chain(&ends.map(|at| at * (1.0 / scale)), HEAD * 0.6);
    let mut line = |points: Vec<Pos>| {
        picture.push(Item::plain(Ink::Joist, Shape::Line(points)));
    };
    line(ends.to_vec());
    for (end, back) in [(ends[0], 1.0), (ends[1], -1.0)] {
        let (back, aside) = (along * (back * HEAD), along.quarter_turn() * (0.5 * HEAD));
        line(vec![end + back + aside, end, end + back + aside * -1.0]);
    }
    let what = match space.kind {
        SpaceKind::AtticTrusses => "trusses",
        SpaceKind::Rafters => "rafters",
        _ => "joists",
    };
    let words = format!("{what} {} on centre", plan.units.size(Size(space.spacing)));
    let side = side_towards(space.across * -1.0);
    let from = format!("{words} from the {side}");
    Some(Label {
        anchors: vec![middle, ends[0], ends[1]],
        clear: 1.0,
        forms: [from, words]
            .map(|words| vec![Run::plain(words, sizes.body)])
            .into(),
        reach: 60.0,
        centred: false,
        ink: Ink::JoistName,
        about: None,
        faint: false,
        paper: false,
    })
}

fn name(word: &str, at: Pos, ink: Ink, about: About, sizes: Type, faint: bool) -> Label {
    Label {
        anchors: vec![at],
        clear: 0.8,
        forms: vec![vec![Run::plain(word, sizes.body)]],
        reach: 40.0,
        centred: ink == Ink::KeepOutName,
        ink,
        about: Some(about),
        faint,
        paper: ink == Ink::KeepOutName,
    }
}

/// Corners of a keep-out in plan. A stretch of wall is hatched a little wider than its wall.
fn corners(level: &Level, keep_out: &KeepOut, scale: f64) -> Option<Vec<Pos>> {
    match &keep_out.shape {
        KeepOutShape::Region(corners) => Some(corners.iter().map(|c| c.pos()).collect()),
        KeepOutShape::Stretch { wall, from, to } => {
            let wall = level.wall(*wall)?;
            let line = wall.line()?;
            let half = wall.width().0 / 2.0 + scale;
            Some(vec![
                line.at(from.f64(), -half),
                line.at(to.f64(), -half),
                line.at(to.f64(), half),
                line.at(from.f64(), half),
            ])
        }
    }
}

/// The chain a power run follows in plan; one point for a riser.
fn chain(level: &Level, run: &PowerRun) -> Vec<Pos> {
    match &run.place {
        PowerPlace::Overhead(points) => points.iter().map(|p| p.pos()).collect(),
        PowerPlace::Wall { wall, from, to, .. } => {
            let Some(line) = level.wall(*wall).and_then(|wall| wall.line()) else {
                return Vec::new();
            };
            let mut ends = vec![line.at(from.f64(), 0.0), line.at(to.f64(), 0.0)];
            ends.dedup();
            ends
        }
    }
}

/// A small open box for a panel or a riser.
fn panel(level: &Level, run: &PowerRun, at: Pos, scale: f64) -> Shape {
    let line = run
        .on_wall()
        .and_then(|wall| level.wall(wall))
        .and_then(|wall| wall.line());
    let along = line.map_or(Pos::new(1.0, 0.0), |line: Segment| line.along) * (1.6 * scale);
    let across = along.quarter_turn() * 0.6;
    let corner = |a: f64, b: f64| at + along * a + across * b;
    Shape::Line(vec![
        corner(-1.0, -1.0),
        corner(1.0, -1.0),
        corner(1.0, 1.0),
        corner(-1.0, 1.0),
        corner(-1.0, -1.0),
    ])
}

/// The middle of the corners' box.
fn middle(corners: &[Pos]) -> Pos {
    let bounds = Shape::Area(corners.to_vec()).bounds(1.0);
    bounds.map_or(Pos::default(), |(low, high)| (low + high) * 0.5)
}

/// Lines at 45 degrees across a region, so far apart.
pub(super) fn hatching(corners: &[Pos], apart: f64) -> Vec<(Pos, Pos)> {
    // A line x + y = sum; along it a place is told by x - y.
    let sums = || corners.iter().map(|c| c.x + c.y);
    let low = sums().fold(f64::INFINITY, f64::min);
    let high = sums().fold(f64::NEG_INFINITY, f64::max);
    let step = (apart * std::f64::consts::SQRT_2).max((high - low) / MOST_LINES);
    let mut lines = Vec::new();
    let mut sum = (low / step).ceil() * step;
    while sum < high && step > 0.0 {
        let mut cuts: Vec<f64> = edges(corners)
            .filter_map(|(a, b)| {
                let (from, to) = (a.x + a.y - sum, b.x + b.y - sum);
                let crosses = (from < 0.0) != (to < 0.0);
                let at = a + (b - a) * (from / (from - to));
                crosses.then_some(at.x - at.y)
            })
            .collect();
        cuts.sort_by(f64::total_cmp);
        let place = |along: f64| Pos::new((sum + along) / 2.0, (sum - along) / 2.0);
        lines.extend(
            cuts.chunks_exact(2)
                .map(|pair| (place(pair[0]), place(pair[1]))),
        );
        sum += step;
    }
    lines
}

fn edges(corners: &[Pos]) -> impl Iterator<Item = (Pos, Pos)> + '_ {
    let next = corners.iter().cycle().skip(1);
    corners.iter().copied().zip(next.copied())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hatching_stays_inside_and_is_evenly_spaced() {
        let corners = [(0.0, 0.0), (1000.0, 0.0), (1000.0, 500.0), (0.0, 500.0)];
        let corners = corners.map(|(x, y)| Pos::new(x, y));
        let lines = hatching(&corners, 100.0);
        assert!(lines.len() >= 9);
        for (from, to) in &lines {
            for place in [from, to] {
                assert!((-1e-6..=1000.0 + 1e-6).contains(&place.x));
                assert!((-1e-6..=500.0 + 1e-6).contains(&place.y));
            }
        }
        let sums: Vec<f64> = lines.iter().map(|(a, _)| a.x + a.y).collect();
        assert!(
            sums.windows(2)
                .all(|pair| (pair[1] - pair[0] - 141.42).abs() < 0.01)
        );
    }

    #[test]
    fn no_region_has_no_hatching() {
        assert!(hatching(&[], 100.0).is_empty());
        assert!(hatching(&[Pos::new(5.0, 5.0)], 0.0).is_empty());
    }
}
