//! A picture by itself, at its own size.

use std::rc::Rc;

use borewright_core::picture::{Picture, SCREEN_MM};
use yew::prelude::*;

use super::ink::PictureInk;

/// What a [`PictureBox`] shows.
#[derive(Properties)]
pub struct PictureBoxProps {
    /// The picture.
    pub picture: Rc<Picture>,
    /// What it is, in words.
    pub label: AttrValue,
}

impl PartialEq for PictureBoxProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.picture, &other.picture) && self.label == other.label
    }
}

/// A picture as large as its scale says, with a narrow margin; nothing for an empty one.
#[component]
pub fn PictureBox(props: &PictureBoxProps) -> Html {
    let picture = &props.picture;
    let Some((low, high)) = picture.bounds() else {
        return html! {};
    };
    let margin = picture.scale;
    let (width, height) = (high.x - low.x + 2.0 * margin, high.y - low.y + 2.0 * margin);
    let pixels = |length: f64| format!("{:.1}", length / picture.scale / SCREEN_MM);
    let view_box = format!(
        "{:.2} {:.2} {width:.2} {height:.2}",
        low.x - margin,
        low.y - margin
    );
    html! {
        <div class="PictureBox">
            <svg role="img" aria-label={props.label.clone()} width={pixels(width)} height={pixels(height)}
                viewBox={view_box}>
                <PictureInk picture={picture.clone()} />
            </svg>
        </div>
    }
}
