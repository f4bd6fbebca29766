//! The root component: the desk, its two contexts, and where things lie on the page.

use std::rc::Rc;

use borewright_core::desk::Session;
use borewright_core::plan::Plan;
use yew::prelude::*;

use crate::drawing::Sheet;
use crate::hooks::{use_keeping, use_keys, use_start};
use crate::panels::{Shelf, Slip, Steps, Tally};
use crate::state::{Desk, Dispatcher};

/// The whole page.
#[component]
pub fn App() -> Html {
    let desk = use_reducer_eq(|| Desk::of(Session::of(Plan::new())));
    let dispatcher = desk.dispatcher();
    let now = Rc::new((*desk).clone());
    use_start(&dispatcher);
    use_keys(&now, &dispatcher);
    use_keeping(&now, &dispatcher);
    let step = now.session.step.name();
    html! {
        <ContextProvider<Dispatcher> context={dispatcher}>
            <ContextProvider<Rc<Desk>> context={now}>
                <div class="App" data-step={step}>
                    <Tally />
                    <Steps />
                    <main class="Table">
                        <Sheet />
                        <Slip />
                    </main>
                    <Shelf />
                </div>
            </ContextProvider<Rc<Desk>>>
        </ContextProvider<Dispatcher>>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use gloo::utils::document;
    use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

    wasm_bindgen_test_configure!(run_in_browser);

    /// The runner keeps its own words in the body, so the page goes into a part of its own.
    #[wasm_bindgen_test]
    async fn the_page_mounts_and_names_itself() {
        let part = document().create_element("div").unwrap();
        document().body().unwrap().append_child(&part).unwrap();
        let handle = yew::Renderer::<App>::with_root(part.clone()).render();
        gloo::timers::future::TimeoutFuture::new(0).await;
        assert!(part.text_content().unwrap().contains("Borewright"));
        handle.destroy();
    }
}
