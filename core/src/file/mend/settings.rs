//! Mends texts, rules, catalogue and findings set aside, by the rules of the edits themselves.

use crate::file::losses::Losses;
use crate::plan::edit::{Edit, tidied_dates, tidy, tidy_line};
use crate::plan::{CableKindId, CableSpec, Catalogue, Plan};
use crate::units::{Mm, Size};

pub(super) fn mend(plan: &mut Plan, losses: &mut Losses) {
    texts(plan);
    rules(plan, losses);
    cables(&mut plan.catalogue, losses);
    bits(&mut plan.catalogue, losses);
    dismissals(plan, losses);
}

fn texts(plan: &mut Plan) {
    plan.title = tidy_line(&plan.title);
    if plan.title.is_empty() {
        plan.title = Plan::new().title;
    }
    plan.note = tidy(&plan.note);
    plan.date = tidy_line(&plan.date);
    plan.dates = tidied_dates(&plan.dates);
    plan.revision = plan.revision.max(1);
}

fn rules(plan: &mut Plan, losses: &mut Losses) {
    let mut bare = Plan::new();
    bare.rules.book = plan.rules.book;
    bare.rules.own = true;
    plan.rules.changed.retain(|&id, &mut value| {
        let sound = bare.apply(&Edit::SetRule(id, value)).is_ok();
        if !sound {
            let name = bare.rules.rule(id).name;
            losses.say(format!(
                "Your own figure for \u{201c}{name}\u{201d} is out of range and was left out."
            ));
        }
        sound
    });
}

fn cables(catalogue: &mut Catalogue, losses: &mut Losses) {
    let (bare, usual) = (Plan::new(), Catalogue::default());
    catalogue.cables.truncate(usize::from(u16::MAX));
    for (place, spec) in catalogue.cables.iter_mut().enumerate() {
        spec.name = tidy_line(&spec.name);
        spec.part_reels.retain(|reel| *reel > Mm(0));
        let sound = !spec.letter.is_control()
            && bare
                .apply(&Edit::SetCableKind(CableKindId(0), spec.clone()))
                .is_ok();
        if !sound {
            losses.say(format!(
                "Cable {} of the catalogue is out of range; check its name and diameter.",
                place + 1
            ));
            *spec = stand_in(&usual, place);
        }
    }
    let missing = usual.cables.iter().skip(catalogue.cables.len());
    catalogue.cables.extend(missing.cloned());
}

/// What stands at a place of the catalogue whose cable could not be read: the usual one, or a
/// Cat 6 under a name that says so.
pub(in crate::file) fn stand_in(usual: &Catalogue, place: usize) -> CableSpec {
    match usual.cables.get(place) {
        Some(spec) => spec.clone(),
        None => CableSpec {
            name: format!("Cable {} (not read)", place + 1),
            letter: 'd',
            diameter: Size(6.0),
            outdoor: false,
            twisted_pair: true,
            reel: Mm::feet(1000.0),
            part_reels: Vec::new(),
            on_hand: 0,
        },
    }
}

fn bits(catalogue: &mut Catalogue, losses: &mut Losses) {
    let keys = |bits: &[Size]| bits.iter().map(|bit| bit.micrometres()).collect::<Vec<_>>();
    match Plan::new().apply(&Edit::SetBits(catalogue.bits.clone())) {
        Ok(plan) if keys(&plan.catalogue.bits) == keys(&catalogue.bits) => {}
        Ok(plan) => catalogue.bits = plan.catalogue.bits,
        Err(_) => {
            losses.say("The list of bits could not be read; the usual bits stand in.");
            catalogue.bits = Catalogue::default().bits;
        }
    }
}

fn dismissals(plan: &mut Plan, losses: &mut Losses) {
    let mut seen = std::collections::BTreeSet::new();
    plan.dismissed.retain_mut(|dismissal| {
        dismissal.key = tidy_line(&dismissal.key);
        dismissal.reason = tidy(&dismissal.reason);
        let sound = !dismissal.reason.is_empty() && seen.insert(dismissal.key.clone());
        if !sound {
            losses.say("A finding set aside without a reason of its own is shown again.");
        }
        sound
    });
}
