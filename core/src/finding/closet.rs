//! A finding about the closet: whether the bay its panel hangs in takes the holes of all cables that come
//! home through its plates. Which bays cables come by is the router's; it knows no room in a bay.

use super::{Finding, Severity, Subject};
use crate::bore::Bore;
use crate::framing::Framing;
use crate::plan::{ClosetPlace, Plan};
use crate::route::{Crossing, Member, Ways};
use crate::rules::RuleId;
use crate::rules::trade::NAILS;
use crate::units::Size;

/// The bores in the plates of the closet's bay, and the room they want.
struct Full {
    crossing: usize,
    bores: Vec<f64>,
    cables: usize,
    wide: f64,
    wood: f64,
}

impl Full {
    /// The crossing through the plates of the closet's bay whose bores find no room beside each other there,
    /// with the wood between them that the rule wants.
    fn of(plan: &Plan, framing: &Framing, ways: &Ways, bores: &[Bore]) -> Option<Self> {
        let closet = plan.closet.as_ref()?;
        let ClosetPlace::Wall { wall, offset, .. } = closet.place else {
            return None;
        };
        let framed = framing.wall(wall)?;
        let height = closet.panel_height.f64();
        let inside = height.clamp(framed.bottom + 1.0, framed.top - 1.0);
        let bay = &framed.bays[framed.bay_at(offset.f64(), inside)?];
        let is_here = |crossing: &Crossing| {
            let plates = matches!(
                crossing.member,
                Member::TopPlates(_) | Member::BottomPlates(_)
            );
            plates && crossing.wall == Some(wall) && (crossing.offset - bay.middle()).abs() < 1.0
        };
        let full = |crossing: usize| {
            let mine = bores.iter().filter(|bore| bore.crossing == crossing);
            Self {
                crossing,
                bores: mine.map(|bore| bore.bit.0).collect(),
                cables: ways.crossings[crossing].cables.len(),
                wide: bay.width(),
                wood: plan.rules.value(RuleId::BoreSpacing),
            }
        };
        let here = (0..ways.crossings.len()).filter(|place| is_here(&ways.crossings[*place]));
        here.map(full)
            .filter(|full| full.wants() > full.wide + Size::TOLERANCE)
            .max_by(|a, b| a.wants().total_cmp(&b.wants()))
    }

    /// From stud to stud, with the studs' nails.
    fn wants(&self) -> f64 {
        let between = self.bores.len().saturating_sub(1) as f64 * self.wood;
        self.bores.iter().sum::<f64>() + between + 2.0 * NAILS
    }

    /// How many such bays would take them, hole for hole.
    fn bays(&self) -> usize {
        let bit = self.bores.iter().copied().fold(0.0, f64::max);
        let room = self.wide - 2.0 * NAILS + self.wood;
        let each = (room / (bit + self.wood)).floor().max(1.0) as usize;
        self.bores.len().div_ceil(each)
    }
}

/// The crossing that [`check`] tells of, so that no two findings say one thing.
pub(super) fn told(plan: &Plan, framing: &Framing, ways: &Ways, bores: &[Bore]) -> Option<usize> {
    Full::of(plan, framing, ways, bores).map(|full| full.crossing)
}

pub(super) fn check(
    plan: &Plan,
    framing: &Framing,
    ways: &Ways,
    bores: &[Bore],
) -> Option<Finding> {
    let full = Full::of(plan, framing, ways, bores)?;
    let crossing = ways.crossings.get(full.crossing)?;
    let (_, wall) = plan.wall(crossing.wall?)?;
    let (label, units) = (wall.label(), plan.units);
    let plates = match crossing.member {
        Member::TopPlates(_) => "top",
        _ => "bottom",
    };
    // Holes that overlap cannot be drilled at all; holes too near are for the builder to judge.
    let severity = match full.bores.iter().sum::<f64>() + 2.0 * NAILS > full.wide {
        true => Severity::Stop,
        false => Severity::Warn,
    };
    let what = format!(
        "{} cables come to the closet by {} bores in the {plates} plates of one bay of {label}: with {} of wood \
         between them that takes {}, and the bay is {} wide.",
        full.cables,
        full.bores.len(),
        units.size(Size(full.wood)),
        units.limit(Size(full.wants())),
        units.limit(Size(full.wide)),
    );
    let todo = format!(
        "Bring them in by {} bays side by side, each with its own holes, to a backboard before {label}; or frame a \
         chase for them, or build {label} of wider lumber, which takes larger bores. Ask the builder.",
        full.bays()
    );
    let key = format!("closet-bay:{label}:{plates}");
    let finding = Finding::new(key, severity, Subject::Closet).says(what, todo);
    let source = plan.rules.rule(RuleId::BoreSpacing).source.words();
    Some(finding.at(crossing.level, crossing.at).by(source))
}
