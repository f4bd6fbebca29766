//! Every list of the job as a file of its own, for a spreadsheet, a label printer or a script.

use borewright_core::desk::Notice;
use borewright_core::report::csv::Table;
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

use super::Head;
use crate::browser::files;
use crate::hooks::{use_awaited, use_desk, use_dispatcher};
use crate::panels::best::WaitsForBest;
use crate::panels::icons;
use crate::parts::Press;
use crate::state::{Act, Desk, Dispatcher};
use crate::worker;

/// What is asked for: one table, or everything.
type Wish = Option<Table>;

/// The slip of the lists. What is asked for waits for the best ways, as paper does.
#[component]
pub fn ListsSlip() -> Html {
    let desk = use_desk();
    let dispatcher = use_dispatcher();
    let act = Callback::from(move |wish: Wish| save(&desk, wish, dispatcher.clone()));
    let (waiting, ask) = use_awaited(act);
    let ask = ask.reform(|wish: Wish| Some(wish));
    let list = |table: Table| {
        let onpress = ask.reform(move |()| Some(table));
        html! { <Press key={table.file_name()} label={table.name()} icon={icons::SAVE} {onpress} /> }
    };
    html! {
        <>
            <Head title="Lists" line="Each as comma-separated text, in the units of the job." />
            <div class="SlipMenu">
                { for Table::ALL.into_iter().map(list) }
                <Press label="Everything, as JSON" icon={icons::SAVE} onpress={ask.reform(|()| None)} />
            </div>
            if waiting.is_some() { <WaitsForBest /> }
        </>
    }
}

fn save(desk: &Desk, table: Option<Table>, dispatcher: Dispatcher) {
    let (plan, design) = (desk.session.plan.clone(), desk.session.design.clone());
    spawn_local(async move {
        let (name, kind) = match table {
            Some(table) => (table.file_name(), "text/csv;charset=utf-8"),
            None => ("lists.json", "application/json"),
        };
        match worker::list(&plan, &design, table).await {
            Ok(bytes) => files::save(&files::name_of(&plan.title, name), kind, &bytes),
            Err(sentence) => dispatcher.dispatch(Act::Say(Notice::refused(sentence, None))),
        }
    });
}
