//! Title, note, date, units, bits and cables; the rule set has a room of its own.

use borewright_core::desk::Notice;
use borewright_core::plan::edit::Edit;
use borewright_core::plan::{CableKindId, CableSpec, Dates, Plan};
use borewright_core::units::{Units, read_reel, read_reels, read_size, read_sizes};
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

use super::rules::Rules;
use super::{Head, use_edit};
use crate::browser::{assets, files};
use crate::hooks::{use_desk, use_dispatcher};
use crate::panels::read_field::ReadField;
use crate::parts::{Field, FieldKind, Figures, Press, PressKind, Segments, Tick};
use crate::state::{Act, Dispatcher};

/// The slip of settings.
#[component]
pub fn SettingsSlip() -> Html {
    let desk = use_desk();
    let edit = use_edit();
    let dispatcher = use_dispatcher();
    let licences = Callback::from(move |()| spawn_local(save_licences(dispatcher.clone())));
    let plan = &desk.session.plan;
    html! {
        <>
            <Head title="Settings" line={format!("Rule set: {}", plan.rules.name())} />
            { job_fields(plan, &edit) }
            { bits(plan) }
            { cables(plan, &edit) }
            <Rules />
            <Press label="Save the licences of all parts" onpress={licences} />
        </>
    }
}

/// Hands over the licences of the page and of every part of it.
async fn save_licences(dispatcher: Dispatcher) {
    match assets::read(assets::LICENCES).await {
        Some(text) => files::save("borewright-licences.txt", "text/plain;charset=utf-8", &text),
        None => {
            let sentence = "The licences cannot be fetched now. Try again with a network.";
            dispatcher.dispatch(Act::Say(Notice::refused(sentence, None)));
        }
    }
}

fn job_fields(plan: &Plan, edit: &Callback<Edit>) -> Html {
    let onunits = edit.reform(|place: usize| {
        Edit::SetUnits(if place == 0 {
            Units::Imperial
        } else {
            Units::Metric
        })
    });
    let options = ["Feet and inches", "Metric"].map(AttrValue::from).to_vec();
    html! {
        <>
            <Field label="Job title" value={plan.title.clone()} onset={edit.reform(Edit::SetTitle)} />
            <Field label="Note" kind={FieldKind::Lines} value={plan.note.clone()} onset={edit.reform(Edit::SetNote)} />
            <Field label="Date on the sheets" value={plan.date.clone()} onset={edit.reform(Edit::SetDate)} />
            { dates(plan, edit) }
            <Segments label="Units" {options} chosen={Some(usize::from(plan.units == Units::Metric))} onpick={onunits} />
            <div class="SlipLine">
                <span>{ format!("Revision {}", plan.revision) }</span>
                <Press label="Next revision" onpress={edit.reform(|()| Edit::NextRevision)} />
            </div>
        </>
    }
}

/// When each part of the job is due, as the person says it.
fn dates(plan: &Plan, edit: &Callback<Edit>) -> Html {
    let set = |put: fn(Dates, String) -> Dates| {
        let dates = plan.dates.clone();
        edit.reform(move |date: String| Edit::SetDates(put(dates.clone(), date)))
    };
    let Dates {
        drill,
        pull,
        cover,
        trim_out,
    } = plan.dates.clone();
    html! {
        <>
            <Field label="Drill on" value={drill} onset={set(|dates, drill| Dates { drill, ..dates })} />
            <Field label="Pull on" value={pull} onset={set(|dates, pull| Dates { pull, ..dates })} />
            <Field label="Cover on" value={cover} onset={set(|dates, cover| Dates { cover, ..dates })} />
            <Field label="Trim-out on" value={trim_out} onset={set(|dates, trim_out| Dates { trim_out, ..dates })} />
        </>
    }
}

/// The bits in the van, as a list between commas.
fn bits(plan: &Plan) -> Html {
    let units = plan.units;
    let sizes = plan.catalogue.bits.iter().map(|bit| units.size(*bit));
    let value = sizes.collect::<Vec<_>>().join(", ");
    let read = Callback::from(move |text: String| {
        let sizes = read_sizes(&text, units);
        sizes.map(Edit::SetBits).map_err(|error| error.to_string())
    });
    html! {
        <>
            <ReadField label="Bits in the van" kind={FieldKind::Lines} {value} {read} />
            <p class="Quiet"><Figures text={held(plan)} /></p>
        </>
    }
}

