//! The pages of the job as they will lie on paper.

use std::rc::Rc;

use borewright_core::design::Design;
use borewright_core::file::link::Privacy;
use borewright_core::plan::Plan;
use borewright_core::sheet::{Page, Paper, Sheets, Stack};
use yew::prelude::*;

use super::code;
use crate::hooks::{use_act, use_desk};
use crate::parts::Tick;
use crate::state::{Act, Desk};

/// The step Sheets: every page, each to print or to leave out.
#[component]
pub fn SheetsPage() -> Html {
    let desk = use_desk();
    let (plan, design) = (&desk.session.plan, &desk.session.design);
    let (paper, stack) = (paper_of(&desk), desk.stack);
    let pages = use_memo((Rc::as_ptr(plan), Rc::as_ptr(design), paper, stack), |_| {
        laid_out(plan, design, &paper, stack)
            .into_iter()
            .map(Preview::of)
            .collect::<Vec<_>>()
    });
    let onprint = use_act(|(place, prints)| Act::Print(place, prints));
    let page = |(place, page): (usize, &Preview)| {
        let prints = !desk.left_out.contains(&place);
        html! { <PagePreview key={place} page={page.clone()} {prints} onset={onprint.reform(move |on| (place, on))} /> }
    };
    html! {
        <section class="Pages" aria-label="Pages" tabindex="-1" data-paper={paper.size.name()}>
            { for pages.iter().enumerate().map(page) }
        </section>
    }
}

/// The paper sheets are laid out for.
pub fn paper_of(desk: &Desk) -> Paper {
    Paper::of(desk.paper).in_tongue(desk.tongue)
}

/// The pages that lie in the step Sheets: all of them, or a stack.
pub fn laid_out(plan: &Plan, design: &Design, paper: &Paper, stack: Option<Stack>) -> Vec<Page> {
    let link = code::address_of(plan, Privacy::Everything);
    match stack {
        Some(stack) => Sheets::stack(plan, design, paper, stack, link.as_deref()),
        None => Sheets::with_link(plan, design, paper, link.as_deref()),
    }
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
    fn of(page: Page) -> Self {
        Self {
            scale: page
                .scale
                .map(|scale| format!("at {}", scale.name))
                .unwrap_or_default(),
            lie: if page.extent.width > page.extent.height {
                "landscape"
            } else {
                "portrait"
            },
            ink: page.svg().into(),
            name: page.name,
        }
    }
}

#[derive(Properties, PartialEq)]
struct PagePreviewProps {
    page: Preview,
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
