//! Named points of the job on the table, made at printing, sharing and handover, to return to.

use std::rc::Rc;

use borewright_core::desk::{Intent, Notice};
use borewright_core::file::job::Point;
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

use crate::browser::{clock, jobs};
use crate::hooks::{use_desk, use_dispatcher};
use crate::panels::icons;
use crate::parts::{Press, PressKind};
use crate::state::{Act, Dispatcher, Keeping};

/// The points, the newest first; nothing where there is none.
#[component]
pub fn Points() -> Html {
    let desk = use_desk();
    let dispatcher = use_dispatcher();
    let points = use_state(|| Rc::new(Vec::<Point>::new()));
    let id = desk.place.id().cloned();
    {
        let points = points.clone();
        let is_written = desk.keeping == Keeping::Kept;
        use_effect_with((id.clone(), desk.point.0, is_written), move |(id, _, _)| {
            let id = id.clone();
            spawn_local(async move {
                let Some(id) = id else { return };
                // A storage that cannot be read is told of elsewhere.
                if let Ok(found) = jobs::points(&id).await {
                    points.set(Rc::new(found));
                }
            });
        });
    }
    let Some(id) = id.filter(|_| !points.is_empty()) else {
        return html! {};
    };
    let line = |(place, point): (usize, &Point)| {
        let (id, point, dispatcher) = (Rc::clone(&id), point.clone(), dispatcher.clone());
        let when = clock::told(point.moment);
        let name = format!("Return to {}, {when}", point.name);
        let words = format!("{} · {when}", point.name);
        let onpress = Callback::from(move |()| {
            go_back(Rc::clone(&id), point.clone(), dispatcher.clone());
        });
        html! {
            <li class="ListLine" key={place}>
                <span>{ words }</span>
                <Press label="Return" {name} icon={icons::UNDO} kind={PressKind::Quiet} {onpress} />
            </li>
        }
    };
    html! {
        <section aria-label="Points to return to">
            <h3>{ "Points to return to" }</h3>
            <ul class="List">{ for points.iter().enumerate().map(line) }</ul>
        </section>
    }
}

/// Goes back to a point, as one step that can be undone.
fn go_back(id: Rc<str>, point: Point, dispatcher: Dispatcher) {
    spawn_local(async move {
        let plan = match jobs::drawings(&id).await {
            Ok(drawings) => point.plan(&drawings).map_err(|error| error.to_string()),
            Err(sentence) => Err(sentence),
        };
        dispatcher.dispatch(match plan {
            Ok(opened) => Act::Want(Intent::Return(Rc::new(opened.plan), point.name)),
            Err(sentence) => Act::Say(Notice::refused(sentence, None)),
        });
    });
}
