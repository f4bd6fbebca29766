//! One line of the drill list: what to drill where, how full, by which limit, with its section.

use borewright_core::bore::{Bore, DrillRow, rules_of};
use borewright_core::design::Design;
use borewright_core::finding::Subject;
use borewright_core::plan::{CableId, Plan};
use borewright_core::rules::RuleId;
use yew::prelude::*;

use super::Head;
use crate::hooks::{use_act, use_desk};
use crate::panels::section::Section;
use crate::panels::words::capital;
use crate::parts::{Fact, Facts, Figures};
use crate::state::{Act, Desk};
use borewright_core::desk::{Choice, Intent};

/// Which bore.
#[derive(Properties, PartialEq)]
pub struct BoreSlipProps {
    /// Its number.
    pub number: u32,
}

/// The slip of a bore.
#[component]
pub fn BoreSlip(props: &BoreSlipProps) -> Html {
    let desk = use_desk();
    let design = desk.session.shown_design();
    let plan = desk.session.shown_plan();
    let row = design
        .drill_list
        .iter()
        .find(|row| row.number == props.number);
    let Some(row) = row else { return html! {} };
    let bores: Vec<&Bore> = row
        .bores
        .iter()
        .filter_map(|place| design.bores.get(*place))
        .collect();
    html! {
        <>
            <Head title={format!("Bore {}", row.number)} line={format!("{}. {}", row.location, row.height)} />
            <Section number={row.number} />
            { facts(plan, row, &bores) }
            { sources(plan, design, &bores) }
            <CablesThrough cables={row.cables.clone()} />
            { remarks(&desk, row, &bores) }
        </>
    }
}

fn facts(plan: &Plan, row: &DrillRow, bores: &[&Bore]) -> Html {
    let units = plan.units;
    let largest = bores
        .iter()
        .filter_map(|bore| bore.largest)
        .min_by(|a, b| a.0.total_cmp(&b.0));
    let fill = format!("{:.0} %", row.fill * 100.0);
    html! {
        <Facts>
            <Fact name="What" value={row.what.clone()} />
            <Fact name="Member" value={row.member.clone()} />
            <Fact name="Bit" value={units.size(row.bit)} />
            <Fact name="Cables through" value={row.cables.len().to_string()} />
            <Fact name="Fill" value={fill} />
            if let Some(largest) = largest {
                <Fact name="Largest allowed" value={units.limit(largest)} />
            }
            <Fact name="Nail plates" value={none_or(row.nail_plates)} />
            if row.ties > 0 { <Fact name="Plate ties" value={row.ties.to_string()} /> }
            if row.seals > 0 { <Fact name="Seals" value={row.seals.to_string()} /> }
        </Facts>
    }
}

/// Every rule the bore was sized and protected by, with its figure and source.
fn sources(plan: &Plan, design: &Design, bores: &[&Bore]) -> Html {
    let Some(bore) = bores.first() else {
        return html! {};
    };
    let line = |id: RuleId| {
        let rule = plan.rules.rule(id);
        let figure = rule.show(plan.units);
        let text = format!("{}: {figure} ({})", capital(rule.name), rule.source.words());
        html! { <li key={id.key()}><Figures {text} /></li> }
    };
    let rules = rules_of(plan, &design.framing, &design.ways, bore);
    html! { <ul class="List Quiet" aria-label="Rules">{ for rules.into_iter().map(line) }</ul> }
}

fn none_or(count: u32) -> String {
    if count == 0 {
        String::from("none needed")
    } else {
        count.to_string()
    }
}

#[derive(Properties, PartialEq)]
struct CablesThroughProps {
    cables: Vec<CableId>,
}

/// The cables through a bore, each to follow.
#[component]
fn CablesThrough(props: &CablesThroughProps) -> Html {
    let desk = use_desk();
    let choose = use_act(|id| Act::Want(Intent::Choose(Some(Choice::Cable(id)))));
    let chip = |id: &CableId| {
        let id = *id;
        let label = desk.session.shown_plan().cable_label(id);
        let onclick = choose.reform(move |_: MouseEvent| id);
        html! { <li key={id.0}><button type="button" class="Chip" aria-label={format!("Follow {label}")} {onclick}>{ &label }</button></li> }
    };
    html! { <ul class="Chips">{ for props.cables.iter().map(chip) }</ul> }
}

/// Why it is as it is, and what was found about it.
fn remarks(desk: &Desk, row: &DrillRow, bores: &[&Bore]) -> Html {
    let reason = bores
        .iter()
        .map(|bore| bore.reason.as_str())
        .find(|reason| !reason.is_empty());
    let found = desk.session.shown_design().findings.iter();
    let found = found.filter(|finding| finding.subject == Subject::Bore(row.number));
    let within = bores.iter().all(|bore| bore.within_rules);
    html! {
        <div class="Remarks">
            if let Some(reason) = reason { <p><Figures text={reason.to_string()} /></p> }
            { for found.map(|finding| html! {
                <p key={finding.key.clone()}><Figures text={format!("{} {} ({})", finding.what, finding.todo, finding.source)} /></p>
            }) }
            if within {
                <p>{ "Within the rule set you chose. Your local code and the builder decide." }</p>
            }
        </div>
    }
}
