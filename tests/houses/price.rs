//! One price: what ways are sought by is what their finished holes take by the contractor's rates.

use borewright_core::bore::Bore;
use borewright_core::design::Design;
use borewright_core::plan::Plan;
use borewright_core::plan::edit::{Edit, sample};
use borewright_core::route::Member;
use borewright_core::rules::RuleId;
use borewright_core::units::Size;

use crate::places::{place, saved};

/// Every saved plan, and two hundred random ones.
pub fn plans() -> impl Iterator<Item = (String, Plan)> {
    let random = (0..200).map(|seed| (format!("seed {seed}"), sample::plan(seed, 160)));
    saved().into_iter().chain(random)
}

/// Minutes of one bore, by its own numbers and the plan's rates and by nothing that the router knows.
fn minutes(plan: &Plan, design: &Design, bore: &Bore) -> f64 {
    let rate = |rule| plan.rules.value(rule);
    let drilling = match &design.ways.crossings[bore.crossing].member {
        Member::Studs(studs) => studs.len() as f64 * rate(RuleId::BoreMinutes),
        Member::Joist { .. } => rate(RuleId::BoreMinutes),
        Member::Web { .. } => rate(RuleId::BoreMinutes) + rate(RuleId::ChartMinutes),
        Member::Corner { .. } => rate(RuleId::CornerMinutes),
        Member::TopPlates(_) | Member::BottomPlates(_) => rate(RuleId::PlateMinutes),
        Member::Sheathing | Member::Soffit => rate(RuleId::OutsideMinutes),
    };
    let steel = f64::from(bore.nail_plates + u32::from(bore.tie));
    let seal = if bore.seal {
        rate(RuleId::SealMinutes)
    } else {
        0.0
    };
    drilling + seal + steel * rate(RuleId::NailPlateMinutes)
}

/// The law: no minute of the cost is counted for a hole that nobody drills, and none is missing.
#[test]
fn ways_cost_what_their_finished_holes_take() {
    let mut checked = 0;
    for (name, plan) in plans() {
        let design = Design::of(&plan);
        let price = design.totals.price;
        assert_eq!(price.difference, 0, "{name}: {price:?}");
        let bores: f64 = design
            .bores
            .iter()
            .filter(|bore| bore.within_rules)
            .map(|bore| minutes(&plan, &design, bore))
            .sum();
        let unheld = design.bores.iter().filter(|bore| !bore.within_rules);
        let unheld: u64 = unheld.map(|bore| u64::from(bore.price)).sum();
        let off = bores * 1000.0 - (price.bores - unheld) as f64;
        assert!(
            off.abs() <= 0.5 * design.bores.len() as f64,
            "{name}: {off}"
        );
        checked += design.bores.len();
    }
    assert!(checked > 2_000, "{checked}");
}

/// Hours and cable as they are printed, priced by the contractor's rates, are the cost the ways were
/// sought by: but for what stands for cable beside power, for holes that no bit holds, for the last
/// support, which is a whole one, and for the half of a thousandth that each move is rounded by.
#[test]
fn hours_and_cable_as_printed_are_what_ways_were_sought_by() {
    for (name, plan) in plans() {
        let design = Design::of(&plan);
        let (rate, totals) = (|rule| plan.rules.value(rule), &design.totals);
        let boxes: u32 = totals.brackets.iter().sum();
        let at_the_ends = f64::from(boxes) * rate(RuleId::BoxMinutes)
            + f64::from(totals.blocking) * rate(RuleId::BlockingMinutes)
            + f64::from(totals.cables)
                * (2.0 * rate(RuleId::LabelMinutes) + rate(RuleId::TerminateMinutes));
        let metres = design.ways.ways.iter().map(|way| way.length.f64() / 1000.0);
        let cable = rate(RuleId::CablePrice) / rate(RuleId::HourPrice) * 60.0;
        let printed = totals.hours * 60.0 - at_the_ends + metres.sum::<f64>() * cable;
        let price = totals.price;
        let sought = design.ways.cost - price.laid.beside_power - price.unheld;
        // A hole that no bit holds is printed with the steel it would take, and sought by the dearest kind.
        let unheld = design.bores.iter().filter(|bore| !bore.within_rules);
        let dearer: f64 = unheld
            .map(|bore| minutes(&plan, &design, bore) - f64::from(bore.price) / 1000.0)
            .sum();
        let off = printed - dearer - sought as f64 / 1000.0;
        let moves: usize = design.ways.ways.iter().map(|way| way.moves.len()).sum();
        let rounded = (moves as f64 + design.ways.ways.len() as f64) / 1000.0;
        let most = rate(RuleId::SupportMinutes) + rounded;
        assert!(-rounded <= off && off <= most, "{name}: {off} of {printed}");
    }
}

/// The same house with and without minutes for nail plates. Neither has any, so neither pays for one: same
/// ways, same holes.
#[test]
fn a_plate_that_is_never_nailed_moves_no_way() {
    let paid = place("q3_phantom_1400");
    let free = place("q3_phantom_1400_free");
    let (paid, free) = (Design::of(&paid), Design::of(&free));
    assert_eq!((paid.totals.nail_plates, free.totals.nail_plates), (0, 0));
    assert_eq!(paid.ways, free.ways);
    assert_eq!(paid.bores, free.bores);
}

/// Thirty cables down a bearing 2x4: 1 in holds seven bare, so five holes a stud, and five are paid.
#[test]
fn a_bundle_is_priced_by_the_holes_it_is_split_over() {
    let design = Design::of(&place("u_2x4_exterior_30"));
    let studs = design.ways.crossings.iter().enumerate();
    let heavy = studs.filter(|(_, crossing)| {
        matches!(crossing.member, Member::Studs(_)) && crossing.cables.len() >= 29
    });
    let counts: Vec<usize> = heavy
        .map(|(place, _)| design.bores.iter().filter(|b| b.crossing == place).count())
        .collect();
    assert!(
        !counts.is_empty() && counts.iter().all(|count| *count == 5),
        "{counts:?}"
    );
    assert_eq!(design.totals.price.difference, 0);
}

/// A crew with one bit, too wide for bare 2x4 studs, nails two plates a stud, and that is in the cost.
#[test]
fn steel_on_studs_is_paid() {
    let plan = crate::plan("house-a");
    let wide = plan
        .apply(&Edit::SetBits(vec![Size::inches(1.25)]))
        .unwrap();
    let dearer = wide
        .apply(&Edit::SetRule(RuleId::NailPlateMinutes, 2.0))
        .unwrap();
    let (wide, dearer) = (Design::of(&wide), Design::of(&dearer));
    assert!(wide.totals.nail_plates > 0);
    let more = dearer.ways.cost as i64 - wide.ways.cost as i64;
    assert!(more > 0 && more <= i64::from(wide.totals.nail_plates) * 1000);
    assert_eq!([&wide, &dearer].map(|d| d.totals.price.difference), [0, 0]);
}
