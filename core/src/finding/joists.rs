//! Findings about joists right over or under what comes out of a plate or a ceiling, and about spaces
//! too wide to be laid with joists.

use super::{Finding, Severity, Subject};
use crate::bore::{Bore, from_joist, in_joists};
use crate::framing::{Framing, Space};
use crate::plan::{Drop, Place, Plan};
use crate::route::{Member, Ways};
use crate::rules::trade::PRACTICE;
use crate::units::Mm;

pub(super) fn check(plan: &Plan, framing: &Framing, ways: &Ways, bores: &[Bore]) -> Vec<Finding> {
    let plates = in_joists(framing, ways, bores).into_iter();
    let plates = plates.filter_map(|place| plate(plan, framing, ways, bores.get(place)?));
    let drops = plan.drops.iter();
    let drops = drops.filter_map(|drop| ceiling(framing, drop));
    let spaces = framing.spaces.iter().enumerate();
    let uncut = spaces.filter_map(|(place, space)| uncut(plan, framing, place, space));
    plates.chain(drops).chain(uncut).collect()
}

/// A space with more joists than are laid: what is left out, so that nobody counts on it.
fn uncut(plan: &Plan, framing: &Framing, place: usize, space: &Space) -> Option<Finding> {
    let levels = framing.levels.iter();
    let over = levels.clone().find(|level| level.is_under(place));
    let under = levels.clone().find(|level| level.below == Some(place));
    let over = over.map(|level| (level, "over"));
    let (level, side) = over.or_else(|| under.map(|level| (level, "under")))?;
    let name = &plan.level(level.level)?.name;
    let key = format!("uncut:{}:{side}", level.level.0);
    (space.uncut > 0.0).then(|| {
        Finding::new(key, Severity::Stop, Subject::Level(level.level))
            .says(
                format!(
                    "The {} {side} {name} is too wide for its joists: {} are laid, the last {} are \
                     left without, and bores and lengths there are not true.",
                    space.kind.name(),
                    space.strips.len() + 1,
                    plan.units.path(Mm::rounded(space.uncut))
                ),
                "Check the scale of the drawing and the spacing of the joists, or plan each part of the \
                 house by itself.",
            )
            .by("a bound of this program on joists in one space")
    })
}

fn plate(plan: &Plan, framing: &Framing, ways: &Ways, bore: &Bore) -> Option<Finding> {
    let crossing = ways.crossings.get(bore.crossing)?;
    let (_, wall) = plan.wall(crossing.wall?)?;
    let (place, end) = match crossing.member {
        Member::TopPlates(_) => ("under", "top"),
        _ => ("over", "bottom"),
    };
    let key = format!(
        "under-joist:{}:{}:{:.0}:{end}:{}",
        crossing.level.0,
        wall.label(),
        crossing.offset,
        bore.part
    );
    let at = framing.wall(wall.id)?.line.at(bore.offset, 0.0);
    let what = format!(
        "Bore {} in the {end} plates of {} is right {place} a joist.",
        bore.number,
        wall.label()
    );
    let todo = "Move the drop to a wall or bay that is clear of it, or bore beside the joist where the \
                plate is wide enough.";
    let finding = Finding::new(key, Severity::Warn, Subject::Bore(bore.number));
    Some(finding.at(crossing.level, at).says(what, todo).by(PRACTICE))
}

fn ceiling(framing: &Framing, drop: &Drop) -> Option<Finding> {
    let Place::Ceiling { at } = drop.place else {
        return None;
    };
    let space = framing.space_over(framing.level(drop.level)?, at.pos())?;
    let right_under = from_joist(framing.spaces.get(space)?, at.pos()) < 0.0;
    right_under.then(|| {
        let label = drop.label();
        Finding::new(
            format!("ceiling-joist:{label}"),
            Severity::Note,
            Subject::Drop(drop.id),
        )
        .at(drop.level, at.pos())
        .says(
            format!("{label} is right under a joist."),
            "Move it beside the joist, so that its cable comes down free.",
        )
        .by(PRACTICE)
    })
}

#[cfg(test)]
mod tests {
    use crate::design::Design;
    use crate::plan::edit::Edit;
    use crate::plan::{Above, Below, Floor, LevelId, Lumber, Plan, Role};
    use crate::shape::{Direction, Point};
    use crate::units::{Size, Units};

    /// A closed house 50 m by 8 m with joists along its short side at this spacing, over and under it.
    fn said(spacing: f64) -> Vec<(String, String)> {
        let corners =
            [(0, 0), (50_000, 0), (50_000, 8000), (0, 8000)].map(|(x, y)| Point::new(x, y));
        let level = LevelId(1);
        let wall = |place: usize| Edit::AddWall {
            level,
            from: corners[place],
            to: corners[(place + 1) % 4],
            lumber: Lumber::TwoByFour,
            role: Role::Exterior,
        };
        let joists = Floor {
            spacing: Size(spacing),
            ..Floor::sawn(Direction::ALONG_Y)
        };
        let over = [
            Edit::SetUnits(Units::Metric),
            Edit::SetAbove(level, Above::AtticJoists(joists)),
            Edit::SetBelow(level, Below::Crawl(joists)),
        ];
        let edits = (0..4).map(wall).chain(over);
        let plan = edits.fold(Plan::new(), |plan, edit| plan.apply(&edit).unwrap());
        let found = Design::of(&plan).findings.into_iter();
        let found = found.filter(|finding| finding.key.starts_with("uncut:"));
        found.map(|finding| (finding.key, finding.what)).collect()
    }

    /// By hand: 400 strips of 100 mm from the outside, 44.45 mm beyond the centre lines, leave
    /// 50 088.9 - 40 000 - 19.05 = 10 069.85 mm.
    #[test]
    fn joists_that_are_left_out_are_a_finding() {
        assert_eq!(said(406.4), []);
        let keys = ["uncut:1:over", "uncut:1:under"];
        let found = said(100.0);
        assert_eq!(found.iter().map(|f| f.0.as_str()).collect::<Vec<_>>(), keys);
        assert_eq!(
            found[0].1,
            "The attic over Ground is too wide for its joists: 401 are laid, the last 10.07 m are left \
             without, and bores and lengths there are not true."
        );
    }
}
