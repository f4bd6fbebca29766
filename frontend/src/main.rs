//! Entry of the page: mounts the application and nothing else.

mod app;

fn main() {
    yew::Renderer::<app::App>::new().render();
}
