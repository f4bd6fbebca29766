//! The pages of the job as they will lie on paper.

use std::rc::Rc;

use borewright_core::file::link::Privacy;
use borewright_core::plan::Plan;
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

use super::code;
use crate::hooks::{use_act, use_desk, use_dispatcher};
use crate::panels::{UNSOUGHT_ON_PAPER, Unsought};
use crate::parts::Tick;
use crate::state::{Act, Desk, Dispatcher};
use crate::worker::{self, End, LaidPage, Wanted};

/// The step Sheets: every page, each to print or to leave out.
#[component]
pub fn SheetsPage() -> Html {
    let desk = use_desk();
    let pages = use_pages();
    let onprint = use_act(|(place, prints)| Act::Print(place, prints));
    if !desk.session.design.is_sought() {
        return html! {
            <section class="Pages" aria-label="Pages" tabindex="-1">
                <Unsought /><p>{ UNSOUGHT_ON_PAPER }</p>
            </section>
        };
    }
    let page = |(place, page): (usize, &Rc<Preview>)| {
        let prints = !desk.left_out.contains(&place);
        html! { <PagePreview key={place} page={page.clone()} {prints} onset={onprint.reform(move |on| (place, on))} /> }
    };
    let words = match pages.state {
        Laying::Begun => Some("The sheets are being laid out."),
        Laying::Done => None,
        Laying::Ended(end) => Some(sentence(end)),
    };
    html! {
        <section class="Pages" aria-label="Pages" tabindex="-1" data-paper={desk.paper.name()}>
            { for pages.pages.iter().enumerate().map(page) }
            if let Some(words) = words { <p class="PagesState" role="status">{ words }</p> }
        </section>
    }
}

/// Why sheets were not laid out to their end.
pub fn sentence(end: End) -> &'static str {
    match end {
        End::Time => {
            "Laying the sheets out takes over 30 s and was stopped. Hand the plan on as a file or a link instead, or take some of it away."
        }
        End::Memory => {
            "Laying the sheets out takes over 500 MB of memory and was stopped. Hand the plan on as a file or a link instead, or take some of it away."
        }
        End::Fault => {
            "A fault in this program ended the laying out of the sheets. The plan is whole: hand it on as a file or a link, or load the page again."
        }
    }
}

/// What is wanted of the sheets in this step.
pub fn wanted(plan: &Plan, desk: &Desk) -> Wanted {
    Wanted {
        size: desk.paper,
        tongue: desk.tongue,
        stack: desk.stack,
        link: code::address_of(plan, Privacy::Everything),
    }
}

/// How far the laying out is.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
enum Laying {
    #[default]
    Begun,
    Done,
    Ended(End),
}

/// The pages so far.
#[derive(Clone, Default, PartialEq)]
struct Pages {
    /// Counts what was begun: pages of an older laying out come too late.
    turn: u32,
    pages: Vec<Rc<Preview>>,
    state: Laying,
}

enum Change {
    Begin(u32),
    Add(u32, Preview),
    End(u32, Laying),
}

impl Reducible for Pages {
    type Action = Change;

    fn reduce(self: Rc<Self>, change: Change) -> Rc<Self> {
        let mut next = (*self).clone();
        match change {
            Change::Begin(turn) => {
                next = Self {
                    turn,
                    ..Self::default()
                }
            }
            Change::Add(turn, page) if turn == self.turn => next.pages.push(Rc::new(page)),
            Change::End(turn, state) if turn == self.turn => next.state = state,
            Change::Add(..) | Change::End(..) => {}
        }
        Rc::new(next)
    }
}

/// The pages of the plan on the table, laid out beside the page and shown one by one.
#[hook]
fn use_pages() -> UseReducerHandle<Pages> {
    let (desk, dispatcher) = (use_desk(), use_dispatcher());
    let pages = use_reducer_eq(Pages::default);
    let turns = use_mut_ref(|| 0_u32);
    let (plan, design) = (desk.session.plan.clone(), desk.session.design.clone());
    let key = (
        Rc::as_ptr(&plan),
        Rc::as_ptr(&design),
        desk.paper,
        desk.tongue,
        desk.stack,
    );
    let change = pages.dispatcher();
    use_effect_with(key, move |_| {
        *turns.borrow_mut() += 1;
        let turn = *turns.borrow();
        change.dispatch(Change::Begin(turn));
        if !design.is_sought() {
            return rest(&dispatcher);
        }
        let wanted = wanted(&plan, &desk);
        dispatcher.dispatch(Act::LayOut(true));
        spawn_local(async move {
            let add = |page| change.dispatch(Change::Add(turn, Preview::of(page)));
            let done = worker::sheets(&plan, &design, wanted, add).await;
            let state = done.map_or_else(Laying::Ended, |()| Laying::Done);
            change.dispatch(Change::End(turn, state));
            if *turns.borrow() == turn {
                rest(&dispatcher);
            }
        });
    });
    pages
}

/// Nothing more is laid out.
fn rest(dispatcher: &Dispatcher) {
    dispatcher.dispatch(Act::LayOut(false));
}

/// One page as it was laid out.
#[derive(Clone, PartialEq)]
struct Preview {
    name: String,
    scale: String,
    lie: &'static str,
    ink: AttrValue,
}

impl Preview {
    fn of(page: LaidPage) -> Self {
        Self {
            scale: page.scale,
            lie: if page.is_wide {
                "landscape"
            } else {
                "portrait"
            },
            ink: page.ink.into(),
            name: page.name,
        }
    }
}

#[derive(Properties, PartialEq)]
struct PagePreviewProps {
    page: Rc<Preview>,
    prints: bool,
    onset: Callback<bool>,
}

#[component]
fn PagePreview(props: &PagePreviewProps) -> Html {
    let page = &props.page;
    let ink = Html::from_html_unchecked(page.ink.clone());
    html! {
        <article class="PagePreview" data-lie={page.lie} data-prints={props.prints.to_string()}>
            <div class="PageHead">
                <Tick label={format!("Print {}", page.name)} ticked={props.prints} onset={props.onset.clone()} />
                <span class="Quiet">{ &page.scale }</span>
            </div>
            <div class="PagePaper">{ ink }</div>
        </article>
    }
}
