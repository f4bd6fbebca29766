//! Edits of the job's settings: names, units, rules, bits, cables, findings set aside.

use super::{Done, Refusal, tidy, tidy_line};
use crate::plan::{CableKindId, CableSpec, Dates, Dismissal, Plan};
use crate::rules::{RuleBook, RuleId, Unit};
use crate::units::{Mm, Size, Units};

/// A cable thicker than this is no data cable: 50 mm.
const THICKEST_CABLE: Size = Size(50.0);
/// More full reels of one kind than this are in no van.
const MOST_ON_HAND: u16 = 200;
/// A bit larger than this is no auger: 150 mm.
const LARGEST_BIT: Size = Size(150.0);

pub(super) fn set_title(plan: &mut Plan, title: &str) -> Done {
    plan.title = tidy_line(title);
    if plan.title.is_empty() {
        return Err(Refusal::because(
            "A job needs a name. Type what the builder calls it.",
        ));
    }
    Ok(())
}

pub(super) fn set_note(plan: &mut Plan, note: &str) -> Done {
    plan.note = tidy(note);
    Ok(())
}

pub(super) fn set_units(plan: &mut Plan, units: Units) -> Done {
    plan.units = units;
    Ok(())
}

pub(super) fn set_date(plan: &mut Plan, date: &str) -> Done {
    plan.date = tidy_line(date);
    Ok(())
}

pub(super) fn set_dates(plan: &mut Plan, dates: &Dates) -> Done {
    plan.dates = tidied(dates);
    Ok(())
}

/// Dates as plain texts.
pub(crate) fn tidied(dates: &Dates) -> Dates {
    Dates {
        drill: tidy_line(&dates.drill),
        pull: tidy_line(&dates.pull),
        cover: tidy_line(&dates.cover),
        trim_out: tidy_line(&dates.trim_out),
    }
}

pub(super) fn next_revision(plan: &mut Plan) -> Done {
    plan.revision = plan.revision.saturating_add(1);
    Ok(())
}

pub(super) fn set_rule_book(plan: &mut Plan, book: RuleBook) -> Done {
    plan.rules.book = book;
    plan.rules.own = false;
    if !plan.rules.has_own_limits() {
        plan.rules.basis = book;
    }
    Ok(())
}

pub(super) fn own_rules(plan: &mut Plan) -> Done {
    match plan.rules.has_own_limits() {
        true => plan.rules.own = true,
        false => return copy_rules(plan),
    }
    Ok(())
}

pub(super) fn copy_rules(plan: &mut Plan) -> Done {
    let rules = &mut plan.rules;
    rules.basis = rules.speaking();
    rules.changed.retain(|id, _| !id.is_limit());
    rules.own = true;
    Ok(())
}

pub(super) fn set_rule(plan: &mut Plan, id: RuleId, value: f64) -> Done {
    let rule = plan.rules.rule(id);
    if !value.is_finite() || value < 0.0 {
        return Err(Refusal::because(
            "A rule's figure cannot be below zero. Type zero or more.",
        ));
    }
    if rule.unit == Unit::Percent && id != RuleId::Waste && !(1.0..=100.0).contains(&value) {
        return Err(Refusal::because(
            "A share runs from 1 % to 100 %. Type a figure in between.",
        ));
    }
    if matches!(id, RuleId::Support | RuleId::LinkLength) && value < 100.0 {
        return Err(Refusal::because(
            "That length is too short to work with. Type at least 4 in.",
        ));
    }
    if value > 1_000_000.0 {
        return Err(Refusal::because(
            "That figure is too large. Check the unit.",
        ));
    }
    if id.is_limit() && !plan.rules.own {
        if plan.rules.has_own_limits() {
            return Err(Refusal::because(
                "Published figures stay as they are. Choose your own rules, or begin them anew \
                 from this set.",
            ));
        }
        own_rules(plan)?;
    }
    plan.rules.changed.insert(id, value);
    Ok(())
}

pub(super) fn reset_rule(plan: &mut Plan, id: RuleId) -> Done {
    plan.rules.changed.remove(&id);
    Ok(())
}

pub(super) fn set_bits(plan: &mut Plan, bits: &[Size]) -> Done {
    if bits.is_empty() {
        return Err(Refusal::because(
            "Without a bit nothing can be bored. Keep at least one.",
        ));
    }
    if bits
        .iter()
        .any(|bit| !(bit.0 >= 3.0 && bit.within(LARGEST_BIT)))
    {
        return Err(Refusal::because(
            "A bit is between 1/8 in and 6 in. Check the size.",
        ));
    }
    let mut sorted: Vec<i64> = bits.iter().map(|bit| bit.micrometres()).collect();
    sorted.sort_unstable();
    sorted.dedup();
    plan.catalogue.bits = sorted.into_iter().map(Size::from_micrometres).collect();
    Ok(())
}

