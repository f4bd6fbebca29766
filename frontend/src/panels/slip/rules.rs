//! The rule set: which one, how bores are filled, and every figure with its source.

use borewright_core::plan::Plan;
use borewright_core::plan::edit::Edit;
use borewright_core::rules::{RuleBook, RuleId, Trust};
use yew::prelude::*;

use super::use_edit;
use crate::hooks::use_desk;
use crate::panels::read_field::ReadField;
use crate::panels::words::capital;
use crate::parts::{Pick, Press, PressKind, Segments};

/// The choice of rules and their figures.
#[component]
pub fn Rules() -> Html {
    let desk = use_desk();
    let edit = use_edit();
    let plan = &desk.session.plan;
    let shown = RuleId::ALL.iter().filter(|id| is_shown(plan, **id));
    html! {
        <section aria-label="Limits and defaults">
            <h3>{ "Limits and defaults" }</h3>
            { book(plan, &edit) }
            { fill(plan, &edit) }
            <p class="Quiet">{ "Change a figure to make it your own. The local code, the builder and the licensed trades decide." }</p>
            <ul class="Rules">{ for shown.map(|id| rule(plan, *id, &edit)) }</ul>
        </section>
    }
}

/// Which set is in force, and how much of it was read anywhere.
fn book(plan: &Plan, edit: &Callback<Edit>) -> Html {
    let rules = &plan.rules;
    let mut options: Vec<AttrValue> = RuleBook::ALL
        .iter()
        .map(|book| book.name().into())
        .collect();
    let own = match rules.own || rules.has_own_limits() {
        true => format!("My own, begun from {}", rules.basis.name()),
        false => String::from("My own, an editable copy of the one chosen"),
    };
    options.push(own.into());
    let published = RuleBook::ALL.iter().position(|book| *book == rules.book);
    let chosen = match rules.own {
        true => Some(RuleBook::ALL.len()),
        false => published,
    };
    let onpick = edit.reform(|place: usize| match RuleBook::ALL.get(place) {
        Some(book) => Edit::SetRuleBook(*book),
        None => Edit::OwnRules,
    });
    let resting = !rules.own && rules.has_own_limits();
    html! {
        <>
            <Pick label="Rule set" {options} {chosen} {onpick} />
            <p class="Quiet">{ read_words(plan) }</p>
            if resting {
                <p class="Quiet">{ "Your own limits rest while a published set is in force." }</p>
                <Press label="Begin my own anew from this set" kind={PressKind::Quiet} onpress={edit.reform(|()| Edit::CopyRules)} />
            }
        </>
    }
}

fn read_words(plan: &Plan) -> String {
    let book = plan.rules.speaking();
    let limits = || RuleId::ALL.iter().filter(|id| id.is_limit());
    let published = limits().filter(|id| book.published(**id).is_some()).count();
    let name = book.name();
    match published {
        0 => format!(
            "No published figure was read for {name}. Common practice stands in for every limit and says so beside it: look the figures up and type them in."
        ),
        _ => format!(
            "{published} limits stand as published for {name}; the others are common practice and say so."
        ),
    }
}

/// How full a bore may be: one figure, or by the number of cables.
fn fill(plan: &Plan, edit: &Callback<Edit>) -> Html {
    let by_count = plan.rules.value(RuleId::FillByCount) > 0.5;
    let options = ["One figure", "By cable count"];
    let options = options.map(AttrValue::from).to_vec();
    let onpick = edit.reform(|place: usize| Edit::SetRule(RuleId::FillByCount, place as f64));
    html! {
        <>
            <p>{ "Fill of a bore: one figure for all, or by the number of cables, as in raceways" }</p>
            <Segments label="Fill of a bore" {options} chosen={Some(usize::from(by_count))} {onpick} />
        </>
    }
}

/// Choices have controls of their own, and a figure that nothing asks for stays out of the list.
fn is_shown(plan: &Plan, id: RuleId) -> bool {
    let by_count = plan.rules.value(RuleId::FillByCount) > 0.5;
    match id {
        RuleId::FillByCount | RuleId::PowerByCircuits => false,
        RuleId::Fill => !by_count,
        RuleId::FillOne | RuleId::FillTwo | RuleId::FillMore => by_count,
        RuleId::PowerWarn | RuleId::PowerSegregation => plan.rules.power_rule() == id,
        _ => true,
    }
}

fn rule(plan: &Plan, id: RuleId, edit: &Callback<Edit>) -> Html {
    let rule = plan.rules.rule(id);
    let own = rule.source.trust == Trust::Own;
    let units = plan.units;
    let read = Callback::from(move |text: String| {
        rule.read(&text, units)
            .map(|value| Edit::SetRule(id, value))
    });
    html! {
        <li key={id.key()} class="Rule" data-own={own.to_string()}>
            <ReadField label={capital(rule.name)} value={rule.show(units)} {read} />
            <p class="Quiet">{ rule.source.words() }</p>
            if own {
                <Press label="Take the published figure" kind={PressKind::Quiet} onpress={edit.reform(move |()| Edit::ResetRule(id))} />
            }
        </li>
    }
}
