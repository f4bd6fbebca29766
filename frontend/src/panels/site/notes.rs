//! What is noted of one drop: a tick as large as a thumb for everything a part of the work asks, and
//! the whole record of a drop for its slip.

use borewright_core::desk::Intent;
use borewright_core::plan::edit::{Edit, Note};
use borewright_core::plan::{BoxStage, CableStage, Drop, DropId, Plan, PunchItem, Test};
use borewright_core::schedule::{Phase, Tick, room_row};
use yew::prelude::*;

use super::punch::{AddPunch, PunchLine};
use super::test::CableTest;
use crate::browser::clock;
use crate::hooks::{use_act, use_desk};
use crate::parts::{Field, FieldKind, Figures};
use crate::state::Act;

/// A callback that changes the plan.
#[hook]
pub fn use_edit() -> Callback<Edit> {
    use_act(|edit| Act::Want(Intent::Edit(edit)))
}

/// The note that ticks something off today, or takes the tick back.
pub fn note(tick: Tick, on: bool) -> Edit {
    let date = on.then(clock::today);
    Edit::Note(match tick {
        Tick::Cable(id, stage) => Note::Cable(id, stage, date),
        Tick::Box(id, stage) => Note::Box(id, stage, date),
        Tick::Test(id) => {
            let fault = String::new();
            Note::Test(id, date.map(|date| Test { date, fault }))
        }
    })
}

#[derive(Properties, PartialEq)]
pub struct TickOffProps {
    /// What is ticked off.
    pub tick: Tick,
    /// Whose it is: read aloud before its words, and not shown.
    pub of: AttrValue,
}

/// One thing to tick off.
#[component]
pub fn TickOff(props: &TickOffProps) -> Html {
    let desk = use_desk();
    let edit = use_edit();
    let tick = props.tick;
    let is_done = tick.is_done(&desk.session.plan.record);
    let onchange = edit.reform(move |_: Event| note(tick, !is_done));
    let words = match tick {
        Tick::Cable(_, stage) => stage.name(),
        Tick::Box(_, stage) => stage.name(),
        Tick::Test(_) => "good",
    };
    html! {
        <label class="TickOff" title={date(tick, &desk.session.plan)}>
            <input type="checkbox" checked={is_done} aria-label={format!("{} {words}", props.of)} {onchange} />
            <span>{ words }</span>
        </label>
    }
}

/// When it was ticked off, where that is known.
fn date(tick: Tick, plan: &Plan) -> Option<String> {
    let record = &plan.record;
    let date = match tick {
        Tick::Cable(id, stage) => record.cables.get(&id)?.reached.get(&stage)?,
        Tick::Box(id, stage) => record.boxes.get(&id)?.reached.get(&stage)?,
        Tick::Test(id) => &record.test(id)?.date,
    };
    (!date.is_empty()).then(|| date.clone())
}

#[derive(Properties, PartialEq)]
pub struct TicksProps {
    /// The drop.
    pub drop: DropId,
    /// The part of the work.
    pub phase: Phase,
}

/// What a part of the work asks of a drop: its box on one line, then a line a cable.
#[component]
pub fn Ticks(props: &TicksProps) -> Html {
    let desk = use_desk();
    let plan: &Plan = &desk.session.plan;
    let Some(drop) = plan.drop(props.drop) else {
        return html! {};
    };
    if props.phase == Phase::Testing {
        let line = |cable: &borewright_core::plan::Cable| html! { <CableTest key={cable.id.0} id={cable.id} /> };
        return html! { <div class="SiteTicks">{ for drop.cables.iter().map(line) }</div> };
    }
    let ticks = props.phase.ticks(drop);
    let of_box = ticks.iter().filter(|tick| matches!(tick, Tick::Box(..)));
    let of_box: Vec<Tick> = of_box.copied().collect();
    let of_cable = drop.cables.iter().map(|cable| {
        let own = |tick: &&Tick| matches!(tick, Tick::Cable(id, _) if *id == cable.id);
        let own: Vec<Tick> = ticks.iter().filter(own).copied().collect();
        let kind = plan.catalogue.cable(cable.kind);
        let name = drop.cable_label(cable);
        line(name, kind.map_or("", |spec| &spec.name), own)
    });
    html! {
        <div class="SiteTicks">
            { line(drop.label(), "box", of_box) }
            { for of_cable }
        </div>
    }
}

fn line(name: String, what: &str, ticks: Vec<Tick>) -> Html {
    if ticks.is_empty() {
        return html! {};
    }
    let off = |tick: Tick| html! { <TickOff key={format!("{tick:?}")} {tick} of={name.clone()} /> };
    html! {
        <div class="SiteLine" key={name.clone()}>
            <p><b>{ &name }</b>{ " " }<span>{ what.to_string() }</span></p>
            <div class="SiteLineTicks">{ for ticks.into_iter().map(off) }</div>
        </div>
    }
}

#[derive(Properties, PartialEq)]
pub struct RecordOfProps {
    /// The drop.
    pub drop: DropId,
}

/// All that is noted of a drop, every part of the work, for its slip.
#[component]
pub fn RecordOf(props: &RecordOfProps) -> Html {
    let desk = use_desk();
    let edit = use_edit();
    let plan: &Plan = &desk.session.plan;
    let Some(drop) = plan.drop(props.drop) else {
        return html! {};
    };
    let id = drop.id;
    let finds = room_row(plan, &desk.session.design.framing, id);
    let onnote = edit.reform(move |words| Edit::Note(Note::BoxWords(id, words)));
    let part = |phase: Phase| {
        let asks = !phase.ticks(drop).is_empty();
        asks.then(|| {
            html! {
                <section key={phase.name()} aria-label={phase.name()}>
                    <h3>{ phase.name() }</h3>
                    <Ticks drop={id} {phase} />
                </section>
            }
        })
    };
    let items = plan.record.punch.iter();
    let items = items.filter(|item| item.drop == Some(id));
    let item = |item: &PunchItem| html! { <PunchLine key={item.number} item={item.clone()} /> };
    html! {
        <>
            if let Some(row) = finds { <p><Figures text={row.finds(plan)} /></p> }
            { for Phase::ALL.into_iter().filter_map(part) }
            <Field label="Note from the site" kind={FieldKind::Lines}
                value={plan.record.box_note(id).to_string()} onset={onnote} />
            <section aria-label="Punch list">
                <h3>{ "Punch list" }</h3>
                <ul class="SitePunch">{ for items.map(item) }</ul>
                <AddPunch drop={Some(id)} />
            </section>
        </>
    }
}

/// What is noted of a drop in one line; nothing as long as nothing is.
pub fn summary(plan: &Plan, drop: &Drop) -> Option<String> {
    let record = &plan.record;
    let cables = |has: &dyn Fn(borewright_core::plan::CableId) -> bool| {
        drop.cables.iter().filter(|cable| has(cable.id)).count()
    };
    let of = drop.cables.len();
    let mut said = Vec::new();
    for stage in CableStage::ALL {
        let count = cables(&|id| record.has_cable(id, stage));
        if count > 0 {
            said.push(format!("{count} of {of} {}", stage.name()));
        }
    }
    let tested = cables(&|id| Tick::Test(id).is_done(record));
    if tested > 0 {
        said.push(format!("{tested} of {of} tested good"));
    }
    let boxes = BoxStage::ALL.into_iter();
    said.extend(
        boxes
            .filter(|stage| record.has_box(drop.id, *stage))
            .map(|stage| stage.name().to_string()),
    );
    (!said.is_empty()).then(|| format!("On site: {}.", said.join(", ")))
}