pub(super) fn set_cable_kind(plan: &mut Plan, kind: CableKindId, spec: &CableSpec) -> Done {
    if !(spec.diameter.0 >= 1.0 && spec.diameter.within(THICKEST_CABLE)) {
        return Err(Refusal::because(
            "A cable is between 1 mm and 50 mm thick. Check its diameter.",
        ));
    }
    if spec.reel < Mm(1000) || spec.part_reels.iter().any(|reel| *reel < Mm(1)) {
        return Err(Refusal::because(
            "A reel holds at least 1 m, a part reel more than nothing. Check their lengths.",
        ));
    }
    if spec.on_hand > MOST_ON_HAND {
        return Err(Refusal::because(
            "A van holds at most 200 reels of one cable. Check their number.",
        ));
    }
    let spec = CableSpec {
        name: tidy_line(&spec.name),
        ..spec.clone()
    };
    if spec.name.is_empty() {
        return Err(Refusal::because(
            "A cable needs a name. Type what is printed on its jacket.",
        ));
    }
    let place = usize::from(kind.0);
    let cables = &mut plan.catalogue.cables;
    if place < cables.len() {
        cables[place] = spec;
    } else if place == cables.len() {
        cables.push(spec);
    } else {
        return Err(Refusal::because(
            "That cable is not in the catalogue. Add it first.",
        ));
    }
    Ok(())
}

pub(super) fn freeze_labels(plan: &mut Plan) -> Done {
    plan.labels_frozen = true;
    Ok(())
}

pub(super) fn dismiss(plan: &mut Plan, key: &str, reason: &str) -> Done {
    let (key, reason) = (tidy_line(key), tidy(reason));
    if reason.is_empty() {
        return Err(Refusal::because(
            "Say why it is set aside; the reason prints beside it.",
        ));
    }
    plan.dismissed.retain(|dismissal| dismissal.key != key);
    plan.dismissed.push(Dismissal { key, reason });
    Ok(())
}

pub(super) fn restore(plan: &mut Plan, key: &str) -> Done {
    plan.dismissed.retain(|dismissal| dismissal.key != key);
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::edit::Edit;

    fn refused(edit: Edit) -> String {
        Plan::new()
            .apply(&edit)
            .expect_err("should be refused")
            .sentence
    }

    #[test]
    fn bits_are_sorted_and_never_empty() {
        assert!(refused(Edit::SetBits(vec![])).contains("at least one"));
        assert!(refused(Edit::SetBits(vec![Size(-3.0)])).contains("1/8 in"));
        let plan = Plan::new().apply(&Edit::SetBits(vec![Size(30.0), Size(20.0), Size(30.0)]));
        assert_eq!(plan.unwrap().catalogue.bits, vec![Size(20.0), Size(30.0)]);
    }

    #[test]
    fn impossible_figures_are_refused() {
        assert!(refused(Edit::SetRule(RuleId::Fill, 0.0)).contains("1 %"));
        assert!(refused(Edit::SetRule(RuleId::Fill, f64::NAN)).contains("below zero"));
        let mut spec = Plan::new().catalogue.cables[0].clone();
        spec.diameter = Size::inches(10.0);
        assert!(refused(Edit::SetCableKind(CableKindId::CAT6, spec.clone())).contains("50 mm"));
        spec.diameter = Size(-6.0);
        assert!(refused(Edit::SetCableKind(CableKindId::CAT6, spec)).contains("50 mm"));
    }

    #[test]
    fn own_limits_rest_under_a_published_book() {
        let edge = RuleId::StudEdge;
        let edits = [
            Edit::SetRuleBook(RuleBook::Canada),
            Edit::SetRule(edge, 30.0),
        ];
        let own = Plan::new().apply(&Edit::Together(edits.to_vec())).unwrap();
        assert!(own.rules.own && own.rules.basis == RuleBook::Canada);
        let kingdom = own.apply(&Edit::SetRuleBook(RuleBook::UnitedKingdom));
        let kingdom = kingdom.unwrap();
        assert_eq!(kingdom.rules.value(edge), 16.0);
        assert!(kingdom.apply(&Edit::SetRule(edge, 40.0)).is_err());
        let back = kingdom.apply(&Edit::OwnRules).unwrap();
        assert_eq!(
            (back.rules.value(edge), back.rules.basis),
            (30.0, RuleBook::Canada)
        );
        let anew = kingdom.apply(&Edit::CopyRules).unwrap();
        assert_eq!(
            (anew.rules.value(edge), anew.rules.basis),
            (16.0, RuleBook::UnitedKingdom)
        );
    }

    #[test]
    fn the_crews_own_figures_hold_under_every_book() {
        let plan = Plan::new().apply(&Edit::SetRule(RuleId::PullMinutes, 0.5));
        let plan = plan.unwrap().apply(&Edit::SetRuleBook(RuleBook::Canada));
        let rules = plan.unwrap().rules;
        assert!(!rules.own);
        assert_eq!(rules.value(RuleId::PullMinutes), 0.5);
    }

    #[test]
    fn a_finding_is_set_aside_with_a_reason_only() {
        let key = String::from("stud-limit:W3");
        assert!(
            refused(Edit::Dismiss {
                key: key.clone(),
                reason: "  ".into()
            })
            .contains("why")
        );
        let plan = Plan::new()
            .apply(&Edit::Dismiss {
                key: key.clone(),
                reason: "engineer agreed".into(),
            })
            .unwrap();
        assert_eq!(plan.dismissed.len(), 1);
        assert!(
            plan.apply(&Edit::Restore { key })
                .unwrap()
                .dismissed
                .is_empty()
        );
    }
}
