//! The root component.

use yew::prelude::*;

/// The whole page.
#[component]
pub fn App() -> Html {
    html! { <main>{ "Borewright" }</main> }
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
