//! The test of one cable: planned and measured length, good or a fault in words.

use borewright_core::plan::CableId;
use borewright_core::plan::Test;
use borewright_core::plan::edit::{Edit, Note};
use borewright_core::schedule::{Tick, test_line};
use borewright_core::units::read_run;
use yew::prelude::*;

use super::notes::{TickOff, use_edit};
use crate::browser::clock;
use crate::hooks::use_desk;
use crate::panels::read_field::ReadField;
use crate::parts::{Field, FieldKind, Figures};

#[derive(Properties, PartialEq)]
pub struct CableTestProps {
    /// The cable.
    pub id: CableId,
}

/// One cable's line of the test record.
#[component]
pub fn CableTest(props: &CableTestProps) -> Html {
    let desk = use_desk();
    let (plan, id) = (&desk.session.plan, props.id);
    let Some((drop, cable)) = plan.cable(id) else {
        return html! {};
    };
    let name = plan.cable_label(id);
    let line = test_line(plan, &desk.session.design.cut_list, drop.id, id);
    let kind = plan.catalogue.cable(cable.kind);
    let kind = kind.map_or("", |spec| spec.name.as_str());
    let planned = match line.planned {
        Some(length) => format!("{kind}, planned {}", plan.units.path(length)),
        None => format!("{kind}, no way planned"),
    };
    let measured = line.measured.map(|length| plan.units.path(length));
    let units = plan.units;
    let read = Callback::from(move |text: String| match text.trim().is_empty() {
        true => Ok(Edit::Note(Note::Length(id, None))),
        false => read_run(&text, units).map(|length| Edit::Note(Note::Length(id, Some(length)))),
    });
    html! {
        <div class="SiteTest" key={name.clone()}>
            <p><b>{ &name }</b>{ " " }<span><Figures text={planned} /></span></p>
            <div class="SiteTestRow">
                <ReadField label={format!("Measured length of {name}")} value={measured.unwrap_or_default()} {read} />
                <TickOff tick={Tick::Test(id)} of={name.clone()} />
                <Fault {id} />
            </div>
            if let Some(words) = line.words(plan) {
                <p class="SiteOff" data-far={line.is_far_off.to_string()}>
                    if line.is_far_off { <b class="Weight">{ "far off" }</b> }
                    <span><Figures text={words} /></span>
                </p>
            }
        </div>
    }
}

/// A fault: a press that opens a line for its words. Without words there is no fault.
#[component]
fn Fault(props: &CableTestProps) -> Html {
    let desk = use_desk();
    let edit = use_edit();
    let asking = use_state_eq(|| false);
    let (plan, id) = (&desk.session.plan, props.id);
    let name = plan.cable_label(id);
    let fault = plan.record.test(id).map(|test| test.fault.clone());
    let fault = fault.filter(|fault| !fault.is_empty());
    let is_open = *asking || fault.is_some();
    let onclick = {
        let (asking, edit, had) = (asking.clone(), edit.clone(), fault.is_some());
        Callback::from(move |_: MouseEvent| {
            asking.set(!is_open);
            if had {
                edit.emit(Edit::Note(Note::Test(id, None)));
            }
        })
    };
    let onset = edit.reform(move |words: String| {
        let fault = words.trim().to_string();
        let date = clock::today();
        Edit::Note(Note::Test(
            id,
            (!fault.is_empty()).then_some(Test { date, fault }),
        ))
    });
    html! {
        <>
            <button type="button" class="Press" data-kind="plain" aria-pressed={is_open.to_string()}
                aria-label={format!("{name} fault")} {onclick}>{ "fault" }</button>
            if is_open {
                <div class="SiteFault">
                    <Field label={format!("What is wrong with {name}")} kind={FieldKind::Line}
                        value={fault.unwrap_or_default()} {onset} />
                </div>
            }
        </>
    }
}
