//! The root component: the desk, its two contexts, and where things lie on the page.

use std::rc::Rc;

use borewright_core::desk::{Session, Step};
use borewright_core::plan::Plan;
use yew::prelude::*;

use crate::browser::files;
use crate::drawing::Sheet;
use crate::hooks::{
    stand_by, use_desk, use_drawn, use_improving, use_keeping, use_keys, use_opening, use_paste,
    use_rehearsal, use_squaring, use_start, use_unkept, use_windows,
};
use crate::panels::{
    Corners, Displacing, Jobs, NewerRelease, Reading, Saying, Shelf, SitePage, SiteSides, Skips,
    Slip, Steps, Tally, Unkept,
};
use crate::print::SheetsPage;
use crate::state::{Desk, Dispatcher};

/// The whole page.
#[component]
pub fn App() -> Html {
    let desk = use_reducer_eq(|| Desk::of(Session::of(Plan::new())));
    let dispatcher = desk.dispatcher();
    let now = Rc::new((*desk).clone());
    stand_by(&now);
    use_start(&now, &dispatcher);
    use_keys(&now, &dispatcher);
    use_keeping(&desk);
    use_windows(&now, &dispatcher);
    use_unkept(&now);
    use_drawn(now.opening);
    use_squaring(&now, &dispatcher);
    use_improving(&now, &dispatcher);
    use_rehearsal(&now);
    html! {
        <ContextProvider<Dispatcher> context={dispatcher}>
            <ContextProvider<Rc<Desk>> context={now}>
                <NewerRelease />
                <Page />
                <Displacing />
            </ContextProvider<Rc<Desk>>>
        </ContextProvider<Dispatcher>>
    }
}

/// Where things lie.
#[component]
fn Page() -> Html {
    let desk = use_desk();
    use_paste();
    if desk.opening {
        return html! { <p class="Opening" role="status">{ "Borewright is laying out the table." }</p> };
    }
    if desk.jobs {
        return html! { <Jobs /> };
    }
    if desk.reading {
        return html! { <Reading /> };
    }
    html! {
        <div class="App" data-step={desk.session.step.name()}>
            <Skips />
            <Tally />
            <Steps />
            { match desk.session.step {
                Step::Site => html! { <OnSite /> },
                Step::Sheets => html! { <main class="Table"><SheetsPage /><Slip /><Saying /><Unkept /></main> },
                _ => html! { <Table /> },
            } }
            <Shelf />
        </div>
    }
}

/// The list of the site beside the drawing; a phone shows one of them.
#[component]
fn OnSite() -> Html {
    let desk = use_desk();
    html! {
        <main class="SiteTable" data-shows={if desk.site.drawing { "drawing" } else { "list" }}
            data-open={desk.open.is_some().to_string()}>
            <SiteSides />
            <div class="Table">
                <Sheet />
                <Corners />
                <Slip />
            </div>
            <SitePage />
        </main>
    }
}

/// The sheet with what lies on it; takes files that are dropped.
#[component]
fn Table() -> Html {
    let over = use_state_eq(|| false);
    let onfile = use_opening();
    let ondrop = {
        let over = over.clone();
        Callback::from(move |event: DragEvent| {
            event.prevent_default();
            over.set(false);
            files::handed_over(event.data_transfer())
                .into_iter()
                .for_each(|file| onfile.emit(file));
        })
    };
    let ondragover = {
        let over = over.clone();
        Callback::from(move |event: DragEvent| {
            event.prevent_default();
            over.set(true);
        })
    };
    let ondragleave = {
        let over = over.clone();
        Callback::from(move |_: DragEvent| over.set(false))
    };
    html! {
        <main class="Table" data-over={over.to_string()} {ondrop} {ondragover} {ondragleave}>
            <Sheet />
            <Corners />
            <Slip />
        </main>
    }
}
