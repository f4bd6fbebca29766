//! Every list of the job as a file of its own, for a spreadsheet, a label printer or a script.

use borewright_core::report::csv::{self, Table};
use borewright_core::report::report;
use yew::prelude::*;

use super::Head;
use crate::browser::files;
use crate::hooks::{use_awaited, use_desk};
use crate::panels::best::WaitsForBest;
use crate::panels::icons;
use crate::parts::Press;
use crate::state::Desk;

/// What is asked for: one table, or everything.
type Wish = Option<Table>;

/// The slip of the lists. What is asked for waits for the best ways, as paper does.
#[component]
pub fn ListsSlip() -> Html {
    let desk = use_desk();
    let act = Callback::from(move |wish: Wish| match wish {
        Some(table) => save_list(&desk, table),
        None => save_report(&desk),
    });
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

fn save_list(desk: &Desk, table: Table) {
    let (plan, design) = (&desk.session.plan, &desk.session.design);
    let name = files::name_of(&plan.title, table.file_name());
    // A spreadsheet takes text for UTF-8 when it begins with this mark.
    let text = format!("\u{feff}{}", csv::csv(table, plan, design));
    files::save(&name, "text/csv;charset=utf-8", text.as_bytes());
}

fn save_report(desk: &Desk) {
    let (plan, design) = (&desk.session.plan, &desk.session.design);
    let name = files::name_of(&plan.title, "lists.json");
    files::save(
        &name,
        "application/json",
        report(plan, design).to_string().as_bytes(),
    );
}
