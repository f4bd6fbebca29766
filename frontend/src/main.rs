//! Entry of the page: mounts the application; in a worker, takes orders instead.

mod app;
mod browser;
mod demo;
mod drawing;
mod hooks;
mod panels;
mod parts;
mod print;
mod state;
mod worker;

fn main() {
    if browser::program::is_worker() {
        return worker::serve();
    }
    browser::stopped::watch();
    let root = gloo::utils::document().get_element_by_id("page");
    let root = root.unwrap_or_else(|| gloo::utils::body().into());
    yew::Renderer::<app::App>::with_root(root).render();
}
