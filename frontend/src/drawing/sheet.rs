//! The sheet: the paper with its layers, and what is said on it.

use std::rc::Rc;
use std::sync::Arc;

use borewright_core::desk::Draft;
use yew::prelude::*;

use super::beneath::BeneathLayer;
use super::draft::DraftLayer;
use super::frame::laid;
use super::handles::{Handles, handles};
use super::level::{LevelLayer, stress};
use super::pins::{PinLayer, marks};
use super::scan::ScanLayer;
use super::surface::{use_surface, use_wheel};
use crate::hooks::{use_act, use_desk, use_settled, use_size};
use crate::state::{Act, Desk};

/// The sheet with its drawing.
#[component]
pub fn Sheet() -> Html {
    let desk = use_desk();
    let node = use_node_ref();
    let surface = use_surface(&node);
    let onsize = use_act(|(width, height)| Act::Sized(width, height));
    use_size(&node, onsize);
    let onwheel = use_wheel();
    let tool = format!("{:?}", desk.session.tool);
    html! {
        <div class="Sheet" ref={node} data-tool={tool} data-held={desk.held.is_some().to_string()}
            onpointerdown={surface.clone()} onpointermove={surface.clone()} onpointerup={surface.clone()}
            onpointercancel={surface.clone()} onpointerleave={surface}
            oncontextmenu={|event: MouseEvent| event.prevent_default()} {onwheel}>
            <Layers />
        </div>
    }
}

/// Everything drawn, in plan millimetres.
#[component]
fn Layers() -> Html {
    let desk = use_desk();
    let session = &desk.session;
    let settled = use_settled(desk.view.scale);
    let shown = (session.level, stress(session.step, desk.site.phase));
    // What they say is worked out once a plan, not at every move of the pointer.
    let plan = Rc::as_ptr(session.shown_plan());
    let handles = use_memo((plan, session.level, session.chosen), |_| handles(&desk));
    html! {
        <svg class="SheetInk" role="application" aria-label="Sheet" tabindex="0" width="100%" height="100%">
            <g transform={laid(&desk.view)}>
                { scan(&desk) }
                <BeneathLayer plan={session.shown_plan().clone()} level={session.level} />
                <LevelLayer plan={session.shown_plan().clone()} design={session.shown_design().clone()}
                    {shown} frame={desk.in_sight()} chosen={session.chosen} scale={settled} />
                <PinLayer marks={marks(session)} scale={settled} />
                <DraftLayer session={session.clone()} scale={desk.view.scale} />
                <Handles {handles} scale={settled} />
            </g>
        </svg>
    }
}

fn scan(desk: &Desk) -> Html {
    let plan = desk.session.shown_plan();
    let Some(sheet) = plan.level(desk.session.level).map(|level| &level.sheet) else {
        return html! {};
    };
    let Some(scan) = &sheet.scan else {
        return html! {};
    };
    let moving = matches!(desk.session.draft, Some(Draft::Move { what: None, .. }));
    let fade = if moving {
        desk.fade().max(60)
    } else {
        desk.fade()
    };
    html! { <ScanLayer scan={Arc::clone(scan)} placing={sheet.placing} {fade} /> }
}