/// How many of the first cable each bit holds, by fill alone.
fn held(plan: &Plan) -> String {
    let Some(cable) = plan.catalogue.cables.first() else {
        return String::new();
    };
    let each = plan.catalogue.bits.iter().map(|bit| {
        let count = plan.rules.cables_held(*bit, cable.diameter);
        format!("{} {count}", plan.units.size(*bit))
    });
    let each = each.collect::<Vec<_>>().join(", ");
    format!("{} by fill: {each}.", cable.name)
}

fn cables(plan: &Plan, edit: &Callback<Edit>) -> Html {
    let units = plan.units;
    let cables = plan.catalogue.cables.iter().enumerate();
    let next = CableKindId(plan.catalogue.cables.len() as u16);
    let blank = plan.catalogue.cables.first().cloned();
    let onadd = edit.reform(move |()| {
        let spec = blank.clone().map(|spec| CableSpec {
            name: String::from("Another cable"),
            part_reels: Vec::new(),
            ..spec
        });
        Edit::Together(
            spec.map(|spec| Edit::SetCableKind(next, spec))
                .into_iter()
                .collect(),
        )
    });
    html! {
        <section aria-label="Cables">
            <h3>{ "Cables and their reels" }</h3>
            <p class="Quiet">{ "Twisted pair is held to the longest link, other cable is not." }</p>
            <ul class="List">{ for cables.map(|(place, spec)| cable(place, spec, units, edit)) }</ul>
            <Press label="Add a kind of cable" kind={PressKind::Quiet} onpress={onadd} />
        </section>
    }
}

fn cable(place: usize, spec: &CableSpec, units: Units, edit: &Callback<Edit>) -> Html {
    let id = CableKindId(place as u16);
    let named = spec.clone();
    let onname = edit.reform(move |name| {
        Edit::SetCableKind(
            id,
            CableSpec {
                name,
                ..named.clone()
            },
        )
    });
    let ticked = spec.clone();
    let onpairs = edit.reform(move |twisted_pair| {
        let spec = CableSpec {
            twisted_pair,
            ..ticked.clone()
        };
        Edit::SetCableKind(id, spec)
    });
    let diameter = read_kind(
        id,
        spec,
        |text| read_size(text, Units::Metric).map_err(|error| error.to_string()),
        |spec, diameter| CableSpec { diameter, ..spec },
    );
    let reel = read_kind(
        id,
        spec,
        move |text| read_reel(text, units),
        |spec, reel| CableSpec { reel, ..spec },
    );
    let on_hand = read_kind(id, spec, read_count, |spec, on_hand| CableSpec {
        on_hand,
        ..spec
    });
    let parts = read_kind(
        id,
        spec,
        move |text| read_reels(text, units),
        |spec, part_reels| CableSpec { part_reels, ..spec },
    );
    html! {
        <li key={place} class="SlipRow">
            <Field label={format!("Cable {}, letter {}", place + 1, spec.letter)} value={spec.name.clone()} onset={onname} />
            <Tick label="Twisted pair" ticked={spec.twisted_pair} onset={onpairs} />
            <ReadField label="Diameter, mm" value={format!("{:.1} mm", spec.diameter.0)} read={diameter} />
            <ReadField label="A new reel holds" value={units.total(spec.reel)} read={reel} />
            <ReadField label="New reels in the van" value={spec.on_hand.to_string()} read={on_hand} />
            <ReadField label={part_label(units)} value={part_reels(units, spec)} read={parts} />
        </li>
    }
}

/// Reads a text into one field of a kind of cable.
fn read_kind<T: 'static>(
    id: CableKindId,
    spec: &CableSpec,
    read: impl Fn(&str) -> Result<T, String> + 'static,
    put: fn(CableSpec, T) -> CableSpec,
) -> Callback<String, Result<Edit, String>> {
    let spec = spec.clone();
    Callback::from(move |text: String| {
        let value = read(&text)?;
        Ok(Edit::SetCableKind(id, put(spec.clone(), value)))
    })
}

/// How many new reels there are.
fn read_count(text: &str) -> Result<u16, String> {
    let told = |_| String::from("Type a whole number of reels, such as 4, or 0 for none.");
    text.trim().parse().map_err(told)
}

fn part_label(units: Units) -> &'static str {
    match units {
        Units::Imperial => "Part reels, ft; between two a semicolon",
        Units::Metric => "Part reels, m; between two a semicolon",
    }
}

/// "200 ft; 350 ft".
fn part_reels(units: Units, spec: &CableSpec) -> String {
    let lengths = spec.part_reels.iter().map(|length| units.total(*length));
    lengths.collect::<Vec<_>>().join("; ")
}
