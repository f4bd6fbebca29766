//! Every list of the job as a file of its own, for a spreadsheet, a label printer or a script.

use borewright_core::report::csv::{self, Table};
use borewright_core::report::report;
use yew::prelude::*;

use super::Head;
use crate::browser::files;
use crate::hooks::use_desk;
use crate::panels::icons;
use crate::parts::Press;
use crate::state::Desk;

/// The slip of the lists.
#[component]
pub fn ListsSlip() -> Html {
    let desk = use_desk();
    let list = |table: Table| {
        let desk = desk.clone();
        let onpress = Callback::from(move |()| save_list(&desk, table));
        html! { <Press key={table.file_name()} label={table.name()} icon={icons::SAVE} {onpress} /> }
    };
    let all = {
        let desk = desk.clone();
        Callback::from(move |()| save_report(&desk))
    };
    html! {
        <>
            <Head title="Lists" line="Each as comma-separated text, in the units of the job." />
            <div class="SlipMenu">
                { for Table::ALL.into_iter().map(list) }
                <Press label="Everything, as JSON" icon={icons::SAVE} onpress={all} />
            </div>
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
